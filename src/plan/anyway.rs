//! How long a rest may go on where it is warm is a net, and not what a baker aims at.
//!
//! It is made use of where an oven or a pair of hands is not free, and not so that bread is some minutes fresher: what rests there has its
//! written time, and is ready sooner instead. Of orders that are ready long before they are wanted, whatever is done, nothing else is left
//! undone or overdone either.

use super::dense::Dense;
use super::engine;
use super::problem::{GROWS_STALE, Minute, Point, Problem, Stand};
use super::standard_form::StandardForm;

/// From so many minutes on an order is ready too soon anyway. Common practice, no source.
const BY_FAR: Minute = 60;

/// What a minute counts then in which one of its last loads is ready and not yet wanted: more than one in the cold, and less than one in the
/// warm. Common practice, no source.
const STALE_ANYWAY: u32 = 2;

/// What rests for so long is slow: a minute of a sponge of thirteen hours is no minute of a loaf that proves for one. Common practice, no
/// source.
const SLOW: Minute = 360;

/// Weighs the minutes in which something goes on resting where it is warm (`warm` are those rests) more than those in which what comes of
/// it is ready and not yet wanted, but for what is handed over hot; and of orders that are ready long before, whatever is done, the latter
/// less. What rests for many hours is left at what it weighs.
pub fn rest_as_written(problem: &mut Problem, warm: &[usize]) {
    if problem.dues.is_empty() {
        return;
    }
    let early = too_early(problem).unwrap_or_default();
    let is_early = |due: usize| early.get(due).copied().unwrap_or(false);
    // Nothing else is left undone or overdone for it either.
    for stands in [&mut problem.long, &mut problem.stale] {
        stands.retain(|stand| !matches!(stand, Stand::Ready { due, .. } if is_early(*due)));
    }
    let mut stale = vec![0; problem.dues.len()];
    for standing in &mut problem.standing {
        let Stand::Ready { due, .. } = standing.stand else { continue };
        if is_early(due) {
            standing.weight = standing.weight.min(STALE_ANYWAY);
        }
        if let Some(sum) = stale.get_mut(due) {
            *sum += standing.weight;
        }
    }
    // What is handed over hot at several times is wanted at each of them: what rests on for the last does not for the others.
    let is_hot =
        |due: &usize| problem.long.iter().any(|long| matches!(long, Stand::Ready { due: of, .. } if of == due));
    let hot: Vec<bool> = (0..problem.dues.len()).map(|due| is_hot(&due)).collect();
    // What each order needs, and for each rest the orders that need it.
    let needs: Vec<Dense<bool>> = problem.dues.iter().map(|due| needed(problem, &due.tasks)).collect();
    let weights: Vec<Option<u32>> = (0..problem.tasks.len())
        .map(|task| {
            let orders = || (0..needs.len()).filter(|due| needs.get(*due).is_some_and(|needs| needs[task]));
            let is_slow = problem.tasks.get(task).is_some_and(|task| task.shortest >= SLOW);
            let is_for_one = warm.contains(&task) && !is_slow && orders().next().is_some();
            let of = |due: usize| stale.get(due).map_or(0, |sum| (*sum).min(GROWS_STALE));
            let is_hot = |due: &usize| hot.get(*due).copied().unwrap_or(false);
            let others = || orders().filter(|due| !is_hot(due)).map(of).sum::<u32>();
            let hottest = || orders().filter(is_hot).map(of).max().unwrap_or(0);
            is_for_one.then(|| others() + hottest() + 1)
        })
        .collect();
    for standing in &mut problem.standing {
        let weight = rests(standing).and_then(|rest| weights.get(rest).copied().flatten());
        if let Some(weight) = weight.filter(|_| standing.free == 0 && standing.weight > 0) {
            standing.weight = standing.weight.max(weight);
        }
    }
}

/// What goes on resting in a stand.
fn rests(standing: &super::problem::Standing) -> Option<usize> {
    match standing.stand {
        Stand::Between { made, .. } => Some(made),
        Stand::DrawnOut { rest } => Some(rest),
        Stand::Ready { .. } => None,
    }
}

/// For each time at which something is wanted, whether all of it is ready too soon anyway; `None` where nothing can be planned.
fn too_early(problem: &Problem) -> Option<Vec<bool>> {
    if !problem.faults().is_empty() {
        return None;
    }
    let model = StandardForm::new(problem);
    // In the mirror the earliest is the latest.
    let earliest = engine::earliest(&model).filter(|_| model.mirrored)?;
    let is_early =
        |task: &usize, minute: Minute| earliest[model.event(Point::end(*task))] - model.inward(minute) >= BY_FAR;
    let dues = problem.dues.iter();
    Some(dues.map(|due| !due.tasks.is_empty() && due.tasks.iter().all(|task| is_early(task, due.minute))).collect())
}

/// Which tasks have to come before some, and those themselves.
fn needed(problem: &Problem, tasks: &[usize]) -> Dense<bool> {
    let mut before: Dense<Vec<usize>> = Dense::filled(problem.tasks.len(), Vec::new());
    for lag in problem.lags.iter().filter(|lag| lag.least >= 0) {
        before[lag.to.task].push(lag.from.task);
    }
    let mut needed = Dense::filled(problem.tasks.len(), false);
    let mut open = tasks.to_vec();
    while let Some(task) = open.pop() {
        if !needed[task] {
            needed[task] = true;
            open.extend(&before[task]);
        }
    }
    needed
}
