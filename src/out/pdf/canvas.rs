//! A drawing while it is drawn, in units of its own.

use super::Press;
use super::frame::{BLACK, Drawn, Frame, Glyphs, Ink, Item, Pen, Stretch, WHITE};
use super::tags::Node;
use crate::out::picture::strokes;

/// The drawing. Everything in it belongs to one figure, whose words say what it shows.
pub(super) struct Canvas<'a, 'p> {
    press: &'a Press<'p>,
    pub(super) frame: Frame,
    /// Points in a unit.
    scale: f32,
    node: Node,
}

impl<'a, 'p> Canvas<'a, 'p> {
    /// A drawing of so many units, as wide as the page.
    pub(super) fn new(press: &'a Press<'p>, (width, height): (f64, f64), node: Node) -> Canvas<'a, 'p> {
        let scale = press.geometry.width / width as f32;
        Canvas { press, frame: Frame::of_height(height as f32 * scale), scale, node }
    }

    fn draw(&mut self, drawn: Drawn) {
        self.frame.items.push(Item { drawn, node: Some(self.node) });
    }

    pub(super) fn fill(&mut self, x: f64, y: f64, width: f64, height: f64, ink: Ink) {
        let s = self.scale;
        self.draw(Drawn::Rect(x as f32 * s, y as f32 * s, width as f32 * s, height as f32 * s, ink));
    }

    pub(super) fn path(&mut self, path: Vec<Stretch>, fill: Option<Ink>, pen: Option<Pen>) {
        let s = self.scale;
        let scaled = path.into_iter().map(|stretch| match stretch {
            Stretch::Move(x, y) => Stretch::Move(x * s, y * s),
            Stretch::Line(x, y) => Stretch::Line(x * s, y * s),
            Stretch::Curve(a, b, c, d, x, y) => Stretch::Curve(a * s, b * s, c * s, d * s, x * s, y * s),
            Stretch::Close => Stretch::Close,
        });
        let pen = pen.map(|pen| Pen { width: pen.width * s, dash: pen.dash.map(|(on, off)| (on * s, off * s)), ..pen });
        let scaled = scaled.collect();
        self.draw(Drawn::Path(scaled, fill, pen));
    }

    /// The outline of a rectangle with round corners.
    pub(super) fn outline(&mut self, [x, y, width, height]: [f64; 4], round: f64, pen: Pen) {
        self.path(rounded(x, y, width, height, round), None, Some(pen));
    }

    /// A full circle.
    pub(super) fn disc(&mut self, x: f64, y: f64, radius: f64) {
        self.path(rounded(x - radius, y - radius, 2.0 * radius, 2.0 * radius, radius), Some(BLACK), None);
    }

    /// What somebody is in reach of: hatched.
    pub(super) fn tended(&mut self, [x, y, width, height]: [f64; 4], pen: f32) {
        self.fill(x, y, width, height, WHITE);
        let hatch = strokes(x, y, width, height);
        let hatch = hatch
            .iter()
            .flat_map(|[a, b, c, d]| [Stretch::Move(*a as f32, *b as f32), Stretch::Line(*c as f32, *d as f32)]);
        let hatch: Vec<Stretch> = hatch.collect();
        self.path(hatch, None, Some(Pen { ink: BLACK, width: pen * 0.8, dash: None }));
        self.outline([x, y, width, height], 0.0, Pen { ink: BLACK, width: pen, dash: None });
    }

    /// Words of a size on a baseline; `share` of their width stands left of `x`.
    pub(super) fn words(&mut self, words: &Lettered<'_>, x: f64, y: f64, share: f32) {
        let faces = self.press.faces;
        let shaped = faces.shape(&faces.fit(words.text), words.bold);
        let run = Glyphs { shaped, bold: words.bold, size: words.size as f32 * self.scale, ink: words.ink };
        let x = x as f32 * self.scale - run.width() * share;
        self.draw(Drawn::Text(x.max(0.0), y as f32 * self.scale, run));
    }

    /// Paper's own white behind words that stand over lines.
    pub(super) fn halo(&mut self, words: &Lettered<'_>, x: f64, y: f64, share: f64) {
        let faces = self.press.faces;
        let wide = f64::from(faces.shape(&faces.fit(words.text), words.bold).width) * words.size;
        self.fill(x - wide * share - 2.0, y - words.size * 0.84, wide + 4.0, words.size * 1.08, WHITE);
    }
}

/// Words of a drawing.
#[derive(Debug, Clone, Copy)]
pub(super) struct Lettered<'a> {
    pub(super) text: &'a str,
    pub(super) size: f64,
    pub(super) bold: bool,
    pub(super) ink: Ink,
}

/// Four thirds of (√2 − 1): how far out, in radii, the handles of a curve of the third degree lie that is a quarter of a circle.
pub(super) const HANDLE: f32 = 0.5523;
/// How far they lie from the corner around which the quarter goes.
pub(super) const FROM_CORNER: f32 = 0.4477;

/// A rectangle with round corners.
fn rounded(x: f64, y: f64, width: f64, height: f64, round: f64) -> Vec<Stretch> {
    let r = round.min(width / 2.0).min(height / 2.0) as f32;
    let (left, top, right, bottom) = (x as f32, y as f32, (x + width) as f32, (y + height) as f32);
    let k = r * FROM_CORNER;
    vec![
        Stretch::Move(left + r, top),
        Stretch::Line(right - r, top),
        Stretch::Curve(right - k, top, right, top + k, right, top + r),
        Stretch::Line(right, bottom - r),
        Stretch::Curve(right, bottom - k, right - k, bottom, right - r, bottom),
        Stretch::Line(left + r, bottom),
        Stretch::Curve(left + k, bottom, left, bottom - k, left, bottom - r),
        Stretch::Line(left, top + r),
        Stretch::Curve(left, top + k, left + k, top, left + r, top),
        Stretch::Close,
    ]
}
