//! What was heated as a part in one pot is in that pot: what is cooked in it goes in load by load.

use super::super::problem::{Lag, Point};
use super::{Hold, Making};
use crate::model::cooking;
use crate::model::recipe::{Part, PartId, Refers};
use crate::model::step::StepKind;

impl Making<'_> {
    /// The loads that are cooked in a bath that another part is, in the units in which that was brought to its heat: as many at once as
    /// there are pots of it, and each pot stays where it is until the last has come out.
    pub(super) fn in_its_pot(&mut self, part: &Part, bath: PartId, pots: &[usize], loads: &[usize]) {
        let is_it =
            part.lines.iter().any(|line| !line.stays_in() && matches!(line.refers, Refers::Part(id) if id == bath));
        let heats = |at: &usize| {
            let is_tended = self.task(*at).is_some_and(|task| task.kind == StepKind::Tend);
            is_tended && self.step_of(*at).is_some_and(|step| cooking::is_hot(step) && !cooking::bakes(step))
        };
        let place = |at: &usize| self.task(*at).and_then(|task| task.equipment.clone());
        let Some(name) = pots.first().and_then(place).filter(|_| is_it && pots.iter().all(heats)) else { return };
        let is_there = |at: &usize| place(at).is_some_and(|other| other.same(&name));
        let is_taken =
            |at: &usize| self.tasks.holds.iter().any(|hold| hold.tasks.contains(at) && hold.tasks.first() != Some(at));
        if !pots.iter().chain(loads).all(is_there) || pots.iter().chain(loads).any(is_taken) {
            return;
        }
        for (load, pot) in loads.iter().zip(pots.iter().cycle()) {
            let until = vec![Point::end(*load)];
            match self.tasks.holds.iter_mut().find(|hold| hold.tasks.first() == Some(pot)) {
                Some(hold) => {
                    if let Some(before) = hold.tasks.last().filter(|last| *last != pot) {
                        self.tasks.lags.push(Lag::after(*before, *load));
                    }
                    hold.tasks.push(*load);
                    hold.until = until;
                }
                None => self.tasks.holds.push(Hold { tasks: vec![*pot, *load], until, side_by_side: false }),
            }
        }
    }
}
