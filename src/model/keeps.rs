//! How long a part keeps, and how cold.

use crate::measure::quantity::Duration;
use crate::measure::temperature::Temperature;
use crate::measure::value::Said;
use crate::model::cold::{is_cold, is_freezer};
use crate::text::source::Span;

/// How a part is kept.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum KeptAt {
    /// In the refrigerator.
    Chilled,
    /// In the freezer.
    Frozen,
    /// At a temperature.
    At(Temperature),
    /// Not said.
    Unsaid,
}

/// `keeps 2 days, chilled`
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Keeps {
    /// Longest time between the part's end and its use.
    pub time: Duration,
    /// How.
    pub how: KeptAt,
    /// How warm, as it was written, in one scale or both.
    pub said: [Option<Said>; 2],
    /// The line.
    pub span: Span,
}

impl KeptAt {
    /// Whether it is kept in a refrigerator, said by the word or by the temperature.
    pub fn is_chilled(self) -> bool {
        match self {
            KeptAt::Chilled => true,
            KeptAt::At(at) => is_cold(at) && !is_freezer(at),
            KeptAt::Frozen | KeptAt::Unsaid => false,
        }
    }

    /// Whether it is kept frozen, said by the word or by the temperature.
    pub fn is_frozen(self) -> bool {
        match self {
            KeptAt::Frozen => true,
            KeptAt::At(at) => is_freezer(at),
            KeptAt::Chilled | KeptAt::Unsaid => false,
        }
    }

    /// Whether it is kept in the cold, chilled or frozen.
    pub fn is_cold(self) -> bool {
        self.is_chilled() || self.is_frozen()
    }
}

impl Keeps {
    /// How warm it is kept, where that is said in degrees.
    pub fn temperature(&self) -> Option<Temperature> {
        match self.how {
            KeptAt::At(at) => Some(at),
            _ => None,
        }
    }
}
