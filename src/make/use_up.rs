//! All of an ingredient used up: the number of pieces that is nearest, and the piece weight that leaves nothing over.

use crate::language::syntax::Name;
use crate::measure::number::{Number, Overflow};
use crate::measure::quantity::{Count, Mass};
use crate::measure::value::Value;
use crate::model::recipe::{PartId, Recipe, Refers};
use crate::solve::formula::Formula;

/// A part whose pieces weigh something else than it is written, so that all of an ingredient is used.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Reweighed {
    /// The part.
    pub part: PartId,
    /// The sort, where the part is divided into several.
    pub sort: Option<Name>,
    /// What a piece weighs as it is written.
    pub written: Mass,
    /// What a piece weighs now.
    pub now: Mass,
}

/// How many times the batch as written the number of pieces is that is nearest to so many times its mass; below one step there is one.
///
/// # Errors
/// When a number leaves the range of exact numbers.
pub(super) fn nearest(factor: Number, step: Number) -> Result<Number, Overflow> {
    factor.over(step)?.rounded_to(Number::ONE)?.max(Number::ONE).times(step)
}

/// The formula at so many times its mass, in the whole number of pieces that is nearest to it; `step` is the smallest share of the written
/// batch by which its pieces can grow. Masses grow by the factor, counts by the whole steps, and a piece weighs what comes of both.
///
/// # Errors
/// When an amount leaves the range of exact numbers.
pub fn use_up(
    recipe: &Recipe,
    written: &Formula,
    factor: Number,
    step: Option<Number>,
) -> Result<(Formula, Vec<Reweighed>), Overflow> {
    let mut formula = written.times(factor)?;
    let Some(step) = step else { return Ok((formula, Vec::new())) };
    let pieces = nearest(factor, step)?;
    let heavier = factor.over(pieces)?;
    let mut reweighed = Vec::new();
    let counted = |count: Option<Count>| count.map(|count| count.over(heavier)).transpose();
    formula.pieces = counted(formula.pieces)?;
    for ((id, part), solved) in recipe.parts().zip(&mut formula.parts) {
        solved.pieces = counted(solved.pieces)?;
        if let Some(each) = &mut solved.each {
            let now = each.times(heavier)?;
            if part.divide.is_some() && now != *each {
                reweighed.push(Reweighed { part: id, sort: None, written: *each, now });
            }
            *each = now;
        }
        if !part.sorts.is_empty() {
            solved.heavier = Some(heavier);
        }
        for (sort, count) in part.sorts.iter().zip(&mut solved.sorts) {
            *count = count.over(heavier)?;
            let now = sort.each.times(heavier)?;
            if now != sort.each && count.value().is_positive() {
                reweighed.push(Reweighed { part: id, sort: Some(sort.name.clone()), written: sort.each, now });
            }
        }
        for (line, amount) in part.lines.iter().zip(&mut solved.lines) {
            amount.each = amount.each.map(|each| each.times(heavier)).transpose()?;
            // Pieces of another part are as many as that has now; eggs go by the mass.
            if let (Refers::Part(_), Some(Value::Count(count))) = (&line.refers, amount.measure) {
                amount.measure = Some(Value::Count(count.over(heavier)?));
            }
        }
    }
    Ok((formula, reweighed))
}
