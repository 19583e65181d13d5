//! What lines say for the readers of a recipe: texts, pictures, and what may stand in for an ingredient.

use super::{Name, Quantity};
use crate::text::source::Spanned;

/// `picture "pictures/buns.jpg", Twelve buns on a blue tray`
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub struct PictureLine {
    /// The file, relative to the one it is written in.
    pub path: Spanned<String>,
    /// What is seen on it, for those who do not see it; nothing was reported.
    pub words: Option<Spanned<String>>,
}

/// `instead: margarine 100 g, less rich`
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub struct StandInClause {
    /// What stands in.
    pub name: Name,
    /// How much of it, for all of the ingredient's amount.
    pub amount: Vec<Quantity>,
    /// What then is otherwise.
    pub words: Option<String>,
}

/// Which kind of free text a line is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum TextKind {
    /// `note`
    Note,
    /// `caution`
    Caution,
    /// `credit`
    Credit,
    /// `story`: what a reader is told first.
    Story,
}

impl TextKind {
    /// The word that such a line begins with.
    pub fn word(self) -> &'static str {
        match self {
            TextKind::Note => "note",
            TextKind::Caution => "caution",
            TextKind::Credit => "credit",
            TextKind::Story => "story",
        }
    }
}
