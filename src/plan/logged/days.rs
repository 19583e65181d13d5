//! On which day a time of a log is: what rests a night in the cold does not go on twenty minutes after it went in.

use super::Reading;
use crate::language::bakes::Took;
use crate::model::step::StepKind;
use crate::plan::clock::Twice;
use crate::plan::problem::{Edge, Minute};
use jiff::civil::Time;

/// Rests of at least so many minutes say on which day it is what comes after them: shorter ones are cut short in a hot week. Common practice, no
/// source.
const SLOW: Minute = 180;

/// Of so long a rest at least a half is kept. Common practice, no source.
const HALF: Minute = 2;

/// What a slow rest lasts at the least, whatever becomes of it; nothing of another.
fn kept_of(minutes: Minute, slow: Minute) -> Minute {
    if minutes >= slow { minutes / HALF } else { 0 }
}

impl Reading<'_> {
    /// From when on a line of some tasks is looked for, the likeliest first: after the slow rests between it and what the log tells of
    /// before it; from the time in the head of its bake, or the step above it; and for what begins a bake, somewhat before that time.
    fn floors(&self, tasks: &[usize], begins: Minute) -> Vec<Minute> {
        let after = self.least_start(tasks, begins);
        let rested = self.soonest(tasks, begins, SLOW).unwrap_or(after);
        let early = if after == begins { begins - super::EARLY } else { after };
        vec![rested.max(after), after, early]
    }

    /// When the first of some tasks can have begun at the soonest.
    fn soonest(&self, tasks: &[usize], begins: Minute, slow: Minute) -> Option<Minute> {
        let rested = self.rested(begins, slow);
        tasks.iter().filter_map(|task| rested.get(*task).copied()).min()
    }

    /// When each task can have begun at the soonest, by what the log tells of those before it and the rests between that are as slow as that; of
    /// work, nothing is counted.
    fn rested(&self, begins: Minute, slow: Minute) -> Vec<Minute> {
        let list = &self.tasks.list;
        let rest = |at: usize| {
            let rest = list.get(at).filter(|task| task.kind == StepKind::Wait);
            rest.map_or(0, |rest| kept_of(rest.least_minutes, slow))
        };
        let known = |at: usize| self.logged.get(at).copied().flatten();
        let mut times: Vec<(Minute, Minute)> = (0..list.len())
            .map(|at| match known(at) {
                Some(logged) => (logged.start, logged.end.unwrap_or(logged.start + rest(at))),
                None => (begins, begins + rest(at)),
            })
            .collect();
        for _ in 0..list.len() {
            let mut is_new = false;
            for lag in self.tasks.lags.iter().filter(|lag| lag.least >= 0 && known(lag.to.task).is_none()) {
                if lag.to.edge != Edge::Start {
                    continue;
                }
                let Some((start, end)) = times.get(lag.from.task).copied() else { continue };
                let from = if lag.from.edge == Edge::Start { start } else { end };
                if let Some(time) = times.get_mut(lag.to.task).filter(|time| time.0 < from) {
                    *time = (from, from + rest(lag.to.task));
                    is_new = true;
                }
            }
            if !is_new {
                break;
            }
        }
        times.into_iter().map(|(start, _)| start).collect()
    }

    /// When a line says that something began, by the first of some floors that lies not after now.
    pub(super) fn start(&self, time: Time, (tasks, begins): (&[usize], Minute)) -> Option<Minute> {
        let floors = self.floors(tasks, begins);
        let starts = || floors.iter().filter_map(|floor| self.next(time, *floor));
        let found = starts().find(|start| *start <= self.now).or_else(|| self.next(time, floors.get(1).copied()?))?;
        // Of a time that the clocks show twice the one that leaves each rest before it half of its time.
        let is_twice = self.clock.twice(found) == Some(Twice::Before);
        let soonest = self.soonest(tasks, begins, 0).filter(|soonest| is_twice && found < *soonest);
        let again = soonest.and_then(|soonest| self.next(time, soonest)).filter(|again| *again <= self.now);
        Some(again.filter(|again| self.clock.twice(*again) == Some(Twice::After)).unwrap_or(found))
    }

    /// When something ended that began at a minute: a slow rest not after a small part of its time, if that would be before now.
    pub(super) fn end(&self, tasks: &[usize], start: Minute, took: Took) -> Option<Minute> {
        let Took::Between(_, end) = took else { return None };
        let of = tasks.first().and_then(|task| self.tasks.list.get(*task));
        let rest = of.filter(|task| task.kind == StepKind::Wait).map_or(0, |task| kept_of(task.least_minutes, SLOW));
        self.next(end, start + rest).filter(|end| *end <= self.now).or_else(|| self.next(end, start))
    }
}
