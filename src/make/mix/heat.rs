//! How much heat things hold: specific heats from what they consist of.

use crate::measure::number::{Number, Overflow};
use crate::measure::quantity::Proportion;
use crate::measure::temperature::Temperature;
use crate::model::larder::Facts;

/// Water, joules per gram and degree (4.18, any handbook of physics).
pub const WATER: Number = Number::constant(209, 50);
/// What a gram of ice takes up in melting, joules (334; 144 BTU a pound, Baking Business, seen).
pub const MELTING: Number = Number::whole(334);
/// How warm things are of which nobody says it, °C.
const USUAL: Number = Number::whole(20);

/// A specific heat after Choi and Okos (1986), as carried by github.com/mirrorscotty/material-data, choi-okos/choi-okos.c, and by studylib.net
/// 9707268 (both seen): in ten-thousandths at 0 °C, by the degree in thousandths of these, and by its square in thousandths of those, good
/// from -40 to 150 °C. Of the slope of fat each of the two misprints something else, `1.4733e-4` and `1.4373e-3`: its digits are those of
/// the first and its size that of the second.
struct Curve(i128, i128, i128);

/// Fat.
const FAT: Curve = Curve(19842, 14733, 48008);
/// Other solids, as carbohydrate.
const SOLIDS: Curve = Curve(15488, 19625, 59399);

impl Curve {
    /// To the ten-thousandth: no more is known, and the exact sums behind it stay small. It is asked for everything in every bowl, so
    /// that the sum is one of whole numbers, in billionths of thousandths.
    fn at(&self, celsius: Number) -> Result<Number, Overflow> {
        let Curve(base, slope, bend) = *self;
        let (above, below) = celsius.parts();
        let tenths = above.checked_mul(10).and_then(|tenfold| nearest(tenfold, below)).ok_or(Overflow)?;
        let term = |factor: i128, one: i128, two: i128| factor.checked_mul(one)?.checked_mul(two);
        let heat = || {
            let straight = term(base, 10_000, 10_000)?.checked_add(term(slope, 10_000, tenths)?)?;
            Number::fraction(nearest(straight.checked_sub(term(bend, tenths, tenths)?)?, 100_000_000)?, 10_000)
        };
        heat().ok_or(Overflow)
    }
}

/// The whole number nearest to a quotient, halves away from nothing, as [`Number::rounded_to`] rounds.
fn nearest(above: i128, below: i128) -> Option<i128> {
    let size = match (u64::try_from(above.unsigned_abs()), u64::try_from(below)) {
        (Ok(above), Ok(below)) if above <= u64::MAX / 4 && below <= u64::MAX / 4 => {
            i128::from(above.checked_mul(2)?.checked_add(below)?.checked_div(below.checked_mul(2)?)?)
        }
        _ => above.checked_abs()?.checked_mul(2)?.checked_add(below)?.checked_div(below.checked_mul(2)?)?,
    };
    Some(if above < 0 { -size } else { size })
}

/// The specific heat of solids at a temperature; at 20 °C where none is said.
///
/// # Errors
/// When a figure leaves the range of exact numbers.
pub fn of_solids(at: Option<Temperature>) -> Result<Number, Overflow> {
    SOLIDS.at(at.map_or(USUAL, Temperature::celsius))
}

/// Flour holds 13.4 % of water when the larder does not say (USDA SR26 20083 bread flour).
const FLOUR_WATER: Number = Number::constant(134, 1000);

/// The specific heat of an ingredient. What the larder does not know counts as dry solids, flour as bread flour.
///
/// # Errors
/// When a figure leaves the range of exact numbers.
pub fn of(facts: Option<&Facts>, is_flour: bool, at: Option<Temperature>) -> Result<Number, Overflow> {
    let share = |share: Option<Proportion>| share.map(Proportion::value);
    let unknown = if is_flour { FLOUR_WATER } else { Number::ZERO };
    let water = share(facts.and_then(|facts| facts.contents.water)).unwrap_or(unknown);
    let fat = share(facts.and_then(|facts| facts.contents.fat)).unwrap_or(Number::ZERO);
    of_shares(water, fat, at)
}

/// The specific heat of something with those shares of water and fat, at a temperature.
///
/// # Errors
/// When a figure leaves the range of exact numbers.
pub fn of_shares(water: Number, fat: Number, at: Option<Temperature>) -> Result<Number, Overflow> {
    let rest = Number::ONE.minus(water)?.minus(fat)?;
    let celsius = at.map_or(USUAL, Temperature::celsius);
    let in_fat = if fat.is_zero() { Number::ZERO } else { FAT.at(celsius)?.times(fat)? };
    WATER.times(water)?.plus(in_fat)?.plus(SOLIDS.at(celsius)?.times(rest)?)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn quotients_are_rounded_as_numbers_are() {
        let far = i128::from(u64::MAX);
        for above in [0, 1, 2, 3, 4, 5, 6, 7, 49, 50, 51, 149, 150, 151, far / 4, far, far * 3 + 1] {
            for below in [1, 2, 3, 4, 7, 100, far / 4, far] {
                for above in [above, -above] {
                    let number = Number::fraction(above, below).and_then(|number| number.rounded_to(Number::ONE).ok());
                    assert_eq!(nearest(above, below), number.map(|number| number.parts().0), "{above} / {below}");
                }
            }
        }
        assert_eq!(nearest(1, 0), None);
    }

    /// Choi and Okos, 1986 (seen as said above): carbohydrate 1.5488 + 1.9625e-3 T - 5.9399e-6 T2, fat 1.9842 + 1.4733e-3 T - 4.8008e-6 T2, so
    /// 1.5857 and 2.0117 at 20 °C; 1.5488 and 1.9842 are what they are at 0 °C.
    #[test]
    fn heats_go_with_the_temperature() {
        let shown = |curve: &Curve, celsius: i64| curve.at(Number::whole(celsius)).expect("small").decimal(4);
        assert_eq!([shown(&SOLIDS, 0), shown(&SOLIDS, 20), shown(&SOLIDS, 30)], ["1.5488", "1.5857", "1.6023"]);
        assert_eq!([shown(&FAT, 0), shown(&FAT, 20), shown(&FAT, 4)], ["1.9842", "2.0117", "1.99"]);
        // By the formula: 1.5488 + 0.04219375 - 0.0027457187.. at 21.5 °C, and 1.5488 - 0.078500 - 0.0095038.. at -40 °C.
        let at = |tenths: i128| {
            let celsius = Number::fraction(tenths, 10).expect("a number");
            SOLIDS.at(celsius).expect("small").decimal(6)
        };
        assert_eq!([at(215), at(-400)], ["1.5882", "1.4608"]);
    }

    /// Bread flour by this: 1.93 J/(g K). C. Geankoplis, Transport Processes, appendix A.4-1 (seen), has 1.80 to 1.88 for flour of 12 to 13.5 %
    /// of water; bakers' handbooks print 0.42 to 0.45 BTU/(lb °F), 1.76 to 1.88 (from memory).
    #[test]
    fn flour_as_the_handbooks_have_it() {
        let flour = of(None, true, None).expect("small");
        assert!(flour > Number::constant(176, 100) && flour < Number::constant(195, 100), "{}", flour.decimal(3));
    }

    /// White pan bread dough: about 2.8 J/(g K) (C. Rask, Journal of Food Engineering 9 (1989) 167-193: title seen, value from memory).
    #[test]
    fn dough_as_reviewed() {
        // 100 flour with 13.4 % of water, 62 water, 2 salt.
        let water = Number::constant(754, 1640);
        let dough = of_shares(water, Number::constant(1, 100), None).expect("small");
        assert!(dough > Number::constant(25, 10) && dough < Number::constant(30, 10), "{}", dough.decimal(3));
    }
}
