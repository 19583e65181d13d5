//! Whether one dough is made for two times: where only a dough for each can be planned, or gives fresher bread, each has its own.

use super::ask::{self, Hours};
use super::clock::Clock;
use super::fresh::too_soon;
use super::limit::Limit;
use super::problem::{Minute, Problem};
use super::shifts::{self, Staff};
use super::shorter;
use super::solve::{self, Plan};
use super::tasks::{self, Tasks};
use crate::make::order::Order;
use crate::make::work::Work;
use crate::measure::number::Overflow;
use crate::model::kitchen::Kitchen;
use jiff::tz::TimeZone;
use std::collections::BTreeSet;

/// Of a day with more tasks than this only the orders are tried that could share a dough: what else stands in its way is found
/// by who plans the whole day.
const MOST_TASKS: usize = 60;

/// So many doughs for several times are each tried apart.
const MOST_TRIED: usize = 6;

/// So long a plan with one dough is looked for before each time has its own.
const STEPS: u64 = 20_000;

/// What is made for the orders of a day: one dough for several times where that can be planned, else one for each where that
/// can. Cards, lists and plans of a day all ask here, so that they agree.
///
/// # Errors
/// When an amount leaves the range of exact numbers.
pub fn work(orders: Vec<Order>, kitchen: &Kitchen) -> Result<Work, Overflow> {
    let one = Work::of(orders)?;
    let groupings = groupings(&one);
    let Some(all) = groupings.last().cloned() else { return Ok(one) };
    // Of several times one alone may be what the others are too far from.
    let each_alone =
        if all.len() > 2 { all.iter().take(MOST_TRIED).map(|order| vec![*order]).collect() } else { Vec::new() };
    let is_small = tasks::of(&one, kitchen).is_ok_and(|tasks| tasks.list.len() <= MOST_TASKS);
    let tried: Vec<usize> = if is_small { (0..one.orders.len()).collect() } else { all };
    let asked = |alone: &[usize]| Case::of(&one.orders, &tried, alone, kitchen);
    let Some(as_one) = asked(&[]) else { return Ok(one) };
    // A dough for each time is no help where as much of what comes of it is as old.
    let apart = groupings.into_iter().chain(each_alone);
    let apart: Vec<(Vec<usize>, Case)> = apart.filter_map(|alone| asked(&alone).map(|case| (alone, case))).collect();
    let fresher = |case: &Case, least: usize, of: &dyn Fn(&Case) -> Option<Vec<usize>>| {
        let mut fewest: Option<(&Vec<usize>, usize)> = None;
        for (alone, other) in &apart {
            let Some(early) = of(other).map(|early| early.len()) else { continue };
            if early < fewest.map_or(least, |(_, early)| early) {
                fewest = Some((alone, early));
            }
            if early == 0 {
                break;
            }
        }
        let (alone, early) = fewest?;
        let best = solve::plan(&case.problem, &Limit::steps(STEPS)).ok();
        Some(alone).filter(|_| best.is_none_or(|plan| case.early(&plan).len() > early))
    };
    let early = as_one.early_at_once();
    if early.as_ref().is_some_and(Vec::is_empty) {
        return Ok(one);
    }
    if let Some(alone) = fresher(&as_one, 1, &Case::early_at_once) {
        return Work::apart(one.orders, alone);
    }
    // Where neither is fresh so, a plan takes the shorter ends of ranges.
    let short = as_one.at_shortest();
    let (case, early) = match &short {
        Some(short) => (short, short.early_at_once()),
        None => (&as_one, early),
    };
    if early.as_ref().is_some_and(Vec::is_empty) {
        return Ok(one);
    }
    // Bread that is ready too soon is better than none.
    let fewest = early.map_or(usize::MAX, |early| early.len());
    let at_once = |case: &Case| case.at_shortest().map_or_else(|| case.early_at_once(), |short| short.early_at_once());
    match fresher(case, fewest, &at_once) {
        Some(alone) => Work::apart(one.orders, alone),
        None => Ok(one),
    }
}

/// The orders that could have doughs of their own where one is made for several times: those of each such dough, and all of them last.
pub(super) fn groupings(one: &Work) -> Vec<Vec<usize>> {
    let shared = for_several_times(one);
    let all: Vec<usize> = shared.iter().flatten().copied().collect::<BTreeSet<usize>>().into_iter().collect();
    if all.is_empty() {
        return Vec::new();
    }
    let each = shared.into_iter().take(MOST_TRIED).filter(|orders| *orders != all);
    each.chain([all.clone()]).collect()
}

/// The orders of each batch that is for several times.
fn for_several_times(work: &Work) -> Vec<Vec<usize>> {
    let ready = |order: &usize| work.orders.get(*order).and_then(|order| order.ready).map(|ready| ready.when);
    let mut all: Vec<Vec<usize>> = Vec::new();
    for batch in &work.batches {
        let times: BTreeSet<_> = batch.orders.iter().filter_map(ready).collect();
        if times.len() > 1 && !all.contains(&batch.orders) {
            all.push(batch.orders.clone());
        }
    }
    all
}

/// What the planner is asked of some orders of a day, in the kitchen's own hours.
struct Case {
    problem: Problem,
    tasks: Tasks,
    hours: Hours,
}

impl Case {
    /// Some orders of a day; those that are `alone` share no dough with one for another time. `None` where it cannot be asked.
    fn of(orders: &[Order], tried: &[usize], alone: &[usize], kitchen: &Kitchen) -> Option<Case> {
        let last = orders.iter().filter_map(|order| order.ready).map(|ready| ready.when).max()?;
        let clock = Clock::around(TimeZone::UTC, last.date()).ok()?;
        let of_these: Vec<Order> = tried.iter().filter_map(|at| orders.get(*at)).cloned().collect();
        let due = |order: &Order| clock.minute(order.ready.map_or(last, |ready| ready.when)).ok().map(Some);
        let dues: Vec<Option<Minute>> = of_these.iter().map(due).collect::<Option<_>>()?;
        let is_alone = |at: &usize| tried.get(*at).is_some_and(|at| alone.contains(at));
        let alone: Vec<usize> = (0..tried.len()).filter(is_alone).collect();
        let work = Work::apart(of_these, &alone).ok()?;
        let tasks = tasks::of(&work, kitchen).ok()?;
        let until = dues.iter().flatten().copied().max()?;
        let earliest = until - shifts::reach(&tasks);
        let Staff { open, people } = Staff::by_the_clock(kitchen, &clock, earliest, until);
        let hours = Hours { open, people, cold: true, dues, earliest: Some(earliest) };
        let problem = ask::problem(&tasks, kitchen, &hours);
        problem.faults().is_empty().then_some(Case { problem, tasks, hours })
    }

    /// The same with all rests at the shorter end of their range; `None` where none has one.
    fn at_shortest(&self) -> Option<Case> {
        let problem = shorter::at_shortest(&self.problem, &self.tasks)?;
        Some(Case { problem, tasks: self.tasks.clone(), hours: self.hours.clone() })
    }

    /// The orders that a plan has ready hours before they are wanted, or on a day before.
    fn early(&self, plan: &Plan) -> Vec<usize> {
        too_soon(&self.tasks, &self.hours, plan)
    }

    /// Those of the plan that is found at once; `None` where none is.
    fn early_at_once(&self) -> Option<Vec<usize>> {
        solve::quickly(&self.problem).ok().map(|plan| self.early(&plan))
    }
}
