//! Leavens that are bought or kept, and so have no formula: how much of them is flour.

use crate::measure::number::{Number, Overflow};
use crate::measure::quantity::Proportion;
use crate::model::cooking::has_word;
use crate::model::kind::Kind;
use crate::model::recipe::{Ingredient, Refers};

/// Whether the larder says how much water is in an ingredient.
pub fn is_known(line: &Ingredient) -> bool {
    line.facts().is_some_and(|facts| facts.contents.water.is_some())
}

/// The water in a gram of flour as it comes (USDA SR26 20083, bread flour: 13.4 %).
pub const IN_FLOUR: Number = Number::constant(134, 1000);

/// Whether an ingredient is a leaven of flour and water that is bought or kept, so that it has no formula here. One that consists of
/// something without flour, a kefir, is none.
pub fn is_fed(line: &Ingredient) -> bool {
    let Refers::Pantry(facts) = &line.refers else { return false };
    let made_of = facts.as_deref().and_then(|facts| facts.consists.as_deref());
    let is_of_flour = made_of.is_none_or(|words| has_word(&words.to_lowercase(), ["flour", "meal"]));
    line.kind == Kind::Leaven && !line.is_flour && is_of_flour
}

/// How much of such a leaven is flour as it comes; `None` of anything else.
///
/// The larder says all its water, the flour's own too: what is dry in it is what is dry in its flour. Where it says none, half is flour, as a
/// label takes it: common practice, no source.
pub(super) fn seed_flour(line: &Ingredient) -> Result<Option<Proportion>, Overflow> {
    if !is_fed(line) {
        return Ok(None);
    }
    let Some(water) = line.facts().and_then(|facts| facts.contents.water) else {
        return Ok(Some(Proportion::new(Number::constant(1, 2))));
    };
    let flour = water.rest()?.value().over(Number::ONE.minus(IN_FLOUR)?)?;
    Ok(Some(Proportion::new(flour.max(Number::ZERO).min(Number::ONE))))
}
