//! How an amount of money is written.

use super::number::Number;
use super::shown::Shown;

/// With so many places, and its currency where that is known.
pub fn shown(amount: Number, places: u32, currency: Option<&str>) -> Shown {
    let digits = amount.decimal_fixed(places);
    match currency {
        Some(currency) => Shown::words(format!("{digits} {currency}")),
        None => Shown::new(digits, ""),
    }
}
