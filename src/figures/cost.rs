//! What a batch costs, with the minutes of work that its timeline says.

pub use crate::make::cost::{Ageing, Cost, LineCost, NoCost, OldPrice, PartCost, TotalCost, together};
use crate::model::larder::Larder;
use crate::model::recipe::Recipe;
use crate::plan::timeline;
use crate::solve::formula::Formula;

/// Works out what a batch costs; `formula` is the batch's, `day` the larder of the day in which it is made.
///
/// # Errors
/// When prices are in different moneys.
pub fn of(recipe: &Recipe, formula: &Formula, day: Option<&Larder>) -> Result<Cost, NoCost> {
    crate::make::cost::of(recipe, formula, timeline::of(recipe, formula)?.hands_minutes, day)
}
