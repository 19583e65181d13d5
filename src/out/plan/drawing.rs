//! The drawn timeline of a plan: a panel for each day, lanes for people, equipment and rests.
//!
//! It is read in black and white: work is solid, tending hatched, rests are thin bars, what is being heated has a broken edge,
//! somebody's own rest is light, closed hours are shaded.

use super::words;
use crate::model::step::StepKind;
use crate::out::report::clean;
use crate::plan::problem::Minute;
use crate::plan::schedule::{Row, Schedule};
use maud::{PreEscaped, html};

/// The drawing's width in its own units.
const WIDTH: i64 = 1200;
/// Where the lanes begin.
const LEFT: i64 = 120;
/// Room at the right, for half of the last hour's figures.
const EDGE: i64 = 22;
/// A lane's height.
const LANE: i64 = 24;
/// The height of a lane of rests.
const THIN: i64 = 19;
/// Room for a panel's heading and hours.
const HEAD: i64 = 40;
/// The width of a character in a label.
const CHARACTER: i64 = 6;
/// Minutes of a day.
const DAY: Minute = 1440;

/// One panel: the part of a day in which something begins or ends.
struct Panel {
    heading: String,
    /// What the clock shows at minute `from` of the plan.
    clock_at_from: Minute,
    from: Minute,
    until: Minute,
}

/// One lane and what is drawn in it: numbers of rows, and times without a row.
struct Lane {
    name: String,
    thin: bool,
    rows: Vec<usize>,
    besides: Vec<Beside>,
}

/// A time that has no number in the sheet: equipment that heats up, or somebody's rest.
struct Beside {
    what: String,
    from: Minute,
    until: Minute,
}

/// Draws the timeline.
pub fn render(schedule: &Schedule) -> String {
    let panels = panels(schedule);
    let lanes = lanes(schedule);
    let tall: i64 = lanes.iter().map(|lane| if lane.thin { THIN } else { LANE }).sum();
    let panel_height = HEAD + tall + 14;
    let height = panel_height * i64::try_from(panels.len()).unwrap_or(1) + 24;
    let view = format!("0 0 {WIDTH} {height}");
    html! {
        figure tabindex="0" aria-label="Timeline" { svg xmlns="http://www.w3.org/2000/svg" viewBox=(view) role="img" font-family="Helvetica, Arial, sans-serif" font-size="11" {
            title { "Timeline of " (clean(&schedule.title)) }
            defs {
                pattern id="tend" width="5" height="5" patternUnits="userSpaceOnUse" patternTransform="rotate(45)" {
                    rect width="5" height="5" fill="#fff" {}
                    line x1="0" y1="0" x2="0" y2="5" stroke="#777" stroke-width="1.6" {}
                }
            }
            @for (number, panel) in (0_i64..).zip(&panels) {
                (PreEscaped(draw(schedule, panel, &lanes, number * panel_height)))
            }
            (PreEscaped(key(height - 12)))
        } }
    }
    .into_string()
}

fn key(y: i64) -> String {
    html! {
        rect x=(LEFT) y=(y - 9) width="26" height="11" fill="#333" {}
        text x=(LEFT + 32) y=(y) { "hands-on work" }
        rect x=(LEFT + 130) y=(y - 9) width="26" height="11" fill="url(#tend)" stroke="#000" {}
        text x=(LEFT + 162) y=(y) { "somebody in reach" }
        rect x=(LEFT + 280) y=(y - 7) width="26" height="6" fill="#ccc" stroke="#000" stroke-width="0.6" {}
        text x=(LEFT + 312) y=(y) { "rest" }
        rect x=(LEFT + 360) y=(y - 9) width="26" height="11" fill="#e4e4e4" {}
        text x=(LEFT + 392) y=(y) { "closed" }
        rect x=(LEFT + 450) y=(y - 9) width="26" height="11" fill="#fff" stroke="#000" stroke-dasharray="3 2" {}
        text x=(LEFT + 482) y=(y) { "heating up, or somebody rests" }
        text x=(LEFT + 680) y=(y) { "numbers: see the sheet below" }
    }
    .into_string()
}

/// The lanes: people, equipment, whoever is in reach, and as many thin ones as rests lie side by side.
fn lanes(schedule: &Schedule) -> Vec<Lane> {
    let rows = || schedule.rows.iter().enumerate();
    let mut lanes = Vec::new();
    for person in 1..=schedule.cooks {
        let of: Vec<usize> = rows().filter(|(_, row)| row.people.contains(&person)).map(|(at, _)| at).collect();
        let rests = schedule.rests.iter().filter(|rest| rest.person == person);
        let rests = rests.map(|rest| Beside { what: "rest".to_owned(), from: rest.start, until: rest.end });
        if !of.is_empty() {
            lanes.push(Lane { name: schedule.person(person), thin: false, rows: of, besides: rests.collect() });
        }
    }
    for unit in words::units(schedule) {
        let of = rows().filter(|(_, row)| unit.holds(row)).map(|(at, _)| at).collect();
        let lit = schedule.lights.iter().filter(|light| unit.is_lit(light)).map(|light| {
            let heat = light.temperature.as_ref().map(|at| format!(" to {at}")).unwrap_or_default();
            Beside { what: format!("{}{heat}", words::lights(light)), from: light.start, until: light.end }
        });
        let besides = lit.collect();
        lanes.push(Lane { name: unit.name, thin: false, rows: of, besides });
    }
    lanes.extend(stacked(schedule, "in reach", false, |row| row.kind == StepKind::Tend && row.equipment.is_none()));
    lanes.extend(stacked(schedule, "rests", true, |row| row.kind == StepKind::Wait && row.equipment.is_none()));
    lanes
}

/// As many lanes as are needed for what runs at the same time.
fn stacked(schedule: &Schedule, name: &str, thin: bool, wanted: impl Fn(&Row) -> bool) -> Vec<Lane> {
    let mut lanes: Vec<(Minute, Lane)> = Vec::new();
    for (at, row) in schedule.rows.iter().enumerate().filter(|(_, row)| wanted(row)) {
        match lanes.iter_mut().find(|(free, _)| *free <= row.start) {
            Some((free, lane)) => {
                *free = row.end;
                lane.rows.push(at);
            }
            None => {
                let name = if lanes.is_empty() { name.to_owned() } else { String::new() };
                lanes.push((row.end, Lane { name, thin, rows: vec![at], besides: Vec::new() }));
            }
        }
    }
    lanes.into_iter().map(|(_, lane)| lane).collect()
}

fn panels(schedule: &Schedule) -> Vec<Panel> {
    let offset = schedule.wall(0).map_or(0, |at| Minute::from(at.hour()) * 60 + Minute::from(at.minute()));
    let mut days: Vec<(Minute, Minute, Minute)> = Vec::new();
    let lit = schedule.lights.iter().flat_map(|light| [light.start, light.end]);
    let mut moments: Vec<Minute> = schedule.rows.iter().flat_map(|row| [row.start, row.end]).chain(lit).collect();
    moments.sort_unstable();
    for moment in moments {
        let mut day = (moment + offset).div_euclid(DAY);
        // What ends at midnight belongs to the evening.
        if (moment + offset).rem_euclid(DAY) == 0 && days.last().is_some_and(|(last, ..)| *last == day - 1) {
            day -= 1;
        }
        match days.last_mut() {
            Some((last, _, until)) if *last == day => *until = moment,
            _ => days.push((day, moment, moment)),
        }
    }
    days.into_iter()
        .map(|(day, first, last)| {
            // Whole hours, with some room on both sides.
            let from = (first + offset).div_euclid(60) * 60;
            let until = ((last + offset).div_euclid(60) + 1) * 60;
            let heading = match schedule.wall(first) {
                Some(at) => at.strftime("%A %-d %B").to_string(),
                None if schedule.span > DAY => format!("Day {}", day + 1),
                None => "From zero".to_owned(),
            };
            Panel { heading, clock_at_from: from, from: from - offset, until: until - offset }
        })
        .collect()
}

fn draw(schedule: &Schedule, panel: &Panel, lanes: &[Lane], top: i64) -> String {
    let across = WIDTH - LEFT - EDGE;
    let wide = (panel.until - panel.from).max(60);
    let x = |minute: Minute| LEFT + (minute.clamp(panel.from, panel.until) - panel.from) * across / wide;
    let tall: i64 = lanes.iter().map(|lane| if lane.thin { THIN } else { LANE }).sum();
    let (begin, end) = (top + HEAD, top + HEAD + tall);
    let every = [60, 120, 180, 240, 360].into_iter().find(|step| across * step / wide >= 44).unwrap_or(720);
    let hours = (0..=wide / 60).map(|hour| panel.from + hour * 60);
    let heights = lanes.iter().map(|lane| if lane.thin { THIN } else { LANE });
    let tops = heights.scan(begin, |next, high| {
        let top = *next;
        *next += high;
        Some(top)
    });
    html! {
        text x=(LEFT) y=(top + 16) font-size="14" font-weight="bold" { (panel.heading) }
        @for (from, until) in closed(schedule, panel) {
            rect x=(x(from)) y=(begin) width=(x(until) - x(from)) height=(tall) fill="#e4e4e4" {}
        }
        @for minute in hours {
            line x1=(x(minute)) y1=(begin) x2=(x(minute)) y2=(end) stroke="#bbb" stroke-width="0.5" {}
            @if (minute - panel.from + panel.clock_at_from).rem_euclid(every) == 0 {
                text x=(x(minute)) y=(begin - 5) text-anchor="middle" { (hour(schedule, panel, minute)) }
            }
        }
        @for (lane, y) in lanes.iter().zip(tops) {
            @let high = if lane.thin { THIN } else { LANE };
            line x1=(LEFT) y1=(y) x2=(WIDTH - EDGE) y2=(y) stroke="#ddd" stroke-width="0.5" {}
            text x=(LEFT - 6) y=(y + high / 2 + 4) text-anchor="end" { (clean(&lane.name)) }
            (PreEscaped(bars(schedule, panel, lane, y, &x)))
        }
        rect x=(LEFT) y=(begin) width=(across) height=(tall) fill="none" stroke="#000" stroke-width="0.8" {}
    }
    .into_string()
}

fn hour(schedule: &Schedule, panel: &Panel, minute: Minute) -> String {
    match schedule.wall(minute) {
        Some(at) => at.strftime("%H:%M").to_string(),
        None => crate::measure::show::offset(minute - panel.from + panel.clock_at_from),
    }
}

/// The closed hours within a panel.
fn closed(schedule: &Schedule, panel: &Panel) -> Vec<(Minute, Minute)> {
    if schedule.open.is_empty() {
        return Vec::new();
    }
    let mut closed = Vec::new();
    let mut free = panel.from;
    for window in schedule.open.iter().filter(|window| window.closes > panel.from && window.opens < panel.until) {
        if window.opens > free {
            closed.push((free, window.opens));
        }
        free = free.max(window.closes);
    }
    if free < panel.until {
        closed.push((free, panel.until));
    }
    closed
}

fn bars(schedule: &Schedule, panel: &Panel, lane: &Lane, y: i64, x: &impl Fn(Minute) -> i64) -> String {
    let inside: Vec<(usize, &Row)> = lane
        .rows
        .iter()
        .filter_map(|at| Some((*at, schedule.rows.get(*at)?)))
        .filter(|(_, row)| row.start < panel.until && row.end > panel.from)
        .collect();
    let besides = lane.besides.iter().filter(|beside| beside.from < panel.until && beside.until > panel.from);
    html! {
        @for beside in besides {
            @let (from, until) = (x(beside.from), x(beside.until).max(x(beside.from) + 2));
            g {
                title { (clean(&beside.what)) }
                rect x=(from) y=(y + 5) width=(until - from) height=(LANE - 10) fill="#fff" stroke="#000" stroke-width="0.6" stroke-dasharray="3 2" {}
                @if i64::try_from(beside.what.chars().count()).unwrap_or(0) * CHARACTER + 6 <= until - from {
                    text x=((from + until) / 2) y=(y + LANE / 2 + 4) text-anchor="middle" { (clean(&beside.what)) }
                }
            }
        }
        @for (place, (at, row)) in inside.iter().enumerate() {
            @let (from, until) = (x(row.start), x(row.end).max(x(row.start) + 2));
            @let next = inside.get(place + 1).map_or(WIDTH - EDGE, |(_, next)| x(next.start));
            @let rest = row.kind == StepKind::Wait;
            @let (top, high) = if rest { (y + if lane.thin { 13 } else { LANE - 6 }, 4) } else { (y + 3, LANE - 6) };
            g {
                title { (clean(&format!("{}: {}, {}", at + 1, row.step, row.part))) }
                rect x=(from) y=(top) width=(until - from) height=(high) fill=(fill(row.kind)) stroke="#000" stroke-width="0.6" {}
                (PreEscaped(label(row, *at, (from, until, next), y + if rest { if lane.thin { 11 } else { LANE - 8 } } else { LANE / 2 + 4 })))
            }
        }
    }
    .into_string()
}

fn fill(kind: StepKind) -> &'static str {
    match kind {
        StepKind::Hands => "#333",
        StepKind::Tend => "url(#tend)",
        StepKind::Wait => "#ccc",
    }
}

/// The step's name in its bar or beside it, as far as there is room; else its number.
fn label(row: &Row, at: usize, (from, until, next): (i64, i64, i64), y: i64) -> String {
    let name = match row.kind {
        // A rest has a lane for itself, with room to say what rests.
        StepKind::Wait => format!("{} {}, {}", at + 1, row.step, row.part),
        _ => format!("{} {}", at + 1, row.step),
    };
    let short = format!("{} {}", at + 1, row.step);
    let number = (at + 1).to_string();
    let width = |text: &str| i64::try_from(text.chars().count()).unwrap_or(0) * CHARACTER + 6;
    let dark = row.kind == StepKind::Hands;
    let halo = if dark { "none" } else { "#fff" };
    let colour = if dark { "#fff" } else { "#000" };
    for text in [&name, &short, &number] {
        if width(text) <= until - from {
            return html! {
                text x=((from + until) / 2) y=(y) text-anchor="middle" fill=(colour) stroke=(halo) stroke-width="3" paint-order="stroke" { (clean(text)) }
            }
            .into_string();
        }
        if width(text) <= next - until {
            return html! { text x=(until + 3) y=(y) { (clean(text)) } }.into_string();
        }
    }
    String::new()
}
