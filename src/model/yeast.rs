//! The three forms of yeast.
//!
//! J. Hamelman, Bread (2004), 'Yeast conversions, fresh to dry' (seen): fresh × 0.4 = active dry, fresh × 0.33 = instant. Dry
//! matter agrees: 31.0 / 94.9 = 0.327 (USDA SR26 18374, 18375, seen).

use crate::measure::number::{Number, Overflow};
use crate::measure::quantity::Mass;
use crate::model::kind::{Kind, YeastForm};

/// Grams that do what a gram of fresh yeast does.
fn per_fresh(form: YeastForm) -> Number {
    match form {
        YeastForm::Fresh => Number::ONE,
        YeastForm::ActiveDry => Number::constant(2, 5),
        YeastForm::InstantDry => Number::constant(33, 100),
    }
}

/// How much of one form does what a mass of another does.
///
/// # Errors
/// When a figure leaves the range of exact numbers.
pub fn convert(mass: Mass, from: YeastForm, to: YeastForm) -> Result<Mass, Overflow> {
    mass.over(per_fresh(from))?.times(per_fresh(to))
}

/// How much instant yeast does what a mass of some yeast does; one of no known form counts as fresh, as a formula that says no more means it
/// (common practice, no source). `None` of what is no yeast.
pub fn as_instant(mass: Mass, kind: Kind) -> Option<Mass> {
    let Kind::Yeast(form) = kind else { return None };
    convert(mass, form.unwrap_or(YeastForm::Fresh), YeastForm::InstantDry).ok()
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn g(hundredths: i128) -> Mass {
        Mass::new(Number::fraction(hundredths, 100).expect("not nothing"))
    }

    /// Hamelman, Bread (2004) (seen): a pound of fresh yeast is 0.4 lb of active dry or 0.33 lb of instant.
    #[test]
    fn as_printed() {
        assert_eq!(convert(g(10_000), YeastForm::Fresh, YeastForm::ActiveDry), Ok(g(4000)));
        assert_eq!(convert(g(10_000), YeastForm::Fresh, YeastForm::InstantDry), Ok(g(3300)));
    }

    /// USDA SR28 household weights (seen): a cake of 17 g stands for a packet of 7.2 g of active dry: within 7 % of 0.4.
    #[test]
    fn a_cake_is_a_packet() {
        let packet = convert(g(1700), YeastForm::Fresh, YeastForm::ActiveDry).expect("small");
        assert_eq!(packet, g(680));
        let off = packet.minus(g(720)).expect("small").value().size().over(Number::constant(72, 10)).expect("small");
        assert!(off < Number::constant(7, 100));
    }

    proptest! {
        #[test]
        fn there_and_back_is_the_same(mass in 1..1_000_000_i128, from in 0..3_usize, to in 0..3_usize) {
            let (from, to) = (YeastForm::ALL[from], YeastForm::ALL[to]);
            let there = convert(g(mass), from, to).expect("small");
            prop_assert_eq!(convert(there, to, from), Ok(g(mass)));
        }

        #[test]
        fn twice_as_much_stays_twice_as_much(mass in 1..1_000_000_i128, k in 1..100_i64) {
            let once = convert(g(mass), YeastForm::Fresh, YeastForm::InstantDry).expect("small");
            let many = convert(g(mass).times(Number::whole(k)).expect("small"), YeastForm::Fresh, YeastForm::InstantDry);
            prop_assert_eq!(many, once.times(Number::whole(k)));
        }
    }
}
