//! What is tended where it is kept hot, and may stay there, is a rest in it: it keeps its place until it is taken.

use super::super::hot_food;
use crate::make::work::Work;
use crate::model::recipe::Recipe;
use crate::model::step::{Step, StepKind};
use std::sync::Arc;

/// The same work with such steps as rests; `None` where there is none.
pub(super) fn as_rests(work: &Work) -> Option<Work> {
    let has_some = |recipe: &Recipe| recipe.parts().any(|(_, part)| part.steps.iter().any(is_held));
    if !work.batches.iter().any(|batch| has_some(&batch.recipe)) {
        return None;
    }
    let mut work = work.clone();
    for batch in work.batches.iter_mut().filter(|batch| has_some(&batch.recipe)) {
        let recipe = Arc::make_mut(&mut batch.recipe);
        for part in &mut recipe.parts {
            if !part.steps.iter().any(is_held) {
                continue;
            }
            for step in Arc::make_mut(part).steps.iter_mut().filter(|step| is_held(step)) {
                step.kind = StepKind::Wait;
            }
        }
    }
    Some(work)
}

fn is_held(step: &Step) -> bool {
    step.kind == StepKind::Tend && step.up_to.is_some() && hot_food::keeps_hot(step)
}
