//! What a bake measures: the kinds of figures, and one of them beside what the formula says.

use crate::measure::number::Number;
use crate::model::reference::StepRef;
use std::sync::Arc;

/// What is measured.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Kind {
    /// How long a step takes, minutes; of one piece, where the step's time is for one.
    Time,
    /// How warm the dough is when it leaves a step, °C.
    LeftAt,
    /// By how much the mixer warms it, as the handbook counts it, °C.
    Friction,
    /// What a step comes to, grams of all of it.
    All,
    /// How many pieces it comes to.
    Pieces,
    /// What one of them weighs, grams.
    Each,
    /// What is lost of what went into it, percent.
    Loss,
}

impl Kind {
    /// The word for programs.
    pub fn word(self) -> &'static str {
        match self {
            Kind::Time => "time",
            Kind::LeftAt => "left-at",
            Kind::Friction => "friction",
            Kind::All | Kind::Pieces | Kind::Each => "came-to",
            Kind::Loss => "loss",
        }
    }

    /// Its unit.
    pub fn unit(self) -> &'static str {
        match self {
            Kind::Time => "min",
            Kind::LeftAt | Kind::Friction => "°C",
            Kind::All | Kind::Each => "g",
            Kind::Pieces => "pieces",
            Kind::Loss => "%",
        }
    }
}

/// One measurement.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Measured {
    /// What is measured.
    pub kind: Kind,
    /// Of which step.
    pub at: StepRef,
    /// The name of its part.
    pub part: Arc<str>,
    /// Its own.
    pub step: Arc<str>,
    /// The load, where it was said.
    pub load: Option<i64>,
    /// What was measured, in the kind's unit.
    pub value: Number,
    /// What the formula says for a batch of this size: of a range the longer end.
    pub expected: Option<Number>,
    /// The same measurement for the batch as it is written, so that bakes of any size go together.
    pub comparable: Number,
}
