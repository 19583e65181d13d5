//! The lines of a book.

use super::{Name, Quantity, WrittenNumber};
use crate::text::source::{Span, Spanned};

/// What a line of a book says.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub enum BookLine {
    /// `book From the harbour ovens`
    Title(Spanned<String>),
    /// `by The Skerrow bakehouse`
    By(Spanned<String>),
    /// `address https://skerrow.example/bakes/`
    Address(Spanned<String>),
    /// `chapter Bread`
    Chapter(Spanned<String>),
    /// `page "quay-baguettes.miche", sizes 10 and 20, choose hand`
    Page {
        /// The recipe.
        path: Spanned<String>,
        /// At which sizes, and by which way.
        clauses: Vec<Spanned<PageClause>>,
    },
}

/// What stands behind a page's path, after a comma.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub enum PageClause {
    /// `sizes 10 and 20 and 40`
    Sizes(Vec<Spanned<PageSize>>),
    /// `choose hand`, `choose mixing = hand`
    Choose(Name, Option<Name>),
    /// Something that was reported.
    Broken,
}

/// At what size a recipe stands in a book.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub enum PageSize {
    /// `20` or `20 buns`: the words are the reader's, the number counts.
    Pieces(WrittenNumber, Option<Name>),
    /// `2 kg`: so much of what the recipe makes.
    Mass(Quantity),
    /// `x 2`
    Times(WrittenNumber),
}

impl super::Spans for BookLine {
    fn each_span<F: FnMut(&mut Span)>(&mut self, see: &mut F) {
        match self {
            BookLine::Title(words) | BookLine::By(words) | BookLine::Address(words) | BookLine::Chapter(words) => {
                words.each_span(see);
            }
            BookLine::Page { path, clauses } => {
                path.each_span(see);
                clauses.each_span(see);
            }
        }
    }
}

impl super::Spans for PageClause {
    fn each_span<F: FnMut(&mut Span)>(&mut self, see: &mut F) {
        match self {
            PageClause::Sizes(sizes) => sizes.each_span(see),
            PageClause::Choose(first, second) => {
                first.each_span(see);
                second.each_span(see);
            }
            PageClause::Broken => {}
        }
    }
}

impl super::Spans for PageSize {
    fn each_span<F: FnMut(&mut Span)>(&mut self, see: &mut F) {
        match self {
            PageSize::Pieces(number, noun) => {
                number.each_span(see);
                noun.each_span(see);
            }
            PageSize::Mass(quantity) => quantity.each_span(see),
            PageSize::Times(number) => number.each_span(see),
        }
    }
}
