//! Bread and cake that are said to keep for months where it is warm; told under the name of the check of shelves.

use super::Subject;
use super::dough::{has_flour, mille};
use super::promise::{self, Promise, SaidBy};
use super::statement::{self, SHELF};
use crate::language::syntax::Name;
use crate::measure::number::Number;
use crate::measure::quantity::{Duration, Mass};
use crate::measure::show;
use crate::model::cooking::{bakes, beginnings, cooks, dries_through, some_says};
use crate::model::lowered::Beginnings;
use crate::model::recipe::{Part, PartId};
use crate::solve::formula::SolvedPart;
use crate::text::diagnostic::Diagnostic;

/// A loaf is mouldy long before; common practice, no source: stale after 3 to 5 days, mould after 7 to 10.
const LOAF: Duration = Duration::days(30);
/// Cake that was closed hot in jars is kept no longer out of the cold: botulism grows in it (NCHFP, Canning breads and cakes, from memory).
const IN_JARS: Duration = Duration::days(7);

/// What is said to keep longer than it does, of each part.
pub(super) fn problems(
    subject: &Subject<'_>,
    check: &'static str,
    is_creamed: impl Fn(PartId) -> bool,
    diagnostics: &mut Vec<Diagnostic>,
) {
    let recipe = subject.recipe;
    for (id, part, solved) in subject.own_parts() {
        // How cold it is kept is read out of words, how long is a figure.
        if promise::time(recipe, id, part).is_none_or(|time| time <= IN_JARS) {
            continue;
        }
        let kept = promise::on_label(recipe, id, part).or_else(|| promise::kept(part));
        let Some(kept) = kept.filter(|kept| kept.time > IN_JARS) else { continue };
        let told = if kept.is_warm() {
            on_a_shelf(subject, id, (part, solved), &kept)
        } else {
            in_the_cold(subject, id, (part, solved), &kept, &is_creamed)
        };
        let Some((message, help)) = told else { continue };
        if !statement::states(recipe, part, SHELF) {
            diagnostics.push(Diagnostic::advice(check, kept.span, message).help(help));
        }
    }
}

const LOOK: &str = "look whether a digit has slipped, or days stand for hours; what is dried, frozen or packed without air says so in a note beside `# allow shelf-storage: reason`; local food law goes before this";

/// What is kept where it is warm, and for too long.
fn on_a_shelf(
    subject: &Subject<'_>,
    id: PartId,
    (part, solved): (&Part, &SolvedPart),
    kept: &Promise,
) -> Option<(String, &'static str)> {
    let time = show::duration(kept.time);
    if is_closed_in_jars(part, solved) {
        let message = format!(
            "`{}` is baked in closed jars and kept for {time} where it is warm: what makes botulism grows in moist cake without air",
            part.name
        );
        let help = "freeze it, or sell it fresh; no tested process for bread and cake in jars is known; local food law goes before this";
        return Some((message, help));
    }
    if kept.time > LOAF
        && subject.fermented().has(id)
        && (is_plain_loaf(part, solved) || is_rusk_that_is_moist(part, solved, &subject.recipe.name))
    {
        let message = format!(
            "`{}` is said to keep for {time}: a loaf is stale after 3 to 5 days, and mould grows on it after 7 to 10",
            part.name
        );
        let help = "look whether a digit has slipped; what is dried, frozen or packed without air says so in a note beside `# allow shelf-storage: reason`; local food law goes before this";
        return Some((message, help));
    }
    most(part, solved).filter(|most| kept.time > *most)?;
    Some((
        format!(
            "`{}` is said to keep for {time}, which nothing does that is made so: {}",
            part.name,
            why(part, solved)
        ),
        LOOK,
    ))
}

/// In a refrigerator bread is stale as soon as on a shelf, and mouldy in twice the time; frozen, fat is rancid and crumb is dry after two years, and
/// nothing that is sold frozen is good for more than three. Common practice, no source.
const CHILLED_LOAF: Duration = Duration::days(60);
const FROZEN_BREAD_KEEPS: Duration = Duration::days(750);

/// What is kept chilled or frozen for longer than anything is. How long food that spoils is kept chilled, `kept-too-long` says.
fn in_the_cold(
    subject: &Subject<'_>,
    id: PartId,
    (part, solved): (&Part, &SolvedPart),
    kept: &Promise,
    is_creamed: &impl Fn(PartId) -> bool,
) -> Option<(String, &'static str)> {
    if part.steps.is_empty() || kept.time <= CHILLED_LOAF {
        return None;
    }
    let (most, why) = if !kept.is_chilled() {
        let most = if has_flour(solved, 150) { FROZEN_BREAD_KEEPS } else { ANYTHING_KEEPS };
        (most, "frozen, too, crumb dries and fat turns rancid")
    } else if kept.by == SaidBy::Keeps || is_creamed(id) {
        // Of food that is ready its own check tells.
        return None;
    } else if subject.fermented().has(id) && is_plain_loaf(part, solved) {
        (CHILLED_LOAF, "in the cold, too, a loaf is stale within days")
    } else if is_soft(part, solved) {
        (most(part, solved)?, "soft as it is, it is stale and mouldy long before, in the cold, too")
    } else {
        (ANYTHING_KEEPS, "preserves and sweets are good for three years at most")
    };
    let time = show::duration(kept.time);
    (kept.time > most).then(|| {
        (format!("`{}` is said to keep for {time}, which nothing does that is made so: {why}", part.name), LOOK)
    })
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
