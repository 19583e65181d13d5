//! What is made, and of which size: pieces, sorts of them, a weight, what it is baked in.

use crate::language::syntax::Name;
use crate::measure::pan::Pan;
use crate::measure::quantity::{Count, Mass, Proportion};
use crate::text::source::Span;

/// `divide 24 x 78 g, loss 1.5 %`
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Divide {
    /// How many pieces.
    pub count: Count,
    /// What one weighs before baking.
    pub each: Mass,
    /// What sticks, trims and evaporates.
    pub loss: Option<Proportion>,
    /// The line.
    pub span: Span,
}

/// `24 x 450 g small`, where a part is divided into pieces of several sizes. Its [`Divide`] holds all pieces together, at what
/// one weighs on average.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Sort {
    /// What they are called.
    pub name: Name,
    /// How many pieces.
    pub count: Count,
    /// What one weighs before baking.
    pub each: Mass,
}

/// `makes 1.1 kg, loss 23 %`
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct MakesMass {
    /// What comes out.
    pub mass: Mass,
    /// What is lost.
    pub loss: Option<Proportion>,
    /// Whether it is everything alike that is lost, and not water.
    pub alike: bool,
    /// The line.
    pub span: Span,
}

/// What the head says is made.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum HeadMakes {
    /// So many of something.
    Pieces {
        /// How many.
        count: Count,
        /// Of what.
        noun: Name,
        /// The line.
        span: Span,
    },
    /// So much.
    Mass(MakesMass),
}

/// `tin 23 cm x 13 cm x 7 cm`
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct BakedIn {
    /// The tin, round or sheet.
    pub pan: Pan,
    /// The clause.
    pub span: Span,
}
