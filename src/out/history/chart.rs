//! The drawn history: hydration, salt and yeast, each in a panel with a scale of its own, the oldest revision at the left.
//!
//! It is read in black and white: a panel is told by its name and its marks, never by a colour.

use crate::figures::history::{History, KeyFigures, Row};
use crate::measure::quantity::Proportion;
use crate::out::report::clean;
use maud::{Markup, html};

/// The drawing's width in its own units.
pub(in crate::out) const WIDTH: f64 = 1000.0;
/// Where the first revision stands.
pub(in crate::out) const LEFT: f64 = 175.0;
/// Room at the right, for half of the last figure.
const RIGHT: f64 = 50.0;
/// A panel's height.
pub(in crate::out) const PANEL: f64 = 110.0;
/// Room in a panel over its highest and under its lowest mark.
pub(in crate::out) const MARGIN: f64 = 32.0;
/// Room under the panels for the dates.
const FOOT: f64 = 34.0;
/// Figures and dates stand at least so far apart.
const APART: f64 = 92.0;

/// The sign at each revision.
#[derive(Clone, Copy)]
pub(in crate::out) enum Mark {
    Disc,
    Square,
    Diamond,
}

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
pub fn render(history: &History) -> Option<String> {
    let rows: Vec<&Row> = history.rows.iter().rev().collect();
    if rows.iter().filter(|row| row.figures().is_some()).count() < 2 {
        return None;
    }
    let panel = |name, mark, decimals, of: fn(&KeyFigures) -> Option<Proportion>| {
        let percent = |row: &&Row| Some(of(row.figures()?)?.percent().ok()?.to_f64());
        Panel { name, mark, decimals, values: rows.iter().map(percent).collect() }
    };
    let panels: Vec<Panel> = [
        panel("hydration", Mark::Disc, 1, |figures| figures.hydration),
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
    let tops: Vec<f64> = panels.iter().scan(0.0, |top, _| Some(std::mem::replace(top, *top + PANEL))).collect();
    let bottom = tops.last().copied().unwrap_or(0.0) + PANEL;
    let view = |foot: f64| format!("0 0 {WIDTH} {}", bottom + foot);
    let dated = spaced(&across, |_| true);
    let baked = baked(&rows, &across);
    let foot = if baked.is_empty() { FOOT } else { FOOT + BAKED };
    let drawn = html! {
        svg xmlns="http://www.w3.org/2000/svg" viewBox=(view(foot)) role="img" font-size="16" {
            title { "Hydration, salt and yeast on flour over the revisions of " (clean(super::title(history))) }
            @for (panel, top) in panels.iter().zip(&tops) { (draw(panel, *top, &across)) }
            @for ((row, x), dated) in rows.iter().zip(&across).zip(&dated) {
                @if row.figures().is_none() {
                    line x1=(at(*x)) x2=(at(*x)) y1="6" y2=(at(bottom - 6.0)) class="dr-stroke" stroke-dasharray="2 5" {}
                    text x=(at(*x)) y=(at(bottom + 2.0)) text-anchor="middle" { "×" }
                }
                @if *dated { text x=(at(*x)) y=(at(bottom + 20.0)) text-anchor="middle" { (clean(super::date(row))) } }
            }
            @if !baked.is_empty() {
                text x="0" y=(at(bottom + FOOT + 14.0)) font-weight="bold" { "bakes" }
                @for (x, told) in &baked {
                    line x1=(at(*x)) x2=(at(*x)) y1=(at(bottom + FOOT - 6.0)) y2=(at(bottom + FOOT)) stroke="currentColor" {}
                    @for (line, said) in told.iter().enumerate() {
                        text x=(at(*x)) y=(at(bottom + FOOT + 14.0 + 13.0 * line as f64)) text-anchor="middle" font-size="10" { (clean(said)) }
                    }
                }
            }
            @if rows.iter().any(|row| row.figures().is_none()) {
                text x="0" y=(at(bottom + 20.0)) { "× no figures" }
            }
        }
    };
    Some(drawn.into_string())
}

/// Room under the dates for what was baked.
const BAKED: f64 = 46.0;
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

/// Places evenly apart.
pub(in crate::out) fn evenly(count: usize) -> Vec<f64> {
    let gaps = count.saturating_sub(1).max(1) as f64;
    (0..count).map(|place| LEFT + (WIDTH - LEFT - RIGHT) * place as f64 / gaps).collect()
}

/// Which of the places that are wanted can be written at without writing over another.
pub(in crate::out) fn spaced(across: &[f64], wanted: impl Fn(usize) -> bool) -> Vec<bool> {
    let mut last = f64::NEG_INFINITY;
    let mut told = |(place, x): (usize, &f64)| {
        let fits = wanted(place) && x - last >= APART;
        if fits {
            last = *x;
        }
        fits
    };
    across.iter().enumerate().map(&mut told).collect()
}

fn draw(panel: &Panel, top: f64, across: &[f64]) -> Markup {
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
        Some(before) if before > value => height(value) + 18.0,
        _ => height(value) - 9.0,
    };
    let told = spaced(across, is_new);
    let base = top + PANEL - 4.0;
    html! {
        line x1="0" x2=(at(WIDTH)) y1=(at(base)) y2=(at(base)) class="dr-line" {}
        text x="0" y=(at(top + PANEL / 2.0)) font-weight="bold" { (panel.name) }
        text x="0" y=(at(top + PANEL / 2.0 + 20.0)) { (range(low, high, panel.decimals)) }
        @for run in runs(&panel.values, across) {
            polyline points=(points(&run, height)) class="dr-stroke" {}
        }
        @for (place, ((value, x), told)) in panel.values.iter().zip(across).zip(told).enumerate() {
            @if let Some(value) = value {
                (mark(panel.mark, *x, height(*value)))
                @if told { text x=(at(*x)) y=(at(written_at(place, *value))) text-anchor="middle" { (percent(*value, panel.decimals)) } }
            }
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
fn points(run: &[(f64, f64)], height: impl Fn(f64) -> f64) -> String {
    let mut points = Vec::new();
    let mut before: Option<f64> = None;
    for (x, value) in run {
        let y = height(*value);
        if let Some(before) = before {
            points.push(format!("{},{}", at(*x), at(before)));
        }
        points.push(format!("{},{}", at(*x), at(y)));
        before = Some(y);
    }
    points.join(" ")
}

pub(in crate::out) fn mark(mark: Mark, x: f64, y: f64) -> Markup {
    html! {
        @match mark {
            Mark::Disc => { circle cx=(at(x)) cy=(at(y)) r="4.5" {} },
            Mark::Square => { rect x=(at(x - 4.0)) y=(at(y - 4.0)) width="8" height="8" {} },
            Mark::Diamond => {
                polygon points=(format!("{},{} {},{} {},{} {},{}", at(x), at(y - 5.5), at(x + 5.5), at(y), at(x), at(y + 5.5), at(x - 5.5), at(y))) {}
            },
        }
    }
}

fn range(low: f64, high: f64, decimals: usize) -> String {
    let (low, high) = (percent(low, decimals), percent(high, decimals));
    if low == high { "unchanged".to_owned() } else { format!("{low} to {high}") }
}

fn percent(value: f64, decimals: usize) -> String {
    let digits = format!("{value:.decimals$}");
    format!("{} %", digits.trim_end_matches('0').trim_end_matches('.'))
}

/// A place in the drawing, to a tenth.
pub(in crate::out) fn at(value: f64) -> String {
    format!("{value:.1}")
}
