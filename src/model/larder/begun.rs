//! Which words begin the names of a larder, and how many words those names have: of most runs of words of a text that tells at once that
//! no food is called so.

use super::forms::forms;
use crate::text::quick::QuickMap;

/// For the first letters of a name: a bit for each number of words that such a name has.
#[derive(Debug, Clone, Default)]
pub(super) struct Begun(QuickMap<[u8; 3], u8>);

impl Begun {
    /// Of no name yet, with room for the letters of so many.
    pub(super) fn with_room(letters: usize) -> Begun {
        Begun(QuickMap::with_capacity_and_hasher(letters, Default::default()))
    }

    /// Takes in a name, folded, with every form under which it is found.
    pub(super) fn add(&mut self, name: &str) {
        let bit = words_bit(name);
        *self.0.entry(letters(first_of(name))).or_default() |= bit;
        // An ending is of the last word, and reaches the first three letters of none but a short one.
        if bit == 1 && (name.len() <= 3 || name.len() <= 5 && name.ends_with("es")) {
            for form in forms(name) {
                *self.0.entry(letters(&form)).or_default() |= bit;
            }
        }
    }

    /// Whether one of its names may be this one, folded, in any form of it.
    pub(super) fn may_have(&self, name: &str) -> bool {
        // `butter for the tins` is found as butter.
        let before = name.split_once(" for ").map_or(0, |(before, _)| words_bit(before));
        self.counts(first_of(name)) & (words_bit(name) | before) != 0
    }

    /// The numbers of words, a bit each, that names have which may begin with a word in lower case.
    pub(super) fn counts(&self, word: &str) -> u8 {
        if word.is_ascii() { self.0.get(&letters(word)).copied().unwrap_or(0) } else { u8::MAX }
    }
}

/// How many words a text has between blanks, as a bit.
fn words_bit(text: &str) -> u8 {
    bit(text.bytes().filter(|byte| *byte == b' ').count() + 1)
}

/// The bit of so many words.
pub(super) fn bit(words: usize) -> u8 {
    1 << words.saturating_sub(1).min(7)
}

fn first_of(name: &str) -> &str {
    name.split_once(' ').map_or(name, |(first, _)| first)
}

fn letters(word: &str) -> [u8; 3] {
    match word.as_bytes() {
        [first, second, third, ..] => [*first, *second, *third],
        [first, second] => [*first, *second, 0],
        [first] => [*first, 0, 0],
        [] => [0; 3],
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::model::larder::brought_names;

    /// Against the forms themselves: a text may have a name in any of them.
    #[test]
    fn each_form_of_each_name_may_begin_one() {
        let mut begun = Begun::default();
        let own = ["soy", "pies", "ices", "gas", "xo", "skies", "fairy ring", "ox eyes"];
        let names: Vec<&str> = brought_names().chain(own).collect();
        names.iter().for_each(|name| begun.add(name));
        for name in names {
            for form in forms(name) {
                assert_ne!(begun.counts(first_of(&form)) & bit(name.split(' ').count()), 0, "{name}: {form}");
                assert!(begun.may_have(&form), "{name}: {form}");
                assert!(begun.may_have(&format!("{form} for the tins")), "{name}: {form}");
            }
        }
        assert_eq!(begun.counts("until"), 0);
    }
}
