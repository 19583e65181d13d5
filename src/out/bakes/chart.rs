//! The drawn log: each figure over the bakes in a panel of its own, the formula's claim as a line, versions marked, and the
//! judgements below; the oldest bake at the left, in the same hands as the history.
//!
//! It is read in black and white: what was measured is a disc, what the formula says a dashed line.

use super::{shown, version};
use crate::figures::bakes::measurement::Measured;
use crate::figures::bakes::{Figure, Row, Told};
use crate::measure::number::Number;
use crate::measure::show;
use crate::out::panel::{LINE, MARGIN, PANEL, WIDTH, apart, at, bold, evenly, middle, spaced, start, under, way};
use crate::out::picture::{Mark, Picture, Shape, Stroke};

/// So many figures are drawn; more are in the table.
const MOST: usize = 14;
/// So many bakes are drawn, the last ones; a year of a bakery's days.
const MOST_BAKES: usize = 400;
/// Panels of one drawing: it has to fit on a page that lies on its side.
const PANELS: usize = 5;
/// Room above the panels, for the versions.
const HEAD: f64 = 30.0;
/// A row of judgements.
const JUDGED: f64 = 22.0;
/// Room below, for the dates.
const FOOT: f64 = 30.0;
/// Marks of judgements stand at least so far apart.
const BESIDE: f64 = 36.0;
/// So many letters stand beside a panel.
const LETTERS: usize = 20;

/// One measurement, and what the formula of its day says.
struct Point {
    bake: usize,
    value: f64,
}

/// What the bakes are drawn on: the same for every drawing.
struct Ground<'a> {
    rows: &'a [&'a Row],
    places: &'a [f64],
}

/// Draws the log, a few figures on each drawing, the judgements below the last; none when fewer than two bakes have figures.
pub fn render(told: &Told) -> Vec<Picture> {
    let rows: Vec<&Row> = told.rows.iter().take(MOST_BAKES).rev().collect();
    if rows.iter().filter(|row| !row.measured.is_empty() || !row.judged.is_empty()).count() < 2 {
        return Vec::new();
    }
    let figures: Vec<&Figure> = told.figures.iter().filter(|figure| figure.spread.count >= 2).take(MOST).collect();
    let ground = Ground { rows: &rows, places: &evenly(rows.len()) };
    let judged = judgements(&rows);
    let mut drawings: Vec<&[&Figure]> = figures.chunks(PANELS).collect();
    if drawings.is_empty() {
        drawings.push(&[]);
    }
    let last = drawings.len() - 1;
    let drawn = |(number, figures): (usize, &&[&Figure])| {
        let judged = if number == last { judged.as_slice() } else { &[] };
        let title = format!("What was measured over the bakes of {}", told.recipe);
        drawing(title, &ground, figures, judged)
    };
    drawings.iter().enumerate().map(drawn).collect()
}

/// The marks of each thing that is judged, by the number of the bake.
type Judged = (String, Vec<(usize, String)>);

fn drawing(title: String, ground: &Ground<'_>, figures: &[&Figure], judged: &[Judged]) -> Picture {
    let Ground { rows, places } = ground;
    let below = HEAD + PANEL * figures.len() as f64;
    let bottom = below + JUDGED * judged.len() as f64;
    let mut shapes = Vec::new();
    let begins = |bake: usize| {
        let before = bake.checked_sub(1).and_then(|before| rows.get(before));
        rows.get(bake).is_some_and(|row| before.is_none_or(|before| before.revision != row.revision))
    };
    for (bake, ((row, x), named)) in rows.iter().zip(*places).zip(spaced(places, begins)).enumerate() {
        if begins(bake) {
            let x = edge(places, bake);
            shapes.push(way(Stroke::Dotted, &[(x, HEAD - 8.0), (x, bottom)]));
        }
        if named {
            shapes.push(middle(*x, HEAD - 12.0, version(row)));
        }
    }
    for (line, figure) in figures.iter().enumerate() {
        panel(figure, ground, HEAD + PANEL * line as f64, &mut shapes);
    }
    for (line, (name, marks)) in judged.iter().enumerate() {
        let y = below + JUDGED * (line as f64 + 0.75);
        shapes.push(bold(0.0, y, short(name)));
        let told = apart(places, BESIDE, |bake| marks.iter().any(|(marked, _)| *marked == bake));
        for (bake, said) in marks {
            if let (Some(x), Some(true)) = (places.get(*bake), told.get(*bake)) {
                shapes.push(middle(*x, y, said));
            }
        }
    }
    for ((row, x), dated) in rows.iter().zip(*places).zip(spaced(places, |_| true)) {
        if dated {
            shapes.push(middle(*x, bottom + 20.0, row.moment.date().to_string()));
        }
    }
    Picture { title, width: at(WIDTH), height: at(bottom + FOOT), shapes }
}

/// A name as far as there is room for it.
fn short(name: &str) -> String {
    if name.chars().count() <= LETTERS {
        return name.to_owned();
    }
    let name: String = name.chars().take(LETTERS - 1).collect();
    format!("{}…", name.trim_end())
}

/// Half-way to the bake before.
fn edge(places: &[f64], bake: usize) -> f64 {
    let here = places.get(bake).copied().unwrap_or(0.0);
    let before = bake.checked_sub(1).and_then(|before| places.get(before)).copied();
    before.map_or(here - 24.0, |before| f64::midpoint(here, before))
}

/// The names of what is judged, each with its mark at each bake.
fn judgements(rows: &[&Row]) -> Vec<Judged> {
    let mut all: Vec<Judged> = Vec::new();
    for (bake, row) in rows.iter().enumerate() {
        for judged in &row.judged {
            let said = (bake, format!("{}/{}", show::number(judged.mark), show::number(judged.of)));
            match all.iter_mut().find(|(name, _)| name.eq_ignore_ascii_case(&judged.name)) {
                Some((_, marks)) => marks.push(said),
                None => all.push((judged.name.clone(), vec![said])),
            }
        }
    }
    all.truncate(MOST);
    all
}

/// A claim in the unit in which bakes of any size go together.
fn claim_of(measured: &Measured) -> Option<f64> {
    let expected = measured.expected?;
    let share = measured.comparable.over(measured.value).unwrap_or(Number::ONE);
    expected.times(share).ok().map(Number::to_f64)
}

fn panel(figure: &Figure, ground: &Ground<'_>, top: f64, shapes: &mut Vec<Shape>) {
    let Ground { rows, places } = *ground;
    let (mut points, mut claims): (Vec<Point>, Vec<(usize, f64)>) = (Vec::new(), Vec::new());
    for (bake, row) in rows.iter().enumerate() {
        let own = |one: &&Measured| one.kind == figure.kind && one.part == figure.part && one.step == figure.step;
        for one in row.measured.iter().filter(own) {
            points.push(Point { bake, value: one.comparable.to_f64() });
            if let Some(claim) = claim_of(one) {
                claims.retain(|(known, _)| *known != bake);
                claims.push((bake, claim));
            }
        }
    }
    let all = || points.iter().map(|point| point.value).chain(claims.iter().map(|(_, value)| *value));
    let (low, high) = (all().fold(f64::INFINITY, f64::min), all().fold(f64::NEG_INFINITY, f64::max));
    let height = |value: f64| {
        let share = if high > low { (value - low) / (high - low) } else { 0.5 };
        top + PANEL - MARGIN - share * (PANEL - 2.0 * MARGIN)
    };
    let x = |bake: usize| places.get(bake).copied().unwrap_or(0.0);
    let (title, of) = title(figure);
    shapes.push(under(top));
    let mut beside = vec![of];
    beside.extend(figure.formula.map(|(_, claim)| format!("formula {}", shown(figure.kind, claim))));
    beside.extend(figure.says.map(|says| says.word().to_owned()));
    shapes.push(bold(0.0, top + 26.0, short(&title)));
    let lines = beside.iter().enumerate();
    shapes.extend(lines.map(|(line, said)| start(0.0, top + 26.0 + LINE * (line + 1) as f64, short(said))));
    // The claim holds over the bakes of one version, from half-way before the first to half-way behind the last.
    for (bake, value) in &claims {
        let end = if bake + 1 < places.len() { edge(places, bake + 1) } else { x(*bake) + 24.0 };
        let y = height(*value);
        shapes.push(way(Stroke::Dashed, &[(edge(places, *bake), y), (end, y)]));
    }
    // Of several loads of a bake the line goes through the mean.
    let line: Vec<(f64, f64)> = points
        .chunk_by(|one, next| one.bake == next.bake)
        .filter_map(|loads| {
            let mean = loads.iter().map(|point| point.value).sum::<f64>() / loads.len() as f64;
            Some((x(loads.first()?.bake), height(mean)))
        })
        .collect();
    shapes.push(way(Stroke::Thin, &line));
    let told = spaced(places, |bake| points.iter().any(|point| point.bake == bake));
    for (number, point) in points.iter().enumerate() {
        shapes.push(Shape::Mark([at(x(point.bake)), at(height(point.value))], Mark::Disc));
        let first = points.get(..number).is_none_or(|before| before.iter().all(|other| other.bake != point.bake));
        if first && told.get(point.bake) == Some(&true) {
            shapes.push(middle(x(point.bake), written_at(point, &claims, &height), figures_of(figure, point.value)));
        }
    }
}

/// A figure stands over its mark, or under it where the claim's line runs above.
fn written_at(point: &Point, claims: &[(usize, f64)], height: &impl Fn(f64) -> f64) -> f64 {
    let claim = claims.iter().find(|(bake, _)| *bake == point.bake).map(|(_, value)| *value);
    let y = height(point.value);
    if claim.is_some_and(|claim| claim > point.value) { y + 17.0 } else { y - 9.0 }
}

fn figures_of(figure: &Figure, value: f64) -> String {
    let digits = |value: f64| format!("{value:.1}").trim_end_matches('0').trim_end_matches('.').to_owned();
    let is_short = figure.kind == crate::figures::bakes::measurement::Kind::Time && value < 2.0;
    if is_short { format!("{} s", digits(value * 60.0)) } else { digits(value) }
}

/// What a panel is of, in two short lines.
fn title(figure: &Figure) -> (String, String) {
    use crate::figures::bakes::measurement::Kind;
    let what = match figure.kind {
        Kind::Time => "time",
        Kind::LeftAt => "dough, °C",
        Kind::Friction => "friction, °C",
        Kind::All => "came to, g",
        Kind::Pieces => "pieces",
        Kind::Each => "a piece, g",
        Kind::Loss => "loss, %",
    };
    let unit = if figure.kind == Kind::Time { ", min" } else { "" };
    let options: Vec<&str> = figure.choices.iter().map(|(_, option)| option.as_str()).collect();
    let options = if options.is_empty() { String::new() } else { format!(" [{}]", options.join(", ")) };
    (format!("{}: {what}{unit}", figure.step), format!("{}{options}", figure.part))
}
