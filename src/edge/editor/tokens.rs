//! What each word is, for colouring: names by what they stand for, keywords, numbers with their units, comments.

use super::scope::Thing;
use super::view::View;
use crate::language::syntax::{Content, Line, Piece};
use crate::text::source::Span;

/// The kinds of words, by the names that the protocol has for them.
pub(super) const KINDS: &[&str] =
    &["keyword", "class", "function", "variable", "enumMember", "number", "comment", "string", "type", "property"];

/// The place in [`KINDS`].
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Token {
    Keyword = 0,
    Part = 1,
    Step = 2,
    Ingredient = 3,
    Taken = 4,
    Number = 5,
    Comment = 6,
    Text = 7,
    Larder = 8,
    Equipment = 9,
}

/// Places and what stands there, in order, none overlapping, none over a line's end.
pub(super) fn tokens(view: &View) -> Vec<(Span, Token)> {
    let mut found: Vec<(Span, Token)> = Vec::new();
    for mention in view.mentions() {
        let token = match &mention.thing {
            Thing::Part(..) => Token::Part,
            Thing::Step(..) => Token::Step,
            Thing::Ingredient(..) => Token::Ingredient,
            Thing::Larder(..) => Token::Larder,
            Thing::Choice(..) | Thing::Taken(..) => Token::Taken,
            Thing::Equipment(..) => Token::Equipment,
            Thing::File(_) => Token::Text,
        };
        found.push((mention.span, token));
    }
    for line in &view.tree().lines {
        if let Some(comment) = line.comment {
            found.push((comment, Token::Comment));
        }
        in_line(view, line, &mut found);
    }
    found.retain(|(span, _)| span.start < span.end);
    found.sort();
    let mut end = 0;
    found.retain(|(span, _)| {
        let free = span.start >= end;
        if free {
            end = span.end;
        }
        free
    });
    found
}

fn in_line(view: &View, line: &Line, found: &mut Vec<(Span, Token)>) {
    match &line.content {
        Content::Blank | Content::Comment | Content::Stray => {}
        Content::Ingredient(written) => {
            numbers(view, Span { start: written.amount.span().start, ..line.said }, found);
        }
        Content::Step(step) => {
            found.push((step.kind.span, Token::Keyword));
            numbers(view, Span { start: step.duration.span.start, ..line.said }, found);
        }
        Content::Prose(pieces) => prose(view, pieces, found),
        Content::Until(_) => {
            let words = view.slice(line.said);
            if words.get(..6).is_some_and(|start| start.eq_ignore_ascii_case("until ")) {
                found.push((Span { end: line.said.start + 5, ..line.said }, Token::Keyword));
            }
        }
        _ => {
            let length = view.slice(line.said).find(char::is_whitespace).unwrap_or(line.said.range().len());
            let word = Span::new(line.said.source, line.said.range().start, line.said.range().start + length);
            found.push((word, Token::Keyword));
            let titled = matches!(
                line.content,
                Content::Recipe(_)
                    | Content::Kitchen(_)
                    | Content::Day(_)
                    | Content::Part { .. }
                    | Content::IngredientBlock(_)
                    | Content::Choose { .. }
                    | Content::Text { .. }
                    | Content::Source(_)
                    | Content::Section(_)
                    | Content::Listed(_)
                    | Content::Consists(_)
                    | Content::Sale(..)
                    | Content::Picture(_)
                    | Content::By(_)
                    | Content::FiledUnder(_)
                    | Content::AlsoCalled(_)
                    | Content::Contains(_)
                    | Content::Is(_)
                    | Content::Use(_)
                    | Content::Stock(_)
            );
            if !titled {
                numbers(view, Span { start: word.end, ..line.said }, found);
            }
        }
    }
}

/// Measures in braces; what braces take is a mention.
fn prose(view: &View, pieces: &[Piece], found: &mut Vec<(Span, Token)>) {
    for piece in pieces {
        let Piece::Measure(quantities) = piece else { continue };
        for quantity in quantities {
            numbers(view, quantity.span, found);
        }
    }
}

/// How long the date is with which words begin; 0 where there is none.
fn date(words: &str) -> usize {
    let mut fields = words.splitn(3, '-');
    let digits = |field: &str| field.bytes().take_while(u8::is_ascii_digit).count();
    match (fields.next(), fields.next(), fields.next()) {
        (Some(year), Some(month), Some(rest))
            if year.len() == 4 && digits(year) == 4 && month.len() <= 2 && digits(month) == month.len() =>
        {
            let day = digits(rest);
            if day == 0 || month.is_empty() { 0 } else { year.len() + month.len() + day + 2 }
        }
        _ => 0,
    }
}

/// Numbers with the unit behind them.
fn numbers(view: &View, span: Span, found: &mut Vec<(Span, Token)>) {
    let words = view.slice(span);
    let mut at = 0;
    while let Some(start) = words.get(at..).and_then(|rest| rest.find(|c: char| c.is_ascii_digit())) {
        let start = at + start;
        let rest = words.get(start..).unwrap_or("");
        let is_number = |c: char| c.is_ascii_digit() || c == '.' || c == '/' || c == ':';
        let length = rest.find(|c: char| !is_number(c)).unwrap_or(rest.len()).max(date(rest));
        let inside_word =
            words.get(..start).and_then(|before| before.chars().next_back()).is_some_and(char::is_alphabetic);
        if !inside_word {
            let begin = span.range().start + start;
            found.push((Span::new(span.source, begin, begin + length), Token::Number));
        }
        at = start + length.max(1);
    }
}
