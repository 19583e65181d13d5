//! An order: one recipe, how much of it, and for when.

use crate::language::syntax::Moment;
use crate::make::size::{self, Impossible, Limit, Size};
use crate::make::use_up::{Reweighed, use_up};
use crate::measure::number::Number;
use crate::measure::show;
use crate::model::recipe::{HeadMakes, PartId, Recipe};
use crate::solve::formula::Formula;
use crate::text::source::Span;
use std::sync::Arc;

/// One recipe that is to be made.
#[derive(Debug, Clone)]
pub struct Order {
    /// The recipe, with its choices made.
    pub recipe: Arc<Recipe>,
    /// Its amounts, at the size that is wanted.
    pub formula: Formula,
    /// How many times the recipe as written.
    pub factor: Number,
    /// What runs out first, for an order made of what there is.
    pub limit: Option<Limit>,
    /// The part whose base it was scaled by, if it was.
    pub by_base_of: Option<PartId>,
    /// The parts whose pieces weigh something else, so that all of an ingredient is used.
    pub reweighed: Vec<Reweighed>,
    /// For when, if a file says so.
    pub ready: Option<Moment>,
    /// The line that asks for it, if a file does.
    pub span: Option<Span>,
}

impl Order {
    /// An order of a recipe in some size; `written` is the formula as it is written.
    ///
    /// # Errors
    /// When it cannot be made in that size.
    pub fn sized(recipe: Recipe, written: &Formula, size: &Size) -> Result<Order, Impossible> {
        let (factor, limit) = size::factor(&recipe, written, size)?;
        let (formula, reweighed) = match size {
            Size::UseUp(_) => use_up(&recipe, written, factor, size::step(&recipe, written))?,
            _ => (written.times(factor)?, Vec::new()),
        };
        let by_base_of = match size {
            Size::Base(_) => size::base_of(&recipe, written).map(|(part, _)| part),
            _ => None,
        };
        Ok(Order { factor, limit, by_base_of, reweighed, ..Order::of(recipe, formula) })
    }

    /// An order of a recipe whose formula already has its size.
    pub fn of(recipe: impl Into<Arc<Recipe>>, formula: Formula) -> Order {
        Order {
            recipe: recipe.into(),
            formula,
            factor: Number::ONE,
            limit: None,
            by_base_of: None,
            reweighed: Vec::new(),
            ready: None,
            span: None,
        }
    }

    /// What is wanted, as printed: `48 buns`, or a weight.
    pub fn wanted(&self) -> String {
        match (&self.recipe.makes, self.formula.pieces) {
            (Some(HeadMakes::Pieces { noun, .. }), Some(pieces)) => format!("{} {noun}", show::number(pieces.value())),
            (_, Some(pieces)) => show::pieces(pieces.value()).to_string(),
            _ => {
                let made = self.recipe.final_part().and_then(|id| self.formula.part(id)?.makes);
                made.map(show::mass_plain).unwrap_or_default().to_string()
            }
        }
    }

    /// The parts that are handed over: those that no other part draws on.
    pub fn finals(&self) -> impl Iterator<Item = PartId> + '_ {
        let ends =
            self.recipe.parts().filter(|(id, part)| part.from.is_none() && self.recipe.users(*id).next().is_none());
        ends.map(|(id, _)| id)
    }
}
