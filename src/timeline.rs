//! When each step starts and ends, counted from the first.

use crate::card::{Timeline, TimelineRow};
use crate::formula::Formula;
use crate::number::Overflow;
use crate::plan::tasks::{self, Bond, Tasks};
use crate::recipe::Recipe;
use crate::step::{StepKind, StepRef};

/// The timeline of a batch in its recipe's kitchen, everything as early as equipment and cooks allow.
///
/// # Errors
/// When a number leaves the range of exact numbers.
pub fn of(recipe: &Recipe, formula: &Formula) -> Result<Timeline, Overflow> {
    let tasks = tasks::of(recipe, formula)?;
    let starts = earliest(recipe, &tasks);
    let mut rows: Vec<(StepRef, TimelineRow)> = Vec::new();
    for (task, start) in tasks.list.iter().zip(&starts) {
        let end = start + task.minutes;
        match rows.iter_mut().find(|(step, _)| *step == task.step) {
            Some((_, row)) => {
                row.start = row.start.min(*start);
                row.end = row.end.max(end);
            }
            None => {
                let part = recipe.part(task.step.part);
                let step = part.and_then(|part| part.steps.get(task.step.step));
                let name = |name: Option<&crate::syntax::Name>| name.map(ToString::to_string).unwrap_or_default();
                let row = TimelineRow {
                    part: name(part.map(|part| &part.name)),
                    step: name(step.map(|step| &step.name)),
                    kind: task.kind,
                    start: *start,
                    end,
                    equipment: task.equipment.as_ref().map(ToString::to_string),
                    loads: task.loads,
                };
                rows.push((task.step, row));
            }
        }
    }
    let mut rows: Vec<TimelineRow> = rows.into_iter().map(|(_, row)| row).collect();
    rows.sort_by_key(|row| row.start);
    let minutes = |kind: StepKind| tasks.list.iter().filter(|task| task.kind == kind).map(|task| task.minutes).sum();
    Ok(Timeline {
        span_minutes: rows.iter().map(|row| row.end).max().unwrap_or(0),
        hands_minutes: minutes(StepKind::Hands),
        tend_minutes: minutes(StepKind::Tend),
        rows,
    })
}

/// The earliest starts when tasks take their turn at equipment and hands in the order of their links.
fn earliest(recipe: &Recipe, tasks: &Tasks) -> Vec<i64> {
    let mut starts: Vec<Option<i64>> = vec![None; tasks.list.len()];
    let kitchen = &recipe.kitchen;
    for _ in 0..tasks.list.len() {
        // Of the tasks that can begin, the one that can begin first.
        let next = (0..tasks.list.len())
            .filter(|at| starts.get(*at) == Some(&None))
            .filter_map(|at| ready(tasks, &starts, at).map(|ready| (fitting(kitchen, tasks, &starts, at, ready), at)))
            .min();
        let Some((start, at)) = next else { break };
        if let Some(slot) = starts.get_mut(at) {
            *slot = Some(start);
        }
    }
    // Steps in a ring never become ready; they are reported elsewhere and stand at the end here.
    let last = starts.iter().flatten().copied().max().unwrap_or(0);
    starts.into_iter().map(|start| start.unwrap_or(last)).collect()
}

/// When everything before a task has ended; `None` while something before it is not placed.
fn ready(tasks: &Tasks, starts: &[Option<i64>], at: usize) -> Option<i64> {
    let mut ready = 0;
    for link in tasks.links.iter().filter(|link| link.then == at) {
        let start = starts.get(link.first).copied().flatten()?;
        let length = tasks.list.get(link.first).map_or(0, |task| task.minutes);
        ready = ready.max(if link.bond == Bond::During { start } else { start + length });
    }
    Some(ready)
}

/// The first moment from `ready` on at which equipment and hands are free for the whole task.
fn fitting(kitchen: &crate::kitchen::Kitchen, tasks: &Tasks, starts: &[Option<i64>], at: usize, ready: i64) -> i64 {
    let Some(task) = tasks.list.get(at) else { return ready };
    let units =
        task.equipment.as_ref().and_then(|name| kitchen.find(name)).map_or(u32::MAX, |equipment| equipment.count);
    let mut start = ready;
    loop {
        let end = start + task.minutes;
        let overlapping = || {
            tasks.list.iter().zip(starts).filter_map(move |(other, other_start)| {
                let from = (*other_start)?;
                (from < end && from + other.minutes > start).then_some((other, from + other.minutes))
            })
        };
        let same_equipment = |other: &tasks::Task| {
            other.equipment.is_some()
                && other.equipment.as_ref().map(|n| &n.key) == task.equipment.as_ref().map(|n| &n.key)
        };
        let busy_units = overlapping().filter(|(other, _)| same_equipment(other)).count();
        // Somebody in reach of the oven can also work beside it; only hands are counted against hands.
        let busy_hands: u32 =
            overlapping().filter(|(other, _)| other.kind == StepKind::Hands).map(|(other, _)| other.people).sum();
        let hands_short = task.kind == StepKind::Hands && busy_hands + task.people > kitchen.cooks && busy_hands > 0;
        let equipment_short = u32::try_from(busy_units).unwrap_or(u32::MAX) >= units;
        if !hands_short && !equipment_short {
            return start;
        }
        let next = overlapping()
            .filter(|(other, _)| {
                (hands_short && other.kind == StepKind::Hands) || (equipment_short && same_equipment(other))
            })
            .map(|(_, end)| end)
            .min();
        match next {
            Some(next) if next > start => start = next,
            _ => return start,
        }
    }
}
