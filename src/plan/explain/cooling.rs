//! What cools when nobody is there who would put it into the cold.

use super::Contact;
use crate::make::work::Work;
use crate::model::cooking;
use crate::plan::kept::Kept;
use crate::plan::put_away::{COOLED, is_left_hot, is_put_away, nobody_comes, nobody_within};
use crate::plan::schedule::{Row, Schedule};

/// How to have somebody there.
const BE_THERE: &str = "make it earlier, let somebody stay, or cool it in an ice bath or a chiller and write that as a step; food law and \
                        licensed practice go first";

/// What is hot when everybody goes.
const COOL_IT: &str = "make it earlier, or let somebody stay to cool it, and write that as a step; food law and licensed practice go first";

/// Each row at whose end something has cooled that is kept in the cold, or is hot and is kept so, with nobody there to put it there. What was
/// baked stands well for a night.
pub fn cools_alone(schedule: &Schedule, work: &Work) -> Vec<Contact> {
    let alone = schedule.rows.iter().enumerate().filter_map(|(at, row)| {
        let recipe = &work.batches.get(row.batch)?.recipe;
        let part = recipe.part(row.at.part)?;
        let is_baked = part.steps.iter().any(cooking::bakes);
        let is_alone = !is_baked && nobody_comes(&schedule.open, row.end) && is_put_away(recipe, row.at);
        let is_hot = is_left_hot(recipe, row.at) && is_left(schedule, row);
        let name = format!("`{}` of `{}`", row.step, row.part);
        let (said, help) = match (is_alone, is_hot) {
            (_, true) => {
                (format!("what {name} made is hot, and nobody is there to cool it and put it into the cold"), COOL_IT)
            }
            (true, false) => (format!("{name} is over, and nobody is there to put it into the cold"), BE_THERE),
            (false, false) => return None,
        };
        let place = part.steps.get(row.at.step)?.name.span;
        Some(Contact { check: "slow-cooling", row: at, minute: row.end, place, said, help })
    });
    alone.collect()
}

/// Whether what a row makes stands until it is taken much later, and nobody is there an hour after its end.
fn is_left(schedule: &Schedule, row: &Row) -> bool {
    let same = |kept: &&Kept| (kept.id, &kept.recipe, &kept.part) == (row.at.part, &row.recipe, &row.part);
    let taken = schedule.kept.iter().filter(same).map(|kept| kept.latest).filter(|taken| *taken >= row.end).min();
    taken.is_some_and(|taken| taken > row.end + COOLED.1) && nobody_within(&schedule.open, row.end, COOLED)
}
