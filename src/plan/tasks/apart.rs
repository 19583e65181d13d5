//! A part that is made at once for several times: the loads of each time by themselves, and what hangs on what between them.

use super::cut::{Dealt, loads_of};
use super::{MOST_LOADS, Making, Task};
use crate::make::apart::Apart;
use crate::make::batch::BatchPart;
use crate::make::loads;
use crate::measure::number::{Number, Overflow};
use crate::measure::quantity::Duration;
use crate::model::recipe::Part;
use crate::model::step::{Loads, Step, StepKind, StepRef};
use crate::plan::problem::Lag;
use crate::solve::formula::Formula;

/// From so many minutes on, three shares of work are cut in two: each of them takes some minutes then.
const WORTH_SIXTHS: i64 = 18;

impl<'a> Making<'a> {
    fn apart_of(&self, batch: usize) -> Option<&'a Apart> {
        self.work.batches.get(batch)?.apart.as_ref()
    }

    /// The tasks of a step: one for each load, for each time by itself where it is done so.
    pub(super) fn step_tasks(
        &self,
        (place, at): (BatchPart, usize),
        part: &Part,
        step_at: usize,
    ) -> Result<Vec<Task>, Overflow> {
        let (Some(batch), Some(step)) = (self.work.batches.get(place.batch), part.steps.get(step_at)) else {
            return Ok(Vec::new());
        };
        let Some(apart) = batch.apart.as_ref().filter(|apart| apart.is_own(place.part, step_at)) else {
            return self.loads_in((place, at), step, step_at, &batch.formula);
        };
        let mut all: Vec<Task> = Vec::new();
        let mut bundles = 0;
        for (turn, wanted) in apart.turns.iter().enumerate() {
            let mut loads = self.loads_in((place, at), step, step_at, &apart.formula_of(wanted, &batch.formula)?)?;
            let before = all.len();
            for (number, task) in loads.iter_mut().enumerate() {
                task.load = task.load.saturating_add(i64::try_from(before).unwrap_or(i64::MAX));
                task.label.load = task.label.load.saturating_add(before);
                task.share = task.share.times(wanted.share)?;
                task.turn = Some(turn);
                task.leads = number == 0;
                task.bundle = task.bundle.map(|bundle| bundle + bundles);
            }
            bundles = loads.iter().filter_map(|task| task.bundle).max().unwrap_or(bundles);
            all.append(&mut loads);
        }
        let count = i64::try_from(all.len()).unwrap_or(i64::MAX);
        all.iter_mut().for_each(|task| task.loads = count);
        Ok(all)
    }

    /// The loads of a step at the size of a formula.
    fn loads_in(
        &self,
        (place, at): (BatchPart, usize),
        step: &Step,
        step_at: usize,
        formula: &Formula,
    ) -> Result<Vec<Task>, Overflow> {
        let (Some(batch), Some(solved)) = (self.work.batches.get(place.batch), formula.part(place.part)) else {
            return Ok(Vec::new());
        };
        let recipe = &batch.recipe;
        let mixed = solved.mixed()?;
        let solved = mixed.as_ref();
        let loads = loads::count((recipe, place.part), solved, formula, step_at, self.kitchen)?;
        if loads == 0 {
            return Ok(Vec::new());
        }
        let pieces = loads::pieces_at((recipe, place.part), solved, formula, step_at)?;
        let loads = self.moments(place, (solved, formula), step)?.unwrap_or(loads);
        let come = match recipe.part(place.part) {
            Some(part) => self.as_it_comes((place, part), (solved, formula), (step_at, loads))?,
            None => None,
        };
        let (cut_as, loads) = come.unwrap_or((step, loads));
        let shares = self.shares(step, loads)?;
        // At each of its moments all of it is worked on.
        let moments = i64::try_from(step.moments.len()).unwrap_or(1).max(1);
        let pieces = pieces.filter(|_| moments == 1);
        let full = loads::fills((recipe, place.part), solved, formula, step, self.kitchen)?;
        let (by_pieces, size) = (loads::is_by_pieces(cut_as, self.kitchen), cut_as.loads.size());
        let pieces = Dealt { pieces, by_pieces, size, full, moments };
        let of = StepRef { part: place.part, step: step_at };
        let mut tasks = loads_of(recipe, place.batch, of, at, step, (loads, shares), pieces)?;
        let place_of = step.equipment.as_ref().and_then(|name| self.kitchen.find(name));
        if place_of.is_some_and(|equipment| !equipment.has_room_for_all()) {
            tasks.iter_mut().for_each(|task| task.takes_room = true);
        }
        if place_of.is_some_and(|equipment| equipment.stands_by_weight().is_some()) {
            let all = loads::weight_at((recipe, place.part), solved, step_at)?;
            for task in &mut tasks {
                task.weight = Some(all.times(task.share)?);
            }
        }
        Ok(tasks)
    }

    /// Into how many shares the work of a step is cut: one for each who may share it; of work on single pieces that nobody here can
    /// do without a pause, although the kitchen is open for so long, as many as it takes, half as long as somebody could.
    fn shares(&self, step: &Step, pieces: i64) -> Result<i64, Overflow> {
        let people = self.sharing(step);
        let (each, hands) = (step.loads == Loads::Each, step.kind == StepKind::Hands);
        let all = step.time.1.times(Number::whole(pieces))?.over(Number::whole(people))?.whole_minutes();
        let of_a_load = match step.loads {
            Loads::Each => step.time.1.times(Number::whole(pieces)),
            // Piece by piece in loads: of how many, each load says.
            Loads::EachOf(_) => Ok(Duration::ZERO),
            _ => Ok(step.time.1),
        };
        let most = self.kitchen.longest_stretch();
        match all {
            Some(all) if each && hands && all > most && most >= 2 && all <= self.kitchen.open_for() => {
                let half = most / 2;
                Ok(people.saturating_mul((all + half - 1) / half).min(MOST_LOADS.max(people)))
            }
            // Where one of three is not there, two share it as well: in thirds one of them would look on.
            _ if people == 3 && hands && of_a_load?.whole_minutes() >= Some(WORTH_SIXTHS) => Ok(6),
            _ => Ok(people),
        }
    }

    /// How many of those who work here may share the work of a step.
    fn sharing(&self, step: &Step) -> i64 {
        i64::from(step.shared_by.min(self.kitchen.cooks)).max(1)
    }

    /// No more people than may share it work at a piece of work at once, into however many shares it is cut.
    pub(super) fn no_more_at_once(&mut self, step: &Step, loads: &[usize]) {
        if step.shared_by >= self.kitchen.cooks {
            return;
        }
        let people = usize::try_from(self.sharing(step)).unwrap_or(usize::MAX);
        for shares in self.by_bundle(loads) {
            let pairs = shares.iter().zip(shares.iter().skip(people));
            let lags: Vec<Lag> = pairs.map(|(one, other)| Lag::after(*one, *other)).collect();
            self.tasks.lags.extend(lags);
        }
    }

    pub(super) fn turn(&self, task: usize) -> Option<usize> {
        self.task(task).and_then(|task| task.turn)
    }

    /// The tasks of each time by themselves; all together where there is one time.
    pub(super) fn by_turn(&self, tasks: &[usize]) -> Vec<Vec<usize>> {
        let mut all: Vec<Vec<usize>> = Vec::new();
        for task in tasks {
            match all.last_mut().filter(|known| known.first().map(|one| self.turn(*one)) == Some(self.turn(*task))) {
                Some(known) => known.push(*task),
                None => all.push(vec![*task]),
            }
        }
        all
    }

    /// Two steps that hang together: time by time where both are done so.
    pub(super) fn in_turns(&self, first: &[usize], then: &[usize]) -> Vec<(Vec<usize>, Vec<usize>)> {
        let split = |tasks: &[usize]| tasks.iter().any(|task| self.turn(*task).is_some());
        if !split(first) || !split(then) {
            return vec![(first.to_vec(), then.to_vec())];
        }
        self.by_turn(first).into_iter().zip(self.by_turn(then)).collect()
    }

    /// Of these tasks those that are done for the same time as another, or for all times.
    pub(super) fn with_turn_of(&self, tasks: Vec<usize>, other: Option<usize>) -> Vec<usize> {
        let turn = other.and_then(|other| self.turn(other));
        tasks.into_iter().filter(|task| self.turn(*task).is_none() || self.turn(*task) == turn).collect()
    }

    /// Whether a step that is done for all times is followed by one that is done for each.
    pub(super) fn parts_here(&self, first: &[usize], then: &[usize]) -> bool {
        let one = |tasks: &[usize]| tasks.first().and_then(|task| self.turn(*task));
        one(first).is_none() && one(then).is_some()
    }

    /// Which loads of a step that is done for all times hold something of which loads of one that is done for each.
    pub(super) fn parting_pairs(&self, first: &[usize], then: &[usize]) -> Vec<(usize, usize)> {
        let (first, then) = (self.stretches(first), self.stretches(then));
        let mut pairs = Vec::new();
        for (one, (from, to)) in &first {
            let meets = |(_, (begin, end)): &&(usize, (Number, Number))| begin < to && from < end;
            pairs.extend(then.iter().filter(meets).map(|(other, _)| (*one, *other)));
        }
        pairs
    }

    /// Which loads of a step hold something of which loads of the one before it, where those are several, and not as many; `None` where the
    /// loads are no shares of the whole.
    pub(super) fn shares_taken(&self, first: &[usize], then: &[usize]) -> Option<Vec<(usize, usize)>> {
        let share = |at: &usize| self.task(*at).map_or(Number::ZERO, |task| task.share);
        let is_whole = |tasks: &[usize]| {
            let all = tasks.iter().map(share).try_fold(Number::ZERO, |sum, share| sum.plus(share));
            all.is_ok_and(|all| all == Number::ONE)
        };
        let counts = first.len() > 1 && then.len() > 1 && !self.go_load_by_load(first, then);
        (counts && is_whole(first) && is_whole(then)).then(|| self.parting_pairs(first, then))
    }

    /// Whether each load of a step goes into the load of that number of the next: there are as many, and each holds as much, but for less than
    /// a piece.
    pub(super) fn go_load_by_load(&self, first: &[usize], then: &[usize]) -> bool {
        let each = |tasks: &[usize]| tasks.iter().map(|task| vec![*task]).collect::<Vec<_>>();
        self.reach_as_far(&each(first), &each(then))
    }

    /// The same of pieces of work of which each may be shared.
    pub(super) fn reach_as_far(&self, first: &[Vec<usize>], then: &[Vec<usize>]) -> bool {
        let ends = |all: &[Vec<usize>]| {
            let mut last = self.stretches(&all.concat()).into_iter();
            let end = |tasks: &Vec<usize>| last.by_ref().take(tasks.len()).last().map(|(_, (_, end))| end);
            all.iter().filter_map(end).collect::<Vec<Number>>()
        };
        let piece = then.iter().flatten().filter_map(|at| self.task(*at));
        let piece = piece.filter_map(|task| task.share.over(task.pieces?).ok()).next();
        let is_as_far = |(one, other): (Number, Number)| {
            let apart = one.max(other).minus(one.min(other));
            one == other || apart.is_ok_and(|apart| piece.is_some_and(|piece| apart < piece))
        };
        first.len() == then.len() && ends(first).into_iter().zip(ends(then)).all(is_as_far)
    }

    /// From which share of all to which each load reaches; all of it where the loads are not shares of the whole.
    fn stretches(&self, tasks: &[usize]) -> Vec<(usize, (Number, Number))> {
        let mut done = Number::ZERO;
        let mut all = Vec::with_capacity(tasks.len());
        for task in tasks {
            let share = self.task(*task).map_or(Number::ONE, |task| task.share);
            let end = done.plus(share).unwrap_or(Number::ONE);
            all.push((*task, (done, end)));
            done = end;
        }
        if done == Number::ONE { all } else { tasks.iter().map(|task| (*task, (Number::ZERO, Number::ONE))).collect() }
    }

    /// How much of all was done before each of these loads, of 1.
    pub(super) fn done_before(&self, tasks: &[usize]) -> Vec<Number> {
        self.stretches(tasks).into_iter().map(|(_, (done, _))| done).collect()
    }

    /// The tasks that finish an order, of those that finish its part: its own where each time has its own.
    pub(super) fn of_order(&self, tasks: Vec<usize>, order: usize) -> Vec<usize> {
        let is_its = |at: &usize| {
            let Some(task) = self.task(*at) else { return true };
            let turn = self.apart_of(task.batch).and_then(|apart| apart.turn_of(order));
            task.turn.is_none() || task.turn == turn
        };
        tasks.into_iter().filter(is_its).collect()
    }
}
