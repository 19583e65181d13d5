//! The problem of a line with characters that cannot be seen, and which of them can be taken out unasked.
//!
//! A mend never changes a number, never joins what a reader sees apart, and leaves what has a meaning in a script.

use crate::text::diagnostic::{Diagnostic, Edit, Mend};
use crate::text::hidden::{
    hidden, is_hidden, is_joiner, is_line_separator, is_written_leftward, is_written_without_blanks, takes_no_room,
};
use crate::text::source::Span;

/// So many characters of a line are looked at for a mend; what is left has its turn once they are gone.
const MOST_AT_ONCE: usize = 100;

/// What can be done about one such character.
enum Remedy {
    /// Nobody could have meant anything else than this in its place.
    Certain(String),
    /// It can be deleted, and what the line says may then be another thing.
    Perhaps,
    /// It parts the figures of a number: only the writer knows which number it is.
    InNumber,
}

/// Whether a text holds nothing but what is seen in ASCII, blanks and line breaks: then no line of it has anything to report.
pub(super) fn is_plain(text: &str) -> bool {
    // To the end whatever stands there, so that many bytes can be looked at in one step.
    let is_seen = |byte: u8| (b' '..=b'~').contains(&byte);
    text.bytes().fold(true, |all, byte| all & (is_seen(byte) | (byte == b'\n') | (byte == b'\t') | (byte == b'\r')))
}

/// Reports the characters of a line that cannot be seen. `line_break` ends it, or is empty.
pub(super) fn report(
    whole: Span,
    comment: Option<Span>,
    text: &str,
    line_break: &str,
    diagnostics: &mut Vec<Diagnostic>,
) {
    let start = whole.range().start;
    let line = text.get(whole.range()).unwrap_or("");
    // To the end of the line whatever stands there, so that many bytes can be looked at in one step.
    let is_plain = |byte: u8| byte == b'\t' || matches!(byte, b' '..=b'~');
    if line.bytes().fold(true, |all, byte| all & is_plain(byte)) {
        return;
    }
    let found: Vec<(usize, char)> = hidden(line).collect();
    let Some((at, first)) = found.first().copied() else { return };
    let place = |at: usize, character: char| Span::new(whole.source, start + at, start + at + character.len_utf8());
    let code = format!("U+{:04X}", u32::from(first));
    let message = match found.len() {
        1 => format!("the line holds a character that cannot be seen ({code})"),
        count => format!("the line holds {count} characters that cannot be seen (the first is {code})"),
    };
    let span = place(at, first);
    let problem = Diagnostic::error("hidden-character", span, message).label(format!("{code} stands here"));
    let comment = comment.map_or(line.len(), |comment| comment.range().start - start);
    // Only blanks: characters that part lines count as white space too, and would come again behind each of themselves.
    let indentation = line.get(..line.len() - line.trim_start_matches([' ', '\t']).len()).unwrap_or("");
    let line_break = if line_break.is_empty() { "\n" } else { line_break };
    let leftward = is_written_leftward(line);
    let remedies: Vec<(Span, Remedy)> = found
        .iter()
        .take(MOST_AT_ONCE)
        .map(|(at, character)| {
            let around = Around::of(line, *at, *character);
            let rest = line.get(at + character.len_utf8()..).unwrap_or("");
            // What follows stays part of the comment.
            let mark = if *at < comment { "" } else { "# " };
            let separator = format!("{line_break}{indentation}{mark}");
            let turned = leftward || rest.contains(char::is_numeric);
            (place(*at, *character), remedy(*character, around, separator, leftward, turned))
        })
        .collect();
    // As long as a number of the line is not known, nothing in it is.
    let known = !remedies.iter().any(|(_, remedy)| matches!(remedy, Remedy::InNumber));
    let edits: Vec<Edit> = remedies
        .iter()
        .filter(|_| known)
        .filter_map(|(span, remedy)| match remedy {
            Remedy::Certain(text) => Some(Edit { span: *span, text: text.clone() }),
            Remedy::Perhaps | Remedy::InNumber => None,
        })
        .collect();
    let problem = match remedies.first() {
        Some((_, Remedy::InNumber)) => {
            problem.help("write the number again as it is meant; the character parts its figures")
        }
        Some((_, Remedy::Certain(text))) if !text.is_empty() => {
            problem.help("begin a new line there; what a reader sees on two lines would be computed as one")
        }
        _ => problem.help("delete it; it could make the line read differently from what is computed"),
    };
    diagnostics.push(match (edits.as_slice(), remedies.first()) {
        ([], Some((_, Remedy::Perhaps))) => problem.suggest("delete it", span, ""),
        ([], _) => problem,
        ([one], _) => problem.mend(title(&one.text, 1), one.span, one.text.clone()),
        (many, _) => {
            let all_deleted = many.iter().all(|edit| edit.text.is_empty());
            let title = if all_deleted { title("", many.len()) } else { "put line breaks in their place" };
            Diagnostic { mend: Some(Mend { title: title.to_owned(), edits, certain: true }), ..problem }
        }
    });
}

fn title(text: &str, count: usize) -> &'static str {
    match (text, count) {
        ("", 1) => "delete it",
        ("", _) => "delete them",
        _ => "put a line break in its place",
    }
}

/// What stands beside a character, other characters that cannot be seen left out.
#[derive(Clone, Copy)]
struct Around {
    before: Option<char>,
    after: Option<char>,
}

impl Around {
    fn of(line: &str, at: usize, character: char) -> Around {
        let seen = |c: &char| !is_hidden(*c);
        Around {
            before: line.get(..at).unwrap_or("").chars().rev().find(seen),
            after: line.get(at + character.len_utf8()..).unwrap_or("").chars().find(seen),
        }
    }

    /// Whether both sides are of one number, of a range, or of a power.
    fn is_in_number(self) -> bool {
        let figure = |side: Option<char>| side.is_some_and(is_figure);
        figure(self.before) && (figure(self.after) || matches!(self.after, Some('e' | 'E')))
            || matches!(self.before, Some('e' | 'E')) && figure(self.after)
    }

    /// Whether there is nothing, or a blank, at one side.
    fn is_at_blank(self) -> bool {
        let blank = |side: Option<char>| side.is_none_or(char::is_whitespace);
        blank(self.before) || blank(self.after)
    }
}

/// What a number is written with.
fn is_figure(character: char) -> bool {
    character.is_numeric() || matches!(character, '.' | ',' | '/' | '\u{2044}' | '-' | '+' | '\u{2212}' | '–' | '—')
}

/// `leftward` says whether the line holds letters from right to left, `turned` whether figures behind the character may be seen in
/// another order than they are computed in.
fn remedy(character: char, around: Around, separator: String, leftward: bool, turned: bool) -> Remedy {
    let delete = || Remedy::Certain(String::new());
    if around.is_in_number() {
        return Remedy::InNumber;
    }
    match character {
        _ if is_line_separator(character) => Remedy::Certain(separator),
        // A mark of direction at the side of a word; among letters from right to left it decides where a sign stands.
        '\u{200E}' | '\u{200F}' | '\u{061C}' if !leftward => delete(),
        '\u{202A}'..='\u{202E}' | '\u{2066}'..='\u{206F}' if !turned => delete(),
        '\u{200B}' if around.before.is_some_and(is_written_without_blanks) => Remedy::Perhaps,
        '\u{200B}' | '\u{2060}'..='\u{2065}' | '\u{FEFF}' => delete(),
        _ if is_joiner(character) => delete(),
        '\u{AD}' | '\u{034F}' | '\u{FE00}'..='\u{FE0F}' | '\u{E0000}'..='\u{E0FFF}' if takes_no_room(character) => {
            delete()
        }
        // Some programs show a control character, so that it parts words; beside a blank it parts nothing.
        _ if character.is_control() && around.is_at_blank() => delete(),
        _ => Remedy::Perhaps,
    }
}
