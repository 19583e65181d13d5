//! The drawn timeline: a lane for each part, a block for each step, numbered as on the card, with its name.

use super::Press;
use super::canvas::{Canvas, Lettered};
use super::frame::{BLACK, Block, Flow, Frame, HAIR, Pen, SOFT, Stretch, WHITE};
use super::paragraph::{self, Setting, Words};
use super::steps::mark;
use super::tags::{Node, Role};
use crate::figures::card::Card;
use crate::measure::quantity::Duration;
use crate::model::step::StepKind;
use crate::out::sheet::timeline::{
    self as layout, AXIS, Axis, BAR, BAR_TOP, LEFT, Lane, TRACK, TYPE, WIDTH, clock, lanes, name_lines,
};
use crate::out::sheet::{Sheet, doing};

/// The timeline of a card; nothing when it has no steps, or is set small.
pub(super) fn figure(press: &mut Press<'_>, card: &Card, sheet: &Sheet, parent: Node) -> Vec<Flow> {
    let line = &card.timeline;
    let none = layout::none(card);
    if sheet.compact || (none.is_none() && line.rows.is_empty()) {
        return Vec::new();
    }
    let em = press.em;
    let section = press.tags.add(Some(parent), Role::Section);
    let words = [Words::new("When", em * 1.15).bold()];
    let width = press.width();
    let mut frame = press.tagged(&words, Setting::left(width, 1.3), section, Role::Heading(2, "When".to_owned()));
    if let Some(why) = none {
        let said = press.paragraph(&[Words::new(why, em * 1.1)], Setting::left(width, 1.35), section);
        frame.append(said, 0.0, em * 0.2);
        return vec![Flow::One(Block::new(frame, em))];
    }
    let lanes = lanes(card);
    let node = press.tags.add(Some(section), Role::Figure(layout::spoken(line, &lanes)));
    let picture = draw(press, card, &lanes, node);
    frame.append(picture, 0.0, em * 0.2);
    let caption = caption(press, card, section);
    frame.append(caption, 0.0, em * 0.3);
    vec![Flow::One(Block::new(frame, em))]
}

fn draw(press: &Press<'_>, card: &Card, lanes: &[Lane<'_>], node: Node) -> Frame {
    let axis = Axis::of(&card.timeline);
    let tracks: usize = lanes.iter().map(|lane| lane.tracks).sum();
    let height = AXIS + tracks as f64 * TRACK + 6.0;
    let mut canvas = Canvas::new(press, (WIDTH, height), node);
    draw_axis(&mut canvas, &axis, height);
    let mut top = AXIS;
    for lane in lanes {
        let base = top + BAR_TOP + BAR / 2.0 + 7.0;
        for (at, words) in name_lines(lane.name, lane.tracks).iter().enumerate() {
            canvas.words(&lettered(words, true), 0.0, base + at as f64 * 20.0, 0.0);
        }
        for block in &lane.blocks {
            draw_block(&mut canvas, block, &axis, top + block.track as f64 * TRACK + BAR_TOP);
        }
        for label in &lane.labels(&axis) {
            let y = top + label.track as f64 * TRACK + BAR_TOP - 6.0;
            canvas.halo(&lettered(&label.text, false), label.x, y, 0.0);
            canvas.words(&lettered(&label.text, false), label.x, y, 0.0);
        }
        top += lane.tracks as f64 * TRACK;
    }
    canvas.frame
}

fn lettered(text: &str, bold: bool) -> Lettered<'_> {
    Lettered { text, size: TYPE, bold, ink: BLACK }
}

fn draw_axis(canvas: &mut Canvas<'_, '_>, axis: &Axis, height: f64) {
    let y = AXIS - 4.0;
    let labels = axis.labels();
    for (_, x) in &labels {
        canvas.fill(x - 0.75, y - 6.0, 1.5, height - y + 6.0, HAIR);
    }
    canvas.fill(LEFT, y - 1.5, axis.end() - LEFT, 3.0, BLACK);
    for x in axis.breaks() {
        gap(canvas, x, y + 8.0, 16.0);
        let (x, low) = ((x - 7.5) as f32, (y + 8.0) as f32);
        let sides = vec![
            Stretch::Move(x, low),
            Stretch::Line(x + 7.0, low - 16.0),
            Stretch::Move(x + 8.0, low),
            Stretch::Line(x + 15.0, low - 16.0),
        ];
        canvas.path(sides, None, Some(Pen { ink: BLACK, width: 2.5, dash: None }));
    }
    for (moment, x) in &labels {
        canvas.words(&lettered(&clock(*moment), false), *x, y - 10.0, 0.5);
    }
}

/// Hands: a full block. Tend: hatched. Wait: a low dotted outline with round ends.
fn draw_block(canvas: &mut Canvas<'_, '_>, block: &layout::Block<'_>, axis: &Axis, top: f64) {
    let (x, end) = (axis.at(block.row.start), axis.at(block.row.end));
    let width = (end - x).max(4.0);
    match block.row.kind {
        StepKind::Hands => canvas.fill(x + 0.5, top, width - 1.0, BAR, BLACK),
        StepKind::Tend => canvas.tended([x + 1.5, top + 1.5, width - 3.0, BAR - 3.0], 2.5),
        StepKind::Wait => {
            let ring = [x + 2.5, top + 4.0, (width - 5.0).max(1.0), BAR - 8.0];
            canvas.outline(ring, 5.5, Pen { ink: BLACK, width: 2.5, dash: Some((0.2, 5.0)) });
        }
    }
    for x in axis.breaks_in(block.row) {
        gap(canvas, x, top + BAR, BAR);
    }
}

/// Paper's white through what a break goes through.
fn gap(canvas: &mut Canvas<'_, '_>, x: f64, low: f64, high: f64) {
    let (x, low, high) = ((x - 7.5) as f32, low as f32, high as f32);
    let gap = vec![
        Stretch::Move(x, low),
        Stretch::Line(x + 7.0, low - high),
        Stretch::Line(x + 15.0, low - high),
        Stretch::Line(x + 8.0, low),
        Stretch::Close,
    ];
    canvas.path(gap, Some(WHITE), None);
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
        quiet(format!(". {}", Axis::of(line).note())),
    ];
    let width = press.width();
    let text = paragraph::set(press.faces, &words, Setting::left(width, 1.35), Some(node));
    frame.append(text, 0.0, 0.0);
    frame
}
