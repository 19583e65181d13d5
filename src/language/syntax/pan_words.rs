//! Pans and tins, as they are written.

use super::Quantity;
use crate::text::source::Span;

/// Which kind of pan something is baked in or on.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum PanKind {
    /// A box, or a tin of which the volume is said.
    Tin,
    /// A round, with or without a height.
    Round,
    /// A sheet.
    Sheet,
}

impl PanKind {
    /// The word of the language.
    pub fn word(self) -> &'static str {
        match self {
            PanKind::Tin => "tin",
            PanKind::Round => "round",
            PanKind::Sheet => "sheet",
        }
    }
}

/// `tin 23 cm x 13 cm x 7 cm`
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub struct WrittenPan {
    /// Which kind.
    pub kind: PanKind,
    /// Its measures.
    pub measures: Vec<Quantity>,
    /// Where.
    pub span: Span,
}
