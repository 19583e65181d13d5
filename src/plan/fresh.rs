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
    let mut problem = problem.clone();
    let Some(earliest) = hours.earliest else { return problem };
    // A moment that stands still, from which the others are counted.
    let anchor = problem.tasks.len();
    let mut lags = Vec::new();
    for (order, (finals, due)) in tasks.finals.iter().zip(&hours.dues).enumerate() {
        let keeps = tasks.keeps.get(order).copied().flatten().is_some();
        let soonest = due.filter(|_| !keeps && is_meant(order)).and_then(|due| soonest_fresh(clock, due));
        let Some(soonest) = soonest.filter(|soonest| *soonest > earliest) else { continue };
        lags.extend(finals.iter().map(|made| {
            // Straight out of a rest that may go on something is finished when it is wanted.
            let rest = tasks.list.get(*made).filter(|task| task.kind == StepKind::Wait);
            let (to, sooner) = match rest.and_then(|task| task.most_minutes) {
                Some(most) => (Point::start(*made), most),
                None => (Point::end(*made), 0),
            };
            let least = soonest - sooner - earliest;
            Lag { from: Point::start(anchor), to, least, most: None, rule: Rule::After }
        }));
    }
    if lags.is_empty() {
        return problem;
    }
    let label = Label { recipe: 5, part: anchor, step: 0, load: 0 };
    problem.tasks.push(Task { label, kind: Kind::Wait, shortest: 0, longest: 0, cooks: 0, holds: None });
    problem.earliest = Some(earliest);
    problem.dues.push(Due { tasks: vec![anchor], minute: earliest });
    problem.lags.extend(lags);
    problem
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
