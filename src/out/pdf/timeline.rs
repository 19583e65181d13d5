//! The drawn timeline: a lane for each part, a block for each step, numbered as on the card, on a bent axis.

use super::Press;
use super::frame::{BLACK, Block, Drawn, Flow, Frame, Glyphs, HAIR, Ink, Item, Pen, SOFT, Stretch, WHITE};
use super::paragraph::{self, Setting, Words};
use super::steps::mark;
use super::tags::{Node, Role};
use crate::figures::card::Card;
use crate::measure::quantity::Duration;
use crate::model::step::StepKind;
use crate::out::sheet::doing;
use crate::out::sheet::timeline::{self as layout, AXIS, Axis, LEFT, Lane, TRACK, WIDTH, clock, lanes, name_lines};

/// The picture while it is drawn, in the units of the layout.
struct Picture<'a, 'p> {
    press: &'a Press<'p>,
    frame: Frame,
    /// Points in a unit.
    scale: f32,
    /// Everything belongs to the figure, whose words say what it shows.
    node: Node,
}

/// The timeline of a card; nothing when it has no steps.
pub(super) fn figure(press: &mut Press<'_>, card: &Card, parent: Node) -> Vec<Flow> {
    let line = &card.timeline;
    if line.rows.is_empty() {
        return Vec::new();
    }
    let em = press.em;
    let section = press.tags.add(Some(parent), Role::Section);
    let words = [Words::new("When", em * 1.15).bold()];
    let width = press.width();
    let mut frame = press.tagged(&words, Setting::left(width, 1.3), section, Role::Heading(2, "When".to_owned()));
    let lanes = lanes(card);
    let node = press.tags.add(Some(section), Role::Figure(layout::spoken(line, &lanes)));
    let picture = draw(press, card, &lanes, node);
    frame.append(picture, 0.0, em * 0.2);
    let caption = caption(press, card, section);
    frame.append(caption, 0.0, em * 0.3);
    vec![Flow::One(Block::new(frame, em * 1.4))]
}

fn draw(press: &Press<'_>, card: &Card, lanes: &[Lane<'_>], node: Node) -> Frame {
    let axis = Axis::of(&card.timeline);
    let tracks: usize = lanes.iter().map(|lane| lane.tracks).sum();
    let height = AXIS + tracks as f64 * TRACK + 6.0;
    let scale = press.width() / WIDTH as f32;
    let mut picture = Picture { press, frame: Frame::of_height(height as f32 * scale), scale, node };
    picture.axis(&axis, height);
    let mut top = AXIS;
    for lane in lanes {
        let middle = top + TRACK / 2.0;
        for (at, words) in name_lines(lane.name, lane.tracks).iter().enumerate() {
            picture.text(words, 0.0, middle + 7.0 + at as f64 * 20.0, BLACK, true, 0.0);
        }
        for block in &lane.blocks {
            picture.block(block, &axis, top + block.track as f64 * TRACK);
        }
        top += lane.tracks as f64 * TRACK;
    }
    picture.frame
}

impl Picture<'_, '_> {
    fn draw(&mut self, drawn: Drawn) {
        self.frame.items.push(Item { drawn, node: Some(self.node) });
    }

    fn fill(&mut self, x: f64, y: f64, width: f64, height: f64, ink: Ink) {
        let s = self.scale;
        self.draw(Drawn::Rect(x as f32 * s, y as f32 * s, width as f32 * s, height as f32 * s, ink));
    }

    /// A path in the units of the layout.
    fn path(&mut self, path: Vec<Stretch>, fill: Option<Ink>, pen: Option<Pen>) {
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

    /// Text on a baseline; `share` of its width stands left of `x`.
    fn text(&mut self, words: &str, x: f64, y: f64, ink: Ink, bold: bool, share: f32) {
        let faces = self.press.faces;
        let size = 20.0 * self.scale;
        let run = Glyphs { shaped: faces.shape(&faces.fit(words), bold), bold, size, ink };
        let x = x as f32 * self.scale - run.width() * share;
        self.draw(Drawn::Text(x.max(0.0), y as f32 * self.scale, run));
    }

    fn axis(&mut self, axis: &Axis, height: f64) {
        let y = AXIS - 4.0;
        let labels = axis.labels();
        for (_, x) in &labels {
            self.fill(x - 0.75, y - 6.0, 1.5, height - y + 6.0, HAIR);
        }
        self.fill(LEFT, y - 1.5, axis.end() - LEFT, 3.0, BLACK);
        for x in axis.breaks() {
            let (x, low) = ((x - 7.5) as f32, (y + 8.0) as f32);
            let gap = vec![
                Stretch::Move(x, low),
                Stretch::Line(x + 7.0, low - 16.0),
                Stretch::Line(x + 15.0, low - 16.0),
                Stretch::Line(x + 8.0, low),
                Stretch::Close,
            ];
            self.path(gap, Some(WHITE), None);
            let sides = vec![
                Stretch::Move(x, low),
                Stretch::Line(x + 7.0, low - 16.0),
                Stretch::Move(x + 8.0, low),
                Stretch::Line(x + 15.0, low - 16.0),
            ];
            self.path(sides, None, Some(Pen { ink: BLACK, width: 2.5, dash: None }));
        }
        for (moment, x) in &labels {
            self.text(&clock(*moment), *x, y - 10.0, BLACK, false, 0.5);
        }
    }

    /// Hands: a full block. Tend: a lower one, hatched. Wait: a low dotted outline with round ends.
    fn block(&mut self, block: &layout::Block<'_>, axis: &Axis, top: f64) {
        let (x, end) = (axis.at(block.row.start), axis.at(block.row.end));
        let width = (end - x).max(4.0);
        let label = block.number.to_string();
        let (center, base) = (x + width / 2.0, top + TRACK / 2.0 + 7.0);
        match block.row.kind {
            StepKind::Hands => {
                self.fill(x + 1.0, top + 4.0, width - 2.0, TRACK - 8.0, BLACK);
                self.text(&label, center, base, WHITE, true, 0.5);
            }
            StepKind::Tend => {
                let (left, high, wide, deep) = (x + 2.0, top + 9.0, width - 4.0, TRACK - 18.0);
                self.fill(left, high, wide, deep, WHITE);
                let hatch = layout::strokes(left, high, wide, deep);
                let strokes = hatch.iter().flat_map(|[a, b, c, d]| {
                    [Stretch::Move(*a as f32, *b as f32), Stretch::Line(*c as f32, *d as f32)]
                });
                let strokes: Vec<Stretch> = strokes.collect();
                self.path(strokes, None, Some(Pen { ink: BLACK, width: 2.0, dash: None }));
                self.path(rounded(left, high, wide, deep, 0.0), None, Some(Pen { ink: BLACK, width: 2.5, dash: None }));
                self.fill(center - 13.0, top + 10.5, 26.0, TRACK - 21.0, WHITE);
                self.text(&label, center, base, BLACK, true, 0.5);
            }
            StepKind::Wait => {
                let ring = rounded(x + 2.5, top + 12.0, (width - 5.0).max(1.0), TRACK - 24.0, 8.0);
                self.path(ring, None, Some(Pen { ink: BLACK, width: 2.5, dash: Some((0.2, 5.0)) }));
                self.fill(center - 11.0, top + 10.0, 22.0, TRACK - 20.0, WHITE);
                self.text(&label, center, base, BLACK, false, 0.5);
            }
        }
    }
}

/// A rectangle with round corners.
fn rounded(x: f64, y: f64, width: f64, height: f64, round: f64) -> Vec<Stretch> {
    let r = round.min(width / 2.0).min(height / 2.0) as f32;
    let (left, top, right, bottom) = (x as f32, y as f32, (x + width) as f32, (y + height) as f32);
    let k = r * 0.4477;
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

/// What the shapes mean, and how long it takes.
fn caption(press: &mut Press<'_>, card: &Card, parent: Node) -> Frame {
    let em = press.em;
    let size = em * 0.95;
    let line = &card.timeline;
    let minutes = |minutes: i64| crate::measure::show::duration(Duration::minutes(minutes));
    let quiet = |text: String| Words::new(text, size).ink(SOFT);
    let node = press.tags.add(Some(parent), Role::Paragraph);
    let mut frame = Frame::default();
    let mut x = 0.0;
    let kinds = [
        (StepKind::Hands, format!("{} {}", doing(StepKind::Hands), minutes(line.hands_minutes))),
        (StepKind::Tend, format!("{} {}", doing(StepKind::Tend), minutes(line.tend_minutes))),
        (StepKind::Wait, doing(StepKind::Wait).to_owned()),
    ];
    for (kind, text) in kinds {
        let words = [quiet(format!("{text} "))];
        let wide = paragraph::width(press.faces, &words);
        let set = paragraph::set(press.faces, &words, Setting::left(f32::INFINITY, 1.4), Some(node));
        mark(&mut frame, kind, x, em * 0.24, em * 0.82);
        frame.height = frame.height.max(set.height);
        frame.place(set, x + em * 1.1, 0.0);
        x += wide + em * 2.2;
    }
    let words = [
        quiet("From first step to last ".to_owned()),
        Words::new(minutes(line.span_minutes), size).bold(),
        quiet(". Times are hours:minutes from the start; long rests are drawn shorter.".to_owned()),
    ];
    let width = press.width();
    let text = paragraph::set(press.faces, &words, Setting::left(width, 1.35), Some(node));
    frame.append(text, 0.0, 0.0);
    frame
}
