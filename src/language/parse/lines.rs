//! Cuts a text into lines and takes indentation and comments off them.

use super::hidden;
use crate::text::diagnostic::{Diagnostic, Edit, Mend};
use crate::text::line_break;
use crate::text::source::{SourceId, Span};

/// One physical line before it is understood.
#[derive(Debug)]
pub(super) struct RawLine {
    /// Without the line break.
    pub span: Span,
    /// Without indentation, trailing space and comment.
    pub said: Span,
    /// From the `#` to the end.
    pub comment: Option<Span>,
    /// Width of the indentation in characters.
    pub indent: usize,
}

pub(super) fn split(source: SourceId, text: &str, diagnostics: &mut Vec<Diagnostic>) -> Vec<RawLine> {
    let mut lines = Vec::with_capacity(text.len() / 32 + 1);
    let mut start = 0;
    // A byte-order mark says only that the text is UTF-8, which it has to be anyway.
    if text.starts_with('\u{FEFF}') {
        start = '\u{FEFF}'.len_utf8();
    }
    let (mut carriage_returns, mut breaks) = (Vec::new(), 0);
    // Asked of all lines at once, since of nearly all texts that is all there is to ask.
    let is_plain = hidden::is_plain(text);
    let mut mark = Mark { at: memchr::memchr(b'#', text.as_bytes()) };
    while start < text.len() {
        let (end, length) = line_break::next(text, start).unwrap_or((text.len(), 0));
        let line = text.get(start..end).unwrap_or("");
        let raw = raw_line(source, start, line, mark.is_within(text, start, end));
        let line_break = text.get(end..end + length).unwrap_or("");
        if !is_plain {
            hidden::report(raw.span, raw.comment, text, line_break, diagnostics);
        }
        breaks += usize::from(length > 0);
        if line_break == "\r" {
            carriage_returns.push(Span::new(source, end, end + 1));
        }
        lines.push(raw);
        start = end + length;
    }
    report_carriage_returns(&carriage_returns, breaks, diagnostics);
    lines
}

/// The next `#` of a text, looked for once however many lines stand before it.
struct Mark {
    at: Option<usize>,
}

impl Mark {
    /// Whether one stands in a line; lines are asked for one after the other.
    fn is_within(&mut self, text: &str, start: usize, end: usize) -> bool {
        if self.at.is_some_and(|at| at < start) {
            let rest = text.as_bytes().get(start..).unwrap_or_default();
            self.at = memchr::memchr(b'#', rest).map(|at| start + at);
        }
        self.at.is_some_and(|at| at < end)
    }
}

fn raw_line(source: SourceId, start: usize, line: &str, has_mark: bool) -> RawLine {
    let comment_at = if has_mark { comment_start(line) } else { None };
    let words = line.get(..comment_at.unwrap_or(line.len())).unwrap_or(line);
    let trimmed = words.trim_start();
    let indentation = words.len() - trimmed.len();
    let said = trimmed.trim_end();
    RawLine {
        span: Span::new(source, start, start + line.len()),
        said: Span::new(source, start + indentation, start + indentation + said.len()),
        comment: comment_at.map(|at| Span::new(source, start + at, start + line.len())),
        indent: words.get(..indentation).map_or(0, |space| space.chars().count()),
    }
}

/// `#` begins a comment at the start of a line or after white space, when white space or nothing follows.
fn comment_start(line: &str) -> Option<usize> {
    let mut before = ' ';
    for (at, character) in line.char_indices() {
        let follows_space = before.is_whitespace();
        let space_follows = line.get(at + 1..).and_then(|rest| rest.chars().next()).is_none_or(char::is_whitespace);
        if character == '#' && follows_space && space_follows {
            return Some(at);
        }
        before = character;
    }
    None
}

/// One problem for all lines of a text that end in a carriage return alone. Where others end otherwise, it is hardly meant for
/// a line end, and what stands behind it may be shown over what stands before it.
fn report_carriage_returns(places: &[Span], breaks: usize, diagnostics: &mut Vec<Diagnostic>) {
    let Some(first) = places.first() else { return };
    let edits = places.iter().map(|place| Edit { span: *place, text: "\n".to_owned() }).collect();
    let mend = Mend { title: "end the lines in a line feed".to_owned(), edits, certain: true };
    let count = places.len();
    let problem = if count == breaks {
        Diagnostic::warning("carriage-return", *first, "the lines end in a carriage return alone")
            .help("end lines in a line feed; git and many other programs take a carriage return alone for no line end")
    } else {
        let message = match count {
            1 => "a carriage return (U+000D) ends a line, which cannot be seen among other line ends".to_owned(),
            _ => format!("{count} carriage returns (U+000D) end lines, which cannot be seen among other line ends"),
        };
        Diagnostic::error("hidden-character", *first, message).help("end all lines in a line feed")
    };
    diagnostics.push(Diagnostic { mend: Some(mend), ..problem.label("a line ends here") });
}
