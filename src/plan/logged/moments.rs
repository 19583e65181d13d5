//! Work at moments of another step, a fold, in a log.

use super::super::problem::{Lag, Rule};
use super::Reading;
use crate::language::bakes::{Ran, Took};

impl Reading<'_> {
    /// The lag by which a task is due at a moment of another.
    pub(super) fn due(&self, task: usize) -> Option<&Lag> {
        self.tasks.lags.iter().find(|lag| lag.rule == Rule::Into && lag.to.task == task)
    }

    /// Of work at moments, that which is not in the log yet and is due nearest to when a line says that it was done; the first of them
    /// where no time of the day is said, or nobody knows when what it is done in began.
    pub(super) fn next_moment(&self, ran: &Ran, tasks: &[usize]) -> Option<usize> {
        let open = tasks.iter().copied().filter(|task| self.logged.get(*task).is_some_and(Option::is_none));
        let began = ran.time.and_then(|time| match time.value {
            Took::Since(begin) | Took::Between(begin, _) => Some(begin),
            Took::Lasted(_) => None,
        });
        let off = |task: &usize| {
            let lag = self.due(*task)?;
            let outer = self.logged.get(lag.from.task)?.as_ref()?;
            let due = outer.start + lag.least;
            Some(self.next(began?, outer.start)?.abs_diff(due))
        };
        // The earlier of two that are as near comes first.
        open.min_by_key(|task| off(task).unwrap_or_default())
    }
}
