//! Energy and nutrients of what is sold: what they are at least and at most.

use super::items::{Item, leaves};
use crate::measure::number::{Number, Overflow};
use crate::measure::quantity::Mass;
use crate::model::kind::Kind;
use crate::model::nutrient::{Held, Nutrient, held};
use crate::text::quick::QuickSet;

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
    /// Ingredients of which the larder has no figure, or of which nobody knows how much stays behind when they are strained out, so that
    /// `amount` is a lower bound.
    pub missing: Vec<String>,
    /// Fats that something is fried in, of which some stays: `amount` is a lower bound, and `most` counts as much of them as there is, or
    /// as there is of everything else.
    pub fried_in: Vec<String>,
    /// Those that go in by no weight, to taste or as needed, and bring some of it: `most` is no bound then.
    pub unweighed: Unweighed,
}

/// What goes in by no weight.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Unweighed {
    /// Which.
    pub names: Vec<String>,
    /// Whether one of them is mostly of this nutrient, as salt to taste is salt: what is known without it says nothing.
    pub is_most: bool,
}

/// Energy and nutrients of a batch.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Nutrition {
    /// One each, in the order of [`Nutrient`].
    pub sums: Vec<Sum>,
    /// What is in it by an unknown weight (to taste) or set aside for dusting, and therefore not counted.
    pub uncounted: Vec<String>,
    /// What is strained out again and leaves something behind.
    pub strained_out: Vec<String>,
}

impl Sum {
    /// Nothing of it.
    pub(super) fn none(nutrient: Nutrient) -> Sum {
        let (amount, most) = (Number::ZERO, Number::ZERO);
        Sum { nutrient, amount, most, missing: Vec::new(), fried_in: Vec::new(), unweighed: Unweighed::default() }
    }

    /// Something that goes in by no weight, but for what is fried in, which is told by itself. Of a spice to taste what it brings is within what is tolerated anyway.
    fn takes_unweighed(&mut self, item: &Item, held: Held) -> Result<(), Overflow> {
        let brings = held.most.is_positive()
            && !item.strained_out
            && !item.fried_in
            && item.kind() != Kind::Spice
            && !item.is_water();
        if !brings {
            return Ok(());
        }
        if !self.unweighed.names.contains(&item.name) {
            self.unweighed.names.push(item.name.clone());
        }
        let in_grams = matches!(
            self.nutrient,
            Nutrient::Fat
                | Nutrient::Carbohydrate
                | Nutrient::AvailableCarbohydrate
                | Nutrient::Sugars
                | Nutrient::AddedSugars
                | Nutrient::Protein
                | Nutrient::GrossProtein
                | Nutrient::Salt
        );
        self.unweighed.is_most |= in_grams && held.least.times(Number::whole(2))? >= Number::ONE;
        Ok(())
    }
}

impl Nutrition {
    /// Adds up what is in the ingredients, and in fat that they are fried in and that nobody lists.
    ///
    /// # Errors
    /// When a sum leaves the range of exact numbers.
    pub fn of(list: &[Item], fries_in_unlisted_fat: bool) -> Result<Nutrition, Overflow> {
        let leaves = leaves(list);
        let counted = leaves.iter().filter(|item| !item.aside && !item.strained_out);
        let all = Mass::sum(counted.filter_map(|item| item.mass))?;
        let mut sums = Vec::with_capacity(Nutrient::ALL.len());
        for nutrient in Nutrient::ALL {
            let mut sum = Sum::none(nutrient);
            for item in leaves.iter().filter(|item| item.fried_in) {
                let held = held(item.facts.as_deref(), nutrient)?;
                let bath = item.mass.filter(|_| item.aside).or(item.went_in);
                let taken_up = bath.map_or(all, |mass| mass.min(all));
                if held.most.is_positive() && !sum.fried_in.contains(&item.name) {
                    sum.most = sum.most.plus(taken_up.value().times(held.most)?)?;
                    sum.fried_in.push(item.name.clone());
                }
            }
            if let (true, Some(most)) = (fries_in_unlisted_fat, most_in_fat(nutrient)) {
                sum.most = sum.most.plus(all.value().times(most)?)?;
                sum.fried_in.push("the fat that it is fried in".to_owned());
            }
            let mut lacking: Vec<&str> = Vec::new();
            for item in leaves.iter().filter(|item| !item.aside) {
                let held = held(item.facts.as_deref(), nutrient)?;
                if let Some(mass) = item.went_in.filter(|_| held.most.is_positive() && !item.fried_in) {
                    sum.most = sum.most.plus(mass.value().times(held.most)?)?;
                    lacking.push(&item.name);
                }
                let Some(mass) = item.mass.filter(|mass| *mass > Mass::ZERO) else {
                    sum.takes_unweighed(item, held)?;
                    continue;
                };
                sum.amount = sum.amount.plus(mass.value().times(held.least)?)?;
                sum.most = sum.most.plus(mass.value().times(held.most)?)?;
                if !held.is_known {
                    lacking.push(&item.name);
                }
            }
            let mut told: QuickSet<&str> = QuickSet::default();
            sum.missing = lacking.into_iter().filter(|name| told.insert(name)).map(str::to_owned).collect();
            sums.push(sum);
        }
        let uncounted = leaves
            .iter()
            .filter(|item| !item.strained_out && (item.aside || item.mass.is_none_or(|mass| mass <= Mass::ZERO)));
        let names = |items: &mut dyn Iterator<Item = &&Item>| items.map(|item| item.name.clone()).collect();
        let mut uncounted: Vec<String> = names(&mut uncounted.into_iter());
        // Oil for the trays, beside the oil in the dough.
        let besides = leaves.iter().filter(|item| !item.aside && !item.fried_in && !item.is_water());
        uncounted.extend(besides.flat_map(|item| item.aside_as.iter().cloned()));
        let strained_out = names(&mut leaves.iter().filter(|item| item.went_in.is_some() && !item.fried_in));
        Ok(Nutrition { sums, uncounted, strained_out })
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

/// The most that a gram of any fat holds of a nutrient; `None` for what no fat brings.
fn most_in_fat(nutrient: Nutrient) -> Option<Number> {
    match nutrient {
        Nutrient::Fat | Nutrient::Saturates | Nutrient::TransFat => Some(Number::ONE),
        Nutrient::Energy | Nutrient::Kilocalories => Some(Number::whole(9)),
        Nutrient::Kilojoules => Some(Number::whole(37)),
        _ => None,
    }
}
