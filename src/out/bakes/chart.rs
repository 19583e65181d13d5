//! The drawn log: each figure over the bakes in a panel of its own, the formula's claim as a line, versions marked, and the
//! judgements below; the oldest bake at the left, in the same hands as the history.
//!
//! It is read in black and white: what was measured is a disc, what the formula says a dashed line.

use super::{shown, version};
use crate::figures::bakes::measure::Measured;
use crate::figures::bakes::{Figure, Row, Told};
use crate::measure::number::Number;
use crate::measure::show;
use crate::out::history::chart::{MARGIN, Mark, PANEL, WIDTH, at, evenly, mark, spaced};
use crate::out::report::clean;
use maud::{Markup, html};

/// So many figures are drawn; more are in the table.
const MOST: usize = 14;
/// So many bakes are drawn, the last ones; a year of a bakery's days.
const MOST_BAKES: usize = 400;
/// Room above the panels, for the versions.
const HEAD: f64 = 26.0;
/// A row of judgements.
const JUDGED: f64 = 22.0;
/// Room below, for the dates.
const FOOT: f64 = 30.0;

/// One measurement, and what the formula of its day says.
struct Point {
    bake: usize,
    value: f64,
}

/// Draws the log; `None` when fewer than two bakes have figures.
pub fn render(told: &Told) -> Option<String> {
    let rows: Vec<&Row> = told.rows.iter().take(MOST_BAKES).rev().collect();
    if rows.iter().filter(|row| !row.measured.is_empty() || !row.judged.is_empty()).count() < 2 {
        return None;
    }
    let figures: Vec<&Figure> = told.figures.iter().filter(|figure| figure.spread.count >= 2).take(MOST).collect();
    let places = evenly(rows.len());
    let tops: Vec<f64> = figures.iter().scan(HEAD, |top, _| Some(std::mem::replace(top, *top + PANEL))).collect();
    let below = HEAD + PANEL * figures.len() as f64;
    let judged = judgements(&rows);
    let bottom = below + JUDGED * judged.len() as f64;
    let dated = spaced(&places, |_| true);
    let begins = |bake: usize| {
        let before = bake.checked_sub(1).and_then(|before| rows.get(before));
        rows.get(bake).is_some_and(|row| before.is_none_or(|before| before.revision != row.revision))
    };
    let named = spaced(&places, begins);
    let drawn = html! {
        svg xmlns="http://www.w3.org/2000/svg" viewBox=(format!("0 0 {WIDTH} {}", bottom + FOOT)) role="img" font-family="Helvetica, Arial, sans-serif" font-size="13" fill="currentColor" stroke="none" {
            title { "What was measured over the bakes of " (clean(&told.recipe)) }
            @for (bake, (row, x)) in rows.iter().zip(&places).enumerate() {
                @if begins(bake) {
                    line x1=(at(edge(&places, bake))) x2=(at(edge(&places, bake))) y1=(at(HEAD - 6.0)) y2=(at(bottom)) stroke="currentColor" stroke-width="0.5" stroke-dasharray="2 4" {}
                    @if named.get(bake) == Some(&true) {
                        text x=(at(*x)) y=(at(HEAD - 10.0)) text-anchor="middle" font-size="11" { (clean(version(row))) }
                    }
                }
            }
            @for (figure, top) in figures.iter().zip(&tops) { (panel(figure, &rows, *top, &places)) }
            @for (line, (name, marks)) in judged.iter().enumerate() {
                @let y = below + JUDGED * (line as f64 + 0.75);
                text x="0" y=(at(y)) font-weight="bold" { (clean(name)) }
                @for (bake, said) in marks {
                    @if let Some(x) = places.get(*bake) { text x=(at(*x)) y=(at(y)) text-anchor="middle" font-size="11" { (said) } }
                }
            }
            @for ((row, x), dated) in rows.iter().zip(&places).zip(&dated) {
                @if *dated { text x=(at(*x)) y=(at(bottom + 20.0)) text-anchor="middle" font-size="11" { (row.moment.date().to_string()) } }
            }
        }
    };
    Some(drawn.into_string())
}

/// Half-way to the bake before.
fn edge(places: &[f64], bake: usize) -> f64 {
    let here = places.get(bake).copied().unwrap_or(0.0);
    let before = bake.checked_sub(1).and_then(|before| places.get(before)).copied();
    before.map_or(here - 24.0, |before| f64::midpoint(here, before))
}

/// The names of what is judged, each with its mark at each bake.
fn judgements(rows: &[&Row]) -> Vec<(String, Vec<(usize, String)>)> {
    let mut all: Vec<(String, Vec<(usize, String)>)> = Vec::new();
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

fn panel(figure: &Figure, rows: &[&Row], top: f64, places: &[f64]) -> Markup {
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
    // The claim holds over the bakes of one version, from half-way before the first to half-way behind the last.
    let stretches: Vec<String> = claims
        .iter()
        .map(|(bake, value)| {
            let end = if bake + 1 < places.len() { edge(places, bake + 1) } else { x(*bake) + 24.0 };
            let (begin, y) = (edge(places, *bake), height(*value));
            format!("M{} {}H{}", at(begin), at(y), at(end))
        })
        .collect();
    let line: Vec<String> =
        points.iter().map(|point| format!("{},{}", at(x(point.bake)), at(height(point.value)))).collect();
    let told = spaced(places, |bake| points.iter().any(|point| point.bake == bake));
    let says = figure.says.map_or("", crate::figures::bakes::Says::word);
    let (title, of) = title(figure);
    html! {
        line x1="0" x2=(at(WIDTH)) y1=(at(top + PANEL - 4.0)) y2=(at(top + PANEL - 4.0)) stroke="currentColor" stroke-width="0.5" {}
        text x="0" y=(at(top + PANEL / 2.0 - 14.0)) font-weight="bold" { (clean(&title)) }
        text x="0" y=(at(top + PANEL / 2.0 + 2.0)) font-size="11" { (clean(&of)) }
        @if let Some((_, claim)) = figure.formula {
            text x="0" y=(at(top + PANEL / 2.0 + 18.0)) font-size="11" { "- - formula " (shown(figure.kind, claim)) }
        }
        text x="0" y=(at(top + PANEL / 2.0 + 34.0)) font-size="11" { (says) }
        path d=(stretches.concat()) fill="none" stroke="currentColor" stroke-width="1.2" stroke-dasharray="5 4" {}
        polyline points=(line.join(" ")) fill="none" stroke="currentColor" stroke-width="0.5" {}
        @for (number, point) in points.iter().enumerate() {
            (mark(Mark::Disc, x(point.bake), height(point.value)))
            @let first = points.get(..number).is_none_or(|before| before.iter().all(|other| other.bake != point.bake));
            @if first && told.get(point.bake) == Some(&true) {
                text x=(at(x(point.bake))) y=(at(written_at(point, &claims, &height))) text-anchor="middle" font-size="11" { (figures_of(figure, point.value)) }
            }
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
    let is_short = figure.kind == crate::figures::bakes::measure::Kind::Time && value < 2.0;
    if is_short { format!("{} s", digits(value * 60.0)) } else { digits(value) }
}

/// What a panel is of, in two short lines.
fn title(figure: &Figure) -> (String, String) {
    use crate::figures::bakes::measure::Kind;
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
