//! Picks the grammar rule of a line by its first word or mark.

use super::reader::Reader;
use super::words::{self, first_word};
use super::{LineParser, Rule, bakes, line, stray};
use crate::language::syntax::{Content, FileKind, Name};
use crate::text::source::Span;
use pest::Parser;
use std::borrow::Cow;

/// Reads a line that does not continue another: what it says and the options it holds under.
pub(super) fn read(reader: &mut Reader<'_>, said: Span) -> (Content, Vec<Name>) {
    let text = reader.slice(said);
    let word = lower(first_word(text));
    let Some(rule) = rule_for(reader.kind, &word, text) else {
        stray::unknown(reader, said, &word);
        return (Content::Stray, Vec::new());
    };
    let sheet = match reader.parse(rule, said) {
        Ok(sheet) => sheet,
        Err(stopped_at) => {
            stray::unreadable(reader, said, rule, stopped_at);
            return (Content::Stray, Vec::new());
        }
    };
    let (pairs, condition) = sheet.before_condition();
    let only = condition.map_or_else(Vec::new, |pair| pair.into_inner().map(|name| reader.name(&name)).collect());
    // A line whose figure was reported is a stray without a second problem.
    let content = line::build(reader, rule, said, pairs).unwrap_or(Content::Stray);
    reader.reuse(sheet);
    (content, only)
}

/// A word in lower case, as nearly all are written.
fn lower(word: &str) -> Cow<'_, str> {
    if word.bytes().any(|byte| byte.is_ascii_uppercase()) { word.to_ascii_lowercase().into() } else { word.into() }
}

/// The rule for a line in a file of this kind; `None` when nothing fits.
fn rule_for(kind: FileKind, word: &str, text: &str) -> Option<Rule> {
    if kind == FileKind::Bakes {
        return bakes::rule_for(word, text);
    }
    if kind == FileKind::Book {
        let after = text.get(word.len()..).unwrap_or("");
        return words::rule_for(kind, word)
            .filter(|_| after.is_empty() || after.starts_with(|c: char| c.is_whitespace() || c == '"'));
    }
    let after_word = text.get(word.len()..).unwrap_or("");
    let is_keyword = after_word.is_empty() || after_word.starts_with(char::is_whitespace);
    if let Some(rule) = words::rule_anywhere(word).filter(|_| is_keyword) {
        return Some(rule);
    }
    if kind == FileKind::Recipe {
        if has_leader(text) {
            return Some(Rule::ingredient_line);
        }
        if looks_like_step(text) {
            return Some(Rule::step_line);
        }
    }
    let equipment = || kind == FileKind::Kitchen && is_keyword && is_equipment(text);
    // `cook top x 2` is a thing and nobody.
    let by_word = words::rule_for(kind, word).filter(|rule| is_keyword && !(*rule == Rule::cook_line && equipment()));
    by_word.or_else(|| equipment().then_some(Rule::equipment_line))
}

/// `deck oven x 1`: any name, then x and a number.
fn is_equipment(text: &str) -> bool {
    text.split([' ', '\t']).any(|piece| piece.eq_ignore_ascii_case("x") || piece == "×")
}

/// Where two dots stand, one behind the other.
fn dots(text: &str) -> Option<usize> {
    let bytes = text.as_bytes();
    memchr::memchr_iter(b'.', bytes).find(|at| bytes.get(at + 1) == Some(&b'.'))
}

/// Whether a dotted leader follows a name.
fn has_leader(text: &str) -> bool {
    // Most lines have but one byte to a character, which is quicker to see than that one of them is missing.
    let ellipsis = if text.is_ascii() { None } else { text.find('…') };
    let leader = match (dots(text), ellipsis) {
        (Some(dots), Some(ellipsis)) => dots.min(ellipsis),
        (Some(at), None) | (None, Some(at)) => at,
        (None, None) => return false,
    };
    let name = text.get(..leader).unwrap_or("");
    !name.trim().is_empty() && !has_one_of(name, b":,{}[]#=\"")
}

/// Whether one of these signs stands in a text.
fn has_one_of(text: &str, signs: &[u8]) -> bool {
    text.bytes().any(|byte| byte.is_ascii_punctuation() && signs.contains(&byte))
}

/// Whether a line is `NAME: hands|tend|wait …`, so that `divide: hands 10 min` is a step and not a key line.
pub(super) fn looks_like_step(text: &str) -> bool {
    let Some((name, after)) = memchr::memchr(b':', text.as_bytes()).and_then(|at| text.split_at_checked(at)) else {
        return false;
    };
    let after = after.get(1..).unwrap_or("");
    let kind = first_word(after.trim_start());
    let is_kind = ["hands", "tend", "wait"].iter().any(|word| kind.eq_ignore_ascii_case(word));
    is_kind && !name.trim().is_empty() && !has_one_of(name, b"{}[]=\",")
}

/// What a line that stands deeper than a step, and would be taken for its prose, really looks like.
pub(super) fn swallowed(text: &str) -> Option<&'static str> {
    if looks_like_step(text) && LineParser::parse(Rule::step_line, text).is_ok() {
        return Some("the head of a step");
    }
    // A leader with room before it or of four dots and more; `Wait... 5 min` is prose.
    let leader = dots(text)?;
    let dots = text.get(leader..)?.bytes().take_while(|byte| *byte == b'.').count();
    let room_before = text.get(..leader)?.ends_with(char::is_whitespace);
    let is_ingredient = has_leader(text) && (dots >= 4 || room_before);
    (is_ingredient && LineParser::parse(Rule::ingredient_line, text).is_ok()).then_some("an ingredient line")
}
