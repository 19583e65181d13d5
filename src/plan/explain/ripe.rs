//! What ripens, is then kept in the cold, and passes what its rest may go on while nobody is there to put it there.

use super::super::problem::{Minute, Point, Problem, Rule};
use super::offer::{Length, Limited, Offer};
use super::relax::least;
use super::{Case, time};
use crate::plan::tasks::Task;

/// By so many hours a rest is let go on at most.
const LONGEST: i64 = 48;

/// A rest after which somebody puts what ripened into the cold.
struct Ripe<'a> {
    rest: &'a Task,
    /// The task and, in the planner's problem, the moment at which that is done, with the lag between them.
    at: usize,
    moment: usize,
    lag: usize,
}

impl Case<'_> {
    /// What ripens while nobody is there to put it into the cold: which rest, what it may go on, and what would give way.
    pub(super) fn ripe_at_night(&self, ways: &mut Vec<Offer>, because: &mut Vec<String>) {
        let all = self.ripe();
        let for_longest = |some: &[&Ripe<'_>]| self.possible(&self.later_into_cold(some, LONGEST));
        let every: Vec<&Ripe<'_>> = all.iter().collect();
        if every.is_empty() || !for_longest(&every) {
            return;
        }
        let one = every.iter().find(|ripe| for_longest(&[**ripe])).copied();
        let some = one.map_or(every, |one| vec![one]);
        let Some(hours) = least(LONGEST, |hours| self.possible(&self.later_into_cold(&some, hours))) else { return };
        let Some(plan) = self.quickly(&self.later_into_cold(&some, hours)) else { return };
        let mut together: Option<Offer> = None;
        for ripe in some {
            let room = self.problem.lags.get(ripe.lag).and_then(|lag| lag.most);
            let (Some(start), Some(end), Some(room)) = (plan.starts.get(ripe.at), plan.ends.get(ripe.at), room) else {
                continue;
            };
            let put_away = plan.starts.get(ripe.moment).copied().unwrap_or(*end);
            if put_away - end <= room {
                continue;
            }
            because.push(self.nobody_for(ripe.rest, *start));
            let length = Length::up_to(ripe.rest, self.named(ripe.rest), put_away - start);
            let offer = Offer::length(Length { limited: Limited::UntilSomebody(ripe.rest.span), ..length });
            together = Some(match together {
                Some(all) => all.and(offer),
                None => offer,
            });
        }
        ways.extend(together.and_then(|offer| self.proven(offer)));
    }

    /// That nobody puts into the cold what a rest that begins then made.
    fn nobody_for(&self, rest: &Task, start: Minute) -> String {
        let part = self.work.batches.get(rest.batch).and_then(|batch| batch.recipe.part(rest.step.part));
        let part = part.map(|part| part.name.to_string()).unwrap_or_default();
        let most = rest.most_minutes.unwrap_or(rest.minutes);
        let latest = self.wall(start + most).map(|at| format!(", until {at}")).unwrap_or_default();
        format!(
            "{} may go on for {}{latest}, and nobody is there by then to put `{part}` into the cold",
            self.named(rest),
            time(most)
        )
    }

    /// All of them that the problem knows.
    fn ripe(&self) -> Vec<Ripe<'_>> {
        let found = self.tasks.into_cold.iter().filter_map(|one| {
            let moment = self.tasks.into_cold(one.rest)?;
            let is_it = |lag: &&super::super::problem::Lag| {
                lag.rule == Rule::Attended && lag.from == Point::end(one.rest) && lag.to == Point::start(moment)
            };
            let lag = self.problem.lags.iter().position(|lag| is_it(&lag))?;
            Some(Ripe { rest: self.tasks.list.get(one.rest)?, at: one.rest, moment, lag })
        });
        found.collect()
    }

    /// The problem with so many hours more for some of them to be put into the cold.
    fn later_into_cold(&self, some: &[&Ripe<'_>], hours: i64) -> Problem {
        let mut other = self.problem.clone();
        for ripe in some {
            if let Some(lag) = other.lags.get_mut(ripe.lag) {
                lag.most = lag.most.map(|most| most + hours * 60);
            }
        }
        other
    }
}
