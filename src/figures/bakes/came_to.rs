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
    /// How much of the batch the load is, of 1; `None` where the formula has no such load, and nobody can tell.
    pub share: Option<Number>,
    /// How many pieces it is by the formula.
    pub pieces: Option<Number>,
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

    /// As [`all`](Weighing::all), of what one piece weighs and how many there are where that is known.
    fn counted(&self) -> Option<Mass> {
        self.all().or_else(|| self.each()?.times(self.pieces?).ok())
    }

    /// What came out of the step before that was weighed last: of the same load where it is as large, else of all its loads.
    pub fn before(&self, all: &[Weighing]) -> Before {
        let earlier = all.iter().filter(|one| one.step < self.step && (one.all().is_some() || one.each().is_some()));
        let Some(step) = earlier.clone().map(|one| one.step).max() else { return Before::default() };
        let of_step: Vec<&Weighing> = earlier.filter(|one| one.step == step).collect();
        let is_same = |one: &&&Weighing| {
            self.load.is_some() && one.load == self.load && self.share.is_some() && one.share == self.share
        };
        let step = Some(step);
        if let Some(same) = of_step.iter().find(is_same) {
            return Before { step, all: same.all(), each: same.each(), counted: same.counted() };
        }
        let share_of = |weight: fn(&Weighing) -> Option<Mass>| self.share_of(&of_step, weight).ok().flatten();
        Before {
            step,
            all: share_of(Weighing::all),
            each: mean_each(&of_step).ok().flatten(),
            counted: share_of(Weighing::counted),
        }
    }

    /// As much of what some loads weighed as this one is of the batch; nothing where that is not known of one of them.
    fn share_of(&self, loads: &[&Weighing], weight: fn(&Weighing) -> Option<Mass>) -> Result<Option<Mass>, Overflow> {
        let (mut mass, mut share) = (Mass::ZERO, Number::ZERO);
        for (all, of) in loads.iter().filter_map(|one| Some((weight(one)?, one.share))) {
            let Some(of) = of else { return Ok(None) };
            mass = mass.plus(all)?;
            share = share.plus(of)?;
        }
        let Some(own) = self.share.filter(|_| share.is_positive()) else { return Ok(None) };
        Ok(Some(mass.times(own.over(share)?)?))
    }

    /// The loss, as a share in percent: of what a piece weighed before, else of what all of it did; where one of the two was weighed
    /// in pieces and the other not, by how many there are. `made` is what goes into the step by the formula where nothing was
    /// weighed: the load, and a piece, if the step is one in which pieces go in; `later` what of the load goes in after the step, and is
    /// not lost.
    pub fn loss(&self, before: Before, (load, piece): (Option<Mass>, Option<Mass>), later: Mass) -> Option<Number> {
        let weighed = before.each.zip(self.each()).or_else(|| before.all.zip(self.all()));
        let weighed = weighed.or_else(|| before.counted.zip(self.counted()));
        let of_load = || load.zip(self.all()?.plus(later).ok());
        let (into, out) = weighed.or_else(|| piece.zip(self.each())).or_else(of_load)?;
        into.minus(out).ok()?.ratio(into).ok()?.times(Number::whole(100)).ok()
    }
}

/// What was weighed before a step.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub(super) struct Before {
    /// The step after which it was weighed; none where that was in another part, or nowhere.
    pub step: Option<usize>,
    /// All that goes into it.
    pub all: Option<Mass>,
    /// A piece.
    pub each: Option<Mass>,
    /// All that goes into it, by what a piece weighs and how many there are where it was not weighed as a whole.
    pub counted: Option<Mass>,
}

impl Before {
    /// With what went in since, of all of it and of a piece: what is brushed on in the oven was on no scale before it.
    pub fn with(self, all: Option<Mass>, each: Option<Mass>) -> Before {
        let more = |weighed: Option<Mass>, since: Option<Mass>| {
            weighed.and_then(|weighed| since.map_or(Ok(weighed), |since| weighed.plus(since)).ok())
        };
        Before {
            step: self.step,
            all: more(self.all, all),
            each: more(self.each, each),
            counted: more(self.counted, all),
        }
    }

    /// Of a piece that was weighed where the dough was divided, in the part before.
    pub fn of_a_piece(each: Option<Mass>) -> Before {
        Before { each, ..Before::default() }
    }
}

/// What a piece weighs on the mean of some loads, each counting by what it is of the batch, and all alike where that is not known.
fn mean_each(loads: &[&Weighing]) -> Result<Option<Mass>, Overflow> {
    let (mut mass, mut share) = (Mass::ZERO, Number::ZERO);
    let are_known = loads.iter().all(|one| one.share.is_some());
    for (each, of) in loads.iter().filter_map(|one| Some((one.each()?, one.share.filter(|_| are_known)))) {
        let of = of.unwrap_or(Number::ONE);
        mass = mass.plus(each.times(of)?)?;
        share = share.plus(of)?;
    }
    if !share.is_positive() {
        return Ok(None);
    }
    Ok(Some(mass.over(share)?))
}
