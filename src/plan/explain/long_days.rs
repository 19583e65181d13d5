//! Whose day would be too long: from which step to which, and how long.

use super::super::problem::{Minute, Problem};
use super::super::solve;
use super::offer::Offer;
use super::{Case, time};
use crate::plan::tasks::Task;

/// Minutes in a day.
const DAY: Minute = 1440;

impl Case<'_> {
    /// Whether longer days of those who have no hours of their own would be enough, and how long one would be.
    pub(super) fn longer_days(&self, ways: &mut Vec<Offer>, because: &mut Vec<String>) {
        let mut other = self.problem.clone();
        let mut short: Option<(Minute, Minute)> = None;
        for person in other.people.iter_mut().filter(|person| person.shifts.is_empty() && person.longest < DAY) {
            short = short.max(Some((person.longest, person.away)));
            person.longest = DAY;
        }
        let Some((longest, away)) = short.filter(|_| self.possible(&other)) else { return };
        because.extend(self.longest_day(&other, away).filter(|(lasts, _)| *lasts > longest).map(|(lasts, from_to)| {
            format!("{from_to} it is {}, and nobody works longer than {} a day", time(lasts), time(longest))
        }));
        ways.push("let a day of work be longer (`longest`), where law and contracts allow it".to_owned().into());
    }

    /// The longest stretch of work in a plan without so long a pause, and from which step to which it is.
    fn longest_day(&self, other: &Problem, away: Minute) -> Option<(Minute, String)> {
        let plan = solve::quickly(other).ok()?;
        let times = self.tasks.list.iter().zip(other.tasks.iter()).zip(plan.starts.iter().zip(&plan.ends));
        let work = times.filter(|((_, task), _)| task.cooks > 0);
        let mut work: Vec<(Minute, Minute, &Task)> =
            work.map(|((step, _), (start, end))| (*start, *end, step)).collect();
        work.sort_by_key(|(start, end, _)| (*start, *end));
        let mut days: Vec<Vec<(Minute, Minute, &Task)>> = Vec::new();
        for one in work {
            match days.last_mut() {
                Some(day) if day.last().is_some_and(|(_, end, _)| one.0 < end + away) => day.push(one),
                _ => days.push(vec![one]),
            }
        }
        let lasts = |day: &&Vec<(Minute, Minute, &Task)>| Some(day.last()?.1 - day.first()?.0);
        let day = days.iter().max_by_key(lasts)?;
        let (first, last) = (day.first()?, day.last()?);
        Some((last.1 - first.0, format!("from {} to {}", self.named(first.2), self.named(last.2))))
    }
}
