//! What the head line of a step says, as it was written.

use super::{Name, Quantity, WrittenNumber};
use crate::text::source::Spanned;

/// Who is busy during a step.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum StepKind {
    /// Somebody works the whole time.
    Hands,
    /// It runs by itself but somebody stays in reach.
    Tend,
    /// Nobody is needed.
    Wait,
}

impl StepKind {
    /// The word of the language.
    pub fn word(self) -> &'static str {
        match self {
            StepKind::Hands => "hands",
            StepKind::Tend => "tend",
            StepKind::Wait => "wait",
        }
    }
}

/// `then 200 C after 10 min`
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub struct LaterHeat {
    /// How hot from then on, said once or several times.
    pub at: Vec<Quantity>,
    /// How long after the step's start.
    pub after: Quantity,
}

/// What stands behind a step's time, after a comma.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub enum StepClause {
    /// `each`
    Each,
    /// `12 at a time`
    AtATime(WrittenNumber),
    /// `using oven at 190 C = 375 F then 170 C after 10 min`
    Using(Name, Vec<Quantity>, Vec<LaterHeat>),
    /// `at 24 C`
    At(Vec<Quantity>),
    /// `up to 2 days`
    UpTo(Quantity),
    /// `45 and 90 min into STEP`
    Into(Vec<Quantity>, Name),
    /// `during STEP`
    During(Name),
    /// `before STEP`
    Before(Name),
    /// `after STEP`
    After(Name),
    /// `straight after STEP`
    StraightAfter(Name),
    /// `within 10 min after STEP`
    Within(Quantity, Name),
    /// `station NAME`
    Station(Name),
    /// `people 2`
    People(WrittenNumber),
    /// `shared by 3`
    SharedBy(WrittenNumber),
    /// `may stand 30 min`
    MayStand(Quantity),
    /// Something that was reported.
    Broken,
}

/// The head line of a step.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub struct StepLine {
    /// Its name.
    pub name: Name,
    /// Who is busy.
    pub kind: Spanned<StepKind>,
    /// How long.
    pub duration: Quantity,
    /// What else.
    pub clauses: Vec<Spanned<StepClause>>,
}
