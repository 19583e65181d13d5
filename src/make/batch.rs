//! A batch: one recipe at the size in which it is made, and for whom.

use crate::language::syntax::Moment;
use crate::make::order::Order;
use crate::make::size::Limit;
use crate::make::use_up::Reweighed;
use crate::measure::number::Number;
use crate::measure::quantity::Mass;
use crate::model::recipe::{PartId, Recipe};
use crate::solve::formula::Formula;
use std::sync::Arc;

/// One recipe at the size in which it is made, or those parts of it that are made together.
#[derive(Debug, Clone)]
pub struct Batch {
    /// What is made.
    pub recipe: Arc<Recipe>,
    /// At the size in which it is made. Parts that are made in another batch are not `is_made`; of them it holds what these
    /// orders need.
    pub formula: Formula,
    /// How many times the recipe as written.
    pub factor: Number,
    /// What runs out first, for a batch made of what there is.
    pub limit: Option<Limit>,
    /// The part whose base it was scaled by, if it was.
    pub by_base_of: Option<PartId>,
    /// The parts whose pieces weigh something else, so that all of an ingredient is used.
    pub reweighed: Vec<Reweighed>,
    /// For when, if it is an order with a time.
    pub ready: Option<Moment>,
    /// For a batch that others draw on: who takes how much.
    pub made_for: Vec<MadeFor>,
    /// The orders that it is made for, by their number in [`Work::orders`].
    pub orders: Vec<usize>,
}

impl Batch {
    /// A batch for one order, with all its parts.
    pub fn of(order: &Order, number: usize) -> Batch {
        Batch {
            recipe: Arc::clone(&order.recipe),
            formula: order.formula.clone(),
            factor: order.factor,
            limit: order.limit.clone(),
            by_base_of: order.by_base_of,
            reweighed: order.reweighed.clone(),
            ready: order.ready,
            made_for: Vec::new(),
            orders: vec![number],
        }
    }

    /// The parts that are made in it, in the order of the recipe.
    pub fn made_parts(&self) -> impl Iterator<Item = PartId> + '_ {
        let made = |id: &PartId| self.formula.part(*id).is_some_and(|part| part.is_made);
        self.recipe.parts().map(|(id, _)| id).filter(made)
    }
}

/// Who takes how much of a batch.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct MadeFor {
    /// The recipe that draws on it, or the recipe itself where it is also ordered.
    pub recipe: String,
    /// Which part of the batch.
    pub part: String,
    /// How much.
    pub mass: Mass,
}

/// A part of a batch.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct BatchPart {
    /// Which of [`Work::batches`].
    pub batch: usize,
    /// Its number in the batch's recipe.
    pub part: PartId,
}
