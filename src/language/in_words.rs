//! Amounts among words: the `30C` of `water, about 30C`, the `1/2 cup` of a name.

use super::evaluate::evaluate;
use super::parse::measure;
use crate::measure::in_text::{self, InText};
use crate::measure::unit::{Measures, Unit};
use crate::measure::value::Said;
use crate::text::source::SourceId;
use std::ops::Range;

/// An amount that stands among words.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Found {
    /// What it comes to, where a cup is that of no country in particular.
    pub said: Said,
    /// Its unit.
    pub unit: Unit,
    /// As the language has it: `28-30 C`.
    pub written: String,
    /// Where in the text.
    pub at: Range<usize>,
}

/// The first amount of a text: a number and what is a unit, or the usual other word for one.
pub(crate) fn amount(text: &str) -> Option<Found> {
    in_text::amounts(text)
        .find_map(|InText { unit, written, at }| Some(Found { said: read(&written)?, unit, written, at }))
}

/// What the language reads where this is an amount, as it stands in the words of a step.
fn read(written: &str) -> Option<Said> {
    evaluate(measure(SourceId(u32::MAX), written)?.first()?, Some(Measures::Us), &mut Vec::new())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn amounts_are_found_however_they_are_typed() {
        for (text, written) in [
            ("30C", "30 C"),
            ("about 30 °C", "30 C"),
            ("30 degrees C", "30 C"),
            ("30 celsius, warm", "30 C"),
            ("28–30 C", "28-30 C"),
            ("water (30 C)", "30 C"),
            ("50g apple", "50 g"),
            ("1/2 cup apple", "1/2 cups"),
            ("1 1/2 cups apple", "1 1/2 cups"),
            ("½ l milk", "½ l"),
        ] {
            assert_eq!(amount(text).map(|found| found.written).as_deref(), Some(written), "{text}");
        }
        for text in ["00 flour", "T55 flour", "type 405", "5 spice", "as warm as can be", "w 280", "3 large ones"] {
            assert_eq!(amount(text), None, "{text}");
        }
    }
}
