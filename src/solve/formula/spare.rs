//! What is made of a preferment on top of what goes into its dough: seed for tomorrow, and what other parts take of it.

use super::left_out::users_first;
use super::settle::Solver;
use super::{Formula, SolvedPart};
use crate::measure::number::{Number, Overflow};
use crate::measure::quantity::Mass;
use crate::model::recipe::Part;
use std::borrow::Cow;

impl SolvedPart {
    /// That as a share of what goes into the total formula; `None` where there is none.
    ///
    /// # Errors
    /// When it leaves the range of exact numbers.
    pub(crate) fn extra_share(&self) -> Result<Option<Number>, Overflow> {
        match (self.extra, self.makes) {
            (Some(extra), Some(makes)) if extra > Mass::ZERO && makes > Mass::ZERO => extra.ratio(makes).map(Some),
            _ => Ok(None),
        }
    }

    /// The part as it is mixed: with what is made besides what goes into its total formula. `None` where that is all there is to it.
    ///
    /// # Errors
    /// When an amount leaves the range of exact numbers.
    pub fn whole(&self) -> Result<Option<SolvedPart>, Overflow> {
        let Some(share) = self.extra_share()? else { return Ok(None) };
        let one = Formula { parts: vec![self.clone()].into(), pieces: None }.times(Number::ONE.plus(share)?)?;
        let balance = self.balance;
        Ok(one.parts.into_iter().next().map(|part| SolvedPart { extra: None, spare: None, balance, ..part }))
    }

    /// The part as it is weighed out and as its card has it: a preferment with what is made of it besides, any other part as it is. Whoever
    /// prints what goes into a part asks here.
    ///
    /// # Errors
    /// When an amount leaves the range of exact numbers.
    pub fn mixed(&self) -> Result<Cow<'_, SolvedPart>, Overflow> {
        Ok(self.whole()?.map_or(Cow::Borrowed(self), Cow::Owned))
    }

    /// What each line takes out of the store, over all parts once: a preferment's lines are those of its total formula, and of
    /// it counts only what is made besides. `None` for a part that takes nothing by itself.
    ///
    /// # Errors
    /// When an amount leaves the range of exact numbers.
    pub fn bought(&self, part: &Part) -> Result<Option<Vec<Option<Mass>>>, Overflow> {
        if part.from.is_none() {
            return Ok(Some(self.lines.iter().map(|line| line.mass).collect()));
        }
        let Some(share) = self.extra_share()? else { return Ok(None) };
        let lines = self.lines.iter().map(|line| line.final_mix.map(|mass| mass.times(share)).transpose());
        lines.collect::<Result<Vec<Option<Mass>>, Overflow>>().map(Some)
    }
}

impl Formula {
    /// The same with each part as it is weighed out; `None` where no preferment is made with anything besides.
    ///
    /// # Errors
    /// When an amount leaves the range of exact numbers.
    pub fn mixed(&self) -> Result<Option<Formula>, Overflow> {
        if self.parts.iter().all(|part| part.extra.is_none()) {
            return Ok(None);
        }
        let parts: Result<Vec<SolvedPart>, Overflow> =
            self.parts.iter().map(|part| Ok(part.mixed()?.into_owned())).collect();
        Ok(Some(Formula { parts: parts?.into(), pieces: self.pieces }))
    }
}

impl Solver<'_, '_, '_> {
    /// Finds what is made of each preferment besides what goes into its total formula: what it says that is to be left over, what other parts
    /// take of it, crackers of a sour, and its share of what is made so of the one that it goes into.
    pub(super) fn extras(&mut self) -> Result<(), Overflow> {
        let recipe = self.recipe;
        if recipe.parts().all(|(_, part)| part.from.is_none()) {
            return Ok(());
        }
        for id in users_first(recipe) {
            let Some((part, from)) = recipe.part(id).and_then(|part| Some((part, part.from?))) else { continue };
            let grown = if part.foreign.is_some() { self.growth(from)?.unwrap_or(Number::ONE) } else { Number::ONE };
            let spare = part.spare.map(|(mass, _)| mass.times(grown)).transpose()?;
            let taken = self.demand(id)?.unwrap_or(Mass::ZERO);
            let mut extra = spare.unwrap_or(Mass::ZERO).plus(taken)?;
            let above = self.formula.part(from).map(SolvedPart::extra_share).transpose()?.flatten();
            let makes = self.formula.part(id).and_then(|part| part.makes);
            if let (Some(share), Some(makes)) = (above, makes) {
                extra = extra.plus(makes.times(share)?)?;
            }
            if let Some(slot) = self.formula.parts.get_mut(id.0) {
                slot.extra = makes.and(Some(extra)).filter(|mass| *mass > Mass::ZERO);
                slot.spare = spare;
            }
        }
        Ok(())
    }
}
