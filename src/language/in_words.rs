//! Amounts among words: the `30C` of `water, about 30C`, the `1/2 cup` of a name.

use super::evaluate::evaluate;
use super::parse::parse;
use super::syntax::{Content, Piece};
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
    let mut from = 0;
    while let Some(start) = text.get(from..)?.find(char::is_numeric).map(|at| from + at) {
        let number = number_at(text.get(start..)?);
        let end = start + number.len();
        let is_apart =
            text.get(..start).and_then(|before| before.chars().next_back()).is_none_or(|c| !c.is_alphanumeric());
        if let Some((unit, length)) = is_apart.then(|| unit_at(text.get(end..).unwrap_or_default())).flatten() {
            let number = number.trim().replace(['–', '—'], "-");
            let written = format!("{number} {}", unit.word(false));
            if let Some(said) = read(&written) {
                return Some(Found { said, unit, written, at: start..end + length });
            }
        }
        from = end.max(start + 1);
    }
    None
}

/// A number at the beginning of a text, with a fraction behind a blank and the other end of a range.
fn number_at(text: &str) -> &str {
    let is_part = |c: char| c.is_numeric() || matches!(c, '.' | '/' | '⁄' | '-' | '–' | '—');
    let run = |text: &str| text.find(|c| !is_part(c)).unwrap_or(text.len());
    let first = run(text);
    let rest = text.get(first..).unwrap_or_default();
    let second = rest.strip_prefix(' ').map_or(0, run);
    let fraction =
        rest.get(1..1 + second).filter(|word| word.contains(['/', '⁄']) || word.chars().all(|c| !c.is_ascii()));
    let end = if fraction.is_some_and(|word| !word.is_empty()) { first + 1 + second } else { first };
    text.get(..end).unwrap_or_default()
}

/// A unit at the beginning of a text, glued or behind a blank, and how much of the text it is with what stands before it.
fn unit_at(text: &str) -> Option<(Unit, usize)> {
    let mut rest = text.trim_start_matches([' ', '°', 'º']);
    for word in ["degrees", "degree", "deg"] {
        rest = rest.strip_prefix(word).map_or(rest, |rest| rest.trim_start_matches([' ', '.']));
    }
    let length = rest.find(|c: char| !c.is_alphabetic()).unwrap_or(rest.len());
    let word = rest.get(..length).filter(|word| !word.is_empty())?;
    // Of three letters too much is near to a unit: `2 cut oranges`.
    let other = || Some(word).filter(|word| word.len() != 3 || word.ends_with('s')).and_then(Unit::meant_by);
    let unit = Unit::from_word(word).or_else(|| other().and_then(Unit::from_word))?;
    Some((unit, text.len() - rest.len() + length))
}

/// What the language reads where this is an amount, as it stands in the words of a step.
fn read(written: &str) -> Option<Said> {
    let (tree, problems) = parse(SourceId(u32::MAX), &format!("recipe a\na: hands 1 min\n    {{{written}}}\n"));
    let measure = tree.lines.iter().find_map(|line| match &line.content {
        Content::Prose(pieces) => pieces.iter().find_map(|piece| match piece {
            Piece::Measure(chain) => chain.first(),
            _ => None,
        }),
        _ => None,
    });
    evaluate(measure.filter(|_| problems.is_empty())?, Some(Measures::Us), &mut Vec::new())
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
