//! What is wrong with a day: what is in its store and nothing takes.

use super::{keeps_by_itself, never_used, odd_time, past_keeps, stops, twice_named, work_out};
use crate::make::day::{UseOfStore, uses_of_store};
use crate::measure::number::Number;
use crate::measure::quantity::{Duration, Proportion};
use crate::measure::show;
use crate::model::alive::Alive;
use crate::model::cooking::chills;
use crate::model::project::Project;
use crate::model::step::StepKind;
use crate::solve::resolve;
use crate::solve::resolve::day::store::DayStore;
use crate::solve::resolve::day::{Day, DayOrder};
use crate::text::diagnostic::Diagnostic;
use crate::text::source::SourceId;
use std::cell::Cell;

/// What is wrong with a day; what is wrong with its recipes is told with them.
pub(super) fn check(project: &Project, source: SourceId, diagnostics: &mut Vec<Diagnostic>) {
    let Some(day) = resolve::day::day(project, source, diagnostics) else { return };
    diagnostics.extend(ordered_twice(&day));
    diagnostics.extend(far_from_the_others(&day));
    if day.store.is_empty() || diagnostics.iter().any(stops) {
        return;
    }
    // Of recipes with errors nobody knows what they take.
    let is_sound = Cell::new(true);
    let work = |line: &DayOrder| {
        let mut found = Vec::new();
        let worked = work_out(project, line.recipe, &line.selection, &mut found);
        is_sound.set(is_sound.get() && worked.is_some() && !found.iter().any(stops));
        worked
    };
    let uses = uses_of_store(&day, work);
    if is_sound.get() {
        let problems = day.store.iter().zip(uses).filter_map(|(there, used)| match used {
            UseOfStore::Taken => too_old(project, &day, there),
            used => not_taken(project, &day, there, used),
        });
        diagnostics.extend(problems);
    }
}

/// Two orders that are one word for word: most likely a line that was copied. What two customers order is one line, or two with their times.
fn ordered_twice(day: &Day) -> impl Iterator<Item = Diagnostic> {
    let is_same = |one: &DayOrder, other: &DayOrder| {
        let same_part = match (&one.part, &other.part) {
            (Some(one), Some(other)) => one.same(other),
            (None, None) => true,
            _ => false,
        };
        same_part
            && one.recipe == other.recipe
            && one.wanted == other.wanted
            && one.selection == other.selection
            && one.ready == other.ready
    };
    day.orders.iter().enumerate().filter_map(move |(at, order)| {
        let first = day.orders.iter().take(at).find(|first| is_same(first, order))?;
        let message = "this is ordered twice, as much of it and for the same time: both are made";
        Some(
            Diagnostic::advice(twice_named::CHECK.name, order.span, message)
                .also(first.span, "ordered here already")
                .help("take one of the two lines out; where both are meant, order the sum in one line"),
        )
    })
}

/// So many days around the middle one of its orders a day's work may lie: what is made for Christmas weeks ahead is another day's file.
const AROUND: i64 = 10;

/// An order, or the day itself, that is wanted weeks from all the others: a month and a day exchanged, or a digit too many.
fn far_from_the_others(day: &Day) -> Option<Diagnostic> {
    let mut dates: Vec<_> =
        day.orders.iter().filter_map(|order| Some((order.ready?.when.date(), order.span))).collect();
    dates.sort_by_key(|(date, _)| *date);
    let (middle, _) = *dates.get(dates.len() / 2)?;
    let apart = |date: jiff::civil::Date| (middle.duration_until(date).as_hours() / 24).abs();
    let (date, span) = *dates.iter().max_by_key(|(date, _)| apart(*date)).filter(|(date, _)| apart(*date) > AROUND)?;
    let message =
        format!("this is wanted on {date}, and most of this day's work on {middle}: {} days apart", apart(date));
    Some(
        Diagnostic::advice(odd_time::CHECK.name, span, message)
            .help("look whether the month and the day are exchanged, or a digit has slipped; what is made weeks apart is planned in files of its own"),
    )
}

/// So many days something moist may stand of which nobody says how long it keeps. FDA Food Code 3-501.17 for what needs the cold; of a sponge
/// common practice, no source.
const LONG: i64 = 7;

/// What is taken though it was made days ago and nothing says how long it keeps: a live dough after a day, or the time for which it may rest in
/// the cold; what is moist, and kept by neither sugar nor salt, after a week.
fn too_old(project: &Project, day: &Day, there: &DayStore) -> Option<Diagnostic> {
    let first = day.orders.iter().filter_map(|order| order.ready).map(|moment| moment.when.date()).min()?;
    let made = there.made.filter(|_| there.keeps.is_none())?;
    let days = made.duration_until(first).as_hours() / 24;
    let (recipe, formula) = work_out(project, there.recipe, &there.selection, &mut Vec::new())?;
    let id = match &there.part {
        Some(name) => recipe.own_parts().find(|(_, part)| part.name.same(name)).map(|(id, _)| id),
        None => recipe.final_part(),
    }?;
    let (part, solved) = (recipe.part(id)?, formula.part(id)?);
    let is_alive = Alive::of(&recipe).at_end(id);
    let rests = part.steps.iter().rev().find(|step| step.kind == StepKind::Wait && chills(step));
    let rests = rests.map_or(Duration::ZERO, |step| step.up_to.unwrap_or(step.time.1).max(step.time.1));
    let rests = rests.in_days().ok()?;
    let moist = Proportion::new(Number::constant(3, 20));
    let is_moist = || {
        let water = solved.comes_out.water.as_share_of(solved.comes_out.total);
        water.is_ok_and(|water| water >= moist) && !keeps_by_itself(part, solved)
    };
    let most = if is_alive { Number::ONE } else { Number::whole(LONG) };
    if Number::whole(days) <= most.max(rests) || !(is_alive || is_moist()) {
        return None;
    }
    let what = &part.name;
    let alive = if is_alive { "is alive, and " } else { "" };
    let message = format!("`{what}` {alive}says nothing of how long it keeps: by {first} it is {days} days old");
    let told = if is_alive { Diagnostic::warning } else { Diagnostic::advice };
    Some(told(past_keeps::CHECK.name, there.span, message).help(
        "throw it away and take the line out; or write into the part how long it keeps, and how, `keeps 2 days, chilled` or `keeps 12 weeks, frozen`",
    ))
}

/// The problem of a `store` line of which nothing is taken; `None` where it is taken, there is enough besides, or it was told.
fn not_taken(project: &Project, day: &Day, there: &DayStore, used: UseOfStore) -> Option<Diagnostic> {
    let first = day.orders.iter().filter_map(|order| order.ready).map(|moment| moment.when.date()).min();
    if first.is_some_and(|first| there.is_past(first)) {
        return None;
    }
    let what = match &there.part {
        Some(part) => part.to_string(),
        None => resolve::recipe(project, there.recipe, &there.selection, &mut Vec::new())?.name.to_string(),
    };
    let warn = |message: String| Diagnostic::warning(never_used::CHECK.name, there.span, message);
    let out = "or take the line out";
    Some(match used {
        UseOfStore::Taken => return None,
        UseOfStore::NotWanted => {
            warn(format!("nothing that is made on this day takes `{what}`, so this stays where it is"))
                .help("order what it goes into, or take the line out; what it goes into may be another part or recipe")
        }
        UseOfStore::MadeOtherwise(told) if told.is_empty() => {
            warn(format!("the orders take a `{what}` that is made under other options, so this is not used"))
                .help(format!("say under which options it was made, `, choose OPTION`, {out}"))
        }
        UseOfStore::MadeOtherwise(told) => warn(format!(
            "the orders take a `{what}` that is made with `{told}`, so this is not used and it is made afresh"
        ))
        .help(format!(
            "if it was made so, say it behind a comma, `choose {told}`; else order what it goes into, {out}"
        )),
        UseOfStore::Past(on) => {
            let keeps = there.keeps.map(|keeps| show::duration(keeps).to_string()).unwrap_or_default();
            let made = there.made.map(|made| format!("was made on {made} and ")).unwrap_or_default();
            let message =
                format!("this {made}keeps {keeps}: by {on}, when it is wanted first, it is past that, and is not used");
            Diagnostic::warning(past_keeps::CHECK.name, there.span, message).help(
                "take the line out and throw it away when its time is over, or correct the day on which it was made",
            )
        }
        UseOfStore::NoWeight => warn(format!(
            "`{what}` is taken by weight, and what so many pieces of it weigh is not known: nothing is taken"
        ))
        .help("write how much there is as a weight"),
        UseOfStore::NoSort => warn(format!(
            "`{what}` is handed over in several sorts, and which of them are there is not said: nothing is taken"
        ))
        .help("order fewer of the sorts that are there, and take the line out; or give each sort a part of its own, `per small`, that takes its pieces of the dough"),
        UseOfStore::LessThanOne => {
            warn(format!("`{what}` is taken in whole pieces, and this is less than one: nothing is taken"))
                .help("write how many pieces there are, or take the line out")
        }
    })
}
