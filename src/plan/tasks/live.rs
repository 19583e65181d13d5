//! What is alive goes on at once, and what is in a unit stays in it until somebody takes it out.

use super::super::problem::{FURTHEST, Lag, Minute, Point, Rule};
use super::{Hold, Making, Task, Tasks, up_to};
use crate::measure::number::Number;
use crate::measure::quantity::{Duration, Mass};
use crate::model::alive::STAND;
use crate::model::cooking;
use crate::model::flow;
use crate::model::recipe::{Part, PartId, Refers};
use crate::model::step::{Loads, StepKind};

/// A rest that may go on, after which what is alive is kept in the cold: somebody puts it there when it has risen, so long after its end at most,
/// unless it is taken up by then.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct IntoCold {
    /// The rest.
    pub rest: usize,
    /// How many minutes it may go on.
    pub room: Minute,
}

impl Tasks {
    /// The number that a task's unit has in the planner's problem: that of the hold it is in, else its own.
    pub fn holder(&self, task: usize) -> Option<usize> {
        match self.holds.iter().position(|hold| hold.tasks.contains(&task)) {
            Some(hold) => Some(self.list.len() + hold),
            None => Some(task),
        }
    }

    /// When what a task finishes is as it is handed over, of something that is wanted at a minute: when the task ends, and straight out of a rest
    /// that may go on, when it is wanted; what rests in equipment that others need is as long in it as the plan has it there.
    pub fn handed_over(&self, task: usize, (starts, end): (&[Minute], Minute), due: Minute) -> Minute {
        let is_in_the_way = |one: &&Task| one.takes_room && !self.holds.iter().any(|hold| hold.tasks.contains(&task));
        let rest = self.list.get(task).filter(|task| task.kind == StepKind::Wait && !is_in_the_way(task));
        let most = rest.and_then(|task| task.most_minutes);
        let goes_on = starts.get(task).zip(most).map(|(start, most)| start + most);
        goes_on.map_or(end, |last| end.max(due.min(last)))
    }

    /// The number that the moment at which what rested goes into the cold has in the planner's problem.
    pub fn into_cold(&self, rest: usize) -> Option<usize> {
        let at = self.into_cold.iter().position(|one| one.rest == rest)?;
        Some(self.list.len() + self.holds.len() + at)
    }
}

impl Making<'_> {
    /// How long what a task made may stand before the next one: what its step says, else the usual time if it is alive,
    /// else `None`.
    pub(super) fn may_stand(&self, at: usize) -> Option<Minute> {
        let task = self.task(at)?;
        let batch = self.work.batches.get(task.batch)?;
        let step = batch.recipe.part(task.step.part)?.steps.get(task.step.step)?;
        let said = step.may_stand.and_then(Duration::whole_minutes);
        said.or_else(|| self.is_alive(at).then_some(STAND))
    }

    /// Whether what a task made is alive.
    pub(super) fn is_alive(&self, at: usize) -> bool {
        let task = self.task(at);
        task.is_some_and(|task| self.alive.get(task.batch).is_some_and(|alive| alive.after(task.step)))
    }

    /// After work beside a rest, or at a moment of it, that what follows waits for too: what it was done to rests on, and does not stand.
    pub(super) fn rests_on(&mut self, first: &[usize], then: &[usize]) {
        let pairs = self.pairs(first, then).into_iter();
        self.tasks.lags.extend(pairs.map(|(first, then)| Lag::after(first, then)));
    }

    /// What is alive goes on at once: a step begins when the one before it ends, or at most as much later as that may stand.
    pub(super) fn goes_on(&mut self, first: usize, then: usize) {
        let Some(stand) = self.may_stand(first) else { return };
        if !self.may_go_on(first) {
            self.tasks.lags.push(Lag { most: Some(stand), rule: Rule::Alive, ..Lag::after(first, then) });
        }
    }

    /// Whether each load of a step goes on by itself in all that follows it in its part.
    pub(super) fn flows_on(&self, part: &Part, at: usize, step: usize, loads: &[usize]) -> bool {
        let has_order = |later: usize| part.steps.get(later).is_none_or(|step| !step.order.is_empty());
        let follows = flow::below(part, step).filter(|later| !has_order(*later));
        let mut is_followed = false;
        let flows = |later: usize| {
            let then = self.tasks_of(at, later);
            !self.parts_here(loads, &then)
                && (self.go_load_by_load(loads, &then) || self.alongside(loads, &then).len() > 1)
        };
        follows.inspect(|_| is_followed = true).all(flows) && is_followed
    }

    /// Loads of one step that come together again in the next are made one right after the other: the first one waits for
    /// the last.
    pub(super) fn stay_together(&mut self, loads: &[usize]) {
        for pair in loads.windows(2) {
            let [one, next] = pair else { continue };
            let hands = self.task(*one).is_some_and(|task| task.kind == StepKind::Hands);
            // What is done at moments of a rest has them from it.
            let has_moments = self.step_of(*one).is_some_and(|step| !step.moments.is_empty());
            if let (true, Some(stand)) = (hands && !has_moments, self.may_stand(*one)) {
                let (from, to) = (Point::end(*one), Point::start(*next));
                self.tasks.lags.push(Lag { from, to, least: -FURTHEST, most: Some(stand), rule: Rule::Alive });
            }
        }
    }

    /// Pieces that are shaped one by one before a rest that may go on are as old as the first of them: what `up to` says is
    /// counted from when that one, or the first of each load that comes after the rest, was done.
    pub(super) fn since_the_first(&mut self, part: &Part, (batch, rest): (usize, usize), then: &[usize]) {
        let [shaped] = flow::above(part, rest)[..] else { return };
        let (Some(step), Some(rest_step)) = (part.steps.get(shaped), part.steps.get(rest)) else { return };
        if step.loads != Loads::Each || !flow::has_slack(rest_step) || !rest_step.order.is_empty() {
            return;
        }
        let of_this_time = |tasks| self.with_turn_of(tasks, then.first().copied());
        let (shaping, resting) = (of_this_time(self.tasks_of(batch, shaped)), of_this_time(self.tasks_of(batch, rest)));
        let ([first, ..], [rest]) = (&shaping[..], &resting[..]) else { return };
        let Some(stand) = self.may_stand(*first) else { return };
        // As long as one takes alone, where several share it.
        let minutes = shaping.iter().filter_map(|at| self.task(*at)).map(|task| task.minutes).sum();
        let Some(most) = self.task(*rest).and_then(|task| task.most_minutes) else { return };
        let done_before = self.done_before(then);
        for (then, share) in then.iter().zip(done_before) {
            // When the first piece of this load was done.
            let done = share.times(Number::whole(minutes)).ok().and_then(|done| done.floor().to_whole()).unwrap_or(0);
            let lag = Lag {
                from: Point::start(*first),
                to: Point::start(*then),
                least: -FURTHEST,
                most: Some(done + most + stand),
                rule: Rule::FirstPiece,
            };
            self.tasks.lags.push(lag);
        }
    }

    /// A dough that is mixed in several bowls, one after the other, and rests in one is as old as the first of them: how long it may rest is
    /// counted from when that bowl was done, or the bowl of which each load that comes after the rest is taken. `all` is how much of the
    /// dough these loads take, of 1: what others take may come before it or after it.
    pub(super) fn since_the_first_bowl(&mut self, rest: usize, then: &[usize], all: Number) {
        let Some(task) = self.task(rest).filter(|task| task.kind == StepKind::Wait) else { return };
        let (batch, id, most) = (task.batch, task.step, task.most_minutes.unwrap_or(task.minutes + task.minutes / 2));
        let Some(part) = self.work.batches.get(batch).and_then(|batch| batch.recipe.part(id.part)) else { return };
        let [mixed] = flow::above(part, id.step)[..] else { return };
        let has_order = part.steps.get(id.step).is_none_or(|step| !step.order.is_empty());
        let is_mixed =
            part.steps.get(mixed).is_some_and(|step| step.kind == StepKind::Hands && step.moments.is_empty());
        let Some(at) = self.number(batch, id.part).filter(|_| is_mixed && !has_order) else { return };
        let bowls = self.with_turn_of(self.tasks_of(at, mixed), Some(rest));
        let rests = self.with_turn_of(self.tasks_of(at, id.step), Some(rest)).len();
        let is_bowl = |at: &usize| self.task(*at).is_some_and(|task| task.bundle.is_none());
        if bowls.len() < 2 || rests != 1 || !bowls.iter().all(is_bowl) {
            return;
        }
        let Some(stand) = bowls.first().filter(|first| self.is_alive(**first)).and_then(|first| self.may_stand(*first))
        else {
            return;
        };
        let count = Number::whole(i64::try_from(bowls.len()).unwrap_or(1));
        for (then, share) in then.iter().zip(self.done_before(then)) {
            let number = share
                .times(count)
                .and_then(|bowls| bowls.times(all))
                .ok()
                .and_then(|number| number.floor().to_whole())
                .unwrap_or(0);
            let Some(bowl) = usize::try_from(number).ok().and_then(|number| bowls.get(number)) else { continue };
            let (from, to) = (Point::end(*bowl), Point::start(*then));
            let lag = Lag { from, to, least: -FURTHEST, most: Some(most + stand), rule: Rule::FirstPiece };
            self.tasks.lags.push(lag);
        }
    }

    /// How much of a part one taker has, of 1; nothing where some weight is not known.
    pub(super) fn share_taken(&self, other: usize, (at, part): (usize, PartId)) -> Number {
        let takes = |number: usize, is_it: &dyn Fn(PartId) -> bool| -> Option<Mass> {
            let (place, _, taker) = self.part_of(number)?;
            let solved = self.work.batches.get(place.batch)?.formula.part(place.part)?;
            let lines = taker.lines.iter().zip(&solved.lines);
            let its = lines.filter(|(line, _)| matches!(line.refers, Refers::Part(taken) if is_it(taken)));
            let masses: Option<Vec<Mass>> = its.map(|(_, amount)| amount.final_mix).collect();
            Mass::sum(masses?).ok()
        };
        let everybodys = |number: usize| {
            let place = self.made.get(number)?;
            takes(number, &|taken| self.number(place.batch, taken) == Some(other))
        };
        // What is taken out of a dough before it is mixed goes into it whole.
        let one = takes(at, &|taken| taken == part).filter(|one| *one > Mass::ZERO);
        let all: Option<Vec<Mass>> = (0..self.made.len()).map(everybodys).collect();
        let share = one.zip(all).and_then(|(one, all)| one.ratio(Mass::sum(all).ok()?).ok());
        share.map_or(Number::ZERO, |share| share.min(Number::ONE))
    }

    pub(super) fn is_held_on(&self, task: usize) -> bool {
        self.tasks.holds.iter().any(|hold| hold.tasks.contains(&task))
    }

    /// A rest in equipment that is followed by something: the unit is held until the last of what follows takes the rest
    /// out, and nothing of it waits elsewhere.
    pub(super) fn stays_in(&mut self, rest: usize, then: &[usize]) {
        let holds = self.task(rest).is_some_and(|task| task.kind == StepKind::Wait && task.equipment.is_some());
        let stretches =
            self.task(rest).is_some_and(|task| task.most_minutes.is_some()) || self.may_stand(rest).is_some();
        let (Some(last), true) = (then.last(), holds && stretches && !self.is_held_on(rest)) else { return };
        self.tasks.holds.push(Hold { tasks: vec![rest], until: vec![Point::start(*last)], side_by_side: false });
    }

    /// What is alive after a warm rest that may go on, and kept in the cold, is put there by somebody.
    pub(super) fn goes_into_the_cold(&mut self, rest: usize) {
        let Some(task) = self.task(rest).filter(|task| task.kind == StepKind::Wait) else { return };
        let part = self.work.batches.get(task.batch).and_then(|batch| batch.recipe.part(task.step.part));
        let is_kept_cold = part.and_then(|part| part.keeps).is_some_and(|keeps| keeps.how.is_cold());
        let is_cold = self.step_of(rest).is_some_and(cooking::chills);
        // What is in equipment is taken out of it when the rest ends.
        let Some(most) = task.most_minutes else { return };
        let goes_on = if task.equipment.is_none() { most - task.minutes } else { 0 };
        if is_kept_cold && !is_cold && self.is_alive(rest) && self.tasks.into_cold(rest).is_none() {
            self.tasks.into_cold.push(IntoCold { rest, room: goes_on.max(STAND) });
        }
    }

    /// The rules for what is alive, or in equipment, between all loads of one step and all of the next.
    pub(super) fn live(&mut self, first: &[usize], then: &[usize]) {
        if self.parts_here(first, then) {
            // Where it goes on apart it rests, and what is in a unit is held until the last of it is taken out.
            let pairs = self.parting_pairs(first, then);
            for first in first {
                let takers: Vec<usize> = pairs.iter().filter(|pair| pair.0 == *first).map(|pair| pair.1).collect();
                self.stays_in(*first, &takers);
            }
            return;
        }
        for (first, then) in self.alongside(first, then) {
            self.live_alongside(&first, &then);
        }
    }

    fn live_alongside(&mut self, first: &[usize], then: &[usize]) {
        if self.go_load_by_load(first, then) {
            for (first, then) in first.iter().zip(then) {
                self.goes_on(*first, *then);
                self.stays_in(*first, &[*then]);
            }
            return;
        }
        let Some(last) = first.last() else { return };
        for then in then {
            self.is_taken_up(*last, *then);
        }
        // Of a rest in several units each is held until the last that it holds is taken out of it.
        let pairs = self.shares_taken(first, then);
        for first in first {
            let its =
                |pairs: &Vec<(usize, usize)>| pairs.iter().filter(|pair| pair.0 == *first).map(|pair| pair.1).collect();
            let takers: Vec<usize> = pairs.as_ref().map_or_else(|| then.to_vec(), its);
            self.stays_in(*first, &takers);
        }
    }

    /// What is alive goes on at once with a load of the next step. Of work that several may share the first share begins so: one alone
    /// may do them all, one after the other.
    fn is_taken_up(&mut self, first: usize, then: usize) {
        match self.share_before(then) {
            None => self.goes_on(first, then),
            // Until its turn comes a later share stands as what all of them are taken of: it is done when the one before it is, if nobody
            // does both at once.
            Some(before) if !self.may_go_on(first) => {
                let Some(stand) = self.may_stand(first) else { return };
                let (from, to) = (Point::end(before), Point::start(then));
                self.tasks.lags.push(Lag { from, to, least: -FURTHEST, most: Some(stand), rule: Rule::Alive });
            }
            Some(_) => {}
        }
    }

    /// A rest goes on until it is taken up, and no longer than it may. Of work that several may share that is asked of the first share: one alone
    /// does them all, one after the other, and until its turn comes a later share stands as what all of them are taken of.
    pub(super) fn goes_on_until(&mut self, rest: usize, then: usize, most: Minute) {
        let lag = match self.share_before(then) {
            None => up_to(rest, then, most),
            Some(before) => {
                let (from, to) = (Point::end(before), Point::start(then));
                Lag { from, to, least: -FURTHEST, most: Some(STAND), rule: Rule::Alive }
            }
        };
        self.tasks.lags.push(lag);
    }

    /// Of work that several may share the share before this one, of the same load.
    pub(super) fn share_before(&self, share: usize) -> Option<usize> {
        let bundle = |at: usize| self.task(at).and_then(|task| Some((task.label, task.bundle?)));
        let before = share.checked_sub(1)?;
        let ((one, bundle), (other, same)) = (bundle(before)?, bundle(share)?);
        (one.same_step(other) && bundle == same).then_some(before)
    }

    /// Whether a task is a rest that may go on.
    fn may_go_on(&self, at: usize) -> bool {
        self.task(at).is_some_and(|task| task.kind == StepKind::Wait && task.most_minutes.is_some())
    }

    /// What goes straight from one step into the next with the same equipment stays in the same unit.
    pub(super) fn stay_in_one(&mut self, first: usize, then: usize) {
        let name = |at: usize| self.task(at).and_then(|task| task.equipment.clone());
        let (Some(one), Some(other)) = (name(first), name(then)) else { return };
        let held = self.is_held_on(first);
        if !one.same(&other) || self.is_held_on(then) {
            return;
        }
        match self.tasks.holds.iter_mut().find(|hold| hold.tasks.last() == Some(&first)) {
            Some(hold) => {
                hold.tasks.push(then);
                hold.until = vec![Point::end(then)];
            }
            None if !held => {
                self.tasks.holds.push(Hold {
                    tasks: vec![first, then],
                    until: vec![Point::end(then)],
                    side_by_side: false,
                });
            }
            None => {}
        }
    }

    /// What is alive, and no longer kept, is taken up at once; the unit it is in is held until the last has taken of it.
    pub(super) fn take_up(&mut self, end: usize, then: &[usize]) {
        for then in then {
            self.is_taken_up(end, *then);
        }
        let Some(last) = then.last().copied().map(Point::start) else { return };
        match self.tasks.holds.iter_mut().find(|hold| hold.tasks == [end]) {
            Some(hold) if !hold.until.contains(&last) => hold.until.push(last),
            Some(_) => {}
            None => self.stays_in(end, then),
        }
    }
}
