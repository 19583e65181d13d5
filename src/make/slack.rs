//! How far apart two orders may be wanted that are made of one dough: as far as it may stand on its way.

use crate::measure::quantity::Duration;
use crate::model::alive::{Alive, STAND};
use crate::model::cooking;
use crate::model::flow;
use crate::model::recipe::{Part, PartId, Recipe};
use crate::model::step::{Step, StepKind, StepRef};

/// How many minutes later than at the earliest what is made of a part may be handed over, counted from when the part is made:
/// what its `keeps` allows, the rests with `up to` on the way, and what may stand between steps. `None` where nothing limits it.
///
/// It is the same rule that the plan keeps, without the plan: one dough for two times is possible only within it.
pub fn after(recipe: &Recipe, alive: &Alive, id: PartId) -> Option<i64> {
    on_the_way(recipe, alive, id, 0)
}

/// A preferment serves doughs that are mixed no further apart than a quarter of the time for which it ripens: then it is for all of them what it
/// is. Common practice, no source.
const PART_OF_ITS_TIME: i64 = 4;

/// The same, of what ripens for what it was taken out of a dough for: doughs far apart have each its own.
pub(super) fn of_what_ripens(recipe: &Recipe, id: PartId) -> Option<i64> {
    let room = after(recipe, &Alive::of(recipe), id);
    let part = recipe.part(id).filter(|part| part.from.is_some());
    let rest = part.and_then(|part| part.steps.iter().rev().find(|step| step.kind == StepKind::Wait));
    let ripens = rest.and_then(|rest| rest.time.1.whole_minutes()).map(|minutes| minutes / PART_OF_ITS_TIME);
    ripens.map_or(room, |ripens| Some(room.unwrap_or(ripens).min(ripens)))
}

fn on_the_way(recipe: &Recipe, alive: &Alive, id: PartId, depth: usize) -> Option<i64> {
    let part = recipe.part(id)?;
    if depth > flow::DEEPEST {
        return Some(0);
    }
    // Whoever takes it: the way that leaves least room decides. What comes from the store is not of this dough.
    let mut least: Option<Option<i64>> = None;
    for (user, at) in recipe.users(id) {
        let Some(line) = recipe.part(user).and_then(|part| part.lines.get(at)) else { continue };
        if line.from_store {
            continue;
        }
        let waits = at_end(part, id, alive, line.before.map(|before| before.step));
        let room = sum([waits, within(recipe, alive, user, id), on_the_way(recipe, alive, user, depth + 1)]);
        least = Some(match least {
            Some(known) => lesser(known, room),
            None => room,
        });
    }
    if let Some(from) = part.from {
        let room = sum([
            at_end(part, id, alive, None),
            within(recipe, alive, from, id),
            on_the_way(recipe, alive, from, depth + 1),
        ]);
        least = Some(least.map_or(room, |known| lesser(known, room)));
    }
    // What is handed over is wanted fresh.
    least.unwrap_or(Some(0))
}

/// How many minutes apart the last pieces may be wanted for the parts that go into them only in steps that are done for each time by
/// itself (`own`): such a part is made before the first step of all and has to last until the last of them. `None` where nothing
/// limits it.
pub(super) fn of_what_is_taken_late(recipe: &Recipe, id: PartId, own: &[bool]) -> Option<i64> {
    let part = recipe.part(id)?;
    let alive = Alive::of(recipe);
    let late = flow::held(recipe, id).into_iter().filter(|(target, _)| {
        let draws = |(_, step): (&bool, &Step)| flow::draws(step, *target);
        own.iter().zip(&part.steps).filter(|(own, _)| **own).any(draws)
    });
    let on_the_way =
        part.steps.iter().filter(|step| !flow::is_free(step)).filter_map(|step| step.time.1.whole_minutes());
    let on_the_way = on_the_way.fold(0_i64, i64::saturating_add);
    let room = late.filter_map(|(_, inner)| at_end(recipe.part(inner)?, inner, &alive, None)).min();
    room.map(|room| room.saturating_sub(on_the_way).max(0))
}

/// How long a part may wait once it is made.
fn at_end(part: &Part, id: PartId, alive: &Alive, before: Option<usize>) -> Option<i64> {
    let left_out = before.map(|before| flow::left_out(part, id, before)).unwrap_or_default();
    let last = flow::sinks_without(part, id, &left_out).last().copied();
    let step = last.and_then(|at| part.steps.get(at));
    let rest = step.and_then(stretch);
    if let Some(keeps) = part.keeps.filter(|_| before.is_none()).and_then(|keeps| keeps.time.whole_minutes()) {
        return Some(cooking::waits_kept(keeps, step, rest.unwrap_or(0)));
    }
    if rest.is_some() {
        return rest;
    }
    let said = step.and_then(|step| step.may_stand).and_then(Duration::whole_minutes);
    let lives = match last {
        Some(step) => alive.after(StepRef { part: id, step }),
        None => alive.at_end(id),
    };
    said.or(lives.then_some(STAND))
}

/// By how much the steps of a part that takes another may stretch, from where it takes it up to where it is baked.
fn within(recipe: &Recipe, alive: &Alive, id: PartId, taken: PartId) -> Option<i64> {
    let Some(part) = recipe.part(id) else { return Some(0) };
    let takes =
        |at: &usize| flow::taken(recipe, id, *at, |other| alive.at_end(other)).iter().any(|one| one.part == taken);
    let first = (0..part.steps.len()).find(takes).unwrap_or(0);
    let last = part.steps.len().saturating_sub(1);
    let mut room = 0;
    for (at, step) in part.steps.iter().enumerate().skip(first).filter(|(_, step)| !flow::is_free(step)) {
        room += match stretch(step) {
            Some(rest) => rest,
            // What is baked may stand, but who ordered it wants it fresh.
            None if at < last && alive.after(StepRef { part: id, step: at }) => {
                step.may_stand.and_then(Duration::whole_minutes).unwrap_or(STAND)
            }
            None => 0,
        };
    }
    Some(room)
}

/// By how many minutes a rest may be stretched.
pub(super) fn stretch(step: &Step) -> Option<i64> {
    let most = step.up_to.filter(|_| step.kind == StepKind::Wait)?.whole_minutes()?;
    Some((most - step.time.1.whole_minutes()?).max(0))
}

fn sum(rooms: [Option<i64>; 3]) -> Option<i64> {
    rooms.into_iter().try_fold(0_i64, |sum, room| Some(sum.saturating_add(room?)))
}

fn lesser(one: Option<i64>, other: Option<i64>) -> Option<i64> {
    match (one, other) {
        (Some(one), Some(other)) => Some(one.min(other)),
        (one, other) => one.or(other),
    }
}
