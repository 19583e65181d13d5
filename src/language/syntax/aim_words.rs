//! An aim as it is written: a figure, how much it is to be, and of what.

use super::{Name, Quantity, WrittenNumber};
use crate::text::source::Spanned;

/// Which side of its amount a figure may lie on.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum AimBound {
    /// It is the amount, or within the range.
    Is,
    /// `at least`
    AtLeast,
    /// `at most`
    AtMost,
}

/// How much a figure is to be.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub enum AimAmount {
    /// A share, a weight, a time.
    Measured(Quantity),
    /// `320 kcal`, `1340 kJ`; the other end of a range.
    Energy(WrittenNumber, Option<WrittenNumber>, bool),
    /// A bare number, possibly with the name of a money: what something costs.
    Plain(WrittenNumber, Option<WrittenNumber>, Option<Name>),
}

/// What a figure is counted on.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum AimOf {
    /// `of flour`
    Flour,
    /// `of total`
    Total,
    /// `of water`
    Water,
    /// `each`
    Each,
    /// `per 100 g`
    Per100g,
}

impl AimOf {
    /// As it is written.
    pub fn words(self) -> &'static str {
        match self {
            AimOf::Flour => "of flour",
            AimOf::Total => "of total",
            AimOf::Water => "of water",
            AimOf::Each => "each",
            AimOf::Per100g => "per 100 g",
        }
    }
}

/// `aim sugar at most 8 % of total`
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub struct AimLine {
    /// The figure, or an ingredient's name.
    pub figure: Name,
    /// Which side.
    pub bound: AimBound,
    /// How much.
    pub amount: AimAmount,
    /// Of what, if said.
    pub of: Option<Spanned<AimOf>>,
}
