//! What came out of a step beside what went into it, load by load: the loss of a load is of what that load weighed before.

use crate::language::bakes::CameTo;
use crate::measure::number::{Number, Overflow};
use crate::measure::quantity::Mass;

/// What was weighed of a step: of one load, or of all of it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Weighing {
    /// The step's place in its part.
    pub step: usize,
    /// The load, where it was said.
    pub load: Option<i64>,
    /// How much of the batch the load is, of 1.
    pub share: Number,
    /// What it came to.
    pub came_to: CameTo,
}

impl Weighing {
    /// What all of it weighs.
    fn all(&self) -> Option<Mass> {
        match self.came_to {
            CameTo::All(all) => Some(all),
            CameTo::Pieces(count, each) => each?.times(count).ok(),
            CameTo::Each(_) => None,
        }
    }

    /// What a piece of it weighs.
    fn each(&self) -> Option<Mass> {
        match self.came_to {
            CameTo::Each(each) | CameTo::Pieces(_, Some(each)) => Some(each),
            CameTo::All(_) | CameTo::Pieces(_, None) => None,
        }
    }

    /// What came out of the step before that was weighed last: of the same load where it is as large, else of all its loads.
    pub fn before(&self, all: &[Weighing]) -> Before {
        let earlier = all.iter().filter(|one| one.step < self.step && (one.all().is_some() || one.each().is_some()));
        let Some(step) = earlier.clone().map(|one| one.step).max() else { return Before::default() };
        let of_step: Vec<&Weighing> = earlier.filter(|one| one.step == step).collect();
        let is_same = |one: &&&Weighing| self.load.is_some() && one.load == self.load && one.share == self.share;
        if let Some(same) = of_step.iter().find(is_same) {
            return Before { all: same.all(), each: same.each() };
        }
        Before { all: self.share_of(&of_step).ok().flatten(), each: mean_each(&of_step).ok().flatten() }
    }

    /// As much of what some loads weighed as this one is of the batch.
    fn share_of(&self, loads: &[&Weighing]) -> Result<Option<Mass>, Overflow> {
        let (mut mass, mut share) = (Mass::ZERO, Number::ZERO);
        for (all, of) in loads.iter().filter_map(|one| Some((one.all()?, one.share))) {
            mass = mass.plus(all)?;
            share = share.plus(of)?;
        }
        if !share.is_positive() {
            return Ok(None);
        }
        Ok(Some(mass.times(self.share.over(share)?)?))
    }

    /// The loss, as a share in percent: of what a piece weighed before, else of what all of it did. `made` is what goes into the
    /// step by the formula where nothing was weighed: the load, and a piece, if the step is one in which pieces go in.
    pub fn loss(&self, before: Before, (load, piece): (Option<Mass>, Option<Mass>)) -> Option<Number> {
        let of_pieces = before.each.or(piece).zip(self.each());
        let (into, out) = of_pieces.or_else(|| before.all.or(load).zip(self.all()))?;
        into.minus(out).ok()?.ratio(into).ok()?.times(Number::whole(100)).ok()
    }
}

/// What was weighed before a step.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub(super) struct Before {
    /// All that goes into it.
    pub all: Option<Mass>,
    /// A piece.
    pub each: Option<Mass>,
}

/// What a piece weighs on the mean of some loads, each counting by what it is of the batch.
fn mean_each(loads: &[&Weighing]) -> Result<Option<Mass>, Overflow> {
    let (mut mass, mut share) = (Mass::ZERO, Number::ZERO);
    for (each, of) in loads.iter().filter_map(|one| Some((one.each()?, one.share))) {
        mass = mass.plus(each.times(of)?)?;
        share = share.plus(of)?;
    }
    if !share.is_positive() {
        return Ok(None);
    }
    Ok(Some(mass.over(share)?))
}
