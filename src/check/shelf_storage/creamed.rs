//! Cream that goes onto or into what is sold after all heat.

use super::unheated::Sought;
use crate::check::dough::mille;
use crate::measure::quantity::Mass;
use crate::model::cooking::has_word_beginning;
use crate::model::kind::Kind;
use crate::model::recipe::{Ingredient, Part, PartId, Recipe};
use crate::solve::formula::{Formula, SolvedPart};

/// Whether cream goes onto what is sold, after all heat: a twelfth of it and more.
pub(crate) fn is_creamed(recipe: &Recipe, formula: &Formula, id: PartId) -> bool {
    let total = formula.part(id).map(|solved| solved.composition.total);
    total
        .and_then(|total| cold_cream(recipe, formula, id)?.as_share_of(total).ok())
        .is_some_and(|share| share >= mille(80))
}

/// How much cream is in a part that nothing heats after it went in, by itself or whipped in a part of its own.
fn cold_cream(recipe: &Recipe, formula: &Formula, id: PartId) -> Option<Mass> {
    let is = |_: (&Part, &SolvedPart), line: &Ingredient| {
        let name = line.name.key.as_str();
        line.kind == Kind::Dairy
            && has_word_beginning(name, ["cream", "mascarpone", "ricotta", "creme", "crème", "quark"])
            && !has_word_beginning(name, ["powder", "vegan"])
    };
    Sought { is: &is, keeps: &|_, _| false }.unheated_in(recipe, formula, id)
}
