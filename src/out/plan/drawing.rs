//! The drawn timeline of a plan: a panel for each day, lanes for people, equipment and rests.
//!
//! It is read in black and white: work is solid, tending hatched, rests are thin bars, what is being heated has a broken edge,
//! somebody's own rest is light, closed hours are shaded.

use super::words;
use crate::model::step::StepKind;
use crate::out::report::clean;
use crate::out::sheet::timeline::strokes;
use crate::plan::problem::Minute;
use crate::plan::schedule::{Row, Schedule};
use maud::{Markup, PreEscaped, html};

/// The drawing's width in its own units.
const WIDTH: i64 = 1000;
/// Where the lanes begin.
const LEFT: i64 = 132;
/// Room at the right, for half of the last hour's figures.
const EDGE: i64 = 28;
/// The size of type: on A4 some 8 points.
const TYPE: i64 = 16;
/// A lane's height.
const LANE: i64 = 32;
/// The height of a lane of rests.
const THIN: i64 = 28;
/// Room for a panel's heading and hours.
const HEAD: i64 = 54;
/// The width of a character in a label.
const CHARACTER: i64 = 8;
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

/// Draws the timeline. An hour is as wide on every day, and a day has only the lanes that have work on it.
pub fn render(schedule: &Schedule) -> String {
    let lanes = lanes(schedule);
    let panels = panels(schedule);
    let widest = panels.iter().map(|panel| panel.until - panel.from).max().unwrap_or(60).max(60);
    let mut top = 0;
    let mut drawn = Vec::with_capacity(panels.len());
    for panel in &panels {
        let lanes: Vec<&Lane> = lanes.iter().filter(|lane| lane.has_work(schedule, panel)).collect();
        drawn.push(draw(schedule, panel, &lanes, top, widest));
        top += HEAD + tall(&lanes) + 18;
    }
    let view = format!("0 0 {WIDTH} {}", top + 30);
    html! {
        figure tabindex="0" aria-label="Timeline" { svg xmlns="http://www.w3.org/2000/svg" viewBox=(view) role="img" font-size=(TYPE) {
            title { "Timeline of " (clean(&schedule.title)) }
            @for panel in drawn { (PreEscaped(panel)) }
            (key(top + 16))
        } }
    }
    .into_string()
}

/// How high some lanes are.
fn tall(lanes: &[&Lane]) -> i64 {
    lanes.iter().map(|lane| lane.height()).sum()
}

impl Lane {
    fn height(&self) -> i64 {
        if self.thin { THIN } else { LANE }
    }

    fn has_work(&self, schedule: &Schedule, panel: &Panel) -> bool {
        let rows = self.rows.iter().filter_map(|at| schedule.rows.get(*at));
        rows.into_iter().any(|row| row.start < panel.until && row.end > panel.from)
    }
}

fn key(y: i64) -> Markup {
    html! {
        rect.dr-hands x=(LEFT) y=(y - 12) width="30" height="14" {}
        text x=(LEFT + 38) y=(y) { "hands" }
        (tended(LEFT + 110, y - 12, 30, 14))
        text x=(LEFT + 148) y=(y) { "stay in reach" }
        rect.dr-wait x=(LEFT + 270) y=(y - 9) width="30" height="7" {}
        text x=(LEFT + 308) y=(y) { "wait" }
        rect.dr-shut x=(LEFT + 370) y=(y - 12) width="30" height="14" {}
        text x=(LEFT + 408) y=(y) { "closed" }
        rect x=(LEFT + 470) y=(y - 12) width="30" height="14" class="dr-stroke" fill="none" stroke-dasharray="3 2" {}
        text x=(LEFT + 508) y=(y) { "lit, or a rest" }
        text x=(LEFT + 610) y=(y) { "numbers: see the sheet" }
    }
}

/// What somebody is in reach of: hatched.
fn tended(x: i64, y: i64, width: i64, height: i64) -> Markup {
    let strokes = strokes(x as f64, y as f64, width as f64, height as f64);
    let path: String = strokes.iter().map(|[a, b, c, d]| format!("M{a:.0} {b:.0}L{c:.0} {d:.0}")).collect();
    html! {
        rect.dr-tend x=(x) y=(y) width=(width) height=(height) {}
        path.dr-hatch d=(path) {}
    }
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

fn draw(schedule: &Schedule, panel: &Panel, lanes: &[&Lane], top: i64, widest: Minute) -> String {
    let across = WIDTH - LEFT - EDGE;
    let wide = (panel.until - panel.from).max(60);
    let x = |minute: Minute| LEFT + (minute.clamp(panel.from, panel.until) - panel.from) * across / widest;
    let right = x(panel.from + wide);
    let tall = tall(lanes);
    let (begin, end) = (top + HEAD, top + HEAD + tall);
    let every = [60, 120, 180, 240, 360].into_iter().find(|step| across * step / widest >= 52).unwrap_or(720);
    let hours = (0..=wide / 60).map(|hour| panel.from + hour * 60);
    let tops = lanes.iter().scan(begin, |next, lane| {
        let top = *next;
        *next += lane.height();
        Some(top)
    });
    html! {
        text x=(LEFT) y=(top + 22) font-size="20" font-weight="700" { (panel.heading) }
        @for (from, until) in closed(schedule, panel) {
            rect.dr-shut x=(x(from)) y=(begin) width=(x(until) - x(from)) height=(tall) {}
        }
        @for minute in hours {
            line.dr-line x1=(x(minute)) y1=(begin) x2=(x(minute)) y2=(end) {}
            @if (minute - panel.from + panel.clock_at_from).rem_euclid(every) == 0 {
                text x=(x(minute)) y=(begin - 7) text-anchor="middle" { (hour(schedule, panel, minute)) }
            }
        }
        @for (lane, y) in lanes.iter().zip(tops) {
            line.dr-line x1=(LEFT) y1=(y) x2=(right) y2=(y) {}
            text x=(LEFT - 8) y=(y + lane.height() / 2 + 6) text-anchor="end" font-weight="600" { (clean(&lane.name)) }
            (PreEscaped(bars(schedule, panel, lane, y, &x)))
        }
        rect.dr-frame x=(LEFT) y=(begin) width=(right - LEFT) height=(tall) {}
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
            @let (from, until) = (x(row.start), x(row.end).max(x(row.start) + 3));
            @let next = inside.get(place + 1).map_or(WIDTH, |(_, next)| x(next.start));
            @let rest = row.kind == StepKind::Wait;
            @let (top, high) = if rest { (y + lane.height() - 9, 6) } else { (y + 4, LANE - 8) };
            g {
                title { (clean(&format!("{}: {}, {}", at + 1, row.step, place_of(row)))) }
                @match row.kind {
                    StepKind::Hands => rect.dr-hands x=(from) y=(top) width=(until - from) height=(high) {},
                    StepKind::Tend => (tended(from, top, until - from, high)),
                    StepKind::Wait => rect.dr-wait x=(from) y=(top) width=(until - from) height=(high) {},
                }
                (label(row, *at, (from, until, next), y + if rest { lane.height() - 12 } else { LANE / 2 + 6 }))
            }
        }
    }
    .into_string()
}

/// What it is made for.
fn place_of(row: &Row) -> String {
    crate::out::list::place(&row.recipe, &row.part)
}

/// Its number, with what is done and for what as far as there is room in the bar or beside it.
fn label(row: &Row, at: usize, (from, until, next): (i64, i64, i64), y: i64) -> Markup {
    let number = at + 1;
    let whole = format!("{number} {}, {}", row.step, place_of(row));
    let product = format!("{number} {}, {}", row.step, row.recipe);
    let name = format!("{number} {}", row.recipe);
    let step = format!("{number} {}", row.step);
    let width = |text: &str| i64::try_from(text.chars().count()).unwrap_or(0) * CHARACTER + 6;
    let is_dark = row.kind == StepKind::Hands;
    for text in [whole, product, name, step, number.to_string()] {
        if width(&text) <= until - from {
            let middle = (from + until) / 2;
            return html! {
                text x=(middle) y=(y) text-anchor="middle" class=(if is_dark { "dr-in" } else { "dr-halo" }) { (clean(&text)) }
            };
        }
        if width(&text) <= next - until && until + width(&text) <= WIDTH {
            return html! { text x=(until + 4) y=(y) class="dr-halo" { (clean(&text)) } };
        }
    }
    html! {}
}
