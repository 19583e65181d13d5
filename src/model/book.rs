//! A book: which recipes it holds, in which chapters, at which sizes and by which ways.

use crate::language::syntax::Key;
use crate::measure::number::Number;
use crate::measure::quantity::Mass;
use crate::model::recipe::Selection;
use crate::text::source::{SourceId, Span, Spanned};

/// A book.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Book {
    /// What it is called; empty where that could not be read.
    pub title: String,
    /// Whose it is.
    pub by: Option<String>,
    /// Where it will stand, with a slash at its end: `https://skerrow.example/bakes/`.
    pub address: Option<String>,
    /// Its chapters, in their order. Only the first can be without a title: the pages before any chapter.
    pub chapters: Vec<Chapter>,
}

/// A chapter.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Chapter {
    /// What it is called; `None` for pages before any chapter.
    pub title: Option<Spanned<String>>,
    /// Its pages.
    pub pages: Vec<Page>,
    /// How many of its pages could not be read or followed, which was reported.
    pub lost: usize,
}

/// A recipe of the book.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Page {
    /// The recipe.
    pub recipe: SourceId,
    /// The sizes at which it stands, the main one first; empty: as it is written.
    pub sizes: Vec<Spanned<Size>>,
    /// The way that is told first: every choice at what the page says, else at its default.
    pub selection: Selection,
    /// The choices that the page decides: their other options are not in the book.
    pub decided: Vec<Key>,
    /// Whether an option was asked for that the recipe does not have, which was reported.
    pub is_unclear: bool,
    /// Its path, where a file says it.
    pub place: Option<Span>,
}

/// At what size a recipe stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Size {
    /// So many pieces.
    Pieces(Number),
    /// So much of what the recipe makes.
    Total(Mass),
    /// So many times the batch as written.
    Times(Number),
}

impl Book {
    /// Its pages, over all chapters.
    pub fn pages(&self) -> impl Iterator<Item = &Page> {
        self.chapters.iter().flat_map(|chapter| &chapter.pages)
    }
}
