//! A step cut into loads: how long each takes, with how much of what the step works on.

use super::{MOST_LOADS, Task};
use crate::make::loads;
use crate::measure::number::{Number, Overflow};
use crate::measure::quantity::Duration;
use crate::model::flow;
use crate::model::recipe::Recipe;
use crate::model::step::{Loads, Step, StepKind, StepRef};
use crate::plan::problem::{Label, Minute};

/// The pieces that a step works on, and whether its loads are cut by them.
#[derive(Clone, Copy)]
pub(super) struct Dealt {
    pub(super) pieces: Option<Number>,
    pub(super) by_pieces: bool,
    /// How many of them are a load, where that is said.
    pub(super) size: Option<Number>,
    /// How many of them fill the equipment, where that is said.
    pub(super) full: Option<Number>,
    /// How many times each of them is worked on.
    pub(super) moments: i64,
}

impl Dealt {
    /// The pieces in what comes between two moments of the work, counted in loads, and their share of all.
    fn between(self, (done, through): (Number, Number), loads: i64) -> Result<(Option<Number>, Number), Overflow> {
        let by_load = through.minus(done)?.times(Number::whole(self.moments))?.over(Number::whole(loads.max(1)))?;
        let Some(all) = self.pieces else { return Ok((None, by_load)) };
        // What does not fit in such loads is cut into equal ones.
        let fits = |size: &Number| all.over(*size).is_ok_and(|cut| cut.ceil() == Number::whole(loads));
        let size = self.size.filter(fits);
        let at = |moment| loads::through(all, size, moment, loads);
        let pieces = at(through)?.minus(at(done)?)?;
        let share = if self.by_pieces && all > Number::ZERO { pieces.over(all)? } else { by_load };
        Ok((Some(pieces), share))
    }
}

/// The loads of a step. Work on single pieces is one stretch: hands go from piece to piece without a break. Work that
/// several may share is cut into a load for each.
pub(super) fn loads_of(
    recipe: &Recipe,
    batch: usize,
    place: StepRef,
    made: usize,
    step: &Step,
    (loads, shares): (i64, i64),
    dealt: Dealt,
) -> Result<Vec<Task>, Overflow> {
    let each = matches!(step.loads, Loads::Each);
    let whole = if each { 1 } else { loads.min(MOST_LOADS) };
    let count = whole.saturating_mul(shares).min(if each { loads.max(1) } else { MOST_LOADS.max(whole) });
    let split = if each { 1 } else { count / whole.max(1) };
    let count = if each { count } else { whole * split };
    (1..=count)
        .map(|load| {
            // Bundles as equal as they can be, the larger ones first.
            let bundles = if each { count } else { whole };
            let bundle = (load - 1) / split + 1;
            let before = (bundle - 1) * (loads / bundles) + (bundle - 1).min(loads % bundles);
            let times = loads / bundles + i64::from(bundle <= loads % bundles);
            let moment = |parts: i64| {
                let part = Number::whole(times * parts).over(Number::whole(split.max(1)))?;
                Number::whole(before).plus(part)
            };
            let part = (load - 1) % split.max(1);
            let (pieces, share) = dealt.between((moment(part)?, moment(part + 1)?), loads)?;
            // What is done piece by piece in loads takes as long as the load has pieces.
            let by_piece = pieces.filter(|_| matches!(step.loads, Loads::EachOf(_)));
            // Shares of one work come to as many minutes as the whole of it; a longer one comes later, so that what is begun at once ends
            // in this order.
            let is_shared = step.shared_by > 1 && count > 1;
            let (whole, begun) = match each {
                true => (Number::whole(loads), Number::whole(before)),
                false => (Number::whole(times), Number::whole(times * part).over(Number::whole(split.max(1)))?),
            };
            let takes = |time: Duration| match by_piece {
                Some(pieces) => minutes_of(time.times(pieces)?),
                None => {
                    let share = Number::whole(times).over(Number::whole(split.max(1)))?;
                    if !is_shared {
                        return minutes_of(time.times(share)?);
                    }
                    let left = whole.minus(begun)?;
                    let (with, without) = (time.times(left)?, time.times(left.minus(share)?)?);
                    Ok((minutes_of(with)? - minutes_of(without)?).max(minutes_of(with)?.min(1)))
                }
            };
            let minutes = takes(step.time.1)?;
            Ok(Task {
                batch,
                step: place,
                label: Label { recipe: 0, part: made, step: place.step, load: usize::try_from(load).unwrap_or(0) },
                load,
                loads: count,
                turn: None,
                leads: load == 1,
                bundle: is_shared.then_some(if each { 1 } else { bundle }),
                kind: step.kind,
                least_minutes: takes(step.time.0)?,
                minutes,
                most_minutes: step.up_to.map(minutes_of).transpose()?.map(|most| most.max(minutes)),
                people: if step.kind == StepKind::Hands { step.people } else { 0 },
                equipment: step.equipment.clone(),
                temperature: step.temperature.map(|(at, _)| at),
                leaves: step.later.last().map(|(at, _)| *at).or(step.temperature.map(|(at, _)| at)),
                heats: flow::heats_empty(step),
                pieces,
                takes_room: false,
                weight: None,
                full: dealt.full,
                share,
                station: recipe.station_of(place.part, step),
                span: step.span,
            })
        })
        .collect()
}

fn minutes_of(time: Duration) -> Result<Minute, Overflow> {
    time.whole_minutes().ok_or(Overflow)
}
