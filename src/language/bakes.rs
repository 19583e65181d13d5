//! A log of bakes as it is written: which recipe, and for each bake when which step began and ended.

use crate::language::syntax::Name;
use crate::measure::quantity::Duration;
use crate::text::source::{Span, Spanned};
use jiff::civil::{Date, Time};

/// A log.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Log {
    /// The path of the recipe; `None` where no line says it, which was reported.
    pub of: Option<Spanned<String>>,
    /// The bakes, as they stand in the file.
    pub bakes: Vec<Bake>,
}

/// One bake.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Bake {
    /// The day on which it began.
    pub date: Spanned<Date>,
    /// The time at which it began, where that is said.
    pub time: Option<Time>,
    /// What was measured of its steps, as it stands in the file.
    pub steps: Vec<Ran>,
}

/// A step and when it was done.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Ran {
    /// The step as it is called, possibly with ` of ` and its part.
    pub step: Name,
    /// When.
    pub time: Spanned<Took>,
    /// Which load, where that is said.
    pub load: Option<Spanned<i64>>,
}

/// When a step was done.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Took {
    /// From the one time of the day to the other.
    Between(Time, Time),
    /// Since then, and still running.
    Since(Time),
    /// So long; when is not said.
    Lasted(Duration),
}

impl Ran {
    /// The ways in which the name can be a step and its part: all of it is the step's name, or what stands before one of its
    /// ` of `s.
    pub fn readings(&self) -> Vec<(&str, Option<&str>)> {
        let said: &str = &self.step.text;
        let cuts = said.match_indices(" of ").map(|(at, of)| (at, at + of.len()));
        let cut = cuts.filter_map(|(end, begin)| Some((said.get(..end)?.trim(), Some(said.get(begin..)?.trim()))));
        std::iter::once((said, None)).chain(cut).collect()
    }

    /// The line, from its name to its time.
    pub fn span(&self) -> Span {
        self.step.span.to(self.time.span)
    }
}
