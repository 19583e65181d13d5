//! What is made of a preferment to be left over: seed for tomorrow, on top of what goes into the dough.

use super::{Formula, SolvedPart};
use crate::measure::number::{Number, Overflow};
use crate::measure::quantity::Mass;
use crate::model::recipe::{Part, PartId, Recipe};

impl SolvedPart {
    /// What is left over as a share of what goes into the total formula; `None` where nothing is meant to be.
    fn extra_share(&self) -> Result<Option<Number>, Overflow> {
        match (self.extra, self.makes) {
            (Some(extra), Some(makes)) if extra > Mass::ZERO && makes > Mass::ZERO => extra.ratio(makes).map(Some),
            _ => Ok(None),
        }
    }

    /// The part as it is mixed: with what is made to be left over. `None` where that is all there is to it.
    ///
    /// # Errors
    /// When an amount leaves the range of exact numbers.
    pub fn whole(&self) -> Result<Option<SolvedPart>, Overflow> {
        let Some(share) = self.extra_share()? else { return Ok(None) };
        let one = Formula { parts: vec![self.clone()], pieces: None }.times(Number::ONE.plus(share)?)?;
        let balance = self.balance;
        Ok(one.parts.into_iter().next().map(|part| SolvedPart { extra: None, balance, ..part }))
    }

    /// What each line takes out of the store, over all parts once: a preferment's lines are those of its total formula, and of
    /// it counts only what is made to be left over. `None` for a part that takes nothing by itself.
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

/// What is made of a preferment to be left over: what it says, and its share of what is left over of the one it goes into.
pub(super) fn extra(recipe: &Recipe, formula: &Formula, id: PartId) -> Result<Option<Mass>, Overflow> {
    let Some((part, from)) = recipe.part(id).and_then(|part| Some((part, part.from?))) else { return Ok(None) };
    let mut extra = part.spare.map_or(Mass::ZERO, |(mass, _)| mass);
    let above = formula.part(from).map(SolvedPart::extra_share).transpose()?.flatten();
    if let (Some(share), Some(makes)) = (above, formula.part(id).and_then(|part| part.makes)) {
        extra = extra.plus(makes.times(share)?)?;
    }
    Ok(Some(extra).filter(|mass| *mass > Mass::ZERO))
}
