//! The drawn timeline: a lane for each part, a block for each step, numbered as on the card.
//!
//! The axis is bent: a night of rest would press a morning's work into a hair, so long stretches are drawn shorter, with
//! a break in the axis to say so. Where something begins or ends the time is written.

use super::steps::{clock, mark};
use crate::figures::card::{Card, Timeline, TimelineRow};
use crate::model::step::StepKind;
use crate::out::report::clean;
use maud::{Markup, html};

/// Drawing units from edge to edge.
pub(in crate::out) const WIDTH: f64 = 1000.0;
/// Where the lanes begin: left of it their names stand.
pub(in crate::out) const LEFT: f64 = 170.0;
/// Height of a track.
pub(in crate::out) const TRACK: f64 = 40.0;
/// Height of the axis.
pub(in crate::out) const AXIS: f64 = 34.0;
/// Between two written times.
const APART: f64 = 64.0;
/// Stretches longer than this are drawn broken, in minutes.
const BREAK: i64 = 120;

/// A block of the drawing.
pub(in crate::out) struct Block<'a> {
    pub(in crate::out) row: &'a TimelineRow,
    pub(in crate::out) number: usize,
    pub(in crate::out) track: usize,
}

/// The lane of a part.
pub(in crate::out) struct Lane<'a> {
    pub(in crate::out) name: &'a str,
    pub(in crate::out) blocks: Vec<Block<'a>>,
    pub(in crate::out) tracks: usize,
}

/// The timeline of a card; nothing when it has no steps.
pub(super) fn figure(card: &Card) -> Markup {
    let line = &card.timeline;
    if line.rows.is_empty() {
        return html! {};
    }
    let lanes = lanes(card);
    let axis = Axis::of(line);
    let tracks: usize = lanes.iter().map(|lane| lane.tracks).sum();
    let height = AXIS + tracks as f64 * TRACK + 6.0;
    html! {
        section.line {
            h2 { "When" }
            figure {
                svg viewBox={ "0 0 " (WIDTH) " " (px(height)) } role="img" aria-label=(spoken(line, &lanes)) {
                    (axis.draw(height))
                    (draw_lanes(&lanes, &axis))
                }
                figcaption { (caption(line)) }
            }
        }
    }
}

fn caption(line: &Timeline) -> Markup {
    let minutes = |minutes: i64| crate::measure::show::duration(crate::measure::quantity::Duration::minutes(minutes));
    html! {
        "From first step to last " strong { (minutes(line.span_minutes)) } ". "
        span.kind { (mark(StepKind::Hands)) "hands " (minutes(line.hands_minutes)) }
        " " span.kind { (mark(StepKind::Tend)) "stay in reach " (minutes(line.tend_minutes)) }
        " " span.kind { (mark(StepKind::Wait)) "wait" }
        " Times are hours:minutes from the start; long rests are drawn shorter."
    }
}

/// What the picture says, for those who hear it.
pub(in crate::out) fn spoken(line: &Timeline, lanes: &[Lane<'_>]) -> String {
    let mut words = vec![format!("Timeline over {} hours and minutes.", clock(line.span_minutes))];
    for lane in lanes {
        for block in &lane.blocks {
            words.push(format!(
                "{} {}, {}: {} from {} to {}.",
                lane.name,
                block.number,
                block.row.step,
                block.row.kind.word(),
                clock(block.row.start),
                clock(block.row.end)
            ));
        }
    }
    clean(&words.join(" ")).into_owned()
}

/// Lanes in the order of the card's parts; blocks that overlap lie on tracks below one another.
pub(in crate::out) fn lanes(card: &Card) -> Vec<Lane<'_>> {
    let mut lanes = Vec::new();
    for part in &card.parts {
        let mut blocks: Vec<Block<'_>> = Vec::new();
        let mut ends: Vec<i64> = Vec::new();
        for row in card.timeline.rows.iter().filter(|row| row.part == part.name) {
            let free = ends.iter().position(|end| *end <= row.start);
            let track = free.unwrap_or(ends.len());
            match ends.get_mut(track) {
                Some(end) => *end = row.end,
                None => ends.push(row.end),
            }
            blocks.push(Block { row, number: row.number, track });
        }
        if !blocks.is_empty() {
            lanes.push(Lane { name: &part.name, blocks, tracks: ends.len() });
        }
    }
    lanes
}

/// A bent axis: moments and where they are drawn.
pub(in crate::out) struct Axis {
    points: Vec<(i64, f64)>,
}

impl Axis {
    pub(in crate::out) fn of(line: &Timeline) -> Axis {
        let mut moments: Vec<i64> = line.rows.iter().flat_map(|row| [row.start, row.end]).collect();
        moments.push(0);
        moments.sort_unstable();
        moments.dedup();
        // Every stretch is wide enough for a number; an hour is four times as wide as a minute; a night not much wider.
        let stretch = |minutes: i64| {
            let minutes = minutes as f64;
            26.0 + minutes.min(60.0) + (minutes - 60.0).clamp(0.0, 600.0) * 0.1
        };
        let total: f64 = moments.windows(2).map(|pair| length(pair, stretch)).sum();
        let scale = if total > 0.0 { (WIDTH - LEFT - 24.0) / total } else { 1.0 };
        let mut x = LEFT;
        let mut points = Vec::with_capacity(moments.len());
        points.extend(moments.first().map(|first| (*first, x)));
        for pair in moments.windows(2) {
            x += length(pair, stretch) * scale;
            points.extend(pair.last().map(|moment| (*moment, x)));
        }
        Axis { points }
    }

    pub(in crate::out) fn at(&self, moment: i64) -> f64 {
        self.points.iter().find(|(known, _)| *known == moment).map_or(LEFT, |(_, x)| *x)
    }

    /// The moments that are written above the axis, with their places: as many as have room.
    pub(in crate::out) fn labels(&self) -> Vec<(i64, f64)> {
        let mut last = -APART;
        let mut labels = Vec::new();
        let end = self.points.last().copied();
        for (moment, x) in &self.points {
            let is_end = end.is_some_and(|(last, _)| last == *moment);
            let room_to_end = end.map_or(APART, |(_, end)| end - x);
            if is_end || (x - last >= APART && room_to_end >= APART) {
                labels.push((*moment, *x));
                last = *x;
            }
        }
        labels
    }

    /// The places where the axis is broken, because a long stretch is drawn shorter.
    pub(in crate::out) fn breaks(&self) -> Vec<f64> {
        let long = |pair: &[(i64, f64)]| match pair {
            [(from, a), (to, b)] if to - from > BREAK => Some((a + b) / 2.0),
            _ => None,
        };
        self.points.windows(2).filter_map(long).collect()
    }

    /// Where the axis ends.
    pub(in crate::out) fn end(&self) -> f64 {
        self.points.last().map_or(LEFT, |(_, x)| *x)
    }

    fn draw(&self, height: f64) -> Markup {
        let (labels, breaks) = (self.labels(), self.breaks());
        let y = AXIS - 4.0;
        html! {
            @for (_, x) in &labels { line.tl-grid x1=(px(*x)) x2=(px(*x)) y1=(px(y - 6.0)) y2=(px(height)) stroke-width="1.5" {} }
            line.tl-axis x1=(px(LEFT)) x2=(px(self.end())) y1=(px(y)) y2=(px(y)) stroke-width="3" {}
            @for x in &breaks {
                path.tl-on d=(format!("M{} {}l7 -16h8l-7 16z", px(x - 7.5), px(y + 8.0))) {}
                path.tl-axis d=(format!("M{} {}l7 -16M{} {}l7 -16", px(x - 7.5), px(y + 8.0), px(x + 0.5), px(y + 8.0))) fill="none" stroke-width="2.5" {}
            }
            @for (moment, x) in &labels {
                text x=(px(*x)) y=(px(y - 10.0)) font-size="20" text-anchor="middle" { (clock(*moment)) }
            }
        }
    }
}

fn length(pair: &[i64], stretch: impl Fn(i64) -> f64) -> f64 {
    match pair {
        [from, to] => stretch(to - from),
        _ => 0.0,
    }
}

fn draw_lanes(lanes: &[Lane<'_>], axis: &Axis) -> Markup {
    let mut top = AXIS;
    let mut drawn = Vec::new();
    for lane in lanes {
        let middle = top + TRACK / 2.0;
        drawn.push(html! {
            @for (at, words) in name_lines(lane.name, lane.tracks).iter().enumerate() {
                text.tl-name x="0" y=(px(middle + 7.0 + at as f64 * 20.0)) font-size="20" { (words) }
            }
            @for block in &lane.blocks { (draw_block(block, axis, top + block.track as f64 * TRACK)) }
        });
        top += lane.tracks as f64 * TRACK;
    }
    html! { @for one in &drawn { (one) } }
}

/// A name in the room left of the lanes; what does not fit ends in an ellipsis, the card itself has it whole.
pub(in crate::out) fn name_lines(name: &str, tracks: usize) -> Vec<String> {
    const ROOM: usize = 14;
    let clean = clean(name);
    let mut lines = vec![String::new()];
    for word in clean.split_whitespace() {
        let Some(line) = lines.last_mut() else { break };
        let together = line.chars().count() + 1 + word.chars().count();
        if line.is_empty() || together <= ROOM {
            if !line.is_empty() {
                line.push(' ');
            }
            line.push_str(word);
        } else {
            lines.push(word.to_owned());
        }
    }
    let more = lines.len() > tracks;
    lines.truncate(tracks.max(1));
    let count = lines.len();
    for (at, line) in lines.iter_mut().enumerate() {
        if line.chars().count() > ROOM || (more && at + 1 == count) {
            *line = line.chars().take(ROOM - 1).collect::<String>() + "…";
        }
    }
    lines
}

/// Hands: a full block. Tend: a lower one, hatched. Wait: a low dotted outline with round ends.
fn draw_block(block: &Block<'_>, axis: &Axis, top: f64) -> Markup {
    let (x, end) = (axis.at(block.row.start), axis.at(block.row.end));
    let width = (end - x).max(4.0);
    let label = block.number.to_string();
    let center = x + width / 2.0;
    let middle = top + TRACK / 2.0;
    html! {
        @match block.row.kind {
            StepKind::Hands => {
                rect.tl-hands x=(px(x + 1.0)) y=(px(top + 4.0)) width=(px(width - 2.0)) height=(px(TRACK - 8.0)) {}
                text.tl-num x=(px(center)) y=(px(middle + 7.0)) font-size="20" text-anchor="middle" { (label) }
            }
            StepKind::Tend => {
                rect.tl-tend x=(px(x + 2.0)) y=(px(top + 9.0)) width=(px(width - 4.0)) height=(px(TRACK - 18.0)) stroke-width="2.5" {}
                path.tl-hatch d=(hatch(x + 2.0, top + 9.0, width - 4.0, TRACK - 18.0)) stroke-width="2" {}
                rect.tl-on x=(px(center - 13.0)) y=(px(top + 10.5)) width="26" height=(px(TRACK - 21.0)) {}
                text x=(px(center)) y=(px(middle + 7.0)) font-size="20" font-weight="700" text-anchor="middle" { (label) }
            }
            StepKind::Wait => {
                rect.tl-wait x=(px(x + 2.5)) y=(px(top + 12.0)) width=(px((width - 5.0).max(1.0))) height=(px(TRACK - 24.0)) rx="8" stroke-width="2.5" {}
                rect.tl-on x=(px(center - 11.0)) y=(px(top + 10.0)) width="22" height=(px(TRACK - 20.0)) {}
                text x=(px(center)) y=(px(middle + 7.0)) font-size="20" text-anchor="middle" { (label) }
            }
        }
    }
}

fn hatch(x: f64, y: f64, width: f64, height: f64) -> String {
    let lines = strokes(x, y, width, height);
    lines.iter().map(|[a, b, c, d]| format!("M{} {}L{} {}", px(*a), px(*b), px(*c), px(*d))).collect()
}

/// Slanted strokes that stay inside a rectangle: from x and y to x and y.
pub(in crate::out) fn strokes(x: f64, y: f64, width: f64, height: f64) -> Vec<[f64; 4]> {
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

/// A coordinate with one decimal at most.
fn px(value: f64) -> String {
    let text = format!("{value:.1}");
    text.strip_suffix(".0").map_or_else(|| text.clone(), str::to_owned)
}
