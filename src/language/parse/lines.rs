//! Cuts a text into lines and takes indentation and comments off them.

use crate::text::diagnostic::Diagnostic;
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
    while start < text.len() {
        let rest = text.get(start..).unwrap_or("");
        let length = rest.find('\n').unwrap_or(rest.len());
        let line = rest.get(..length).unwrap_or("");
        // A carriage return is half of a line break; by itself it is a character that cannot be seen.
        let line = line.strip_suffix('\r').filter(|_| length < rest.len()).unwrap_or(line);
        lines.push(raw_line(source, start, line));
        report_hidden(source, start, line, diagnostics);
        start += length + 1;
    }
    lines
}

fn raw_line(source: SourceId, start: usize, line: &str) -> RawLine {
    let comment_at = comment_start(line);
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
    if !line.contains('#') {
        return None;
    }
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

/// Characters that change what a reader sees without being seen: control characters and direction overrides.
pub(crate) fn is_hidden(character: char) -> bool {
    (character.is_control() && character != '\t')
        || matches!(
            character,
            '\u{061C}' | '\u{200B}'..='\u{200F}' | '\u{2028}'..='\u{202E}' | '\u{2060}'..='\u{2069}' | '\u{FEFF}' | '\u{FFF9}'..='\u{FFFB}'
        )
}

fn report_hidden(source: SourceId, start: usize, line: &str, diagnostics: &mut Vec<Diagnostic>) {
    if line.is_ascii() && !line.bytes().any(|byte| byte.is_ascii_control() && byte != b'\t') {
        return;
    }
    let hidden: Vec<(usize, char)> = line.char_indices().filter(|(_, c)| is_hidden(*c)).collect();
    let Some((at, first)) = hidden.first().copied() else { return };
    let code = format!("U+{:04X}", u32::from(first));
    let count = hidden.len();
    let message = if count == 1 {
        format!("the line holds a character that cannot be seen ({code})")
    } else {
        format!("the line holds {count} characters that cannot be seen (the first is {code})")
    };
    let span = Span::new(source, start + at, start + at + first.len_utf8());
    diagnostics.push(
        Diagnostic::error("hidden-character", span, message)
            .label(format!("{code} stands here"))
            .help("delete it; it could make the line read differently from what is computed")
            .mend("delete it", span, ""),
    );
}
