//! One layout for all files, which never changes what they say.
//!
//! - Amounts begin in one column behind a dotted leader, conditions (and comments) in another; neither depends on other
//!   lines, so that one changed ingredient is one changed line.
//! - Steps, notes and cautions stand at the margin, what continues them four columns deeper; lines deeper still keep
//!   their depth. The author's line breaks in prose stay.
//! - Clauses stand in one order: of an ingredient its temperature, yield, whether it is flour, preparation, optional,
//!   aside; of a step its equipment, place, load, longest time, order, people, station.
//! - Units, ranges and fractions have one spelling; the digits of a number stay as they are, because they say how far it
//!   was rounded.
//! - At most one blank line stands together, and one before each part, each bake of a log and each chapter of a book. Lines end in LF, or in CRLF or CR where all did.
//! - A line that could not be read, or that something was wrong with, stays to the byte.

mod amount;
mod bakes;
mod block;
mod book;
mod clause;
mod column;
mod indent;
mod line;
mod meaning;
mod prose;
mod tidied;

use crate::language::parse::parse;
use crate::language::syntax::{BookLine, Content, Line, LogLine, Tree};
use crate::text::diagnostic::Diagnostic;
use crate::text::line_break;
use crate::text::source::{SourceId, Span};
pub(crate) use column::leader;
use indent::Indent;
pub use meaning::equal_meaning;
use std::fmt;
use tidied::{Slip, Tidied};

/// Lines of a text, counted from 1, both ends included.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct LineRange {
    /// The first line.
    pub first: usize,
    /// The last line.
    pub last: usize,
}

impl LineRange {
    fn holds(self, index: usize) -> bool {
        (self.first..=self.last).contains(&(index + 1))
    }
}

/// The tidied text would have said something else: a fault of this program, not of the text.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Fault {
    /// The first line that would have changed, counted from 1.
    pub line: usize,
}

impl fmt::Display for Fault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(
            f,
            "tidying would have changed what line {} says, so nothing was changed; this is a fault of miche, please \
             report it with the file",
            self.line
        )
    }
}

impl std::error::Error for Fault {}

/// The text in the one layout; with a range only the lines in it, widened to whole steps, notes and cautions.
///
/// # Errors
/// When reading the result gives another tree than reading `text`: then the result must not be used.
pub fn tidy(text: &str, range: Option<LineRange>) -> Result<String, Fault> {
    let source = SourceId(0);
    let (tree, problems) = parse(source, text);
    let tidied = layout(&tree, &problems, text, range);
    let (again, problems_again) = parse(source, &tidied);
    if let Some(index) = meaning::first_difference((&tree, text), (&again, &tidied)) {
        return Err(Fault { line: index + 1 });
    }
    // Line ends may become those of the one layout.
    let problems: Vec<&Diagnostic> = problems.iter().filter(|one| !is_of_line_end(text, one)).collect();
    let problems_again: Vec<&Diagnostic> = problems_again.iter().filter(|one| !is_of_line_end(&tidied, one)).collect();
    let different = problems.iter().zip(&problems_again).find(|(old, new)| old.check != new.check);
    match different {
        Some((old, _)) => Err(Fault { line: line_of(&tree, old.span) + 1 }),
        None if problems.len() != problems_again.len() => Err(Fault { line: 1 }),
        None => Ok(tidied),
    }
}

/// Whether a problem is about how lines end, and about nothing that a line says.
fn is_of_line_end(text: &str, problem: &Diagnostic) -> bool {
    text.get(problem.span.range()) == Some("\r")
}

/// Lays out a tree that was read from `text`, with the problems that were found in reading it.
pub fn layout(tree: &Tree, problems: &[Diagnostic], text: &str, range: Option<LineRange>) -> String {
    let page = Page { text };
    let blocks = indent::blocks(tree);
    let outside = outside(tree, &blocks, range);
    let mut kept = outside.clone();
    for problem in problems.iter().filter(|problem| problem.check != "no-title" && !is_of_line_end(text, problem)) {
        if let Some(slot) = kept.get_mut(line_of(tree, problem.span)) {
            *slot = true;
        }
    }
    let mut written = Vec::with_capacity(tree.lines.len());
    for (line, kept) in tree.lines.iter().zip(&mut kept) {
        let said = if *kept || has_odd_blanks(page, line) || has_odd_comma(page, line) {
            None
        } else {
            line::said(page, line)
        };
        *kept = said.is_none();
        written.push(said);
    }
    let indents = indent::indents(page, tree, &blocks, &kept);
    let mut sheet = Tidied::new(text);
    for (((line, said), indent), outside) in tree.lines.iter().zip(written).zip(indents).zip(outside) {
        sheet.put(slip(page, line, said, indent, outside));
    }
    sheet.finish()
}

/// One line on its way onto the sheet.
fn slip<'t>(page: Page<'t>, line: &Line, said: Option<String>, indent: Indent, outside: bool) -> Slip<'t> {
    let Some(said) = said else {
        return Slip::Kept { line: page.slice(line.span), line_break: page.line_break(line), outside };
    };
    match &line.content {
        Content::Blank => Slip::Blank,
        content => {
            let mut text = match indent {
                Indent::AsWritten => page.indentation(line).to_owned(),
                Indent::Columns(columns) => " ".repeat(columns),
            };
            let at_margin = text.is_empty();
            let comment = line.comment.map_or("", |comment| page.slice(comment)).trim_end();
            if matches!(content, Content::Comment) {
                text.push_str(comment);
                return Slip::Comment { text, at_margin };
            }
            text.push_str(&said);
            let condition =
                if line.only.is_empty() { String::new() } else { format!("[{}]", clause::joined(&line.only, ", ")) };
            column::append_tail(&mut text, &condition, comment);
            Slip::Line { text, is_part: begins_block(content) }
        }
    }
}

/// Whether a line begins something that a blank line parts from what stands before it: a part, a bake, or a chapter.
fn begins_block(content: &Content) -> bool {
    match content {
        Content::Part { .. } => true,
        Content::Logged(line) => matches!(**line, LogLine::Bake { .. }),
        Content::OfBook(line) => matches!(**line, BookLine::Chapter(_)),
        _ => false,
    }
}

/// Which lines the range leaves alone. A step, note or caution of which one line is in the range is in it whole.
fn outside(tree: &Tree, blocks: &[indent::Block], range: Option<LineRange>) -> Vec<bool> {
    let Some(range) = range else { return vec![false; tree.lines.len()] };
    let mut outside: Vec<bool> = (0..tree.lines.len()).map(|index| !range.holds(index)).collect();
    for block in blocks {
        if block.lines().any(|index| range.holds(index)) {
            for slot in outside.iter_mut().take(block.lines().end() + 1).skip(*block.lines().start()) {
                *slot = false;
            }
        }
    }
    outside
}

/// Index of the line a place is in.
fn line_of(tree: &Tree, span: Span) -> usize {
    tree.lines.partition_point(|line| line.span.start <= span.start).saturating_sub(1)
}

/// Whether a line holds white space that the grammar takes for letters (an ideographic space, a line separator).
fn has_odd_blanks(page: Page<'_>, line: &Line) -> bool {
    let usual = |c: char| matches!(c, ' ' | '\t' | '\u{A0}' | '\u{2000}'..='\u{200A}' | '\u{202F}' | '\u{205F}');
    page.slice(line.said).contains(|c: char| c.is_whitespace() && !usual(c))
}

/// Whether a line in which nothing was wrong would read as something else with a blank behind each comma: in `at 2,5egg` it
/// makes `at 2` a temperature, and in `50 %,# soft` it begins a comment.
fn has_odd_comma(page: Page<'_>, line: &Line) -> bool {
    let said = page.slice(line.said).as_bytes();
    let in_digits =
        |around: &[u8]| matches!(around, [before, b',', after] if before.is_ascii_digit() && after.is_ascii_digit());
    let before_comment = |pair: &[u8]| pair == b",#";
    matches!(line.content, Content::Ingredient(_) | Content::Step(_) | Content::Logged(_) | Content::OfBook(_))
        && (said.windows(3).any(in_digits) || said.windows(2).any(before_comment))
}

/// The text that a tree was read from.
#[derive(Debug, Clone, Copy)]
struct Page<'t> {
    text: &'t str,
}

impl<'t> Page<'t> {
    fn slice(self, span: Span) -> &'t str {
        self.text.get(span.range()).unwrap_or("")
    }

    /// The byte at which the words behind a keyword of `length` bytes begin.
    fn words_after(self, said: Span, length: usize) -> usize {
        let rest = self.slice(said).get(length..).unwrap_or("");
        said.start as usize + length + rest.len() - rest.trim_start().len()
    }

    /// The blanks before what a line says, or before its comment.
    fn indentation(self, line: &Line) -> &'t str {
        let end = if line.said.start == line.said.end {
            line.comment.map_or(line.span.end, |comment| comment.start)
        } else {
            line.said.start
        };
        self.text.get(line.span.start as usize..end as usize).unwrap_or("")
    }

    /// The line break behind a line; empty behind a last line without one.
    fn line_break(self, line: &Line) -> &'t str {
        let rest = self.text.get(line.span.end as usize..).unwrap_or("");
        line_break::next(rest, 0).and_then(|(at, length)| rest.get(..at + length)).unwrap_or("")
    }
}
