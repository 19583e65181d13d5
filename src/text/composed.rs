//! A text as it is compared, however its letters were typed: `crème` with one sign for its `è` or with two, `ﬁsh` with a ligature, `ｍｉｌｋ` in wide
//! letters.

use std::borrow::Cow;
use unicode_normalization::{IsNormalized, UnicodeNormalization, is_nfc_quick, is_nfkc_quick};

/// A text with its letters composed (Unicode Standard Annex 15, form KC): what a Mac, a PDF or a keyboard writes otherwise names the same thing.
pub fn composed(text: &str) -> Cow<'_, str> {
    if text.is_ascii() || is_nfkc_quick(text.chars()) == IsNormalized::Yes {
        return Cow::Borrowed(text);
    }
    Cow::Owned(text.nfkc().collect())
}

/// A text with each letter as one sign where there is one (form C), and nothing else changed: `½` stays what it is.
pub fn with_whole_letters(text: &str) -> Cow<'_, str> {
    if text.is_ascii() || is_nfc_quick(text.chars()) == IsNormalized::Yes {
        return Cow::Borrowed(text);
    }
    Cow::Owned(text.nfc().collect())
}

/// Whether two texts are the same to who reads them, however their letters were typed.
pub fn reads_alike(one: &str, other: &str) -> bool {
    one == other || with_whole_letters(one) == with_whole_letters(other)
}

/// A text in lower case and composed.
pub fn folded(text: &str) -> String {
    let text = composed(text);
    match text.is_ascii() {
        true => text.to_ascii_lowercase(),
        false => text.to_lowercase(),
    }
}

#[cfg(test)]
mod tests {
    use super::{composed, folded, reads_alike};

    #[test]
    fn what_reads_alike_is_compared_alike() {
        for (typed, meant) in [
            ("cre\u{300}me frai\u{302}che", "crème fraîche"),
            ("gruye\u{300}re", "gruyère"),
            ("\u{FB01}sh sauce", "fish sauce"),
            ("ｍｉｌｋ", "milk"),
            ("CRE\u{300}ME", "crème"),
            ("Jalapen\u{303}o", "jalapeño"),
            ("flour", "flour"),
            ("مِلح", "مِلح"),
        ] {
            assert_eq!(folded(typed), meant, "{typed}");
            assert_eq!(composed(meant), meant);
        }
        assert!(
            reads_alike("cre\u{300}me", "crème") && !reads_alike("½", "1\u{2044}2") && !reads_alike("creme", "crème")
        );
    }
}
