//! What cools, or is hot when it is over, and is then kept in the cold is put there by somebody who is there.
//!
//! A pan that is cold at midnight and a kitchen that closed at eleven: it would stand until the morning. Where a plan leaves it so, the
//! same is planned again with somebody there; where that cannot be, it is said.

use super::problem::{Kind, Label, Lag, Minute, Point, Problem, Rule, Stand, Standing, Task, Window};
use super::solve::Plan;
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

/// What is hot when it is over is warm enough to be put away between one and two hours later, and until then somebody is there who cools it:
/// cooked food is at 21 °C after two hours (FDA Food Code 3-501.14). The first hour is common practice, no source.
pub const COOLED: (Minute, Minute) = (60, 120);

/// Whether a step is the end of a part that is kept in the cold, and what it made is hot: nothing in it cools. What was baked stands well.
pub fn is_left_hot(recipe: &Recipe, at: StepRef) -> bool {
    recipe.part(at.part).is_some_and(|part| {
        part.keeps.is_some_and(|keeps| keeps.how.is_cold())
            && cooking::ends_hot(&part.steps)
            && !part.steps.iter().any(cooking::bakes)
            && flow::sinks(part, at.part).contains(&at.step)
    })
}

/// Whether nobody comes soon after a moment.
pub fn nobody_comes(open: &[Window], end: Minute) -> bool {
    nobody_within(open, end, (0, SOON))
}

/// Whether nobody is there so long after a moment.
pub fn nobody_within(open: &[Window], end: Minute, (soonest, latest): (Minute, Minute)) -> bool {
    !open.is_empty() && !open.iter().any(|window| window.opens <= end + latest && end + soonest <= window.closes)
}

/// The problem with somebody there to put away what cools, or is hot and stands until it is taken much later; `None` where somebody is, in this
/// plan.
pub fn with_somebody(problem: &Problem, tasks: &Tasks, work: &Work, plan: &Plan) -> Option<Problem> {
    let is = |task: usize, what: fn(&Recipe, StepRef) -> bool| {
        let task = tasks.list.get(task);
        task.is_some_and(|task| work.batches.get(task.batch).is_some_and(|batch| what(&batch.recipe, task.step)))
    };
    let end = |task: usize| plan.ends.get(task).copied();
    let taken = |task: usize| {
        let takes = |standing: &Standing| match standing.stand {
            Stand::Between { made, used } if made == task => plan.starts.get(used).copied(),
            _ => None,
        };
        tasks.standing.iter().filter_map(takes).min()
    };
    let stands_long = |task: &usize| end(*task).zip(taken(*task)).is_some_and(|(end, taken)| taken > end + COOLED.1);
    let cools = (0..tasks.list.len()).filter(|task| is(*task, is_put_away)).map(|task| (task, (0, SOON)));
    let hot = (0..tasks.list.len()).filter(|task| is(*task, is_left_hot)).filter(stands_long);
    let all: Vec<(usize, (Minute, Minute))> = cools.chain(hot.map(|task| (task, COOLED))).collect();
    let is_alone = |(task, within): &(usize, (Minute, Minute))| {
        end(*task).is_some_and(|end| nobody_within(&problem.open, end, *within))
    };
    if !all.iter().any(is_alone) {
        return None;
    }
    let mut asked = problem.clone();
    for (task, (least, most)) in all {
        let number = asked.tasks.len();
        let label = Label { recipe: 1, part: number, step: 0, load: 0 };
        asked.tasks.push(Task { label, kind: Kind::Tend, shortest: 0, longest: 0, cooks: 0, holds: None });
        let (from, to) = (Point::end(task), Point::start(number));
        asked.lags.push(Lag { from, to, least, most: Some(most), rule: Rule::Attended });
    }
    Some(asked)
}
