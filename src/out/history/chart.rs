//! The drawn history: hydration, salt and yeast, each in a panel with a scale of its own, the oldest revision at the left.
//!
//! It is read in black and white: a panel is told by its name and its marks, never by a colour.

use crate::figures::history::{History, KeyFigures, Row};
use crate::measure::quantity::Proportion;
use crate::out::panel::{
    APART, LEFT, LINE, MARGIN, PANEL, RIGHT, WIDTH, at, bold, evenly, middle, spaced, start, under, way,
};
use crate::out::picture::{Mark, Picture, Shape, Stroke};

/// Room under the panels for the dates.
const FOOT: f64 = 34.0;

/// One figure over the revisions.
struct Panel {
    name: &'static str,
    mark: Mark,
    /// How many decimals a baker reads of it.
    decimals: usize,
    /// Percent, the oldest revision first; `None` where there is none.
    values: Vec<Option<f64>>,
}

/// Draws the history; `None` when fewer than two revisions have figures.
pub fn render(history: &History) -> Option<Picture> {
    let rows: Vec<&Row> = history.rows.iter().rev().collect();
    if rows.iter().filter(|row| row.figures().is_some()).count() < 2 {
        return None;
    }
    let panel = |name, mark, decimals, of: fn(&KeyFigures) -> Option<Proportion>| {
        let percent = |row: &&Row| Some(of(row.figures()?)?.percent().ok()?.to_f64());
        Panel { name, mark, decimals, values: rows.iter().map(percent).collect() }
    };
    let panels: Vec<Panel> = [
        panel("hydration", Mark::Disc, 1, |figures| figures.hydration.map(|one| one.share)),
        panel("salt", Mark::Square, 2, |figures| figures.salt),
        panel("yeast, as fresh", Mark::Diamond, 2, |figures| figures.yeast_as_fresh),
    ]
    .into_iter()
    .filter(|panel| panel.values.iter().flatten().any(|value| *value > 0.0))
    .collect();
    if panels.is_empty() {
        return None;
    }
    let across = across(&rows);
    let mut shapes = Vec::new();
    let mut bottom = 0.0;
    for panel in &panels {
        draw(panel, bottom, &across, &mut shapes);
        bottom += PANEL;
    }
    for ((row, x), dated) in rows.iter().zip(&across).zip(spaced(&across, |_| true)) {
        if row.figures().is_none() {
            shapes.push(way(Stroke::Dotted, &[(*x, 6.0), (*x, bottom - 6.0)]));
            shapes.push(middle(*x, bottom + 2.0, "×"));
        }
        if dated {
            shapes.push(middle(*x, bottom + 20.0, super::date(row)));
        }
    }
    let baked = baked(&rows, &across);
    if !baked.is_empty() {
        let top = bottom + FOOT;
        shapes.push(bold(0.0, top + 18.0, "bakes"));
        for (x, told) in &baked {
            shapes.push(way(Stroke::Full, &[(*x, top - 6.0), (*x, top)]));
            let lines = told.iter().enumerate();
            shapes.extend(lines.map(|(line, said)| middle(*x, top + 18.0 + LINE * line as f64, said)));
        }
    }
    if rows.iter().any(|row| row.figures().is_none()) {
        shapes.push(start(0.0, bottom + 20.0, "× no figures"));
    }
    let title = format!("Hydration, salt and yeast on flour over the revisions of {}", super::title(history));
    let foot = if baked.is_empty() { FOOT } else { FOOT + BAKED };
    Some(Picture { title, width: at(WIDTH), height: at(bottom + foot), shapes })
}

/// Room under the dates for what was baked.
const BAKED: f64 = 44.0;
/// So many judgements stand under a bake.
const JUDGED: usize = 2;

/// Where each bake stands, between its revision and the next, and how it was judged; of many bakes of one revision only those that
/// can be written beside each other.
fn baked(rows: &[&Row], across: &[f64]) -> Vec<(f64, Vec<String>)> {
    let mut all: Vec<(f64, Vec<String>)> = Vec::new();
    for (at, (row, x)) in rows.iter().zip(across).enumerate() {
        let next = across.get(at + 1).copied().unwrap_or(WIDTH + 20.0);
        let step = (next - x) / (row.bakes.len() + 1) as f64;
        for (number, bake) in row.bakes.iter().enumerate() {
            let place = x + step * (number + 1) as f64;
            let told = bake.judged.iter().take(JUDGED).map(|(name, mark, of)| {
                let name: String = name.chars().take(6).collect();
                format!("{name} {}/{}", crate::measure::show::number(*mark), crate::measure::show::number(*of))
            });
            let is_free =
                all.iter().rev().find(|(_, told)| !told.is_empty()).is_none_or(|(last, _)| place - last >= BESIDE);
            all.push((place, if is_free { told.collect() } else { Vec::new() }));
        }
    }
    all
}

/// How far apart judgements stand at least.
const BESIDE: f64 = 50.0;

/// Where the revisions stand: true to time, by the day. What is not committed stands at the end, and so does what has no date.
fn across(rows: &[&Row]) -> Vec<f64> {
    let days: Vec<Option<i64>> = rows.iter().map(|row| day(row)).collect();
    let known = || days.iter().flatten().copied();
    let (Some(first), Some(last)) = (known().min(), known().max()) else {
        return evenly(rows.len());
    };
    let undated = if days.iter().any(Option::is_none) { APART } else { 0.0 };
    let room = WIDTH - LEFT - RIGHT - undated;
    let whole = (last - first).max(1) as f64;
    days.iter().map(|day| day.map_or(WIDTH - RIGHT, |day| LEFT + room * (day - first) as f64 / whole)).collect()
}

/// The day of a revision, counted from some day or other.
fn day(row: &Row) -> Option<i64> {
    let date: jiff::civil::Date = row.date.parse().ok()?;
    row.commit.as_ref()?;
    jiff::civil::date(1970, 1, 1).until(date).ok().map(|span| i64::from(span.get_days()))
}

fn draw(panel: &Panel, top: f64, across: &[f64], shapes: &mut Vec<Shape>) {
    let known = || panel.values.iter().flatten().copied();
    let (low, high) = (known().fold(f64::INFINITY, f64::min), known().fold(f64::NEG_INFINITY, f64::max));
    let height = |value: f64| {
        let share = if high > low { (value - low) / (high - low) } else { 0.5 };
        top + PANEL - MARGIN - share * (PANEL - 2.0 * MARGIN)
    };
    let value = |place: usize| panel.values.get(place).copied().flatten();
    let shown = |place: usize| value(place).map(|value| percent(value, panel.decimals));
    let before = |place: usize| place.checked_sub(1).and_then(value);
    let is_new = |place: usize| shown(place).is_some() && (place == 0 || shown(place) != shown(place - 1));
    // A figure that fell stands under its mark, out of the way of the line that comes down to it.
    let written_at = |place: usize, value: f64| match before(place) {
        Some(before) if before > value => height(value) + 20.0,
        _ => height(value) - 9.0,
    };
    shapes.push(under(top));
    shapes.push(bold(0.0, top + PANEL / 2.0, panel.name));
    shapes.push(start(0.0, top + PANEL / 2.0 + 20.0, range(low, high, panel.decimals)));
    shapes.extend(runs(&panel.values, across).iter().map(|run| way(Stroke::Full, &in_steps(run, height))));
    for (place, ((value, x), told)) in panel.values.iter().zip(across).zip(spaced(across, is_new)).enumerate() {
        let Some(value) = *value else { continue };
        shapes.push(Shape::Mark([at(*x), at(height(value))], panel.mark));
        if told {
            shapes.push(middle(*x, written_at(place, value), percent(value, panel.decimals)));
        }
    }
}

/// The stretches of revisions with a figure: over a gap no line is drawn.
fn runs(values: &[Option<f64>], across: &[f64]) -> Vec<Vec<(f64, f64)>> {
    let mut runs = vec![Vec::new()];
    for (value, x) in values.iter().zip(across) {
        match (value, runs.last_mut()) {
            (Some(value), Some(run)) => run.push((*x, *value)),
            _ => runs.push(Vec::new()),
        }
    }
    runs.retain(|run| run.len() > 1);
    runs
}

/// A figure holds until the revision that changes it, so the line goes in steps.
fn in_steps(run: &[(f64, f64)], height: impl Fn(f64) -> f64) -> Vec<(f64, f64)> {
    let mut corners = Vec::new();
    let mut before: Option<f64> = None;
    for (x, value) in run {
        let y = height(*value);
        corners.extend(before.map(|before| (*x, before)));
        corners.push((*x, y));
        before = Some(y);
    }
    corners
}

fn range(low: f64, high: f64, decimals: usize) -> String {
    let (low, high) = (percent(low, decimals), percent(high, decimals));
    if low == high { "unchanged".to_owned() } else { format!("{low} to {high}") }
}

fn percent(value: f64, decimals: usize) -> String {
    let digits = format!("{value:.decimals$}");
    format!("{} %", digits.trim_end_matches('0').trim_end_matches('.'))
}
