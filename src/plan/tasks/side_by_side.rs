//! Sorts of one dough that go through the same falling oven are put in at the same minute, where there is room for all of them: what is done
//! first comes out first, and the oven falls once.

use super::{Hold, Making, Task, Tasks};
use crate::measure::number::Number;
use crate::model::kitchen::Capacity;
use crate::model::step::StepKind;
use crate::plan::problem::Point;

impl Tasks {
    /// Whether something goes into the same unit side by side with another sort.
    pub fn are_side_by_side(&self) -> bool {
        self.holds.iter().any(|hold| hold.side_by_side)
    }

    /// Whether some sorts that would go in side by side have begun without the others.
    pub fn are_in_one_by_one(&self, has_begun: impl Fn(&usize) -> bool) -> bool {
        let mut beside = self.holds.iter().filter(|hold| hold.side_by_side);
        beside.any(|hold| hold.tasks.iter().any(&has_begun) && !hold.tasks.iter().all(&has_begun))
    }

    /// The same with each sort by itself: what is put in together came last.
    #[must_use]
    pub fn each_by_itself(mut self) -> Tasks {
        self.holds.retain(|hold| !hold.side_by_side);
        self
    }
}

impl Making<'_> {
    /// Holds one unit for all sorts that have the same course of heats, and room beside each other.
    pub(super) fn bake_side_by_side(&mut self) {
        let falls = |at: &usize| self.falls_in(*at).is_some() && !self.is_held_on(*at);
        let mut left: Vec<usize> = (0..self.tasks.list.len()).filter(falls).collect();
        let mut found: Vec<Hold> = Vec::new();
        while let Some(first) = left.first().copied() {
            let mut full = Number::ZERO;
            let mut together: Vec<usize> = Vec::new();
            for at in left.iter().copied().filter(|at| *at == first || self.has_the_course_of(first, *at)) {
                let with = self.falls_in(at).and_then(|part| full.plus(part).ok());
                if let Some(with) = with.filter(|with| *with <= Number::ONE) {
                    full = with;
                    together.push(at);
                }
            }
            left.retain(|at| *at != first && !together.contains(at));
            // What is longest in it holds it; it is put there by whoever puts the first in.
            let minutes = |at: &usize| self.task(*at).map_or(0, |task| task.minutes);
            if let Some(longest) = together.iter().copied().max_by_key(minutes).filter(|_| together.len() > 1) {
                found.push(Hold { tasks: together, until: vec![Point::end(longest)], side_by_side: true });
            }
        }
        self.tasks.holds.extend(found);
    }

    /// How much of a unit, of 1, a bake fills that is one load and whose oven changes its heat meanwhile.
    fn falls_in(&self, at: usize) -> Option<Number> {
        let task = self.task(at).filter(|task| task.kind == StepKind::Tend && task.loads == 1)?;
        self.step_of(at).filter(|step| !step.later.is_empty())?;
        // Of several units each sort may have its own.
        let equipment = self.kitchen.find(task.equipment.as_ref()?).filter(|equipment| equipment.count == 1)?;
        let takes = match equipment.holds? {
            Capacity::Pieces(count) => count.value(),
            Capacity::Mass(_) => return None,
        };
        let whole = task.full.unwrap_or(takes);
        task.pieces?.over(whole).ok().filter(|_| whole.is_positive())
    }

    /// Whether two bakes are of one dough, for one time, in the same equipment at the same heats at the same moments.
    fn has_the_course_of(&self, one: usize, other: usize) -> bool {
        let of = |at: usize| self.task(at).zip(self.step_of(at));
        let (Some((task, step)), Some((beside, its))) = (of(one), of(other)) else { return false };
        let is_same_unit = |one: &Task, other: &Task| {
            one.equipment.as_ref().zip(other.equipment.as_ref()).is_some_and(|(one, other)| one.same(other))
        };
        (task.batch, task.turn) == (beside.batch, beside.turn)
            && task.step.part != beside.step.part
            && is_same_unit(task, beside)
            && (step.temperature, &step.later) == (its.temperature, &its.later)
    }
}
