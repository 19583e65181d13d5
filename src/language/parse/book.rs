//! Pairs to nodes: the lines of a book.

use super::numbers::{self, quantity_of};
use super::pairs::Pair;
use super::reader::{Reader, string};
use super::{Clauses, Rule, stray};
use crate::language::syntax::{BookLine, Content, PageClause, PageSize};
use crate::measure::unit::Dimension;
use crate::text::diagnostic::Diagnostic;
use crate::text::source::Spanned;

/// Builds the node; `None` when a figure in it was reported.
pub(super) fn build<'t>(
    reader: &mut Reader<'_>,
    rule: Rule,
    mut pairs: impl Iterator<Item = Pair<'t>>,
) -> Option<Content> {
    let first = pairs.next()?;
    let line = match rule {
        Rule::page_line => {
            let path = string(reader, first);
            let mut clauses = Vec::new();
            for pair in pairs {
                let span = reader.span(&pair);
                clauses.push(Spanned::new(clause(reader, pair).unwrap_or(PageClause::Broken), span));
            }
            BookLine::Page { path, clauses }
        }
        Rule::book_line => BookLine::Title(words(reader, &first)),
        Rule::book_by_line => BookLine::By(words(reader, &first)),
        Rule::chapter_line => BookLine::Chapter(words(reader, &first)),
        Rule::address_line => BookLine::Address(words(reader, &first)),
        _ => return None,
    };
    Some(Content::OfBook(Box::new(line)))
}

/// Words with one blank between them.
fn words(reader: &Reader<'_>, pair: &Pair<'_>) -> Spanned<String> {
    let words: Vec<&str> = pair.as_str().split_whitespace().collect();
    Spanned::new(words.join(" "), reader.span(pair))
}

fn clause(reader: &mut Reader<'_>, pair: Pair<'_>) -> Option<PageClause> {
    let span = reader.span(&pair);
    let said = pair.into_inner().next()?;
    let rule = said.as_rule();
    let mut inner = said.into_inner();
    match rule {
        Rule::chosen => {
            let first = reader.name(&inner.next()?);
            Some(PageClause::Choose(first, inner.next().map(|pair| reader.name(&pair))))
        }
        Rule::page_sizes => {
            let mut sizes = Vec::new();
            for pair in inner {
                let span = reader.span(&pair);
                sizes.push(Spanned::new(size(reader, pair.into_inner().next()?)?, span));
            }
            Some(PageClause::Sizes(sizes))
        }
        _ => {
            stray::unknown_clause(reader, span, &Clauses::Page.forms());
            None
        }
    }
}

fn size(reader: &mut Reader<'_>, pair: Pair<'_>) -> Option<PageSize> {
    let rule = pair.as_rule();
    let mut inner = pair.into_inner();
    Some(match rule {
        Rule::page_times => PageSize::Times(numbers::number(reader, inner.next()?)?),
        // The weight that was looked ahead to stands before the quantity.
        Rule::page_mass => {
            let mass = quantity_of(reader, inner.last()?, &[Dimension::Mass])?;
            if mass.upper.is_some() {
                reader.report(
                    Diagnostic::error("wrong-kind", mass.span, "a page is of one size, and this is a range")
                        .help("name the sizes one by one: `sizes 2 kg and 4 kg`"),
                );
                return None;
            }
            PageSize::Mass(mass)
        }
        _ => {
            let count = numbers::number(reader, inner.next()?)?;
            let noun = inner.next().map(|pair| reader.name(&pair));
            // No piece is called so: the next size was forgotten.
            if let Some(and) = noun.as_ref().filter(|noun| noun.key.as_str() == "and") {
                reader.report(
                    Diagnostic::error("stray-line", and.span, "no size stands behind `and`")
                        .help("write it, `sizes 10 and 20`, or leave `and` out"),
                );
                return None;
            }
            PageSize::Pieces(count, noun)
        }
    })
}
