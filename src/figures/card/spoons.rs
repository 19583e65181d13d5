//! Spoons and cups beside weights, for those who weigh in ounces.

use super::Maker;
use crate::make::weigh::Weighed;
use crate::measure::number::{Number, Overflow};
use crate::measure::own_words::{self, is_of_elsewhere};
use crate::measure::quantity::{Count, Mass};
use crate::measure::show::{self, Units};
use crate::measure::shown::Shown;
use crate::measure::spoons::LARGE;
use crate::measure::unit::{Measures, Unit};
use crate::measure::value::{Said, Value};
use crate::model::counted::as_cut;
use crate::model::kind::Kind;
use crate::model::larder::Facts;
use crate::model::recipe::{Ingredient, LineAmount};
use crate::solve::formula::SolvedLine;

/// Weights up to this are what a kitchen without a fine scale measures by the spoon, in grams.
const SMALL: Number = Number::constant(20, 1);

/// Up to so many grams an egg wash is spooned; more is told in eggs or weighed.
const AN_EGG: Number = Number::whole(45);

/// `1/2 tsp`, to the nearest quarter of a teaspoon, for a small weight of something whose density the larder knows.
///
/// Where the nearest quarter is more than a tenth away, below a teaspoon three twentieths, the two that it lies between, or a pinch.
///
/// # Errors
/// When an amount leaves the range of exact numbers.
fn beside(mass: Option<Mass>, line: &Ingredient, units: Units) -> Result<Option<Shown>, Overflow> {
    // Nobody measures three eggs in ten tablespoons.
    let is_much_egg = line.kind == Kind::Egg && mass.is_some_and(|mass| mass > Mass::new(AN_EGG));
    by_the_spoon(mass.filter(|_| !is_much_egg), line.facts(), units)
}

/// What one piece takes of a line, by the spoon: `¾ tsp`, `a pinch`; nothing where no larder knows how much a spoon of it weighs.
pub(crate) fn spoons_for_one(mass: Mass, line: &Ingredient) -> Option<Shown> {
    beside(Some(mass), line, Units::Us).ok().flatten()
}

fn by_the_spoon(mass: Option<Mass>, facts: Option<&Facts>, units: Units) -> Result<Option<Shown>, Overflow> {
    let density = facts.and_then(|facts| facts.density);
    let (Some(mass), Some(density)) = (mass, density) else { return Ok(None) };
    if units == Units::Metric || !mass.value().is_positive() {
        return Ok(None);
    }
    let volume = density.volume(mass)?;
    if mass.value() > SMALL {
        return Ok(crate::measure::spoons::kitchen_measure(volume).filter(|_| volume.value() <= LARGE));
    }
    let Some(teaspoon) = Unit::Teaspoon.size(Some(Measures::Us)) else { return Ok(None) };
    let exact = volume.value().over(teaspoon)?;
    let quarter = Number::constant(1, 4);
    let spoons = exact.rounded_to(quarter)?;
    let off = spoons.minus(exact)?.size().over(exact)?;
    let far = if exact < Number::ONE { Number::constant(3, 20) } else { Number::constant(1, 10) };
    // More than four are tablespoons, and the rest beside them.
    if spoons.is_zero() || off > far || spoons > Number::whole(4) {
        return Ok(crate::measure::spoons::customary(volume));
    }
    let three = Number::whole(3);
    let tablespoons = spoons.over(three)?;
    Ok(Some(if tablespoons.is_whole() {
        Shown::new(show::count_of(tablespoons), "tbsp")
    } else {
        Shown::new(show::count_of(spoons), "tsp")
    }))
}

/// The number of pieces that the author wrote beside a weight, at the size of the batch, or the spoons or cups; these not for who weighs
/// in grams, and those that are not of the United States as such for who reads US units.
///
/// # Errors
/// When an amount leaves the range of exact numbers.
fn said_beside(said: &[Said], mass: Option<Mass>, units: Units) -> Result<Option<Shown>, Overflow> {
    let Some((first, mass)) = said.iter().find_map(Said::mass).zip(mass) else { return Ok(None) };
    if first <= Mass::ZERO {
        return Ok(None);
    }
    let factor = mass.value().over(first.value())?;
    // Three eggs stay three eggs, whoever reads it; of what comes out in odd parts of one the weight says more.
    let count = |said: &Said| match said.value {
        Value::Count(count) if said.upper.is_none() => count.times(factor).ok(),
        _ => None,
    };
    let in_halves = |count: &Count| count.value().times(Number::whole(2)).is_ok_and(Number::is_whole);
    let is_weight_first = said.first().is_some_and(|first| first.mass().is_some());
    if let Some(count) = said.iter().find_map(count).filter(|_| is_weight_first) {
        return Ok(Some(show::value_plain(Value::Count(count))).filter(|_| in_halves(&count)));
    }
    // As the reader's card has it: the author's own cups, of this country or of another, before those that the larder gives.
    let is_volume = |said: &&Said| matches!(said.value, Value::Volume(_)) && said.upper.is_none();
    let is_own = |said: &&Said| said.unit.is_some_and(Unit::is_kitchen_measure) && !is_of_elsewhere(said);
    let mut volumes = said.iter().filter(is_volume);
    let own = volumes.clone().find(is_own).or_else(|| volumes.next().filter(|_| units == Units::Us));
    let Some(own) = own.filter(|_| units != Units::Metric) else { return Ok(None) };
    let Value::Volume(volume) = own.value.times(factor)? else { return Ok(None) };
    let is_countable = factor == Number::ONE || volume.value() <= LARGE;
    let shown = own_words::at_size(Some(own), Value::Volume(volume), units);
    let is_measure = shown.terms.iter().all(|term| !term.digits.contains('.'));
    Ok(Some(shown).filter(|_| is_countable && is_measure))
}

/// An amount in the cups, litres or pieces that its line was said in; for who reads US units litres are cups and quarts.
pub(super) fn in_own_measure(line: &Ingredient, amount: Value, units: Units) -> Shown {
    let said = match &line.amount {
        LineAmount::Said(said) => said.first(),
        _ => None,
    };
    let as_written = said.is_some_and(|said| said.value == amount);
    own_words::at_size(said, if as_written { amount } else { in_pieces_as_cut(amount) }, units)
}

/// An amount at the size of a batch, where it is one of pieces in such as can be cut.
pub(super) fn in_pieces_as_cut(amount: Value) -> Value {
    match amount {
        Value::Count(count) => Value::Count(Count::new(as_cut(count.value()))),
        amount => amount,
    }
}

impl Maker<'_> {
    /// The cups, litres or pieces of what goes into one bowl of a line that is shared out.
    pub(super) fn measure_of_share(
        &self,
        line: &Ingredient,
        amount: &SolvedLine,
        goes_in: Mass,
        weighed: Option<Weighed>,
    ) -> Result<Option<Shown>, Overflow> {
        let Some(whole) = amount.mass.filter(|_| goes_in > Mass::ZERO) else { return Ok(None) };
        let share = goes_in.value().over(whole.value())?;
        let measure = amount.measure.map(|measure| measure.times(share)).transpose()?;
        self.measure(line, measure, Some(goes_in), weighed)
    }

    /// The cups, litres or pieces that stand beside so much of a line.
    pub(super) fn measure(
        &self,
        line: &Ingredient,
        measure: Option<Value>,
        mass: Option<Mass>,
        weighed: Option<Weighed>,
    ) -> Result<Option<Shown>, Overflow> {
        if let Some(measure) = measure {
            return Ok(Some(in_own_measure(line, measure, self.units)));
        }
        match said_beside(line.said(), mass, self.units)? {
            Some(said) => Ok(Some(said)),
            // Of all of it, beside which it stands, and of what goes in, not of what a scale in ounces makes of that.
            None => beside(mass.filter(|_| weighed.is_some()), line, self.units),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::measure::quantity::{Density, Volume};

    /// 6 g to a teaspoon of 4.93 ml: table salt, USDA SR28, NDB 02047.
    #[test]
    fn spoons_stand_beside_small_weights_and_cups_beside_others() {
        let teaspoon = Volume::new(Unit::Teaspoon.size(Some(Measures::Us)).expect("a US spoon has a size"));
        let grams = |value| Mass::new(Number::whole(value));
        let salt = Facts { density: Density::of(grams(6), teaspoon).ok(), ..Facts::default() };
        let shown = |value, units| by_the_spoon(Some(grams(value)), Some(&salt), units).expect("in range");
        assert_eq!(shown(3, Units::Us).map(String::from).as_deref(), Some("½ tsp"));
        assert_eq!(shown(18, Units::Both).map(String::from).as_deref(), Some("1 tbsp"));
        assert_eq!(shown(3, Units::Metric), None);
        assert_eq!(shown(144, Units::Us).map(String::from).as_deref(), Some("½ cup"));
        assert_eq!(shown(2880, Units::Us), None);
        assert_eq!(by_the_spoon(Some(grams(3)), Some(&Facts::default()), Units::Us), Ok(None));
    }
}
