//! How something is prepared, where that stands between the readings of its amount or behind its name.

use super::item::Made;
use super::manner::{DONE, MANNERS, SHORT};

/// `¾ c packed (160 g)`, `2 lg (100 g)`: how it is prepared stands between two readings of its amount. Gives those words with a comma
/// before them, and what follows.
pub(super) fn done_before_bracket<'t>(made: &mut Made, rest: &'t str) -> (String, &'t str) {
    let Some((words, _)) = rest.split_once('(').filter(|(words, _)| !words.trim().is_empty()) else {
        return (String::new(), rest);
    };
    let bracket = rest.get(words.len()..).unwrap_or_default();
    if !words.split_whitespace().all(prepares) {
        return (String::new(), rest);
    }
    let behind = made.more(bracket);
    if behind.len() == bracket.len() {
        (String::new(), rest)
    } else {
        (format!(", {}", written_out(words)), behind.trim_start())
    }
}

/// Words for how something is prepared, with those that are cut short in full.
fn written_out(words: &str) -> String {
    let full = |word| SHORT.iter().find(|(short, _)| *short == word).map_or(word, |(_, full)| *full);
    words.split_whitespace().map(full).collect::<Vec<&str>>().join(" ")
}

/// Whether a word behind an amount says how the thing is prepared: `sage 2 tbsp chopped`.
pub(super) fn prepares(word: &str) -> bool {
    let lower = word.to_lowercase();
    DONE.contains(&lower.as_str())
        || MANNERS.contains(&lower.as_str())
        || ["mixed", "whole", "flaked"].contains(&lower.as_str())
}
