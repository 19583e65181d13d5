//! Energy and nutrients of what is sold: what they are at least and at most.

use super::items::{Item, leaves};
use crate::measure::number::{Number, Overflow};
use crate::measure::quantity::Mass;
use crate::model::nutrient::{Nutrient, held};

/// How much of a nutrient is in the batch.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Sum {
    /// Which.
    pub nutrient: Nutrient,
    /// Grams; kilocalories or kilojoules of energy; milligrams of cholesterol, calcium, iron and potassium; micrograms of vitamin D.
    /// Without what `missing` brings.
    pub amount: Number,
    /// The same with the most that `missing` can bring.
    pub most: Number,
    /// Ingredients of which the larder has no figure, so that `amount` is a lower bound.
    pub missing: Vec<String>,
    /// Fats that something is fried in, of which some stays: `amount` is a lower bound, and `most` counts as much of them as there is, or
    /// as there is of everything else.
    pub fried_in: Vec<String>,
}

impl Sum {
    /// Nothing of a nutrient.
    pub(super) fn none(nutrient: Nutrient) -> Sum {
        Sum { nutrient, amount: Number::ZERO, most: Number::ZERO, missing: Vec::new(), fried_in: Vec::new() }
    }
}

/// Energy and nutrients of a batch.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Nutrition {
    /// One each, in the order of [`Nutrient`].
    pub sums: Vec<Sum>,
    /// What is in it by an unknown weight (to taste) or set aside for dusting, and therefore not counted.
    pub uncounted: Vec<String>,
}

impl Nutrition {
    /// Adds up what is in the ingredients.
    ///
    /// # Errors
    /// When a sum leaves the range of exact numbers.
    pub fn of(list: &[Item]) -> Result<Nutrition, Overflow> {
        let leaves = leaves(list);
        let counted = leaves.iter().filter(|item| !item.aside && !item.strained_out);
        let all = Mass::sum(counted.filter_map(|item| item.mass))?;
        let mut sums = Vec::with_capacity(Nutrient::ALL.len());
        for nutrient in Nutrient::ALL {
            let mut sum = Sum::none(nutrient);
            for item in leaves.iter().filter(|item| item.fried_in) {
                let held = held(item.facts.as_deref(), nutrient)?;
                let taken_up = item.mass.filter(|_| item.aside).map_or(all, |mass| mass.min(all));
                if held.most.is_positive() && !sum.fried_in.contains(&item.name) {
                    sum.most = sum.most.plus(taken_up.value().times(held.most)?)?;
                    sum.fried_in.push(item.name.clone());
                }
            }
            for item in leaves.iter().filter(|item| !item.aside && !item.strained_out) {
                let Some(mass) = item.mass.filter(|mass| *mass > Mass::ZERO) else { continue };
                let held = held(item.facts.as_deref(), nutrient)?;
                sum.amount = sum.amount.plus(mass.value().times(held.least)?)?;
                sum.most = sum.most.plus(mass.value().times(held.most)?)?;
                if !held.is_known && !sum.missing.contains(&item.name) {
                    sum.missing.push(item.name.clone());
                }
            }
            sums.push(sum);
        }
        let uncounted = leaves
            .iter()
            .filter(|item| !item.strained_out && (item.aside || item.mass.is_none_or(|mass| mass <= Mass::ZERO)));
        Ok(Nutrition { sums, uncounted: uncounted.map(|item| item.name.clone()).collect() })
    }

    /// Fats that something is fried in, of which some stays by a weight that nobody says.
    pub fn fried_in(&self) -> Vec<String> {
        let mut names: Vec<String> = Vec::new();
        for name in self.sums.iter().flat_map(|sum| &sum.fried_in) {
            if !names.contains(name) {
                names.push(name.clone());
            }
        }
        names
    }

    /// The sum of a nutrient.
    pub fn sum(&self, nutrient: Nutrient) -> Option<&Sum> {
        self.sums.iter().find(|sum| sum.nutrient == nutrient)
    }
}
