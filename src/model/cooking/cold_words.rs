//! Words of cold, in one list for all who ask. Common practice, no source.

use super::{says, words_of};
use crate::model::lowered::Beginnings;
use crate::model::step::Step;
use crate::text::denied::is_denied;
use crate::text::words::words_without_hyphens;

/// By how a word begins, the surest first: a refrigerator, a freezer, and what is cool enough that nothing stands there in the warm.
const WORDS: [&str; 7] = ["chill", "cold", "fridge", "refrigerat", "freez", "cellar", "ice"];

/// It is in a refrigerator, or as cold.
pub const FRIDGE: &Beginnings = &Beginnings::of(WORDS.split_at(4).0);

/// It is in a refrigerator or a freezer: food is kept there.
pub const COLD: &Beginnings = &Beginnings::of(WORDS.split_at(5).0);

/// It is not in the warm. A cellar or a bowl of ice keeps nothing for days.
pub const NOT_WARM: &Beginnings = &Beginnings::of(&WORDS);

/// It is hot no longer.
pub const COOLED: &Beginnings = &Beginnings::of(&["cool", "lukewarm", "tepid"]);

/// So many words before a word of cold may deny it.
const REACH: usize = 3;

/// Whether a step says of what stands in it that it is as cold as these words have it. Beside a word of cold nothing spoils, so that one which is
/// denied, or is the beginning of another word, must be none: `do not chill it`, `stir in the chilli`.
pub fn says_cold(step: &Step, words: &Beginnings) -> bool {
    says(step, words) && is_cold_said(words_of(step), words)
}

/// The same of a text in lower case.
pub fn is_cold_said(text: &str, words: &Beginnings) -> bool {
    if !words.begin_in(text) {
        return false;
    }
    let all: Vec<&str> = words_without_hyphens(text).collect();
    let is_it = |word: &str| words.words().iter().any(|begins| word.starts_with(begins)) && !is_chilli(word);
    all.iter().enumerate().any(|(at, word)| is_it(word) && !is_denied(&all, at, REACH, &[]))
}

fn is_chilli(word: &str) -> bool {
    word.starts_with("chilli") && !word.starts_with("chilling")
}

#[cfg(test)]
mod tests {
    use super::{COLD, NOT_WARM, is_cold_said};

    /// Each of the second kind made cooked rice keep overnight, and chilli in oil keep at all.
    #[test]
    fn a_word_of_cold_is_neither_chilli_nor_denied() {
        for cold in [
            "chill",
            "chill overnight",
            "chilling",
            "leave in the fridge",
            "refrigerated",
            "in the freezer",
            "over ice",
        ] {
            assert!(is_cold_said(cold, NOT_WARM), "{cold}");
        }
        for other in [
            "stir in the chilli",
            "chillies and oil",
            "do not chill it",
            "never in the fridge",
            "don't refrigerate",
            "rice",
        ] {
            assert!(!is_cold_said(other, NOT_WARM), "{other}");
        }
        assert!(!is_cold_said("in the cellar", COLD));
    }
}
