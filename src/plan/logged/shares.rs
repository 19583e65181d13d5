//! Work that several share, of which one line says that it runs.

use super::super::problem::{Minute, Person, Shift};
use super::{Logged, Reading};
use crate::language::bakes::Ran;

impl Reading<'_> {
    /// Of some loads of a step that the log does not know those that a line without a load says have begun, where they are shares of one
    /// piece of work: all of them. Into how many the plan cut it nobody at the bench knows.
    pub(super) fn shares(&self, open: &[usize]) -> Option<Vec<usize>> {
        let of = |at: usize| self.tasks.list.get(at).and_then(|task| Some((task.turn, task.bundle?)));
        let first = of(*open.first()?)?;
        let all: Vec<usize> = open.iter().copied().filter(|at| of(*at) == Some(first)).collect();
        (all.len() > 1).then_some(all)
    }

    /// Notes shares of one piece of work that runs since a moment: they are done one after the other, as many at once as there were people
    /// who may share it. Those whose turn has not come by now are still to be done.
    pub(super) fn note_shares(&mut self, tasks: &[usize], start: Minute, ran: &Ran) {
        let mut free = vec![(start, None::<usize>); self.sharing(tasks, start)];
        for task in tasks {
            let minutes = self.tasks.list.get(*task).map_or(0, |task| task.minutes);
            let Some((since, before)) = free.iter_mut().min_by_key(|(since, _)| *since) else { return };
            if *since > self.now {
                return;
            }
            let begun = Logged { start: *since, end: None, said: Some(ran.span()) };
            let ended = before.replace(*task).and_then(|before| self.logged.get_mut(before)).and_then(Option::as_mut);
            if let Some(ended) = ended {
                ended.end = Some(*since);
            }
            *since += minutes;
            if let Some(slot) = self.logged.get_mut(*task) {
                *slot = Some(begun);
            }
        }
    }

    /// How many there were at a moment who may share some work.
    fn sharing(&self, tasks: &[usize], at: Minute) -> usize {
        let task = tasks.first().and_then(|task| self.tasks.list.get(*task));
        let part = task.and_then(|task| self.work.batches.get(task.batch)?.recipe.part(task.step.part));
        let step = task.zip(part).and_then(|(task, part)| part.steps.get(task.step.step));
        let is_there = |person: &&Person| {
            let works = |shift: &Shift| shift.window.opens <= at && at < shift.window.closes;
            person.shifts.is_empty() || person.shifts.iter().any(works)
        };
        let here = match self.staff.people.is_empty() {
            true => usize::try_from(self.cooks).unwrap_or(1),
            false => self.staff.people.iter().filter(is_there).count(),
        };
        let most = step.map_or(1, |step| usize::try_from(step.shared_by).unwrap_or(1));
        here.min(most).max(1)
    }
}
