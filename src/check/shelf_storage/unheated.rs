//! How much of something lies in a part that nothing heats after it went in.

use crate::measure::quantity::Mass;
use crate::model::cold::is_freezer;
use crate::model::cooking::{beginnings, called, cooks, first_draws};
use crate::model::recipe::{Ingredient, Part, PartId, Recipe};
use crate::model::step::{Step, Target};
use crate::solve::formula::{Formula, SolvedPart};
use std::collections::HashMap;

/// What is looked for.
pub(super) struct Sought<'s> {
    /// Whether a line of a part is such.
    pub(super) is: &'s dyn Fn((&Part, &SolvedPart), &Ingredient) -> bool,
    /// Whether in such a part it keeps all the same.
    pub(super) keeps: &'s dyn Fn(PartId, &Part) -> bool,
}

/// Parts that were asked already: there are more ways down to parts that others share than anybody has time for.
type Known = HashMap<PartId, Option<Mass>>;

impl Sought<'_> {
    /// How much of it is in a part, by itself or from parts that it takes.
    pub(super) fn unheated_in(&self, recipe: &Recipe, formula: &Formula, id: PartId) -> Option<Mass> {
        self.in_part(recipe, formula, id, &mut Known::new())
    }

    fn in_part(&self, recipe: &Recipe, formula: &Formula, id: PartId, known: &mut Known) -> Option<Mass> {
        if let Some(known) = known.get(&id) {
            return *known;
        }
        // A ring of parts was reported; until a part is looked through there is nothing in it.
        known.insert(id, None);
        let (part, solved) = (recipe.part(id)?, formula.part(id)?);
        if part.steps.iter().any(freezes) || (self.keeps)(id, part) {
            return None;
        }
        let draws = first_draws(part);
        let is_unheated = |at: usize| {
            let first = draws.get(&Target::Line(at)).copied().unwrap_or(0);
            !part.steps.iter().skip(first).any(cooks)
        };
        let mut all = Mass::ZERO;
        for (at, (line, amount)) in part.lines.iter().zip(&solved.lines).enumerate() {
            let Some(mass) = amount.mass.filter(|_| line.stays_in() && is_unheated(at)) else { continue };
            let found = match line.part() {
                Some(inner) => {
                    let whole = formula.part(inner).map_or(Mass::ZERO, |inner| inner.comes_out.total);
                    self.in_part(recipe, formula, inner, known)
                        .and_then(|found| mass.share(found.as_share_of(whole).ok()?).ok())
                }
                None => (self.is)((part, solved), line).then_some(mass),
            };
            all = all.plus(found.unwrap_or(Mass::ZERO)).ok()?;
        }
        known.insert(id, Some(all));
        Some(all)
    }
}

/// What is frozen keeps.
fn freezes(step: &Step) -> bool {
    called(step, beginnings!["freez", "churn", "harden"]) || step.temperature.is_some_and(|(low, _)| is_freezer(low))
}
