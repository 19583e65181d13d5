//! One person alone who has to stay for what is baked or simmers, longer than anybody works in a day.

use super::{place, time};
use crate::make::work::Work;
use crate::model::kitchen::{AWAY, Kitchen};
use crate::model::step::StepKind;
use crate::plan::problem::Minute;
use crate::plan::schedule::Schedule;
use crate::text::diagnostic::Diagnostic;

/// A warning for each day on which a lone cook is there for longer than a day of work may be: from the first piece of work, or what is lit,
/// to the end of the last that somebody stays in reach of. The planner counts the work of their hands only.
pub fn alone_too_long(schedule: &Schedule, kitchen: &Kitchen, work: &Work) -> Vec<Diagnostic> {
    let at_home = kitchen.span.is_none() && kitchen.longest.is_none();
    if kitchen.cooks != 1 || at_home {
        return Vec::new();
    }
    let longest = kitchen.longest_day(kitchen.named.first());
    let attended = schedule.rows.iter().filter(|row| row.kind != StepKind::Wait && row.start < row.end);
    let lit = schedule.lights.iter().map(|light| (light.start, light.start));
    let mut times: Vec<(Minute, Minute)> = attended.map(|row| (row.start, row.end)).chain(lit).collect();
    times.sort_unstable();
    let mut days: Vec<(Minute, Minute)> = Vec::new();
    for (start, end) in times {
        let closed = |last: Minute| {
            schedule
                .open
                .windows(2)
                .any(|pair| matches!(pair, [one, next] if last <= one.closes && next.opens <= start))
        };
        match days.last_mut() {
            Some(day) if start - day.1 < AWAY && !closed(day.1) => day.1 = day.1.max(end),
            _ => days.push((start, end)),
        }
    }
    let wall = |minute: Minute| schedule.wall(minute).map(|at| at.strftime("%H:%M on %A").to_string());
    let too_long = days.into_iter().filter(|(start, end)| end - start > longest).map(|(start, end)| {
        let when = wall(start).zip(wall(end)).map(|(from, until)| format!(", from {from} to {until}"));
        let message = format!(
            "{} is there for {}{}, and nobody works longer than {} a day",
            schedule.person(1),
            time(end - start),
            when.unwrap_or_default(),
            time(longest)
        );
        Diagnostic::warning("long-shift", place(work), message).help(
            "what is baked or simmers needs somebody in the house: let a second person see to it, make it on two days, or say \
             `longest` where law and contracts allow it",
        )
    });
    too_long.collect()
}
