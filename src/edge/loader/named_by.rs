//! By which line of a file another one is named.

use crate::language::syntax::FileKind;

/// By which line a file names another one.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum NamedBy {
    /// `use` of a recipe or a kitchen.
    Use,
    /// `make` of a day.
    Make,
    /// `bakes of` a log.
    BakesOf,
    /// `page` of a book.
    Page,
    /// `stock`: a list of what there is.
    Stock,
    /// `picture`.
    Picture,
}

impl NamedBy {
    /// How a file of that kind names a recipe.
    pub fn in_file(kind: FileKind) -> NamedBy {
        match kind {
            FileKind::Day => NamedBy::Make,
            FileKind::Bakes => NamedBy::BakesOf,
            FileKind::Book => NamedBy::Page,
            FileKind::Recipe | FileKind::Kitchen => NamedBy::Use,
        }
    }

    /// The words of the language.
    pub fn words(self) -> &'static str {
        match self {
            NamedBy::Use => "use",
            NamedBy::Make => "make",
            NamedBy::BakesOf => "bakes of",
            NamedBy::Page => "page",
            NamedBy::Stock => "stock",
            NamedBy::Picture => "picture",
        }
    }

    /// Under which check it is told that the file is not there.
    pub fn check(self) -> &'static str {
        if self == NamedBy::Picture { "missing-picture" } else { "missing-use" }
    }

    /// What is done with the file.
    pub fn done(self) -> &'static str {
        match self {
            NamedBy::BakesOf => "read",
            NamedBy::Picture => "shown",
            NamedBy::Use | NamedBy::Make | NamedBy::Page | NamedBy::Stock => "used",
        }
    }

    /// How the name of the file may end; the first as an example.
    pub fn endings(self) -> &'static [&'static str] {
        if self == NamedBy::Picture { &[".jpg", ".jpeg", ".png"] } else { &[".miche"] }
    }

    /// Whether a file of that name may be meant.
    pub fn fits(self, name: &str) -> bool {
        let name = name.to_ascii_lowercase();
        self.endings().iter().any(|ending| name.ends_with(ending))
    }
}
