//! A drawing as shapes in units of its own: SVG on a page, paths in a PDF.
//!
//! It is read in black and white: work is solid, tending hatched, rests are thin bars, what is being heated has a broken edge,
//! closed hours are shaded.

use super::report::clean;
use crate::model::step::StepKind;
use maud::{Markup, html};

/// A drawing.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Picture {
    /// What it shows, for those who hear it.
    pub title: String,
    /// Its width in its own units.
    pub width: i64,
    /// Its height.
    pub height: i64,
    /// What it is made of, from the back to the front.
    pub shapes: Vec<Shape>,
}

/// A rectangle.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Area {
    /// Its left edge.
    pub x: i64,
    /// Its upper edge.
    pub y: i64,
    /// Its width.
    pub width: i64,
    /// Its height.
    pub height: i64,
}

/// What a drawing is made of.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Shape {
    /// Somebody's time.
    Busy {
        /// How busy.
        kind: StepKind,
        /// When.
        area: Area,
        /// What it is for, where the bar itself says less.
        says: String,
    },
    /// A time without a row of its own, with a broken edge.
    Beside {
        /// When.
        area: Area,
        /// What it is, where the bar itself says less.
        says: String,
    },
    /// Closed hours.
    Shut(Area),
    /// The frame of a panel.
    Frame(Area),
    /// A hairline, from where to where.
    Line([i64; 4]),
    /// A figure's way from place to place.
    Way(Way),
    /// One of its places.
    Mark([i64; 2], Mark),
    /// Words.
    Words(Words),
}

/// A line with corners.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Way {
    /// Its corners, in their order.
    pub corners: Vec<[i64; 2]>,
    /// How it is drawn.
    pub stroke: Stroke,
}

/// How a line is drawn, so that lines are told apart without a colour.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Stroke {
    /// What is so.
    Full,
    /// What joins places between which nothing is known.
    Thin,
    /// What is said.
    Dashed,
    /// Where something else begins.
    Dotted,
}

/// The sign at a place.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Mark {
    /// Round.
    Disc,
    /// Square.
    Square,
    /// On its corner.
    Diamond,
}

/// Words of a drawing.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Words {
    /// Where they stand.
    pub x: i64,
    /// Their baseline.
    pub y: i64,
    /// What they say.
    pub text: String,
    /// Their size.
    pub size: i64,
    /// Which part of them stands at `x`.
    pub anchor: Anchor,
    /// Whether they stand out.
    pub bold: bool,
    /// What they stand on.
    pub on: On,
}

/// Which part of some words stands at their place.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Anchor {
    /// Their beginning.
    Start,
    /// Their middle.
    Middle,
    /// Their end.
    End,
}

/// What words of a drawing stand on.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum On {
    /// On paper.
    Paper,
    /// On a full bar, so that they are as light as paper.
    Bar,
    /// Over lines, which they push back.
    Lines,
}

/// The size of type where nothing else is said: on A4 some 8 points.
pub const TYPE: i64 = 16;

impl Words {
    /// Plain words that begin at a place.
    pub fn at(x: i64, y: i64, text: impl Into<String>) -> Words {
        Words { x, y, text: text.into(), size: TYPE, anchor: Anchor::Start, bold: false, on: On::Paper }
    }
}

/// Draws a picture.
pub fn svg(picture: &Picture) -> Markup {
    html! {
        figure tabindex="0" aria-label=(clean(&picture.title)) {
            svg xmlns="http://www.w3.org/2000/svg" viewBox={ "0 0 " (picture.width) " " (picture.height) } role="img" font-size=(TYPE) {
                title { (clean(&picture.title)) }
                @for shape in &picture.shapes { (drawn(shape)) }
            }
        }
    }
}

fn drawn(shape: &Shape) -> Markup {
    let rect = |class: &str, area: &Area| {
        html! { rect class=(class) x=(area.x) y=(area.y) width=(area.width) height=(area.height) {} }
    };
    html! {
        @match shape {
            Shape::Busy { kind, area, says } => g {
                @if !says.is_empty() { title { (clean(says)) } }
                @match kind {
                    StepKind::Hands => (rect("dr-hands", area)),
                    StepKind::Wait => (rect("dr-wait", area)),
                    StepKind::Tend => {
                        (rect("dr-tend", area))
                        path.dr-hatch d=(hatch(area).iter().map(|[a, b, c, d]| format!("M{a:.0} {b:.0}L{c:.0} {d:.0}")).collect::<String>()) {}
                    }
                }
            },
            Shape::Beside { area, says } => g {
                @if !says.is_empty() { title { (clean(says)) } }
                (rect("dr-beside", area))
            },
            Shape::Shut(area) => (rect("dr-shut", area)),
            Shape::Frame(area) => (rect("dr-frame", area)),
            Shape::Line([x1, y1, x2, y2]) => line.dr-line x1=(x1) y1=(y1) x2=(x2) y2=(y2) {},
            Shape::Way(way) => (gone(way)),
            Shape::Mark([x, y], mark) => @match mark {
                Mark::Disc => circle cx=(x) cy=(y) r=(MARK) {},
                Mark::Square => rect x=(x - MARK) y=(y - MARK) width=(2 * MARK) height=(2 * MARK) {},
                Mark::Diamond => polygon points=(corners(&diamond([*x, *y]))) {},
            },
            Shape::Words(words) => (said(words)),
        }
    }
}

/// Half a mark's height.
pub(super) const MARK: i64 = 5;

/// The corners of a mark that stands on one.
pub(super) fn diamond([x, y]: [i64; 2]) -> Vec<[i64; 2]> {
    vec![[x, y - MARK - 1], [x + MARK + 1, y], [x, y + MARK + 1], [x - MARK - 1, y]]
}

impl Stroke {
    /// Its width, and how long its dashes and the gaps between them are.
    pub(super) fn drawn(self) -> (f32, Option<(f32, f32)>) {
        match self {
            Stroke::Full => (2.0, None),
            Stroke::Thin => (1.0, None),
            Stroke::Dashed => (2.0, Some((6.0, 5.0))),
            Stroke::Dotted => (1.0, Some((2.0, 4.0))),
        }
    }
}

fn gone(way: &Way) -> Markup {
    let (width, dash) = way.stroke.drawn();
    let class = if width < 2.0 { "dr-stroke dr-thin" } else { "dr-stroke" };
    let dash = dash.map(|(on, off)| format!("{on} {off}"));
    html! {
        @if let [[x1, y1], [x2, y2]] = way.corners.as_slice() {
            line class=(class) x1=(x1) y1=(y1) x2=(x2) y2=(y2) stroke-dasharray=[dash] {}
        } @else {
            polyline class=(class) points=(corners(&way.corners)) stroke-dasharray=[dash] {}
        }
    }
}

fn corners(all: &[[i64; 2]]) -> String {
    let all: Vec<String> = all.iter().map(|[x, y]| format!("{x},{y}")).collect();
    all.join(" ")
}

fn said(words: &Words) -> Markup {
    let anchor = match words.anchor {
        Anchor::Start => None,
        Anchor::Middle => Some("middle"),
        Anchor::End => Some("end"),
    };
    // About as wide as the words are, for want of their type.
    let wide = i64::try_from(words.text.chars().count()).unwrap_or(0) * words.size * 13 / 25;
    let left = match words.anchor {
        Anchor::Start => words.x,
        Anchor::Middle => words.x - wide / 2,
        Anchor::End => words.x - wide,
    };
    let size = (words.size != TYPE).then_some(words.size);
    html! {
        @if words.on == On::Lines {
            rect.dr-under x=(left - 1) y=(words.y - words.size * 4 / 5) width=(wide + 2) height=(words.size) {}
        }
        text x=(words.x) y=(words.y) class=[(words.on == On::Bar).then_some("dr-in")] text-anchor=[anchor] font-size=[size] font-weight=[words.bold.then_some("700")] {
            (clean(&words.text))
        }
    }
}

/// Slanted strokes that stay inside a rectangle: from x and y to x and y.
pub(super) fn strokes(x: f64, y: f64, width: f64, height: f64) -> Vec<[f64; 4]> {
    let mut strokes = Vec::new();
    let mut at = -height + 8.0;
    while at < width {
        let from = at.max(0.0);
        let to = (at + height).min(width);
        strokes.push([x + from, y + height - (from - at), x + to, y + height - (to - at)]);
        at += 9.0;
    }
    strokes
}

/// The strokes of what is tended.
fn hatch(area: &Area) -> Vec<[f64; 4]> {
    strokes(area.x as f64, area.y as f64, area.width as f64, area.height as f64)
}
