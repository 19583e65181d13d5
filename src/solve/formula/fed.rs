//! Leavens that are bought or kept, and so have no formula: how much of them is flour.

use crate::language::syntax::Key;
use crate::measure::number::{Number, Overflow};
use crate::measure::quantity::Proportion;
use crate::model::allergen::{GLUTEN, Law};
use crate::model::cooking::has_word_beginning;
use crate::model::kind::Kind;
use crate::model::larder::Facts;
use crate::model::recipe::{Ingredient, Refers};

/// Whether the larder says how much water is in an ingredient.
pub fn is_known(line: &Ingredient) -> bool {
    line.facts().is_some_and(|facts| facts.contents.water.is_some())
}

/// The water in a gram of flour as it comes (USDA SR26 20083, bread flour: 13.4 %).
pub const IN_FLOUR: Number = Number::constant(134, 1000);

/// Grains without gluten of which leavens are kept, as words begin; those with it the laws on allergens list.
const GRAINS: [&str; 14] = [
    "flour",
    "meal",
    "whole",
    "atta",
    "maida",
    "rice",
    "buckwheat",
    "maize",
    "corn",
    "millet",
    "teff",
    "sorghum",
    "quinoa",
    "amaranth",
];

/// Words of a name by which a culture is no paste of flour and water: dried, or living in milk, on rice or in sugared water.
const NO_PASTE: [&str; 15] = [
    "dried",
    "dry",
    "powder",
    "freeze",
    "mesophilic",
    "thermophilic",
    "cream",
    "butter",
    "milk",
    "koji",
    "natto",
    "ginger",
    "water",
    "viili",
    "filmj",
];

/// Whether what a leaven consists of has a grain in it, whatever word its larder has for its flour.
fn is_of_grain(words: &str) -> bool {
    has_word_beginning(&words.to_lowercase(), GRAINS) || Law::Eu.words([words]).contains(&GLUTEN)
}

/// Whether an ingredient is a leaven of flour and water that is bought or kept, so that it has no formula here: by what it consists of, else by
/// its name. A kefir is none, nor is a sourdough that was dried, unless the larder says how much water is left in it.
pub fn is_fed(line: &Ingredient) -> bool {
    let Refers::Pantry(facts) = &line.refers else { return false };
    !line.is_flour && is_a_paste(&line.name.key, line.kind, facts.as_deref())
}

/// As [`is_fed`], of what a larder knows by that name.
fn is_a_paste(name: &Key, kind: Kind, facts: Option<&Facts>) -> bool {
    // Baker's yeast that a block calls a leaven, for its price say, is baker's yeast all the same.
    if kind != Kind::Leaven || Kind::of_name(name.as_str()).is_yeast() {
        return false;
    }
    match facts.and_then(|facts| facts.consists.as_deref()) {
        Some(words) => is_of_grain(words),
        None => !has_word_beginning(name.as_str(), NO_PASTE),
    }
}

/// How much of such a leaven is flour as it comes; `None` of anything else.
pub(super) fn seed_flour(line: &Ingredient) -> Result<Option<Proportion>, Overflow> {
    if is_fed(line) { flour_in(&line.name.key, line.kind, line.facts()) } else { Ok(None) }
}

/// How much of what a larder knows by that name is flour as it comes, where it is a leaven of flour and water; `None` of anything else.
///
/// The larder says all its water, the flour's own too: what is dry in it is what is dry in its flour. Where it says none, half is flour, as a
/// label takes it: common practice, no source.
///
/// # Errors
/// When a share leaves the range of exact numbers.
pub fn flour_in(name: &Key, kind: Kind, facts: Option<&Facts>) -> Result<Option<Proportion>, Overflow> {
    if !is_a_paste(name, kind, facts) {
        return Ok(None);
    }
    let Some(water) = facts.and_then(|facts| facts.contents.water) else {
        return Ok(Some(Proportion::new(Number::constant(1, 2))));
    };
    let flour = water.rest()?.value().over(Number::ONE.minus(IN_FLOUR)?)?;
    Ok(Some(Proportion::new(flour.max(Number::ZERO).min(Number::ONE))))
}
