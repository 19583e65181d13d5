//! How the drawn timeline is laid out: a lane for each part, a block for each step, with its number and name above it.
//!
//! It is true to scale but for its breaks: a night of rest would press a morning's work into a hair, so a long stretch in
//! which nothing begins or ends is cut short, which the axis and the blocks that last through it show. Where something
//! begins or ends the time is written.

use crate::figures::card::{Card, Timeline, TimelineRow};
use crate::out::report::clean;
use crate::out::typeset;

/// Drawing units from edge to edge.
pub(in crate::out) const WIDTH: f64 = 1000.0;
/// Where the lanes begin: left of it their names stand.
pub(in crate::out) const LEFT: f64 = 170.0;
/// The size of type.
pub(in crate::out) const TYPE: f64 = 19.0;
/// The width of a character in a label, about.
const CHARACTER: f64 = TYPE * 0.56;
/// Between two labels.
const BETWEEN: f64 = 9.0;
/// Height of a track: labels, and below them blocks.
pub(in crate::out) const TRACK: f64 = 43.0;
/// Where a track's blocks begin.
pub(in crate::out) const BAR_TOP: f64 = 22.0;
/// Height of a block.
pub(in crate::out) const BAR: f64 = 17.0;
/// Height of the axis.
pub(in crate::out) const AXIS: f64 = 34.0;
/// Between two written times.
const APART: f64 = 64.0;
/// What does not last longer than this is not cut, in minutes.
const SHORT: i64 = 240;
/// Else stretches longer than this are cut, in minutes.
const LONG: i64 = 60;
/// As long as this many minutes a cut stretch is drawn.
const CUT: f64 = 40.0;

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

/// The words above a block.
pub(in crate::out) struct Label {
    pub(in crate::out) x: f64,
    pub(in crate::out) track: usize,
    pub(in crate::out) text: String,
}

impl Label {
    /// How wide it is, about.
    pub(in crate::out) fn width(&self) -> f64 {
        self.text.chars().count() as f64 * CHARACTER
    }
}

impl Lane<'_> {
    /// The labels: each above its own block, with the name where that leaves the next one room for its number.
    pub(in crate::out) fn labels(&self, axis: &Axis) -> Vec<Label> {
        let width = |text: &str| text.chars().count() as f64 * CHARACTER;
        let mut labels = Vec::with_capacity(self.blocks.len());
        for track in 0..self.tracks {
            let of: Vec<&Block<'_>> = self.blocks.iter().filter(|block| block.track == track).collect();
            let mut free = LEFT;
            for (at, block) in of.iter().enumerate() {
                let number = block.number.to_string();
                let whole = clean(&format!("{number} {}", block.row.step)).into_owned();
                let next = of.get(at + 1);
                let until = next.map_or(WIDTH, |next| axis.at(next.row.end) - width(&next.number.to_string()));
                let from = axis.at(block.row.start).max(free);
                // The last one may reach back over the end of the one before it.
                let from_for = |text: &str| if next.is_none() { from.min(WIDTH - width(text)) } else { from };
                let fits = |text: &str| from_for(text) >= free && from_for(text) + width(text) + BETWEEN <= until + 0.5;
                let whole_fits = fits(&whole) || (next.is_none() && from_for(&whole) >= free);
                let text = if whole_fits { whole } else { number };
                let x = from_for(&text).max(free);
                free = x + width(&text) + BETWEEN;
                labels.push(Label { x, track, text });
            }
        }
        labels
    }
}

/// What stands in place of the drawing where a batch cannot be made as it is written: why, and what would help.
pub(in crate::out) fn none(card: &Card) -> Option<String> {
    let why = &card.no_timeline;
    (!why.is_empty()).then(|| format!("No timeline: {}", typeset::quoted(&clean(why))))
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
        for row in card.timeline.rows.iter().filter(|row| row.at.part == part.id) {
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

/// The axis: moments and where they are drawn.
pub(in crate::out) struct Axis {
    points: Vec<(i64, f64)>,
    /// Longer stretches are cut, in minutes.
    longest: i64,
}

impl Axis {
    pub(in crate::out) fn of(line: &Timeline) -> Axis {
        let mut moments: Vec<i64> = line.rows.iter().flat_map(|row| [row.start, row.end]).collect();
        moments.push(0);
        moments.sort_unstable();
        moments.dedup();
        let longest = if line.span_minutes <= SHORT { SHORT } else { LONG };
        let stretch = |minutes: i64| if minutes > longest { CUT } else { minutes as f64 };
        let total: f64 = moments.windows(2).map(|pair| length(pair, stretch)).sum();
        let scale = if total > 0.0 { (WIDTH - LEFT - 24.0) / total } else { 1.0 };
        let mut x = LEFT;
        let mut points = Vec::with_capacity(moments.len());
        points.extend(moments.first().map(|first| (*first, x)));
        for pair in moments.windows(2) {
            x += length(pair, stretch) * scale;
            points.extend(pair.last().map(|moment| (*moment, x)));
        }
        Axis { points, longest }
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

    /// The places where the axis is broken, because a long stretch is cut short.
    pub(in crate::out) fn breaks(&self) -> Vec<f64> {
        let long = |pair: &[(i64, f64)]| match pair {
            [(from, a), (to, b)] if to - from > self.longest => Some((a + b) / 2.0),
            _ => None,
        };
        self.points.windows(2).filter_map(long).collect()
    }

    /// The breaks that a block lasts through.
    pub(in crate::out) fn breaks_in(&self, row: &TimelineRow) -> Vec<f64> {
        let (from, end) = (self.at(row.start), self.at(row.end));
        self.breaks().into_iter().filter(|x| from < *x && *x < end).collect()
    }

    /// How times are to be read.
    pub(in crate::out) fn note(&self) -> &'static str {
        if self.breaks().is_empty() {
            "Times are hours:minutes from the start, to scale."
        } else {
            "Times are hours:minutes from the start, to scale but at the breaks."
        }
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

/// Hours and minutes from the start.
pub(in crate::out) fn clock(minutes: i64) -> String {
    format!("{}:{:02}", minutes / 60, minutes % 60)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::model::recipe::PartId;
    use crate::model::step::{StepKind, StepRef};

    fn line(steps: &[(&str, i64, i64)]) -> Timeline {
        let row = |(at, (step, start, end)): (usize, &(&str, i64, i64))| TimelineRow {
            at: StepRef { part: PartId(0), step: at },
            part: "dough".to_owned(),
            step: (*step).to_owned(),
            number: at + 1,
            kind: StepKind::Hands,
            start: *start,
            end: *end,
            equipment: None,
            loads: 1,
            hands: end - start,
        };
        let rows: Vec<TimelineRow> = steps.iter().enumerate().map(row).collect();
        let span_minutes = rows.iter().map(|row| row.end).max().unwrap_or(0);
        Timeline { rows, span_minutes, ..Timeline::default() }
    }

    #[test]
    fn minutes_are_alike_everywhere_but_at_a_break() {
        let axis = Axis::of(&line(&[("mix", 0, 15), ("rise", 15, 60), ("chill", 60, 660), ("bake", 660, 680)]));
        let minute = (axis.at(15) - axis.at(0)) / 15.0;
        assert!(((axis.at(60) - axis.at(15)) / 45.0 - minute).abs() < 1e-6);
        assert!(((axis.at(680) - axis.at(660)) / 20.0 - minute).abs() < 1e-6);
        assert!(((axis.at(660) - axis.at(60)) / CUT - minute).abs() < 1e-6, "a night is cut short");
        assert_eq!(axis.breaks().len(), 1);
        let short = Axis::of(&line(&[("mix", 0, 15), ("rise", 15, 200)]));
        assert!(short.breaks().is_empty(), "what is short enough is drawn whole");
    }

    #[test]
    fn a_name_stands_where_it_leaves_the_next_its_number() {
        let timeline = line(&[("mix", 0, 60), ("put away", 60, 62), ("chill", 62, 120)]);
        let axis = Axis::of(&timeline);
        let blocks = timeline.rows.iter().map(|row| Block { row, number: row.number, track: 0 }).collect();
        let labels = Lane { name: "dough", blocks, tracks: 1 }.labels(&axis);
        let words: Vec<&str> = labels.iter().map(|label| label.text.as_str()).collect();
        assert_eq!(words, ["1 mix", "2 put away", "3 chill"]);
        let ends = labels.iter().map(|label| label.x + label.width());
        let next = labels.iter().skip(1).map(|label| label.x);
        assert!(ends.zip(next).all(|(end, next)| end < next), "labels lie over each other");
    }
}
