//! The run sheet of a plan: its rows with what goes in at each of them, and what to be careful of.

use crate::figures::card::{GoesIn, Portion};
use crate::make::work::Work;
use crate::measure::number::Overflow;
use crate::measure::show::Units;
use crate::plan::explain::{Contact, gluten_after_wheat};
use crate::plan::schedule::Schedule;

/// A plan as somebody works by it.
#[derive(Debug, Clone)]
pub struct RunSheet {
    /// The plan.
    pub plan: Schedule,
    /// For each of its rows, what goes in.
    pub portions: Vec<Vec<Portion>>,
    /// What would bring gluten into what has none.
    pub contacts: Vec<Contact>,
}

impl RunSheet {
    /// The run sheet of a plan for some work.
    ///
    /// # Errors
    /// When an amount leaves the range of exact numbers.
    pub fn of(plan: Schedule, work: &Work, units: Units) -> Result<RunSheet, Overflow> {
        let goes_in: Vec<GoesIn<'_>> = work.batches.iter().map(|batch| GoesIn::of(batch, units)).collect();
        let mut portions = Vec::with_capacity(plan.rows.len());
        for row in &plan.rows {
            let goes_in = goes_in.get(row.batch);
            portions.push(goes_in.map_or(Ok(Vec::new()), |goes_in| goes_in.at(row.at, row.share))?);
        }
        let contacts = gluten_after_wheat(&plan, work);
        Ok(RunSheet { plan, portions, contacts })
    }
}
