//! Raw pastry, and raw fillings in or on a dough, that stand in a warm room for hours before they are baked.

use crate::check::Subject;
use crate::check::dough::{has_flour, mass_of, mille};
use crate::check::kept::{is_culture, is_kept_by_more};
use crate::check::raw_pastry::{COOL_ROOM, is_pastry};
use crate::model::cooking::cooks;
use crate::model::kind::Kind;
use crate::model::recipe::{Ingredient, Part, PartId};
use crate::model::spoils::{Body, body};
use crate::model::step::Step;
use crate::solve::formula::SolvedPart;
use crate::text::source::Span;

/// What stands raw in a step of a part, in words, and where it is listed: butter pastry where it is warmer than a cool room, or a filling of egg, milk, cheese
/// and the like.
pub(super) fn problem(
    subject: &Subject<'_>,
    (id, part): (PartId, &Part),
    at: usize,
    step: &Step,
) -> Option<(String, Span)> {
    if part.steps.iter().take(at).any(cooks) {
        return None;
    }
    let is_warm = step.temperature.is_none_or(|(low, _)| low.celsius() >= COOL_ROOM);
    let own = subject.formula.part(id)?;
    if is_warm && is_pastry(part, own) {
        return Some((format!("raw {}", part.name), part.name.span));
    }
    let made =
        |line: &Ingredient| line.part().and_then(|id| Some((id, subject.recipe.part(id)?, subject.formula.part(id)?)));
    let is_raw = |part: &Part| !part.steps.iter().any(cooks) && !part.lines.iter().any(is_culture);
    // What a leaven raises is asked by how long it rises.
    if part.lines.iter().any(is_culture) {
        return None;
    }
    let drawn = || part.lines.iter().filter_map(|line| Some((line, made(line)?)));
    let is_dough = |part: &Part, solved: &SolvedPart| is_raw(part) && has_flour(solved, 300);
    if !drawn().any(|(_, (_, part, solved))| is_dough(part, solved)) && !has_flour(own, 300) {
        return own_mix(subject, (id, part), own, at);
    }
    let found = drawn().find(|(_, (inner, made, solved))| {
        is_warm && is_pastry(made, solved)
            || is_raw(made)
                && !has_flour(solved, 150)
                && is_raw_mix(made, solved)
                && !is_kept_by_more(subject.recipe, subject.formula, *inner, made.steps.len())
    });
    found.map(|(line, _)| (format!("raw {}", line.name), line.name.span))
}

/// Raw egg and milk or soft cheese by themselves, for a quiche or a custard.
fn own_mix(
    subject: &Subject<'_>,
    (id, part): (PartId, &Part),
    solved: &SolvedPart,
    at: usize,
) -> Option<(String, Span)> {
    let egg = part.lines.iter().find(|line| line.kind == Kind::Egg && line.stays_in())?;
    let is_it = is_raw_mix(part, solved) && !is_kept_by_more(subject.recipe, subject.formula, id, at);
    is_it.then(|| (egg.name.to_string(), egg.name.span))
}

/// Whether a third of a part and more is egg, milk, soft cheese or flesh, egg or flesh among it.
fn is_raw_mix(part: &Part, solved: &SolvedPart) -> bool {
    let is_food =
        |line: &Ingredient| line.stays_in() && matches!(body(line), Some(Body::Egg | Body::Milk | Body::Flesh));
    let spoils = |line: &Ingredient| line.stays_in() && matches!(body(line), Some(Body::Egg | Body::Flesh));
    part.lines.iter().any(spoils)
        && part.lines.iter().filter(|line| is_food(line)).count() > 1
        && mass_of(part, solved, is_food)
            .is_some_and(|mass| mass.as_share_of(solved.composition.total).is_ok_and(|share| share >= mille(330)))
}
