//! Where a line ends: at LF, at CRLF, and at a CR by itself, the same for everything that counts lines.

use memchr::memchr2;
use std::borrow::Cow;

/// The first line break at or behind a byte: where it begins, and its length in bytes.
pub fn next(text: &str, from: usize) -> Option<(usize, usize)> {
    let rest = text.as_bytes().get(from..)?;
    let at = memchr2(b'\n', b'\r', rest)?;
    let length = if rest.get(at..at + 2) == Some(b"\r\n") { 2 } else { 1 };
    Some((from + at, length))
}

/// The line break before a byte that begins a line; empty where none stands there.
pub fn before(text: &str, at: usize) -> &str {
    let head = text.get(..at).unwrap_or("");
    let length = if head.ends_with("\r\n") { 2 } else { usize::from(head.ends_with(['\n', '\r'])) };
    head.get(at - length..).unwrap_or("")
}

/// The byte at which each line begins; behind a line break at the very end one more, of an empty line.
pub fn starts(text: &str) -> impl Iterator<Item = usize> + '_ {
    let mut at = Some(0);
    std::iter::from_fn(move || {
        let start = at?;
        at = next(text, start).map(|(end, length)| end + length);
        Some(start)
    })
}

/// The lines of a text, each with its line break; nothing behind the last line break.
pub fn lines(text: &str) -> impl Iterator<Item = &str> {
    let mut rest = text;
    std::iter::from_fn(move || {
        if rest.is_empty() {
            return None;
        }
        let end = next(rest, 0).map_or(rest.len(), |(end, length)| end + length);
        let (line, behind) = rest.split_at_checked(end)?;
        rest = behind;
        Some(line)
    })
}

/// How many lines end before a byte.
pub fn count_before(text: &str, end: usize) -> usize {
    starts(text).skip(1).take_while(|start| *start <= end).count()
}

/// The line break of a text of which all lines end in the same way; LF for any other.
pub fn usual(text: &str) -> &'static str {
    only(text).unwrap_or("\n")
}

/// The line break of a text of which all lines end in the same way; nothing for any other.
pub fn only(text: &str) -> Option<&'static str> {
    let mut kinds = lines(text).filter(|line| line.ends_with(['\n', '\r'])).map(|line| before(line, line.len()));
    let first = kinds.next()?;
    let first = ["\r\n", "\r", "\n"].into_iter().find(|kind| *kind == first)?;
    kinds.all(|kind| kind == first).then_some(first)
}

/// The line break with which most lines of a text end; LF where none does.
pub fn most(text: &str) -> &'static str {
    let count = |kind: &str| lines(text).filter(|line| before(line, line.len()) == kind).count();
    // Of as many the first: the others are what a program left that knows no CR.
    let kinds = ["\n", "\r\n", "\r"].map(|kind| (count(kind), kind));
    kinds.into_iter().rev().max_by_key(|(many, _)| *many).filter(|(many, _)| *many > 0).map_or("\n", |(_, kind)| kind)
}

/// A text of which every line ends with LF, the last too.
pub fn with_plain_ends(text: &str) -> Cow<'_, str> {
    if !text.contains('\r') && (text.is_empty() || text.ends_with('\n')) {
        return Cow::Borrowed(text);
    }
    let said = |line: &'_ str| format!("{}\n", line.trim_end_matches(['\n', '\r']));
    Cow::Owned(lines(text).map(said).collect())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_line_ends_in_three_ways() {
        let text = "one\rtwo\r\nthree\n\r\n\rend";
        assert_eq!(lines(text).collect::<Vec<&str>>(), ["one\r", "two\r\n", "three\n", "\r\n", "\r", "end"]);
        assert_eq!(lines(text).collect::<String>(), text);
        let starts: Vec<usize> = starts(text).collect();
        assert_eq!(starts, [0, 4, 9, 15, 17, 18]);
        assert_eq!(starts.iter().map(|start| before(text, *start)).collect::<String>(), "\r\r\n\n\r\n\r");
        assert_eq!(count_before(text, 3), 0);
        assert_eq!(count_before(text, 9), 2);
    }

    #[test]
    fn the_usual_line_break_is_that_of_every_line() {
        assert_eq!(usual("a\r\nb\r\nc"), "\r\n");
        assert_eq!(usual("a\rb\r"), "\r");
        assert_eq!(usual("a\rb\n"), "\n");
        assert_eq!(usual("a\r\nb\r"), "\n");
        assert_eq!(usual("a"), "\n");
        for (text, wanted) in [("a\r\nb\r\nc\n", "\r\n"), ("a\r\nb\n", "\n"), ("a\rb", "\r"), ("a", "\n")] {
            assert_eq!(most(text), wanted);
        }
        assert_eq!(with_plain_ends("a\r\n\rb\nc"), "a\n\nb\nc\n");
    }
}
