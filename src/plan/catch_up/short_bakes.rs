//! Before an order is late, what is in the heat comes out as soon as the time that is written for it allows: who has `22-24 min` takes it out
//! by its sign.

use super::super::problem::Minute;
use super::super::running::FromNow;
use super::super::shorter::Otherwise;
use super::{LATEST, as_little_in_all, by_minutes};

/// A way with what is tended at the shorter end of its range where less is late then, for as few steps as are enough; by how much each order is
/// late; and what was with the longer ends. `possible` asks with all effort, `easily` with little.
pub(super) fn in_time(
    way: FromNow,
    by: Vec<Minute>,
    possible: &dyn Fn(&FromNow) -> bool,
    easily: &dyn Fn(&FromNow) -> bool,
) -> (FromNow, Vec<Minute>, Otherwise) {
    let sum = |by: &[Minute]| by.iter().sum::<Minute>();
    let short = way.with_short_bakes(|_| true).filter(|_| by.iter().any(|by| (1..LATEST).contains(by)));
    let Some(short) = short else { return (way, by, Otherwise::NoPlan) };
    let sooner = if possible(&short) { vec![0; by.len()] } else { by_minutes(&short, &by, easily) };
    let sooner = as_little_in_all(&short, sooner, easily);
    if sum(&sooner) >= sum(&by) {
        return (way, by, Otherwise::NoPlan);
    }
    let is_enough = |other: &FromNow| easily(&other.later(|due| sooner.get(due).copied().unwrap_or(LATEST)));
    let few = as_few(&way, &is_enough).unwrap_or(short);
    let otherwise = Otherwise::Later(sum(&by) - sum(&sooner));
    (few, sooner, otherwise)
}

/// The same with as few steps at the shorter end of their range as are enough; `None` where all of them are not.
pub(super) fn as_few(long: &FromNow, is_enough: &dyn Fn(&FromNow) -> bool) -> Option<FromNow> {
    let mut best = long.with_short_bakes(|_| true).filter(|all| is_enough(all))?;
    let label = |task: usize| long.problem.tasks.get(task).map(|task| task.label);
    let mut steps: Vec<Vec<usize>> = Vec::new();
    for task in long.long_bakes() {
        let is_its = |step: &&mut Vec<usize>| {
            let first = step.first().and_then(|first| label(*first));
            first.zip(label(task)).is_some_and(|(one, other)| one.same_step(other))
        };
        match steps.iter_mut().find(is_its) {
            Some(step) => step.push(task),
            None => steps.push(vec![task]),
        }
    }
    let mut short = steps.clone();
    // What is baked last is left as it is first: what is in the oven now is looked at soon.
    for step in steps.iter().rev() {
        let fewer: Vec<Vec<usize>> = short.iter().filter(|other| *other != step).cloned().collect();
        let of = |task: usize| fewer.iter().flatten().any(|of| *of == task);
        let other = long.with_short_bakes(of).unwrap_or_else(|| long.clone());
        if is_enough(&other) {
            (short, best) = (fewer, other);
        }
    }
    Some(best)
}
