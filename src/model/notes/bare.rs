//! A line of notes as its words alone: without signs of emphasis, bars of a table and dots up to its amount.

use super::table::joined_units;

/// A line without signs of emphasis and without the bars of a table.
pub(super) fn bare(line: &str) -> String {
    let mut line = joined_units(line).replace("**", "").replace("__", "").replace('\u{A0}', " ");
    // A leader that was typed.
    while let Some(at) = line.find("...") {
        let dots = line.get(at..).map_or(0, |rest| rest.len() - rest.trim_start_matches('.').len());
        line.replace_range(at..at + dots, " \u{2026} ");
    }
    let characters: Vec<char> = line.chars().collect();
    let mut left = String::with_capacity(line.len());
    for (at, character) in characters.iter().enumerate() {
        let beside = |at: Option<usize>| at.and_then(|at| characters.get(at)).is_some_and(|c| c.is_alphanumeric());
        let joins = beside(at.checked_sub(1)) || beside(at.checked_add(1));
        let between = beside(at.checked_sub(1)) && beside(at.checked_add(1));
        if !(matches!(character, '*' | '_') && joins && !between) {
            left.push(*character);
        }
    }
    left.trim_matches(|c: char| c == '|' || c.is_whitespace()).to_owned()
}
