//! What a row of words lists of allergens, one by one.

use super::in_name::{called, entries};
use super::is_known;

/// What a row of words lists, one by one: `milk and wheat`, `milk wheat`. What is one thing by a name of its own stays that name.
pub fn listed_in(name: &str) -> Vec<String> {
    let pieces = name.split(" and ").flat_map(|piece| piece.split(" or ")).map(str::trim);
    let apart = |piece: &str| -> Vec<String> {
        let found = entries(piece);
        if found.len() < 2 || !called(piece).is_empty() {
            return vec![piece.to_owned()];
        }
        found.iter().filter_map(|entry| entry.names.first()).map(|name| (*name).to_owned()).collect()
    };
    if called(name).is_empty() && is_known(name) { pieces.flat_map(apart).collect() } else { vec![name.to_owned()] }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_row_of_words_lists_each() {
        for (row, each) in [
            ("milk and wheat", &["milk", "wheat"][..]),
            ("milk wheat", &["milk", "wheat"]),
            ("milk", &["milk"]),
            ("brazil nut", &["brazil nut"]),
            ("nothing known", &["nothing known"]),
        ] {
            assert_eq!(listed_in(row), each, "{row}");
        }
    }
}
