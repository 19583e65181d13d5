//! What a recipe says for those who read it at home: who wrote it, where it is looked for, pictures, what may stand in.

use crate::language::syntax::Name;
use crate::measure::value::Said;
use crate::model::larder::Facts;
use crate::text::source::Span;
use std::sync::Arc;

/// What the head says for readers, beside its story, which is one of the recipe's texts.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Published {
    /// Pictures of the whole.
    pub pictures: Vec<Picture>,
    /// Who wrote it.
    pub by: Option<String>,
    /// The words under which it is looked for.
    pub filed_under: Vec<Name>,
}

/// A picture and what is seen on it.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub struct Picture {
    /// The path as it is written.
    pub path: String,
    /// What is seen on it, for those who do not see it.
    pub words: String,
    /// The path, by which [`crate::model::project::Project::picture`] knows its file.
    pub span: Span,
}

/// A kind of picture that is read.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum PictureKind {
    /// Joint Photographic Experts Group, ISO/IEC 10918-1.
    Jpeg,
    /// Portable Network Graphics, ISO/IEC 15948.
    Png,
}

/// A picture's file, as far as its beginning tells.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PictureFile {
    /// Its path without links.
    pub path: std::path::PathBuf,
    /// What it is.
    pub kind: PictureKind,
}

/// Something that may stand in for an ingredient.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct StandIn {
    /// What.
    pub name: Name,
    /// How much for all of the ingredient's amount; other ways it was said behind it. Nothing where that was reported.
    pub amount: Vec<Said>,
    /// What then is otherwise.
    pub words: Option<String>,
    /// What the larder knows of it.
    pub facts: Option<Arc<Facts>>,
}
