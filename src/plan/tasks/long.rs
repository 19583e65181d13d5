//! What is ready for the oven should not stand long, even where the whole day became shorter by it.

use super::super::problem::Stand;
use super::Making;
use crate::model::step::{Step, StepKind};
use crate::model::{cooking, flow};
use std::collections::BTreeSet;

impl Making<'_> {
    /// Between two steps of a part of which the second cooks: what is ready for the oven goes in soon, unless the first says how long
    /// what it made may stand, is a rest that may go on or stands in the cold, or what it made is cooked already. Each load that goes
    /// on by itself is looked at; where all of them wait for the whole of the first, the first and the last speak for the rest.
    pub(super) fn not_long(&mut self, first: &[usize], then: &[usize]) {
        if self.parts_here(first, then) {
            return;
        }
        for (first, then) in self.alongside(first, then) {
            let pairs: Vec<(usize, usize)> = if self.go_load_by_load(&first, &then) {
                first.into_iter().zip(then).collect()
            } else {
                let ends: BTreeSet<usize> = then.first().into_iter().chain(then.last()).copied().collect();
                first.last().into_iter().flat_map(|made| ends.iter().map(|used| (*made, *used))).collect()
            };
            for (made, used) in pairs {
                if !self.may_wait_for_heat(made, used) {
                    self.tasks.long.push(Stand::Between { made, used });
                }
            }
        }
    }

    /// Whether what a task made may stand before another: that does not cook it, or it is cooked, in the cold, or said that it may.
    fn may_wait_for_heat(&self, made: usize, used: usize) -> bool {
        let Some((task, step)) = self.task(made).zip(self.step_of(made)) else { return true };
        let cooks = |step: &Step| cooking::cooks_by_head(step) && !flow::heats_empty(step);
        let part = self.work.batches.get(task.batch).and_then(|batch| batch.recipe.part(task.step.part));
        // Asked last, of what goes into the heat alone: it looks through all steps so far.
        let is_cooked = || part.is_some_and(|part| part.steps.iter().take(task.step.step + 1).any(cooks));
        !self.step_of(used).is_some_and(cooks)
            || step.may_stand.is_some()
            || flow::has_slack(step)
            || cooking::chills(step)
            || is_cooked()
    }

    /// What was heated with nothing in it does not stand hot for long.
    pub(super) fn not_lit_long(&mut self, first: &[usize], then: &[usize]) {
        if let (Some(made), Some(used)) = (first.last(), then.first())
            && self.task(*made).is_some_and(|task| task.heats)
        {
            self.tasks.long.push(Stand::Between { made: *made, used: *used });
        }
    }

    /// Whether a task is work on what came from a rest that may go on: what it made need not stand, and if it is handed over it is as good
    /// where it rests until it is wanted.
    pub(super) fn could_rest_on(&self, at: usize) -> bool {
        let Some(task) = self.task(at).filter(|task| task.kind == StepKind::Hands) else { return false };
        let part = self.work.batches.get(task.batch).and_then(|batch| batch.recipe.part(task.step.part));
        let above = part.map(|part| flow::above(part, task.step.step)).unwrap_or_default();
        let steps = above.iter().filter_map(|above| part?.steps.get(*above));
        steps.clone().count() > 0 && steps.into_iter().all(flow::has_slack)
    }
}
