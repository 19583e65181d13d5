//! What is cooked and stands off the heat before it is held hot or chilled.

use super::{Contact, time};
use crate::make::work::Work;
use crate::model::cooking;
use crate::plan::problem::Minute;
use crate::plan::schedule::{Row, Schedule};

/// How to have it chilled in time.
const CHILL_IT: &str =
    "cook no more at a time than is chilled at once, or chill more at a time; food law and licensed practice go first";

/// How to have it held hot.
const HOLD_IT: &str = "cook no more at a time than is taken up at once, or keep it on the heat till then; food law and licensed practice go first";

/// For each step that takes up what is hot, the load that has stood longest, where that is too long.
pub fn stands_hot(schedule: &Schedule, work: &Work) -> Vec<Contact> {
    let row = |task: usize| schedule.rows.iter().enumerate().find(|(_, row)| row.task == task);
    let mut longest: Vec<(usize, &Row, &Row, Minute)> = Vec::new();
    for food in &schedule.hot_food {
        let (Some((_, made)), Some((at, rest))) = (row(food.made), row(food.rest)) else { continue };
        let stands = rest.start - made.end;
        if stands <= food.most {
            continue;
        }
        match longest.iter_mut().find(|(_, _, other, _)| (other.batch, other.at) == (rest.batch, rest.at)) {
            Some(known) if known.3 >= stands => {}
            Some(known) => *known = (at, made, rest, stands),
            None => longest.push((at, made, rest, stands)),
        }
    }
    let told = longest.into_iter().filter_map(|(at, made, rest, stands)| {
        let step = work.batches.get(rest.batch)?.recipe.part(rest.at.part)?.steps.get(rest.at.step)?;
        let (check, help) = if cooking::chills(step) { ("slow-cooling", CHILL_IT) } else { ("held-too-cool", HOLD_IT) };
        let said = format!(
            "what {} of `{}` made is hot and stands {} before {}",
            named(made),
            made.part,
            time(stands),
            named(rest)
        );
        Some(Contact { check, row: at, minute: made.end, place: step.name.span, said, help })
    });
    told.collect()
}

/// A load by its step and its number.
pub(super) fn named(row: &Row) -> String {
    match row.counted() {
        (_, 1) => format!("`{}`", row.step),
        (load, loads) => format!("`{}` {load} of {loads}", row.step),
    }
}
