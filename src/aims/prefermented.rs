//! The share of a dough's flour that ferments before it is mixed: in its preferments, and in leavens that are formulas of their own and go in
//! as one ingredient.

use super::Place;
use crate::measure::number::{Number, Overflow};
use crate::measure::quantity::{Mass, Proportion};
use crate::model::cooking::{bakes, cooks};
use crate::model::flow::reached;
use crate::model::recipe::{Ingredient, PartId, Recipe};
use crate::solve::formula::Formula;

/// A part with less flour of its own than this, of all flour in it, is made up of doughs and mixes none: buns of a dough and a crumble.
/// Common practice, no source.
const MIXES: Number = Number::constant(1, 4);

/// The share of a part, and of the whole that of its dough, in whatever part that is; `None` where nothing ferments before the mix.
pub(super) fn share(recipe: &Recipe, formula: &Formula, place: Place) -> Result<Option<Proportion>, Overflow> {
    let own = of_part(recipe, formula, place.part)?;
    if own.is_some() || !place.whole {
        return Ok(own);
    }
    let mut best: Option<(Mass, Proportion)> = None;
    for id in reached(place.part, |id| drawn(recipe, id).map(|(_, inner)| inner).collect::<Vec<PartId>>()) {
        let flour = formula.part(id).map_or(Mass::ZERO, |part| part.composition.flour);
        if let Some(share) = of_part(recipe, formula, id)?
            && best.is_none_or(|(most, _)| flour >= most)
        {
            best = Some((flour, share));
        }
    }
    Ok(best.map(|(_, share)| share))
}

/// The parts that a part takes, each with the line that takes it.
fn drawn(recipe: &Recipe, id: PartId) -> impl Iterator<Item = (usize, PartId)> + '_ {
    let lines = recipe.part(id).into_iter().flat_map(|part| part.lines.iter().enumerate());
    lines.filter_map(|(at, line)| Some((at, line.part()?)))
}

fn of_part(recipe: &Recipe, formula: &Formula, id: PartId) -> Result<Option<Proportion>, Overflow> {
    let Some(solved) = formula.part(id) else { return Ok(None) };
    if solved.prefermented.is_some() {
        return Ok(solved.prefermented);
    }
    let all = solved.composition.flour;
    let (mut own, mut fermented) = (all, Mass::ZERO);
    for (at, inner) in drawn(recipe, id) {
        let mass = solved.lines.get(at).and_then(|line| line.mass);
        let made = formula.part(inner).and_then(|inner| Some((inner, inner.makes.or(inner.stays)?)));
        let (Some(mass), Some((inner_solved, made))) = (mass, made.filter(|(_, made)| *made > Mass::ZERO)) else {
            return Ok(None);
        };
        let flour = inner_solved.comes_out.flour.times(mass.ratio(made)?)?;
        own = own.minus(flour)?;
        if ferments(recipe, inner) {
            fermented = fermented.plus(flour)?;
        }
    }
    if fermented == Mass::ZERO || own < all.times(MIXES)? {
        return Ok(None);
    }
    fermented.as_share_of(all).map(Some)
}

/// Whether a part is alive when it goes in: leaven or yeast is in it, and nothing cooks it.
fn ferments(recipe: &Recipe, id: PartId) -> bool {
    let is_raw = recipe.part(id).is_some_and(|part| !part.steps.iter().any(|step| bakes(step) || cooks(step)));
    let within = reached(id, |id| drawn(recipe, id).map(|(_, inner)| inner).collect::<Vec<PartId>>());
    let lives = |line: &Ingredient| line.kind.ferments();
    is_raw && within.into_iter().filter_map(|id| recipe.part(id)).any(|part| part.lines.iter().any(lives))
}
