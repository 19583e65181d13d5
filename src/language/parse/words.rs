//! The words that begin lines.

use crate::language::syntax::FileKind;

/// The words that can begin a line of a kitchen or a larder.
const KITCHEN_WORDS: &[&str] = &[
    "kitchen",
    "ingredient",
    "use",
    "note",
    "caution",
    "credit",
    "cooks",
    "open",
    "scale",
    "fine",
    "weighs",
    "one",
    "water",
    "fat",
    "salt",
    "sugar",
    "protein",
    "carbohydrate",
    "fibre",
    "acid",
    "yield",
    "energy",
    "is",
    "counts",
    "not",
    "raw",
    "ready",
    "also",
    "contains",
    "costs",
    "source",
    "section",
];

/// The first word of a line, without a colon or comma behind it.
pub(super) fn first_word(said: &str) -> &str {
    let end = said.find(|c: char| c.is_whitespace() || matches!(c, ':' | ',' | '"' | '.')).unwrap_or(said.len());
    said.get(..end).unwrap_or("")
}

/// Every word that can begin a line of a file of this kind, for 'did you mean'.
pub(super) fn first_words(kind: FileKind) -> &'static [&'static str] {
    match kind {
        FileKind::Recipe => &[
            "recipe", "makes", "use", "choose", "measures", "note", "caution", "credit", "part", "percent", "per",
            "divide", "keeps", "spare", "desired",
        ],
        FileKind::Kitchen => KITCHEN_WORDS,
        FileKind::Day => &["day", "use", "ready", "make", "note", "caution", "credit"],
    }
}
