//! The steps of a reader's page, under the days on which they are done.

use super::ingredients::Group;
use crate::figures::card::{Card, PartCard, StepCard, Timeline, spoons_for_one};
use crate::language::prose::{Insert, Prose};
use crate::make::batch::Batch;
use crate::measure::number::Overflow;
use crate::measure::quantity::{Duration, MINUTES_A_DAY};
use crate::measure::show;
use crate::measure::shown::Shown;
use crate::model::cooking::cooks_by_head;
use crate::model::published::Picture;
use crate::model::step::{StepKind, StepRef};
use crate::plan::timeline::{self, TimelineRow};
use crate::text::quick::QuickMap;
use jiff::civil::Time;

/// Where nobody says when it is served, a new day begins after nobody had to be there for so many minutes: a night's rest, with what
/// comes before and after it. Common practice, no source.
const NIGHT: i64 = 6 * 60;

/// A day's steps.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Day {
    /// From 1; what ferments for a week is taken on the eighth.
    pub number: usize,
    /// Its steps, by when they begin.
    pub steps: Vec<Step>,
}

/// A step.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Step {
    /// Which.
    pub at: StepRef,
    /// The part, where there are several.
    pub part: Option<String>,
    /// Its name.
    pub name: String,
    /// Who is busy.
    pub kind: StepKind,
    /// On the clock, where it is said for when: `08:20`.
    pub begins: Option<String>,
    /// How long it takes, as printed.
    pub time_shown: Shown,
    /// Minutes of one load, shortest and longest.
    pub minutes: (i64, i64),
    /// Minutes from its start to its end, all loads counted; 0 where no plan holds it.
    pub span_minutes: i64,
    /// How hot it is, in whole degrees Celsius.
    pub celsius: Option<i64>,
    /// Whether something cooks while it goes on: by its heat, its equipment or its name.
    pub cooks: bool,
    /// What it holds and how hot: `oven at 220 °C`.
    pub place: Option<String>,
    /// How it is cut into loads, as printed.
    pub loads_shown: String,
    /// How long it may go on, as printed.
    pub up_to_shown: Option<Shown>,
    /// When it is done beside other steps, as printed.
    pub order_shown: Vec<String>,
    /// What is done.
    pub prose: Prose,
    /// The cue by which it is done.
    pub cue: Prose,
    /// Its pictures.
    pub pictures: Vec<Picture>,
}

impl Step {
    /// Whether both are one thing to do, whenever it is done.
    pub fn says_the_same(&self, other: &Step) -> bool {
        let told = |step: &Step| {
            let (time, prose, cue) = (step.time_shown.to_string(), step.prose.plain(), step.cue.plain());
            (step.part.clone(), step.name.clone(), time, step.place.clone(), step.loads_shown.clone(), prose, cue)
        };
        told(self) == told(other)
    }
}

/// The steps of a card under their days. Those that no plan holds stand last. `groups`: what goes in, where it is told in cups and spoons.
pub(super) fn of(
    batch: &Batch,
    card: &Card,
    timeline: &Timeline,
    (serve, groups): (Option<Time>, &[Group]),
) -> Vec<Day> {
    let is_headed = card.parts.len() > 1;
    let mut steps: Vec<(i64, i64, Step)> = Vec::new();
    let mut planned: QuickMap<StepRef, Vec<(i64, i64)>> = QuickMap::default();
    for row in &timeline.rows {
        planned.entry(row.at).or_default().push((row.start, row.end));
    }
    for part in &card.parts {
        let listed = groups.iter().find(|group| group.part == part.name);
        for step in &part.steps {
            let here = StepRef { part: part.id, step: step.at };
            let mut times = planned.remove(&here).unwrap_or_default();
            let spooned = |ingredient: &str| spooned(batch, part, step, ingredient);
            let mut step = told(batch, part, step, is_headed);
            if let Some(listed) = listed {
                step.prose = step.prose.with_inserts(|insert| as_listed(insert, listed, &spooned));
            }
            // What is done at several moments of a rest has a place at each of them where the clock's time is said.
            if serve.is_some() && times.len() > 1 {
                times.sort_unstable();
                times.dedup_by_key(|time| time.0);
                let moments = at_moments(batch, step, times.len());
                steps.extend(times.into_iter().zip(moments).map(|((start, end), step)| (start, end, step)));
                continue;
            }
            let (start, end) = times.first().copied().unwrap_or((i64::MAX, i64::MAX));
            steps.push((start, end, step));
        }
    }
    // Of two that begin at once the author's order counts.
    steps.sort_by_key(|(start, ..)| *start);
    let first = serve.map(|serve| minute_of_day(serve) - timeline.span_minutes);
    let mut days: Vec<Day> = Vec::new();
    let (mut worked_until, mut on) = (0, None);
    for (start, end, mut step) in steps {
        let is_planned = start != i64::MAX;
        let today = match first {
            Some(first) if is_planned => Some((first + start).div_euclid(MINUTES_A_DAY)),
            _ => None,
        };
        // How many days go by before it.
        let later = match (today, on) {
            (Some(today), Some(on)) => today - on,
            _ => (start.saturating_sub(worked_until)) / MINUTES_A_DAY,
        };
        let is_new = match (today, on) {
            (Some(today), Some(on)) => today != on,
            (Some(_), None) => true,
            (None, _) => is_planned && first.is_none() && start - worked_until >= NIGHT,
        };
        on = today.or(on);
        if is_planned && step.kind != StepKind::Wait {
            worked_until = worked_until.max(end);
        } else if is_planned && is_new {
            // Who takes it out of the cold in the morning to prove is there: the night is over, and what follows is of that day.
            worked_until = worked_until.max(start);
        }
        step.span_minutes = if is_planned { end - start } else { 0 };
        step.begins = first.filter(|_| is_planned).map(|first| clock(first + start));
        match days.last_mut().filter(|_| !is_new) {
            Some(day) => day.steps.push(step),
            None => {
                let later = usize::try_from(later).unwrap_or(1).max(1);
                days.push(Day { number: days.last().map_or(1, |last| last.number + later), steps: vec![step] });
            }
        }
    }
    days
}

/// A step that is done so many times, at each of its moments: what is done is said once.
fn at_moments(batch: &Batch, step: Step, times: usize) -> Vec<Step> {
    let written = batch.recipe.part(step.at.part).and_then(|part| part.steps.get(step.at.step));
    let moments: &[Duration] = written.map_or(&[], |step| &step.moments);
    let order = |at: usize| -> Vec<String> {
        // With several loads of the rest a time is not of one moment alone.
        let moment = moments.get(at).filter(|_| moments.len() == times);
        let said = |order: &String| match (moment, order.rsplit_once(" into ")) {
            (Some(moment), Some((_, rest))) => format!("{} into {rest}", show::duration(*moment)),
            _ => order.clone(),
        };
        step.order_shown.iter().map(said).collect()
    };
    let again = Step { prose: Prose::default(), cue: Prose::default(), pictures: Vec::new(), ..step.clone() };
    let of = |at: usize| Step { order_shown: order(at), ..if at == 0 { step.clone() } else { again.clone() } };
    (0..times).map(of).collect()
}

/// What a step takes, as the list has it where it takes all of it: whoever measures 1/4 tsp of salt by the list has no 0.053 oz of it. What each
/// piece takes is told by the spoon where no scale of a home shows it.
fn as_listed(insert: &Insert, listed: &Group, spooned: &dyn Fn(&str) -> Option<Shown>) -> Insert {
    match insert {
        Insert::Amount { before: "", amount, of: "", ingredient } => {
            let row = listed.rows.iter().find(|row| row.shown_name == *ingredient || row.name == *ingredient);
            // What is made above and goes in whole needs no figure: nobody weighs it again.
            if row.is_some_and(|row| row.takes_all && row.amounts.contains(amount)) {
                return Insert::Amount { before: "", amount: Shown::default(), of: "", ingredient: ingredient.clone() };
            }
            let row = row.filter(|row| !row.is_part);
            let first = row.and_then(|row| row.amounts.split_first()).filter(|(_, others)| others.contains(amount));
            match (first, row) {
                (Some((first, _)), Some(row)) => {
                    let ingredient = row.shown_name.clone();
                    Insert::Amount { before: "", amount: first.clone(), of: "", ingredient }
                }
                _ => insert.clone(),
            }
        }
        Insert::Each { amount, ingredient } if is_for_the_spoon(amount) => {
            let amount = spooned(ingredient).unwrap_or_else(|| amount.clone());
            Insert::Each { amount, ingredient: ingredient.clone() }
        }
        _ => insert.clone(),
    }
}

/// Whether it is less than a quarter of an ounce, the step of a scale in a home. Common practice, no source.
fn is_for_the_spoon(amount: &Shown) -> bool {
    let Some((digits, _)) = amount.single().filter(|(digits, _)| digits.unit == "oz") else { return false };
    // As the digits behind the point stand in order, so do the shares.
    digits.digits.strip_prefix("0.").is_some_and(|behind| behind < "25")
}

/// What one piece takes of an ingredient in a step, by the spoon; nothing where no larder knows how much a spoon of it weighs.
fn spooned(batch: &Batch, part: &PartCard, step: &StepCard, ingredient: &str) -> Option<Shown> {
    // Of what is used twice in a step the two amounts are known together only.
    let is_it = |insert: &&Insert| matches!(insert, Insert::Each { ingredient: other, .. } if other == ingredient);
    if step.prose.inserts().filter(is_it).count() != 1 {
        return None;
    }
    let mass = step.uses.iter().find(|used| used.ingredient == ingredient)?.mass?;
    let line = batch.recipe.part(part.id)?.lines.iter().find(|line| &*line.name.text == ingredient)?;
    let pieces = batch.formula.pieces_for(batch.recipe.part(part.id)?, part.id)?;
    spoons_for_one(mass.over(pieces.value()).ok()?, line)
}

fn told(batch: &Batch, part: &PartCard, step: &StepCard, is_headed: bool) -> Step {
    let place = match (&step.equipment, &step.temperature_shown) {
        (Some(equipment), Some(heat)) => Some(format!("{equipment} at {heat}")),
        (Some(equipment), None) => Some(equipment.clone()),
        (None, Some(heat)) => Some(format!("at {heat}")),
        (None, None) => None,
    };
    let written = batch.recipe.part(part.id).and_then(|part| part.steps.get(step.at));
    let minutes = |number: crate::measure::number::Number| number.ceil().to_whole().unwrap_or(0);
    Step {
        at: StepRef { part: part.id, step: step.at },
        part: is_headed.then(|| part.name.clone()),
        name: step.name.clone(),
        kind: step.kind,
        begins: None,
        time_shown: step.time_shown.clone(),
        minutes: (minutes(step.minutes.0), minutes(step.minutes.1)),
        span_minutes: 0,
        celsius: step.temperature.map(|heat| heat.celsius().floor().to_whole().unwrap_or(0)),
        cooks: written.is_some_and(|step| step.kind != StepKind::Wait && cooks_by_head(step)),
        place,
        loads_shown: step.loads_shown.clone(),
        up_to_shown: step.up_to_shown.clone(),
        order_shown: step.order_shown.clone(),
        prose: step.prose.clone(),
        cue: step.cue.clone(),
        pictures: written.map(|step| step.pictures.clone()).unwrap_or_default(),
    }
}

/// The timeline of what is served at an hour: the card's, unless somebody would have to be up in the night; then one whose rests go
/// on until the morning, and where none can for all of it, with what is to be done in the night.
pub(super) fn served(
    batch: &Batch,
    (card, known): (&Card, Timeline),
    serve: Time,
) -> Result<(Timeline, Option<String>), Overflow> {
    let minute = minute_of_day(serve);
    let timeline = match timeline::in_the_night(&known, minute).is_empty() {
        true => known,
        // Who has to get up for a part of it sleeps through the rest all the same.
        false => timeline::served(&batch.recipe, &batch.formula, minute)?.unwrap_or(known),
    };
    let timeline = begun_in_the_evening(batch, card, timeline, minute)?;
    let first = minute - timeline.span_minutes;
    let begun = timeline.rows.iter().filter(|row| is_begun_by_hand(card, row)).map(|row| (row, first + row.start));
    let begun = begun.filter(|(_, start)| timeline::is_asleep(*start, start + 1, minute));
    let mut night: Vec<(&TimelineRow, i64)> =
        timeline::in_the_night(&timeline, minute).into_iter().chain(begun).collect();
    night.sort_by_key(|(_, at)| *at);
    let is_headed = card.parts.len() > 1;
    let told = |(row, at): &(&TimelineRow, i64)| match is_headed {
        true => format!("{} of {} at {}", row.step, row.part, clock(*at)),
        false => format!("{} at {}", row.step, clock(*at)),
    };
    let work: Vec<String> = night.iter().map(told).collect();
    let words = || format!("{}: no rest in this recipe can go on so long that the night is free", work.join(", "));
    let words = (!work.is_empty()).then(words);
    Ok((timeline, words))
}

/// Whether a rest is the first that is done for a part, and something is put in with it: raisins that soak in rum. Nobody is busy while it
/// goes on, but somebody is there when it begins.
fn is_begun_by_hand(card: &Card, row: &TimelineRow) -> bool {
    let part = card.parts.iter().find(|part| part.id == row.at.part);
    let step = part.and_then(|part| part.steps.first()).filter(|step| step.at == row.at.step);
    row.kind == StepKind::Wait
        && step.is_some_and(|step| !step.uses.is_empty() && step.uses.iter().all(|one| one.part.is_none()))
}

/// A timeline of which the rests that somebody begins in the night begin in the evening before, where they may go on for so long.
fn begun_in_the_evening(batch: &Batch, card: &Card, mut timeline: Timeline, serve: i64) -> Result<Timeline, Overflow> {
    let mut moved: Vec<(usize, i64)> = Vec::new();
    for (at, row) in timeline.rows.iter().enumerate().filter(|(_, row)| is_begun_by_hand(card, row)) {
        let step = batch.recipe.part(row.at.part).and_then(|part| part.steps.get(row.at.step));
        let Some(most) = step.and_then(|step| step.up_to) else { continue };
        let most = most.in_minutes()?.floor().to_whole().unwrap_or(0);
        let earliest = row.end - most;
        let first = serve - timeline.span_minutes;
        // By the quarter of an hour, as one looks at a clock.
        let is_even = |start: &i64| *start == row.start || (first + start).rem_euclid(15) == 0;
        let mut sooner = (earliest..=row.start).rev().filter(is_even);
        let evening = sooner.find(|start| !timeline::is_asleep(first + start, first + start + 1, serve));
        moved.extend(evening.filter(|start| *start < row.start).map(|start| (at, start)));
    }
    for (at, start) in moved {
        if let Some(row) = timeline.rows.get_mut(at) {
            row.start = start;
        }
    }
    let before = timeline.rows.iter().map(|row| row.start).min().unwrap_or(0).min(0);
    for row in &mut timeline.rows {
        row.start -= before;
        row.end -= before;
    }
    timeline.span_minutes -= before;
    Ok(timeline)
}

/// When to begin what takes so long, to serve it at an hour: `08:20`, or `18:40 on the day before`.
pub(super) fn begin(span_minutes: i64, serve: Time) -> String {
    let at = minute_of_day(serve) - span_minutes;
    match -at.div_euclid(MINUTES_A_DAY) {
        0 => clock(at),
        1 => format!("{} on the day before", clock(at)),
        days => format!("{} {days} days before", clock(at)),
    }
}

fn minute_of_day(time: Time) -> i64 {
    i64::from(time.hour()) * 60 + i64::from(time.minute())
}

fn clock(minute: i64) -> String {
    let of_day = minute.rem_euclid(MINUTES_A_DAY);
    format!("{:02}:{:02}", of_day / 60, of_day % 60)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_hour_to_begin_is_on_the_right_day() {
        let serve = Time::constant(16, 0, 0, 0);
        assert_eq!(begin(200, serve), "12:40");
        assert_eq!(begin(16 * 60, serve), "00:00");
        assert_eq!(begin(16 * 60 + 1, serve), "23:59 on the day before");
        assert_eq!(begin(3 * MINUTES_A_DAY, serve), "16:00 3 days before");
    }
}
