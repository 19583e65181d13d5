//! A plan as a calendar (iCalendar, RFC 5545), with an alarm at each start of hands-on work.

use super::words;
use crate::figures::run_sheet::{Line, RunSheet};
use crate::model::step::StepKind;
use crate::out::block::sentence;
use crate::out::report::clean;
use crate::plan::problem::Minute;
use crate::plan::schedule::{Row, Schedule};

/// A minute of the plan as RFC 5545 writes a moment in UTC; `None` for a plan that counts from zero.
pub fn utc(schedule: &Schedule, minute: Minute) -> Option<String> {
    let clock = schedule.clock.as_ref()?;
    Some(clock.timestamp(schedule.start + minute)?.strftime("%Y%m%dT%H%M%SZ").to_string())
}

/// Lays a plan out as a calendar. `stamp` says when the calendar was made, in the form of [`utc`]: the same plan with the
/// same stamp gives the same bytes.
pub fn render(sheet: &RunSheet, stamp: &str) -> String {
    let schedule = &sheet.plan;
    let mut calendar = Lines(String::new());
    for line in ["BEGIN:VCALENDAR", "VERSION:2.0", "PRODID:-//miche//plan//EN", "CALSCALE:GREGORIAN"] {
        calendar.put(line);
    }
    calendar.text("X-WR-CALNAME", &schedule.title);
    for line in &sheet.lines {
        let (row, at) = (&line.row, line.rows.first().copied().unwrap_or(0));
        let (Some(start), Some(end)) = (utc(schedule, row.start), utc(schedule, row.end)) else { continue };
        calendar.put("BEGIN:VEVENT");
        calendar.put(&format!("UID:{start}-{at}@miche"));
        calendar.put(&format!("DTSTAMP:{stamp}"));
        calendar.put(&format!("DTSTART:{start}"));
        calendar.put(&format!("DTEND:{end}"));
        calendar.text("SUMMARY", &summary(row));
        calendar.text("DESCRIPTION", &description(sheet, line));
        if row.kind == StepKind::Wait {
            // A rest leaves everybody free.
            calendar.put("TRANSP:TRANSPARENT");
        }
        if row.kind == StepKind::Hands {
            calendar.put("BEGIN:VALARM");
            calendar.put("ACTION:DISPLAY");
            calendar.put("TRIGGER:PT0M");
            calendar.text("DESCRIPTION", &summary(row));
            calendar.put("END:VALARM");
        }
        calendar.put("END:VEVENT");
    }
    for (at, light) in schedule.lights.iter().enumerate() {
        let (Some(start), Some(end)) = (utc(schedule, light.start), utc(schedule, light.end)) else { continue };
        calendar.put("BEGIN:VEVENT");
        calendar.put(&format!("UID:{start}-light-{at}@miche"));
        calendar.put(&format!("DTSTAMP:{stamp}"));
        calendar.put(&format!("DTSTART:{start}"));
        calendar.put(&format!("DTEND:{end}"));
        let heat = light.temperature.as_ref().map(|at| format!(", {at}")).unwrap_or_default();
        let summary = format!("{} {}{heat}", words::lights(light), light.unit_name());
        calendar.text("SUMMARY", &summary);
        let filled = words::goes_in(sheet.filled_into(light));
        let by_whom = Some(words::people(schedule, &light.people)).filter(|who| !who.is_empty());
        let lines = [by_whom.map(|who| format!("Who: {who}")), Some(filled).filter(|filled| !filled.is_empty())];
        let lines: Vec<String> = lines.into_iter().flatten().collect();
        if !lines.is_empty() {
            calendar.text("DESCRIPTION", &lines.join("\n"));
        }
        // Whoever lit it is free again.
        calendar.put("TRANSP:TRANSPARENT");
        calendar.put("BEGIN:VALARM");
        calendar.put("ACTION:DISPLAY");
        calendar.put("TRIGGER:PT0M");
        calendar.text("DESCRIPTION", &summary);
        calendar.put("END:VALARM");
        calendar.put("END:VEVENT");
    }
    for rest in &schedule.rests {
        let (Some(start), Some(end)) = (utc(schedule, rest.start), utc(schedule, rest.end)) else { continue };
        let who = schedule.person(rest.person);
        calendar.put("BEGIN:VEVENT");
        calendar.put(&format!("UID:{start}-rest-{}@miche", rest.person));
        calendar.put(&format!("DTSTAMP:{stamp}"));
        calendar.put(&format!("DTSTART:{start}"));
        calendar.put(&format!("DTEND:{end}"));
        calendar.text("SUMMARY", &format!("rest ({who})"));
        calendar.put("END:VEVENT");
    }
    calendar.put("END:VCALENDAR");
    calendar.0
}

/// The most octets in a line before it is folded (RFC 5545, 3.1).
const LINE: usize = 75;

/// Content lines, folded and ended as RFC 5545 asks.
struct Lines(String);

impl Lines {
    /// A line whose value needs no escaping.
    fn put(&mut self, line: &str) {
        let mut length = 0;
        for c in line.chars() {
            if length + c.len_utf8() > LINE {
                self.0.push_str("\r\n ");
                length = 1;
            }
            self.0.push(c);
            length += c.len_utf8();
        }
        self.0.push_str("\r\n");
    }

    /// A line whose value is text (RFC 5545, 3.3.11).
    fn text(&mut self, name: &str, value: &str) {
        let mut line = format!("{name}:");
        for c in clean(value).chars() {
            match c {
                '\\' | ';' | ',' => line.extend(['\\', c]),
                '\n' => line.push_str("\\n"),
                c => line.push(c),
            }
        }
        self.put(&line);
    }
}

fn summary(row: &Row) -> String {
    format!("{}: {}", words::action(row), row.part)
}

fn description(sheet: &RunSheet, line: &Line) -> String {
    let (row, first) = (&line.row, line.rows.first().copied().unwrap_or(0));
    let mut lines = vec![format!("For {}", words::which(row.recipe.clone(), &row.which))];
    let goes_in = words::goes_in(&line.portions);
    if !goes_in.is_empty() {
        lines.push(format!("Takes: {goes_in}"));
    }
    lines.extend(sheet.pieces_in(first, row));
    if row.kind != StepKind::Wait {
        lines.push(format!("Who: {}", words::who(&sheet.plan, row)));
    }
    if row.equipment.is_some() {
        lines.push(format!("Uses: {}", words::place(row)));
    }
    let sign = words::sign(row);
    if !sign.is_empty() {
        lines.push(sentence(&sign).trim_end_matches('.').to_owned());
    }
    let contacts = sheet.contacts.iter().filter(|contact| line.rows.contains(&contact.row));
    lines.extend(contacts.map(|contact| format!("Caution: {}", words::contact(&sheet.plan, contact))));
    lines.join("\n")
}
