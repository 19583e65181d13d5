//! Columns of figures whose points stand under one another.

use crate::measure::shown::{Digits, Shown};

/// A column of figures: how many decimals its longest has, in grams (and percent) and in kilograms.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(in crate::out) struct Column {
    decimals: usize,
    of_kilograms: usize,
}

impl Column {
    /// For these figures.
    pub(in crate::out) fn of<'a>(all: impl IntoIterator<Item = &'a Shown>) -> Column {
        let mut column = Column { decimals: 0, of_kilograms: 0 };
        for (digits, _) in all.into_iter().filter_map(pointed) {
            let most = if digits.unit == "kg" { &mut column.of_kilograms } else { &mut column.decimals };
            *most = digits.decimals().min(4).max(*most);
        }
        column
    }

    /// How many decimals less than the column's longest a figure has.
    pub(in crate::out) fn missing(self, digits: &Digits) -> usize {
        let most = if digits.unit == "kg" { self.of_kilograms } else { self.decimals };
        most.saturating_sub(digits.decimals())
    }
}

/// A figure with a point to stand under others: of weights those in grams and kilograms, and bare numbers. Pounds and
/// ounces have none.
pub(in crate::out) fn pointed(shown: &Shown) -> Option<(&Digits, Option<&Shown>)> {
    shown.single().filter(|(digits, _)| {
        matches!(digits.unit, "g" | "kg" | "")
            && digits.digits.starts_with(|c: char| c.is_ascii_digit())
            && digits.digits.chars().all(|c| c.is_ascii_digit() || matches!(c, '.' | '\u{2009}'))
    })
}
