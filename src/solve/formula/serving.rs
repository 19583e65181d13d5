//! Whether a serving weighs what the pieces weigh that it is said to be: `serving 140 g, 1/8 pie`.

use super::{Formula, heated};
use crate::language::syntax::Key;
use crate::measure::number::{Number, Overflow};
use crate::measure::quantity::{Mass, Proportion};
use crate::model::larder::is_called;
use crate::model::recipe::{PartId, Recipe};
use crate::model::sale::Serving;

/// So far a serving may be from the pieces that it is said to be: what the oven takes is often not known. Common practice, no source.
const APART: Number = Number::constant(1, 5);

/// `1`, `1/8`: how many pieces a serving is said to be.
fn read_number(word: &str) -> Option<Number> {
    let (above, below) = word.split_once('/').unwrap_or((word, "1"));
    let (above, below): (i64, i64) = (above.parse().ok()?, below.parse().ok()?);
    Number::whole(above).over(Number::whole(below)).ok()
}

/// The number and the noun with which a serving is told in words, and whether that is all: `1/8 pie`.
pub fn count_and_noun(words: &str) -> Option<(Number, &str, bool)> {
    let mut of = words.split_whitespace();
    let (count, noun) = (of.next().and_then(read_number)?, of.next()?);
    count.is_positive().then_some((count, noun, of.next().is_none()))
}

/// How many pieces a serving is said to be; `None` where it is told by its weight alone, or as something else.
pub fn pieces_of(serving: &Serving, noun: &str) -> Option<Number> {
    let (count, what, is_all) = count_and_noun(serving.words.as_deref().unwrap_or_default())?;
    (is_all && is_called(&Key::new(noun), &Key::new(what))).then_some(count)
}

/// What the pieces weigh that a serving of `said` is said to be, where that is another weight.
///
/// # Errors
/// When a product leaves the range of exact numbers.
pub fn weighs_otherwise(serving: &Serving, said: Mass, each: Mass, noun: &str) -> Result<Option<Mass>, Overflow> {
    let Some(count) = pieces_of(serving, noun) else { return Ok(None) };
    let weighs = each.times(count)?;
    let is_near = weighs.minus(said)?.value().size() <= weighs.value().times(APART)?;
    Ok(Some(weighs).filter(|_| !is_near))
}

/// What one piece weighs as it is sold, after what the heat takes; `None` where that is not known.
///
/// # Errors
/// When a share leaves the range of exact numbers.
pub fn sold_each(recipe: &Recipe, formula: &Formula, id: PartId) -> Result<Option<Mass>, Overflow> {
    let made = formula.part(id).and_then(|solved| solved.makes.or(solved.stays));
    let pieces = formula.pieces.map(|pieces| pieces.value()).filter(|pieces| pieces.is_positive());
    let Some((made, pieces)) = made.zip(pieces) else { return Ok(None) };
    let loss = heated::loss_of_all(recipe, formula, id, recipe.bake_loss.unwrap_or(Proportion::ZERO))?;
    made.share(loss.rest()?)?.over(pieces).map(Some)
}
