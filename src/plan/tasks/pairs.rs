//! Which loads of a step wait for which of the step before it.

use super::super::problem::{FURTHEST, Lag, Minute, Point, Rule};
use super::{Making, SAME_DAY, Task, up_to};
use crate::model::alive::STAND;
use crate::model::step::StepKind;

impl Making<'_> {
    /// Which loads of a step wait for which of the one before.
    pub(super) fn pairs(&self, first: &[usize], then: &[usize]) -> Vec<(usize, usize)> {
        match self.parts_here(first, then) {
            true => self.parting_pairs(first, then),
            false => self.alongside(first, then).iter().flat_map(|(first, then)| self.pairs_of(first, then)).collect(),
        }
    }

    /// Of the pairs of loads those by which each stretch of a step follows the one before it.
    pub(super) fn leading_pairs(&self, first: &[usize], then: &[usize]) -> Vec<(usize, usize)> {
        match self.parts_here(first, then) {
            true => self.parting_pairs(first, then).into_iter().take(1).collect(),
            false => self
                .alongside(first, then)
                .iter()
                .filter_map(|(one, other)| self.pairs_of(one, other).first().copied())
                .collect(),
        }
    }

    /// A rest that the file puts after one step begins where it is left, as after the step above it: the moment that one ends.
    pub(super) fn begins_at_once(&mut self, first: &[usize], then: &[usize]) {
        for (made, rest) in self.leading_pairs(first, then) {
            let (Some(one), Some(other)) = (self.task(made), self.task(rest)) else { continue };
            if is_at_once(one, other, true) && one.kind != StepKind::Wait {
                self.tasks.lags.push(Lag { rule: Rule::AtOnce, ..Lag::straight_after(made, rest) });
            }
        }
    }

    /// When the loads of a step come that the file puts after another.
    pub(super) fn come_after(&mut self, first: &[usize], then: &[usize], most: Option<Minute>, rule: Rule) {
        let ends = first.last().copied();
        let begins = then.first().copied();
        // What goes straight on in its unit is the load that is there.
        let name = |tasks: &[usize]| tasks.first().and_then(|at| self.task(*at)?.equipment.clone());
        let same_unit = || name(first).zip(name(then)).is_some_and(|(one, other)| one.same(&other));
        let stays = most == Some(0) && first.len() == then.len() && same_unit();
        let pairs =
            if stays { first.iter().copied().zip(then.iter().copied()).collect() } else { self.pairs(first, then) };
        let flows = stays || self.go_load_by_load(first, then);
        let soon = rule == Rule::Within && most.is_some_and(|most| most <= SAME_DAY);
        for (first, then) in pairs.iter().copied() {
            let stretch =
                self.task(first).filter(|task| task.kind == StepKind::Wait).and_then(|task| task.most_minutes);
            // Of many loads only the first can come straight after the last; within some time of it each of them has to.
            let is_its_last = || pairs.iter().all(|(one, other)| *other != then || *one <= first);
            let meets = match rule {
                Rule::Within => is_its_last(),
                _ => (Some(first), Some(then)) == (ends, begins) || flows && first_meets(first, then, self),
            };
            let most = most.filter(|_| meets);
            let lag = Lag { most, rule, ..Lag::after(first, then) };
            let waits_its_turn = self.share_before(then).filter(|_| rule == Rule::Within && most.is_some());
            match waits_its_turn {
                // Work that several may share goes on when the share before is done, if one alone does it all.
                Some(before) => {
                    let (from, to) = (Point::end(before), Point::start(then));
                    let on = Lag { from, to, least: -FURTHEST, most: Some(STAND), rule: Rule::Alive };
                    self.tasks.lags.extend([Lag { most: None, ..lag }, on]);
                }
                None => self.tasks.lags.push(lag),
            }
            if rule == Rule::StraightAfter && most.is_none() {
                self.half_cooked(first, then);
            }
            // What is to follow within minutes of the last load does not let the others stand over night.
            if soon {
                self.tasks.same_day.push((first, then));
            }
            if let (Some(stretch), None) = (stretch, most) {
                self.tasks.lags.push(up_to(first, then, stretch));
            }
            if most == Some(0) {
                self.stay_in_one(first, then);
            }
        }
    }

    /// Two steps that follow each other, cut into what goes on by itself: where several share the loads of one of them and the other has
    /// as many loads, the shares of each load beside it; else all together.
    pub(super) fn alongside(&self, first: &[usize], then: &[usize]) -> Vec<(Vec<usize>, Vec<usize>)> {
        let (one, other) = (self.by_bundle(first), self.by_bundle(then));
        if self.go_load_by_load(first, then) || !self.reach_as_far(&one, &other) {
            return vec![(first.to_vec(), then.to_vec())];
        }
        one.into_iter().zip(other).collect()
    }

    /// Loads of equal number and size flow load by load; otherwise the whole step before must have ended, and every load of both
    /// matters: what comes out first stands longest.
    fn pairs_of(&self, first: &[usize], then: &[usize]) -> Vec<(usize, usize)> {
        if self.go_load_by_load(first, then) {
            return first.iter().copied().zip(then.iter().copied()).collect();
        }
        if let Some(pairs) = self.hot_pairs(first, then) {
            return pairs;
        }
        let (Some(last), Some(begin)) = (first.last().copied(), then.first().copied()) else { return Vec::new() };
        let waiting = then.iter().map(|then| (last, *then));
        let early = first.iter().filter(|first| **first != last).map(|first| (*first, begin));
        waiting.chain(early).collect()
    }

    /// The tasks of each load together: shares of its work, or it alone.
    pub(super) fn by_bundle(&self, tasks: &[usize]) -> Vec<Vec<usize>> {
        let bundle = |at: usize| self.task(at).and_then(|task| Some((task.turn, task.bundle?)));
        let same = |one: &usize, next: &usize| bundle(*one).is_some() && bundle(*one) == bundle(*next);
        tasks.chunk_by(same).map(<[usize]>::to_vec).collect()
    }
}

/// Whether a step is a rest that begins the moment the one before it ends: load by load, else the first that follows when all
/// there was before it has ended.
pub(super) fn is_at_once(one: &Task, other: &Task, is_leading: bool) -> bool {
    let left_alone = one.equipment.is_none() || one.kind != StepKind::Wait;
    let flows = one.loads == other.loads || is_leading;
    other.kind == StepKind::Wait && other.equipment.is_none() && left_alone && flows
}

/// Whether two tasks are loads of the same number, of steps with equally many.
fn first_meets(first: usize, then: usize, making: &Making<'_>) -> bool {
    match (making.task(first), making.task(then)) {
        (Some(one), Some(other)) => one.loads == other.loads && one.load == other.load,
        _ => false,
    }
}
