//! Whether there is room for a load in equipment in which others are at a moment.

use super::problem::{Holding, Problem};
use super::tasks::Tasks;

/// What a task holds, or what holds its unit for it.
pub(super) fn held(whole: &Problem, tasks: &Tasks, at: usize) -> Option<Holding> {
    whole.tasks.get(tasks.holder(at).unwrap_or(at)).and_then(|task| task.holds)
}

/// Whether there is room for a task beside others, wherever those are.
pub(super) fn has_room(whole: &Problem, tasks: &Tasks, at: usize, others: impl Iterator<Item = usize>) -> bool {
    let Some(own) = held(whole, tasks, at) else { return true };
    let there = others.filter_map(|other| held(whole, tasks, other)).filter(|other| other.equipment == own.equipment);
    is_room(whole, own, there)
}

/// Whether a load goes into equipment in which others are.
pub(super) fn is_room(whole: &Problem, own: Holding, others: impl Iterator<Item = Holding>) -> bool {
    let Some(equipment) = whole.equipment.get(own.equipment) else { return false };
    let mut units: Vec<Vec<Holding>> = Vec::new();
    for load in others.chain(std::iter::once(own)) {
        let fits = |unit: &&mut Vec<Holding>| {
            let filled: i64 = unit.iter().map(|other| other.size).sum();
            equipment.shared.is_some_and(|takes| filled + load.size <= takes)
                && unit.iter().all(|other| equipment.alike(load, *other))
        };
        match units.iter_mut().find(fits) {
            Some(unit) => unit.push(load),
            None => units.push(vec![load]),
        }
    }
    u32::try_from(units.len()).is_ok_and(|units| units <= equipment.count)
}
