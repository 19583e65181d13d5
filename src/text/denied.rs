//! Whether a word is denied by what stands before it: `no lye`, `do not bake`, `without eggs`. Common practice, no source.

use super::whole_words::WholeWords;

/// Words by which what stands behind them is not so, or is not done.
#[rustfmt::skip]
pub const DENY: &WholeWords = &WholeWords::of(&[
    "avoid", "cannot", "don't", "don’t", "dont", "neither", "never", "no", "non", "nor", "not", "nothing", "without",
]);

/// Whether a word is one by which what stands behind it is not so, or is not done.
pub fn denies(word: &str) -> bool {
    DENY.has(word)
}

/// Whether one of the words before the word at a place, so many of them at most, denies it; `more` are words by which this one question
/// takes it back too. `Don't` may be one word or, parted at its apostrophe, two.
pub fn is_denied(words: &[&str], at: usize, reach: usize, more: &[&str]) -> bool {
    let from = at.saturating_sub(reach);
    let before = words.get(from..at).unwrap_or_default();
    let is_cut_off = |(at, word): (usize, &&str)| {
        *word == "t" && at.checked_sub(1).and_then(|at| words.get(at)).is_some_and(|verb| verb.ends_with('n'))
    };
    before.iter().any(|word| denies(word) || more.contains(word))
        || words.iter().enumerate().take(at).skip(from).any(is_cut_off)
}

#[cfg(test)]
mod tests {
    use super::is_denied;
    use crate::text::words::words_without_hyphens;

    #[test]
    fn a_word_is_denied_by_what_stands_shortly_before_it() {
        for (text, denied) in [
            ("dip in lye", false),
            ("never lye", true),
            ("avoid any lye", true),
            ("don't use lye", true),
            ("don’t use lye", true),
            ("soda instead of lye", true),
            ("not too much of the strong lye", false),
            ("5 t lye", false),
        ] {
            let words: Vec<&str> = words_without_hyphens(text).collect();
            assert_eq!(is_denied(&words, words.len() - 1, 3, &["instead"]), denied, "{text}");
        }
    }
}
