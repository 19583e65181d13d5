//! What stands about between two steps, and what a minute of it counts.

use super::super::problem::{FROM_THE_BENCH, FROM_THE_HEAT, Minute, Rule, Stand, Standing, Unbroken};
use super::{Making, Tasks};
use crate::make::work::Work;
use crate::model::cooking;
use crate::model::recipe::{PartId, Recipe};
use crate::model::step::{Loads, StepKind};

/// What a minute of standing counts, by what stands. Common practice, no source: what is alive suffers most, and what is to be gone on with
/// while it is hot, then what is ready and grows stale (in `ask`), then other work left half done; what keeps, may rest longer or cools
/// meanwhile suffers least.
pub(super) const OVERDONE: u32 = 8;
pub(super) const HALF_DONE: u32 = 5;
pub(super) const MAY_WAIT: u32 = 1;

/// What was taken out of the cold, and is left half done: a raw custard in its shells stands less than the shells do without it, and what is
/// beyond an hour counts like what is alive. Common practice, no source; food advice has two hours as the end.
const FROM_THE_COLD: u32 = HALF_DONE + 1;
const OUT_OF_THE_COLD: Minute = 60;

/// How long what keeps so long may be ready before it is taken without standing about: a quarter of that, when it keeps for a day
/// or more, and no more than a night. A pickle is boiled beside other work, and not by itself at the last minute. Common
/// practice, no source.
pub(super) fn beside_other_work(keeps: Minute) -> Minute {
    if keeps < 1440 { 0 } else { (keeps / 4).min(720) }
}

/// What is good for so long on its label is as good the day after it was made: biscuits, granola, jam. Bread is not, whatever its label says.
/// Common practice, no source.
const GOOD_FOR_LONG: Minute = 7 * 1440;

/// How long what a part makes keeps as it is handed over: as the part says, or the label of what is sold, where that is long.
pub(super) fn keeps_handed_over(recipe: &Recipe, id: PartId) -> Option<Minute> {
    let said = recipe.part(id)?.keeps.and_then(|keeps| keeps.time.whole_minutes());
    let on_label = || recipe.origin(id)?.0.sale.good_for.as_ref()?.time.whole_minutes();
    said.or_else(|| on_label().filter(|minutes| *minutes >= GOOD_FOR_LONG))
}

impl Tasks {
    /// The tasks that finish what does not keep, and the rests that may go on straight out of which such a thing is handed over, each with the
    /// moment before which it must not begin for that.
    pub fn fresh(&self, work: &Work, dues: &[Option<Minute>]) -> (Vec<usize>, Vec<(usize, Minute)>) {
        let (mut fresh, mut rests) = (Vec::new(), Vec::new());
        for (finals, due) in self.finals.iter().zip(dues) {
            for at in finals {
                let Some(task) = self.list.get(*at) else { continue };
                let recipe = work.batches.get(task.batch).map(|batch| &batch.recipe);
                if recipe.is_some_and(|recipe| keeps_handed_over(recipe, task.step.part).is_some()) {
                    continue;
                }
                let most = task.most_minutes.filter(|_| task.kind == StepKind::Wait);
                match due.zip(most) {
                    Some((due, most)) => rests.push((*at, due - most)),
                    None => fresh.push(*at),
                }
            }
        }
        (fresh, rests)
    }
}

impl Making<'_> {
    /// What stands between the loads of one step and those of another that follows it by a rule.
    pub(super) fn stands_between(&mut self, pairs: &[(usize, usize)], rule: Rule) {
        for (made, used) in pairs.iter().copied() {
            let (Some(one), Some(other)) = (self.task(made), self.task(used)) else { continue };
            let rests = one.kind == StepKind::Wait;
            let may_rest_on = rests && one.most_minutes.is_some();
            // What rests may go on is one thing, however many loads are taken of it: it has gone on when the last is.
            let is_last = self.is_last_of_its_turn(made, used, pairs);
            let cools = other.kind == StepKind::Wait && other.equipment.is_none();
            let weight = match (rests, rule) {
                (true, _) if may_rest_on => {
                    if is_last {
                        MAY_WAIT
                    } else {
                        0
                    }
                }
                (true, _) | (false, Rule::Within) => OVERDONE,
                _ if self.is_alive(made) => OVERDONE,
                _ if self.hot_before(made, used).is_some() => OVERDONE,
                _ if cools => MAY_WAIT,
                _ if self.takes_from_the_cold(made) => FROM_THE_COLD,
                _ => HALF_DONE,
            };
            if weight == FROM_THE_COLD {
                let stand = Stand::Between { made, used };
                self.tasks.standing.push(Standing { stand, weight: OVERDONE, free: OUT_OF_THE_COLD });
            }
            self.tasks.standing.push(Standing { stand: Stand::Between { made, used }, weight, free: 0 });
            self.taken_hot(made, used);
        }
    }

    /// Whether a step takes by name what is kept in the cold.
    fn takes_from_the_cold(&self, at: usize) -> bool {
        let takes = || {
            let (task, step) = self.task(at).zip(self.step_of(at))?;
            let recipe = &self.work.batches.get(task.batch)?.recipe;
            let part = recipe.part(task.step.part)?;
            let is_cold = |id| recipe.part(id).and_then(|of| of.keeps).is_some_and(|keeps| keeps.how.is_cold());
            Some(step.lines_taken().filter_map(|line| part.lines.get(line)?.part()).any(is_cold))
        };
        takes() == Some(true)
    }

    /// Work that is not left in its middle, if a task is such.
    pub(super) fn unbroken(&self, at: usize) -> Option<Unbroken> {
        let step = self.step_of(at).filter(|step| step.kind == StepKind::Hands)?;
        let is_piece_by_piece = matches!(step.loads, Loads::Each | Loads::EachOf(_));
        let is_at_the_heat = cooking::is_hot(step) || cooking::cooks_by_head(step);
        let weight = if is_at_the_heat { FROM_THE_HEAT } else { FROM_THE_BENCH };
        (!is_piece_by_piece).then_some(Unbroken { task: at, weight })
    }

    /// Whether a load is the last that follows another, of those for its time.
    fn is_last_of_its_turn(&self, made: usize, used: usize, pairs: &[(usize, usize)]) -> bool {
        pairs.iter().all(|(one, other)| *one != made || *other <= used || self.turn(*other) != self.turn(used))
    }
}
