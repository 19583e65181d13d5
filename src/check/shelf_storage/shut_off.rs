//! What is moist and not sour, and shut off from air by oil or honey.

use super::{CHECK, SOUR, is_low_acid, takes_up_water};
use crate::check::dough::mille;
use crate::check::kept::is_sour;
use crate::check::promise::{self, Promise};
use crate::check::statement::{self, CANNED};
use crate::measure::number::Number;
use crate::measure::quantity::{Duration, Mass};
use crate::measure::show;
use crate::model::cold::is_cold;
use crate::model::cooking::cold_words::{COLD, says_cold};
use crate::model::cooking::{
    beginnings, called, chills, cooks, dries_through, first_draws, has_word_beginning, is_fried_in, says,
};
use crate::model::kind::Kind;
use crate::model::recipe::{Ingredient, Part, PartId, Recipe};
use crate::model::step::{Step, StepKind, Target};
use crate::solve::formula::{Formula, SolvedPart};
use crate::text::diagnostic::Diagnostic;
use crate::text::words::{has_whole_word, words_without_hyphens};

/// Herbs that are used fresh; dried ones are told by their names.
const HERBS: &[&str] = &[
    "basil",
    "rosemary",
    "thyme",
    "sage",
    "oregano",
    "tarragon",
    "mint",
    "parsley",
    "dill",
    "chive",
    "marjoram",
    "garlic",
    "ginger",
    "chilli",
    "chili",
    "onion",
    "shallot",
    "wild garlic",
    "ramson",
];

/// Whether what is called so is dry, fat or salted, and only tastes of it: `chilli oil`, `garlic salt`, `ground ginger`, `herb butter`. Butter beans and
/// butternut squash are neither, so that whole words are asked.
fn is_made_of_it(name: &str) -> bool {
    has_whole_word(name, ["oil", "salt", "salted", "ground"]) || words_without_hyphens(name).last() == Some("butter")
}

/// Of a part that is mostly oil or raw honey: what in it is moist and not sour. Of one that stands at a step, what is in it by then; and fat in which
/// something is fried shuts nothing off.
pub(in crate::check) fn shut_off<'p>(
    recipe: &Recipe,
    formula: &Formula,
    id: PartId,
    (part, solved): (&'p Part, &SolvedPart),
    by: Option<usize>,
) -> Option<&'p Ingredient> {
    if takes_up_water(part, solved) {
        return None;
    }
    let draws = first_draws(part);
    let is_in = |at: usize| {
        let first = draws.get(&Target::Line(at)).copied();
        !is_fried_in(part, at) && first.zip(by).is_none_or(|(first, by)| first <= by)
    };
    let all = || {
        let lines = part.lines.iter().zip(&solved.lines).enumerate();
        lines.filter(|(at, (line, _))| !line.aside && is_in(*at)).map(|(_, both)| both)
    };
    let mass = |is: &dyn Fn(&Ingredient) -> bool| {
        Mass::sum(all().filter(|(line, _)| is(line)).filter_map(|(_, amount)| amount.mass)).ok()
    };
    let total = mass(&|_| true)?;
    let share = |is: &dyn Fn(&Ingredient) -> bool, least: i64| {
        mass(is).is_some_and(|mass| mass.as_share_of(total).is_ok_and(|share| share >= mille(least)))
    };
    let is_honey = |line: &Ingredient| has_word_beginning(line.name.key.as_str(), ["honey"]);
    let in_it = |line: &Ingredient| {
        let name = line.name.key.as_str();
        let herb = matches!(line.kind, Kind::Spice | Kind::Vegetable | Kind::Other)
            && has_word_beginning(name, HERBS)
            && !has_word_beginning(name, SOUR);
        let dried = || line.is_prepared(SOUR);
        (herb || is_low_acid(line) || line.kind == Kind::Dairy) && !dried() && !is_made_of_it(name)
    };
    let in_oil = share(&Ingredient::is_oil, 350);
    let in_honey = || share(&is_honey, 400) && !part.steps.iter().any(cooks);
    // Fried until it is dry, it holds no water.
    let dries = || part.steps.iter().any(|step| dries_through(step) || says(step, beginnings!["deep-f"]));
    if !share(&in_it, 5) || !(in_oil || in_honey()) || dries() || is_sour(recipe, formula, id) {
        return None;
    }
    all().map(|(line, _)| line).find(|line| in_it(line))
}

/// So long food in oil is out of the cold at most: CDC and FDA say 2 hours, and what is pressed or mixed takes its time too.
const IN_OIL: Duration = Duration::new(Number::whole(4 * 3600));

/// Vegetables, herbs or cheese that stand in oil or honey where it is warm.
pub(super) fn stands_shut_off(
    recipe: &Recipe,
    formula: &Formula,
    id: PartId,
    (part, solved): (&Part, &SolvedPart),
) -> Option<Diagnostic> {
    // In a dough nothing is shut off from air.
    if takes_up_water(part, solved) {
        return None;
    }
    let is_long = |kept: &Promise| kept.is_warm() && kept.time > IN_OIL;
    let warm = || promise::kept(part).filter(is_long).or_else(|| promise::on_label(recipe, id, part).filter(is_long));
    let waits = |step: &&Step| {
        let is_warm = step
            .temperature
            .is_none_or(|(low, high)| !is_cold(high.unwrap_or(low)) && low.celsius() < Number::whole(57));
        let is_said_cold = || step.temperature.is_none() && says_cold(step, COLD);
        step.kind == StepKind::Wait && is_warm && !chills(step) && !is_said_cold() && step.time.1 > IN_OIL
    };
    // What stands is asked where it stands: what goes in later is not in it.
    let standing = part.steps.iter().enumerate().filter(|(_, step)| waits(step));
    let found = |by| shut_off(recipe, formula, id, (part, solved), by);
    let at_rest = standing.map(|(at, step)| (step, found(Some(at)))).find(|(_, line)| line.is_some());
    let step = at_rest.map(|(step, _)| step);
    let (span, time) =
        step.map(|step| (step.time_span, step.time.1)).or_else(|| warm().map(|kept| (kept.span, kept.time)))?;
    let line = at_rest.and_then(|(_, line)| line).or_else(|| found(None))?;
    if called_cured(part) || statement::states(recipe, part, CANNED) {
        return None;
    }
    let told = match step {
        Some(step) => format!("stands for {} in `{}`", show::duration(time), step.name),
        None => format!("is kept for {} and not said to be chilled", show::duration(time)),
    };
    let message = format!(
        "`{}` {told}: shut off from air by oil or honey, `{}` may grow what makes botulism",
        part.name, line.name
    );
    Some(Diagnostic::advice(CHECK.name, span, message).also(line.name.span, "moist, and not sour").help(
        "keep it chilled and for 4 days at most, or make it sour by a tested recipe and say so in a `caution` line; local food law goes before this",
    ))
}

/// What is cured or turned sour in its oil is another food.
fn called_cured(part: &Part) -> bool {
    part.steps.iter().any(|step| called(step, beginnings!["cure", "ferment"]))
}
