//! From where on a place is cold, and from where it is a freezer: one answer for all who ask.

use crate::measure::number::Number;
use crate::measure::temperature::Temperature;

/// Up to here a place is a refrigerator: 5 °C in law (FDA Food Code 3-501.16), 8 °C on many a dial (common practice, no source).
const WARMEST_COLD: Number = Number::whole(8);

/// From here down a place is a freezer, in which food keeps for months: -18 °C is what law asks for, and -12 °C what it lets a freezer rise to
/// where it is opened (Directive 89/108/EEC, Article 5, from memory).
const WARMEST_FREEZER: Number = Number::whole(-12);

/// Whether a place of that temperature is a refrigerator or colder.
pub fn is_cold(at: Temperature) -> bool {
    at.celsius() <= WARMEST_COLD
}

/// Whether a place of that temperature is a freezer. What is only below 0 °C is none: there food keeps as in a refrigerator.
pub fn is_freezer(at: Temperature) -> bool {
    at.celsius() <= WARMEST_FREEZER
}
