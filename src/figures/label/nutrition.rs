//! Energy and nutrients of what is sold, from the larder's figures in 100 g.

use super::{Item, leaves};
use crate::measure::number::{Number, Overflow};
use crate::measure::quantity::{Mass, Proportion};
use crate::model::larder::Facts;

/// A nutrient that the larder has figures of.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[allow(missing_docs)] // the names are the nutrients
pub enum Nutrient {
    Energy,
    Fat,
    Carbohydrate,
    Sugars,
    Fibre,
    Protein,
    Salt,
}

/// How much of a nutrient is in the batch.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Sum {
    /// Which.
    pub nutrient: Nutrient,
    /// Grams; kilocalories of energy. Without what `missing` brings.
    pub amount: Number,
    /// Ingredients of which the larder has no figure, so that `amount` is a lower bound.
    pub missing: Vec<String>,
}

/// Energy and nutrients of a batch.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Nutrition {
    /// One each, in the order of [`Nutrient`].
    pub sums: Vec<Sum>,
    /// What is in it by an unknown weight (to taste) or set aside for dusting, and therefore not counted.
    pub uncounted: Vec<String>,
}

const ALL: [Nutrient; 7] = [
    Nutrient::Energy,
    Nutrient::Fat,
    Nutrient::Carbohydrate,
    Nutrient::Sugars,
    Nutrient::Fibre,
    Nutrient::Protein,
    Nutrient::Salt,
];

impl Nutrition {
    /// Adds up what is in the ingredients.
    pub(super) fn of(list: &[Item]) -> Result<Nutrition, Overflow> {
        let leaves = leaves(list);
        let mut sums = Vec::with_capacity(ALL.len());
        for nutrient in ALL {
            let mut sum = Sum { nutrient, amount: Number::ZERO, missing: Vec::new() };
            for item in leaves.iter().filter(|item| !item.aside && !item.strained_out) {
                let Some(mass) = item.mass.filter(|mass| *mass > Mass::ZERO) else { continue };
                match item.facts.as_deref().and_then(|facts| in_one_gram(facts, nutrient)) {
                    Some(share) => sum.amount = sum.amount.plus(mass.value().times(share?)?)?,
                    None if sum.missing.contains(&item.name) => {}
                    None => sum.missing.push(item.name.clone()),
                }
            }
            sums.push(sum);
        }
        let uncounted = leaves
            .iter()
            .filter(|item| !item.strained_out && (item.aside || item.mass.is_none_or(|mass| mass <= Mass::ZERO)));
        Ok(Nutrition { sums, uncounted: uncounted.map(|item| item.name.clone()).collect() })
    }

    /// The sum of a nutrient.
    pub fn sum(&self, nutrient: Nutrient) -> Option<&Sum> {
        self.sums.iter().find(|sum| sum.nutrient == nutrient)
    }

    /// Carbohydrate as the European Union counts it: without the fibre, which the larder's figure holds (Regulation (EU)
    /// 1169/2011, Annex I, 7; USDA figures are by difference).
    pub fn available_carbohydrate(&self) -> Result<Sum, Overflow> {
        let (all, mut missing) = self.amount(Nutrient::Carbohydrate);
        let (fibre, without) = self.amount(Nutrient::Fibre);
        missing.extend(without.into_iter().filter(|name| !missing.contains(name)).collect::<Vec<_>>());
        let amount = all.minus(fibre)?;
        let amount = if amount.is_negative() { Number::ZERO } else { amount };
        Ok(Sum { nutrient: Nutrient::Carbohydrate, amount, missing })
    }

    /// Energy by the factors of Regulation (EU) 1169/2011, Annex XIV (from memory): kilojoules and kilocalories a gram of
    /// fat 37 and 9, carbohydrate 17 and 4, protein 17 and 4, fibre 8 and 2. Alcohol and acids are not counted.
    pub fn eu_energy(&self) -> Result<(Number, Number, Vec<String>), Overflow> {
        let carbohydrate = self.available_carbohydrate()?;
        let mut missing = carbohydrate.missing;
        let (mut kilojoules, mut kilocalories) =
            (carbohydrate.amount.times(Number::whole(17))?, carbohydrate.amount.times(Number::whole(4))?);
        for (nutrient, kj, kcal) in [(Nutrient::Fat, 37, 9), (Nutrient::Protein, 17, 4), (Nutrient::Fibre, 8, 2)] {
            let (amount, without) = self.amount(nutrient);
            kilojoules = kilojoules.plus(amount.times(Number::whole(kj))?)?;
            kilocalories = kilocalories.plus(amount.times(Number::whole(kcal))?)?;
            missing.extend(without.into_iter().filter(|name| !missing.contains(name)).collect::<Vec<_>>());
        }
        Ok((kilojoules, kilocalories, missing))
    }

    fn amount(&self, nutrient: Nutrient) -> (Number, Vec<String>) {
        self.sum(nutrient).map_or((Number::ZERO, Vec::new()), |sum| (sum.amount, sum.missing.clone()))
    }
}

/// Grams, or kilocalories, in a gram. Water holds nothing else; without carbohydrate there is neither sugar nor fibre.
fn in_one_gram(facts: &Facts, nutrient: Nutrient) -> Option<Result<Number, Overflow>> {
    if facts.contents.water == Some(Proportion::WHOLE) {
        return Some(Ok(Number::ZERO));
    }
    let share = match nutrient {
        Nutrient::Energy => return facts.contents.energy.map(|energy| energy.over(Number::whole(100))),
        Nutrient::Fat => facts.contents.fat,
        Nutrient::Carbohydrate => facts.contents.carbohydrate,
        Nutrient::Sugars => {
            facts.contents.sugar.or(facts.contents.carbohydrate.filter(|share| *share == Proportion::ZERO))
        }
        Nutrient::Fibre => {
            facts.contents.fibre.or(facts.contents.carbohydrate.filter(|share| *share == Proportion::ZERO))
        }
        Nutrient::Protein => facts.contents.protein,
        Nutrient::Salt => facts.contents.salt,
    };
    share.map(|share| Ok(share.value()))
}
