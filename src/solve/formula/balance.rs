//! What a part makes against what the others take of it.

use super::Formula;
use crate::measure::number::{Number, Overflow};
use crate::measure::quantity::{Count, Mass};
use crate::measure::value::Value;
use crate::model::recipe::{LineAmount, PartId, Recipe};

/// Made, used, left.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Balance {
    /// What comes out; `None` when it is not known.
    pub makes: Option<Mass>,
    /// What the other parts take; `None` when none takes any or it is not known.
    pub used: Option<Mass>,
    /// What is left, beyond what is meant to be.
    pub left: Option<Mass>,
    /// The pieces that the other parts take, where they take pieces.
    pub pieces_used: Option<Count>,
}

impl Balance {
    /// For so many times the batch.
    pub(super) fn times(self, factor: Number) -> Result<Balance, Overflow> {
        let mass = |mass: Option<Mass>| mass.map(|mass| mass.times(factor)).transpose();
        Ok(Balance {
            makes: mass(self.makes)?,
            used: mass(self.used)?,
            left: mass(self.left)?,
            pieces_used: self.pieces_used.map(|count| count.times(factor)).transpose()?,
        })
    }
}

pub(super) fn of(recipe: &Recipe, formula: &Formula, id: PartId) -> Result<Balance, Overflow> {
    let Some(solved) = formula.part(id) else { return Ok(Balance::default()) };
    if let (Some(extra), Some(makes)) = (solved.extra, solved.makes) {
        // Of a preferment the total formula takes all but what is meant to be left of it and what other parts take; what is left of the one it
        // goes into takes the rest.
        let all = makes.plus(extra)?;
        let used = Some(all.minus(solved.spare.unwrap_or(Mass::ZERO))?);
        return Ok(Balance { makes: Some(all), used, left: Some(Mass::ZERO), pieces_used: None });
    }
    let mut used = None;
    let mut complete = true;
    let mut pieces = None;
    for (user, at) in recipe.users(id) {
        let Some(part) = recipe.part(user).filter(|part| part.from.is_none()) else { continue };
        // What is taken from the store is taken of what another day made.
        if part.lines.get(at).is_some_and(|line| line.from_store) {
            continue;
        }
        let line = formula.part(user).and_then(|part| part.lines.get(at));
        match line.and_then(|line| line.mass) {
            Some(mass) => used = Some(used.unwrap_or(Mass::ZERO).plus(mass)?),
            None => complete = false,
        }
        if let Some(count) = pieces_taken(recipe, user, at) {
            let count = if part.per_piece {
                count.times(formula.pieces_for(part, user).map_or(Number::ONE, Count::value))?
            } else {
                count
            };
            pieces = Some(pieces.unwrap_or(Count::ZERO).plus(count)?);
        }
    }
    let used = used.filter(|_| complete);
    let spare = recipe.part(id).and_then(|part| part.spare).map_or(Mass::ZERO, |(mass, _)| mass);
    let left = match (solved.makes, used) {
        (Some(makes), Some(used)) => Some(makes.minus(used)?.minus(spare)?),
        _ => None,
    };
    Ok(Balance { makes: solved.makes, used, left, pieces_used: pieces })
}

/// The pieces of another part that a line takes as it is written.
fn pieces_taken(recipe: &Recipe, user: PartId, at: usize) -> Option<Count> {
    let part = recipe.part(user)?;
    // A part of a used recipe was scaled, so that its written pieces no longer hold.
    if part.foreign.is_some() {
        return None;
    }
    let LineAmount::Said(said) = &part.lines.get(at)?.amount else { return None };
    match said.first()?.value {
        Value::Count(count) => Some(count),
        _ => None,
    }
}
