//! Loads of what is hot are taken up as they come from the heat.

use super::super::hot_food::{self, HotFood};
use super::super::problem::{Lag, Minute, Rule, Stand};
use super::Making;
use crate::make::batch::BatchPart;
use crate::make::loads;
use crate::measure::number::Overflow;
use crate::model::kitchen::Capacity;
use crate::model::recipe::Part;
use crate::model::step::{Loads, Step, StepRef, Timing};
use crate::model::{cooking, flow};
use crate::solve::formula::{Formula, SolvedPart};

impl<'a> Making<'a> {
    /// The step whose loads a rest takes up as they come, with how many they are: what is hot goes load by load into what keeps it hot, or
    /// into the cold, and what was chilled from there into the cold, where there is room for one load beside the other. `None` where it is not so, or the rest has as many loads anyway.
    pub(super) fn as_it_comes(
        &self,
        (place, part): (BatchPart, &'a Part),
        (solved, formula): (&SolvedPart, &Formula),
        (step_at, loads): (usize, i64),
    ) -> Result<Option<(&'a Step, i64)>, Overflow> {
        let Some(batch) = self.work.batches.get(place.batch) else { return Ok(None) };
        let Some(step) = part.steps.get(step_at).filter(|step| step.loads == Loads::Once) else { return Ok(None) };
        let Some((made_at, made)) = before(place, part, step_at) else { return Ok(None) };
        let is_shared = made.shared_by > 1 || made.loads.is_by_piece() || !made.moments.is_empty();
        let lives = || self.alive_after(place.batch, StepRef { part: place.part, step: made_at });
        let is_meant = || hot_food::may_stand(part, made_at, step).is_some() || hot_food::stays_cold(made, step);
        if is_shared || !is_meant() || lives() {
            return Ok(None);
        }
        let come = loads::count((&batch.recipe, place.part), solved, formula, made_at, self.kitchen)?;
        Ok((come > loads && self.has_room_beside(step, come)).then_some((made, come)))
    }

    /// Whether so many loads of a rest stand beside each other in what it uses.
    fn has_room_beside(&self, rest: &Step, loads: i64) -> bool {
        let equipment = rest.equipment.as_ref().and_then(|name| self.kitchen.find(name));
        equipment.is_none_or(|one| {
            let is_shared = matches!(one.holds, Some(Capacity::Pieces(_))) || one.stands_by_weight().is_some();
            // Several take what comes by turns: who has three boxes and four loads takes the first out for the last.
            let by_turns = one.count > 1 && flow::has_slack(rest) && !cooking::chills(rest);
            one.has_room_for_all() || is_shared || by_turns || i64::from(one.count) >= loads
        })
    }

    fn alive_after(&self, batch: usize, at: StepRef) -> bool {
        self.alive.get(batch).is_some_and(|alive| alive.after(at))
    }

    /// How long what a task left hot may stand before another that keeps it hot or chills it.
    pub(super) fn hot_before(&self, made: usize, rest: usize) -> Option<Minute> {
        let (task, rest) = self.task(made).zip(self.step_of(rest))?;
        let part = self.work.batches.get(task.batch)?.recipe.part(task.step.part)?;
        hot_food::may_stand(part, task.step.step, rest).filter(|_| !self.is_alive(made))
    }

    /// What is hot does not stand before what keeps it hot or chills it. A load that could be held hot is not left on the bench so that it is
    /// held for less time: that would be a way round how long it may be held.
    pub(super) fn taken_hot(&mut self, made: usize, rest: usize) {
        let Some(most) = self.hot_before(made, rest) else { return };
        self.stands_hot(made, rest, most);
        let is_held = self.step_of(rest).is_some_and(|step| flow::has_slack(step) && !cooking::chills(step));
        let is_its_load = self
            .task(made)
            .zip(self.task(rest))
            .is_some_and(|(one, other)| (one.load, one.loads, one.turn) == (other.load, other.loads, other.turn));
        if is_held && is_its_load {
            self.tasks.lags.push(Lag { most: Some(most), rule: Rule::Within, ..Lag::after(made, rest) });
        }
    }

    /// Nor does what is half cooked stand before a load that goes straight on with it.
    pub(super) fn half_cooked(&mut self, made: usize, then: usize) {
        let part = |task: &super::Task| self.work.batches.get(task.batch)?.recipe.part(task.step.part);
        let most = self.task(made).and_then(|task| hot_food::half_cooked(part(task)?, task.step.step));
        if let Some(most) = most {
            self.stands_hot(made, then, most);
        }
    }

    fn stands_hot(&mut self, made: usize, rest: usize, most: Minute) {
        self.tasks.hot_food.push(HotFood { made, rest, most });
        self.tasks.long.push(Stand::Between { made, used: rest });
    }

    /// Which loads of a rest hold something of which loads that come hot, where those are not as many: each waits for its own alone.
    pub(super) fn hot_pairs(&self, first: &[usize], then: &[usize]) -> Option<Vec<(usize, usize)>> {
        let (made, rest) = (first.first().copied()?, then.first().copied()?);
        if first.len() < 2 || then.len() < 2 || self.hot_before(made, rest).is_none() {
            return None;
        }
        self.shares_taken(first, then)
    }
}

/// The one step of its part that a step follows.
fn before(place: BatchPart, part: &Part, at: usize) -> Option<(usize, &Step)> {
    let step = part.steps.get(at)?;
    let number = match step.order[..] {
        [] => match flow::above(part, at)[..] {
            [above] => above,
            _ => return None,
        },
        [Timing::After(other) | Timing::StraightAfter(other) | Timing::Within(_, other)] => {
            (other.part == place.part).then_some(other.step)?
        }
        _ => return None,
    };
    Some((number, part.steps.get(number)?))
}
