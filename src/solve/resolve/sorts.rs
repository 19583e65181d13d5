//! Pieces of one size or of several: what `divide` says, and which sort a part `per SORT` is for.

use super::reading::Reading;
use crate::language::near::with_nearest;
use crate::language::syntax::{Quantity, SizedPieces};
use crate::measure::number::Number;
use crate::measure::quantity::{Count, Mass};
use crate::model::recipe::{Divide, PartId, Recipe, Sort};
use crate::text::diagnostic::Diagnostic;
use crate::text::source::Span;

/// What a part is divided into: all pieces together, and the sorts where there are several.
pub(super) fn divide(
    sizes: &[SizedPieces],
    loss: Option<&Quantity>,
    span: Span,
    reading: &mut Reading,
) -> Option<(Divide, Vec<Sort>)> {
    let loss = match loss {
        Some(quantity) => Some(reading.loss(quantity)?),
        None => None,
    };
    let (mut all, mut whole) = (Vec::with_capacity(sizes.len()), Some((Number::ZERO, Mass::ZERO)));
    for size in sizes {
        let (count, each) = one_size(size, reading)?;
        whole = whole.and_then(|(pieces, mass)| {
            Some((pieces.plus(count.value()).ok()?, mass.plus(each.times(count.value()).ok()?).ok()?))
        });
        all.push((count, each, size));
    }
    let (pieces, mass) = whole?;
    let divide = Divide { count: Count::new(pieces), each: mass.over(pieces).ok()?, loss, span };
    let mut sorts: Vec<Sort> = Vec::new();
    for (count, each, size) in all.iter().filter(|_| sizes.len() > 1 || sizes.iter().any(|size| size.sort.is_some())) {
        let Some(name) = &size.sort else {
            reading.report(
                Diagnostic::error("pieces-mismatch", size.count.span, "of several sizes each has a name")
                    .help("write `divide 24 x 450 g small and 36 x 900 g large`"),
            );
            return None;
        };
        if let Some(twin) = sorts.iter().find(|known| known.name.same(name)) {
            reading.report(
                Diagnostic::error("twice-named", name.span, format!("the sort `{name}` stands here twice"))
                    .also(twin.name.span, "first here")
                    .help("give each size a name of its own"),
            );
            return None;
        }
        sorts.push(Sort { name: name.clone(), count: *count, each: *each });
    }
    Some((divide, sorts))
}

fn one_size(size: &SizedPieces, reading: &mut Reading) -> Option<(Count, Mass)> {
    let said = reading.chain(&size.each, None)?;
    let first = said.first()?;
    let mass = first.mass()?;
    let count = &size.count;
    if !count.value.is_whole() || !count.value.is_positive() {
        reading.report(
            Diagnostic::error(
                "impossible-number",
                count.span,
                "dough is divided into a whole number of pieces, at least one",
            )
            .help("write a whole number, `divide 24 x 78 g`"),
        );
        return None;
    }
    if !mass.value().is_positive() {
        let problem = Diagnostic::error("impossible-number", first.span, "a piece weighs more than nothing");
        reading.report(problem.help("write what one piece weighs, `divide 24 x 78 g`"));
        return None;
    }
    Some((Count::new(count.value), mass))
}

/// Looks that there is the sort that a part is made for one piece of.
pub(super) fn bind(recipe: &mut Recipe, reading: &mut Reading) {
    let mut unknown: Vec<PartId> = Vec::new();
    for (id, part) in recipe.own_parts() {
        let Some(name) = part.sort.as_ref().filter(|name| recipe.sort(name).is_none()) else { continue };
        let sorts = recipe.parts.iter().flat_map(|part| &part.sorts).map(|sort| sort.name.key.as_str());
        let problem =
            Diagnostic::error("unknown-name", name.span, format!("no part is divided into pieces called `{name}`"));
        reading.report(with_nearest(problem, name, sorts));
        unknown.push(id);
    }
    for id in unknown {
        if let Some(part) = recipe.part_mut(id) {
            part.broken = true;
        }
    }
}
