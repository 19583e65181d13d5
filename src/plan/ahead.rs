//! What may be done on an earlier day is done there: the last day has as few minutes of hands-on work as can be.
//!
//! A set of steps can be over before a moment if each of them can, as long as only times between steps say so: of two plans that
//! keep the least and the most times between steps, the earlier start of each step makes a plan that keeps them too. So steps are
//! put before the last day one after the other, the ones with most work first, wherever a plan is left; only where people or
//! equipment run short on the days before might another choice have moved a little more.
//!
//! Only what keeps, or rests with room, stands over the night: a step is put before it with all that follows it up to there.

use super::problem::{Due, Edge, Kind, Minute, Problem, Rule, Task};
use super::solve::Plan;
use super::tasks::Tasks;

/// Steps of the search for each try: a plan is wanted, not the best one.
pub const STEPS: u64 = 400;

/// What is put before the last day.
pub struct Ahead<'a> {
    /// The tasks; the problem's first ones are these.
    pub tasks: &'a Tasks,
    /// The midnight at which the last day begins.
    pub midnight: Minute,
    /// The tasks that finish what does not keep: it is finished on the day for which it is wanted.
    pub fresh: &'a [usize],
}

impl Ahead<'_> {
    /// The problem with all hands-on work that allows it over by midnight. `plan` looks for a plan of a problem.
    pub fn lighten(&self, problem: Problem, plan: impl Fn(&Problem) -> Option<Plan>) -> Problem {
        let Some(usual) = plan(&problem) else { return problem };
        // What has to be finished before midnight anyhow may be so.
        let is_early = |plan: &Plan, task: usize| plan.ends.get(task).is_some_and(|end| *end < self.midnight);
        let fresh: Vec<usize> = self.fresh.iter().copied().filter(|task| !is_early(&usual, *task)).collect();
        let mut best = problem;
        for tasks in by_work(&best) {
            let Some(tasks) = self.with_what_follows(&best, tasks, &fresh) else { continue };
            let mut lighter = best.clone();
            lighter.dues.push(Due { tasks, minute: self.midnight });
            let found = plan(&lighter);
            if found.is_some_and(|plan| !fresh.iter().any(|task| is_early(&plan, *task))) {
                best = lighter;
            }
        }
        best
    }

    /// Some tasks and all that follows them until something may stand: a part that keeps, or a rest that may go on. `None` where that
    /// is what is to be fresh.
    fn with_what_follows(&self, problem: &Problem, tasks: Vec<usize>, fresh: &[usize]) -> Option<Vec<usize>> {
        let mut all = tasks;
        let mut at = 0;
        while let Some(task) = all.get(at).copied() {
            at += 1;
            if fresh.contains(&task) {
                return None;
            }
            let goes_on = self.tasks.list.get(task).is_some_and(|task| task.most_minutes.is_some());
            if goes_on {
                continue;
            }
            for lag in problem.lags.iter().filter(|lag| lag.from.task == task) {
                let is_next = lag.from.edge == Edge::End && lag.to.edge == Edge::Start && lag.least >= 0;
                let stands = matches!(lag.rule, Rule::Keeps | Rule::UpTo | Rule::Attended | Rule::Held | Rule::Lit);
                if is_next && !stands && lag.to.task < self.tasks.list.len() && !all.contains(&lag.to.task) {
                    all.push(lag.to.task);
                }
            }
        }
        // A rest that may go on through the night ends when it is taken up.
        all.retain(|task| self.tasks.list.get(*task).is_none_or(|task| task.most_minutes.is_none()));
        Some(all)
    }
}

/// The hands-on steps by their tasks, those with most work first, and after them what somebody sets going and stays in reach of.
fn by_work(problem: &Problem) -> Vec<Vec<usize>> {
    let mut steps: Vec<(Minute, Vec<usize>)> = Vec::new();
    let is_work = |(_, task): &(usize, &Task)| match task.kind {
        Kind::Hands => true,
        // Not what is only a moment of somebody's.
        Kind::Tend => task.longest > 0,
        Kind::Wait => false,
    };
    for (at, task) in problem.tasks.iter().enumerate().filter(is_work) {
        let same = |known: &&mut (Minute, Vec<usize>)| {
            let first = known.1.first().and_then(|first| problem.tasks.get(*first));
            first.is_some_and(|first| first.label.same_step(task.label))
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
    steps.into_iter().map(|(_, tasks)| tasks).collect()
}
