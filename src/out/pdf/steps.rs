//! Steps: when and how hot at the left, what to do at the right, the cue by which it is done in a tag of its own.

use super::canvas::{FROM_CORNER, HANDLE};
use super::frame::{BLACK, Block, Drawn, Flow, Frame, Pen, SOFT, Stretch, WHITE};
use super::paragraph::{self, Setting, Words};
use super::prose::{self, Look};
use super::tags::{Node, Role};
use super::{Press, by_hand, plain};
use crate::figures::card::StepCard;
use crate::measure::shown::Shown;
use crate::model::step::StepKind;
use crate::out::sheet::by_hand as blanks;
use crate::out::sheet::{below_time, beside_name};

/// How steps are set.
#[derive(Debug, Clone, Copy)]
pub(super) struct Set {
    /// The level of their headings.
    pub(super) level: u16,
    /// Whether they say when they begin, for a station that does not see the others' steps.
    pub(super) starts: bool,
}

/// Steps with their numbers, in two columns across.
pub(super) fn steps(press: &mut Press<'_>, all: &[(usize, &StepCard)], set: Set, parent: Node) -> Vec<Flow> {
    if all.is_empty() {
        return Vec::new();
    }
    let list = press.tags.add(Some(parent), Role::List(true));
    let width = if press.geometry.columns && all.len() > 1 { press.geometry.half() } else { press.width() };
    let mut blocks = Vec::with_capacity(all.len());
    for (number, one) in all {
        let item = press.tags.add(Some(list), Role::ListItem);
        let frame = step(press, one, *number, set, width, item);
        blocks.push(Block { ruled: true, ..Block::new(frame, 0.0) });
    }
    if press.geometry.columns && all.len() > 1 {
        let spacer = Block::new(Frame::of_height(press.em * 0.5), 0.0).kept();
        vec![Flow::One(spacer), Flow::Two(blocks)]
    } else {
        if let Some(first) = blocks.first_mut() {
            first.above = press.em * 0.45;
            first.ruled = false;
        }
        blocks.into_iter().map(Flow::One).collect()
    }
}

fn step(press: &mut Press<'_>, step: &StepCard, number: usize, set: Set, width: f32, item: Node) -> Frame {
    let em = press.em;
    let side = if press.geometry.columns { em * 8.0 } else { em * 11.5 };
    let inset = em * 1.35;
    let gap = em * 0.8;
    let room = width - side - gap;
    let size = em * 1.25;

    // The number stands in the room that its heading leaves for it.
    let label = press.tags.add(Some(item), Role::Label);
    let body = press.tags.add(Some(item), Role::ListBody);
    let digits = [Words::new(number.to_string(), size).bold()];
    let indent = (paragraph::width(press.faces, &digits) + em * 0.5).max(em * 1.7);
    let number_frame = paragraph::set(press.faces, &digits, Setting::left(f32::INFINITY, 1.2), Some(label));
    let name = plain(&step.name);
    let mut words = vec![Words::new(name.clone(), size).bold()];
    words.extend(beside_name(step).iter().map(|how| Words::new(format!(", {}", plain(how)), size).ink(SOFT)));
    let mut right = Frame::default();
    let wide = paragraph::width(press.faces, &words);
    let heading = press.tagged(&words, Setting::left(room - indent, 1.2), body, Role::Heading(set.level, name));
    right.append(heading, indent, 0.0);
    right.place(number_frame, 0.0, 0.0);
    // Behind the heading, or below it where it leaves no room.
    let marks = marks(press, step, body);
    let x = (room - marks.width).max(0.0);
    if indent + wide + em < x {
        right.place(marks.frame, x, em * 0.05);
    } else {
        right.append(marks.frame, x, 0.0);
    }

    let left = when(press, step, set, side - inset, body);

    let look = Look { size: em * 1.12, width: room, bold: false };
    let words = prose::set(press, &step.prose, &[], look, body);
    right.append(words, 0.0, em * 0.1);
    if !step.cue.is_empty() {
        right.append(cue(press, step, room, body), 0.0, em * 0.35);
    }

    let high = left.height.max(right.height);
    let mut frame = Frame::of_height(high + em * 0.7);
    bar(&mut frame, step.kind, em, em * 0.35, high);
    frame.place(left, inset, em * 0.35);
    frame.place(right, side + gap, em * 0.35);
    frame
}

/// What is at the left: time, loads, heat, who is busy.
fn when(press: &mut Press<'_>, step: &StepCard, set: Set, room: f32, body: Node) -> Frame {
    let em = press.em;
    // What is read from a metre away is not broken; a long one is set a little smaller.
    let faces = press.faces;
    let big = |shown: &Shown| {
        let mut words = Words::new(shown.to_string(), em * 1.45).bold();
        let wide = paragraph::width(faces, std::slice::from_ref(&words));
        words.size *= (room / wide.max(1.0)).clamp(0.68, 1.0);
        words
    };
    let time = big(&step.time_shown);
    let wide = paragraph::width(faces, std::slice::from_ref(&time));
    let mut frame = press.paragraph(&[time], Setting::left(room, 1.15), body);
    if let Some(heat) = &step.temperature_shown {
        let words = big(&heat.first());
        let beside = wide + em * 0.8;
        let fits = beside + paragraph::width(faces, std::slice::from_ref(&words)) <= room;
        let line = press.paragraph(&[words], Setting::left(room, 1.15), body);
        if fits {
            frame.place(line, beside, 0.0);
        } else {
            frame.append(line, 0.0, 0.0);
        }
        if let Some(also) = &heat.also {
            let also = press.paragraph(&[Words::new(also.unbroken(), em * 0.95)], Setting::left(room, 1.25), body);
            frame.append(also, 0.0, 0.0);
        }
    }
    let words = [Words::new(below_time(step, set.starts), em * 0.95).ink(SOFT)];
    let line = press.paragraph(&words, Setting::left(room - em * 1.2, 1.25), body);
    let top = frame.height;
    frame.append(line, em * 1.2, 0.0);
    mark(&mut frame, step.kind, 0.0, top + em * 0.2, em * 0.82);
    frame
}

/// Where a step is ticked off, with what is written to it.
fn marks(press: &mut Press<'_>, step: &StepCard, body: Node) -> by_hand::Line {
    let em = press.em;
    let node = press.tags.add(Some(body), Role::Paragraph);
    let mut line = by_hand::line(press, &blanks::of_step(step), em * 0.95, 0.0, node);
    line.width += em * 0.8;
    by_hand::tick(&mut line.frame, line.width, em * 0.05, em * 1.25);
    line.width += em * 1.35;
    line
}

/// The cue by which it is done, in a tag that is round at its right.
fn cue(press: &mut Press<'_>, step: &StepCard, room: f32, body: Node) -> Frame {
    let em = press.em;
    let size = em * 1.1;
    let inset = em * 0.65;
    let lead = [Words::new("until ", size).bold()];
    let look = Look { size, width: room - inset * 2.2, bold: true };
    let words = prose::set(press, &step.cue, &lead, look, body);
    let wide = words
        .items
        .iter()
        .filter_map(|item| match &item.drawn {
            Drawn::Text(x, _, run) => Some(x + run.width()),
            _ => None,
        })
        .fold(0.0, f32::max);
    let (wide, high) = ((wide + inset * 2.2).min(room), words.height + em * 0.4);
    let round = (em * 1.0).min(high / 2.0);
    let pen = em * 0.12;
    let (low, right, bottom) = (pen / 2.0, wide - pen / 2.0, high - pen / 2.0);
    let bend = round * FROM_CORNER;
    let mut frame = Frame::of_height(high);
    frame.draw(Drawn::Path(
        vec![
            Stretch::Move(low, low),
            Stretch::Line(right - round, low),
            Stretch::Curve(right - bend, low, right, low + bend, right, low + round),
            Stretch::Line(right, bottom - round),
            Stretch::Curve(right, bottom - bend, right - bend, bottom, right - round, bottom),
            Stretch::Line(low, bottom),
            Stretch::Close,
        ],
        None,
        Some(Pen { ink: BLACK, width: pen, dash: None }),
    ));
    frame.place(words, inset, em * 0.2);
    frame
}

/// The bar beside a step: full for hands, double for what is tended, dotted for waiting.
fn bar(frame: &mut Frame, kind: StepKind, em: f32, top: f32, high: f32) {
    match kind {
        StepKind::Hands => frame.fill(0.0, top, em * 0.6, high, BLACK),
        StepKind::Tend => {
            frame.fill(0.0, top, em * 0.2, high, BLACK);
            frame.fill(em * 0.4, top, em * 0.2, high, BLACK);
        }
        StepKind::Wait => {
            let mut y = top + em * 0.15;
            while y < top + high {
                frame.draw(Drawn::Path(circle(em * 0.42, y, em * 0.13), Some(BLACK), None));
                y += em * 0.55;
            }
        }
    }
}

/// The same shapes as on the timeline: a full block, a hatched one, a dotted ring.
pub(super) fn mark(frame: &mut Frame, kind: StepKind, x: f32, y: f32, side: f32) {
    let pen = Pen { ink: BLACK, width: side / 8.0, dash: None };
    match kind {
        StepKind::Hands => frame.fill(x, y, side, side, BLACK),
        StepKind::Tend => {
            frame.fill(x, y, side, side, WHITE);
            frame.outline(x, y, side, side, side / 8.0);
            let mut hatch = Vec::new();
            for share in [0.5, 1.0] {
                hatch.push(Stretch::Move(x, y + side * share));
                hatch.push(Stretch::Line(x + side * share, y));
            }
            hatch.push(Stretch::Move(x + side * 0.5, y + side));
            hatch.push(Stretch::Line(x + side, y + side * 0.5));
            frame.draw(Drawn::Path(hatch, None, Some(pen)));
        }
        StepKind::Wait => {
            let ring = circle(x + side / 2.0, y + side / 2.0, side * 0.42);
            let dash = Some((side * 0.02, side * 0.28));
            frame.draw(Drawn::Path(ring, None, Some(Pen { dash, ..pen })));
        }
    }
}

fn circle(x: f32, y: f32, r: f32) -> Vec<Stretch> {
    let k = r * HANDLE;
    vec![
        Stretch::Move(x + r, y),
        Stretch::Curve(x + r, y + k, x + k, y + r, x, y + r),
        Stretch::Curve(x - k, y + r, x - r, y + k, x - r, y),
        Stretch::Curve(x - r, y - k, x - k, y - r, x, y - r),
        Stretch::Curve(x + k, y - r, x + r, y - k, x + r, y),
        Stretch::Close,
    ]
}
