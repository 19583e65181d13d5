//! A batch: one recipe at the size in which it is made, and for whom.

use crate::language::syntax::Moment;
use crate::make::apart::Apart;
use crate::make::loads;
use crate::make::order::{InStore, Order, number_in};
use crate::make::size::Limit;
use crate::make::store::{self, Taken};
use crate::make::use_up::Reweighed;
use crate::measure::number::{Number, Overflow};
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
    /// The same of what is made of it, when the rest comes from the store.
    pub grown: Number,
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
    /// What it takes from the store.
    pub from_store: Vec<Taken>,
    /// Where it goes on apart, for a part that is wanted at several times.
    pub apart: Option<Apart>,
}

impl Batch {
    /// A batch for one order, with all its parts.
    pub fn of(order: &Order, number: usize) -> Batch {
        Batch {
            recipe: Arc::clone(&order.recipe),
            formula: order.made().clone(),
            factor: order.factor,
            grown: order.grown(),
            limit: order.limit.clone(),
            by_base_of: order.by_base_of,
            reweighed: order.reweighed.clone(),
            ready: order.ready,
            made_for: Vec::new(),
            orders: vec![number],
            from_store: Vec::new(),
            apart: None,
        }
    }

    /// Notes what it takes from the store: what its lines say, and what the orders that it is made for found there.
    pub(super) fn note_store(&mut self, found: &[(&Order, &InStore)]) {
        let counted = |one: &(PartId, Taken)| found.iter().any(|(order, _)| is_counted(order, &self.recipe, one.0));
        let lines = store::taken(&self.recipe, &self.formula);
        let lines: Vec<Taken> = lines.into_iter().filter(|one| !counted(one)).map(|(_, taken)| taken).collect();
        self.from_store = lines;
        for (order, in_store) in found {
            for (id, mass, made) in &in_store.taken {
                self.from_store.extend(store::found(order, *id, *mass, *made));
            }
        }
    }

    /// How many loads a step takes: those for every time, where it is done for each by itself.
    ///
    /// # Errors
    /// When a number leaves the range of exact numbers.
    pub fn loads_of(&self, part: PartId, step: usize) -> Result<i64, Overflow> {
        let count = |formula: &Formula| match formula.part(part) {
            Some(solved) => loads::count((&self.recipe, part), solved, formula, step, &self.recipe.kitchen),
            None => Ok(1),
        };
        match self.apart.as_ref().filter(|apart| apart.is_own(part, step)) {
            Some(apart) => {
                let mut all = 0_i64;
                for turn in &apart.turns {
                    all = all.saturating_add(count(&apart.formula_of(turn, &self.formula)?)?);
                }
                Ok(all)
            }
            None => count(&self.formula),
        }
    }

    /// The parts that are made in it, in the order of the recipe.
    pub fn made_parts(&self) -> impl Iterator<Item = PartId> + '_ {
        let made = |id: &PartId| self.formula.is_made(*id);
        self.recipe.parts().map(|(id, _)| id).filter(made)
    }
}

/// Whether it is known of a part of a batch's recipe how much the store has of it.
fn is_counted(order: &Order, recipe: &Recipe, id: PartId) -> bool {
    let here = number_in(&order.recipe, recipe, id);
    here.is_some_and(|id| order.in_store.counted.contains(&id))
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
    /// Whether it is taken in the pieces into which the part is divided, and not by weight.
    pub in_pieces: bool,
    /// For when, where one dough is for several times.
    pub ready: Option<Moment>,
}

/// A part of a batch.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct BatchPart {
    /// Which of [`Work::batches`].
    pub batch: usize,
    /// Its number in the batch's recipe.
    pub part: PartId,
}
