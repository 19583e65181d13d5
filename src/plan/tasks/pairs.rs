//! Which loads of a step wait for which of the step before it.

use super::super::problem::{Lag, Rule};
use super::{Making, Task};
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
