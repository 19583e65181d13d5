//! Prose and the braces in it.

use super::Rule;
use super::numbers;
use super::reader::{Reader, shortened};
use crate::language::syntax::{Piece, Quantity, Share};
use crate::measure::number::Number;
use crate::measure::unit::Dimension;
use crate::text::diagnostic::Diagnostic;
use crate::text::source::Span;
use pest::iterators::Pair;

/// What a share of an ingredient can be measured in.
const SHARE_KINDS: &[Dimension] = &[Dimension::Mass, Dimension::Volume, Dimension::Count, Dimension::Proportion];

/// Reads one line of prose.
pub(super) fn read(reader: &mut Reader<'_, '_>, said: Span) -> Vec<Piece> {
    let text = reader.slice(said);
    if !text.contains(['{', '}', '\\']) {
        return if text.is_empty() { Vec::new() } else { vec![Piece::Text(text.to_owned())] };
    }
    let mut pieces: Vec<Piece> = Vec::new();
    // The rule takes any line at all, so that there is nothing to report when it ends.
    let Ok(pairs) = reader.parse(Rule::prose_line, said) else { return vec![Piece::Text(text.to_owned())] };
    for pair in pairs {
        match pair.as_rule() {
            Rule::brace => {
                if let Some(piece) = pair.into_inner().next().and_then(|inner| brace(reader, inner)) {
                    pieces.push(piece);
                }
            }
            Rule::trouble_brace => trouble(reader, &pair),
            _ => push_text(&mut pieces, pair.as_str()),
        }
    }
    pieces.shrink_to_fit();
    pieces
}

/// Reads a line that begins with `until `.
pub(super) fn read_sign(reader: &mut Reader<'_, '_>, said: Span) -> Vec<Piece> {
    let after = reader.slice(said).get(6..).unwrap_or("");
    let skipped = 6 + (after.len() - after.trim_start().len());
    read(reader, Span { start: said.start + u32::try_from(skipped).unwrap_or(0), ..said })
}

fn push_text(pieces: &mut Vec<Piece>, text: &str) {
    if let Some(Piece::Text(last)) = pieces.last_mut() {
        last.push_str(text);
    } else {
        pieces.push(Piece::Text(text.to_owned()));
    }
}

fn brace(reader: &mut Reader<'_, '_>, pair: Pair<'_, Rule>) -> Option<Piece> {
    match pair.as_rule() {
        Rule::measure => {
            let chain = numbers::chain(reader, pair.into_inner().next()?)?;
            Some(Piece::Measure(chain))
        }
        Rule::rest => {
            let name = reader.name(&pair.into_inner().next()?);
            Some(Piece::Use(Share::Rest, name))
        }
        Rule::share => {
            let mut inner = pair.into_inner();
            let (how_much, of) = (inner.next()?, inner.next()?);
            let name = reader.name(&of);
            if how_much.as_rule() == Rule::half {
                return Some(Piece::Use(Share::Fraction(Number::constant(1, 2)), name));
            }
            let quantity = numbers::quantity_of(reader, how_much, SHARE_KINDS)?;
            Some(Piece::Use(share_of(quantity), name))
        }
        _ => {
            let name = reader.name(&pair.into_inner().next()?);
            Some(Piece::Use(Share::All, name))
        }
    }
}

/// `1/3 of x` is a share, `2 of x` are two of them.
fn share_of(quantity: Quantity) -> Share {
    let bare = matches!(quantity.terms.as_slice(), [term] if term.unit.is_none());
    match quantity.terms.first() {
        Some(term) if bare && term.number.value < Number::ONE => Share::Fraction(term.number.value),
        _ => Share::Quantity(quantity),
    }
}

fn trouble(reader: &mut Reader<'_, '_>, pair: &Pair<'_, Rule>) {
    let span = reader.span(pair);
    let text = shortened(pair.as_str());
    let problem = match pair.as_str() {
        "{" => Diagnostic::error("stray-line", span, "a brace is opened and not closed on this line")
            .help("close it on the same line, or write `\\{` for a plain brace"),
        "}" => Diagnostic::error("stray-line", span, "a brace is closed that was not opened on this line")
            .help("open it on the same line, or write `\\}` for a plain brace"),
        _ => Diagnostic::error("stray-line", span, format!("`{text}` names no ingredient and no measure"))
            .help("in braces stands an ingredient, `{half of NAME}`, `{300 g of NAME}`, `{rest of NAME}` or a measure"),
    };
    reader.report(problem);
}
