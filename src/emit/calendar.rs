//! A plan as a calendar (iCalendar, RFC 5545), with an alarm at each start of hands-on work.

use crate::plan::problem::Minute;
use crate::plan::schedule::{Row, Schedule};
use crate::report::clean;
use crate::step::StepKind;
use icalendar::{Alarm, Calendar, Component, Event, EventLike, Property, Trigger};

/// A minute of the plan as RFC 5545 writes a moment in UTC; `None` for a plan that counts from zero.
pub fn utc(schedule: &Schedule, minute: Minute) -> Option<String> {
    let clock = schedule.clock.as_ref()?;
    Some(clock.timestamp(schedule.start + minute)?.strftime("%Y%m%dT%H%M%SZ").to_string())
}

/// Lays a plan out as a calendar. `stamp` says when the calendar was made, in the form of [`utc`]: the same plan with the
/// same stamp gives the same bytes.
pub fn render(schedule: &Schedule, stamp: &str) -> String {
    let mut calendar = Calendar::new();
    calendar.name(&clean(&schedule.title));
    for (at, row) in schedule.rows.iter().enumerate() {
        let (Some(start), Some(end)) = (utc(schedule, row.start), utc(schedule, row.end)) else { continue };
        let mut event = Event::new();
        event.append_property(Property::new("DTSTAMP", stamp));
        event.append_property(Property::new("DTSTART", &start));
        event.append_property(Property::new("DTEND", &end));
        event.uid(&format!("{start}-{at}@miche"));
        event.summary(&clean(&summary(row)));
        event.description(&clean(&description(row)));
        if row.kind == StepKind::Wait {
            // A rest leaves everybody free.
            event.append_property(Property::new("TRANSP", "TRANSPARENT"));
        }
        if row.kind == StepKind::Hands {
            event.alarm(Alarm::display(&clean(&summary(row)), Trigger::after_start(chrono::Duration::zero())));
        }
        calendar.push(event.done());
    }
    calendar.to_string()
}

fn summary(row: &Row) -> String {
    let load = if row.loads > 1 { format!(" {}/{}", row.load, row.loads) } else { String::new() };
    format!("{}{load}: {}", row.step, row.part)
}

fn description(row: &Row) -> String {
    let mut lines = vec![format!("For {}", row.recipe)];
    let who = super::plan::who(row);
    if row.kind != StepKind::Wait {
        lines.push(format!("Who: {who}"));
    }
    if let Some(equipment) = &row.equipment {
        let unit = row.unit.filter(|_| row.units > 1).map(|unit| format!(" {unit}")).unwrap_or_default();
        let heat = row.temperature.as_ref().map(|at| format!(" at {at}")).unwrap_or_default();
        lines.push(format!("Uses: {equipment}{unit}{heat}"));
    }
    if !row.sign.is_empty() {
        lines.push(format!("Until {}", row.sign.trim_start_matches("until ")));
    }
    lines.join("\n")
}
