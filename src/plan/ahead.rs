//! What may be done on an earlier day is done there: the last day has as few minutes of hands-on work as can be.
//!
//! A set of steps can be over before a moment if each of them can, as long as only times between steps say so: of two plans that
//! keep the least and the most times between steps, the earlier start of each step makes a plan that keeps them too. So steps are
//! put before the last day one after the other, the ones with most work first, wherever a plan is left; only where people or
//! equipment run short on the days before might another choice have moved a little more.
//!
//! Only what keeps, or rests with room, stands over the night: a step is put before it with all that follows it up to there. What does
//! not keep is not made hours older by it. The last day begins with the opening in which the last of it is served: one night shift is
//! one day.

use super::fresh::no_sooner;
use super::limit::Limit;
use super::problem::{Due, Edge, Kind, Label, Lag, Minute, Point, Problem, Rule, Task};
use super::solve::{self, Infeasible, Plan};
use super::tasks::Tasks;

/// Steps of the search for each try: a plan is wanted, not the best one.
pub const STEPS: u64 = 400;

/// What the measure is called that comes before all others then.
pub const MEASURE: &str = "ahead";

/// What does not keep is ready no more than so many minutes sooner than it would be else: nobody wants rolls of the afternoon at
/// dinner so that twenty minutes of work are spared. Common practice, no source.
const OLDER: Minute = 60;

/// What is put before the last day.
pub struct Ahead<'a> {
    /// The tasks; the problem's first ones are these.
    pub tasks: &'a Tasks,
    /// The moment at which the last day begins.
    pub begins: Minute,
    /// The tasks that finish what does not keep: it is finished on the day for which it is wanted.
    pub fresh: &'a [usize],
    /// The rests that may go on, straight out of which something is handed over, and the moment before which each must not begin so that
    /// it has not gone on for too long when that is wanted.
    pub rests: &'a [(usize, Minute)],
}

/// A problem with what can be done before the last day over by then.
pub struct Lightened {
    /// The problem.
    pub problem: Problem,
    /// Whether no more work can be done before: what was left could not by the times between the steps alone, or it would grow old.
    pub is_least: bool,
}

impl Ahead<'_> {
    /// The problem with all hands-on work that allows it over before the last day, within a limit. Parts are put before whole, and step by step
    /// where that cannot be.
    pub fn lighten(&self, problem: Problem, limit: &Limit<'_>) -> Lightened {
        let is_over = limit.stop;
        let usual = if is_over() { None } else { solve::plan(&problem, limit).ok() };
        let Some(usual) = usual else { return Lightened { problem, is_least: false } };
        let ready = |plan: &Plan, task: usize| plan.ends.get(task).copied();
        // What has to be finished before that anyhow may be so.
        let is_early = |plan: &Plan, task: usize| ready(plan, task).is_some_and(|end| end < self.begins);
        let grows_old = |plan: &Plan, task: usize| {
            ready(plan, task).zip(ready(&usual, task)).is_some_and(|(end, usual)| end + OLDER < usual)
        };
        let fresh: Vec<usize> = self.fresh.iter().copied().filter(|task| !is_early(&usual, *task)).collect();
        // What is taken out too soon anyhow, since the next load needs its place, is so by as much.
        let as_usual = |(task, soonest): &(usize, Minute)| {
            (*task, usual.starts.get(*task).map_or(*soonest, |start| (*soonest).min(*start)))
        };
        let rests: Vec<(usize, Minute)> = self.rests.iter().map(as_usual).collect();
        let goes_on_too_long = |plan: &Plan, (task, soonest): &(usize, Minute)| {
            plan.starts.get(*task).is_some_and(|start| start < soonest)
        };
        let stays_fresh = |plan: &Plan| {
            !fresh.iter().any(|task| is_early(plan, *task) || grows_old(plan, *task))
                && !rests.iter().any(|rest| goes_on_too_long(plan, rest))
        };
        // The same told to the planner, so that most that cannot be shows without a search.
        let mut old: Vec<(Point, Minute)> = Vec::new();
        for task in &fresh {
            if let Some(usual) = ready(&usual, *task) {
                old.push((Point::end(*task), self.begins.max(usual - OLDER)));
            }
        }
        old.extend(rests.iter().map(|(task, soonest)| (Point::start(*task), *soonest)));
        let mut best = Lightened { problem, is_least: true };
        let mut known = usual.clone();
        let steps = by_work(&best.problem, Label::same_step);
        let parts = by_work(&best.problem, |one, other| (one.recipe, one.part) == (other.recipe, other.part));
        for (tasks, is_step) in
            parts.into_iter().map(|part| (part, false)).chain(steps.into_iter().map(|step| (step, true)))
        {
            let Some(tasks) = self.with_what_follows(&best.problem, tasks, &fresh) else { continue };
            let is_there = |due: &Due| due.minute == self.begins && tasks.iter().all(|task| due.tasks.contains(task));
            if best.problem.dues.iter().any(is_there) {
                continue;
            }
            let mut lighter = best.problem.clone();
            let is_before = |task: &usize| ready(&known, *task).is_some_and(|end| end <= self.begins);
            let is_so = tasks.iter().all(is_before) && stays_fresh(&known);
            lighter.dues.push(Due { tasks: tasks.clone(), minute: self.begins });
            // The last plan is one of it already.
            if is_so {
                best.problem = lighter;
                continue;
            }
            let asks = no_sooner(&lighter, &old);
            if solve::is_ruled_out(&asks) {
                continue;
            }
            // A plan that is found at once takes its time too, in a large day.
            if is_over() {
                best.is_least &= !is_step;
                continue;
            }
            // In a full night a plan is not soon found; where all else stays as it is, there is only room to be found for what goes before.
            let beside_the_rest = || {
                let asks = self.all_else_as(&asks, &known, &tasks)?;
                let plan = solve::quickly(&asks).ok().filter(stays_fresh)?;
                solve::quickly(&lighter).is_ok().then_some(plan)
            };
            match solve::any_plan(&asks, limit) {
                Ok(plan) if stays_fresh(&plan) => (best.problem, known) = (lighter, plan),
                Ok(_) | Err(Infeasible::Impossible | Infeasible::Faults(_)) => {}
                Err(Infeasible::Unknown) => match beside_the_rest() {
                    Some(plan) => (best.problem, known) = (lighter, plan),
                    None => best.is_least &= !is_step,
                },
            }
        }
        best
    }

    /// A problem in which everything comes when it does in a plan, but for the parts of some tasks and what these come after.
    fn all_else_as(&self, problem: &Problem, known: &Plan, tasks: &[usize]) -> Option<Problem> {
        let earliest = problem.earliest?;
        let part = |task: usize| self.tasks.list.get(task).map(|task| (task.batch, task.step.part));
        let parts: Vec<_> = tasks.iter().filter_map(|task| part(*task)).collect();
        let is_of_them = |task: &usize| part(*task).is_some_and(|part| parts.contains(&part));
        let mut moved: Vec<usize> = (0..self.tasks.list.len()).filter(is_of_them).collect();
        let mut at = 0;
        while let Some(task) = moved.get(at).copied() {
            at += 1;
            let before =
                problem.lags.iter().filter(|lag| lag.to.task == task && lag.least >= 0).map(|lag| lag.from.task);
            for before in before.filter(|before| *before < self.tasks.list.len()) {
                if !moved.contains(&before) {
                    moved.push(before);
                }
            }
        }
        let mut asked = problem.clone();
        let anchor = asked.tasks.len();
        let label = Label { recipe: 5, part: anchor, step: 0, load: 0 };
        asked.tasks.push(Task { label, kind: Kind::Wait, shortest: 0, longest: 0, cooks: 0, holds: None });
        asked.dues.push(Due { tasks: vec![anchor], minute: earliest });
        for task in (0..self.tasks.list.len()).filter(|task| !moved.contains(task)) {
            let after = known.starts.get(task)? - earliest;
            let (from, to) = (Point::start(anchor), Point::start(task));
            asked.lags.push(Lag { from, to, least: after, most: Some(after), rule: Rule::After });
        }
        Some(asked)
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

/// The tasks of hands-on work put together where they are `alike`, those with most work first, and after them what somebody sets going
/// and stays in reach of.
fn by_work(problem: &Problem, alike: impl Fn(Label, Label) -> bool) -> Vec<Vec<usize>> {
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
            first.is_some_and(|first| alike(first.label, task.label))
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
