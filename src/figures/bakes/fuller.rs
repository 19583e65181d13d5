//! More in the pot: where less comes out of a part than the others take of it, so much more goes in that what they take comes out.

use crate::language::syntax::{Amount, Content, Tree};
use crate::measure::number::{Number, Overflow};
use crate::measure::quantity::Mass;
use crate::measure::unit::Unit;
use crate::model::recipe::{LineAmount, PartId, Recipe};
use crate::solve::formula::Formula;
use crate::text::diagnostic::Edit;

/// How many times as much must go into a part that loses `lost` of 1, so that what is written comes out; `None` where what comes out is
/// enough for the parts that take it, and where no weight is known.
///
/// # Errors
/// When an amount leaves the range of exact numbers.
pub(super) fn times(recipe: &Recipe, formula: &Formula, id: PartId, lost: Number) -> Result<Option<Number>, Overflow> {
    let Some(solved) = formula.part(id).filter(|_| recipe.users(id).next().is_some()) else { return Ok(None) };
    let (Some(used), Some(needs), Some(stays)) = (solved.balance.used, solved.needs, solved.stays) else {
        return Ok(None);
    };
    let now = stays.times(Number::ONE.minus(lost)?)?;
    // As far as `part-short` lets it be, nothing is done.
    if now <= Mass::ZERO || now.times(Number::constant(1001, 1000))? >= used {
        return Ok(None);
    }
    needs.ratio(now).map(Some)
}

/// The changes of a text that make every amount of a part so many times what it says; shares of a base go along with it.
///
/// # Errors
/// When an amount leaves the range of exact numbers.
pub(super) fn edits(tree: &Tree, recipe: &Recipe, id: PartId, times: Number) -> Result<Vec<Edit>, Overflow> {
    let mut edits = Vec::new();
    let lines = recipe.part(id).map_or(&[][..], |part| &part.lines);
    for line in lines.iter().filter(|line| matches!(line.amount, LineAmount::Said(_))) {
        let Some(Content::Ingredient(written)) = tree.line_at(line.amount_span.start).map(|line| &line.content) else {
            continue;
        };
        let Amount::Chain(chain) = &written.amount else { continue };
        for term in chain.iter().flat_map(|quantity| &quantity.terms) {
            if term.unit.is_none_or(|unit| unit.value != Unit::Percent) {
                let text = term.number.value.times(times)?.decimal(4);
                edits.push(Edit { span: term.number.span, text });
            }
        }
    }
    Ok(edits)
}
