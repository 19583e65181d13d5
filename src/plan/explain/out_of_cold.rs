//! What was cooked, is kept in the cold, was taken out to be made up, and stands until it is baked.
//!
//! Whoever makes up four hundred pies and bakes sixteen at a time has the last of them on the bench for hours.

use super::{Contact, time};
use crate::make::batch::BatchPart;
use crate::make::work::Work;
use crate::measure::number::{Number, Overflow};
use crate::model::alive::Alive;
use crate::model::cooking;
use crate::model::flow;
use crate::model::recipe::{PartId, Recipe};
use crate::model::spoils::{Body, body};
use crate::model::step::{Step, StepRef};
use crate::plan::problem::Minute;
use crate::plan::schedule::{Row, Schedule};

/// Longer than this what spoils does not stand between the cold and the oven: half of the four hours that the FDA Food Code allows out of the cold
/// (3-501.19, from memory), since it is warm before it is made up and cold in the middle of the oven for a while. The half is common practice,
/// no source.
const OUT_OF_THE_COLD: Minute = 120;

/// How to have it stand for less.
const AS_IT_IS_BAKED: &str = "make up no more at a time than goes in at once (`each, 16 at a time` on each step of it), or put it into the cold until then and write that as a \
     step; food law and licensed practice go first";

/// For each step with heat, the load whose food has stood longest since it was made up of what the cold kept, where that is too long.
pub fn stands_out_of_the_cold(schedule: &Schedule, work: &Work) -> Vec<Contact> {
    let mut told = Vec::new();
    for place in work.made() {
        let Some(recipe) = work.batches.get(place.batch).map(|batch| &batch.recipe) else { continue };
        let Some(part) = recipe.part(place.part) else { continue };
        let alive = Alive::of(recipe);
        for at in 0..part.steps.len() {
            let taken = flow::taken(recipe, place.part, at, |other| alive.at_end(other));
            let spoils = |taken: &flow::Taken| spoils_made_up(recipe, taken.part);
            if !taken.iter().any(spoils) || alive.after(StepRef { part: place.part, step: at }) {
                continue;
            }
            let made = StepRef { part: place.part, step: at };
            let Some(heat) = next_heat(recipe, place.part, at) else { continue };
            told.extend(longest(schedule, recipe, (place, made, heat)).ok().flatten());
        }
    }
    told
}

/// Whether a part is kept in the cold because it would spoil where it is warm: flesh, or milk or rice that was cooked. Flour with it dries
/// nothing, and of sugar and egg alone a paste for tarts is made that stands on every bench.
fn spoils_made_up(recipe: &Recipe, id: PartId) -> bool {
    let Some(part) = recipe.part(id).filter(|part| part.keeps.is_some_and(|keeps| keeps.how.is_cold())) else {
        return false;
    };
    let is_cooked = part.steps.iter().any(cooking::cooks);
    let is_baked = part.steps.iter().any(cooking::bakes);
    part.lines.iter().filter(|line| line.stays_in()).any(|line| match body(line) {
        Some(Body::Flesh) => true,
        Some(Body::Milk | Body::Rice) => is_cooked && !is_baked,
        _ => false,
    })
}

/// The step that heats what a step made up, or puts it into the cold again, in its part or in one that takes that; `None` where it is the
/// same step, where there is none, and where what was made up is kept in the cold.
fn next_heat(recipe: &Recipe, id: PartId, at: usize) -> Option<StepRef> {
    let (mut id, mut at) = (id, at);
    // As many parts one in another as there are.
    for _ in recipe.parts() {
        let part = recipe.part(id)?;
        if part.steps.get(at).is_some_and(is_its_end) {
            return None;
        }
        let mut later = part.steps.iter().enumerate().skip(at + 1);
        if let Some((step, _)) = later.find(|(_, step)| is_its_end(step)) {
            return Some(StepRef { part: id, step });
        }
        if part.keeps.is_some_and(|keeps| keeps.how.is_cold()) {
            return None;
        }
        let (user, _) = recipe.users(id).next()?;
        let takes = |step: &usize| flow::taken(recipe, user, *step, |_| false).iter().any(|taken| taken.part == id);
        let first = (0..recipe.part(user)?.steps.len()).find(takes)?;
        if recipe.part(user)?.steps.get(first).is_some_and(is_its_end) {
            return Some(StepRef { part: user, step: first });
        }
        (id, at) = (user, first);
    }
    None
}

/// Whether what stands does so no longer: it is heated, or put into the cold.
fn is_its_end(step: &Step) -> bool {
    !flow::is_free(step) && (cooking::cooks(step) || cooking::chills(step))
}

/// The load of a step with heat that has stood longest since it was made up.
fn longest(
    schedule: &Schedule,
    recipe: &Recipe,
    (place, made, heat): (BatchPart, StepRef, StepRef),
) -> Result<Option<Contact>, Overflow> {
    let of = |at: StepRef| {
        let rows = schedule.rows.iter().enumerate().filter(move |(_, row)| (row.batch, row.at) == (place.batch, at));
        let mut rows: Vec<(usize, &Row)> = rows.collect();
        rows.sort_by_key(|(_, row)| (row.turn, row.load));
        rows
    };
    let made = shares(&of(made))?;
    let mut longest: Option<(usize, &Row, &Row, Minute)> = None;
    for (at, heated, from, until) in shares(&of(heat))? {
        let holds = |(_, row, first, last): &&(usize, &Row, Number, Number)| {
            *first < until && from < *last && row.end <= heated.start
        };
        let Some((_, row, ..)) = made.iter().filter(holds).min_by_key(|(_, row, ..)| row.end) else { continue };
        let stands = heated.start - row.end;
        if stands > OUT_OF_THE_COLD && longest.is_none_or(|(.., known)| stands > known) {
            longest = Some((at, row, heated, stands));
        }
    }
    let Some((at, row, heated, stands)) = longest else { return Ok(None) };
    let Some(step) = recipe.part(heat.part).and_then(|part| part.steps.get(heat.step)) else { return Ok(None) };
    let said = format!(
        "what `{}` of `{}` made of what comes out of the cold stands {} before {}",
        row.step,
        row.part,
        time(stands),
        super::hot::named(heated)
    );
    let place = step.name.span;
    Ok(Some(Contact { check: "left-warm", row: at, minute: row.end, place, said, help: AS_IT_IS_BAKED }))
}

/// Each row with which share of all it is, from where to where, of 1.
fn shares<'r>(rows: &[(usize, &'r Row)]) -> Result<Vec<(usize, &'r Row, Number, Number)>, Overflow> {
    let mut all = Number::ZERO;
    for (_, row) in rows {
        all = all.plus(row.share)?;
    }
    let mut from = Number::ZERO;
    let mut shares = Vec::with_capacity(rows.len());
    for (at, row) in rows.iter().filter(|_| !all.is_zero()) {
        let until = from.plus(row.share.over(all)?)?;
        shares.push((*at, *row, from, until));
        from = until;
    }
    Ok(shares)
}
