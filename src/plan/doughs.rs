//! Whether one dough is made for two times: where only a dough for each can be planned in the day's kitchen, each has its own.

use super::ask::{self, Hours};
use super::clock::Clock;
use super::limit::Limit;
use super::problem::{Minute, Problem};
use super::shifts::{self, Staff};
use super::solve;
use super::tasks;
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

/// A dough for each time is no help where what comes of it is of the day before. Common practice, no source.
const FRESH: Minute = 12 * 60;

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
    let asked = |alone: &[usize]| problem(&one.orders, &tried, alone, kitchen).filter(|one| one.faults().is_empty());
    let Some(as_one) = asked(&[]).filter(|as_one| solve::quickly(as_one).is_err()) else { return Ok(one) };
    let each = shared.into_iter().take(MOST_TRIED).filter(|orders| *orders != all);
    let can_be = |alone: &Vec<usize>| asked(alone).is_some_and(|problem| is_fresh(&problem));
    let Some(alone) = each.chain([all.clone()]).find(can_be) else { return Ok(one) };
    if solve::plan(&as_one, &Limit::steps(STEPS)).is_ok() {
        return Ok(one);
    }
    Work::apart(one.orders, &alone)
}

/// Whether everything can be planned and is ready no longer before it is wanted than [`FRESH`].
fn is_fresh(problem: &Problem) -> bool {
    let Ok(plan) = solve::quickly(problem) else { return false };
    let ready = |task: &usize| plan.ends.get(*task).copied().unwrap_or(Minute::MIN);
    problem.dues.iter().all(|due| due.tasks.iter().map(ready).max().is_none_or(|ready| due.minute - ready <= FRESH))
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

/// What the planner is asked of some orders of a day, in the kitchen's own hours; those that are `alone` share no dough with one
/// for another time. `None` where it cannot be asked.
fn problem(orders: &[Order], tried: &[usize], alone: &[usize], kitchen: &Kitchen) -> Option<Problem> {
    let last = orders.iter().filter_map(|order| order.ready).map(|ready| ready.when).max()?;
    let clock = Clock::around(TimeZone::UTC, last.date()).ok()?;
    let of_these: Vec<Order> = tried.iter().filter_map(|at| orders.get(*at)).cloned().collect();
    let due = |order: &Order| clock.minute(order.ready.map_or(last, |ready| ready.when)).ok().map(Some);
    let dues: Vec<Option<Minute>> = of_these.iter().map(due).collect::<Option<_>>()?;
    let alone: Vec<usize> = (0..tried.len()).filter(|at| tried.get(*at).is_some_and(|at| alone.contains(at))).collect();
    let work = Work::apart(of_these, &alone).ok()?;
    let tasks = tasks::of(&work, kitchen).ok()?;
    let until = dues.iter().flatten().copied().max()?;
    let earliest = until - shifts::reach(&tasks);
    let Staff { open, people } = Staff::by_the_clock(kitchen, &clock, earliest, until);
    Some(ask::problem(&tasks, kitchen, &Hours { open, people, cold: true, dues, earliest: Some(earliest) }))
}
