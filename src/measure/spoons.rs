//! Spoons and cups.

use crate::measure::number::Number;
use crate::measure::quantity::Volume;
use crate::measure::show::{self, TOO_FAR, count_of};
use crate::measure::shown::{Digits, Shown};
use crate::measure::unit::{Measures, Unit};
use crate::measure::value::{Said, Value};

/// A volume in US cups or spoons, to fractions that there are measures for: quarters and thirds of a cup, halves of a
/// tablespoon, quarters of a teaspoon. Nothing where these are more than a twentieth away.
pub fn kitchen_measure(volume: Volume) -> Option<Shown> {
    measure_of(volume, Measures::Us)
}

/// So much of something in the spoons or cups that it was said in, at another size than it was said in; where that makes dozens of spoons
/// or parts that no measure has, in larger or smaller ones of the same country.
pub fn at_size(said: &Said, amount: Value) -> Option<Shown> {
    let own = show::measured(said, amount)?;
    let (Value::Volume(volume), false) = (amount, amount == said.value) else { return Some(own) };
    let countries = [Measures::Us, Measures::Metric, Measures::Imperial];
    let whose = countries.into_iter().find(|whose| said.unit.and_then(|unit| unit.size(Some(*whose))) == said.size)?;
    let size_of = |unit: Unit| unit.size(Some(whose)).unwrap_or(Number::ONE);
    let spoons = said.unit.is_some_and(|unit| matches!(unit, Unit::Teaspoon | Unit::Tablespoon));
    let many =
        spoons && said.size.and_then(|size| volume.value().over(size).ok()).is_some_and(|count| count > MOST_SPOONS);
    let no_measure = own.terms.iter().any(|term| term.digits.contains('.'));
    if volume.value() < size_of(Unit::Teaspoon).over(Number::whole(8)).ok()? {
        return Some(Shown::words("a pinch"));
    }
    Some(if many || no_measure { measure_of(volume, whose).unwrap_or(own) } else { own })
}

/// More of one spoon than this are told in a larger measure.
const MOST_SPOONS: Number = Number::whole(8);

fn measure_of(volume: Volume, whose: Measures) -> Option<Shown> {
    let measures: [(Unit, &[(i128, i128)]); 3] =
        [(Unit::Cup, &[(1, 4), (1, 3)]), (Unit::Tablespoon, &[(1, 1), (1, 2)]), (Unit::Teaspoon, &[(1, 2), (1, 4)])];
    for (unit, steps) in measures {
        let count = volume.value().over(unit.size(Some(whose))?).ok()?;
        let steps: Vec<Number> = steps.iter().map(|(one, many)| Number::constant(*one, *many)).collect();
        let least = if unit == Unit::Cup { Number::constant(1, 4) } else { Number::ONE };
        // Nobody counts to thirty-four spoons, nor to fourteen.
        if unit == Unit::Cup && count > Number::constant(1, 2) && !is_near(count, &steps)? {
            return cups_and_spoons(volume, whose);
        }
        let rounded = nearest_of(count, &steps)?;
        let moved = rounded.minus(count).and_then(|by| by.size().over(count)).ok()?;
        // A tablespoon less than one is a matter of teaspoons; a teaspoon goes down to its quarter.
        let far = if unit == Unit::Teaspoon && count < Number::ONE { Number::constant(3, 20) } else { TOO_FAR };
        if moved <= far && (rounded >= least || (unit == Unit::Teaspoon && rounded.is_positive())) {
            return Some(Shown::new(count_of(rounded), unit.word(rounded <= Number::ONE)));
        }
    }
    None
}

/// The nearest of the measures that there are by these steps.
fn nearest_of(count: Number, steps: &[Number]) -> Option<Number> {
    let off = |rounded: &Number| rounded.minus(count).map_or(count, Number::size);
    steps.iter().filter_map(|step| count.rounded_to(*step).ok()).min_by_key(off)
}

/// Whether one of these steps is no more than a twentieth away.
fn is_near(count: Number, steps: &[Number]) -> Option<bool> {
    let rounded = nearest_of(count, steps)?;
    Some(rounded.minus(count).ok()?.size().over(count).ok()? <= TOO_FAR)
}

/// Cups down to the quarter, and tablespoons beside them, of which sixteen are a cup: `2 cups 2 tbsp`.
fn cups_and_spoons(volume: Volume, whose: Measures) -> Option<Shown> {
    let quarter = Number::constant(1, 4);
    let (cup, spoon) = (Unit::Cup.size(Some(whose))?, Unit::Tablespoon.size(Some(whose))?);
    let below = volume.value().over(cup).ok()?.over(quarter).ok()?.floor().times(quarter).ok()?;
    let rest = volume.value().minus(below.times(cup).ok()?).ok()?.over(spoon).ok()?.rounded_to(Number::ONE).ok()?;
    // Four spoons are the next quarter of a cup.
    let is_next = rest.times(spoon).ok()? >= cup.times(quarter).ok()?;
    let (cups, rest) = if is_next { (below.plus(quarter).ok()?, Number::ZERO) } else { (below, rest) };
    let mut terms = vec![Digits::new(count_of(cups), Unit::Cup.word(cups <= Number::ONE))];
    if rest.is_positive() {
        terms.push(Digits::new(count_of(rest), Unit::Tablespoon.word(rest <= Number::ONE)));
    }
    Some(Shown { terms, ..Shown::default() })
}

/// More than this is counted in quarts: two of them, in millilitres.
const LARGE: Number = Number::whole(1893);

/// Any volume as it is measured in the US: in cups and spoons where there are such, else in fluid ounces, and much of it in quarts and cups.
pub fn customary(volume: Volume) -> Option<Shown> {
    if volume.value() > LARGE {
        return quarts_and_cups(volume);
    }
    kitchen_measure(volume).or_else(|| {
        let ounce = Unit::FluidOunce.size(Some(Measures::Us))?;
        let count = volume.value().over(ounce).ok()?.rounded_to(Number::constant(1, 4)).ok()?;
        count.is_positive().then(|| Shown::new(count_of(count), Unit::FluidOunce.word(count <= Number::ONE)))
    })
}

/// Quarts, and beside them cups to the nearest quarter or third, of which four are a quart: `3 qt ⅔ cup`.
fn quarts_and_cups(volume: Volume) -> Option<Shown> {
    let four = Number::whole(4);
    let count = volume.value().over(Unit::Cup.size(Some(Measures::Us))?).ok()?;
    let cups = nearest_of(count, &[Number::constant(1, 4), Number::constant(1, 3)])?;
    let quarts = cups.over(four).ok()?.floor();
    let rest = cups.minus(quarts.times(four).ok()?).ok()?;
    let mut terms = vec![Digits::new(count_of(quarts), Unit::Quart.word(quarts <= Number::ONE))];
    if rest.is_positive() {
        terms.push(Digits::new(count_of(rest), Unit::Cup.word(rest <= Number::ONE)));
    }
    Some(Shown { terms, ..Shown::default() })
}

#[cfg(test)]
mod tests {
    use super::*;

    /// 1 US cup is 236.588 ml, a tablespoon a sixteenth of it, a teaspoon a third of that (NIST SP 811 as GNU units has it).
    #[test]
    fn volumes_go_into_the_measures_there_are() {
        let shown = |millilitres| kitchen_measure(Volume::new(Number::whole(millilitres))).map(|one| one.to_string());
        assert_eq!(shown(240).as_deref(), Some("1 cup"));
        assert_eq!(shown(158).as_deref(), Some("⅔ cup"));
        assert_eq!(shown(355).as_deref(), Some("1½ cups"));
        assert_eq!(shown(15).as_deref(), Some("1 tbsp"));
        // 790 ml are 3.339 cups, a third and no quarter over three; 385 ml are 1.627, nearer 1 2/3 than 1 1/2.
        assert_eq!(shown(790).as_deref(), Some("3⅓ cups"));
        assert_eq!(shown(385).as_deref(), Some("1⅔ cups"));
        // 503 ml are 2.126 cups: two and two spoons of 14.8 ml, and not 34 spoons.
        assert_eq!(shown(503).as_deref(), Some("2 cups 2 tbsp"));
        // 210 ml are 0.888 cups, 14.2 spoons: three quarters and two.
        assert_eq!(shown(210).as_deref(), Some("¾ cup 2 tbsp"));
        assert_eq!(shown(5).as_deref(), Some("1 tsp"));
        assert_eq!(kitchen_measure(Volume::ZERO), None);
        let poured = |millilitres| customary(Volume::new(Number::whole(millilitres))).map(|one| one.to_string());
        assert_eq!(poured(80).as_deref(), Some("⅓ cup"));
        // 3 l are 12.68 US cups, 3 quarts and 0.68 of a cup; 3.75 l are 15.85, and the nearest measure to 3.85 of a cup is 3 3/4.
        assert_eq!(poured(3000).as_deref(), Some("3 qt ⅔ cup"));
        assert_eq!(poured(3750).as_deref(), Some("3 qt 3¾ cups"));
        assert_eq!(poured(3785).as_deref(), Some("4 qt"));
        assert_eq!(poured(1900).as_deref(), Some("2 qt"));
    }
}
