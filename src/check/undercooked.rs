//! `undercooked`: meat, poultry, fish and egg that are said to be done before they are hot enough in the middle, and beans that never boil.

use super::dough::inside;
use super::{Check, Family, Run, Subject};
use crate::check::caution;
use crate::measure::number::Number;
use crate::measure::quantity::Duration;
use crate::measure::show::{self, Units};
use crate::measure::temperature::Temperature;
use crate::measure::value::{Said, Value};
use crate::model::cooking::{Later, bakes, called, cooks, first_draw, first_draws, has_word, says};
use crate::model::lowered::{Beginnings, beginnings};
use crate::model::kind::Kind;
use crate::model::recipe::{Ingredient, Part, PartId, Recipe, Refers};
use crate::model::step::{Step, StepKind, Target, Words};
use crate::text::diagnostic::{Diagnostic, Severity};

/// The check and its explanation.
pub(super) const CHECK: Check = Check {
    name: "undercooked",
    severity: Severity::Advice,
    family: Family::Safety,
    looks_for: "poultry, minced meat, pork, fish or egg that a step calls done at less in the middle than what makes it safe, and dried kidney \
                beans that are never boiled",
    why: "Salmonella and Campylobacter live in what is pink inside. The FDA Food Code wants 74 °C in the middle of poultry, 68 °C of minced \
          meat, 63 °C of fish, pork and dishes of egg. What is kept for an hour and a half and more in a bath or an oven of 85 °C or less is safe at less \
          (58 °C for poultry, 54 °C for other meat), what rests after the roast may come out three degrees before, and whole cuts of beef, lamb and game are \
          left alone. Dried beans of the kidney bean's kind hold a poison that only boiling takes away; a slow pot leaves it. What is served rare on purpose \
          says so in a `caution` line. This is general advice: local food law and licensed practice go before it.",
    bad: "recipe Roast chicken\nchicken breast .... 800 g\nsalt .... 8 g\nroast: tend 25 min, using oven at 180 C\n    \
          Roast {chicken breast} with {salt}.\n    until {58 C} in the middle\n",
    good: "recipe Roast chicken\nchicken breast .... 800 g\nsalt .... 8 g\nroast: tend 25 min, using oven at 180 C\n    \
           Roast {chicken breast} with {salt}.\n    until {75 C} in the middle\n",
    sources: &[
        "FDA Food Code 3-401.11: poultry and what is stuffed 74 °C, minced meat 68 °C, fish, meat and eggs 63 °C (from memory)",
        "FSIS Appendix A, time and temperature for poultry and meat (from memory)",
        "FDA Bad Bug Book, phytohaemagglutinin of kidney beans (from memory)",
    ],
    run: Run::Recipe(run),
};

/// What a food has in the middle at least, in °C, and what it is called.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
struct Least(i64, &'static str);

const POULTRY: Least = Least(74, "poultry");
const MINCED: Least = Least(68, "minced meat");
const FISH: Least = Least(63, "fish");
const PORK: Least = Least(63, "pork");
const EGG: Least = Least(63, "egg");

/// Birds, by the beginnings of words in a name.
const BIRDS: &[&str] =
    &["chicken", "poultry", "turkey", "duck", "goose", "poussin", "quail", "guinea", "pheasant", "partridge", "pigeon", "capon"];
/// What is made of an animal and is no meat, by the last word of a name.
const NO_MEAT: &[&str] = &[
    "stock", "broth", "fat", "egg", "eggs", "bouillon", "seasoning", "gravy", "powder", "jus", "cube", "cubes", "skin", "dripping", "oil", "sauce",
    "yolk", "yolks", "white", "whites", "paste", "roe",
];
/// What is not raw any more.
const NOT_RAW: &[&str] = &[
    "cooked", "roasted", "boiled", "hard-boiled", "poached", "braised", "grilled", "fried", "tinned", "canned", "smoked", "cured", "confit",
    "gammon", "bacon", "salami", "prosciutto", "pancetta", "chorizo", "dried", "pasteuri", "leftover", "jarred", "hot-smoked", "salt-cured",
];
const MINCED_WORDS: &[&str] = &["mince", "ground", "sausage", "burger", "patt", "meatball", "forcemeat", "kofta"];
/// Kept so long in what is no hotter than [`MILD`], a piece is safe at less.
const LONG: Duration = Duration::new(Number::whole(90 * 60));
const MILD: Number = Number::whole(85);
/// So many degrees a roast still gains while it rests.
const CARRIED: i64 = 3;
/// Where a temperature in the sentences of a step is that of the middle.
const MIDDLE: &Beginnings = &Beginnings::of(&["inside", "middle", "core", "centre", "center", "thigh", "thickest"]);

fn run(subject: &Subject<'_>, diagnostics: &mut Vec<Diagnostic>) {
    let recipe = subject.recipe;
    let mut later = Later::of(recipe);
    for (id, part, _) in subject.own_parts() {
        diagnostics.extend(never_boiled(part));
        for (at, step) in part.steps.iter().enumerate() {
            let Some((said, temperature)) = done_at(step) else { continue };
            let Some((least, line)) = needed(recipe, part, at) else { continue };
            if !is_too_cool(part, (at, step), temperature, least) || later.is_cooked(id, at + 1) != Some(false) {
                continue;
            }
            if caution::is_said(recipe, part, &["undercook", "raw", "rare", "pink", "core", "pasteuri"]) {
                continue;
            }
            let Least(degrees, what) = least;
            let safe = show::temperature(Temperature::from_celsius(Number::whole(degrees)), Units::Metric);
            let message = format!("`{}` is done at {}: {what} has {safe} in the middle at least", step.name, show::said_plain(said));
            diagnostics.push(
                Diagnostic::advice(CHECK.name, said.span, message)
                    .also(line.name.span, "raw when it goes in")
                    .help(format!("cook it to {safe}, or add a `caution` line that says it is served undercooked; local food law goes before this")),
            );
        }
    }
}

/// The temperature in the middle at which a step that cooks is done.
fn done_at(step: &Step) -> Option<(&Said, Temperature)> {
    if step.kind == StepKind::Wait || !cooks(step) || says(step, beginnings!["cool", "lukewarm", "tepid"]) {
        return None;
    }
    fn measures(words: &[Words]) -> impl Iterator<Item = (&Said, Temperature)> {
        let first = words.iter().filter_map(|word| if let Words::Measure(said) = word { said.first() } else { None });
        first.filter_map(|said| if let Value::Temperature(at) = said.most() { Some((said, at)) } else { None })
    }
    let in_words = || measures(&step.words).filter(|_| says(step, MIDDLE)).max_by_key(|(_, at)| *at);
    measures(&step.cue).max_by_key(|(_, at)| *at).or_else(in_words)
}

/// What the food that has gone in up to a step needs, and the line that needs the most.
fn needed<'r>(recipe: &'r Recipe, part: &'r Part, at: usize) -> Option<(Least, &'r Ingredient)> {
    let draws = first_draws(part);
    let gone_in = part.lines.iter().enumerate().filter(|(number, _)| {
        // Where no step takes anything, all is there from the start.
        draws.is_empty() || draws.get(&Target::Line(*number)).is_some_and(|first| *first <= at)
    });
    let mut most: Option<(Least, &Ingredient)> = None;
    let mut take = |line: &'r Ingredient| {
        // A dough with egg in it is done when its crumb is; that is told by `odd-temperature`.
        let in_dough = line.kind == Kind::Egg && part.lines.iter().any(|line| line.is_flour && !line.aside);
        if let Some(least) = least(line).filter(|_| !in_dough)
            && most.is_none_or(|(known, _)| known < least)
        {
            most = Some((least, line));
        }
    };
    for (_, line) in gone_in {
        match line.refers {
            Refers::Pantry(_) => take(line),
            Refers::Part(other) => raw_lines(recipe, other).for_each(&mut take),
        }
    }
    most
}

/// The lines of a part, and of all that lies in it, where nothing has cooked them.
fn raw_lines(recipe: &Recipe, id: PartId) -> impl Iterator<Item = &Ingredient> {
    let is_cooked = recipe.part(id).is_some_and(|part| part.steps.iter().any(cooks));
    let parts = if is_cooked { Vec::new() } else { inside(recipe, id) };
    let raw = parts.into_iter().filter_map(|inner| recipe.part(inner)).filter(|part| !part.steps.iter().any(cooks));
    raw.flat_map(|part| part.lines.iter())
}

/// What a line needs in the middle, if it is raw and an animal's.
fn least(line: &Ingredient) -> Option<Least> {
    let mut name = line.name.key.as_str().to_owned();
    let last = name.split(' ').next_back().unwrap_or("").to_owned();
    if let Some(preparation) = &line.preparation {
        name.push(' ');
        name.push_str(&preparation.to_lowercase());
    }
    if line.aside || line.strained_out || has_word(&name, NOT_RAW) || last == "ham" || line.facts().is_some_and(|facts| facts.flags.ready_to_eat) {
        return None;
    }
    let is_bird = has_word(&name, BIRDS) && !NO_MEAT.contains(&last.as_str());
    match line.kind {
        Kind::Egg => Some(EGG),
        Kind::Meat | Kind::Other if is_bird => Some(POULTRY),
        Kind::Meat if has_word(&name, MINCED_WORDS) => Some(MINCED),
        Kind::Meat if has_word(&name, ["pork"]) => Some(PORK),
        Kind::Fish => Some(FISH),
        _ => None,
    }
}

fn is_too_cool(part: &Part, (at, step): (usize, &Step), done: Temperature, least: Least) -> bool {
    let Least(degrees, _) = least;
    let rests = part.steps.get(at + 1).is_some_and(|next| next.kind == StepKind::Wait && called(next, beginnings!["rest", "stand"]));
    let carried = if rests && bakes(step) && least != EGG { CARRIED } else { 0 };
    let celsius = done.celsius();
    if celsius >= Number::whole(degrees - carried) {
        return false;
    }
    // A bath or a slow oven does in hours what heat does at once.
    let mild = step.temperature.is_some_and(|(low, high)| high.unwrap_or(low).celsius() <= MILD);
    let by_time = Number::whole(if least == POULTRY { 58 } else { 54 });
    !(mild && step.time.0 >= LONG && celsius >= by_time)
}

/// Beans of the kidney bean's kind, by words of their names.
const BEANS: &[&str] = &["kidney", "cannellini", "borlotti", "haricot", "pinto", "navy bean", "black bean", "white bean", "red bean", "pea bean"];
/// Below, nothing boils.
const BOILS: Number = Number::whole(95);

/// Dried beans that only what does not boil cooks.
fn never_boiled(part: &Part) -> Option<Diagnostic> {
    let is_bean = |line: &Ingredient| {
        let is_known = matches!(line.kind, Kind::Pulse | Kind::Other) && matches!(line.refers, Refers::Pantry(_));
        let name = line.name.key.as_str();
        if !is_known || !has_word(name, BEANS) {
            return false;
        }
        let prepared = line.preparation.as_ref().is_some_and(|words| has_word(&words.to_lowercase(), NOT_RAW) && !has_word(&words.to_lowercase(), ["dried"]));
        !prepared && !has_word(name, ["cooked", "tinned", "canned", "boiled", "green", "flour", "paste", "jarred"])
    };
    let (number, line) = part.lines.iter().enumerate().find(|(_, line)| is_bean(line))?;
    let from = first_draw(part, Target::Line(number))?;
    let slow = |step: &Step| step.equipment.as_ref().is_some_and(|name| name.has_word(beginnings!["slow", "crock"]));
    let is_cooking = |step: &&Step| step.kind != StepKind::Wait && (cooks(step) || slow(step) || called(step, beginnings!["cook"]));
    let cooking: Vec<&Step> = part.steps.iter().skip(from).filter(is_cooking).collect();
    let mild = |step: &Step| {
        slow(step) && step.temperature.is_none() || step.temperature.is_some_and(|(low, high)| high.unwrap_or(low).celsius() < BOILS)
    };
    // What was boiled before it went in here says so.
    let boils = |step: &Step| says(step, beginnings!["boil", "simmer"]);
    let first = cooking.first().copied().filter(|_| cooking.iter().all(|step| mild(step)) && !part.steps.iter().any(boils))?;
    let message = format!("`{}` never boils: dried beans of this kind hold a poison that only boiling takes away", line.name);
    Some(
        Diagnostic::advice(CHECK.name, line.name.span, message)
            .also(first.name.span, "too cool for it")
            .help("soak them, and boil them for half an hour in fresh water before anything slower; tinned ones are cooked: write `tinned` behind them"),
    )
}
