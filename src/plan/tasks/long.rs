//! What is ready for the oven should not stand long, even where the whole day became shorter by it.

use super::super::problem::Stand;
use super::Making;
use crate::model::step::StepKind;
use crate::model::{cooking, flow};

impl Making<'_> {
    /// Between two steps of a part of which the second cooks: what is ready for the oven goes in soon, unless the first says how long
    /// what it made may stand, is a rest that may go on or stands in the cold, or what it made is cooked already. One load speaks for
    /// all.
    pub(super) fn not_long(&mut self, first: &[usize], then: &[usize]) {
        let parts_here = self.parts_here(first, then);
        let Some((first, then)) = self.alongside(first, then).into_iter().next() else { return };
        let (Some(lead), Some(last), Some(used)) = (first.first(), first.last(), then.first()) else { return };
        let made = if first.len() == then.len() { *lead } else { *last };
        let Some((task, step)) = self.task(made).zip(self.step_of(made)) else { return };
        let part = self.work.batches.get(task.batch).and_then(|batch| batch.recipe.part(task.step.part));
        let so_far = part.map(|part| &part.steps).into_iter().flatten().take(task.step.step + 1);
        let is_cooked = so_far.into_iter().any(|step| cooking::cooks_by_head(step) && !flow::heats_empty(step));
        let is_for_the_heat =
            self.step_of(*used).is_some_and(|then| cooking::cooks_by_head(then) && !flow::heats_empty(then));
        let may_wait =
            !is_for_the_heat || step.may_stand.is_some() || flow::has_slack(step) || cooking::chills(step) || is_cooked;
        if !may_wait && !parts_here {
            self.tasks.long.push(Stand::Between { made, used: *used });
        }
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
