//! `left-warm`: raw meat, cream and cooked dishes that stand for hours where germs grow.

use crate::model::lowered::Beginnings;
use super::dough::{inside, massed, mille};
use super::{Check, Family, Run, Subject};
use crate::check::caution;
use crate::measure::number::Number;
use crate::measure::quantity::{Duration, Mass};
use crate::measure::show::{self, Units};
use crate::model::cooking::raw_flesh::is_raw;
use crate::model::cooking::state::is_said_to_be;
use crate::model::cooking::{Later, bakes, called, chills, cooks, first_draws, has_word, says, time_before_cold};
use crate::model::lowered::beginnings;
use crate::model::kind::Kind;
use crate::model::recipe::{Ingredient, Keeps, Part, PartId, Refers};
use crate::model::step::{Step, StepKind, Target};
use crate::solve::formula::SolvedPart;
use crate::text::diagnostic::{Diagnostic, Severity};

/// The check and its explanation.
pub(super) const CHECK: Check = Check {
    name: "left-warm",
    severity: Severity::Advice,
    family: Family::Safety,
    looks_for: "raw meat or fish, whipped cream and other milk, and dishes that are cooked and moist, in a step that stands above 8 °C for hours",
    why: "Between 5 and 57 °C germs double in less than an hour, and some leave poisons that no later heat takes away: rice that stood overnight, \
          cream in a warm window, mince that thaws on the bench. The FDA Food Code keeps such food at 5 °C or below, and lets it out of the cold for \
          four hours at most; what thaws, in the cold or under running water. Looked at are steps that wait for more than four hours, thawing, and what is eaten raw, for more \
          than two. Doughs, what is sweet as jam, sour, salted or cured, chocolate, and what a culture or a leaven turns sour are left alone, as is what is held hot \
          (`held-too-cool`) and what is cooled on its way to the cold (`slow-cooling`). This is general advice: local food law and licensed practice go before it.",
    bad: "recipe Burgers\nbeef mince .... 1 kg, frozen\nsalt .... 10 g\nthaw: wait 10 h, at 22 C\n    Leave {beef mince} to thaw.\n\
          shape: hands 10 min\n    Season with {salt}; shape.\nfry: tend 12 min, using hob\n    Fry them.\n    until {72 C} inside\n",
    good: "recipe Burgers\nbeef mince .... 1 kg, frozen\nsalt .... 10 g\nthaw: wait 24 h, at 4 C\n    Leave {beef mince} to thaw.\n\
           shape: hands 10 min\n    Season with {salt}; shape.\nfry: tend 12 min, using hob\n    Fry them.\n    until {72 C} inside\n",
    sources: &[
        "FDA Food Code 3-501.16, cold holding at 5 °C; 3-501.13, thawing; 3-501.19, four hours without cold (from memory)",
        "FDA Food Code 3-501.14, cooling",
    ],
    run: Run::Recipe(run),
};

/// Above, it is not in the cold; from [`HELD`] on it is held hot.
const COLD: Number = Number::whole(8);
const HELD: Number = Number::whole(57);
/// So long it may stand, and so long it may thaw.
const LONGEST: Duration = Duration::new(Number::whole(4 * 3600));
const THAWS: Duration = Duration::new(Number::whole(2 * 3600));
/// Fish and meat that nothing cooks afterwards. Common practice, no source.
const EATEN_RAW: Duration = THAWS;

fn run(subject: &Subject<'_>, diagnostics: &mut Vec<Diagnostic>) {
    let mut later = Later::of(subject.recipe);
    for (id, part, _) in subject.own_parts() {
        for (at, step) in part.steps.iter().enumerate() {
            let thaws = called(step, beginnings!["thaw", "defrost"]);
            let Some(time) = stands(step, part, at).filter(|time| *time > THAWS) else { continue };
            let Some((what, span, most)) = spoiling(subject, (id, part), at, &mut later) else { continue };
            if time <= most && !thaws {
                continue;
            }
            if caution::is_said(subject.recipe, part, &["hour", "discard", "ph", "cured", "ferment", "acid", "chill", "refrigerat"]) {
                continue;
            }
            let at_heat = step.temperature.map_or(String::new(), |(low, high)| {
                format!(" at {}", show::temperature(high.unwrap_or(low), Units::Metric))
            });
            let message = format!("`{}` stands for {}{at_heat}, with {what} in it", step.name, show::duration(time));
            diagnostics.push(
                Diagnostic::advice(CHECK.name, step.time_span, message)
                    .also(span, "spoils where it is warm")
                    .help(if thaws {
                        "thaw it at 4 °C, or under cold running water; local food law goes before this"
                    } else {
                        "let it stand at 4 °C: such food is out of the cold for four hours at most; local food law goes before this"
                    }),
            );
            break;
        }
    }
}

/// How long a step stands where it is warm, by the long end of what is said.
fn stands(step: &Step, part: &Part, at: usize) -> Option<Duration> {
    if step.kind != StepKind::Wait {
        return None;
    }
    let warm = match step.temperature {
        Some((low, high)) => high.unwrap_or(low).celsius() > COLD && low.celsius() < HELD,
        // What cools after it was cooked cools where it stands.
        None => called(step, beginnings!["cool"]) && !chills(step) && part.steps.iter().take(at).any(cooks),
    };
    let keeps_hot = || step.equipment.as_ref().is_some_and(|name| name.has_word(beginnings!["oven", "hob", "kettle", "bain", "fridge"]));
    let other = || called(step, beginnings!["hold", "keep", "cure", "ferment", "dry", "smoke", "age", "ripen", "sour", "culture"]) || keeps_hot();
    // What cools on its way to the cold is told by `slow-cooling`.
    let told = || part.keeps.is_some_and(|keeps| Keeps::is_cold(&keeps)) && !part.steps.iter().any(bakes) && time_before_cold(part).is_some();
    let is_told = || called(step, beginnings!["cool"]) && told();
    (warm && !other() && !is_told()).then(|| step.up_to.unwrap_or(step.time.1).max(step.time.1))
}

/// What of the food in a step spoils, in words, and where it is listed.
fn spoiling(subject: &Subject<'_>, (id, part): (PartId, &Part), at: usize, later: &mut Later<'_>) -> Option<(String, crate::text::source::Span, Duration)> {
    let draws = first_draws(part);
    let gone_in = |number: usize| draws.get(&Target::Line(number)).is_some_and(|first| *first <= at);
    let is_still_raw = |number: usize| draws.get(&Target::Line(number)).is_some_and(|first| !part.steps.iter().take(at).skip(*first).any(cooks));
    let flesh = part.lines.iter().enumerate().find(|(number, line)| gone_in(*number) && is_still_raw(*number) && is_raw_flesh(line));
    if let Some((number, line)) = flesh {
        let is_eaten_raw = later.is_line_cooked(id, at + 1, number) == Some(false);
        return Some((format!("raw {}", line.name), line.name.span, if is_eaten_raw { EATEN_RAW } else { LONGEST }));
    }
    let is_cooked_later = later.is_cooked(id, at + 1) != Some(false);
    part.lines.iter().enumerate().filter(|(number, _)| gone_in(*number)).find_map(|(number, line)| {
        let solved = subject.formula.part(id)?;
        let found = match line.refers {
            Refers::Pantry(_) if is_safe(part, solved) => None,
            Refers::Pantry(_) => spoils(line, !is_still_raw(number), is_cooked_later).then_some(line.name.span),
            // What was made of it spoils in it.
            Refers::Part(other) => {
                let made = subject.recipe.part(other)?;
                let safe = inside(subject.recipe, other).into_iter().any(|inner| {
                    subject.recipe.part(inner).zip(subject.formula.part(inner)).is_some_and(|(part, solved)| is_safe(part, solved))
                });
                let cooked = made.steps.iter().any(cooks) || !is_still_raw(number);
                (!safe && !made.lines.is_empty() && made.lines.iter().any(|line| spoils(line, cooked, is_cooked_later))).then_some(line.name.span)
            }
        }?;
        Some((line.name.to_string(), found, LONGEST))
    })
}

/// What keeps flesh from spoiling within hours, by the beginnings of words.
const KEPT: &[&str] = &[
    "tinned", "canned", "smoked", "cured", "dried", "confit", "bacon", "salami", "prosciutto", "pancetta", "chorizo", "anchov", "jerky", "salted",
    "stock", "broth", "fat", "gelatin", "jarred",
];
/// The same, said behind a name.
const KEPT_BY: &[&str] = &["smoked", "cured", "dried", "salted"];

fn is_raw_flesh(line: &Ingredient) -> bool {
    let name = line.name.key.as_str();
    let prepared = || line.preparation.as_ref().is_some_and(|said| is_said_to_be("", Some(&said.to_lowercase()), KEPT_BY));
    is_raw(line) && !has_word(name, KEPT) && !has_word(name, ["salt ", "saltfish"]) && !name.ends_with("ham") && !prepared()
}

/// Milk, cream and what is soft of them, cooked meat and rice, and what else is cooked and moist.
fn spoils(line: &Ingredient, is_cooked: bool, is_cooked_later: bool) -> bool {
    let name = line.name.key.as_str();
    if !line.stays_in() || has_word(name, ["powder", "powdered", "dried", "tinned", "condensed", "hard", "parmesan", "pecorino", "cheddar", "gruy", "emmental", "comt", "gouda", "grana", "pasteuri", "uht", "vegan"]) {
        return false;
    }
    match line.kind {
        Kind::Meat | Kind::Fish | Kind::Shellfish => !has_word(name, KEPT),
        // Its poison stays, whatever comes after.
        Kind::Grain if has_word(name, ["rice"]) => is_cooked,
        Kind::Grain | Kind::Pulse => is_cooked && !is_cooked_later,
        Kind::Dairy | Kind::Milk => !is_cooked_later,
        _ => false,
    }
}

/// What keeps food where it is warm: flour about it, much sugar, fat, acid, salt, chocolate, a culture.
fn is_safe(part: &Part, solved: &SolvedPart) -> bool {
    let fat = Mass::sum(massed(part, solved).filter(|(line, _)| line.kind == Kind::Fat).map(|(_, mass)| mass));
    is_kept(part, solved) || fat.and_then(|fat| fat.as_share_of(solved.composition.total)).is_ok_and(|share| share >= mille(500))
}

/// What turns food sour on purpose, and keeps it so.
const CULTURES: &Beginnings =
    &Beginnings::of(&["culture", "yogurt", "yoghurt", "kefir", "buttermilk", "starter", "koji", "miso", "rennet", "kombucha", "tempeh", "whey", "scoby", "natto"]);

/// Whether a line is a living culture, a leaven or yeast.
pub(super) fn is_culture(line: &Ingredient) -> bool {
    line.kind.ferments() || line.name.has_word(CULTURES)
}

/// What keeps food, but for fat: what lies in oil is shut off from air, and keeps none of it.
pub(super) fn is_kept(part: &Part, solved: &SolvedPart) -> bool {
    let composition = &solved.composition;
    let share = |mass: Mass, most: i64| mass.as_share_of(composition.total).is_ok_and(|share| share >= mille(most));
    let keeps = |line: &Ingredient| matches!(line.kind, Kind::Chocolate | Kind::Brine | Kind::Vinegar) || is_culture(line);
    share(composition.flour, 200)
        || share(composition.sugar, 350)
        || share(composition.salt, 50)
        || part.lines.iter().any(keeps)
        || part.steps.iter().any(|step| says(step, beginnings!["ferment", "cure", "dehydrat"]))
}
