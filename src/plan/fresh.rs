//! Whether what a plan makes is of the day on which it is wanted.
//!
//! One question for doughs, for rests at the shorter end of their range, for warnings and for ways out.

use super::ask::Hours;
use super::clock::Clock;
use super::problem::{Due, FRESH, Kind, Label, Lag, Minute, Point, Problem, Rule, Task};
use super::solve::Plan;
use super::tasks::Tasks;
use crate::model::step::StepKind;

/// The soonest at which something may be ready that is wanted at a minute: on the day itself, and of what is wanted in the first hours of a
/// day, in the night before it.
pub fn soonest_fresh(clock: &Clock, due: Minute) -> Option<Minute> {
    let midnight = clock.minute(clock.at(due)?.date().at(0, 0, 0, 0)).ok()?;
    Some(midnight.min(due - FRESH))
}

/// A problem in which some of the orders are ready no sooner than they are fresh; what keeps is as good on the day after.
pub fn on_the_day(
    problem: &Problem,
    tasks: &Tasks,
    hours: &Hours,
    clock: &Clock,
    is_meant: impl Fn(usize) -> bool,
) -> Problem {
    ready_from(problem, tasks, hours, |order, due| soonest_fresh(clock, due).filter(|_| is_meant(order)))
}

/// A problem in which some of the orders are ready few hours before they are wanted, and no sooner.
pub fn within_hours(problem: &Problem, tasks: &Tasks, hours: &Hours, is_meant: impl Fn(usize) -> bool) -> Problem {
    ready_from(problem, tasks, hours, |order, due| is_meant(order).then_some(due - FRESH))
}

fn ready_from(
    problem: &Problem,
    tasks: &Tasks,
    hours: &Hours,
    soonest: impl Fn(usize, Minute) -> Option<Minute>,
) -> Problem {
    let mut soonest_of = Vec::new();
    let Some(earliest) = hours.earliest else { return problem.clone() };
    for (order, (finals, due)) in tasks.finals.iter().zip(&hours.dues).enumerate() {
        let keeps = tasks.keeps.get(order).copied().flatten().is_some();
        let soonest = due.filter(|_| !keeps).and_then(|due| soonest(order, due));
        let Some(soonest) = soonest.filter(|soonest| *soonest > earliest) else { continue };
        soonest_of.extend(finals.iter().map(|made| {
            // Straight out of a rest that may go on something is finished when it is wanted.
            let rest = tasks.list.get(*made).filter(|task| task.kind == StepKind::Wait);
            match rest.and_then(|task| task.most_minutes) {
                Some(most) => (Point::start(*made), soonest - most),
                None => (Point::end(*made), soonest),
            }
        }));
    }
    no_sooner(problem, &soonest_of)
}

/// A problem in which some moments come no sooner than at some minutes each.
pub fn no_sooner(problem: &Problem, moments: &[(Point, Minute)]) -> Problem {
    let mut problem = problem.clone();
    let Some(earliest) = problem.earliest.filter(|_| !moments.is_empty()) else { return problem };
    // A moment that stands still, from which the others are counted.
    let anchor = problem.tasks.len();
    let from = Point::start(anchor);
    let lags = moments.iter().map(|(to, minute)| Lag {
        from,
        to: *to,
        least: minute - earliest,
        most: None,
        rule: Rule::After,
    });
    let lags: Vec<Lag> = lags.collect();
    let label = Label { recipe: 5, part: anchor, step: 0, load: 0 };
    problem.tasks.push(Task { label, kind: Kind::Wait, shortest: 0, longest: 0, cooks: 0, holds: None });
    problem.dues.push(Due { tasks: vec![anchor], minute: earliest });
    problem.lags.extend(lags);
    problem
}

/// The orders of what does not keep that a plan has ready hours before they are wanted, or on a day before.
pub fn too_soon(tasks: &Tasks, hours: &Hours, plan: &Plan) -> Vec<usize> {
    let is_early = |order: usize| {
        let due = hours.dues.get(order).copied().flatten()?;
        let keeps = tasks.keeps.get(order).copied().flatten().is_some();
        Some(!keeps && ready(plan, tasks, tasks.finals.get(order)?, due)? < due - FRESH)
    };
    (0..tasks.finals.len()).filter(|order| is_early(*order) == Some(true)).collect()
}

/// The orders of what does not keep that a plan has ready on a day before the one on which they are wanted.
pub fn of_another_day(tasks: &Tasks, hours: &Hours, clock: &Clock, plan: &Plan) -> Vec<usize> {
    let is_early = |order: usize| {
        let due = hours.dues.get(order).copied().flatten()?;
        let keeps = tasks.keeps.get(order).copied().flatten().is_some();
        let ready = ready(plan, tasks, tasks.finals.get(order)?, due)?;
        Some(!keeps && ready < soonest_fresh(clock, due)?)
    };
    (0..tasks.finals.len()).filter(|order| is_early(*order) == Some(true)).collect()
}

/// When the last of some tasks that finish what is wanted at a minute has.
pub fn ready(plan: &Plan, tasks: &Tasks, finals: &[usize], due: Minute) -> Option<Minute> {
    let ready = |at: &usize| Some(tasks.handed_over(*at, (&plan.starts, *plan.ends.get(*at)?), due));
    finals.iter().filter_map(ready).max()
}
