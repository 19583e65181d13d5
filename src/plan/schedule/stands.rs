//! How long what is eaten hot stands between the heat and the table.

use super::super::problem::Minute;
use super::super::tasks::Tasks;
use super::{Made, Row};
use crate::make::batch::BatchPart;
use crate::make::work::Work;
use crate::model::alive::Alive;
use crate::model::step::{StepKind, StepRef};
use crate::model::{cooking, flow};

/// What stands no longer than this goes to the table as it comes from the heat. Common practice, no source.
const AT_ONCE: Minute = 30;

/// Notes on each row from whose heat something is handed over how long that stands: until the step after it, or until it is wanted. Of bread
/// that nothing is done to any more nobody says that it is eaten hot.
pub(super) fn note(rows: &mut [Row], work: &Work, tasks: &Tasks, made: &[Made]) {
    for (order, made) in made.iter().enumerate() {
        let is_hot = tasks.hot.get(order) == Some(&true) && tasks.keeps.get(order).copied().flatten().is_none();
        let Some(due) = made.due.filter(|_| is_hot) else { continue };
        let finals = tasks.finals.get(order).map_or(&[][..], Vec::as_slice);
        let turn = finals.iter().find_map(|at| tasks.list.get(*at)?.turn);
        for end in work.ends_of(order) {
            of_part(rows, work, end, (turn, due));
        }
    }
}

fn of_part(rows: &mut [Row], work: &Work, end: BatchPart, (turn, due): (Option<usize>, Minute)) {
    let Some(recipe) = work.batches.get(end.batch).map(|batch| &batch.recipe) else { return };
    let Some(part) = recipe.part(end.part).filter(|part| cooking::ends_hot(&part.steps)) else { return };
    let Some(hot) = part.steps.iter().rposition(cooking::cooks_by_head) else { return };
    let alive = Alive::of(recipe);
    let raised = (0..hot).any(|step| alive.after(StepRef { part: end.part, step }))
        || flow::held(recipe, end.part).iter().any(|(_, other)| alive.at_end(*other));
    // What has risen, and stands after the heat before anything is done to it, drains and cools there: a doughnut, before its jam.
    let drains = |step: &crate::model::step::Step| step.kind == StepKind::Wait;
    if raised && part.steps.get(hot + 1).is_some_and(drains) {
        return;
    }
    let is_here =
        |row: &Row| (row.batch, row.at.part) == (end.batch, end.part) && (row.turn.is_none() || row.turn == turn);
    let goes_on = |row: &Row| {
        is_here(row)
            && row.at.step > hot
            && row.kind == StepKind::Hands
            && part.steps.get(row.at.step).is_some_and(|step| !flow::is_free(step))
    };
    let taken: Vec<(Minute, i64, i64)> =
        rows.iter().filter(|row| goes_on(row)).map(|row| (row.start, row.load, row.loads)).collect();
    for row in rows.iter_mut().filter(|row| is_here(row) && row.at.step == hot) {
        // Load by load, where there are as many.
        let takes_it = |(start, load, loads): &&(Minute, i64, i64)| {
            *start >= row.end && (*loads != row.loads || *load == row.load)
        };
        let next = taken.iter().filter(takes_it).map(|(start, ..)| *start).min();
        let until = next.or(if raised || !taken.is_empty() { None } else { Some(due) });
        row.stands_hot = until.map(|until| until - row.end).filter(|minutes| *minutes > AT_ONCE);
    }
}
