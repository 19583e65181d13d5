//! What is made for some orders, worked out once: which parts, in which batch, how much of each, for whom.
//!
//! Cards, lists, plans, costs and labels ask here. A batch is one recipe at one size; a part that several orders need is made
//! once for all of them, in a batch of its own (`share`).

use crate::language::syntax::Moment;
use crate::make::batch::{Batch, BatchPart, MadeFor};
use crate::make::one_bath;
use crate::make::order::{InStore, Order, number_in};
use crate::make::share;
use crate::measure::number::{Number, Overflow};
use crate::measure::quantity::Mass;
use crate::model::recipe::{PartId, Recipe, Refers};
use crate::model::ways;
use crate::solve::formula::Formula;
use crate::solve::formula::pieces_in_liquid::with_its_liquid;
use std::collections::HashMap;

/// Everything that is made for some orders.
#[derive(Debug, Clone, Default)]
pub struct Work {
    /// What was asked for.
    pub orders: Vec<Order>,
    /// The batches: those that others draw on before those that draw on them, then the orders' own.
    pub batches: Vec<Batch>,
    /// For each order, where the parts of its recipe are made.
    by_order: Vec<HashMap<PartId, BatchPart>>,
}

impl Work {
    /// What is made for the orders.
    ///
    /// # Errors
    /// When an amount leaves the range of exact numbers.
    pub fn of(orders: Vec<Order>) -> Result<Work, Overflow> {
        Work::apart(orders, &[])
    }

    /// What is made for the orders, some of which share no dough with one for another time although it might stand so long.
    ///
    /// # Errors
    /// When an amount leaves the range of exact numbers.
    pub fn apart(orders: Vec<Order>, alone: &[usize]) -> Result<Work, Overflow> {
        let share::Shared { batches, by_order } = share::share(&orders, alone)?;
        let mut work = Work { orders, batches, by_order };
        work.note_store();
        work.note_takers()?;
        one_bath::fill_once(&mut work.batches);
        Ok(work)
    }

    /// The formula of what is handed over of a batch: with what comes from the store, too.
    ///
    /// # Errors
    /// When an amount leaves the range of exact numbers.
    pub fn sold(&self, batch: &Batch) -> Result<Formula, Overflow> {
        let orders: Vec<&Order> = batch.orders.iter().filter_map(|number| self.orders.get(*number)).collect();
        let sold = batch.orders.iter().filter(|number| self.ends_in(**number, batch));
        let sold: Vec<&Order> = sold.filter_map(|number| self.orders.get(*number)).collect();
        // Of a dough of which others take some what is sold is of the orders that end here, with what only their pieces are brushed with.
        let (sold, factor) = match sold.len() {
            some if some == 0 || some == orders.len() => (orders, batch.factor),
            _ => {
                let factor = sold.iter().try_fold(Number::ZERO, |all, order| all.plus(order.factor))?;
                (sold, factor)
            }
        };
        let is_all = sold.len() == batch.orders.len();
        // What it was fried in is in its label, whoever filled that in.
        let is_whole = one_bath::is_whole(&batch.formula);
        match sold.as_slice() {
            _ if is_all && is_whole && sold.iter().all(|order| order.making.is_none()) => Ok(batch.formula.clone()),
            [order] if order.recipe.is_same(&batch.recipe) => Ok(order.formula.clone()),
            _ => Formula::of(&batch.recipe, &mut Vec::new()).times(factor),
        }
    }

    /// Whether anything of a batch is handed over, and it is not only a dough for others.
    pub fn is_sold(&self, batch: &Batch) -> bool {
        batch.made_for.is_empty() || batch.orders.iter().any(|order| self.ends_in(*order, batch))
    }

    /// Whether what an order hands over is made in a batch.
    fn ends_in(&self, order: usize, batch: &Batch) -> bool {
        let is_here = |end: &BatchPart| self.batches.get(end.batch).is_some_and(|other| std::ptr::eq(other, batch));
        self.ends_of(order).iter().any(is_here)
    }

    /// Where a part of an order's recipe is made; `None` when it is not made at all.
    fn made_for_order(&self, order: usize, part: PartId) -> Option<BatchPart> {
        self.by_order.get(order)?.get(&part).copied()
    }

    /// Where a part is made that a batch's recipe knows under that number; `None` when it is not made at all.
    pub fn made_in(&self, at: BatchPart) -> Option<BatchPart> {
        let batch = self.batches.get(at.batch)?;
        if batch.formula.part(at.part)?.is_made {
            return Some(at);
        }
        // The same part in the numbering of one of the orders: all of them take it from one batch.
        let order = *batch.orders.first()?;
        let theirs = number_in(&self.orders.get(order)?.recipe, &batch.recipe, at.part)?;
        self.made_for_order(order, theirs)
    }

    /// Every part that is made, once, in the order in which the orders need them.
    pub fn made(&self) -> Vec<BatchPart> {
        let mut seen = std::collections::HashSet::new();
        let mut all = Vec::new();
        for (order, asked) in self.orders.iter().enumerate() {
            for (id, _) in asked.recipe.parts() {
                all.extend(self.made_for_order(order, id).filter(|at| seen.insert(*at)));
            }
        }
        all
    }

    /// The parts that end an order.
    pub fn ends_of(&self, order: usize) -> Vec<BatchPart> {
        let Some(asked) = self.orders.get(order) else { return Vec::new() };
        let mut ends: Vec<BatchPart> =
            asked.finals().into_iter().filter_map(|id| self.made_for_order(order, id)).collect();
        ends.dedup();
        ends
    }

    /// Notes on every batch what comes from the store. What an order found there stands on its own batch, or where it is made.
    fn note_store(&mut self) {
        let orders = &self.orders;
        let mut noted: Vec<usize> = Vec::new();
        for at in (0..self.batches.len()).rev() {
            let Some(batch) = self.batches.get_mut(at) else { continue };
            let nothing = InStore::default();
            let found: Vec<(&Order, InStore)> = batch
                .orders
                .iter()
                .filter_map(|number| Some((*number, orders.get(*number)?)))
                .map(|(number, order)| {
                    let is_new = !noted.contains(&number);
                    noted.push(number);
                    (order, if is_new { order.in_store.clone() } else { nothing.clone() })
                })
                .collect();
            let found: Vec<(&Order, &InStore)> = found.iter().map(|(order, store)| (*order, store)).collect();
            batch.note_store(&found);
        }
    }

    /// Notes on every batch that others draw on who takes how much of it.
    fn note_takers(&mut self) -> Result<(), Overflow> {
        // The first order counts: who comes first in the day stands first.
        let mut taken: Vec<(usize, usize, MadeFor)> = Vec::new();
        // What was in the store was not made for anybody.
        let mut stored: Vec<(usize, PartId, Mass)> = Vec::new();
        for (number, order) in self.orders.iter().enumerate() {
            stored.extend(order.in_store.taken.iter().map(|(part, mass, _)| (number, *part, *mass)));
        }
        for (at, batch) in self.batches.iter().enumerate() {
            let first = batch.orders.first().copied().unwrap_or(0);
            for part in batch.made_parts() {
                for (inner, mass, in_pieces) in takes(batch, part) {
                    let Some(from) = self.made_in(BatchPart { batch: at, part: inner }) else { continue };
                    let mass = self.less_stored(&mut stored, BatchPart { batch: at, part: inner }, mass)?;
                    // It is told beside its dough, as the recipe that bakes it has it.
                    let oven = batch.formula.part(inner).and_then(|part| part.oven);
                    let mass = oven.map_or(Ok(mass), |oven| mass.over(oven))?;
                    if from.batch != at && mass > Mass::ZERO {
                        let ready = self.one_time(at).filter(|_| self.is_for_several_times(from.batch));
                        self.note(&mut taken, (first, ready), from, self.called(&batch.recipe), (mass, in_pieces))?;
                    }
                }
            }
        }
        for (number, order) in self.orders.iter().enumerate() {
            for part in order.finals() {
                let Some(from) = self.made_for_order(number, part) else { continue };
                let batch = self.batches.get(from.batch);
                let is_shared = batch.is_some_and(|batch| batch.orders.len() > 1);
                let ready = order.ready.filter(|_| self.is_for_several_times(from.batch));
                let mass = order.made().part(part).and_then(|part| part.makes);
                if let (true, Some(mass)) = (is_shared, mass) {
                    self.note(&mut taken, (number, ready), from, self.called(&order.recipe), (mass, true))?;
                }
            }
        }
        taken.sort_by_key(|(first, _, _)| *first);
        for (_, batch, one) in taken {
            if let Some(batch) = self.batches.get_mut(batch) {
                batch.made_for.push(one);
            }
        }
        Ok(())
    }

    /// For when a batch is, as its orders say.
    fn times(&self, batch: usize) -> impl Iterator<Item = Option<Moment>> {
        let orders = self.batches.get(batch).into_iter().flat_map(|batch| &batch.orders);
        orders.map(|order| self.orders.get(*order).and_then(|order| order.ready))
    }

    /// The time for which a batch is, where that is one.
    fn one_time(&self, batch: usize) -> Option<Moment> {
        self.times(batch).next().flatten().filter(|_| !self.is_for_several_times(batch))
    }

    fn is_for_several_times(&self, batch: usize) -> bool {
        let mut times = self.times(batch).map(|ready| ready.map(|ready| ready.when));
        let first = times.next();
        times.any(|other| Some(other) != first)
    }

    /// What has to be made of what a batch takes: less what its orders found in the store, each gram of which is counted once.
    fn less_stored(
        &self,
        stored: &mut [(usize, PartId, Mass)],
        taken: BatchPart,
        mass: Mass,
    ) -> Result<Mass, Overflow> {
        let mut lacking = mass;
        let Some(batch) = self.batches.get(taken.batch) else { return Ok(lacking) };
        for order in &batch.orders {
            let there = self.orders.get(*order).and_then(|one| number_in(&one.recipe, &batch.recipe, taken.part));
            let here = |one: &&mut (usize, PartId, Mass)| one.0 == *order && Some(one.1) == there;
            for (_, _, left) in stored.iter_mut().filter(here) {
                let found = lacking.min(*left);
                (lacking, *left) = (lacking.minus(found)?, left.minus(found)?);
            }
        }
        Ok(lacking)
    }

    /// The options of a recipe that other orders of it do not have; empty where there are none.
    pub fn options_apart(&self, recipe: &Recipe) -> String {
        let others =
            self.orders.iter().map(|order| order.recipe.as_ref()).filter(|other| other.source == recipe.source);
        ways::told_from(recipe, &others.collect::<Vec<&Recipe>>())
    }

    /// A recipe's name, with those options.
    fn called(&self, recipe: &Recipe) -> String {
        match self.options_apart(recipe) {
            told if told.is_empty() => recipe.name.to_string(),
            told => format!("{} ({told})", recipe.name),
        }
    }

    fn note(
        &self,
        taken: &mut Vec<(usize, usize, MadeFor)>,
        (first, ready): (usize, Option<Moment>),
        from: BatchPart,
        recipe: String,
        (mass, in_pieces): (Mass, bool),
    ) -> Result<(), Overflow> {
        let part = self.batches.get(from.batch).and_then(|batch| batch.recipe.part(from.part));
        let part = part.map(|part| part.name.to_string()).unwrap_or_default();
        let same = |one: &&mut (usize, usize, MadeFor)| {
            one.0 == first && one.1 == from.batch && one.2.recipe == recipe && one.2.part == part
        };
        match taken.iter_mut().find(same) {
            Some((_, _, known)) => {
                known.mass = known.mass.plus(mass)?;
                known.in_pieces &= in_pieces;
            }
            None => taken.push((first, from.batch, MadeFor { recipe, part, mass, in_pieces, ready })),
        }
        Ok(())
    }
}

/// What a part takes of other parts, and whether in their pieces: its lines, and the preferments that were taken out of it.
fn takes(batch: &Batch, id: PartId) -> Vec<(PartId, Mass, bool)> {
    let mut all = Vec::new();
    let (Some(part), Some(solved)) = (batch.recipe.part(id), batch.formula.part(id)) else { return all };
    // What a preferment lists is listed by its total formula too.
    if part.from.is_none() {
        for (line, amount) in part.lines.iter().zip(&solved.lines) {
            if let (Refers::Part(other), Some(mass)) = (&line.refers, amount.mass) {
                // What is taken drained was made with its liquid.
                let mass = with_its_liquid(&batch.recipe, &batch.formula, *other, (line, mass)).unwrap_or(mass);
                all.push((*other, mass, line.is_in_pieces()));
            }
        }
    }
    for (preferment, _) in batch.recipe.preferments(id) {
        if let Some(mass) = batch.formula.part(preferment).and_then(|part| part.makes) {
            all.push((preferment, mass, false));
        }
    }
    all
}
