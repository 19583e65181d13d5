//! How far a cup of something may be from what the larder says that it weighs: that hangs on how it is cut, sifted or poured.

use crate::measure::number::Number;
use crate::model::kind::Kind;
use crate::model::larder::Facts;

/// Flour, sifted, spooned or dipped: 113 to 142 g of 125 (R. L. Beranbaum's figures in the table of GNU units 2.22 against USDA SR28 20081).
const FLOUR: Number = Number::constant(7, 50);

/// Nuts, whole, halved, chopped or ground: pecan halves 99 g, chopped 109, ground 95 to 145 g of almonds (USDA SR28, from memory).
const NUTS: Number = Number::constant(1, 5);

/// Vegetables, chopped, sliced, shredded or grated: a cup of onions is 160 g chopped and 115 g sliced, of peppers 149 and 92 g (USDA SR28 11282
/// and 11333, WEIGHT).
const VEGETABLES: Number = Number::constant(2, 5);

/// The share by which a cup may weigh more or less.
pub(super) fn apart(facts: Option<&Facts>) -> Number {
    match facts {
        Some(facts) if facts.flags.raw_flour || facts.flour == Some(true) => FLOUR,
        Some(facts) if facts.kind == Some(Kind::Nut) => NUTS,
        Some(facts) if facts.kind == Some(Kind::Vegetable) => VEGETABLES,
        _ => Number::ZERO,
    }
}
