//! One dough for two times within one part: made at once, with all that goes into it, and from a rest that may go on taken up turn
//! by turn, for each time its own pieces and sorts.

use crate::language::syntax::Moment;
use crate::make::slack::stretch;
use crate::measure::number::{Number, Overflow};
use crate::model::flow;
use crate::model::recipe::{Part, PartId};
use crate::model::step::{StepKind, Timing};
use crate::solve::formula::{Formula, SolvedPart};

/// Where what is made of a part goes on apart.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Parting {
    /// The rest in which the later pieces wait.
    pub rest: usize,
    /// For each step of the part, whether it is done for each time by itself: those that follow the rest.
    pub own: Vec<bool>,
    /// How many minutes later than the first the last pieces may be wanted.
    pub room: i64,
}

/// A part that is made at once for several times.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Apart {
    /// Which part.
    pub part: PartId,
    /// Where it goes on apart.
    pub parting: Parting,
    /// The times, the first one first.
    pub turns: Vec<Turn>,
}

/// What is wanted of a part at one time.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Turn {
    /// For when.
    pub ready: Option<Moment>,
    /// The orders that want it then.
    pub orders: Vec<usize>,
    /// How much of the whole it is, of 1.
    pub share: Number,
    /// What these orders have of the part.
    pub made: SolvedPart,
}

impl Apart {
    /// Whether a step of a part is done for each time by itself.
    pub fn is_own(&self, part: PartId, step: usize) -> bool {
        self.part == part && self.parting.own.get(step) == Some(&true)
    }

    /// The amounts for one time of a batch.
    ///
    /// # Errors
    /// When an amount leaves the range of exact numbers.
    pub fn formula_of(&self, turn: &Turn, batch: &Formula) -> Result<Formula, Overflow> {
        let mut formula = batch.times(turn.share)?;
        if let Some(slot) = formula.parts.get_mut(self.part.0) {
            // By weight a sort is another share of the whole than by pieces.
            if !turn.made.sorts.is_empty() {
                formula.pieces = turn.made.pieces;
            }
            slot.clone_from(&turn.made);
        }
        Ok(formula)
    }

    /// The turn in which an order has its pieces.
    pub fn turn_of(&self, order: usize) -> Option<usize> {
        self.turns.iter().position(|turn| turn.orders.contains(&order))
    }
}

/// Where a part that is handed over may go on apart: at the rest that may be stretched longest, if all that follows it in the
/// part hangs on nothing else that was done before. `None` where there is no such rest.
pub fn parting(part: &Part, id: PartId) -> Option<Parting> {
    let rests = part.steps.iter().enumerate().filter(|(_, step)| !flow::is_free(step) && flow::has_slack(step));
    // Of two that leave the same room the later one: the less is done twice.
    let all = rests.filter_map(|(rest, _)| parting_at(part, id, rest));
    all.max_by_key(|parting| parting.room).filter(|parting| parting.room > 0)
}

/// How many minutes what a part makes keeps as it is handed over, where it says so.
pub(super) fn kept(part: &Part) -> Option<i64> {
    part.keeps.and_then(|keeps| keeps.time.whole_minutes())
}

fn parting_at(part: &Part, id: PartId, rest: usize) -> Option<Parting> {
    let follows = |own: &[bool], at: usize| {
        let is_own = |other: usize| own.get(other) == Some(&true);
        let Some(step) = part.steps.get(at) else { return false };
        if step.order.is_empty() {
            return flow::above(part, at).into_iter().any(|other| other == rest || is_own(other));
        }
        step.order.iter().any(|order| {
            let other = order.other();
            other.part == id
                && match order {
                    Timing::Before(_) => false,
                    Timing::During(_) | Timing::Into(_) => is_own(other.step),
                    _ => other.step == rest || is_own(other.step),
                }
        })
    };
    let mut own = vec![false; part.steps.len()];
    for _ in 0..part.steps.len() {
        let next = (0..part.steps.len()).find(|at| *at != rest && own.get(*at) == Some(&false) && follows(&own, *at));
        match next.and_then(|at| own.get_mut(at)) {
            Some(slot) => *slot = true,
            None => break,
        }
    }
    let is_own = |at: usize| own.get(at) == Some(&true);
    let hangs_on_nothing_else = |at: usize| {
        let Some(step) = part.steps.get(at) else { return false };
        step.order.iter().all(|order| {
            let other = order.other();
            other.part == id && (is_own(other.step) || (matches!(order, Timing::After(_)) && other.step == rest))
        })
    };
    let works = part.steps.iter().enumerate().any(|(at, step)| is_own(at) && step.kind != StepKind::Wait);
    if !works || !(0..part.steps.len()).filter(|at| is_own(*at)).all(hangs_on_nothing_else) {
        return None;
    }
    let stretched = part.steps.iter().enumerate().filter(|(at, _)| *at == rest || is_own(*at));
    let room = stretched.filter_map(|(_, step)| stretch(step)).fold(0_i64, i64::saturating_add);
    Some(Parting { rest, own, room })
}
