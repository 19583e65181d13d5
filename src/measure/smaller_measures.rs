//! Smaller spoons that give exactly as much, where there is no such cup or spoon: a third of a tablespoon is a teaspoon.

use crate::measure::number::Number;
use crate::measure::unit::{Measures, Unit};

/// The parts of a cup and of a spoon that there are measures for.
fn parts_of(unit: Unit) -> Option<&'static [i64]> {
    match unit {
        Unit::Cup => Some(&[4, 3]),
        Unit::Tablespoon => Some(&[2]),
        Unit::Teaspoon => Some(&[4]),
        _ => None,
    }
}

/// Nobody counts to seventy teaspoons.
const MOST: Number = Number::whole(8);

fn is_in(count: Number, parts: &[i64]) -> bool {
    parts.iter().any(|part| count.times(Number::whole(*part)).is_ok_and(Number::is_whole))
}

/// So much of a unit of that size in the largest smaller spoons that give exactly as much; `None` where there is such a measure of it, and
/// where no spoons give it.
pub(super) fn in_smaller(count: Number, unit: Unit, size: Number) -> Option<(Number, Unit)> {
    if is_in(count, parts_of(unit)?) {
        return None;
    }
    let countries = [Measures::Us, Measures::Metric, Measures::Imperial];
    let whose = countries.into_iter().find(|whose| unit.size(Some(*whose)) == Some(size))?;
    let smaller = [Unit::Tablespoon, Unit::Teaspoon].into_iter().skip(usize::from(unit != Unit::Cup));
    smaller.filter(|other| *other != unit).find_map(|other| {
        let other_count = count.times(size).ok()?.over(other.size(Some(whose))?).ok()?;
        (is_in(other_count, parts_of(other)?) && other_count <= MOST).then_some((other_count, other))
    })
}

/// So much of a unit of that size in the measures that there are: itself where it is one, smaller spoons that give exactly as much, or a cup
/// and spoons beside it, `1 cup 1½ tbsp`; else what it is, in parts that no measure has.
pub(super) fn terms(count: Number, unit: Unit, size: Number) -> Vec<(Number, Unit)> {
    let one = in_smaller(count, unit, size).map(|one| vec![one]);
    one.or_else(|| in_two(count, unit, size)).unwrap_or_else(|| vec![(count, unit)])
}

fn in_two(count: Number, unit: Unit, size: Number) -> Option<Vec<(Number, Unit)>> {
    let parts = parts_of(unit)?;
    if is_in(count, parts) {
        return None;
    }
    let countries = [Measures::Us, Measures::Metric, Measures::Imperial];
    let whose = countries.into_iter().find(|whose| unit.size(Some(*whose)) == Some(size))?;
    // Of spoons the larger are whole.
    let parts = if unit == Unit::Cup { parts } else { &[1] };
    let smaller = [Unit::Tablespoon, Unit::Teaspoon].into_iter().filter(|other| *other != unit);
    let mut pairs = smaller.flat_map(|other| parts.iter().map(move |part| (other, Number::whole(*part))));
    pairs.find_map(|(other, part)| {
        let below = count.times(part).ok()?.floor().over(part).ok()?;
        let rest = count.minus(below).ok()?.times(size).ok()?.over(other.size(Some(whose))?).ok()?;
        let fits = below.is_positive() && rest <= MOST && is_in(rest, parts_of(other)?);
        fits.then(|| vec![(below, unit), (rest, other)])
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    /// 3 tsp are 1 tbsp and 16 tbsp a cup in the US (NIST SP 811 as GNU units has it); a metric cup is 250 ml, 50 spoons of 5 ml.
    #[test]
    fn there_is_no_third_of_a_tablespoon() {
        let smaller = |whose, unit: Unit, over, under| {
            let size = unit.size(Some(whose)).expect("a size");
            in_smaller(Number::constant(over, under), unit, size)
        };
        let us = |unit, over, under| smaller(Measures::Us, unit, over, under);
        assert_eq!(us(Unit::Tablespoon, 1, 3), Some((Number::ONE, Unit::Teaspoon)));
        assert_eq!(us(Unit::Tablespoon, 1, 2), None);
        assert_eq!(us(Unit::Tablespoon, 5, 4), Some((Number::constant(15, 4), Unit::Teaspoon)));
        assert_eq!(us(Unit::Cup, 1, 6), Some((Number::whole(8), Unit::Teaspoon)));
        assert_eq!(us(Unit::Cup, 1, 8), Some((Number::whole(2), Unit::Tablespoon)));
        assert_eq!(us(Unit::Cup, 4, 3), None);
        assert_eq!(us(Unit::Cup, 35, 24), None);
        assert_eq!(us(Unit::Teaspoon, 1, 7), None);
        assert_eq!(smaller(Measures::Metric, Unit::Cup, 1, 10), Some((Number::whole(5), Unit::Teaspoon)));
    }

    /// 17 1/2 tbsp are 1 cup and 1 1/2 tbsp: as somebody writes it, so it is printed. A tenth of a cup no spoons give.
    #[test]
    fn a_cup_and_spoons_stay_a_cup_and_spoons() {
        let us = |unit: Unit, over, under| {
            let size = unit.size(Some(Measures::Us)).expect("a size");
            terms(Number::constant(over, under), unit, size)
        };
        let one = Number::ONE;
        assert_eq!(us(Unit::Cup, 35, 32), [(one, Unit::Cup), (Number::constant(3, 2), Unit::Tablespoon)]);
        assert_eq!(us(Unit::Cup, 19, 48), [(Number::constant(1, 3), Unit::Cup), (one, Unit::Tablespoon)]);
        assert_eq!(us(Unit::Cup, 49, 48), [(one, Unit::Cup), (one, Unit::Teaspoon)]);
        assert_eq!(us(Unit::Tablespoon, 10, 3), [(Number::whole(3), Unit::Tablespoon), (one, Unit::Teaspoon)]);
        assert_eq!(us(Unit::Cup, 3, 4), [(Number::constant(3, 4), Unit::Cup)]);
        assert_eq!(us(Unit::Cup, 11, 10), [(Number::constant(11, 10), Unit::Cup)]);
    }
}
