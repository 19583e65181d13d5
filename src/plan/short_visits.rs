//! Nobody comes for some minutes of work that those who are there can do as well, one piece after the other.

use super::problem::{Kind, Minute, Problem};
use super::solve::Plan;

/// For so many minutes in all nobody comes who has no hours of their own. Common practice, no source.
const HARDLY_WORTH_IT: Minute = 10;

/// By so many minutes the day may begin sooner for it. Common practice, no source.
pub const SOONER: Minute = 15;

/// So long a plan without them is looked for.
pub const STEPS: u64 = 3_000;

/// The problem with one person less; `None` where nobody comes for so little, or all have hours of their own.
pub fn without(problem: &Problem, plan: &Plan) -> Option<Problem> {
    if problem.cooks < 2 || problem.people.iter().any(|person| !person.shifts.is_empty()) {
        return None;
    }
    let minutes = |person: u32| -> Minute {
        let theirs = problem.tasks.iter().zip(&plan.cooks).enumerate();
        let theirs = theirs.filter(|(_, (task, who))| task.kind == Kind::Hands && who.contains(&person));
        theirs.filter_map(|(at, _)| Some(plan.ends.get(at)? - plan.starts.get(at)?)).sum()
    };
    let comes = (1..=problem.cooks).any(|person| (1..=HARDLY_WORTH_IT).contains(&minutes(person)));
    let cooks = problem.cooks - 1;
    if !comes || problem.tasks.iter().any(|task| task.cooks > cooks) {
        return None;
    }
    let people = problem.people.iter().take(usize::try_from(cooks).ok()?).cloned().collect();
    Some(Problem { cooks, people, ..problem.clone() })
}
