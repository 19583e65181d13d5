//! Problems for people and for programs: one file a format.

pub mod github;
pub mod json;
pub mod sarif;
pub mod short;
pub mod terminal;

use crate::parse::is_hidden;
use std::borrow::Cow;

/// As [`clean`], each character replaced by one of as many bytes, so that places in the text stay where they are.
pub fn clean_in_place(text: &str) -> Cow<'_, str> {
    if !text.chars().any(|c| is_hidden(c) && c != '\n') {
        return Cow::Borrowed(text);
    }
    let replaced = text.chars().map(|c| match c.len_utf8() {
        _ if !is_hidden(c) || c == '\n' => c,
        1 => '?',
        2 => '\u{00BF}',
        _ => '\u{FFFD}',
    });
    Cow::Owned(replaced.collect())
}

/// A text with everything taken out that could steer a terminal or hide in it.
pub fn clean(text: &str) -> Cow<'_, str> {
    if !text.chars().any(|c| is_hidden(c) && c != '\n') {
        return Cow::Borrowed(text);
    }
    let replaced = text.chars().map(|c| if is_hidden(c) && c != '\n' { '\u{FFFD}' } else { c });
    Cow::Owned(replaced.collect())
}
