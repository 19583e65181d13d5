//! How hot or cold something is, by prose.

use super::{amount, words};
use crate::measure::number::Number;
use crate::model::cooking::cold_words::{FRIDGE, is_cold_said};

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

/// A figure behind `at` or `@` that can only be a heat, of which neither degrees nor the scale are said: `20 min at 190`, `3 h @ 24`.
pub(super) fn bare_heat(text: &str) -> Option<Number> {
    let lower = text.to_lowercase();
    lower.match_indices(|c: char| c.is_ascii_digit()).find_map(|(at, _)| {
        let before = lower.get(..at)?.trim_end();
        let led = before.ends_with('@') || before == "at" || before.ends_with(" at");
        // `bake 240 falling to 210`, `180fan`.
        let of_oven = ["bake", "oven", "roast", "oven to", "oven at"].iter().any(|word| before.ends_with(word));
        let behind = |rest: &str, words: &[&str]| words.iter().any(|word| rest.trim_start().starts_with(word));
        let begins = !before.ends_with(|c: char| c.is_alphanumeric() || c == '.') || before.len() < at;
        let (figure, rest) = amount::figure(lower.get(at..)?)?;
        let fan = begins && behind(rest, &["fan"]);
        let set = of_oven && (rest.is_empty() || behind(rest, &["falling", "then", "for", ",", ".", ";"]));
        let value = figure.value.filter(|value| value.is_whole())?;
        let (next, is_unit) = (rest.trim_start(), amount::unit(rest).is_some());
        // `at 20, 40 and 60 min` and `at 18:00` are moments.
        let end = next.trim_start_matches(['.', ',', ';', ')', '!']);
        let ends =
            end.is_empty() || end.len() < next.len() && !end.trim_start().starts_with(|c: char| c.is_ascii_digit());
        let hot = value >= Number::whole(100) && value <= Number::whole(550);
        // `Bake 35 min 180 (fan 160)`, `Bake 190 conv. 16 min`: a number by itself among what is said of a bake.
        let clause = lower.get(..at)?.rsplit(['.', ';']).next()?;
        let of_bake = || words::all_of(clause).any(|word| ["bake", "baking", "oven", "roast"].contains(&word.as_str()));
        let alone = || begins && figure.most.is_none() && !is_unit && (ends || behind(rest, &["(", "conv", "falling"]));
        if hot && alone() && of_bake() {
            return Some(value);
        }
        (led && (ends || hot && !is_unit && rest.starts_with([' ', '-'])) || hot && (fan || set)).then_some(value)
    })
}

/// The mark of a gas oven, in the words of the text: `gas 7`, `gas mark 4`.
pub(super) fn gas(text: &str) -> Option<String> {
    let lower = text.to_lowercase();
    let words: Vec<&str> =
        lower.split(|c: char| c.is_whitespace() || matches!(c, ',' | ';' | '(' | ')' | ':')).collect();
    let at = words.iter().position(|word| word.trim_end_matches('.').ends_with("gas"))?;
    let mark = words.get(at + 1).filter(|word| word.starts_with("mark") || **word == "no" || **word == "no.");
    let figure = words.get(at + if mark.is_some() { 2 } else { 1 })?.trim_end_matches('.');
    let is_mark = ["1/4", "1/2", "\u{bc}", "\u{bd}"].contains(&figure)
        || figure.parse::<u8>().is_ok_and(|mark| (1..=10).contains(&mark));
    let said = if mark.is_some() { "gas mark" } else { "gas" };
    is_mark.then(|| format!("{said} {figure}"))
}

/// Whether a text says a heat that only an oven has: 100 °C and more, or the mark of a gas oven.
pub(super) fn is_of_an_oven(text: &str) -> bool {
    let said = heat(text).and_then(|heat| {
        let (degrees, scale) = heat.split_once(' ')?;
        Some(degrees.parse::<i64>().ok()? >= if scale == "F" { 212 } else { 100 })
    });
    let is_hot = |value: Number| value >= Number::whole(100);
    let bare = || bare_degrees(text).and_then(|figure| figure.value).is_some_and(is_hot);
    said.unwrap_or_else(|| bare() || bare_heat(text).is_some_and(is_hot) || gas(text).is_some())
}

/// Whether a text speaks of the cold.
pub(super) fn in_fridge(text: &str) -> bool {
    is_cold_said(&text.to_lowercase(), FRIDGE)
}
