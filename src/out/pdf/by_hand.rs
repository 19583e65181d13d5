//! Places to write in by hand: rules between words, and boxes to tick.

use super::Press;
use super::frame::{Frame, SOFT};
use super::paragraph::{self, Setting, Words};
use super::tags::{Node, Role};
use crate::out::sheet::by_hand::Blank;

/// Blanks on one line.
pub(super) struct Line {
    pub(super) frame: Frame,
    pub(super) width: f32,
}

/// Sets blanks beside each other; each rule is longer by `more` than it must be.
pub(super) fn line(press: &Press<'_>, all: &[Blank], size: f32, more: f32, node: Node) -> Line {
    let mut line = Line { frame: Frame::of_height(size * 1.3), width: 0.0 };
    for (at, blank) in all.iter().enumerate() {
        if at > 0 {
            line.width += size * 0.9;
        }
        if !blank.before.is_empty() {
            line.word(press, &blank.before, size, node);
            line.width += size * 0.3;
        }
        let room = blank.room.least() as f32 * press.em + more;
        line.frame.fill(line.width, size * 1.1, room, press.em * 0.07, SOFT);
        line.width += room;
        if !blank.after.is_empty() {
            line.width += size * 0.3;
            line.word(press, &blank.after, size, node);
        }
    }
    line
}

impl Line {
    fn word(&mut self, press: &Press<'_>, text: &str, size: f32, node: Node) {
        let words = [Words::new(text, size).ink(SOFT).unbroken()];
        let set = paragraph::set(press.faces, &words, Setting::left(f32::INFINITY, 1.3), Some(node));
        self.frame.place(set, self.width, 0.0);
        self.width += paragraph::width(press.faces, &words);
    }
}

/// Blanks over the whole width.
pub(super) fn across(press: &mut Press<'_>, all: &[Blank], parent: Node) -> Frame {
    let (size, width) = (press.em, press.width());
    let node = press.tags.add(Some(parent), Role::Paragraph);
    let least = line(press, all, size, 0.0, node).width;
    let more = ((width - least) / all.len().max(1) as f32).max(0.0);
    line(press, all, size, more, node).frame
}

/// A box to tick.
pub(super) fn tick(frame: &mut Frame, x: f32, y: f32, side: f32) {
    frame.outline(x, y, side, side, side * 0.1);
}
