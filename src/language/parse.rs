//! Text to tree. Never fails: what cannot be read becomes a stray line and one problem.
//!
//! pest stops at the first error, so a file is never one parse. [`lines`] cuts it into lines, [`dispatch`] picks the
//! grammar rule by the first word or mark, and the modules below turn the pairs of that one line into a node.

mod again;
mod aim;
mod bakes;
mod block;
mod book;
mod commas;
mod dispatch;
mod hidden;
mod line;
mod lines;
mod no_comma;
mod numbers;
mod otherwise;
mod pairs;
mod plain;
mod prose;
mod reader;
mod reader_lines;
mod shift;
mod stray;
mod units;
mod words;

use crate::language::syntax::{Content, FileKind, Line, LogLine, Name, Piece, Quantity, TextKind, Tree};
use crate::text::diagnostic::Diagnostic;
use crate::text::source::{SourceId, Span};
pub use again::Reading;
pub(crate) use bakes::begins_bake;
pub(crate) use commas::ungrouped;
use lines::RawLine;
pub(crate) use reader::MOST_IN_LINE;
use reader::Reader;
use std::sync::Arc;
pub(crate) use stray::nearest;
pub(crate) use words::{Begun, Clauses, Place, begun_behind_ingredient, is_key_anywhere, lines_at};

/// The generated parser; only this module and its children see pest.
mod pest_parser {
    #![allow(missing_docs, clippy::all, clippy::pedantic)]

    /// Parses one line by one rule of `grammar/miche.pest`, or of `grammar/bakes.pest` and `grammar/book.pest`, which go on from it.
    #[derive(pest_derive::Parser)]
    #[grammar = "../grammar/miche.pest"]
    #[grammar = "../grammar/bakes.pest"]
    #[grammar = "../grammar/book.pest"]
    pub struct LineParser;
}

use pest_parser::{LineParser, Rule};

/// Reads a text. The tree holds every line; the problems are in the order of their places.
pub fn parse(source: SourceId, text: &str) -> (Tree, Vec<Diagnostic>) {
    let Reading { tree, problems, .. } = Reading::of(source, text);
    (Arc::unwrap_or_clone(tree), problems)
}

/// What a text says that would stand in braces: `30 C`; `None` where it is something else, or something is wrong with it.
pub(crate) fn measure(source: SourceId, text: &str) -> Option<Vec<Quantity>> {
    let braced = format!("{{{text}}}");
    let mut reader = Reader::new(source, &braced, FileKind::Recipe);
    let pieces = prose::read(&mut reader, Span::new(source, 0, braced.len()));
    let mut problems = Vec::new();
    reader.finish(&mut problems);
    match pieces.as_slice() {
        [Piece::Measure(chain)] if problems.is_empty() => Some(chain.clone()),
        _ => None,
    }
}

/// A step, note or caution that deeper lines continue.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
struct OpenText {
    indent: usize,
    /// Whether `until` means something here: only below a step.
    is_step: bool,
    /// The indentation of the cue, when one was read: deeper lines continue the cue.
    cue_indent: Option<usize>,
}

fn read_line(reader: &mut Reader<'_>, raw: &RawLine, open: &mut Option<OpenText>) -> Line {
    let blank_line = |content: Content| Line {
        span: raw.span,
        said: raw.said,
        content,
        only: Vec::new(),
        comment: raw.comment,
        indent: raw.indent,
        continues: false,
    };
    if raw.said.start == raw.said.end {
        return blank_line(if raw.comment.is_some() { Content::Comment } else { Content::Blank });
    }
    if let Some(text) = open.as_mut() {
        if raw.indent > text.indent {
            let words = reader.slice(raw.said);
            if reader.kind == FileKind::Recipe && reader_lines::is_picture(words) {
                let (content, only) = picture_below(reader, raw.said, text);
                return Line { continues: true, only, ..blank_line(content) };
            }
            return Line { continues: true, ..blank_line(continuation(reader, raw.said, raw.indent, text)) };
        }
        *open = None;
    }
    let (content, only) = dispatch::read(reader, raw.said);
    let is_step = matches!(content, Content::Step(_));
    let is_text = match &content {
        Content::Text { kind: TextKind::Note | TextKind::Caution | TextKind::Credit | TextKind::Story, .. } => true,
        Content::Logged(line) => matches!(**line, LogLine::Note(_)),
        _ => false,
    };
    // A step whose head could not be read still owns the prose below it: one mistake, one problem.
    let is_broken_step = !matches!(reader.kind, FileKind::Bakes | FileKind::Book)
        && matches!(content, Content::Stray)
        && reader.slice(raw.said).contains(':');
    if is_step || is_text || is_broken_step {
        *open = Some(OpenText { indent: raw.indent, is_step: is_step || is_broken_step, cue_indent: None });
    }
    Line { only, ..blank_line(content) }
}

/// A picture of a step, below its head; in a note it would be lost.
fn picture_below(reader: &mut Reader<'_>, said: Span, open: &mut OpenText) -> (Content, Vec<Name>) {
    if !open.is_step {
        stray::swallowed_in_text(reader, said, "a picture");
        return (Content::Stray, Vec::new());
    }
    open.cue_indent = None;
    dispatch::read(reader, said)
}

fn continuation(reader: &mut Reader<'_>, said: Span, indent: usize, open: &mut OpenText) -> Content {
    let words = reader.slice(said);
    if reader.kind == FileKind::Bakes {
        // What is measured is not lost in a note because it stands too deep.
        if bakes::is_timed(words) || bakes::has_leader(words) || bakes::begins_bake(words) {
            bakes::swallowed(reader, said);
            return Content::Stray;
        }
        let words: Vec<&str> = words.split_whitespace().collect();
        return Content::Prose(vec![Piece::Text(words.join(" "))]);
    }
    if let Some(what) = dispatch::swallowed(words) {
        stray::swallowed(reader, said, what);
        return Content::Stray;
    }
    let starts_cue = open.is_step && words.get(..6).is_some_and(|start| start.eq_ignore_ascii_case("until "));
    if starts_cue {
        open.cue_indent = Some(indent);
        return Content::Until(prose::read_cue(reader, said));
    }
    if open.cue_indent.is_some_and(|cue| indent > cue) {
        return Content::Until(prose::read(reader, said));
    }
    open.cue_indent = None;
    Content::Prose(prose::read(reader, said))
}

/// A file is what its first line says; a file that does not say is read as a recipe, the most common kind.
fn file_kind(raw_lines: &[RawLine], text: &str) -> FileKind {
    let first = raw_lines.iter().filter_map(|raw| text.get(raw.said.range())).find(|said| !said.is_empty());
    let first = first.unwrap_or("");
    let word = words::first_word(first);
    // `day.... 1 g` is an ingredient with an odd name, not a title.
    let is_title =
        first.get(word.len()..).is_none_or(|after| after.is_empty() || after.starts_with(char::is_whitespace));
    match word.to_ascii_lowercase().as_str() {
        _ if !is_title => FileKind::Recipe,
        "kitchen" | "ingredient" => FileKind::Kitchen,
        "day" => FileKind::Day,
        "bakes" => FileKind::Bakes,
        "book" => FileKind::Book,
        "bake" if bakes::begins_bake(first) => FileKind::Bakes,
        _ => FileKind::Recipe,
    }
}
