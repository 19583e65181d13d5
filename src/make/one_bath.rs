//! Fat in which a recipe is fried for several orders of a day is filled in once: for the first of them, as much as the one that takes most.

use crate::language::syntax::Key;
use crate::make::batch::Batch;
use crate::measure::number::Number;
use crate::measure::quantity::Mass;
use crate::model::cooking;
use crate::model::recipe::{PartId, Recipe, Refers};
use crate::model::step::{Step, Target};
use crate::solve::formula::{Formula, SolvedLine, SolvedPart};
use jiff::civil::Date;

/// A bath: the day on which it is filled, the file and the part in which it is written, which line of it, what that is, and in what it
/// is filled.
#[derive(PartialEq, Eq)]
struct Bath {
    day: Option<Date>,
    recipe: Key,
    part: Key,
    line: usize,
    what: Key,
    place: Key,
}

/// Takes out of each batch the fat that was filled in for one before it on the same day.
pub(super) fn fill_once(batches: &mut [Batch]) {
    let mut by_time: Vec<usize> = (0..batches.len()).collect();
    by_time.sort_by_key(|at| (batches.get(*at).and_then(|batch| batch.ready).map(|ready| ready.when), *at));
    let mut filled: Vec<(Bath, usize, PartId)> = Vec::new();
    for at in by_time {
        let Some(batch) = batches.get(at) else { continue };
        for (bath, part, amount) in baths(batch) {
            let known = filled.iter().find(|(other, from, _)| *other == bath && *from != at);
            let Some((_, from, there)) = known else {
                filled.push((bath, at, part));
                continue;
            };
            let line = bath.line;
            let (from, there) = (*from, *there);
            let is_more = line_of(batches, from, there, line).is_some_and(|first| first.mass < amount.mass);
            if is_more {
                fill(batches, (from, there, line), amount);
            }
            let percent = amount.percent;
            fill(batches, (at, part, line), SolvedLine { filled_before: true, percent, ..SolvedLine::default() });
        }
    }
}

/// Puts another amount in a line, and into the steps that draw on it.
fn fill(batches: &mut [Batch], (at, part, line): (usize, PartId, usize), amount: SolvedLine) {
    if let Some(own) = line_of(batches, at, part, line) {
        *own = amount;
    }
    let solved = batches.get_mut(at).and_then(|batch| batch.formula.parts.get_mut(part.0));
    for draw in solved.into_iter().flat_map(|solved| solved.draws.iter_mut()) {
        if draw.target == Target::Line(line) {
            let of = |mass: Mass| mass.times(draw.drawn.share.unwrap_or(Number::ONE)).ok();
            (draw.drawn.mass, draw.drawn.natural) = (amount.mass.and_then(of), None);
        }
    }
}

fn line_of(batches: &mut [Batch], at: usize, part: PartId, line: usize) -> Option<&mut SolvedLine> {
    batches.get_mut(at)?.formula.parts.get_mut(part.0)?.lines.get_mut(line)
}

/// What is fried in, in a batch: each bath with its part and its amount.
fn baths(batch: &Batch) -> Vec<(Bath, PartId, SolvedLine)> {
    let mut all = Vec::new();
    for id in batch.made_parts() {
        let (Some(part), Some(solved)) = (batch.recipe.part(id), batch.formula.part(id)) else { continue };
        for (at, (line, amount)) in part.lines.iter().zip(&solved.lines).enumerate() {
            if amount.mass.is_none() || matches!(line.refers, Refers::Part(_)) || !cooking::is_fried_in(part, at) {
                continue;
            }
            let fries = |step: &&Step| step.lines_taken().any(|taken| taken == at);
            let place = part.steps.iter().find(fries).and_then(|step| step.equipment.as_ref());
            let Some((place, (origin, _))) = place.zip(batch.recipe.origin(id)) else { continue };
            let bath = Bath {
                day: batch.ready.map(|ready| ready.when.date()),
                recipe: origin.name.key.clone(),
                part: part.name.key.clone(),
                line: at,
                what: line.name.key.clone(),
                place: place.key.clone(),
            };
            all.push((bath, id, *amount));
        }
    }
    all
}

/// Whether a part is a bath that is heated in the equipment in which all that takes it is fried or boiled in it: several orders go through one.
pub(super) fn is_bath(recipe: &Recipe, id: PartId) -> bool {
    let place = |step: &Step| step.equipment.as_ref().map(|name| name.key.clone());
    let heated = recipe.part(id).and_then(|part| part.steps.last()).filter(|step| cooking::is_hot(step));
    let Some(place_of_it) = heated.and_then(place) else { return false };
    let mut users = recipe.users(id).peekable();
    users.peek().is_some()
        && users.all(|(user, at)| {
            let Some(part) = recipe.part(user) else { return false };
            let stays_out = part.lines.get(at).is_some_and(|line| !line.stays_in());
            let draws = |step: &&Step| step.lines_taken().any(|taken| taken == at);
            stays_out && part.steps.iter().find(draws).and_then(place).is_some_and(|other| other == place_of_it)
        })
}

/// The larger of two baths.
pub(super) fn larger(one: SolvedPart, other: SolvedPart) -> SolvedPart {
    if one.goes_in < other.goes_in { other } else { one }
}

/// The same formula with what was filled in before, as the recipe has it.
pub(super) fn is_whole(formula: &Formula) -> bool {
    formula.parts.iter().flat_map(|part| &part.lines).all(|line| !line.filled_before)
}
