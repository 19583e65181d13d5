//! A text in lower case, and which words it has, told by how they begin.

pub use crate::text::word_begins::Beginnings;
pub(crate) use crate::text::word_begins::beginnings;
use crate::text::word_begins::{Begins, bit_at, each_word, has_word_beginning, number};

/// A text in lower case, and how its words begin.
#[derive(Debug, Clone)]
pub struct Lowered {
    text: String,
    /// A bit for the first three bytes of each word: others may have the same bit, so that it tells only what is not there.
    begins: Begins,
    /// The same of the words of its name.
    named: Begins,
    /// Where each word begins, and the number of its bit; `None` of one that may be any.
    words: Vec<(usize, Option<u16>)>,
}

impl Lowered {
    /// Takes in a text that is in lower case.
    pub fn new(text: String) -> Lowered {
        Lowered::named(text, 0)
    }

    /// As [`Lowered::new`], of a text that begins with a name of so many bytes.
    pub fn named(text: String, name: usize) -> Lowered {
        let (mut begins, mut named, mut in_name) = ([0; 16], [0; 16], true);
        // Of English some five letters and a blank.
        let mut words = Vec::with_capacity(text.len() / 5);
        each_word(&text, |at| {
            if in_name && at >= name {
                (named, in_name) = (begins, false);
            }
            let number = text.as_bytes().get(at..).and_then(number);
            words.push((at, number));
            let place = number.map(bit_at);
            if let Some((slot, bit)) = place.and_then(|(slot, bit)| Some((begins.get_mut(usize::from(slot))?, bit))) {
                *slot |= bit;
            }
        });
        Lowered { text, begins, named: if in_name { begins } else { named }, words }
    }

    /// The text.
    pub fn text(&self) -> &str {
        &self.text
    }

    /// Whether a word of it begins with one of these. Fifty such questions are asked of each step, and nearly all answers are no. Each word is compared with
    /// what has its bit and its first letter: of a list of forty that takes a fifth of looking for each of the forty in the text.
    pub fn says(&self, beginnings: &Beginnings) -> bool {
        let says = self.may_say(beginnings)
            && self.words.iter().any(|(at, number)| {
                beginnings.may_begin_word(*number)
                    && self.text.as_bytes().get(*at..).is_some_and(|word| beginnings.begin(word))
            });
        debug_assert!(
            says == has_word_beginning(&self.text, beginnings) || !self.may_say(beginnings),
            "{beginnings:?} in {}",
            self.text
        );
        says
    }

    /// Whether a word of it may begin with one of these; without looking at the words.
    pub fn may_say(&self, beginnings: &Beginnings) -> bool {
        beginnings.may_be_in(&self.begins)
    }

    /// Whether a word of its name may begin with one of these; without looking at the words.
    pub fn may_be_called(&self, beginnings: &Beginnings) -> bool {
        beginnings.may_be_in(&self.named)
    }
}

/// How the words of any of some texts begin, so that what none of them has is told at once.
#[derive(Debug, Clone, Default)]
pub struct InAny {
    begins: Begins,
    named: Begins,
}

impl InAny {
    /// Of all these texts.
    pub fn of<'l>(texts: impl Iterator<Item = &'l Lowered>) -> InAny {
        let take_in = |all: &mut Begins, one: &Begins| all.iter_mut().zip(one).for_each(|(all, one)| *all |= one);
        let mut any = InAny::default();
        for text in texts {
            take_in(&mut any.begins, &text.begins);
            take_in(&mut any.named, &text.named);
        }
        any
    }

    /// Whether a word of one of them may begin with one of these.
    pub fn may_say(&self, beginnings: &Beginnings) -> bool {
        beginnings.may_be_in(&self.begins)
    }

    /// Whether a word in the name of one of them may begin with one of these.
    pub fn may_be_called(&self, beginnings: &Beginnings) -> bool {
        beginnings.may_be_in(&self.named)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_a_text_says_is_what_its_words_begin_with() {
        for text in [
            "bake until gold",
            "unbaked",
            "deep-fry at 180",
            "(fry)",
            "crème brûlée",
            "sauté",
            "café é",
            "",
            "roll in a",
            "add a",
            "bake",
            "plum jam, jamaican",
            "jamaican",
            "ic, ice",
        ] {
            for beginnings in [
                &["bak", "boil"][..],
                &["fry"],
                &["deep-fry"],
                &["br"],
                &["saut", "é"],
                &["a l", "in a"],
                &["a"],
                &["jam|", "ic|"],
                &[],
                &[""],
            ] {
                let (asked, is_there) = (Beginnings::of(beginnings), has_word_beginning(text, beginnings));
                assert_eq!(Lowered::new(text.to_owned()).says(&asked), is_there, "{text} {beginnings:?}");
                // All of it is the name, or nothing is.
                let named = |name| Lowered::named(format!("{text}: roll"), name);
                assert!(!is_there || named(text.len()).may_be_called(&asked), "{text} {beginnings:?}");
                assert!(beginnings.concat().len() < 2 || !named(0).may_be_called(&asked), "{text} {beginnings:?}");
                // What one of several says, one of them may say.
                let texts = [Lowered::new("stir".to_owned()), named(text.len())];
                let any = InAny::of(texts.iter());
                assert!(!is_there || any.may_say(&asked) && any.may_be_called(&asked), "{text} {beginnings:?}");
            }
        }
    }
}
