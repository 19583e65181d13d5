//! How something is prepared, where that stands between the readings of its amount or behind its name.

use super::item::Made;
use super::manner::{DONE, MANNERS, in_full};

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
        let words: Vec<&str> = words.split_whitespace().map(in_full).collect();
        (format!(", {}", words.join(" ")), behind.trim_start())
    }
}

/// Whether a word behind an amount says how the thing is prepared: `sage 2 tbsp chopped`.
pub(super) fn prepares(word: &str) -> bool {
    let lower = word.to_lowercase();
    DONE.contains(&lower.as_str())
        || MANNERS.contains(&lower.as_str())
        || ["mixed", "whole", "flaked"].contains(&lower.as_str())
}
