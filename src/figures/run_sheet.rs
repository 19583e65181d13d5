//! The run sheet of a plan: its rows with what goes in at each of them, what to be careful of, and how the day stands.

use crate::figures::card::{DivideCard, GoesIn, Portion};
use crate::make::work::Work;
use crate::measure::number::Overflow;
use crate::measure::show::{self, Units};
use crate::plan::explain::{Contact, gluten_after_wheat};
use crate::plan::problem::{Minute, Rule};
use crate::plan::schedule::Schedule;

/// A plan as somebody works by it.
#[derive(Debug, Clone)]
pub struct RunSheet {
    /// The plan.
    pub plan: Schedule,
    /// For each of its rows, what goes in.
    pub portions: Vec<Vec<Portion>>,
    /// For each of its rows that makes pieces of a part, what they weigh.
    pub divides: Vec<Option<DivideCard>>,
    /// What would bring gluten into what has none.
    pub contacts: Vec<Contact>,
    /// How the day stands, where some of it is done.
    pub now: Option<Now>,
    /// What was taken from the bakes in place of what is written, a sentence each.
    pub as_baked: Vec<String>,
}

/// How far a row is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum State {
    /// Nobody has begun it.
    Ahead,
    /// It has begun and not ended.
    Running,
    /// It is over.
    Done,
}

impl State {
    /// As programs read it.
    pub fn word(self) -> &'static str {
        match self {
            State::Ahead => "ahead",
            State::Running => "running",
            State::Done => "done",
        }
    }
}

/// How the day stands.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Now {
    /// The moment, in minutes from the plan's start.
    pub minute: Minute,
    /// For each row, how far it is.
    pub states: Vec<State>,
    /// Orders that are late, by their number in the plan, and by how many minutes.
    pub late: Vec<(usize, Minute)>,
    /// Orders of which one would have to be left out for the rest to be in time; the least work first.
    pub leave_out: Vec<usize>,
    /// Limits that are broken, and those that come next.
    pub limits: Vec<NextLimit>,
    /// Rows that no log names, but that must be over.
    pub assumed: Vec<usize>,
}

/// A limit on how long something may go on or stand that runs now.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct NextLimit {
    /// Why there is one.
    pub rule: Rule,
    /// The row from which it counts.
    pub from: usize,
    /// The row that has to begin by then.
    pub to: usize,
    /// The moment, in minutes from the plan's start.
    pub by: Minute,
}

impl RunSheet {
    /// What goes in at a row.
    pub fn portions_of(&self, row: usize) -> &[Portion] {
        self.portions.get(row).map_or(&[], Vec::as_slice)
    }

    /// How many pieces there are in a row and what one weighs, as printed: `50 pieces of 88 g`, `12 × 450 g small and 6 × 900 g
    /// large`; nothing where they are not counted.
    pub fn pieces_of(&self, row: usize) -> Option<String> {
        let count = self.plan.rows.get(row)?.pieces?;
        let pieces = show::pieces(count);
        Some(match self.divides.get(row).and_then(Option::as_ref) {
            Some(divide) if divide.sorts.is_empty() => format!("{pieces} of {}", divide.each_shown),
            // Which of them are in one load of several is not said.
            Some(divide) if divide.pieces == count => divide.shown(),
            _ => pieces.to_string(),
        })
    }

    /// The run sheet of a plan for some work.
    ///
    /// # Errors
    /// When an amount leaves the range of exact numbers.
    pub fn of(plan: Schedule, now: Option<Now>, work: &Work, units: Units) -> Result<RunSheet, Overflow> {
        let goes_in: Vec<GoesIn<'_>> = work.batches.iter().map(|batch| GoesIn::of(batch, units)).collect();
        let (mut portions, mut divides) = (Vec::with_capacity(plan.rows.len()), Vec::with_capacity(plan.rows.len()));
        for row in &plan.rows {
            let goes_in = goes_in.get(row.batch);
            portions.push(goes_in.map_or(Ok(Vec::new()), |goes_in| goes_in.at(row.at, row.share))?);
            divides.push(goes_in.map_or(Ok(None), |goes_in| goes_in.divide(row.at))?);
        }
        let contacts = gluten_after_wheat(&plan, work);
        Ok(RunSheet { plan, portions, divides, contacts, now, as_baked: Vec::new() })
    }
}
