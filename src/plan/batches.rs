//! What is made for some orders: every part of every order, and a part of a used recipe once for all that draw on it.

use crate::measure::number::Overflow;
use crate::measure::quantity::{Count, Mass};
use crate::model::recipe::{Part, PartId, Recipe};
use crate::solve::formula::{Formula, SolvedPart};
use crate::text::source::{SourceId, Span};
use std::collections::HashMap;
use std::sync::Arc;

/// One recipe that is to be made.
#[derive(Debug, Clone)]
pub struct Order {
    /// The recipe.
    pub recipe: Arc<Recipe>,
    /// Its amounts, scaled to what is wanted.
    pub formula: Formula,
    /// What is wanted, as printed: `48 buns`.
    pub wanted: String,
    /// The line that asks for it, if a file does.
    pub span: Option<Span>,
}

/// A part that is made at one time.
#[derive(Debug, Clone, PartialEq)]
pub struct Batch {
    /// The first order that needs it.
    pub order: usize,
    /// Its number in that order's recipe.
    pub part: PartId,
    /// Its amounts, for all orders together.
    pub solved: SolvedPart,
}

/// Everything that is made.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Batches {
    /// The batches, in the order of the orders.
    pub list: Vec<Batch>,
    by_part: HashMap<(usize, PartId), usize>,
}

impl Batches {
    /// What is made for the orders.
    ///
    /// # Errors
    /// When a number leaves the range of exact numbers.
    pub fn of(orders: &[Order]) -> Result<Batches, Overflow> {
        let mut batches = Batches::default();
        let mut shared: HashMap<(SourceId, PartId), usize> = HashMap::new();
        for (at, order) in orders.iter().enumerate() {
            for (id, part) in order.recipe.parts() {
                let Some(solved) = order.formula.part(id).filter(|part| part.is_made) else { continue };
                let key = origin(&order.recipe, part);
                if let Some(known) = key.and_then(|key| shared.get(&key)).copied() {
                    if let Some(batch) = batches.list.get_mut(known) {
                        add(&mut batch.solved, solved)?;
                    }
                    batches.by_part.insert((at, id), known);
                    continue;
                }
                let number = batches.list.len();
                batches.list.push(Batch { order: at, part: id, solved: solved.clone() });
                batches.by_part.insert((at, id), number);
                if let Some(key) = key {
                    shared.insert(key, number);
                }
            }
        }
        Ok(batches)
    }

    /// The batch in which an order's part is made; `None` when it is not made at all.
    pub fn of_part(&self, order: usize, part: PartId) -> Option<usize> {
        self.by_part.get(&(order, part)).copied()
    }
}

/// The file and number of a part that comes from a used recipe.
fn origin(recipe: &Recipe, part: &Part) -> Option<(SourceId, PartId)> {
    let foreign = part.foreign?;
    Some((recipe.used.get(foreign.recipe)?.recipe.source, foreign.part))
}

fn add(sum: &mut SolvedPart, more: &SolvedPart) -> Result<(), Overflow> {
    let masses = |one: Option<Mass>, other: Option<Mass>| match (one, other) {
        (Some(one), Some(other)) => one.plus(other).map(Some),
        _ => Ok(None),
    };
    let counts = |one: Option<Count>, other: Option<Count>| match (one, other) {
        (Some(one), Some(other)) => one.plus(other).map(Some),
        _ => Ok(None),
    };
    sum.goes_in = masses(sum.goes_in, more.goes_in)?;
    sum.makes = masses(sum.makes, more.makes)?;
    sum.needs = masses(sum.needs, more.needs)?;
    sum.base = masses(sum.base, more.base)?;
    sum.pieces = counts(sum.pieces, more.pieces)?;
    for (line, other) in sum.lines.iter_mut().zip(&more.lines) {
        line.mass = masses(line.mass, other.mass)?;
        line.final_mix = masses(line.final_mix, other.final_mix)?;
    }
    Ok(())
}
