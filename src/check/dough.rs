//! What a part is as a dough: whether it is one, and what raises it.

use super::Subject;
use crate::measure::number::Number;
use crate::measure::quantity::{Mass, Proportion};
use crate::model::flow::reached;
use crate::model::kind::Kind;
use crate::model::recipe::{Ingredient, Part, PartId, Recipe, Refers};
use crate::solve::formula::{SolvedLine, SolvedPart};

/// So many per mille.
pub(super) fn mille(mille: i64) -> Proportion {
    Proportion::new(Number::whole(mille).over(Number::whole(1000)).unwrap_or(Number::ZERO))
}

/// Whether at least a quarter of a part is flour; what is strewn in by mistake, salt and leaven, does not count.
pub(super) fn is_dough(part: &Part, solved: &SolvedPart) -> bool {
    let flour = solved.composition.flour;
    let slips = massed(part, solved).filter(|(line, _)| line.kind == Kind::Salt || line.kind.raises());
    let rest = Mass::sum(slips.map(|(_, mass)| mass)).and_then(|slips| solved.composition.total.minus(slips));
    let quarter = flour.times(Number::whole(4));
    flour > Mass::ZERO && quarter.is_ok_and(|four| rest.is_ok_and(|rest| four >= rest))
}

/// The lines of a part that have a weight and go into the mix.
pub(super) fn massed<'p>(part: &'p Part, solved: &'p SolvedPart) -> impl Iterator<Item = (&'p Ingredient, Mass)> {
    let lines: std::iter::Zip<std::slice::Iter<'p, Ingredient>, std::slice::Iter<'p, SolvedLine>> =
        part.lines.iter().zip(&solved.lines);
    lines.filter(|(line, _)| line.stays_in()).filter_map(|(line, amount)| Some((line, amount.mass?)))
}

/// A part, the parts that lie in it, those taken out of it, and the one that it was taken out of, with all in these.
pub(super) fn inside(recipe: &Recipe, id: PartId) -> Vec<PartId> {
    reached(id, |here| {
        let part = recipe.part(here);
        let drawn = part.into_iter().flat_map(|part| &part.lines).filter_map(|line| match line.refers {
            Refers::Part(other) => Some(other),
            Refers::Pantry(_) => None,
        });
        let taken_out = recipe.preferments(here).map(|(other, _)| other);
        drawn.chain(taken_out).chain(part.and_then(|part| part.from)).collect::<Vec<PartId>>()
    })
}

/// A part and the parts that it goes into, however many times over.
pub(super) fn around(recipe: &Recipe, id: PartId) -> Vec<PartId> {
    reached(id, |here| recipe.users(here).map(|(user, _)| user).chain(recipe.part(here).and_then(|part| part.from)))
}

/// Whether any line of some parts is of a kind.
pub(super) fn any_line(recipe: &Recipe, parts: &[PartId], is: impl Fn(&Ingredient) -> bool) -> bool {
    parts.iter().filter_map(|id| recipe.part(*id)).any(|part| part.lines.iter().any(&is))
}

/// Whether a dough is raised with yeast or leaven, its own or that of a part in it.
pub(super) fn is_fermented(subject: &Subject<'_>, id: PartId) -> bool {
    any_line(subject.recipe, &inside(subject.recipe, id), |line| line.kind.ferments())
}
