//! How the drawn timeline is laid out: a lane for each part, a block for each step, numbered as on the card.
//!
//! The axis is bent: a night of rest would press a morning's work into a hair, so long stretches are drawn shorter, with
//! a break in the axis to say so. Where something begins or ends the time is written.

use crate::figures::card::{Card, Timeline, TimelineRow};
use crate::out::report::clean;

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
}

fn length(pair: &[i64], stretch: impl Fn(i64) -> f64) -> f64 {
    match pair {
        [from, to] => stretch(to - from),
        _ => 0.0,
    }
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

/// Hours and minutes from the start.
pub(in crate::out) fn clock(minutes: i64) -> String {
    format!("{}:{:02}", minutes / 60, minutes % 60)
}
