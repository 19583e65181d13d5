//! What is taken without the liquid that it lies in, `pickle .... 480 g, drained`: the words that say so, and what of an ingredient is a piece there.

use super::kind::Kind;
use super::lowered::{Beginnings, beginnings};
use super::recipe::Ingredient;
use crate::measure::number::Number;
use crate::text::denied::is_denied;
use crate::text::words::words_without_hyphens;

/// Words by which what a line takes of a part is without the liquid that it lies in.
const LIFTED: &Beginnings = &Beginnings::of(&[
    "drained",
    "lifted",
    "squeezed",
    "wrung",
    "pressed dry",
    "patted dry",
    "shaken dry",
    "out of its",
    "out of their",
    "out of the brine",
    "out of the vinegar",
    "out of the syrup",
    "out of the liquid",
    "out of the oil",
    "without its",
    "without their",
    "without liquid",
    "without liquor",
    "without brine",
    "without vinegar",
    "without syrup",
    "without marinade",
    "without oil",
    "without the liquid",
    "without the liquor",
    "without the brine",
    "without the vinegar",
    "without the syrup",
    "without the marinade",
    "without the oil",
]);

/// What lies in vinegar by its name: of it `strained` is what stays in the sieve, and of tea, stock and syrup what runs through.
const PICKLED: &Beginnings = &Beginnings::of(&["pickl"]);

/// What of the dairy, of fruit and of eggs is no piece: it is stirred in.
const STIRRED_IN: &Beginnings = beginnings![
    "puree",
    "purée",
    "coulis",
    "pulp",
    "jam",
    "jelly",
    "zest",
    "yolk",
    "white",
    "beaten",
    "cream",
    "yoghurt",
    "yogurt",
    "quark",
    "skyr",
    "ricotta",
    "mascarpone",
    "powder",
    "creme",
    "crème",
];

/// From so much water on, of 1, a piece is fresh: it was full before it came into its liquid. Common practice, no source.
const FRESH: Number = Number::constant(1, 2);

/// What an ingredient is where something is lifted out of a liquid.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Lies {
    /// A piece, which comes out as it went in.
    Piece,
    /// It goes in dry and takes up nobody knows how much, as beans do; or nobody knows what it is.
    TakesUp,
    /// The liquid.
    Poured,
    /// It lies or is dissolved in the liquid, as salt and spices do.
    Dissolved,
}

impl Ingredient {
    /// Whether a line takes what it takes without the liquid that it lies in.
    pub fn is_lifted_out(&self) -> bool {
        let Some(said) = self.preparation.as_ref().map(|said| said.to_lowercase()) else { return false };
        let strained = || self.name.has_word_beginning(PICKLED) && self.is_prepared(["strained"]);
        if !(self.is_prepared(LIFTED) || strained()) {
            return false;
        }
        // `with its brine, not drained`
        let words: Vec<&str> = words_without_hyphens(&said).collect();
        let drained = words.iter().position(|word| word.starts_with("drained") || word.starts_with("squeezed"));
        drained.is_none_or(|at| !is_denied(&words, at, 2, &[]))
    }

    /// What it is where something is lifted out of a liquid.
    pub fn lies(&self) -> Lies {
        let is_stirred_in = || self.name.has_word_beginning(STIRRED_IN) || self.is_prepared(["beaten"]);
        let is_dry = || self.facts().and_then(|facts| facts.contents.water).is_some_and(|water| water.value() < FRESH);
        match self.kind {
            Kind::Brine => Lies::Poured,
            kind if kind.is_liquid() || self.is_oil() => Lies::Poured,
            Kind::Vegetable | Kind::Fruit | Kind::Egg | Kind::Dairy if is_stirred_in() => Lies::Dissolved,
            Kind::Egg | Kind::Dairy => Lies::Piece,
            Kind::Vegetable | Kind::Fruit | Kind::Fish | Kind::Shellfish | Kind::Meat if is_dry() => Lies::TakesUp,
            Kind::Vegetable | Kind::Fruit | Kind::Fish | Kind::Shellfish | Kind::Meat => Lies::Piece,
            Kind::Flour | Kind::Grain | Kind::Bread | Kind::Nut | Kind::Seed | Kind::Pulse | Kind::Other => {
                Lies::TakesUp
            }
            _ => Lies::Dissolved,
        }
    }
}
