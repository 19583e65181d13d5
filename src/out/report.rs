//! Problems for people and for programs: one file a format.

pub mod github;
pub mod json;
pub mod sarif;
pub mod short;
pub mod terminal;

use crate::text::hidden::{is_hidden, replaced};
use percent_encoding::{AsciiSet, NON_ALPHANUMERIC, utf8_percent_encode};
use serde::Serialize;
use std::borrow::Cow;
use std::fmt::Write;

/// A value as JSON, in which what cannot be seen stands as an escape: JSON itself asks that only of the oldest control
/// characters.
///
/// # Errors
/// When the value cannot be written as JSON.
pub(crate) fn to_json(value: &(impl Serialize + ?Sized)) -> serde_json::Result<String> {
    let text = serde_json::to_string_pretty(value)?;
    if !text.contains(|c| is_hidden(c) && c != '\n') {
        return Ok(text);
    }
    // Outside its strings JSON holds no such character but line breaks.
    let mut escaped = String::with_capacity(text.len());
    for c in text.chars() {
        if is_hidden(c) && c != '\n' {
            // What lies beyond the first plane is two escapes; a text takes everything.
            for unit in c.encode_utf16(&mut [0; 2]) {
                let _ = write!(escaped, "\\u{unit:04x}");
            }
        } else {
            escaped.push(c);
        }
    }
    Ok(escaped)
}

/// Bytes that stand in an address as they are: RFC 3986's unreserved ones, and what parts a path.
const IN_A_PATH: &AsciiSet = &NON_ALPHANUMERIC.remove(b'/').remove(b'-').remove(b'.').remove(b'_').remove(b'~');

/// A path as it stands in an address: what may not as its bytes.
pub(crate) fn path_in_address(path: &str) -> impl std::fmt::Display {
    utf8_percent_encode(path, IN_A_PATH)
}

/// As [`clean`], each character replaced by one of as many bytes, so that places in the text stay where they are. Every line
/// ends in a line feed.
pub fn clean_in_place(text: &str) -> Cow<'_, str> {
    let text: Cow<'_, str> =
        if text.contains('\r') { text.replace("\r\n", " \n").replace('\r', "\n").into() } else { text.into() };
    let in_place = |c: char| match c.len_utf8() {
        1 => '?',
        2 => '\u{00BF}',
        3 => '\u{FFFD}',
        _ => '\u{10101}',
    };
    match replaced(&text, |c| Some(in_place(c))) {
        Cow::Owned(cleaned) => cleaned.into(),
        Cow::Borrowed(_) => text,
    }
}

/// A thing as text, [cleaned](clean).
pub fn seen(thing: &(impl std::fmt::Display + ?Sized)) -> String {
    clean(&thing.to_string()).into_owned()
}

/// As [`clean`], on one line: a line break in the name of a file would begin another problem.
pub fn on_one_line(text: &str) -> String {
    clean(text).replace(['\n', '\r'], " ")
}

/// A text with everything taken out that could steer a terminal or hide in it. A tab, which would move what stands behind it,
/// is one blank, as wide as it counts.
pub fn clean(text: &str) -> Cow<'_, str> {
    let text = replaced(text, |_| Some('\u{FFFD}'));
    if text.contains('\t') { text.replace('\t', " ").into() } else { text }
}
