//! A text in lower case, and which words it has, told by how they begin.

/// A text in lower case, and how its words begin.
#[derive(Debug, Clone)]
pub struct Lowered {
    text: String,
    /// A bit for the first two bytes of each word: others may have the same bit, so that it tells only what is not there.
    begins: Begins,
    /// The same of the words of its name.
    named: Begins,
}

type Begins = [u64; 16];

/// Beginnings of words that are looked for together. Which bits a text must have for one of them is worked out when miche is built.
#[derive(Debug)]
pub struct Beginnings {
    words: &'static [&'static str],
    begins: Begins,
}

impl Beginnings {
    /// Beginnings of two letters at least; in lower case.
    pub const fn of(words: &'static [&'static str]) -> Beginnings {
        let mut begins = [0; 16];
        let mut rest = words;
        while let Some((word, others)) = rest.split_first() {
            match place(word.as_bytes()) {
                Some((slot, bit)) => set(&mut begins, slot, bit),
                // It may be the beginning of anything.
                None => begins = [u64::MAX; 16],
            }
            rest = others;
        }
        Beginnings { words, begins }
    }

    /// The beginnings.
    pub fn words(&self) -> &'static [&'static str] {
        self.words
    }

    /// Whether one of them may begin a word of a text with these bits.
    fn may_be_in(&self, begins: &Begins) -> bool {
        self.begins.iter().zip(begins).fold(0, |all, (one, other)| all | one & other) != 0
    }
}

impl AsRef<[&'static str]> for Beginnings {
    fn as_ref(&self) -> &[&'static str] {
        self.words
    }
}

/// Beginnings of words, where they are asked for: `says(step, beginnings!["bak", "boil"])`.
macro_rules! beginnings {
    ($($word:literal),+ $(,)?) => {
        const { &$crate::model::lowered::Beginnings::of(&[$($word),+]) }
    };
}
pub(crate) use beginnings;

/// The bit of what begins with two bytes; `None` for less.
const fn place(text: &[u8]) -> Option<(u8, u64)> {
    let [first, second, ..] = text else { return None };
    Some((*first & 15, 1 << (((*first >> 4) & 1) << 5 | (*second & 31))))
}

/// Sets a bit; written with patterns, since nothing is indexed here and a loop over a slice is not for what is worked out at building.
const fn set(begins: &mut Begins, slot: u8, bit: u64) {
    let (mut left, mut at) = (begins.as_mut_slice(), 0);
    while let Some((first, rest)) = left.split_first_mut() {
        if at == slot {
            *first |= bit;
        }
        left = rest;
        at += 1;
    }
}

impl Lowered {
    /// Takes in a text that is in lower case.
    pub fn new(text: String) -> Lowered {
        Lowered::named(text, 0)
    }

    /// As [`Lowered::new`], of a text that begins with a name of so many bytes.
    pub fn named(text: String, name: usize) -> Lowered {
        let (mut begins, mut named, mut in_name) = ([0; 16], [0; 16], true);
        for at in word_starts(&text) {
            if in_name && at >= name {
                (named, in_name) = (begins, false);
            }
            let place = text.as_bytes().get(at..).and_then(place);
            if let Some((slot, bit)) = place.and_then(|(slot, bit)| Some((begins.get_mut(usize::from(slot))?, bit))) {
                *slot |= bit;
            }
        }
        Lowered { text, begins, named: if in_name { begins } else { named } }
    }

    /// The text.
    pub fn text(&self) -> &str {
        &self.text
    }

    /// Whether a word of it begins with one of these. Fifty such questions are asked of each step, and nearly all answers are no.
    pub fn says(&self, beginnings: &Beginnings) -> bool {
        self.may_say(beginnings)
            && beginnings.words.iter().any(|beginning| may_begin(&self.begins, beginning) && self.has(beginning))
    }

    /// Whether a word of it may begin with one of these; without looking at the words.
    pub fn may_say(&self, beginnings: &Beginnings) -> bool {
        beginnings.may_be_in(&self.begins)
    }

    /// Whether a word of its name may begin with one of these; without looking at the words.
    pub fn may_be_called(&self, beginnings: &Beginnings) -> bool {
        beginnings.may_be_in(&self.named)
    }

    /// Whether a word begins with this, which is looked for by its first letter.
    fn has(&self, beginning: &str) -> bool {
        let text = self.text.as_bytes();
        let is_plain = |byte: &u8| BYTES.get(usize::from(*byte)) == Some(&Byte::Within);
        let Some(first) = beginning.as_bytes().first().filter(|first| is_plain(first)) else {
            return has_word(&self.text, [beginning]);
        };
        let goes_on = |at: usize| match at.checked_sub(1).and_then(|before| text.get(before)) {
            None => false,
            Some(before) if before.is_ascii() => is_plain(before),
            Some(_) => {
                self.text.get(..at).and_then(|before| before.chars().next_back()).is_some_and(char::is_alphanumeric)
            }
        };
        memchr::memchr_iter(*first, text)
            .any(|at| text.get(at..).is_some_and(|rest| rest.starts_with(beginning.as_bytes())) && !goes_on(at))
    }
}

/// Whether one of the words may begin with this.
fn may_begin(begins: &Begins, beginning: &str) -> bool {
    place(beginning.as_bytes())
        .is_none_or(|(slot, bit)| begins.get(usize::from(slot)).is_some_and(|begins| begins & bit != 0))
}

/// What a byte is to words: no part of one, part of one, the rest of a sign that is longer than a byte, the beginning of such a sign.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Byte {
    Between,
    Within,
    Rest,
    Wide,
}

const BYTES: [Byte; 256] = {
    let mut bytes = [Byte::Between; 256];
    let (mut left, mut byte) = (bytes.as_mut_slice(), 0_u8);
    while let Some((first, rest)) = left.split_first_mut() {
        *first = match byte {
            b'-' | b'0'..=b'9' | b'A'..=b'Z' | b'a'..=b'z' => Byte::Within,
            0..128 => Byte::Between,
            128..192 => Byte::Rest,
            _ => Byte::Wide,
        };
        left = rest;
        byte = byte.wrapping_add(1);
    }
    bytes
};

/// The byte at which each word of a text begins.
fn word_starts(text: &str) -> impl Iterator<Item = usize> {
    let mut in_word = false;
    text.bytes().enumerate().filter_map(move |(at, byte)| {
        let goes_on = match BYTES.get(usize::from(byte)).copied().unwrap_or(Byte::Between) {
            Byte::Between => false,
            Byte::Within => true,
            Byte::Rest => return None,
            Byte::Wide => text.get(at..).and_then(|rest| rest.chars().next()).is_some_and(char::is_alphanumeric),
        };
        let begins = goes_on && !in_word;
        in_word = goes_on;
        begins.then_some(at)
    })
}

/// Whether a text has a word that begins with one of these.
#[inline]
pub fn has_word<'b>(text: &str, beginnings: impl AsRef<[&'b str]>) -> bool {
    has_any(text, beginnings.as_ref())
}

fn has_any(text: &str, beginnings: &[&str]) -> bool {
    if text.len() <= NAME && text.is_ascii() {
        return has_plain_word(text.as_bytes(), beginnings);
    }
    // Most words begin with another letter, which is quicker to see than that they are another word.
    let bit = |byte: u8| 1_u64 << (byte & 63);
    let firsts =
        beginnings.iter().fold(0, |all, beginning| all | beginning.as_bytes().first().map_or(0, |first| bit(*first)));
    word_starts(text).any(|at| {
        let rest = text.as_bytes().get(at..).unwrap_or_default();
        let Some(first) = rest.first().filter(|first| firsts & bit(**first) != 0) else { return false };
        beginnings.iter().any(|beginning| {
            let beginning = beginning.as_bytes();
            beginning.first() == Some(first) && rest.starts_with(beginning)
        })
    })
}

/// So many bytes, of which nearly all names have fewer, are looked through without asking first how the beginnings begin.
const NAME: usize = 32;

/// As [`has_word`], of a short text in ASCII.
fn has_plain_word(text: &[u8], beginnings: &[&str]) -> bool {
    let is_within = |byte: &u8| BYTES.get(usize::from(*byte)) == Some(&Byte::Within);
    let mut rest = text;
    loop {
        let Some(word) = rest.iter().position(is_within).and_then(|at| rest.get(at..)) else { return false };
        let begins = |beginning: &&str| {
            let beginning = beginning.as_bytes();
            beginning.first() == word.first() && word.starts_with(beginning)
        };
        if beginnings.iter().any(begins) {
            return true;
        }
        let behind = word.iter().position(|byte| !is_within(byte)).and_then(|end| word.get(end..));
        let Some(behind) = behind else { return false };
        rest = behind;
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_word_is_found_where_it_begins() {
        for (text, beginnings, is_there) in [
            ("bake until gold", &["bak", "boil"][..], true),
            ("unbaked", &["bak"], false),
            ("deep-fry at 180", &["fry"], false),
            ("deep-fry at 180", &["deep-fry"], true),
            ("(fry)", &["fry"], true),
            ("crème brûlée", &["br"], true),
            ("sauté", &["saut", "é"], true),
            ("café é", &["é"], true),
            ("café", &["é"], false),
            ("", &["bak"], false),
            ("add a", &["a"], true),
            ("roll in a", &["a l", "in a"], true),
            ("roll in a", &["a l", "n a"], false),
            ("bake", &[], false),
            ("bake", &[""], false),
        ] {
            assert_eq!(has_word(text, beginnings), is_there, "{text} {beginnings:?}");
            // Longer than a name, it is looked through in the other way.
            let long = format!("{text}{}", " ".repeat(NAME));
            assert_eq!(has_word(&long, beginnings), is_there, "{long} {beginnings:?}");
            let asked = Beginnings::of(beginnings);
            assert_eq!(Lowered::new(text.to_owned()).says(&asked), is_there, "{text} {beginnings:?}");
            // All of it is the name, or nothing is.
            let named = |name| Lowered::named(format!("{text}: roll"), name).may_be_called(&asked);
            assert!(!is_there || named(text.len()), "{text} {beginnings:?}");
            assert!(beginnings.concat().len() < 2 || !named(0), "{text} {beginnings:?}");
        }
    }
}
