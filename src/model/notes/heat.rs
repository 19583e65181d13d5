//! How hot or cold something is, by prose.

use super::{amount, words};
use crate::measure::number::Number;

/// Whether what stands before a figure makes it less than nothing: `at -18 C`, and not `160-170 C`.
fn is_below_nothing(before: &str) -> bool {
    let before = before.strip_suffix(['-', '\u{2212}', '\u{2013}']);
    before.is_some_and(|before| !before.trim_end().ends_with(|c: char| c.is_ascii_digit()))
}

/// Words before a temperature that is measured inside of something.
const INSIDE: [&str; 7] = ["core", "internal", "inside", "centre", "center", "probe", "ddt"];

/// The first temperature that is said, other than one inside of something.
pub(super) fn heat(text: &str) -> Option<String> {
    let mut rest = text;
    while let Some(at) = rest.find(|c: char| c.is_ascii_digit()) {
        let here = rest.get(at..)?;
        let (figure, after) = amount::figure(here)?;
        let trimmed = after.trim_start();
        let marked = trimmed
            .strip_prefix(['°', 'º'])
            .or_else(|| ["degrees", "degs", "deg"].iter().find_map(|word| trimmed.strip_prefix(word)))
            .map(|behind| behind.trim_start_matches('.').trim_start());
        let letters = marked.unwrap_or(trimmed);
        // `180c` is typed on a telephone; `2 c` are cups.
        let small = marked.is_some() || trimmed.len() == after.len();
        let scale = letters.chars().next().filter(|c| matches!(c, 'C' | 'F') || small && matches!(c, 'c' | 'f'));
        let scale = scale.map(|scale| scale.to_ascii_uppercase());
        let ends = letters.get(1..).is_some_and(|rest| !rest.starts_with(char::is_alphanumeric));
        if let Some(scale) = scale.filter(|_| ends && figure.most.is_none() && figure.look.is_none()) {
            // `core 96 C` is what the loaf has, and not the oven.
            let before: Vec<String> = words::all_of(rest.get(..at)?).collect();
            let inside = before.iter().rev().take(4).any(|word| INSIDE.contains(&word.as_str()));
            if inside {
                rest = letters;
                continue;
            }
            let minus = if is_below_nothing(rest.get(..at)?) { "-" } else { "" };
            return Some(format!("{minus}{} {scale}", figure.shown));
        }
        rest = if after.len() < here.len() { after } else { here.get(1..)? };
    }
    None
}

/// Whether a figure with a sign for degrees stands in a text without saying of which scale: `220°`, `27 deg`.
pub(super) fn has_bare_degrees(text: &str) -> bool {
    bare_degrees(text).is_some()
}

/// The first figure of degrees of which the scale is not said.
fn bare_degrees(text: &str) -> Option<amount::Figure> {
    text.match_indices(char::is_numeric).find_map(|(at, _)| {
        let begins = text.get(..at)?.chars().next_back().is_none_or(|before| !before.is_alphanumeric());
        let (figure, rest) = amount::figure(text.get(at..)?).filter(|_| begins)?;
        let rest = rest.trim_start();
        let behind = rest
            .strip_prefix(['°', 'º'])
            .or_else(|| ["degrees", "degs", "deg"].iter().find_map(|word| rest.strip_prefix(word)))?;
        let scale = behind.trim_start().strip_prefix(['C', 'F', 'c', 'f']);
        scale.is_none_or(|rest| rest.starts_with(char::is_alphanumeric)).then_some(figure)
    })
}

/// Whether a text says a heat that only an oven has: 100 °C and more.
pub(super) fn is_of_an_oven(text: &str) -> bool {
    let said = heat(text).and_then(|heat| {
        let (degrees, scale) = heat.split_once(' ')?;
        Some(degrees.parse::<i64>().ok()? >= if scale == "F" { 212 } else { 100 })
    });
    let bare = || bare_degrees(text).and_then(|figure| figure.value).is_some_and(|value| value >= Number::whole(100));
    said.unwrap_or_else(bare)
}

/// Whether a text speaks of the cold.
pub(super) fn in_fridge(text: &str) -> bool {
    let lower = text.to_lowercase();
    ["fridge", "refrigerat", "chill", "cold"].iter().any(|word| lower.contains(word))
}
