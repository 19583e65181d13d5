//! Where in a text amounts stand: a number and what is a unit, or the usual other word for one.

use super::unit::Unit;
use std::ops::Range;

/// What stands in a text and looks like an amount.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct InText {
    /// Its unit.
    pub unit: Unit,
    /// As the language has it: `28-30 C`.
    pub written: String,
    /// Where in the text.
    pub at: Range<usize>,
}

/// All of a text, one after the other.
pub fn amounts(text: &str) -> impl Iterator<Item = InText> + '_ {
    let mut from = 0;
    std::iter::from_fn(move || {
        while let Some(start) = text.get(from..)?.find(char::is_numeric).map(|at| from + at) {
            let number = number_at(text.get(start..)?);
            let end = start + number.len();
            let is_apart =
                text.get(..start).and_then(|before| before.chars().next_back()).is_none_or(|c| !c.is_alphanumeric());
            from = end.max(start + 1);
            if let Some((unit, length)) = is_apart.then(|| unit_at(text.get(end..).unwrap_or_default())).flatten() {
                let number = number.trim().replace(['–', '—'], "-");
                let written = format!("{number} {}", unit.word(false));
                return Some(InText { unit, written, at: start..end + length });
            }
        }
        None
    })
}

/// A number at the beginning of a text, with a fraction behind a blank and the other end of a range.
pub fn number_at(text: &str) -> &str {
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
