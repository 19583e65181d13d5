//! Whether what a plan makes is of the day on which it is wanted: bread of the day before is no way out.

use super::super::ask::Hours;
use super::super::clock::Clock;
use super::super::problem::{Due, FRESH, Kind, Label, Lag, Minute, Point, Problem, Rule, Task};
use super::super::solve::Plan;
use super::super::tasks::Tasks;
use super::Case;
use super::mend::{Apart, Mend};
use super::relax::least;
use std::borrow::Cow;

/// The soonest at which something may be ready that is wanted at a minute: on the day itself, and of what is wanted in the first hours of a
/// day, in the night before it.
pub(super) fn soonest_fresh(clock: &Clock, due: Minute) -> Option<Minute> {
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
        lags.extend(finals.iter().map(|made| Lag {
            from: Point::start(anchor),
            to: Point::end(*made),
            least: soonest - earliest,
            most: None,
            rule: Rule::After,
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

/// So much later an order is tried, in minutes, for it to be of its day.
const LATER: [Minute; 7] = [15, 60, 120, 240, 480, 720, 1440];

impl Case<'_> {
    /// What is to be possible when something is changed: as long as only fresh bread helps, that.
    pub(super) fn as_asked<'a>(&self, apart: &'a Apart) -> Cow<'a, Problem> {
        match self.clock {
            Some(clock) if self.fresh && self.rest.is_none() => {
                Cow::Owned(on_the_day(&apart.problem, &apart.tasks, &apart.hours, clock, |_| true))
            }
            _ => Cow::Borrowed(&apart.problem),
        }
    }

    /// By how much what is made then would be ready too soon before it is wanted: the most of all orders; `None` where it is fresh.
    pub(super) fn too_soon(&self, mends: &[Mend]) -> Option<Minute> {
        let apart = self.mended(mends).filter(|_| !mends.is_empty() && self.rest.is_none())?;
        let plan = self.quickly(&apart.problem)?;
        let early = |(finals, due): (&Vec<usize>, &Option<Minute>)| {
            let (due, clock) = ((*due)?, self.clock?);
            let ready = ready(&plan, finals)?;
            (ready < soonest_fresh(clock, due)?).then_some(due - ready)
        };
        apart.tasks.finals.iter().zip(&apart.hours.dues).filter_map(early).max()
    }

    /// When at the soonest an order can be ready on its day, where it is wanted before that: the least that it has to be wanted later.
    pub fn ready_on_the_day(&self, order: usize) -> Option<Minute> {
        let (clock, due) = (self.clock?, self.hours.dues.get(order).copied().flatten()?);
        let is_fresh = |by: i64| {
            let apart = self.mended(&[Mend::Later(Some(order), by)]);
            apart.is_some_and(|apart| {
                let problem = on_the_day(&apart.problem, &apart.tasks, &apart.hours, clock, |other| other == order);
                self.possible(&problem)
            })
        };
        let enough = LATER.into_iter().find(|by| is_fresh(*by))?;
        Some(due + least(enough, is_fresh)?).filter(|at| {
            let day = |minute: Minute| clock.at(minute).map(|at| at.date());
            day(*at) == day(due)
        })
    }
}

/// When the last of some tasks ends.
fn ready(plan: &Plan, finals: &[usize]) -> Option<Minute> {
    finals.iter().filter_map(|at| plan.ends.get(*at)).max().copied()
}
