//! Aims: figures that a formula must hold.

use crate::language::syntax::{AimOf, Name};
use crate::measure::number::Number;
use crate::text::source::Span;

/// What is aimed at.
#[derive(Debug, Clone, PartialEq, Eq)]
#[allow(missing_docs)] // the names are the figures
pub enum Figure {
    Hydration,
    Salt,
    Sugar,
    Fat,
    Protein,
    Water,
    Solids,
    MilkSolids,
    Egg,
    Yeast,
    Prefermented,
    Acid,
    Alcohol,
    Energy,
    Cost,
    Weight,
    BakedWeight,
    Time,
    Hands,
    /// An ingredient, or a part, by its name.
    Ingredient(Name),
}

/// Every figure that is no ingredient, with its words.
const WORDS: &[(Figure, &str)] = &[
    (Figure::Hydration, "hydration"),
    (Figure::Salt, "salt"),
    (Figure::Sugar, "sugar"),
    (Figure::Fat, "fat"),
    (Figure::Protein, "protein"),
    (Figure::Water, "water"),
    (Figure::Solids, "solids"),
    (Figure::MilkSolids, "milk solids not fat"),
    (Figure::Egg, "egg"),
    (Figure::Yeast, "yeast"),
    (Figure::Prefermented, "prefermented"),
    (Figure::Acid, "acid"),
    (Figure::Alcohol, "alcohol"),
    (Figure::Energy, "energy"),
    (Figure::Cost, "cost"),
    (Figure::Weight, "weight"),
    (Figure::BakedWeight, "baked weight"),
    (Figure::Time, "time"),
    (Figure::Hands, "hands"),
];

impl Figure {
    /// The figure of that name; of any other name an ingredient.
    pub fn of(name: &Name) -> Figure {
        let known = WORDS.iter().find(|(_, word)| *word == name.key.as_str());
        known.map_or_else(|| Figure::Ingredient(name.clone()), |(figure, _)| figure.clone())
    }

    /// The words of all figures that are no ingredients.
    pub fn words() -> impl Iterator<Item = &'static str> {
        WORDS.iter().map(|(_, word)| *word)
    }

    /// As it is written.
    pub fn word(&self) -> &str {
        match self {
            Figure::Ingredient(name) => &name.text,
            figure => WORDS.iter().find(|(known, _)| known == figure).map_or("", |(_, word)| word),
        }
    }

    /// Whether amounts have no say in it: times hang on steps.
    pub fn is_of_steps(&self) -> bool {
        matches!(self, Figure::Time | Figure::Hands)
    }
}

/// In what a figure is given.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum AimUnit {
    /// Hundredths of what it is counted on.
    Percent,
    /// Grams.
    Grams,
    /// Minutes.
    Minutes,
    /// Money, by its name where one is said.
    Money(Option<String>),
    /// Kilocalories.
    Kilocalories,
    /// Kilojoules.
    Kilojoules,
}

/// What a figure is to be.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Aim {
    /// Which figure.
    pub figure: Figure,
    /// The least that it may be, in its unit; `None` for no bound.
    pub low: Option<Number>,
    /// The most.
    pub high: Option<Number>,
    /// How far a single value may be missed by the rounding of its digits; nothing for ranges and bounds.
    pub slack: Number,
    /// In what all this is given.
    pub unit: AimUnit,
    /// What it is counted on; `None` where the line does not say.
    pub of: Option<AimOf>,
    /// Where the amount stands.
    pub amount_span: Span,
    /// Where the figure is named.
    pub name_span: Span,
    /// The line.
    pub span: Span,
}
