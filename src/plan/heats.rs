//! How often what must be hot is heated again: what two loads that follow each other in one unit cost in minutes.

use super::problem::{Holding, Minute};
use super::standard_form::{StandardForm, Times};

/// How long before the first load an oven is lit of which no kitchen says how long it takes, or turned to another heat at most: it is told where
/// it is somebody's at home, and nothing waits for it. Common practice, no source.
pub const AT_HOME: Minute = 30;

/// What stands empty for so much longer than it takes to be hot again is put out, and lit again in time. Common practice, no source.
pub const NOT_LEFT_LIT: Minute = 60;

/// The tasks that want equipment of one kind at a heat, if they do not all agree; else nothing is ever heated again.
pub fn loads(model: &StandardForm, kind: usize) -> Vec<usize> {
    let equipment = &model.equipment[kind];
    if !model.again || equipment.heating == 0 {
        return Vec::new();
    }
    let wants = |task: &usize| model.jobs[*task].longest > 0 && wanted(model, *task, kind).is_some();
    let loads: Vec<usize> = (0..model.jobs.len()).filter(wants).collect();
    let is_unlike = |one: &usize| loads.iter().any(|other| unlike(model, kind, *one, *other));
    if loads.iter().any(is_unlike) { loads } else { Vec::new() }
}

fn wanted(model: &StandardForm, task: usize, kind: usize) -> Option<Holding> {
    model.jobs[task].holds.filter(|holds| holds.equipment == kind && holds.setting.is_some())
}

/// Whether the second of two loads does not find the heat that it wants where the first has just been.
pub fn unlike(model: &StandardForm, kind: usize, first: usize, then: usize) -> bool {
    let (Some(first), Some(then)) = (model.jobs[first].holds, model.jobs[then].holds) else { return false };
    // In the mirror the heat at which a load leaves its unit is the one it finds.
    let (left, found) = if model.mirrored { (first.setting, then.leaves) } else { (first.leaves, then.setting) };
    !model.equipment[kind].agree(left, found)
}

/// Which of two loads starts sooner, as things happen: the moments in model time that say so, the sooner one first, and how
/// far they must lie apart. Of two that start at once it is the one with the smaller number.
pub fn sooner(model: &StandardForm, first: usize, then: usize) -> (usize, usize, Minute) {
    use super::standard_form::{end, start};
    let apart = Minute::from(first > then);
    if model.mirrored { (end(then), end(first), apart) } else { (start(first), start(then), apart) }
}

/// The minutes for which units are heated again.
pub fn again(model: &StandardForm, times: &Times) -> Minute {
    (0..model.equipment.len()).map(|kind| in_kind(model, times, kind) * model.equipment[kind].heating).sum()
}

fn in_kind(model: &StandardForm, times: &Times, kind: usize) -> Minute {
    let mut loads: Vec<usize> = loads(model, kind);
    loads.retain(|task| times.ends[*task] > times.starts[*task]);
    // As things happen.
    let begins = |task: usize| if model.mirrored { -times.ends[task] } else { times.starts[task] };
    loads.sort_by_key(|task| (times.units[*task], begins(*task), *task));
    let is_again = |pair: &[usize]| match pair {
        [first, then] => {
            let (first, then) = (*first, *then);
            let (earlier, later) = if model.mirrored { (then, first) } else { (first, then) };
            times.units[first] == times.units[then]
                && unlike(model, kind, first, then)
                && !closed_between(model, times, earlier, later)
        }
        _ => false,
    };
    loads.windows(2).filter(|pair| is_again(pair)).map(|_| 1).sum()
}

/// Whether the kitchen is closed at some time between two loads, of which the first comes sooner in model time: what was lit is put out then.
pub fn closed_between(model: &StandardForm, times: &Times, first: usize, then: usize) -> bool {
    model.open.windows(2).any(|pair| match pair {
        [before, after] => times.ends[first] < after.opens && times.starts[then] > before.closes,
        _ => false,
    })
}
