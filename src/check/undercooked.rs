//! `undercooked`: meat, poultry, fish and egg that are said to be done before they are hot enough in the middle.

use super::done::done_at;
use super::dough::inside;
use super::statement::{self, UNDERCOOKED};
use super::{Check, Family, Run, Subject, tell};
use crate::measure::number::Number;
use crate::measure::quantity::Duration;
use crate::measure::show;
use crate::measure::temperature::Temperature;
use crate::measure::value::Said;
use crate::model::animals::is_bird;
use crate::model::cooking::cold_words::COOLED;
use crate::model::cooking::raw_flesh::{is_minced, is_raw};
use crate::model::cooking::state::is_so;
use crate::model::cooking::state_words::State;
use crate::model::cooking::{Later, bakes, called, chills, cooks, first_draws, has_word_beginning, may_say, words_of};
use crate::model::flow::reached;
use crate::model::kind::Kind;
use crate::model::lowered::{Beginnings, beginnings};
use crate::model::recipe::{Ingredient, Part, PartId, Recipe, Refers};
use crate::model::step::{Step, StepKind, Target, Words, temperatures};
use crate::text::denied::is_denied;
use crate::text::diagnostic::{Diagnostic, Severity};
use crate::text::words::words_without_hyphens;

/// The check and its explanation.
pub(super) const CHECK: Check = Check {
    name: "undercooked",
    severity: Severity::Advice,
    family: Family::Safety,
    looks_for: "poultry, minced meat, pork, fish or egg that a step calls done at less in the middle than what makes it safe",
    why: "Salmonella and Campylobacter live in what is pink inside. The FDA Food Code wants 74 °C (165 °F) in the middle of poultry, 68 °C (155 °F) of minced \
          meat, 63 °C (145 °F) of fish, pork and dishes of egg, and 68 °C of a custard that is chilled or kept; of a range its low end counts. What is half done and then stands is no better for being cooked again. What is kept for an hour and a half and more in a bath or an oven of 85 °C or less is safe at less \
          (58 °C for poultry, 54 °C for other meat), what rests after the roast may come out three degrees before, and whole cuts of beef, lamb and game are \
          left alone. What is served rare on purpose says so in a `caution` line. This is general advice: local food law and licensed practice go before it.",
    bad: "recipe Roast chicken\nchicken breast .... 800 g\nsalt .... 8 g\nroast: tend 25 min, using oven at 180 C\n    \
          Roast {chicken breast} with {salt}.\n    until {58 C} in the middle\n",
    good: "recipe Roast chicken\nchicken breast .... 800 g\nsalt .... 8 g\nroast: tend 25 min, using oven at 180 C\n    \
           Roast {chicken breast} with {salt}.\n    until {75 C} in the middle\n",
    sources: &[
        "FDA Food Code 3-401.11: poultry and what is stuffed 74 °C, minced meat 68 °C, fish, meat and eggs 63 °C (from memory)",
        "FSIS Appendix A, time and temperature for poultry and meat (from memory)",
    ],
    run: Run::Parts(run),
};

/// What a food has in the middle at least, in °C and in °F as the Food Code prints both, and what it is called.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
struct Least(i64, i64, &'static str);

impl Least {
    /// The lower of the two: 165 °F are 73.9 °C, and 68 °C are 154.4 °F.
    fn celsius(self) -> Number {
        let Least(celsius, fahrenheit, _) = self;
        let other = Temperature::from_fahrenheit(Number::whole(fahrenheit))
            .map_or(Number::whole(celsius), Temperature::celsius);
        other.min(Number::whole(celsius))
    }

    fn is_egg(self) -> bool {
        [EGG, KEPT_EGG].contains(&self)
    }

    fn shown(self) -> String {
        let Least(celsius, fahrenheit, _) = self;
        format!("{celsius} °C ({fahrenheit} °F)")
    }
}

const STUFFED: Least = Least(74, 165, "what is stuffed");
const POULTRY: Least = Least(74, 165, "poultry");
const MINCED: Least = Least(68, 155, "minced meat");
const FISH: Least = Least(63, 145, "fish");
const PORK: Least = Least(63, 145, "pork");
const EGG: Least = Least(63, 145, "egg");
/// 63 °C are for egg that is eaten at once.
const KEPT_EGG: Least = Least(68, 155, "custard that is kept");

/// Kept so long in what is no hotter than [`MILD`], a piece is safe at less.
const LONG: Duration = Duration::new(Number::whole(90 * 60));
const MILD: Number = Number::whole(85);
/// So many degrees a roast still gains while it rests.
const CARRIED: i64 = 3;
fn run(subject: &Subject<'_>, diagnostics: &mut Vec<Diagnostic>) {
    let recipe = subject.recipe;
    let mut later = Later::of(recipe);
    for (id, part, _) in subject.own_parts() {
        for (at, step) in part.steps.iter().enumerate() {
            let Some((said, temperature)) =
                done_at(step).or_else(|| done_in_a_bath(step)).or_else(|| egg_heated_to(part, step))
            else {
                tell(diagnostics, done_pink(recipe, (id, part), at, &mut later));
                continue;
            };
            let Some((least, line, number)) = needed(recipe, part, at) else { continue };
            if !is_too_cool(part, (at, step), temperature, least) {
                continue;
            }
            let cooked_later = later.is_line_cooked(id, at + 1, number);
            // Two minutes in a pan make it brown, and no warmer in the middle.
            let is_only_browned = || {
                let mut later = part.steps.iter().skip(at + 1).filter(|step| cooks(step)).peekable();
                later.peek().is_some() && later.all(browns) && !recipe.is_drawn_on(id)
            };
            let cooked_later = cooked_later.map(|cooked| cooked && !is_only_browned());
            let too_cool =
                cooked_later.filter(|cooked| *cooked).and_then(|_| last_too_cool(recipe, (id, part), at, least));
            let cooked_later = cooked_later.map(|cooked| cooked && too_cool.is_none());
            if cooked_later != Some(false)
                && !(cooked_later == Some(true) && !least.is_egg() && least != FISH && stands_before(part, at))
            {
                continue;
            }
            if statement::states_of((recipe, part), UNDERCOOKED, Some(line)) {
                continue;
            }
            let Least(.., what) = least;
            let safe = least.shown();
            // The last heat is the one to mend.
            let (name, done) = too_cool.map_or((&step.name, said), |(last, done)| (&last.name, done));
            let message =
                format!("`{name}` is done at {}: {what} has {safe} in the middle at least", show::said_plain(done));
            let help = match cooked_later {
                Some(true) => format!(
                    "cook it to {safe} at once: what is half done and stands until it is cooked again is how people fall ill; local food law goes before this"
                ),
                _ => format!(
                    "cook it to {safe}, or add a `caution` line that says it is served undercooked; local food law goes before this"
                ),
            };
            let problem =
                Diagnostic::advice(CHECK.name, done.span, message).also(line.name.span, "raw when it goes in");
            diagnostics.push(problem.help(help));
        }
    }
}

/// How hot the middle is when a step is done that keeps something in a bath too mild to cook it at once: `water bath at 53 C`, `until {52 C} in the middle`.
fn done_in_a_bath(step: &Step) -> Option<(&Said, Temperature)> {
    let is_bath = |(low, high): (Temperature, Option<Temperature>)| {
        (Number::whole(45)..Number::whole(63)).contains(&high.unwrap_or(low).celsius())
    };
    let is_one = step.kind == StepKind::Tend && step.temperature.is_some_and(is_bath) && !cooks(step);
    let mut said = step.cue.iter().filter(|_| is_one).filter_map(Words::temperature);
    said.next().map(|(said, (low, _))| (said, low))
}

/// How hot the words of a step on the hob say that the egg gets which it takes, where its sign says nothing: `Stir {egg yolk} and {whole milk} to
/// {50 C}`. What was warmed before the egg goes in, and what cools, is another heat.
fn egg_heated_to<'p>(part: &Part, step: &'p Step) -> Option<(&'p Said, Temperature)> {
    let is_egg = |word: &Words| match word {
        Words::Use { target: Some(Target::Line(at)), .. } => {
            part.lines.get(*at).is_some_and(|line| line.kind == Kind::Egg && line.stays_in())
        }
        _ => false,
    };
    let first = step.words.iter().position(is_egg).filter(|_| cooks(step) && !bakes(step))?;
    let cools = |at: usize| {
        let before = at.checked_sub(1).and_then(|before| step.words.get(before));
        matches!(before, Some(Words::Text(text)) if COOLED.begin_in(&text.to_lowercase()))
    };
    let hot = step.words.iter().enumerate().skip(first + 1).filter(|(at, _)| !cools(*at));
    let read = hot.filter_map(|(_, word)| word.temperature()).map(|(said, (low, _))| (said, low));
    // A room is no heat; but what is stirred on the hob for minutes, with no other figure in its words, is done at the one that stands there.
    let all = temperatures(step.words.iter().chain(&step.cue)).count();
    let is_only = all == 1 && step.time.1 >= Duration::minutes(4);
    let least = if is_only { 20 } else { 30 };
    read.max_by_key(|(_, at)| *at).filter(|(_, at)| at.celsius() >= Number::whole(least))
}

/// So long what lies in a pan or under a flame only browns.
const BROWNS: Duration = Duration::new(Number::whole(6 * 60));

/// Whether a step only browns what is in it: for minutes, with no temperature that it gets to, and in no liquid.
fn browns(step: &Step) -> bool {
    step.time.1 <= BROWNS
        && done_at(step).is_none()
        && called(
            step,
            beginnings!["sear", "brown", "char", "torch", "crisp", "colour", "color", "fry", "grill", "finish"],
        )
}

/// The last that cooks it later, in its part or in one that takes it up, where all of those call it done too cool as well.
fn last_too_cool<'r>(
    recipe: &'r Recipe,
    (id, part): (PartId, &'r Part),
    at: usize,
    least: Least,
) -> Option<(&'r Step, &'r Said)> {
    let users = reached(id, |here| recipe.users(here).map(|(user, _)| user).collect::<Vec<PartId>>());
    let others = users.into_iter().filter(|user| *user != id).filter_map(|user| recipe.part(user));
    let steps = part.steps.iter().skip(at + 1).chain(others.flat_map(|part| &part.steps)).filter(|step| cooks(step));
    let sign = |step: &'r Step| {
        done_at(step).filter(|(_, at)| at.celsius() < least.celsius()).map(|(said, at)| (step, said, at))
    };
    let all: Vec<(&Step, &Said, Temperature)> = steps.map(sign).collect::<Option<_>>()?;
    // Of several the one that comes nearest.
    all.into_iter().max_by_key(|(.., at)| *at).map(|(step, said, _)| (step, said))
}

/// Whether what a step half cooked stands before anything of its part is cooked again: for half an hour, in the cold, or for days.
fn stands_before(part: &Part, at: usize) -> bool {
    let mut rest = part.steps.iter().skip(at + 1);
    let mut between = rest.by_ref().take_while(|step| !cooks(step));
    let stands =
        between.any(|step| step.kind == StepKind::Wait && (chills(step) || step.time.1 >= Duration::minutes(30)));
    stands || (part.keeps.is_some() && !part.steps.iter().skip(at + 1).any(cooks))
}

/// Whether something has gone in up to a step that is safe only from so many degrees on.
pub(super) fn takes_what_is_asked(recipe: &Recipe, part: &Part, at: usize) -> bool {
    needed(recipe, part, at).is_some()
}

/// What the food that has gone in up to a step needs, and the line that needs the most.
fn needed<'r>(recipe: &'r Recipe, part: &'r Part, at: usize) -> Option<(Least, &'r Ingredient, usize)> {
    let draws = first_draws(part);
    let gone_in = part.lines.iter().enumerate().filter(|(number, _)| {
        // Where no step takes anything, all is there from the start.
        draws.is_empty() || draws.get(&Target::Line(*number)).is_some_and(|first| *first <= at)
    });
    let mut most: Option<(Least, &Ingredient, usize)> = None;
    let mut take = |number: usize, line: &'r Ingredient, is_stuffed: bool| {
        // A dough with egg in it is done when its crumb is; that is told by `odd-temperature`.
        let in_dough = line.kind == Kind::Egg && part.lines.iter().any(|line| line.is_flour && !line.aside);
        let stuffed =
            || (is_stuffed && is_raw(line) && line.kind != Kind::Shellfish && line.stays_in()).then_some(STUFFED);
        let kept = || (line.kind == Kind::Egg && !in_dough && is_kept_custard(recipe, part, at)).then_some(KEPT_EGG);
        let own = least(line).filter(|_| !in_dough);
        if let Some(least) = own.max(own.and_then(|_| kept())).max(stuffed())
            && most.is_none_or(|(known, ..)| known < least)
        {
            most = Some((least, line, number));
        }
    };
    let is_stuffed = is_stuffed(recipe, part, at);
    let mut take_one = |number: usize, line: &'r Ingredient| take(number, line, is_stuffed);
    for (number, line) in gone_in {
        match line.refers {
            Refers::Pantry(_) => take_one(number, line),
            Refers::Part(other) => raw_lines(recipe, other).into_iter().for_each(|inner| take_one(number, inner)),
        }
    }
    most
}

/// Whether a part is a custard, of milk or cream and of more of the egg than its white, that is chilled, frozen or kept after a step: nobody eats it at once.
fn is_kept_custard(recipe: &Recipe, part: &Part, at: usize) -> bool {
    let is_milk = |line: &Ingredient| matches!(line.kind, Kind::Milk | Kind::Dairy) && line.stays_in();
    let is_yolk = |line: &Ingredient| line.kind == Kind::Egg && !line.is_egg_white() && line.stays_in();
    let is_kept = part.keeps.is_some_and(|keeps| keeps.time > Duration::minutes(4 * 60))
        || recipe.sale.good_for.as_ref().is_some_and(|good| good.time >= Duration::days(1))
        || part.steps.iter().skip(at + 1).any(|step| step.kind == StepKind::Wait && chills(step));
    // In an oven the middle is long at what it is done at.
    let is_stirred = part.steps.get(at).is_some_and(|step| !bakes(step));
    is_kept && is_stirred && part.lines.iter().any(is_milk) && part.lines.iter().any(is_yolk)
}

/// Whether something is stuffed by then, as the name of the recipe or a step says.
fn is_stuffed(recipe: &Recipe, part: &Part, at: usize) -> bool {
    const STUFF: &Beginnings = &Beginnings::of(&["stuff"]);
    let has = |text: &str| words_without_hyphens(text).any(|word| ["stuff", "stuffed"].contains(&word));
    let in_steps = || part.steps.iter().take(at + 1).any(|step| may_say(step, STUFF) && has(words_of(step)));
    has(recipe.name.key.as_str()) || has(part.name.key.as_str()) || in_steps()
}

/// Minced meat, poultry or pork that is done when it is pink, bloody or rare, as the sign of a step says. Pork may be pink at 63 °C.
fn done_pink(recipe: &Recipe, (id, part): (PartId, &Part), at: usize, later: &mut Later<'_>) -> Option<Diagnostic> {
    const PINK: &Beginnings = &Beginnings::of(&["pink", "rare", "blood", "blush", "raw"]);
    let step = part.steps.get(at).filter(|step| may_say(step, PINK) && cooks(step))?;
    let cue =
        step.cue.iter().filter_map(|word| if let Words::Text(text) = word { Some(text.to_lowercase()) } else { None });
    let cue = cue.collect::<Vec<String>>().join(" ");
    let said = words_without_hyphens(&cue).find(|word| ["pink", "rare", "bloody", "blushing", "raw"].contains(word))?;
    let words: Vec<&str> = words_without_hyphens(&cue).collect();
    let is_denied = is_denied(&words, words.len(), words.len(), &["longer"]);
    let (least, line, number) = needed(recipe, part, at)?;
    let is_sign = match least {
        PORK => said != "pink",
        POULTRY | MINCED | STUFFED => true,
        _ => false,
    };
    let mut is_cooked_later = || later.is_line_cooked(id, at + 1, number) != Some(false);
    if is_denied || !is_sign || is_cooked_later() || statement::states_of((recipe, part), UNDERCOOKED, Some(line)) {
        return None;
    }
    let (safe, Least(.., what)) = (least.shown(), least);
    let message = format!("`{}` is done when it is {said}: {what} has {safe} in the middle at least", step.name);
    let help = format!(
        "say the temperature as the sign, `until {{{} C}} in the middle`, or add a `caution` line that says it is served undercooked; local food law goes before this",
        least.0
    );
    Some(Diagnostic::advice(CHECK.name, step.name.span, message).also(line.name.span, "raw when it goes in").help(help))
}

/// The lines of a part, and of all that lies in it, where nothing has cooked them.
fn raw_lines(recipe: &Recipe, id: PartId) -> Vec<&Ingredient> {
    let Some(part) = recipe.part(id) else { return Vec::new() };
    if let Some(last) = part.steps.iter().rposition(cooks) {
        // The egg that is whisked in when the leeks have cooled is as raw as it was.
        let draws = first_draws(part);
        let is_late = |at: usize| draws.get(&Target::Line(at)).is_some_and(|first| *first > last);
        let lines = part.lines.iter().enumerate().filter(|(at, line)| line.part().is_none() && is_late(*at));
        return lines.map(|(_, line)| line).collect();
    }
    let raw = inside(recipe, id).into_iter().filter_map(|inner| recipe.part(inner));
    raw.filter(|part| !part.steps.iter().any(cooks)).flat_map(|part| part.lines.iter()).collect()
}

/// What a line needs in the middle, if it is raw and an animal's.
fn least(line: &Ingredient) -> Option<Least> {
    let name = line.name.key.as_str();
    let preparation = line.preparation.as_ref().map(|said| said.to_lowercase());
    let preparation = preparation.as_deref();
    if line.aside || line.strained_out {
        return None;
    }
    if line.kind == Kind::Egg {
        let is_done = is_so(line, State::Cooked) || line.facts().is_some_and(|facts| facts.flags.ready_to_eat);
        return (!is_done).then_some(EGG);
    }
    if !is_raw(line) {
        return None;
    }
    match line.kind {
        Kind::Fish => Some(FISH),
        Kind::Shellfish => None,
        _ if is_bird(name) => Some(POULTRY),
        _ if is_minced(name, preparation) => Some(MINCED),
        _ if has_word_beginning(name, ["pork"]) => Some(PORK),
        _ => None,
    }
}

fn is_too_cool(part: &Part, (at, step): (usize, &Step), done: Temperature, least: Least) -> bool {
    let rests = part
        .steps
        .get(at + 1)
        .is_some_and(|next| next.kind == StepKind::Wait && called(next, beginnings!["rest", "stand"]));
    let carried = if rests && bakes(step) && !least.is_egg() { CARRIED } else { 0 };
    let celsius = done.celsius();
    if celsius.plus(Number::whole(carried)).is_ok_and(|at| at >= least.celsius()) {
        return false;
    }
    // A bath or a slow oven does in hours what heat does at once.
    let mild = step.temperature.is_some_and(|(low, high)| high.unwrap_or(low).celsius() <= MILD);
    let by_time = Number::whole(if least == POULTRY { 58 } else { 54 });
    !(mild && step.time.0 >= LONG && celsius >= by_time)
}
