//! What is not worked out again: the formula of a recipe of which another selection changes no amount, only steps; and parts of which
//! neither it nor what uses them changes the amounts.

use super::composition::Others;
use super::{Balance, Composition, Formula, SolvedPart, composition, left_out, linear, uses};
use crate::measure::number::Overflow;
use crate::measure::value::Value;
use crate::model::recipe::{Ingredient, Part, PartId, Recipe};
use crate::text::diagnostic::Diagnostic;
use std::sync::Arc;

/// The formula as it is under another selection, where that has the same amounts in all parts; `None` where there is none.
///
/// # Errors
/// When an amount leaves the range of exact numbers.
pub(super) fn of(
    recipe: &Recipe,
    others: Others<'_>,
    diagnostics: &mut Vec<Diagnostic>,
) -> Result<Option<Formula>, Overflow> {
    // Of another file it may be another selection, and how much is left out hangs on the steps.
    if !recipe.used.is_empty() || left_out::is_any(recipe) {
        return Ok(None);
    }
    let Some((other, known)) = others.iter().find(|(other, _)| is_alike(recipe, other)) else { return Ok(None) };
    let mut formula = (*known).clone();
    for (at, (part, other_part)) in recipe.parts.iter().zip(&other.parts).enumerate() {
        let id = PartId(at);
        if !Arc::ptr_eq(part, other_part) {
            let draws = uses::of(recipe, &formula, id, diagnostics)?;
            if let Some(solved) = formula.parts.get_mut(at) {
                solved.draws = draws.into();
            }
        }
        // Whether a preferment ferments is told by its steps.
        let share = composition::prefermented(recipe, &formula, id)?;
        if let Some(solved) = formula.parts.get_mut(at) {
            solved.prefermented = share;
        }
    }
    Ok(Some(formula))
}

/// A part as it is under another selection, with how its steps draw on it, but without what hangs on the parts that use it: where it is
/// the same part, draws on the same parts of the same size, and no use of it says how large it is.
pub(super) fn of_part(
    recipe: &Recipe,
    formula: &Formula,
    id: PartId,
    (other, other_formula): &(&Recipe, &Formula),
) -> Option<SolvedPart> {
    let is_one = |id: PartId| Some(Arc::ptr_eq(recipe.parts.get(id.0)?, other.parts.get(id.0)?));
    let part = recipe.part(id).filter(|part| is_one(id) == Some(true) && part.sort.is_none())?;
    let is_alone = |recipe: &Recipe| recipe.used.is_empty() && recipe.preferments(id).next().is_none();
    let is_final = |recipe: &Recipe| recipe.final_part() == Some(id);
    let is_beside =
        recipe.makes == other.makes && formula.pieces == other_formula.pieces && is_final(recipe) == is_final(other);
    if !is_beside || !is_alone(recipe) || !is_alone(other) || left_out::is_any(recipe) || !says_its_size(part) {
        return None;
    }
    let known = other_formula.part(id).filter(|known| known.is_settled)?;
    let makes_same = |id: PartId| Some(formula.part(id)?.makes == other_formula.part(id)?.makes);
    let is_alike = |id: PartId| is_one(id) == Some(true) && makes_same(id) == Some(true);
    part.lines.iter().filter_map(Ingredient::part).all(is_alike).then(|| SolvedPart {
        balance: Balance::default(),
        composition: Composition::default(),
        comes_out: Composition::default(),
        prefermented: None,
        ..known.clone()
    })
}

/// Whether a part says how large it is: by a weight in its base, by what it is divided into or makes, or because it has no base.
fn says_its_size(part: &Part) -> bool {
    let Some((base, _)) = &part.base else { return true };
    let is_weight = |line: &Ingredient| {
        line.said().first().is_some_and(|said| matches!(said.value, Value::Mass(mass) if mass.value().is_positive()))
    };
    part.divide.is_some()
        || part.makes.is_some()
        || part.lines.iter().any(|line| linear::in_base(base, line) && is_weight(line))
}

/// Whether two selections of a recipe have the same amounts in the same parts.
fn is_alike(one: &Recipe, other: &Recipe) -> bool {
    other.used.is_empty()
        && one.makes == other.makes
        && one.parts.len() == other.parts.len()
        && one.parts.iter().zip(&other.parts).all(|(one, other)| Arc::ptr_eq(one, other) || has_amounts_of(one, other))
}

/// Whether two parts are the same but for their steps, and what is said of them besides.
fn has_amounts_of(one: &Part, other: &Part) -> bool {
    one.lines.is_one_with(&other.lines)
        && one.from == other.from
        && one.base == other.base
        && one.per_piece == other.per_piece
        && one.sort == other.sort
        && one.divide == other.divide
        && one.sorts == other.sorts
        && one.makes == other.makes
        && one.spare == other.spare
        && one.broken == other.broken
}
