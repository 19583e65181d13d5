//! Panels of a drawing in which figures stand over time, one below the other on the same places: how large they are, and what is
//! written where.

use super::picture::{Anchor, Shape, Stroke, Way, Words};

/// A drawing's width in its own units.
pub(super) const WIDTH: f64 = 1000.0;
/// Where the first place is.
pub(super) const LEFT: f64 = 175.0;
/// Room at the right, for half of the last figure.
pub(super) const RIGHT: f64 = 50.0;
/// A panel's height.
pub(super) const PANEL: f64 = 110.0;
/// Room in a panel over its highest and under its lowest mark.
pub(super) const MARGIN: f64 = 32.0;
/// From one line of words to the next.
pub(super) const LINE: f64 = 18.0;
/// Figures and dates stand at least so far apart.
pub(super) const APART: f64 = 92.0;

/// Places evenly apart.
pub(super) fn evenly(count: usize) -> Vec<f64> {
    let gaps = count.saturating_sub(1).max(1) as f64;
    (0..count).map(|place| LEFT + (WIDTH - LEFT - RIGHT) * place as f64 / gaps).collect()
}

/// Which of the places that are wanted can be written at without writing over another.
pub(super) fn spaced(across: &[f64], wanted: impl Fn(usize) -> bool) -> Vec<bool> {
    apart(across, APART, wanted)
}

/// The same, so far apart.
pub(super) fn apart(across: &[f64], room: f64, wanted: impl Fn(usize) -> bool) -> Vec<bool> {
    let mut last = f64::NEG_INFINITY;
    let mut told = |(place, x): (usize, &f64)| {
        let fits = wanted(place) && x - last >= room;
        if fits {
            last = *x;
        }
        fits
    };
    across.iter().enumerate().map(&mut told).collect()
}

/// The nearest whole unit.
pub(super) fn at(value: f64) -> i64 {
    value.round() as i64
}

/// The line under a panel that begins at `top`.
pub(super) fn under(top: f64) -> Shape {
    let y = at(top + PANEL - 4.0);
    Shape::Line([0, y, at(WIDTH), y])
}

/// A line with corners.
pub(super) fn way(stroke: Stroke, corners: &[(f64, f64)]) -> Shape {
    Shape::Way(Way { corners: corners.iter().map(|(x, y)| [at(*x), at(*y)]).collect(), stroke })
}

/// Words that begin at a place.
pub(super) fn start(x: f64, y: f64, text: impl Into<String>) -> Shape {
    Shape::Words(Words::at(at(x), at(y), text))
}

/// The same, standing out.
pub(super) fn bold(x: f64, y: f64, text: impl Into<String>) -> Shape {
    Shape::Words(Words { bold: true, ..Words::at(at(x), at(y), text) })
}

/// Words in the middle of which a place is.
pub(super) fn middle(x: f64, y: f64, text: impl Into<String>) -> Shape {
    Shape::Words(Words { anchor: Anchor::Middle, ..Words::at(at(x), at(y), text) })
}
