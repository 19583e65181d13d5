//! What is said to be left on a sieve of what is sold in a liquid, beside what went in solid.

use super::CHECK;
use crate::check::Subject;
use crate::check::dough::{inside, mille};
use crate::check::part_short::is_solid;
use crate::measure::number::Number;
use crate::measure::quantity::Mass;
use crate::measure::show;
use crate::model::kind::Kind;
use crate::model::recipe::Ingredient;
use crate::model::sale::Drained;
use crate::solve::formula::leaves::{Counted, leaves};
use crate::text::diagnostic::Diagnostic;

/// Vegetables, fruit, meat and cheese give off water in brine, vinegar and syrup, and take up a tenth at most; what was dried takes up its own weight, and is not
/// asked. Common practice, no source.
const TAKES_UP: Number = Number::constant(5, 4);

pub(super) fn problem(subject: &Subject<'_>) -> Option<Diagnostic> {
    let (recipe, formula) = (subject.recipe, subject.formula);
    let Some(Drained::Share(said)) = recipe.sale.drained else { return None };
    let id = recipe.final_part()?;
    let mut parts = inside(recipe, id).into_iter().filter_map(|inner| recipe.part(inner));
    let takes_up =
        |line: &Ingredient| line.part().is_none() && matches!(line.kind, Kind::Pulse | Kind::Grain | Kind::Other);
    if parts.any(|part| part.lines.iter().any(takes_up)) {
        return None;
    }
    let leaves = leaves(recipe, formula, id, Counted::GoesIn).ok()?;
    let is_dry =
        |name: &str| crate::model::cooking::has_word_beginning(name, ["dried", "dry|", "dehydrated", "desiccated"]);
    if leaves
        .iter()
        .any(|leaf| is_dry(leaf.line.name.key.as_str()) || leaf.line.preparation.as_deref().is_some_and(is_dry))
    {
        return None;
    }
    let all = Mass::sum(leaves.iter().map(|leaf| leaf.mass)).ok()?;
    let solid = Mass::sum(leaves.iter().filter(|leaf| is_solid(leaf.line)).map(|leaf| leaf.mass)).ok()?;
    let share = solid.as_share_of(all).ok().filter(|share| *share >= mille(50))?;
    // What boils away was liquid: so much more of what is left may be solid.
    let lost = formula.part(id).and_then(|part| Some((part.goes_in?, part.makes?))).and_then(|(goes_in, makes)| {
        let lost = goes_in.minus(makes).ok()?;
        lost.as_share_of(goes_in).ok()
    });
    let kept = lost
        .map_or(Number::ONE, |lost| Number::ONE.minus(lost.value()).unwrap_or(Number::ONE))
        .max(Number::constant(1, 10));
    let most = share.value().times(TAKES_UP).ok()?.over(kept).ok()?;
    if said.value() <= most {
        return None;
    }
    let message = format!(
        "{} of what is sold are said to be left when it is drained, and {} of what went in are solid",
        show::percent(said),
        show::percent(share)
    );
    Some(
        Diagnostic::advice(CHECK.name, recipe.name.span, message)
            .help("weigh what is left on a sieve; look whether a digit of the `drained` line has slipped"),
    )
}
