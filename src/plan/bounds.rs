//! What no plan can fall below, told without any search: from the arcs, and from how much work there is.

use super::dense::Dense;
use super::network::FAR_OFF;
use super::problem::{Minute, SPAN_WEIGHS};
use super::score::Score;
use super::standard_form::{StandardForm, end, start};

/// The least that the measures of a plan with this score could come to, as far as that can be told at once.
pub fn lower_bound(model: &StandardForm, score: Score) -> Score {
    let span = earliest_end(model).unwrap_or(0).clamp(0, score.span.max(0));
    Score { weighed: span * SPAN_WEIGHS, standing: 0, spells: score.spells.min(1), span }
}

/// When everything can be over at the soonest; `None` if arcs contradict each other.
fn earliest_end(model: &StandardForm) -> Option<Minute> {
    let heads = model.earliest().ok()?;
    let tails = tails(model);
    let arcs = heads.iter().copied().max().unwrap_or(0);
    let pools = pools(model).into_iter().filter_map(|pool| pool.over(model, &heads, &tails));
    Some(pools.fold(arcs, Minute::max))
}

/// The least time from each event to the last that is bound to it.
fn tails(model: &StandardForm) -> Dense<Minute> {
    let zero = model.zero();
    let mut latest = Dense::filled(model.network.events(), 0);
    // Zero is no event of the plan: nothing that is bound to it comes after the plan.
    latest[zero] = FAR_OFF;
    let all: Vec<usize> = (0..zero).collect();
    model.network.lower(&mut latest, &all);
    latest.iter().map(|latest| -latest).collect()
}

/// Something that there is so much of, and the tasks that take of it.
struct Pool {
    /// Each task and how much it takes.
    takes: Vec<(usize, i64)>,
    /// How much there is.
    there_is: i64,
}

/// Cooks and each kind of equipment.
fn pools(model: &StandardForm) -> Vec<Pool> {
    let tasks = || 0..model.jobs.len();
    let cooks = tasks().map(|task| (task, i64::from(model.jobs[task].cooks))).filter(|(_, cooks)| *cooks > 0);
    let mut pools = vec![Pool { takes: cooks.collect(), there_is: model.cooks }];
    for (kind, equipment) in model.equipment.iter().enumerate() {
        let size = |task: usize| {
            let holds = model.jobs[task].holds.filter(|holds| holds.equipment == kind)?;
            Some((task, if equipment.shared.is_some() { holds.size } else { 1 }))
        };
        let unit = equipment.shared.unwrap_or(1);
        pools.push(Pool {
            takes: tasks().filter_map(size).collect(),
            there_is: unit.saturating_mul(i64::from(equipment.count)),
        });
    }
    pools
}

impl Pool {
    /// When the last task of the pool, and what is bound to it, can be over at the soonest: no sooner than all the work
    /// has found room since the first can start.
    fn over(&self, model: &StandardForm, heads: &Dense<Minute>, tails: &Dense<Minute>) -> Option<Minute> {
        let work: i64 = self.takes.iter().map(|(task, takes)| model.jobs[*task].shortest.saturating_mul(*takes)).sum();
        if work == 0 || self.there_is == 0 {
            return None;
        }
        let minutes = work / self.there_is + i64::from(work % self.there_is > 0);
        let first = self.takes.iter().map(|(task, _)| heads[start(*task)]).min()?;
        let last = self.takes.iter().map(|(task, _)| tails[end(*task)]).min()?;
        let attended = self.takes.iter().all(|(task, _)| model.jobs[*task].attended);
        let over = if attended { open_until(model, first, minutes) } else { first + minutes };
        Some(over + last)
    }
}

/// The moment by which the kitchen has been open for so many minutes since another.
fn open_until(model: &StandardForm, from: Minute, mut minutes: Minute) -> Minute {
    for window in &model.open {
        let room = (window.closes - window.opens.max(from)).max(0);
        if minutes <= room {
            return window.opens.max(from) + minutes;
        }
        minutes -= room;
    }
    // Without hours, or beyond them, nothing is closed as far as is known here.
    from + minutes
}
