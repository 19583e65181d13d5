//! Lines of a paragraph: where a text may break (Unicode Standard Annex 14) and what fits.

use super::face::Faces;
use super::frame::{BLACK, Frame, Glyphs, Ink};
use super::tags::Node;
use crate::out::typeset;
use unicode_linebreak::{BreakOpportunity, linebreaks};

/// Words in one style.
#[derive(Debug, Clone)]
pub(super) struct Words {
    pub(super) text: String,
    pub(super) bold: bool,
    pub(super) size: f32,
    pub(super) ink: Ink,
}

impl Words {
    /// Regular and black.
    pub(super) fn new(text: impl Into<String>, size: f32) -> Words {
        Words { text: typeset::words(&text.into()), bold: false, size, ink: BLACK }
    }

    pub(super) fn bold(self) -> Words {
        Words { bold: true, ..self }
    }

    pub(super) fn ink(self, ink: Ink) -> Words {
        Words { ink, ..self }
    }

    /// Words that never break: a figure stays with its unit.
    pub(super) fn unbroken(self) -> Words {
        Words { text: self.text.replace(' ', "\u{A0}"), ..self }
    }
}

/// Where lines stand.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Side {
    Left,
    Right,
}

/// How a paragraph is set.
#[derive(Debug, Clone, Copy)]
pub(super) struct Setting {
    /// The room, in points.
    pub(super) width: f32,
    /// Height of a line in parts of the type size.
    pub(super) leading: f32,
    pub(super) side: Side,
}

impl Setting {
    pub(super) fn left(width: f32, leading: f32) -> Setting {
        Setting { width, leading, side: Side::Left }
    }
}

/// A piece of a line: bytes of one style's words.
#[derive(Debug, Clone, Copy)]
struct Piece {
    style: usize,
    from: usize,
    to: usize,
    width: f32,
    /// Without the space at its end.
    trimmed: f32,
}

/// Sets a paragraph.
pub(super) fn set(faces: &Faces, words: &[Words], setting: Setting, node: Option<Node>) -> Frame {
    let words: Vec<Words> = words.iter().map(|one| Words { text: faces.fit(&one.text), ..one.clone() }).collect();
    let mut frame = Frame::default();
    for line in break_lines(faces, &words, setting.width) {
        set_line(faces, &words, &line, setting, node, &mut frame);
    }
    frame
}

/// The width that words take on one line.
pub(super) fn width(faces: &Faces, words: &[Words]) -> f32 {
    words.iter().map(|one| faces.shape(&faces.fit(&one.text), one.bold).width * one.size).sum()
}

/// The width of the widest part that does not break.
pub(super) fn least_width(faces: &Faces, words: &[Words]) -> f32 {
    let words: Vec<Words> = words.iter().map(|one| Words { text: faces.fit(&one.text), ..one.clone() }).collect();
    let parts = unbroken(faces, &words);
    parts.iter().map(|(pieces, _)| trimmed_width(pieces)).fold(0.0, f32::max)
}

/// Parts that do not break, and whether the line ends after them in any case.
fn unbroken(faces: &Faces, words: &[Words]) -> Vec<(Vec<Piece>, bool)> {
    let mut all = String::new();
    let mut starts = Vec::with_capacity(words.len());
    for one in words {
        starts.push(all.len());
        all.push_str(&one.text);
    }
    let total = all.len();
    let mut parts = Vec::new();
    let mut from = 0;
    // The words in which a part begins: nothing before them is looked at again.
    let mut first = 0;
    for (to, how) in linebreaks(&all) {
        let mut pieces = Vec::new();
        for (style, (one, start)) in words.iter().zip(&starts).enumerate().skip(first) {
            if *start >= to {
                break;
            }
            let (low, high) = (from.max(*start), to.min(start + one.text.len()));
            if low < high {
                first = style;
                pieces.push(piece(faces, one, style, low - start, high - start));
            }
        }
        parts.push((pieces, how == BreakOpportunity::Mandatory && to < total));
        from = to;
    }
    parts
}

fn piece(faces: &Faces, words: &Words, style: usize, from: usize, to: usize) -> Piece {
    let text = words.text.get(from..to).unwrap_or("");
    let width = faces.shape(text, words.bold).width * words.size;
    let short = text.trim_end_matches(' ');
    let trimmed = if short.len() == text.len() { width } else { faces.shape(short, words.bold).width * words.size };
    Piece { style, from, to, width, trimmed }
}

fn trimmed_width(pieces: &[Piece]) -> f32 {
    let all: f32 = pieces.iter().map(|piece| piece.width).sum();
    pieces.last().map_or(0.0, |last| all - last.width + last.trimmed)
}

fn break_lines(faces: &Faces, words: &[Words], room: f32) -> Vec<Vec<Piece>> {
    let mut lines: Vec<Vec<Piece>> = Vec::new();
    let mut line: Vec<Piece> = Vec::new();
    let mut used = 0.0;
    for (part, ends) in unbroken(faces, words) {
        // Kerning over the ends of pieces moves a line by less than this.
        if used + trimmed_width(&part) > room + 0.05 && !line.is_empty() {
            lines.push(std::mem::take(&mut line));
            used = 0.0;
        }
        if trimmed_width(&part) > room {
            for piece in part {
                tear(faces, words, piece, room, &mut line, &mut used, &mut lines);
            }
        } else {
            used += part.iter().map(|piece| piece.width).sum::<f32>();
            line.extend(part);
        }
        if ends {
            lines.push(std::mem::take(&mut line));
            used = 0.0;
        }
    }
    if !line.is_empty() {
        lines.push(line);
    }
    lines
}

/// A word wider than the room is broken anywhere, so that nothing leaves the page.
fn tear(
    faces: &Faces,
    words: &[Words],
    whole: Piece,
    room: f32,
    line: &mut Vec<Piece>,
    used: &mut f32,
    lines: &mut Vec<Vec<Piece>>,
) {
    let Some(style) = words.get(whole.style) else { return };
    let text = style.text.get(whole.from..whole.to).unwrap_or("");
    let mut start = whole.from;
    let ends: Vec<usize> = text.char_indices().skip(1).map(|(at, _)| whole.from + at).chain([whole.to]).collect();
    // How many letters of the word are set.
    let mut set = 0;
    while let Some(rest) = ends.get(set..).filter(|rest| !rest.is_empty()) {
        let is_in = |end: &usize| *used + piece(faces, style, whole.style, start, *end).trimmed <= room;
        let fit = first_that(rest, |end| !is_in(end));
        let last = (set + fit).checked_sub(1).and_then(|last| ends.get(last)).copied().unwrap_or(whole.from);
        if fit == rest.len() {
            break;
        }
        if last > start {
            line.push(piece(faces, style, whole.style, start, last));
            start = last;
        }
        if !line.is_empty() {
            lines.push(std::mem::take(line));
            *used = 0.0;
        }
        // A letter that is wider than the room stands by itself.
        set += fit + 1;
    }
    if start < whole.to {
        let rest = piece(faces, style, whole.style, start, whole.to);
        *used += rest.width;
        line.push(rest);
    }
}

/// The place of the first of some values from which on something is so; their number where it is so of none. What is near is asked first, in steps
/// twice as wide each time: of a word of thousands of letters only a line is looked at.
fn first_that<T>(values: &[T], is_so: impl Fn(&T) -> bool) -> usize {
    let (mut low, mut high) = (0, 1);
    while values.get(high - 1).is_some_and(|value| !is_so(value)) {
        (low, high) = (high, high * 2);
    }
    let between = values.get(low..high.min(values.len())).unwrap_or_default();
    low + between.partition_point(|value| !is_so(value))
}

fn set_line(faces: &Faces, words: &[Words], line: &[Piece], setting: Setting, node: Option<Node>, frame: &mut Frame) {
    let mut runs: Vec<Glyphs> = Vec::new();
    for group in line.chunk_by(|one, next| one.style == next.style && one.to == next.from) {
        let (Some(first), Some(last)) = (group.first(), group.last()) else { continue };
        let Some(style) = words.get(first.style) else { continue };
        let shaped = faces.shape(style.text.get(first.from..last.to).unwrap_or(""), style.bold);
        runs.push(Glyphs { shaped, bold: style.bold, size: style.size, ink: style.ink });
    }
    let size = runs.iter().map(|run| run.size).fold(0.0, f32::max);
    let height = size * setting.leading;
    let (rise, fall) = faces.rise();
    let baseline = frame.height + (height - (rise + fall) * size) / 2.0 + rise * size;
    let spare = (setting.width - trimmed_width(line)).max(0.0);
    let mut x = match setting.side {
        Side::Left => 0.0,
        Side::Right => spare,
    };
    for run in runs {
        let width = run.width();
        frame.set(x, baseline, run, node);
        x += width;
    }
    frame.height += height;
}
