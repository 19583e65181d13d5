//! Whether one dough is made for two times: where only a dough for each can be planned, or gives fresher bread, each has its own.

use super::ask::{self, Hours};
use super::clock::Clock;
use super::fresh::too_soon;
use super::limit::Limit;
use super::problem::{Minute, Problem};
use super::shifts::{self, Staff};
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
    let shared = for_several_times(&one);
    if shared.is_empty() {
        return Ok(one);
    }
    let all: Vec<usize> = shared.iter().flatten().copied().collect::<BTreeSet<usize>>().into_iter().collect();
    let is_small = tasks::of(&one, kitchen).is_ok_and(|tasks| tasks.list.len() <= MOST_TASKS);
    let tried: Vec<usize> = if is_small { (0..one.orders.len()).collect() } else { all.clone() };
    let asked = |alone: &[usize]| Case::of(&one.orders, &tried, alone, kitchen);
    let Some(as_one) = asked(&[]) else { return Ok(one) };
    let at_once = as_one.early_at_once();
    let fewest = match &at_once {
        Some(early) if early.is_empty() => return Ok(one),
        Some(early) => early.len(),
        None => 1,
    };
    // A dough for each time is no help where as much of what comes of it is as old.
    let each = shared.into_iter().take(MOST_TRIED).filter(|orders| *orders != all);
    let fresher = |alone: Vec<usize>| {
        let early = asked(&alone)?.early_at_once()?.len();
        (early < fewest).then_some((alone, early))
    };
    let Some((alone, early)) = each.chain([all.clone()]).find_map(fresher) else { return Ok(one) };
    let best = solve::plan(&as_one.problem, &Limit::steps(STEPS)).ok();
    if best.is_some_and(|plan| as_one.early(&plan).len() <= early) {
        return Ok(one);
    }
    Work::apart(one.orders, &alone)
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

    /// The orders that a plan has ready hours before they are wanted, or on a day before.
    fn early(&self, plan: &Plan) -> Vec<usize> {
        too_soon(&self.tasks, &self.hours, plan)
    }

    /// Those of the plan that is found at once; `None` where none is.
    fn early_at_once(&self) -> Option<Vec<usize>> {
        solve::quickly(&self.problem).ok().map(|plan| self.early(&plan))
    }
}
