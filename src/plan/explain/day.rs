//! Bread of the day before is no way out.

use super::super::ask::Hours;
use super::super::fresh::{on_the_day, ready, soonest_fresh};
use super::super::hot_food::HotFood;
use super::super::problem::{Lag, Minute, Problem};
use super::super::tasks::Tasks;
use super::Case;
use super::mend::{Apart, EFFORT, Mend};
use super::relax::least;
use std::borrow::Cow;

/// So much later an order is tried, in minutes, for it to be of its day.
const LATER: [Minute; 6] = [15, 60, 120, 240, 480, 720];

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
        let fresh = match self.clock {
            Some(clock) if self.fresh && self.rest.is_none() => {
                Cow::Owned(on_the_day(problem, tasks, hours, clock, |_| true))
            }
            _ => Cow::Borrowed(problem),
        };
        if !self.hot || self.rest.is_some() || tasks.hot_food.is_empty() {
            return fresh;
        }
        // Nor does what helps let hot food stand.
        let mut asked = fresh.into_owned();
        let lag = |food: &HotFood| Lag { most: Some(food.most), ..Lag::after(food.made, food.rest) };
        asked.lags.extend(tasks.hot_food.iter().map(lag));
        Cow::Owned(asked)
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
        let is_meant = |other: usize| other == order || !early.contains(&other);
        let of_its_day = |apart: &Apart| on_the_day(&apart.problem, &apart.tasks, &apart.hours, clock, is_meant);
        let soonest = |is_fresh: &dyn Fn(i64) -> bool| {
            // To the last minute of that day.
            let last = clock.minute(clock.at(due)?.date().tomorrow().ok()?.at(0, 0, 0, 0)).ok()? - 1 - due;
            let of_the_day = LATER.into_iter().filter(|by| *by < last).chain([last]);
            let enough = of_the_day.into_iter().find(|by| is_fresh(*by))?;
            least(enough, is_fresh)
        };
        // With others of one dough, or by itself.
        let can = |by: i64| {
            let later = [Mend::Later(Some(order), by)];
            self.can_be_planned_so(self.all_orders(), &later, EFFORT, &of_its_day)
        };
        // What is so is asked once more as it is planned then.
        let is_fresh = |by: i64| {
            let apart = self.mended(&[Mend::Later(Some(order), by)]);
            apart.is_some_and(|apart| self.possible(&of_its_day(&apart)))
        };
        let by = soonest(&can)?;
        Some(due + if is_fresh(by) { by } else { soonest(&is_fresh)? })
    }
}
