//! What may be done on an earlier day is done there: the last day has as few minutes of hands-on work as can be.
//!
//! A set of steps can be over before a moment if each of them can, as long as only times between steps say so: of two plans that
//! keep the least and the most times between steps, the earlier start of each step makes a plan that keeps them too. So steps are
//! put before the last day one after the other, the ones with most work first, wherever a plan is left; only where people or
//! equipment run short on the days before might another choice have moved a little more.

use super::problem::{Due, Kind, Minute, Problem};

/// Steps of the search for each try: a plan is wanted, not the best one.
pub const STEPS: u64 = 400;

/// The problem with all hands-on work that allows it over by `midnight`, at which the last day begins, but for the tasks that are
/// `fresh`: what does not keep is finished on the day for which it is wanted. `has_plan` tells whether a problem has a plan.
pub fn lighten(problem: Problem, midnight: Minute, fresh: &[usize], has_plan: impl Fn(&Problem) -> bool) -> Problem {
    let mut steps: Vec<(Minute, Vec<usize>)> = Vec::new();
    for (at, task) in problem.tasks.iter().enumerate().filter(|(_, task)| task.kind == Kind::Hands) {
        let same = |known: &&mut (Minute, Vec<usize>)| {
            known
                .1
                .first()
                .and_then(|first| problem.tasks.get(*first))
                .is_some_and(|first| first.label.same_step(task.label))
        };
        let minutes = task.shortest * Minute::from(task.cooks);
        match steps.iter_mut().find(same) {
            Some((all, tasks)) => {
                *all += minutes;
                tasks.push(at);
            }
            None => steps.push((minutes, vec![at])),
        }
    }
    steps.sort_by_key(|(minutes, tasks)| (std::cmp::Reverse(*minutes), tasks.first().copied()));
    let mut best = problem;
    for (_, tasks) in steps {
        if tasks.iter().any(|task| fresh.contains(task)) {
            continue;
        }
        let mut lighter = best.clone();
        lighter.dues.push(Due { tasks, minute: midnight });
        if has_plan(&lighter) {
            best = lighter;
        }
    }
    best
}
