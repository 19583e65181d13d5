//! The drawn timeline of a plan: a picture for each day, lanes for people, equipment and rests.

use super::words;
use crate::measure::quantity::MINUTES_A_DAY;
use crate::model::step::StepKind;
use crate::out::picture::{Anchor, Area, On, Picture, Shape, Words};
use crate::plan::problem::Minute;
use crate::plan::schedule::{Row, Schedule, Turned};

/// The drawing's width in its own units.
const WIDTH: i64 = 1000;
/// Where the lanes begin.
const LEFT: i64 = 132;
/// Room at the right, for half of the last hour's figures.
const EDGE: i64 = 28;
/// A lane's height.
const LANE: i64 = 32;
/// The height of a lane of rests.
const THIN: i64 = 28;
/// Room for a panel's heading and hours.
const HEAD: i64 = 54;
/// The width of a character in a label.
const CHARACTER: i64 = 8;
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

/// Draws the timeline, a picture a day. An hour is as wide on every day, and a day has only the lanes that have work on it.
pub fn render(schedule: &Schedule) -> Vec<Picture> {
    let lanes = lanes(schedule);
    let panels = panels(schedule);
    let widest = panels.iter().map(|panel| panel.until - panel.from).max().unwrap_or(60).max(60);
    let mut pictures = Vec::with_capacity(panels.len());
    for (at, panel) in panels.iter().enumerate() {
        let lanes: Vec<&Lane> = lanes.iter().filter(|lane| lane.has_work(schedule, panel)).collect();
        let mut shapes = draw(schedule, panel, &lanes, widest);
        let mut height = HEAD + tall(&lanes) + 4;
        if at + 1 == panels.len() {
            shapes.extend(key(height + 28));
            height += 40;
        }
        let title = format!("Timeline of {}, {}", schedule.title, panel.heading);
        pictures.push(Picture { title, width: WIDTH, height, shapes });
    }
    pictures
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

fn key(y: i64) -> Vec<Shape> {
    let area = |x: i64, height: i64| Area { x: LEFT + x, y: y - 12 + (14 - height) / 2, width: 30, height };
    let busy = |kind, x, height| Shape::Busy { kind, area: area(x, height), says: String::new() };
    let says = |x: i64, text: &str| Shape::Words(Words::at(LEFT + x, y, text));
    vec![
        busy(StepKind::Hands, 0, 14),
        says(38, "hands"),
        busy(StepKind::Tend, 110, 14),
        says(148, "stay in reach"),
        busy(StepKind::Wait, 270, 7),
        says(308, "wait"),
        Shape::Shut(area(370, 14)),
        says(408, "closed"),
        Shape::Beside { area: area(470, 14), says: String::new() },
        says(508, "lit, or a rest"),
        says(610, "numbers: see the sheet"),
    ]
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
        let lit =
            schedule.lights.iter().filter(|light| light.turned != Turned::Off && unit.is_lit(light)).map(|light| {
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
        let mut day = (moment + offset).div_euclid(MINUTES_A_DAY);
        // What ends at midnight belongs to the evening.
        if (moment + offset).rem_euclid(MINUTES_A_DAY) == 0 && days.last().is_some_and(|(last, ..)| *last == day - 1) {
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
                None if schedule.span > MINUTES_A_DAY => format!("Day {}", day + 1),
                None => "From zero".to_owned(),
            };
            Panel { heading, clock_at_from: from, from: from - offset, until: until - offset }
        })
        .collect()
}

fn draw(schedule: &Schedule, panel: &Panel, lanes: &[&Lane], widest: Minute) -> Vec<Shape> {
    let across = WIDTH - LEFT - EDGE;
    let wide = (panel.until - panel.from).max(60);
    let x = |minute: Minute| LEFT + (minute.clamp(panel.from, panel.until) - panel.from) * across / widest;
    let right = x(panel.from + wide);
    let tall = tall(lanes);
    let (begin, end) = (HEAD, HEAD + tall);
    let every = [60, 120, 180, 240, 360].into_iter().find(|step| across * step / widest >= 52).unwrap_or(720);
    let mut shapes = vec![Shape::Words(Words { size: 20, bold: true, ..Words::at(LEFT, 22, panel.heading.clone()) })];
    for (from, until) in closed(schedule, panel) {
        shapes.push(Shape::Shut(Area { x: x(from), y: begin, width: x(until) - x(from), height: tall }));
    }
    for minute in (0..=wide / 60).map(|hour| panel.from + hour * 60) {
        shapes.push(Shape::Line([x(minute), begin, x(minute), end]));
        if (minute - panel.from + panel.clock_at_from).rem_euclid(every) == 0 {
            let words = Words::at(x(minute), begin - 7, hour(schedule, panel, minute));
            shapes.push(Shape::Words(Words { anchor: Anchor::Middle, ..words }));
        }
    }
    let mut y = begin;
    for lane in lanes {
        shapes.push(Shape::Line([LEFT, y, right, y]));
        let name = Words::at(LEFT - 8, y + lane.height() / 2 + 6, lane.name.clone());
        shapes.push(Shape::Words(Words { anchor: Anchor::End, bold: true, ..name }));
        bars(schedule, panel, lane, y, &x, &mut shapes);
        y += lane.height();
    }
    shapes.push(Shape::Frame(Area { x: LEFT, y: begin, width: right - LEFT, height: tall }));
    shapes
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

/// How wide words are, about.
fn width(text: &str) -> i64 {
    i64::try_from(text.chars().count()).unwrap_or(0) * CHARACTER + 6
}

fn bars(schedule: &Schedule, panel: &Panel, lane: &Lane, y: i64, x: &impl Fn(Minute) -> i64, shapes: &mut Vec<Shape>) {
    for beside in lane.besides.iter().filter(|beside| beside.from < panel.until && beside.until > panel.from) {
        let (from, until) = (x(beside.from), x(beside.until).max(x(beside.from) + 2));
        let area = Area { x: from, y: y + 5, width: until - from, height: LANE - 10 };
        shapes.push(Shape::Beside { area, says: beside.what.clone() });
        if width(&beside.what) <= until - from {
            let words = Words::at((from + until) / 2, y + LANE / 2 + 4, beside.what.clone());
            shapes.push(Shape::Words(Words { anchor: Anchor::Middle, ..words }));
        }
    }
    let inside: Vec<(usize, &Row)> = lane
        .rows
        .iter()
        .filter_map(|at| Some((*at, schedule.rows.get(*at)?)))
        .filter(|(_, row)| row.start < panel.until && row.end > panel.from)
        .collect();
    for (place, (at, row)) in inside.iter().enumerate() {
        let (from, until) = (x(row.start), x(row.end).max(x(row.start) + 3));
        let next = inside.get(place + 1).map_or(WIDTH, |(_, next)| x(next.start));
        let is_rest = row.kind == StepKind::Wait;
        let (top, high) = if is_rest { (y + lane.height() - 9, 6) } else { (y + 4, LANE - 8) };
        let area = Area { x: from, y: top, width: until - from, height: high };
        let says = format!("{}: {}, {}", at + 1, row.step, words::made(row));
        shapes.push(Shape::Busy { kind: row.kind, area, says });
        let base = y + if is_rest { lane.height() - 12 } else { LANE / 2 + 6 };
        shapes.extend(label(row, *at, (from, until, next), base).map(Shape::Words));
    }
}

/// Its number, with what is done and for what as far as there is room in the bar or beside it.
fn label(row: &Row, at: usize, (from, until, next): (i64, i64, i64), y: i64) -> Option<Words> {
    let number = at + 1;
    let whole = format!("{number} {}, {}", row.step, words::made(row));
    let product = format!("{number} {}, {}", row.step, row.recipe);
    let name = format!("{number} {}", row.recipe);
    let step = format!("{number} {}", row.step);
    for text in [whole, product, name, step, number.to_string()] {
        let width = width(&text);
        if width <= until - from {
            let on = if row.kind == StepKind::Hands { On::Bar } else { On::Lines };
            return Some(Words { anchor: Anchor::Middle, on, ..Words::at((from + until) / 2, y, text) });
        }
        if width <= next - until && until + width <= WIDTH {
            return Some(Words { on: On::Lines, ..Words::at(until + 4, y, text) });
        }
    }
    None
}
