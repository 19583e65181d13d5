//! Allergens of which traces may be in what is made, as a caution: where the others are named, these are.

use crate::language::prose::Prose;
use crate::model::allergen::Law;
use crate::model::recipe::Recipe;
use crate::solve::formula::Formula;

/// The caution; `None` where nobody speaks of traces, or all of them are in it anyway.
///
/// A card names allergens as larder files do, so that the longer list of the two laws says what is in it already.
pub(super) fn caution(recipe: &Recipe, formula: &Formula) -> Option<Prose> {
    let traces = formula.allergens(recipe).may_contain(recipe.sale.may_contain.as_deref(), Law::Eu)?;
    Some(Prose::of(&format!("May contain traces of {traces}.")))
}
