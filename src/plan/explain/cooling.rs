//! What cools when nobody is there who would put it into the cold.

use super::Contact;
use crate::make::work::Work;
use crate::model::cooking;
use crate::plan::put_away::{is_put_away, nobody_comes};
use crate::plan::schedule::Schedule;

/// How to have somebody there.
const BE_THERE: &str = "make it earlier, let somebody stay, or cool it in an ice bath or a chiller and write that as a step; food law and \
                        licensed practice go first";

/// Each row at whose end something has cooled that is kept in the cold, with nobody there to put it there. What was baked stands well for a
/// night.
pub fn cools_alone(schedule: &Schedule, work: &Work) -> Vec<Contact> {
    let alone = schedule.rows.iter().enumerate().filter_map(|(at, row)| {
        let recipe = &work.batches.get(row.batch)?.recipe;
        let part = recipe.part(row.at.part)?;
        let is_baked = part.steps.iter().any(cooking::bakes);
        let is_alone = !is_baked && nobody_comes(&schedule.open, row.end) && is_put_away(recipe, row.at);
        let said = format!("`{}` of `{}` is over, and nobody is there to put it into the cold", row.step, row.part);
        let place = part.steps.get(row.at.step)?.name.span;
        is_alone.then_some(Contact { check: "slow-cooling", row: at, minute: row.end, place, said, help: BE_THERE })
    });
    alone.collect()
}
