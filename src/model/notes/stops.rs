//! A list in one line that full stops part: `500g T65. 325g water. 10g salt.`

use super::measure::measure;

/// So many words stand behind an amount of such a list.
const MOST_WORDS: usize = 4;

/// A line with semicolons for its full stops, where an amount and a name stand between all of them.
pub(super) fn as_a_list(line: &str) -> String {
    let bare = line.trim().trim_end_matches('.');
    let items: Vec<&str> = bare.split(". ").map(str::trim).collect();
    let is_item = |item: &&str| {
        measure(item).is_some_and(|(amount, name)| {
            amount.is_quantity()
                && name.starts_with([' ', '\u{a0}'])
                && name.trim().starts_with(char::is_alphabetic)
                && name.split_whitespace().count() <= MOST_WORDS
        })
    };
    if items.len() > 1 && items.iter().all(is_item) { items.join("; ") } else { line.to_owned() }
}

#[cfg(test)]
mod tests {
    use super::as_a_list;

    #[test]
    fn full_stops_part_amounts() {
        for (line, wanted) in [
            ("500g T65. 325g water. 10g salt. 100g levain.", "500g T65; 325g water; 10g salt; 100g levain"),
            ("500 g flour.", "500 g flour."),
            ("10 oz. butter", "10 oz. butter"),
            ("500 g flour. Mix 5 min.", "500 g flour. Mix 5 min."),
        ] {
            assert_eq!(as_a_list(line), wanted);
        }
    }
}
