//! What follows from a log beside what it says: nobody writes down everything.
//!
//! What must come before something that has begun is over; what was to be done at a moment that went by is done; an oven that has taken
//! the next load has given back the one before; and a rest, which needs nobody, runs from the end of what it comes after.

use super::super::logged::Logged;
use super::super::occupied::{held, is_room};
use super::super::problem::{Edge, Minute, Problem, Rule};
use super::super::tasks::Tasks;
use crate::model::step::StepKind;

/// What is known of the tasks: what a log says of them, and what follows from it.
#[derive(Debug, Clone)]
pub(super) struct Known {
    /// For each task, when it began, and when it ended if it has.
    pub(super) logged: Vec<Option<Logged>>,
    /// Rests of which no log tells, that run or are over since nothing else was to be done before them.
    pub(super) rests: Vec<usize>,
    /// What the log has running, but was taken out for something else: the one, and the other that went in.
    pub(super) taken_out: Vec<(usize, usize)>,
    /// What the log has in the heat long after its time was up: it is out, and nobody wrote that down.
    pub(super) overdue: Vec<usize>,
}

/// So much longer than its longest time, a quarter of it and ten minutes at least, nothing stays in the heat: it is out, or charcoal. Common
/// practice, no source.
fn is_out(minutes: Minute, passed: Minute) -> bool {
    passed > minutes + (minutes / 4).max(10)
}

impl Known {
    /// What follows from a log at a moment.
    pub(super) fn of(whole: &Problem, tasks: &Tasks, logged: &[Option<Logged>], now: Minute) -> Known {
        let mut known =
            Known { logged: logged.to_vec(), rests: Vec::new(), taken_out: Vec::new(), overdue: Vec::new() };
        known.taken_out(whole, tasks);
        known.overdue(tasks, now);
        // Folds into a rest that nobody wrote down came at their moments too.
        loop {
            known.at_moments(whole, now);
            known.before(whole, tasks, now);
            if !known.rests(whole, tasks, now) {
                return known;
            }
        }
    }

    /// What the log has running in a unit that has taken something else meanwhile is out of it.
    fn taken_out(&mut self, whole: &Problem, tasks: &Tasks) {
        // What is held beyond a step, until something else takes it out, is told by that.
        let holds = |at: usize| {
            let holds = whole.tasks.get(at).and_then(|task| task.holds)?;
            (tasks.holder(at) == Some(at)).then_some(holds)
        };
        let mut begun: Vec<(Minute, usize)> =
            self.logged.iter().enumerate().filter_map(|(at, one)| Some((one.as_ref()?.start, at))).collect();
        begun.sort_unstable();
        for (number, (start, at)) in begun.iter().enumerate() {
            let Some(own) = holds(*at) else { continue };
            let is_in = |other: &usize| {
                let logged = self.logged.get(*other).copied().flatten();
                logged.is_some_and(|one| one.end.is_none_or(|end| end > *start))
            };
            let before = begun.iter().take(number).filter(|(since, _)| since < start).map(|(_, other)| *other);
            let mut inside: Vec<usize> =
                before.filter(|other| holds(*other).is_some_and(|there| there.equipment == own.equipment)).collect();
            inside.retain(is_in);
            while !is_room(whole, own, inside.iter().filter_map(|other| holds(*other))) {
                let runs =
                    |other: &usize| self.logged.get(*other).is_some_and(|one| one.is_some_and(|one| one.end.is_none()));
                let Some(first) = inside.iter().position(runs) else { break };
                let out = inside.remove(first);
                if let Some(Some(one)) = self.logged.get_mut(out) {
                    one.end = Some(*start);
                    self.taken_out.push((out, *at));
                }
            }
        }
    }

    /// What is tended, runs by the log, and should have been out long ago came out when its time was up.
    fn overdue(&mut self, tasks: &Tasks, now: Minute) {
        for (at, (task, slot)) in tasks.list.iter().zip(&mut self.logged).enumerate() {
            let Some(Logged { start, end: end @ None, .. }) = slot.as_mut() else { continue };
            if task.kind == StepKind::Tend && is_out(task.minutes, now - *start) {
                *end = Some(*start + task.minutes);
                self.overdue.push(at);
            }
        }
    }

    /// What was to be done at a moment of something that went by is done.
    fn at_moments(&mut self, whole: &Problem, now: Minute) {
        for lag in whole.lags.iter().filter(|lag| lag.rule == Rule::Into && lag.from.edge == Edge::Start) {
            let began = self.logged.get(lag.from.task).copied().flatten().map(|one| one.start);
            let shortest = whole.tasks.get(lag.to.task).map_or(0, |task| task.shortest);
            let (Some(began), Some(most), Some(None)) = (began, lag.most, self.logged.get(lag.to.task)) else {
                continue;
            };
            let start = began + lag.least;
            if began + most < now
                && start + shortest <= now
                && let Some(slot) = self.logged.get_mut(lag.to.task)
            {
                *slot = Some(Logged { start, end: Some(start + shortest), said: None });
            }
        }
    }

    /// What must come before something that has begun is over.
    fn before(&mut self, whole: &Problem, tasks: &Tasks, now: Minute) {
        loop {
            let mut found: Option<(usize, Minute, Edge)> = None;
            let mut at_most = now;
            for lag in &whole.lags {
                let (Some(first), Some(Some(then))) = (self.logged.get(lag.from.task), self.logged.get(lag.to.task))
                else {
                    continue;
                };
                let moment = match lag.to.edge {
                    Edge::Start => Some(then.start),
                    Edge::End => then.end,
                };
                // Of what runs the end may still be to come.
                let is_open = match first {
                    None => true,
                    Some(first) => first.end.is_none() && lag.from.edge == Edge::End,
                };
                let Some(by) = moment.map(|moment| moment - lag.least).filter(|by| is_open && *by <= now) else {
                    continue;
                };
                if found.is_none_or(|(_, known, _)| by < known) {
                    found = Some((lag.from.task, by, lag.from.edge));
                    at_most = by + lag.least.max(0);
                }
            }
            let Some((task, by, edge)) = found else { return };
            let shortest = whole.tasks.get(task).map_or(0, |task| task.shortest);
            // A rest began when what it comes after ended, where the log has that.
            let is_rest = tasks.list.get(task).is_some_and(|task| task.kind == StepKind::Wait);
            let began = if is_rest { self.begins_by_itself(whole, tasks, task) } else { None };
            // A fold into it that came late, or early, does not move it.
            let since = began.filter(|began| *began <= at_most).unwrap_or(by);
            let began = began.filter(|began| *began <= by).unwrap_or(by - shortest);
            let Some(slot) = self.logged.get_mut(task) else { return };
            *slot = Some(match (*slot, edge) {
                (None, Edge::Start) => Logged { start: since, end: None, said: None },
                (None, Edge::End) => Logged { start: began, end: Some(by), said: None },
                // That it had begun was known only from what came after it.
                (Some(running @ Logged { said: None, .. }), _) => {
                    Logged { start: running.start.min(by - shortest), end: Some(by), ..running }
                }
                (Some(running), _) => Logged { end: Some(by.max(running.start)), ..running },
            });
        }
    }

    /// A rest runs from the end of what it comes after, in the warm or in the cold, whether somebody wrote it down or not: whether any
    /// was found. One that may go on runs until it is taken up; another is over when its time is.
    fn rests(&mut self, whole: &Problem, tasks: &Tasks, now: Minute) -> bool {
        let mut found = false;
        for (at, task) in tasks.list.iter().enumerate() {
            let is_open = self.logged.get(at).is_some_and(Option::is_none);
            let minutes = whole.tasks.get(at).map_or(0, |task| task.shortest);
            if task.kind != StepKind::Wait || !is_open || minutes == 0 {
                continue;
            }
            let Some(start) = self.begins_by_itself(whole, tasks, at).filter(|start| *start <= now) else { continue };
            let over = start + minutes;
            let end = (task.most_minutes.is_none() && over <= now).then_some(over);
            if let Some(slot) = self.logged.get_mut(at) {
                *slot = Some(Logged { start, end, said: None });
                self.rests.push(at);
                found = true;
            }
        }
        found
    }

    /// When a rest that no log names began: at the end of all that it comes after, where that is known, is in the same part or passes
    /// what is alive on to it, and where what it rests in has room for it.
    fn begins_by_itself(&self, whole: &Problem, tasks: &Tasks, at: usize) -> Option<Minute> {
        let part = |at: usize| tasks.list.get(at).map(|task| (task.batch, task.step.part));
        let (mut start, mut follows) = (Minute::MIN, false);
        for lag in whole.lags.iter().filter(|lag| lag.to.task == at && lag.to.edge == Edge::Start && lag.least >= 0) {
            if lag.from.task >= tasks.list.len() {
                continue;
            }
            let from = self.logged.get(lag.from.task).copied().flatten()?;
            let was = if lag.from.edge == Edge::Start { from.start } else { from.end? };
            start = start.max(was + lag.least);
            let passes_on =
                part(lag.from.task) == part(at) || matches!(lag.rule, Rule::AtOnce | Rule::Alive | Rule::StraightAfter);
            follows |= passes_on && lag.from.edge == Edge::End;
        }
        if !follows {
            return None;
        }
        let held = |at: usize| held(whole, tasks, at);
        let Some(own) = held(at) else { return Some(start) };
        // What must be hot was lit by somebody, who would have written it down.
        if whole.equipment.get(own.equipment).is_none_or(|equipment| equipment.heating > 0) {
            return None;
        }
        let is_in = |(other, one): (usize, &Option<Logged>)| {
            let one = one.as_ref()?;
            let is_there = one.end.is_none_or(|end| end > start);
            held(other).filter(|holds| is_there && holds.equipment == own.equipment)
        };
        is_room(whole, own, self.logged.iter().enumerate().filter_map(is_in)).then_some(start)
    }
}
