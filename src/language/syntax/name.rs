//! A name as it is written, and as it is compared.

use crate::text::composed::composed;
use crate::text::source::Span;
use crate::text::word_begins::{Beginnings, NameBegins};
use std::borrow::Borrow;
use std::fmt;
use std::sync::Arc;

/// A name folded for comparing: lower case, runs of spaces one space, letters composed however they were typed.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Key(Arc<str>);

impl Key {
    /// Folds a name.
    pub fn new(name: &str) -> Key {
        let name = composed(name);
        let mut folded = String::with_capacity(name.len());
        for word in name.split_whitespace() {
            if !folded.is_empty() {
                folded.push(' ');
            }
            if word.is_ascii() {
                folded.extend(word.chars().map(|c| c.to_ascii_lowercase()));
            } else {
                folded.extend(word.chars().flat_map(char::to_lowercase));
            }
        }
        Key(folded.into())
    }

    /// The folded name.
    pub fn as_str(&self) -> &str {
        &self.0
    }
}

/// A key is found by any text that is folded as it is.
impl Borrow<str> for Key {
    fn borrow(&self) -> &str {
        &self.0
    }
}

/// A name as it was written, and where.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub struct Name {
    /// As written, runs of spaces folded.
    pub text: Arc<str>,
    /// For comparing.
    pub key: Key,
    /// Where.
    pub span: Span,
    /// How its words begin, which tells at once of most words that it has none of them.
    begins: NameBegins,
}

/// What a byte is in a name: part of a word, a capital letter, a blank, or what is folded or compared otherwise, as other white space and
/// what is not ASCII.
const WITHIN: u8 = 1;
const CAPITAL: u8 = 2;
const BLANK: u8 = 4;
const OTHERWISE: u8 = 8;

const BYTES: [u8; 256] = {
    let mut bytes = [0; 256];
    let (mut left, mut byte) = (bytes.as_mut_slice(), 0_u8);
    while let Some((first, rest)) = left.split_first_mut() {
        *first = match byte {
            b'A'..=b'Z' => WITHIN | CAPITAL,
            b'-' | b'0'..=b'9' | b'a'..=b'z' => WITHIN,
            b' ' => BLANK,
            b'\t'..=b'\r' | 128.. => OTHERWISE,
            _ => 0,
        };
        left = rest;
        byte = byte.wrapping_add(1);
    }
    bytes
};

/// Whether a text in ASCII has capitals, and how its words begin; `None` for any other, and where something else than single blanks parts
/// its words.
fn plain(text: &str) -> Option<(bool, NameBegins)> {
    let (mut all, mut twice, mut before, mut begins) = (0, 0, BLANK, NameBegins::NONE);
    for (at, byte) in text.bytes().enumerate() {
        let here = BYTES.get(usize::from(byte)).copied().unwrap_or(OTHERWISE);
        if here & !before & WITHIN != 0 {
            // A letter has one bit, as a capital or not.
            begins = begins.with(text.as_bytes().get(at..).unwrap_or_default());
        }
        (all, twice, before) = (all | here, twice | (here & before), here);
    }
    (all & OTHERWISE == 0 && twice & BLANK == 0).then_some((all & CAPITAL != 0, begins))
}

impl Name {
    /// Reads a name.
    pub fn new(text: &str, span: Span) -> Name {
        let bare = text.strip_suffix(' ').unwrap_or(text);
        if let Some((capitals, begins)) = plain(bare).filter(|_| !bare.ends_with(' ')) {
            let text: Arc<str> = bare.into();
            // Most names are written as they are compared; then both are one text.
            let key = if capitals { Key::new(&text) } else { Key(Arc::clone(&text)) };
            debug_assert_eq!(begins, NameBegins::of(key.as_str()));
            return Name { text, key, span, begins };
        }
        let folded = text.split_whitespace().collect::<Vec<_>>().join(" ");
        let key = Key::new(&folded);
        Name::of(folded.into(), key, span)
    }

    fn of(text: Arc<str>, key: Key, span: Span) -> Name {
        let begins = NameBegins::of(key.as_str());
        Name { text, key, span, begins }
    }

    /// Whether it has a word that begins with one of these.
    #[inline]
    pub fn has_word_beginning(&self, beginnings: &Beginnings) -> bool {
        let may_be = beginnings.may_be_in_name(self.begins);
        debug_assert!(may_be || !beginnings.begin_in(self.key.as_str()), "`{self}` has {beginnings:?}");
        may_be && beginnings.begin_in(self.key.as_str())
    }

    /// Whether it may have a word, also one behind a hyphen, that begins with one of these; without looking at the words.
    pub fn may_have_word_beginning(&self, beginnings: &Beginnings) -> bool {
        beginnings.may_be_in_name(self.begins) || self.key.as_str().contains('-')
    }

    /// Whether it may have a word, also one behind a hyphen, that begins as one of another name or of some words does.
    pub(crate) fn may_share_word(&self, other: NameBegins) -> bool {
        self.begins.may_share(other) || self.key.as_str().contains('-')
    }

    /// Whether both name the same thing.
    pub fn same(&self, other: &Name) -> bool {
        self.key == other.key
    }
}

impl fmt::Display for Name {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.text)
    }
}

#[cfg(test)]
mod tests {
    use super::Key;

    #[test]
    fn a_name_is_the_same_however_it_was_typed() {
        for (typed, meant) in [
            ("Cre\u{300}me  frai\u{302}che", "crème fraîche"),
            ("\u{FB01}sh sauce", "fish sauce"),
            ("ｍｉｌｋ", "milk"),
            ("GRUYE\u{300}RE", "Gruyère"),
        ] {
            assert_eq!(Key::new(typed), Key::new(meant), "{typed}");
            // A key is its own.
            assert_eq!(Key::new(Key::new(typed).as_str()), Key::new(typed));
        }
        assert_ne!(Key::new("creme"), Key::new("crème"));
    }
}
