//! What cools and is then kept in the cold is put there by somebody who is there.
//!
//! A pan that is cold at midnight and a kitchen that closed at eleven: it would stand until the morning. Where a plan leaves it so, the
//! same is planned again with somebody there; where that cannot be, it is said.

use super::problem::{Kind, Label, Lag, Minute, Point, Problem, Rule, Task, Window};
use super::tasks::Tasks;
use crate::make::work::Work;
use crate::model::alive::Alive;
use crate::model::cooking;
use crate::model::flow;
use crate::model::recipe::Recipe;
use crate::model::step::{StepKind, StepRef};

/// So long after it has cooled it is put away, or gone on with: what is cooked is at 21 °C after two hours and at 5 °C after six (FDA Food
/// Code 3-501.14), and most of the two go by while it cools. The hour itself is common practice, no source.
pub const SOON: Minute = 60;

/// Whether a step is the end of a part that is kept in the cold, stands in the warm, and is nothing that somebody works at.
pub fn is_put_away(recipe: &Recipe, at: StepRef) -> bool {
    let Some((part, step)) = recipe.part(at.part).and_then(|part| Some((part, part.steps.get(at.step)?))) else {
        return false;
    };
    let is_kept_cold = part.keeps.is_some_and(|keeps| keeps.how.is_cold());
    let stands = step.kind == StepKind::Wait && step.equipment.is_none() && !flow::has_slack(step);
    is_kept_cold
        && stands
        && !cooking::chills(step)
        && flow::sinks(part, at.part).contains(&at.step)
        && !Alive::of(recipe).after(at)
}

/// Whether nobody comes soon after a moment.
pub fn nobody_comes(open: &[Window], end: Minute) -> bool {
    !open.is_empty() && !open.iter().any(|window| window.opens <= end + SOON && end <= window.closes)
}

/// The problem with somebody there to put away what cools; `None` where somebody is, at these ends of the tasks.
pub fn with_somebody(problem: &Problem, tasks: &Tasks, work: &Work, ends: &[Minute]) -> Option<Problem> {
    let cools = |task: &usize| {
        let task = tasks.list.get(*task);
        let recipe = |task: &super::tasks::Task| work.batches.get(task.batch).map(|batch| &batch.recipe);
        task.is_some_and(|task| recipe(task).is_some_and(|recipe| is_put_away(recipe, task.step)))
    };
    let all: Vec<usize> = (0..tasks.list.len()).filter(cools).collect();
    if !all.iter().filter_map(|task| ends.get(*task)).any(|end| nobody_comes(&problem.open, *end)) {
        return None;
    }
    let mut asked = problem.clone();
    for task in all {
        let number = asked.tasks.len();
        let label = Label { recipe: 1, part: number, step: 0, load: 0 };
        asked.tasks.push(Task { label, kind: Kind::Tend, shortest: 0, longest: 0, cooks: 0, holds: None });
        let (from, to) = (Point::end(task), Point::start(number));
        asked.lags.push(Lag { from, to, least: 0, most: Some(SOON), rule: Rule::Attended });
    }
    Some(asked)
}
