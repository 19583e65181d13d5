//! Numbers and quantities in one spelling.
//!
//! The digits stay as they were written, because they say how far a figure was rounded: `0.50` is not `0.5`.

use super::Page;
use crate::language::syntax::{Quantity, Term, WrittenNumber};
use crate::measure::number::Number;
use crate::measure::unit::Unit;
use crate::text::source::Spanned;

/// Quantities that say the same, each behind an `=`.
pub(super) fn chain(page: Page<'_>, quantities: &[Quantity]) -> String {
    let written: Vec<String> = quantities.iter().map(|one| quantity(page, one)).collect();
    written.join(" = ")
}

/// One quantity: its terms, and the other end of a range.
pub(super) fn quantity(page: Page<'_>, quantity: &Quantity) -> String {
    let Some(upper) = &quantity.upper else { return terms(page, &quantity.terms) };
    if let ([low], [high]) = (quantity.terms.as_slice(), upper.as_slice()) {
        // One unit behind both ends: `90-120 min`.
        if low.unit == high.unit {
            let (from, to) = (written(page, &low.number), written(page, &high.number));
            let dash = if to.starts_with('-') { " - " } else { "-" };
            return with_unit(format!("{from}{dash}{to}"), high.unit, high.number.value);
        }
    }
    format!("{} - {}", terms(page, &quantity.terms), terms(page, upper))
}

fn terms(page: Page<'_>, terms: &[Term]) -> String {
    let written: Vec<String> =
        terms.iter().map(|term| with_unit(written(page, &term.number), term.unit, term.number.value)).collect();
    written.join(" ")
}

fn with_unit(number: String, unit: Option<Spanned<Unit>>, value: Number) -> String {
    match unit {
        Some(unit) => format!("{number} {}", unit.value.word(is_one(value))),
        None => number,
    }
}

/// Whether a unit stands in the singular: `1 day`, `1/4 cup`.
pub(super) fn is_one(value: Number) -> bool {
    value.is_positive() && value <= Number::ONE
}

/// A number as it stands in the text.
pub(super) fn written(page: Page<'_>, number: &WrittenNumber) -> String {
    spelled(page.slice(number.span), number.value)
}

/// A number with the digits it was written with: `1½` becomes `1 1/2`, `.5` becomes `0.5`, nothing else changes.
pub(super) fn spelled(text: &str, value: Number) -> String {
    let unsigned = text.trim_start_matches(['-', '−']);
    let sign = if unsigned.len() < text.len() { "-" } else { "" };
    let digits = unsigned.find(|c: char| !c.is_ascii_digit()).map_or(unsigned, |end| unsigned.get(..end).unwrap_or(""));
    let is_vulgar = unsigned.chars().last().is_some_and(|last| !last.is_ascii_digit());
    if is_vulgar {
        let (above, below) = fraction_part(value).parts();
        let gap = if digits.is_empty() { "" } else { " " };
        return format!("{sign}{digits}{gap}{above}/{below}");
    }
    if unsigned.starts_with('.') {
        return format!("{sign}0{unsigned}");
    }
    let words: Vec<&str> = unsigned.split_whitespace().collect();
    format!("{sign}{}", words.join(" "))
}

/// What stands behind the whole number; every one-character fraction is in lowest terms.
fn fraction_part(value: Number) -> Number {
    let size = value.size();
    // A number less its own whole part cannot leave the range.
    size.minus(size.floor()).unwrap_or(size)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn digits_stay_and_only_the_spelling_changes() {
        let half = Number::constant(1, 2);
        let cases = [
            ("0.50", half, "0.50"),
            (".50", half, "0.50"),
            ("½", half, "1/2"),
            ("2/4", half, "2/4"),
            ("1½", Number::constant(3, 2), "1 1/2"),
            ("1 ⅔", Number::constant(5, 3), "1 2/3"),
            ("1 \t1/2", Number::constant(3, 2), "1 1/2"),
            ("−12", Number::whole(-12), "-12"),
            ("007", Number::whole(7), "007"),
        ];
        for (text, value, wanted) in cases {
            assert_eq!(spelled(text, value), wanted, "{text}");
        }
    }
}
