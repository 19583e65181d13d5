//! Whether the commas and points of notes part thousands or decimals: one reading for all of the notes.
//!
//! `1,250` alone may be twelve hundred or one and a quarter. Beside `0,8` or `62,5`, or in a language that writes so, it can be only one of
//! them. What was settled so is marked in the figure by signs of its own until the formula is written ([`as_written`]).

use std::borrow::Cow;

use super::amount::{self, DECIMAL, THOUSANDS};

/// A run of digits with commas and points within: where it begins and ends.
type Run = (usize, usize);

/// Settles the commas and points of all lines. `foreign`: the notes are in a language that has a comma before its decimals.
pub(super) fn settle(lines: &mut [String], foreign: bool) {
    if has_decimal_comma(lines.iter().map(String::as_str), foreign) {
        for line in lines.iter_mut().filter(|line| line.contains([',', '.'])) {
            *line = settled(line);
        }
    }
}

/// Whether texts that belong together have a comma before their decimals.
pub(super) fn has_decimal_comma<'t>(texts: impl Iterator<Item = &'t str>, foreign: bool) -> bool {
    let mut says = foreign;
    for text in texts {
        for (from, to) in runs(text) {
            match text.get(from..to).and_then(reading) {
                // Where both are written, each figure is read by itself and marked.
                Some(Reading::English) => return false,
                Some(Reading::DecimalComma) => says = true,
                None => {}
            }
        }
    }
    says
}

/// A text with its commas and points as somebody wrote them.
pub(super) fn as_written(text: &str) -> Cow<'_, str> {
    if !text.contains([DECIMAL, THOUSANDS]) {
        return Cow::Borrowed(text);
    }
    Cow::Owned(text.replace(DECIMAL, ",").replace(THOUSANDS, "."))
}

/// What a figure tells of its commas and points.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Reading {
    /// `62,5`, `0,250`, `1.250,5`: its comma can only be before decimals.
    DecimalComma,
    /// `62.5`, `1,250.5`, `1,250,000`: it is as in English.
    English,
}

/// How one figure can only be read; `None` where it may be read in two ways.
fn reading(figure: &str) -> Option<Reading> {
    let (comma, point) = (figure.rfind(','), figure.rfind('.'));
    let in_thousands = |mark: char| {
        let mut groups = figure.split(mark);
        let first = groups.next().unwrap_or_default();
        (1..=3).contains(&first.len()) && !first.starts_with('0') && groups.all(|group| group.len() == 3)
    };
    match (comma, point) {
        (Some(comma), Some(point)) => Some(if comma > point { Reading::DecimalComma } else { Reading::English }),
        // `1,2,3` is a list.
        (Some(_), None) if figure.matches(',').count() > 1 => in_thousands(',').then_some(Reading::English),
        (Some(_), None) => (!in_thousands(',')).then_some(Reading::DecimalComma),
        // `24.12.2026` is a date.
        (None, Some(_)) if figure.matches('.').count() > 1 => None,
        (None, Some(_)) => (!in_thousands('.')).then_some(Reading::English),
        (None, None) => None,
    }
}

/// The figures of a line.
fn runs(line: &str) -> Vec<Run> {
    let mut runs = Vec::new();
    let mut from = None;
    for (at, character) in line.char_indices().chain([(line.len(), ' ')]) {
        let is_part = character.is_ascii_digit() || (from.is_some() && matches!(character, ',' | '.'));
        match (from, is_part) {
            (None, true) => from = Some(at),
            (Some(begun), false) => {
                let figure = line.get(begun..at).unwrap_or_default().trim_end_matches([',', '.']);
                runs.push((begun, begun + figure.len()));
                from = None;
            }
            _ => {}
        }
    }
    runs
}

/// A line whose decimals have a comma, with the signs for what may be read in two ways.
pub(super) fn settled(line: &str) -> String {
    let mut whole = String::with_capacity(line.len() + 4);
    let mut done = 0;
    for (from, to) in runs(line) {
        let (Some(before), Some(figure), Some(behind)) = (line.get(done..from), line.get(from..to), line.get(to..))
        else {
            break;
        };
        whole.push_str(before);
        // Nobody weighs to the thousandth of a gram, and nobody writes a million kilograms.
        let in_grams = matches!(amount::unit(behind), Some((amount::Unit::Known("g" | "ml"), ..)));
        let (commas, points) = (figure.matches(',').count(), figure.matches('.').count());
        let groups = |mark| figure.split(mark).skip(1).all(|group: &str| group.len() == 3);
        if points > 0 && commas == 1 {
            whole.push_str(&figure.replace('.', &THOUSANDS.to_string()).replace(',', &DECIMAL.to_string()));
        } else if commas == 1 && groups(',') && !in_grams && !figure.starts_with('0') {
            whole.push_str(&figure.replace(',', &DECIMAL.to_string()));
        } else if commas == 0 && points == 1 && in_grams && groups('.') && !figure.starts_with('0') {
            whole.push_str(&figure.replace('.', &THOUSANDS.to_string()));
        } else {
            whole.push_str(figure);
        }
        done = to;
    }
    whole.push_str(line.get(done..).unwrap_or_default());
    whole
}

#[cfg(test)]
mod tests {
    use super::*;

    fn settle_all(notes: &str, foreign: bool) -> String {
        let mut lines: Vec<String> = notes.split('|').map(str::to_owned).collect();
        settle(&mut lines, foreign);
        lines.join("|").replace(DECIMAL, "_").replace(THOUSANDS, "^")
    }

    #[test]
    fn one_figure_that_can_be_read_in_one_way_settles_the_others() {
        for (notes, settled) in [
            ("flour 12,500 kg|salt 0,250 kg", "flour 12_500 kg|salt 0,250 kg"),
            ("flour 1,250 kg|yeast 12,5 g", "flour 1_250 kg|yeast 12,5 g"),
            ("flour 1.250,5 g|water 1.000 g", "flour 1^250_5 g|water 1^000 g"),
            // A thousandth of a gram is weighed by nobody.
            ("flour 1,250 g|yeast 7,5 g", "flour 1,250 g|yeast 7,5 g"),
            // As in English, or with nothing that settles it.
            ("flour 1,250 g|salt 22.5 g", "flour 1,250 g|salt 22.5 g"),
            ("flour 1,250 kg|salt 22 g", "flour 1,250 kg|salt 22 g"),
            ("flour 1,250 kg|salt 22.5 g|yeast 7,5 g", "flour 1,250 kg|salt 22.5 g|yeast 7,5 g"),
            // A date, a list and the end of a sentence tell nothing.
            ("24.12.2026|rest 10, 20, 30 min|flour 1,250 g.", "24.12.2026|rest 10, 20, 30 min|flour 1,250 g."),
        ] {
            assert_eq!(settle_all(notes, false), settled, "{notes}");
        }
    }

    #[test]
    fn a_language_settles_them_as_well() {
        assert_eq!(settle_all("1,250 kg Mehl|1.000 g Wasser", true), "1_250 kg Mehl|1^000 g Wasser");
        assert_eq!(as_written("1\u{66B}250 kg, 1\u{66C}000 g"), "1,250 kg, 1.000 g");
    }
}
