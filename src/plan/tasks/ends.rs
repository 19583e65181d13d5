//! The tasks that end a part, and those that finish an order.

use super::super::problem::Minute;
use super::Making;
use super::stands::keeps_handed_over;
use crate::make::batch::BatchPart;
use crate::model::{cooking, flow};
use std::collections::HashSet;

impl Making<'_> {
    /// The tasks that end a part, and how long it keeps after each; of a part without steps, those of what it takes.
    pub(super) fn ends_of(&self, at: usize, seen: &mut HashSet<usize>) -> Vec<(usize, Option<Minute>)> {
        self.ends_before(at, None, seen)
    }

    /// As [`Making::ends_of`], for a use for which a step and what comes after it are not done; how long the part keeps is
    /// said of the whole part.
    pub(super) fn ends_before(
        &self,
        at: usize,
        before: Option<usize>,
        seen: &mut HashSet<usize>,
    ) -> Vec<(usize, Option<Minute>)> {
        // A part that several ways lead to is taken once; the ways double with every part they pass.
        if !seen.insert(at) {
            return Vec::new();
        }
        let Some((place, recipe, part)) = self.part_of(at) else { return Vec::new() };
        let keeps = part.keeps.and_then(|keeps| keeps.time.whole_minutes());
        if part.steps.is_empty() && seen.len() < flow::DEEPEST {
            return flow::held(recipe, place.part)
                .into_iter()
                .filter_map(|(_, id)| self.number(place.batch, id))
                .flat_map(|other| self.ends_of(other, seen))
                .map(|(end, inner)| (end, inner.or(keeps)))
                .collect();
        }
        let left_out = before.map(|before| flow::left_out(part, place.part, before)).unwrap_or_default();
        let sinks = flow::sinks_without(part, place.part, &left_out);
        let last = sinks.last().copied().filter(|_| before.is_none());
        let loads = |step: usize| {
            let keeps = keeps.filter(|_| Some(step) == last);
            self.tasks_of(at, step).into_iter().map(move |task| (task, keeps))
        };
        sinks.into_iter().flat_map(loads).collect()
    }

    /// For each order the tasks that finish it, how long it keeps, and whether it is hot.
    pub(super) fn finals(&mut self) {
        let mut finals = Vec::with_capacity(self.work.orders.len());
        for order in 0..self.work.orders.len() {
            let ends = self.work.ends_of(order);
            let numbers = ends.iter().filter_map(|at| self.numbers.get(at).copied());
            let tasks = numbers.flat_map(|part| self.ends_of(part, &mut HashSet::new())).map(|(task, _)| task);
            finals.push(self.of_order(tasks.collect(), order));
            let part = |at: &BatchPart| self.work.batches.get(at.batch)?.recipe.part(at.part);
            let keeps = |at: &BatchPart| keeps_handed_over(&self.work.batches.get(at.batch)?.recipe, at.part);
            let all: Option<Vec<Minute>> = ends.iter().map(keeps).collect();
            let rests_on = finals.last().is_some_and(|last| last.iter().any(|task| self.could_rest_on(*task)));
            self.tasks.keeps.push(all.and_then(|all| all.into_iter().min()).filter(|_| !rests_on));
            self.tasks.hot.push(ends.iter().any(|at| part(at).is_some_and(|part| cooking::ends_hot(&part.steps))));
        }
        self.tasks.finals = finals;
    }
}
