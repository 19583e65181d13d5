//! How long planning may go on.

use pumpkin_core::termination::TerminationCondition;
use std::cell::Cell;
use std::rc::Rc;

/// How long planning may go on.
///
/// The bound that matters is the number of steps of the search: it makes the same problem give the same plan on every
/// machine and at every load. `stop` is for the impatient: what it cuts off depends on when it says so.
pub struct Limit<'a> {
    /// The most steps of the search (decisions and conflicts together). A plan of ten tasks needs some dozens, one of
    /// forty some hundreds, and now and then one some ten thousands.
    pub steps: u64,
    /// Asked now and then; planning ends when it says so. The caller keeps the clock.
    pub stop: &'a dyn Fn() -> bool,
    /// Asked instead as long as there is no plan at all: it leaves time to say why there is none.
    pub stop_without_plan: &'a dyn Fn() -> bool,
}

/// Up to so many tasks a step takes a small machine a twentieth of a millisecond; of more tasks it takes longer, some in proportion.
const SMALL: u64 = 40;

impl Limit<'_> {
    /// Steps that take some ten seconds on a small machine.
    pub const USUAL_STEPS: u64 = 200_000;

    /// Of so many steps those that a problem of so many tasks gets: a step of a large one takes longer, and they are to take as long as
    /// those of a small one.
    pub fn steps_for(steps: u64, tasks: usize) -> u64 {
        let tasks = u64::try_from(tasks).unwrap_or(u64::MAX).max(SMALL);
        steps.saturating_mul(SMALL) / tasks
    }

    /// So many steps, and no clock.
    pub fn steps(steps: u64) -> Limit<'static> {
        Limit { steps, stop: &|| false, stop_without_plan: &|| false }
    }
}

impl Default for Limit<'static> {
    fn default() -> Self {
        Limit::steps(Limit::USUAL_STEPS)
    }
}

/// Steps that are left to the search.
pub struct Budget<'a> {
    limit: &'a Limit<'a>,
    /// Steps taken so far.
    pub taken: u64,
    /// When to stop this time.
    until: u64,
    stop: &'a dyn Fn() -> bool,
    stopped: bool,
    /// Whether the search has just decided something.
    decided: Rc<Cell<bool>>,
}

/// How many steps pass between two looks at the caller's clock.
const LOOK: u64 = 4;

impl<'a> Budget<'a> {
    /// Everything the limit allows.
    pub fn new(limit: &'a Limit<'a>) -> Budget<'a> {
        Budget { limit, taken: 0, until: limit.steps, stop: limit.stop, stopped: false, decided: Rc::default() }
    }

    /// The same for a search that has no plan to begin with.
    pub fn without_plan(limit: &'a Limit<'a>) -> Budget<'a> {
        Budget { stop: limit.stop_without_plan, ..Budget::new(limit) }
    }

    /// To be set when the search decides something and unset when it goes back on decisions. Only right after a decision
    /// may a search be stopped: stopped without any, the solver could not be used again (pumpkin-core 0.5.0).
    pub fn decided(&self) -> Rc<Cell<bool>> {
        Rc::clone(&self.decided)
    }

    /// From here on at most so many steps, and no more than the limit.
    pub fn allow(&mut self, steps: u64) {
        self.until = self.taken.saturating_add(steps).min(self.limit.steps);
    }

    /// The number of steps taken at which it stops this time.
    pub fn until(&self) -> u64 {
        self.until
    }

    /// Steps that are left in all.
    pub fn left(&self) -> u64 {
        if self.stopped { 0 } else { self.limit.steps.saturating_sub(self.taken) }
    }

    /// Whether the whole limit is used up.
    pub fn spent(&self) -> bool {
        self.left() == 0
    }
}

impl TerminationCondition for Budget<'_> {
    fn should_stop(&mut self) -> bool {
        self.taken += 1;
        if self.taken.is_multiple_of(LOOK) && !self.stopped {
            self.stopped = (self.stop)();
        }
        self.decided.get() && (self.stopped || self.taken > self.until)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_large_day_has_fewer_steps_and_never_more() {
        let steps = [1, 40, 80, 160].map(|tasks| Limit::steps_for(Limit::USUAL_STEPS, tasks));
        assert_eq!(steps, [200_000, 200_000, 100_000, 50_000]);
    }
}
