//! When each part that keeps may be made, counted from when it is taken: at the earliest, at the latest, and how it is kept.

use super::problem::{Minute, Stand};
use super::tasks::{Task, Tasks};
use super::which::Which;
use crate::make::work::Work;
use crate::measure::show::Units;
use crate::model::cooking;
use crate::model::recipe::{Keeps, PartId};
use crate::model::step::StepKind;

/// With less room than this nobody calls a part made ahead that does not keep. Common practice, no source.
const MADE_AHEAD: Minute = 60;

/// A part that may wait before it is taken.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Kept {
    /// The recipe that it is written in.
    pub recipe: String,
    /// The part.
    pub part: String,
    /// What tells it from others of that name; mostly empty.
    pub which: String,
    /// Which it is in the recipe of its batch.
    pub id: PartId,
    /// When the plan has it made.
    pub made: Minute,
    /// Made before that it would be past its time when the last of it is taken.
    pub earliest: Minute,
    /// Made after that it would be late when the first of it is taken.
    pub latest: Minute,
    /// How it is kept; `None` where it is its last rest that may go on.
    pub keeps: Option<Keeps>,
    /// In which units that is printed.
    pub units: Units,
}

/// The parts of a plan that may wait, in the order in which they are made; `times` are the starts and ends of the tasks.
pub(super) fn of(work: &Work, tasks: &Tasks, times: &[(Minute, Minute)], units: Units) -> Vec<Kept> {
    let mut all = Vec::new();
    let which = Which::of(work);
    for (number, place) in work.made().into_iter().enumerate() {
        let Some(batch) = work.batches.get(place.batch) else { continue };
        let Some((part, origin)) = batch.recipe.part(place.part).zip(batch.recipe.origin(place.part)) else { continue };
        let of_part = |at: usize| tasks.list.get(at).is_some_and(|task| task.label.part == number);
        let uses: Vec<(usize, Minute)> = tasks
            .standing
            .iter()
            .filter_map(|standing| match standing.stand {
                Stand::Between { made, used } if of_part(made) && !of_part(used) => Some((made, times.get(used)?.0)),
                _ => None,
            })
            .collect();
        let Some(made) =
            (0..tasks.list.len()).filter(|at| of_part(*at)).filter_map(|at| times.get(at)).map(|time| time.1).max()
        else {
            continue;
        };
        let rest = uses.iter().filter_map(|(end, _)| stretch(tasks.list.get(*end)?)).min();
        let last = uses.first().and_then(|(end, _)| part.steps.get(tasks.list.get(*end)?.step.step));
        let keeps = part.keeps.and_then(|keeps| keeps.time.whole_minutes());
        let room = match (keeps, rest) {
            (None, None) => continue,
            (None, Some(rest)) => rest,
            (Some(keeps), rest) => cooking::waits_kept(keeps, last, rest.unwrap_or(0)),
        };
        let starts = uses.iter().map(|(_, start)| *start);
        let (Some(first), Some(last)) = (starts.clone().min(), starts.max()) else { continue };
        let made_by = made.min(first);
        // What only its last rest can put off by some minutes is not made ahead.
        if part.keeps.is_none() && first - (last - room).min(made_by) < MADE_AHEAD {
            continue;
        }
        all.push(Kept {
            recipe: origin.0.name.to_string(),
            part: part.name.to_string(),
            which: which.part(place, None),
            id: place.part,
            made: made_by,
            // When the plan has it made it can be made, with a rest at the shorter end of its range too.
            earliest: (last - room).min(made_by),
            latest: first,
            keeps: part.keeps,
            units,
        });
    }
    all.sort_by_key(|kept| kept.made);
    all
}

/// By how much a rest may be stretched.
fn stretch(task: &Task) -> Option<Minute> {
    let most = task.most_minutes.filter(|_| task.kind == StepKind::Wait)?;
    Some((most - task.minutes).max(0))
}
