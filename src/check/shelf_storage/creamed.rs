//! Cream that goes onto or into what is sold after all heat.

use crate::check::dough::mille;
use crate::measure::quantity::Mass;
use crate::model::cold::is_freezer;
use crate::model::cooking::{beginnings, called, cooks, first_draws, has_word_beginning};
use crate::model::kind::Kind;
use crate::model::recipe::{Ingredient, PartId, Recipe};
use crate::model::step::{Step, Target};
use crate::solve::formula::Formula;
use std::collections::HashMap;

/// Whether cream goes onto what is sold, after all heat: a twelfth of it and more.
pub(crate) fn is_creamed(recipe: &Recipe, formula: &Formula, id: PartId) -> bool {
    let total = formula.part(id).map(|solved| solved.composition.total);
    total
        .and_then(|total| cold_cream(recipe, formula, id, &mut HashMap::new())?.as_share_of(total).ok())
        .is_some_and(|share| share >= mille(80))
}

/// How much cream is in a part that nothing heats after it went in, by itself or whipped in a part of its own. Parts that were asked already
/// are `known`: there are more ways down to parts that others share than anybody has time for.
fn cold_cream(
    recipe: &Recipe,
    formula: &Formula,
    id: PartId,
    known: &mut HashMap<PartId, Option<Mass>>,
) -> Option<Mass> {
    if let Some(known) = known.get(&id) {
        return *known;
    }
    // A ring of parts was reported; until a part is looked through there is nothing in it.
    known.insert(id, None);
    let (part, solved) = (recipe.part(id)?, formula.part(id)?);
    // What is frozen keeps.
    let is_frozen = |step: &Step| step.temperature.is_some_and(|(low, _)| is_freezer(low));
    let freezes =
        || part.steps.iter().any(|step| called(step, beginnings!["freez", "churn", "harden"]) || is_frozen(step));
    if freezes() {
        return None;
    }
    let draws = first_draws(part);
    let is_cold = |at: usize| {
        let first = draws.get(&Target::Line(at)).copied().unwrap_or(0);
        !part.steps.iter().skip(first).any(cooks)
    };
    let is_cream = |line: &Ingredient| {
        let name = line.name.key.as_str();
        line.kind == Kind::Dairy
            && has_word_beginning(name, ["cream", "mascarpone", "ricotta", "creme", "crème", "quark"])
            && !has_word_beginning(name, ["powder", "vegan"])
    };
    let mut all = Mass::ZERO;
    for (at, (line, amount)) in part.lines.iter().zip(&solved.lines).enumerate() {
        let Some(mass) = amount.mass.filter(|_| line.stays_in() && is_cold(at)) else { continue };
        let cream = match line.part() {
            Some(inner) => {
                let whole = formula.part(inner).map_or(Mass::ZERO, |inner| inner.comes_out.total);
                cold_cream(recipe, formula, inner, known)
                    .and_then(|cream| mass.share(cream.as_share_of(whole).ok()?).ok())
            }
            None => is_cream(line).then_some(mass),
        };
        all = all.plus(cream.unwrap_or(Mass::ZERO)).ok()?;
    }
    known.insert(id, Some(all));
    Some(all)
}
