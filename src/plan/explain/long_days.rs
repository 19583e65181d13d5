//! Whose day would be too long: from which step to which, and how long.

use super::super::problem::{Minute, Person, Problem};
use super::mend::Mend;
use super::offer::Offer;
use super::relax::least;
use super::{Case, time};
use crate::measure::quantity::Duration;
use crate::plan::tasks::Task;

/// Minutes in a day.
const DAY: Minute = 1440;

/// A longer day is told in steps of so many minutes.
const STEP: Minute = 15;

impl Case<'_> {
    /// Whether longer days of those who have no hours of their own would be enough, and how long one would be.
    pub(super) fn longer_days(&self, ways: &mut Vec<Offer>, because: &mut Vec<String>) {
        let mut other = self.problem.clone();
        let mut short: Option<(Minute, Person)> = None;
        for person in other.people.iter_mut().filter(|person| person.shifts.is_empty() && person.longest < DAY) {
            if short.as_ref().is_none_or(|(longest, _)| person.longest > *longest) {
                short = Some((person.longest, person.clone()));
            }
            person.longest = DAY;
        }
        let Some((longest, person)) = short.filter(|_| self.possible(&other)) else { return };
        let told = self.longest_day(&other, &person).filter(|(lasts, _)| *lasts > longest);
        let guess = told.as_ref().map_or(DAY, |(lasts, _)| *lasts);
        because.extend(told.map(|(lasts, from_to)| {
            format!("{from_to} it is {}, and nobody works longer than {} a day", time(lasts), time(longest))
        }));
        let mends = |minutes: Minute| {
            let mut kitchen = self.kitchen.clone();
            kitchen.longest = Some(Duration::minutes(minutes));
            for cook in kitchen.named.iter_mut().filter(|cook| cook.hours.is_none()) {
                cook.longest = Some(Duration::minutes(minutes));
            }
            vec![Mend::Kitchen(Box::new(kitchen))]
        };
        let first = longest / STEP;
        let holds = |steps: i64| self.holds_quickly(&mends((first + steps) * STEP));
        let steps = ((guess + STEP - 1) / STEP - first).clamp(1, DAY / STEP - first);
        let enough = match holds(steps) {
            true if steps == 1 || !holds(steps - 1) => Some(steps),
            true => least(steps, holds),
            false => least(DAY / STEP - first, holds),
        };
        ways.extend(enough.map(|steps| {
            let minutes = (first + steps) * STEP;
            let said =
                format!("let a day of work be longer (`longest {}`), where law and contracts allow it", time(minutes));
            Offer::said_so(said, mends(minutes))
        }));
    }

    /// The longest stretch of work in a plan without so long a pause, and from which step to which it is.
    fn longest_day(&self, other: &Problem, person: &Person) -> Option<(Minute, String)> {
        let plan = self.quickly(other)?;
        let times = self.tasks.list.iter().zip(other.tasks.iter()).zip(plan.starts.iter().zip(&plan.ends));
        let work = times.filter(|((_, task), _)| task.cooks > 0);
        let mut work: Vec<(Minute, Minute, &Task)> =
            work.map(|((step, _), (start, end))| (*start, *end, step)).collect();
        work.sort_by_key(|(start, end, _)| (*start, *end));
        let mut days: Vec<Vec<(Minute, Minute, &Task)>> = Vec::new();
        for one in work {
            match days.last_mut() {
                Some(day) if day.last().is_some_and(|(_, end, _)| !person.is_another_day(*end, one.0)) => day.push(one),
                _ => days.push(vec![one]),
            }
        }
        let lasts = |day: &&Vec<(Minute, Minute, &Task)>| Some(day.last()?.1 - day.first()?.0);
        let day = days.iter().max_by_key(lasts)?;
        let (first, last) = (day.first()?, day.last()?);
        Some((last.1 - first.0, format!("from {} to {}", self.named(first.2), self.named(last.2))))
    }
}
