//! Bread of the day before is no way out.

use super::super::ask::Hours;
use super::super::fresh::{on_the_day, ready, soonest_fresh};
use super::super::problem::{Minute, Problem};
use super::super::tasks::Tasks;
use super::Case;
use super::mend::{Apart, Mend};
use super::relax::least;
use std::borrow::Cow;

/// So much later an order is tried, in minutes, for it to be of its day.
const LATER: [Minute; 7] = [15, 60, 120, 240, 480, 720, 1440];

impl Case<'_> {
    /// What is to be possible when something is changed: as long as only fresh bread helps, that.
    pub(super) fn as_asked<'a>(&self, apart: &'a Apart) -> Cow<'a, Problem> {
        self.on_its_day(&apart.problem, &apart.tasks, &apart.hours)
    }

    /// The same of what is planned now.
    pub(super) fn asked(&self) -> Cow<'_, Problem> {
        self.on_its_day(self.problem, self.tasks, self.hours)
    }

    fn on_its_day<'a>(&self, problem: &'a Problem, tasks: &Tasks, hours: &Hours) -> Cow<'a, Problem> {
        match self.clock {
            Some(clock) if self.fresh && self.rest.is_none() => {
                Cow::Owned(on_the_day(problem, tasks, hours, clock, |_| true))
            }
            _ => Cow::Borrowed(problem),
        }
    }

    /// By how much what is made then would be ready too soon before it is wanted: the most of all orders; `None` where it is fresh.
    pub(super) fn too_soon(&self, mends: &[Mend]) -> Option<Minute> {
        let apart = self.mended(mends).filter(|_| !mends.is_empty() && self.rest.is_none())?;
        let plan = self.quickly(&apart.problem)?;
        let early = |(finals, due): (&Vec<usize>, &Option<Minute>)| {
            let (due, clock) = ((*due)?, self.clock?);
            let ready = ready(&plan, &apart.tasks, finals, due)?;
            (ready < soonest_fresh(clock, due)?).then_some(due - ready)
        };
        apart.tasks.finals.iter().zip(&apart.hours.dues).filter_map(early).max()
    }

    /// When at the soonest an order can be ready on its day, where it is wanted before that: the least that it has to be wanted later. All others
    /// but those that are `early` too are of their day then as well, and a rest may take the shorter time that its formula allows.
    pub fn ready_on_the_day(&self, order: usize, early: &[usize]) -> Option<Minute> {
        let (clock, due) = (self.clock?, self.hours.dues.get(order).copied().flatten()?);
        let is_fresh = |by: i64| {
            let apart = self.mended(&[Mend::Later(Some(order), by)]);
            apart.is_some_and(|apart| {
                let is_meant = |other: usize| other == order || !early.contains(&other);
                self.possible(&on_the_day(&apart.problem, &apart.tasks, &apart.hours, clock, is_meant))
            })
        };
        let enough = LATER.into_iter().find(|by| is_fresh(*by))?;
        Some(due + least(enough, is_fresh)?).filter(|at| {
            let day = |minute: Minute| clock.at(minute).map(|at| at.date());
            day(*at) == day(due)
        })
    }
}
