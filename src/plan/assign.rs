//! Who does what, and on which unit, once it is settled when.

use super::dense::Dense;
use super::occupancy::told_apart;
use super::problem::{Label, Minute, Problem};

/// The order in which tasks are looked at: by start, then by number.
fn in_order(starts: &[Minute], tasks: impl Iterator<Item = usize>) -> Vec<usize> {
    let mut order: Vec<usize> = tasks.collect();
    order.sort_by_key(|task| (starts.get(*task).copied().unwrap_or(0), *task));
    order
}

/// The unit of each task, counted from 1, `None` where it holds nothing. `chosen` are the units that were chosen for
/// equipment whose units are told apart; all units are numbered as they first come into use.
pub fn units(problem: &Problem, starts: &[Minute], ends: &[Minute], chosen: &[usize]) -> Vec<Option<u32>> {
    let mut units: Vec<Option<u32>> = vec![None; problem.tasks.len()];
    for (kind, equipment) in problem.equipment.iter().enumerate() {
        let holds = |task: &usize| {
            problem.tasks.get(*task).and_then(|task| task.holds).is_some_and(|holds| holds.equipment == kind)
        };
        let order = in_order(starts, (0..problem.tasks.len()).filter(holds));
        let mut free_from: Vec<Minute> = Vec::new();
        let mut seen: Vec<usize> = Vec::new();
        for task in order {
            let (Some(start), Some(end)) = (starts.get(task), ends.get(task)) else { continue };
            let at = if told_apart(equipment) {
                let choice = chosen.get(task).copied().unwrap_or(0);
                seen.iter().position(|other| *other == choice).unwrap_or_else(|| {
                    seen.push(choice);
                    seen.len() - 1
                })
            } else {
                match free_from.iter_mut().enumerate().find(|(_, free)| **free <= *start) {
                    Some((at, free)) => {
                        *free = *end;
                        at
                    }
                    None if start == end => 0,
                    None => {
                        free_from.push(*end);
                        free_from.len() - 1
                    }
                }
            };
            if let Some(unit) = units.get_mut(task) {
                *unit = u32::try_from(at + 1).ok();
            }
        }
    }
    units
}

/// The cooks of each task, counted from 1. Whoever worked at a part goes on with it if they are free.
pub fn cooks(problem: &Problem, starts: &[Minute], ends: &[Minute]) -> Vec<Vec<u32>> {
    let mut cooks: Vec<Vec<u32>> = vec![Vec::new(); problem.tasks.len()];
    let most: u32 = problem.tasks.iter().map(|task| task.cooks).fold(0, u32::saturating_add).min(problem.cooks);
    let people = usize::try_from(most).unwrap_or(0);
    let mut free_from: Dense<Minute> = Dense::filled(people, Minute::MIN);
    let mut last: Dense<Option<Label>> = Dense::filled(people, None);
    let working = |task: &usize| problem.tasks.get(*task).is_some_and(|task| task.cooks > 0);
    for at in in_order(starts, (0..problem.tasks.len()).filter(working)) {
        let (Some(task), Some(start), Some(end)) = (problem.tasks.get(at), starts.get(at), ends.get(at)) else {
            continue;
        };
        let mut free: Vec<usize> = (0..people).filter(|cook| free_from[*cook] <= *start || start == end).collect();
        let same = |label: Label| (label.recipe, label.part) == (task.label.recipe, task.label.part);
        free.sort_by_key(|cook| (!last[*cook].is_some_and(same), *cook));
        free.truncate(usize::try_from(task.cooks).unwrap_or(0));
        for cook in &free {
            free_from[*cook] = free_from[*cook].max(*end);
            last[*cook] = Some(task.label);
        }
        let mut numbers: Vec<u32> = free.iter().filter_map(|cook| u32::try_from(cook + 1).ok()).collect();
        numbers.sort_unstable();
        if let Some(slot) = cooks.get_mut(at) {
            *slot = numbers;
        }
    }
    cooks
}
