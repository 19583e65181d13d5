//! A step that is written above the one it comes after.

use super::problem;
use crate::model::flow::reached;
use crate::model::recipe::{Part, PartId};
use crate::model::step::{StepRef, Timing};
use crate::text::diagnostic::Diagnostic;

/// A step that is written above the one it comes after: who reads the card does it first.
pub(super) fn above_what_it_follows(id: PartId, part: &Part) -> Option<Diagnostic> {
    let mut looked = 0;
    part.steps.iter().enumerate().find_map(|(at, step)| {
        let follows = step.order.iter().filter(|order| !is_beside(order)).map(|order| order.other());
        let below =
            follows.filter(|StepRef { part, step }| *part == id && *step > at).max_by_key(|other| other.step)?;
        looked += 1;
        if looked > MOST_LOOKED {
            return None;
        }
        let other = part.steps.get(below.step).filter(|_| !waits_for(id, part, below.step, at))?;
        let message = format!("`{}` is written above `{}`, which it comes after", step.name, other.name);
        Some(problem(
            step,
            other,
            message,
            "comes first",
            &format!("move it below `{}`: a card prints the steps as they stand", other.name),
        ))
    })
}

/// So many steps of a part that stand above what they follow are looked at: where those are in a ring, so may all others be.
const MOST_LOOKED: usize = 20;

/// Whether an order of a step lets it stand above the other: it runs alongside, or comes first.
fn is_beside(order: &Timing) -> bool {
    matches!(order, Timing::During(_) | Timing::Into(_) | Timing::Before(_))
}

/// Whether a step of a part waits for another of it; such a ring is `loose-step`.
fn waits_for(id: PartId, part: &Part, step: usize, other: usize) -> bool {
    let seen = reached(step, |here| {
        let step = part.steps.get(here);
        let orders = step.into_iter().flat_map(|step| &step.order).filter(|order| !matches!(order, Timing::Before(_)));
        let own = orders.map(|order| order.other()).filter(|other| other.part == id).map(|other| other.step);
        own.chain(here.checked_sub(1).filter(|_| step.is_some_and(|step| step.order.is_empty())))
    });
    seen.iter().skip(1).any(|before| *before == other)
}
