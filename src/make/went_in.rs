//! What really went in of a line of a bake: beside what a card has weighed for it, and what it makes more or less of its dough.

use crate::language::bakes::{WentIn, readings};
use crate::language::syntax::Key;
use crate::make::have::weigh_one;
use crate::measure::number::{Number, Overflow};
use crate::measure::quantity::Mass;
use crate::model::baked::ADDED;
use crate::model::cooking::{beginnings, says};
use crate::model::larder::Larder;
use crate::model::recipe::{Ingredient, Part, PartId, Recipe};
use crate::model::reference::StepRef;
use crate::solve::formula::Formula;

/// What went in otherwise, and the line of the part that it is of.
pub type OfLine<'b> = (&'b WentIn, (PartId, usize));

/// Two weights that are no further apart than this, of 1, are one for a scale and who reads it. Common practice, no source.
const ONE_SCALE: Number = Number::constant(1, 100);
/// So much more of the final mix than a card says is still the final mix. Common practice, no source.
const MORE: Number = Number::constant(11, 10);
/// Where all of a line is less than this times what of it is in the final mix, more of the one may be the other. Common practice, no source.
const NEAR: Number = Number::constant(5, 4);

/// What a formula says of a line.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Usual {
    /// What a card has somebody weigh for it: of a dough what its preferments leave of it, of a preferment what is mixed of it.
    pub bench: Mass,
    /// All of it in its part.
    pub all: Mass,
}

/// What of a formula is meant by what somebody weighed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Meant {
    /// What the formula says of the same.
    pub usual: Mass,
    /// Whether it may be meant otherwise.
    pub is_unclear: bool,
}

impl Usual {
    /// Of a line, in a formula of the size of the bake; `None` where that has no weight.
    ///
    /// # Errors
    /// When an amount leaves the range of exact numbers.
    pub fn of(scaled: &Formula, (part, at): (PartId, usize)) -> Result<Option<Usual>, Overflow> {
        let Some((solved, line)) = scaled.part(part).and_then(|solved| Some((solved, solved.lines.get(at)?))) else {
            return Ok(None);
        };
        let Some(all) = line.mass else { return Ok(None) };
        let mixed = solved.mixed()?;
        let made = mixed.lines.get(at).unwrap_or(line);
        // Where preferments take all of it, there is nothing else that could be weighed.
        let bench = made.final_mix.filter(|left| *left > Mass::ZERO).or(made.mass).unwrap_or(all);
        Ok(Some(Usual { bench, all }))
    }

    /// Which of the two somebody weighed: what the card has weighed, unless it is just all of it.
    ///
    /// # Errors
    /// When an amount leaves the range of exact numbers.
    pub fn meant(self, really: Mass) -> Result<Meant, Overflow> {
        let Usual { bench, all } = self;
        let is = |usual: Mass| -> Result<bool, Overflow> {
            Ok(really.minus(usual)?.value().size() <= usual.times(ONE_SCALE)?.value().size())
        };
        if is(all)? && !is(bench)? {
            return Ok(Meant { usual: all, is_unclear: all > bench && all < bench.times(NEAR)? });
        }
        let is_between = really > bench.times(MORE)? && really < all.times(MORE)?;
        Ok(Meant { usual: bench, is_unclear: all > bench && is_between })
    }
}

/// What is weighed of a line, beside what the formula says of the same; `None` where one of the two has no weight.
///
/// # Errors
/// When an amount leaves the range of exact numbers.
pub fn weighed(
    recipe: &Recipe,
    scaled: &Formula,
    (went_in, at): OfLine<'_>,
) -> Result<Option<(Mass, Meant)>, Overflow> {
    if at.1 == ADDED {
        let larder = Larder::new();
        let facts = readings(&went_in.name.text).into_iter().find_map(|(name, _)| larder.find(&Key::new(name)));
        let really = went_in.amount.and_then(|told| weigh_one(&went_in.name, told, facts.as_deref()).ok());
        return Ok(really.map(|really| (really, Meant { usual: Mass::ZERO, is_unclear: false })));
    }
    let facts = recipe.part(at.0).and_then(|part| part.lines.get(at.1)).and_then(|line| line.facts());
    let really = went_in.amount.and_then(|told| weigh_one(&went_in.name, told, facts).ok());
    let (Some(really), Some(usual)) = (really, Usual::of(scaled, at)?) else { return Ok(None) };
    Ok(Some((really, usual.meant(really)?)))
}

/// How much more went into a part than the formula says, less than nothing where it was less: of those of its own lines that count, and
/// of what preferments took for it.
///
/// # Errors
/// When an amount leaves the range of exact numbers.
pub fn more(
    (recipe, id): (&Recipe, PartId),
    scaled: &Formula,
    went_in: &[OfLine<'_>],
    counts: impl Fn(&Ingredient) -> bool,
) -> Result<Mass, Overflow> {
    let mut more = Mass::ZERO;
    let is_counted = |(part, at): (PartId, usize)| {
        at == ADDED || recipe.part(part).and_then(|part| part.lines.get(at)).is_some_and(&counts)
    };
    for one in went_in.iter().filter(|(_, at)| is_counted(*at)) {
        let Some(share) = share_in(recipe, scaled, one.1.0, id)? else { continue };
        if let Some((really, meant)) = weighed(recipe, scaled, *one)? {
            more = more.plus(really.minus(meant.usual)?.times(share)?)?;
        }
    }
    Ok(more)
}

/// How much of what is mixed of a part goes into another, of 1: all of it into itself, and of a preferment what is not left over into its
/// dough. `None` where it goes elsewhere, by weight.
fn share_in(recipe: &Recipe, scaled: &Formula, from: PartId, into: PartId) -> Result<Option<Number>, Overflow> {
    let (mut at, mut share) = (from, Number::ONE);
    for _ in 0..=recipe.parts.len() {
        if at == into {
            return Ok(Some(share));
        }
        let Some(above) = recipe.part(at).and_then(|part| part.from) else { return Ok(None) };
        if let Some(solved) = scaled.part(at)
            && let (Some(makes), Some(extra)) = (solved.makes.filter(|makes| *makes > Mass::ZERO), solved.extra)
        {
            share = share.times(makes.ratio(makes.plus(extra)?)?)?;
        }
        at = above;
    }
    Ok(None)
}

/// What is in a part at the end of a step of what is strained out of it: nothing, unless a later step strains it.
///
/// # Errors
/// When an amount leaves the range of exact numbers.
pub fn held(recipe: &Recipe, scaled: &Formula, at: StepRef) -> Result<Mass, Overflow> {
    let (Some(part), Some(solved)) = (recipe.part(at.part), scaled.part(at.part)) else { return Ok(Mass::ZERO) };
    if !is_strained_later(part, at.step) {
        return Ok(Mass::ZERO);
    }
    let held = part.lines.iter().zip(&solved.lines).filter(|(line, _)| line.strained_out && !line.aside);
    Mass::sum(held.filter_map(|(_, amount)| amount.mass))
}

/// Whether a step after another takes out what is strained out.
fn is_strained_later(part: &Part, step: usize) -> bool {
    let words = beginnings!["strain", "siev", "filter", "drain", "discard"];
    part.steps.iter().skip(step.saturating_add(1)).any(|later| says(later, words))
}
