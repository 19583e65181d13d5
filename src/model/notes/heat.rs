//! How hot or cold something is, by prose.

use super::{amount, words};

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
        let marked = trimmed.strip_prefix(['°', 'º']).map(str::trim_start);
        let letters = marked.unwrap_or(trimmed);
        let scale = letters.chars().next().filter(|c| matches!(c, 'C' | 'F'));
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

/// Whether a text speaks of the cold.
pub(super) fn in_fridge(text: &str) -> bool {
    let lower = text.to_lowercase();
    ["fridge", "refrigerat", "chill", "cold"].iter().any(|word| lower.contains(word))
}
