//! Bread and cake that are said to keep for months where it is warm; told under the name of the check of shelves.

use super::Subject;
use super::dough::{has_flour, mille};
use super::promise::{self, Promise};
use super::statement::{self, SHELF};
use crate::language::syntax::Name;
use crate::measure::number::Number;
use crate::measure::quantity::{Duration, Mass};
use crate::measure::show;
use crate::model::cooking::{bakes, beginnings, cooks, dries_through, some_says};
use crate::model::lowered::Beginnings;
use crate::model::recipe::Part;
use crate::solve::formula::SolvedPart;
use crate::text::diagnostic::Diagnostic;

/// A loaf is mouldy long before; common practice, no source: stale after 3 to 5 days, mould after 7 to 10.
const LOAF: Duration = Duration::days(30);
/// Cake that was closed hot in jars is kept no longer out of the cold: botulism grows in it (NCHFP, Canning breads and cakes, from memory).
const IN_JARS: Duration = Duration::days(7);

/// What is said to keep longer than it does, of each part.
pub(super) fn problems(subject: &Subject<'_>, check: &'static str, diagnostics: &mut Vec<Diagnostic>) {
    let recipe = subject.recipe;
    for (id, part, solved) in subject.own_parts() {
        let kept = || promise::on_label(recipe, id, part).or_else(|| promise::kept(part)).filter(Promise::is_warm);
        // How cold it is kept is read out of words, how long is a figure.
        if promise::time(recipe, id, part).is_none_or(|time| time <= IN_JARS) {
            continue;
        }
        let Some(kept) = kept() else { continue };
        let time = show::duration(kept.time);
        let (message, help) = if is_closed_in_jars(part, solved) {
            (
                format!(
                    "`{}` is baked in closed jars and kept for {time} where it is warm: what makes botulism grows in moist cake without air",
                    part.name
                ),
                "freeze it, or sell it fresh; no tested process for bread and cake in jars is known; local food law goes before this",
            )
        } else if kept.time > LOAF
            && subject.fermented().has(id)
            && (is_plain_loaf(part, solved) || is_rusk_that_is_moist(part, solved, &recipe.name))
        {
            (
                format!(
                    "`{}` is said to keep for {time}: a loaf is stale after 3 to 5 days, and mould grows on it after 7 to 10",
                    part.name
                ),
                "look whether a digit has slipped; what is dried, frozen or packed without air says so in a note beside `# allow shelf-storage: reason`; local food law goes before this",
            )
        } else if most(part, solved).is_some_and(|most| kept.time > most) {
            (
                format!(
                    "`{}` is said to keep for {time}, which nothing does that is made so: {}",
                    part.name,
                    why(part, solved)
                ),
                "look whether a digit has slipped, or days stand for hours; what is dried, frozen or packed without air says so in a note beside `# allow shelf-storage: reason`; local food law goes before this",
            )
        } else {
            continue;
        };
        if !statement::states(recipe, part, SHELF) {
            diagnostics.push(Diagnostic::advice(check, kept.span, message).help(help));
        }
    }
}

/// What is soft and baked or fried, by the beginnings of words. Biscuits, crackers and rusks are dry.
#[rustfmt::skip]
const SOFT: &Beginnings = &Beginnings::of(&[
    "muffin", "cake|", "cakes|", "cupcake", "roll|", "rolls|", "bun|", "buns|", "brack", "loaf", "loaves", "bread|", "breads|", "flatbread", "tortilla", "wrap|",
    "wraps|", "churro", "doughnut", "donut", "sponge", "scone", "brioche", "naan", "pitta", "pita|", "crumpet", "pancake", "waffle|", "croissant", "stollen", "panettone", "pandoro", "babka",
]);
/// Soft and lean, it is mouldy by then, and soft and rich it is stale; cakes full of fruit and sugar ripen for months. Preserves are good for some
/// years. Common practice, no source.
const SOFT_KEEPS: Duration = Duration::days(60);
const BUTTERED_KEEPS: Duration = Duration::days(210);
const RICH_KEEPS: Duration = Duration::days(400);
const ANYTHING_KEEPS: Duration = Duration::days(1100);

/// Whether it is soft by its name, baked or fried, and moist.
fn is_soft(part: &Part, solved: &SolvedPart) -> bool {
    let is_moist = solved.comes_out.water.as_share_of(solved.comes_out.total).is_ok_and(|share| share >= mille(120));
    is_moist && has_flour(solved, 150) && part.name.has_word_beginning(SOFT) && !part.steps.iter().any(dries_through)
}

/// How long at most it keeps where it is warm; of what is not told how it is made nobody knows.
fn most(part: &Part, solved: &SolvedPart) -> Option<Duration> {
    // Raisins are half sugar, and are what keeps a fruit cake.
    let is_rich = solved.comes_out.sugar.as_share_of(solved.comes_out.total).is_ok_and(|share| share >= mille(300));
    // Butter and sugar under a crust of both keep stollen and the like for half a year.
    let (fat, sugar) = (solved.comes_out.fat, solved.comes_out.sugar);
    let is_buttered = fat
        .plus(sugar)
        .and_then(|both| both.as_share_of(solved.comes_out.total))
        .is_ok_and(|share| share >= mille(350));
    match is_soft(part, solved) {
        true if is_rich => Some(RICH_KEEPS),
        true if is_buttered => Some(BUTTERED_KEEPS),
        true => Some(SOFT_KEEPS),
        false if part.steps.is_empty() => None,
        false => Some(ANYTHING_KEEPS),
    }
}

fn why(part: &Part, solved: &SolvedPart) -> &'static str {
    if is_soft(part, solved) {
        "soft as it is, it is stale and mouldy long before"
    } else {
        "preserves and sweets are good for three years at most"
    }
}

fn is_closed_in_jars(part: &Part, solved: &SolvedPart) -> bool {
    let in_jars = || {
        some_says(part, beginnings!["jar", "kilner"]) && some_says(part, beginnings!["close", "seal", "lid", "screw"])
    };
    has_flour(solved, 150) && part.steps.iter().any(bakes) && in_jars()
}

/// A rusk is baked, then toasted or dried for this long at least. Common practice, no source.
const DRIES: Duration = Duration::new(Number::whole(12 * 60));

/// Whether it is called a rusk and was never dried: a roll, as moist as any.
fn is_rusk_that_is_moist(part: &Part, solved: &SolvedPart, recipe: &Name) -> bool {
    let is_rusk = [&part.name, recipe].iter().any(|name| name.has_word_beginning(beginnings!["rusk", "zwieback"]));
    let is_moist =
        || solved.composition.water.as_share_of(solved.composition.total).is_ok_and(|share| share >= mille(200));
    is_rusk && has_flour(solved, 400) && is_moist() && !is_dried_after_its_bake(part)
}

/// Whether what was baked is toasted or dried after it, for as long as it takes.
fn is_dried_after_its_bake(part: &Part) -> bool {
    let Some(baked) = part.steps.iter().position(bakes) else { return true };
    let hot = part.steps.iter().skip(baked + 1).filter(|step| cooks(step) || dries_through(step));
    Duration::sum(hot.map(|step| step.time.1)).is_ok_and(|time| time >= DRIES)
}

/// Whether it is a plain loaf: baked moist and without much sugar, and dried by no step.
fn is_plain_loaf(part: &Part, solved: &SolvedPart) -> bool {
    let composition = &solved.composition;
    let is_plain = composition.sugar.as_share_of(composition.flour).is_ok_and(|share| share <= mille(100));
    let is_moist = |water: Mass| water.as_share_of(solved.comes_out.total).is_ok_and(|share| share >= mille(300));
    let is_dried = || {
        some_says(part, beginnings!["dry", "dried", "crisp", "rusk", "toast", "cracker"])
            || part.name.has_word_beginning(beginnings!["crisp", "rusk", "cracker", "grissini", "breadstick"])
    };
    has_flour(solved, 400)
        && is_plain
        && is_moist(solved.comes_out.water)
        && part.steps.iter().any(bakes)
        && !is_dried()
}
