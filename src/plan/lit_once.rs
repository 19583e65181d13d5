//! As few units are lit as can be: where it makes no difference to anything else, a load goes into a unit that is hot already.

use super::dense::Dense;
use super::heats;
use super::occupancy::Units;
use super::problem::Holding;
use super::score::Score;
use super::standard_form::{StandardForm, Times};

/// So often each load is looked at again.
const ROUNDS: usize = 3;

/// Moves loads between units of one kind where fewer are lit then and the plan is no worse.
pub fn lit_once(model: &StandardForm, times: &mut Times) {
    for kind in 0..model.equipment.len() {
        let equipment = &model.equipment[kind];
        if equipment.heating == 0 || equipment.count < 2 {
            continue;
        }
        let holds = |task: usize| model.jobs[task].holds.filter(|holds| holds.equipment == kind);
        let is_load = |task: &usize| holds(*task).is_some() && times.starts[*task] < times.ends[*task];
        let mut loads: Vec<usize> = (0..model.jobs.len()).filter(is_load).collect();
        loads.sort_by_key(|task| (times.starts[*task], *task));
        let mut last = loads.iter().map(|task| times.units[*task]).collect::<Vec<usize>>();
        last.sort_unstable();
        last.dedup();
        if last.len() < 2 {
            continue;
        }
        for _ in 0..ROUNDS {
            let mut any = false;
            for task in loads.iter().copied() {
                let Some(holding) = holds(task) else { continue };
                any |= last.iter().any(|unit| is_better(model, &loads, times, (kind, task, *unit, holding)));
            }
            if !any {
                break;
            }
        }
    }
}

/// Moves one load into another unit, if that lights fewer.
fn is_better(
    model: &StandardForm,
    loads: &[usize],
    times: &mut Times,
    (kind, task, unit, holding): (usize, usize, usize, Holding),
) -> bool {
    if times.units[task] == unit || lit(model, loads, times) == 0 {
        return false;
    }
    let mut there = Units::new(&model.equipment[kind], model.jobs.len());
    for other in loads.iter().copied().filter(|other| *other != task && times.units[*other] == unit) {
        if let Some(holding) = model.jobs[other].holds {
            there.put(unit, other, times.starts[other], times.ends[other], holding);
        }
    }
    let (start, end) = (times.starts[task], times.ends[task]);
    if there.fit_in(unit, start, end - start, holding) != start {
        return false;
    }
    let mut moved = times.clone();
    moved.units[task] = unit;
    let is_less = lit(model, loads, &moved) < lit(model, loads, times);
    if is_less && Score::of(model, &moved) <= Score::of(model, times) {
        *times = moved;
        return true;
    }
    false
}

/// How often a cold unit is lit for some loads: for the first in it, and for each that comes after a time in which nobody was there.
fn lit(model: &StandardForm, loads: &[usize], times: &Times) -> usize {
    let mut of_units: Dense<Vec<usize>> = Dense::default();
    for task in loads {
        while of_units.len() <= times.units[*task] {
            of_units.add(Vec::new());
        }
        of_units[times.units[*task]].push(*task);
    }
    let closed = |first: &usize, then: &usize| heats::closed_between(model, times, *first, *then);
    let of_unit = |of: &Vec<usize>| {
        let after_closing = of.windows(2).filter(|pair| matches!(pair, [first, then] if closed(first, then))).count();
        usize::from(!of.is_empty()) + after_closing
    };
    of_units.iter().map(of_unit).sum()
}
