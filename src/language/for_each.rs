//! Words behind an amount that make it one for each piece: a clause that a formula does not have, since its amounts are for the whole part.

/// Whether words say nothing but that an amount is for one piece: `each`, `apiece`, `per bun`, `for each one`.
pub fn is_for_each(words: &str) -> bool {
    let lower = words.to_lowercase();
    let words: Vec<&str> = lower.split_whitespace().collect();
    matches!(
        words[..],
        ["each" | "apiece"]
            | ["each", "one" | "piece"]
            | ["a", "piece"]
            | ["per", _]
            | ["for", "each"]
            | ["for", "each", "one" | "piece"]
    )
}

#[cfg(test)]
mod tests {
    use super::is_for_each;

    #[test]
    fn an_amount_for_one_piece_is_told_from_a_preparation() {
        for words in ["each", " Each ", "apiece", "each piece", "a piece", "per bun", "for each", "for  each one"] {
            assert!(is_for_each(words), "{words}");
        }
        for words in ["", "per", "each chopped", "a pinch", "for each bun", "finely chopped", "in pieces"] {
            assert!(!is_for_each(words), "{words}");
        }
    }
}
