//! Where a rest in the warm would have to go on longer, one in the cold is asked first: an hour more at 4 °C is nothing to a loaf that lies there
//! for a night, and another dough where it is warm.

use super::Case;
use super::offer::{Length, Offer};
use crate::model::cold::is_cold;
use crate::model::step::StepKind;
use crate::plan::problem::Minute;
use crate::plan::tasks::Task;

/// A rest in the cold goes on for a part of its longest time at most, before others do: a quarter. Common practice, no source.
const PART: Minute = 4;

/// So many rests are tried.
const MOST_RESTS: usize = 6;

impl Case<'_> {
    /// Puts rests in the cold that may go on a little longer in place of those in the warm, where each is enough.
    pub(super) fn rather_in_the_cold(&self, ways: &mut Vec<Offer>) {
        let Some(first) = ways.iter().position(|way| self.goes_on_in_the_warm(way)) else { return };
        let is_rest = |task: &&Task| {
            task.load == 1
                && task.kind == StepKind::Wait
                && task.most_minutes.is_some()
                && task.temperature.is_some_and(is_cold)
        };
        let rests = self.tasks.list.iter().filter(is_rest).take(MOST_RESTS);
        let longer = rests.filter_map(|rest| {
            let most = rest.most_minutes?;
            let longest = Offer::length(Length::up_to(rest, self.named(rest), most + most / PART));
            if self.holds(&longest.mends()) { self.proven(longest) } else { None }
        });
        let longer: Vec<Offer> = longer.collect();
        if longer.is_empty() {
            return;
        }
        ways.splice(first..first, longer);
        ways.retain(|way| !self.goes_on_in_the_warm(way));
    }

    /// Whether a way out begins with a rest that goes on where it is warm.
    fn goes_on_in_the_warm(&self, way: &Offer) -> bool {
        let Some((batch, step)) = way.lets_on() else { return false };
        let mut rests = self.tasks.list.iter().filter(|task| (task.batch, task.step) == (batch, step));
        rests.next().is_some_and(|task| task.kind == StepKind::Wait && !task.temperature.is_some_and(is_cold))
    }
}
