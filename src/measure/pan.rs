//! Tins, rounds and sheets: what they hold, and how much dough goes in.
//!
//! Area of a circle 0.7854 d², volume of a cylinder 0.7854 d² h: NIST, 'Household Weights and Measures' (SP 430), seen. Here
//! with π to nine decimals.

use crate::measure::number::{Number, Overflow};
use crate::measure::quantity::{Length, Mass, Volume};

/// π / 4 to ten decimals.
const QUARTER_PI: Number = Number::constant(3_926_990_817, 5_000_000_000);

/// What dough is baked in or on.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Pan {
    /// A box: length, width, height.
    Tin(Length, Length, Length),
    /// A tin of which the volume is known.
    Holds(Volume),
    /// Round: across, and how high if it matters.
    Round(Length, Option<Length>),
    /// A sheet: length, width.
    Sheet(Length, Length),
}

impl Pan {
    /// Its area in square millimetres, when it has one.
    ///
    /// # Errors
    /// When a figure leaves the range of exact numbers.
    pub fn area(self) -> Result<Option<Number>, Overflow> {
        Ok(match self {
            Pan::Tin(long, wide, _) | Pan::Sheet(long, wide) => Some(long.value().times(wide.value())?),
            Pan::Round(across, _) => Some(across.value().times(across.value())?.times(QUARTER_PI)?),
            Pan::Holds(_) => None,
        })
    }

    /// Its volume in cubic millimetres, when it has one.
    ///
    /// # Errors
    /// When a figure leaves the range of exact numbers.
    pub fn volume(self) -> Result<Option<Number>, Overflow> {
        let high = match self {
            Pan::Holds(volume) => return volume.value().times(Number::whole(1000)).map(Some),
            Pan::Tin(_, _, high) | Pan::Round(_, Some(high)) => high,
            Pan::Sheet(..) | Pan::Round(_, None) => return Ok(None),
        };
        match self.area()? {
            Some(area) => area.times(high.value()).map(Some),
            None => Ok(None),
        }
    }

    /// How many times the dough of this pan the other takes: by volume where both have one, else by area.
    ///
    /// # Errors
    /// When a figure leaves the range of exact numbers.
    pub fn factor_to(self, other: Pan) -> Result<Option<Number>, Overflow> {
        if let (Some(mine), Some(others)) = (self.volume()?, other.volume()?) {
            return others.over(mine).map(Some);
        }
        match (self.area()?, other.area()?) {
            (Some(mine), Some(others)) => others.over(mine).map(Some),
            _ => Ok(None),
        }
    }
}

/// Millilitres of tin for each gram of dough.
///
/// # Errors
/// When a figure leaves the range of exact numbers, or the dough weighs nothing.
pub fn room_for(dough: Mass, volume: Number) -> Result<Number, Overflow> {
    volume.over(Number::whole(1000))?.over(dough.value())
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn inches(tenths: i128) -> Length {
        Length::new(Number::fraction(tenths * 254, 100).expect("not nothing"))
    }

    fn square_inches(pan: Pan) -> String {
        let square = Number::constant(64_516, 100);
        pan.area().expect("small").expect("has one").over(square).expect("small").decimal(2)
    }

    /// Geometry, recomputed: 9 in round 63.62, 12 in 113.10 square inches; half sheet 18 × 13 in 234.
    #[test]
    fn areas() {
        assert_eq!(square_inches(Pan::Round(inches(90), None)), "63.62");
        assert_eq!(square_inches(Pan::Round(inches(120), None)), "113.1");
        assert_eq!(square_inches(Pan::Sheet(inches(180), inches(130))), "234");
    }

    /// T. Lehmann, Pizza Today, Oct 2019, p. 20-22 (seen): 12 in at 11 oz is 14.97 oz at 14 in, 19.56 oz at 16 in;
    /// Sept 2012 (seen): 12 in at 10 oz is 6.94 oz at 10 in, 17.78 oz at 16 in.
    #[test]
    fn dough_for_another_round_as_printed() {
        let scaled = |ounces: i64, to: i128| {
            let factor =
                Pan::Round(inches(120), None).factor_to(Pan::Round(inches(to), None)).expect("small").expect("both");
            factor.times(Number::whole(ounces)).expect("small").decimal(2)
        };
        assert_eq!(scaled(11, 140), "14.97");
        assert_eq!(scaled(11, 160), "19.56");
        assert_eq!(scaled(10, 100), "6.94");
        assert_eq!(scaled(10, 160), "17.78");
    }

    /// Lehmann, Pizza Today, 24 Oct 2013 (seen): 12 in at 13 oz is 53.84 oz on 18 × 26 in, with π = 3.14 and 113 square inches;
    /// with π it is 53.79: within 0.1 %.
    #[test]
    fn from_a_round_to_a_sheet_as_printed() {
        let factor = Pan::Round(inches(120), None)
            .factor_to(Pan::Sheet(inches(260), inches(180)))
            .expect("small")
            .expect("both");
        assert_eq!(factor.times(Number::whole(13)).expect("small").decimal(2), "53.79");
    }

    proptest! {
        #[test]
        fn there_and_back(a in 50..600_i64, b in 50..600_i64, c in 20..200_i64, d in 50..600_i64, e in 20..200_i64) {
            let mm = |value: i64| Length::new(Number::whole(value));
            let tin = Pan::Tin(mm(a), mm(b), mm(c));
            let round = Pan::Round(mm(d), Some(mm(e)));
            let there = tin.factor_to(round).expect("small").expect("both");
            let back = round.factor_to(tin).expect("small").expect("both");
            prop_assert_eq!(there.times(back), Ok(Number::ONE));
        }

        #[test]
        fn twice_as_long_each_way_is_four_times_the_area(a in 50..600_i64) {
            let mm = |value: i64| Length::new(Number::whole(value));
            let small = Pan::Round(mm(a), None);
            let large = Pan::Round(mm(2 * a), None);
            prop_assert_eq!(small.factor_to(large), Ok(Some(Number::whole(4))));
        }
    }
}
