//! What was cooked, is hot, and goes into what keeps it hot, or into the cold: it goes there as it comes from the heat.
//!
//! A kettle that is emptied twice fills a hot cupboard twice, and does not wait an hour for itself on the bench.

use super::problem::Minute;
use crate::measure::number::Number;
use crate::model::cooking::{self, beginnings};
use crate::model::lowered::Beginnings;
use crate::model::recipe::Part;
use crate::model::step::{Step, StepKind};

/// So long what is held hot may stand before that: it is taken off the heat, weighed and carried. Common practice, no source.
const BEFORE_IT_IS_HELD: Minute = 30;

/// The same of what is chilled: cooked food is at 21 °C after two hours and at 5 °C after six (FDA Food Code 3-501.14), and half of the
/// first two is left for the chiller. The hour itself is common practice, no source.
const BEFORE_IT_IS_CHILLED: Minute = 60;

/// From here on what is said to be kept so warm is held hot: 57 °C (FDA Food Code 3-501.16; from memory).
const HELD_HOT: Number = Number::whole(57);

/// A load that is hot, and the rest that takes it up.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct HotFood {
    /// The task that leaves it hot.
    pub made: usize,
    /// The task that takes it up.
    pub rest: usize,
    /// For how many minutes it may stand between them.
    pub most: Minute,
}

/// How long what the steps of a part up to one of them leave hot may stand before a step that keeps it hot or chills it, or goes straight on
/// with it; `None` where it is not hot then, or that is another step. What was baked cools well by itself, but where it is blast-chilled.
pub fn may_stand(part: &Part, made: usize, then: &Step) -> Option<Minute> {
    let steps = part.steps.get(..=made)?;
    if then.kind != StepKind::Wait || !cooking::ends_hot(steps) {
        return None;
    }
    if cooking::chills(then) {
        let blast = beginnings!["blast", "shock"];
        let is_blast = cooking::uses(then, blast) || cooking::called(then, blast);
        return (is_blast || !steps.iter().any(cooking::bakes)).then_some(BEFORE_IT_IS_CHILLED);
    }
    is_held_hot(then).then_some(BEFORE_IT_IS_HELD)
}

/// The same before a step that goes straight on with what is half cooked.
pub fn half_cooked(part: &Part, made: usize) -> Option<Minute> {
    part.steps.get(made).filter(|step| cooking::cooks_by_head(step)).map(|_| BEFORE_IT_IS_HELD)
}

/// Whether what was chilled goes on from there into the cold: what comes out of a blast chiller, or of a machine that freezes it, does not
/// stand until the last has.
pub fn stays_cold(chilled: &Step, then: &Step) -> bool {
    let is_by_itself = chilled.kind != StepKind::Hands && chilled.equipment.is_some();
    let is_churned =
        cooking::called(chilled, beginnings!["churn"]) || cooking::uses(chilled, beginnings!["ice", "gelat"]);
    let is_cold = is_churned || cooking::chills(chilled);
    is_by_itself && is_cold && then.kind == StepKind::Wait && cooking::chills(then)
}

/// What keeps hot: a hot cupboard, a bain-marie.
const KEEPS_HOT: &Beginnings = &Beginnings::of(&["hot", "bain", "heated", "warmer"]);

/// Nothing is kept hotter than this. Common practice, no source.
const KEPT_AT_MOST: Number = Number::whole(95);

/// Whether a step uses what keeps hot, at no more than that heat: a hot plate cooks.
pub fn keeps_hot(step: &Step) -> bool {
    let is_hold = match step.temperature {
        Some((low, high)) => high.unwrap_or(low).celsius() <= KEPT_AT_MOST,
        None => cooking::called(step, beginnings!["hold", "keep"]),
    };
    is_hold && cooking::uses(step, KEEPS_HOT) && !cooking::uses(step, beginnings!["plate", "hotplate"])
}

/// Whether a rest keeps what is in it hot.
fn is_held_hot(rest: &Step) -> bool {
    match rest.temperature {
        Some((low, _)) => low.celsius() >= HELD_HOT,
        None => cooking::is_hot(rest) || cooking::uses(rest, KEEPS_HOT),
    }
}
