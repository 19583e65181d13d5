//! The sheet of the log to fill in by hand, behind the cards.

use super::frame::{Block, Flow, HAIR, SOFT};
use super::paragraph::{Setting, Words};
use super::{Made, Press, head, plain, sheet_of};
use crate::figures::bakes::blank::Blank;
use crate::out::bakes::sheet::{head as begins, name, room, title};
use crate::out::sheet::{Foot, Sheet};

/// One sheet.
pub(super) fn sheet(press: &mut Press<'_>, blank: &Blank, sheet: &Sheet) -> Made {
    let foot = Foot::plain(&plain(&title(blank)), sheet);
    sheet_of(press, &foot, |press, article| {
        let (em, width) = (press.em, press.width());
        let mut top = head::title(press, &title(blank), None, &[], article);
        let line = press.paragraph(&[Words::new(plain(&begins(blank)), em * 1.1)], Setting::left(width, 1.4), article);
        top.append(line, 0.0, em * 0.4);
        let mut flows = vec![Flow::One(Block::new(top, 0.0))];
        for line in &blank.lines {
            let mut words = vec![Words::new(plain(&name(line)), em).bold()];
            if !line.expected.is_empty() {
                words.push(Words::new(format!("  {}", plain(&line.expected)), em * 0.85).ink(SOFT));
            }
            let (left, right) = (width * 0.46, width * 0.54);
            let mut frame = press.paragraph(&words, Setting::left(left - em, 1.3), article);
            let blanks = press.paragraph(&[Words::new(room(line.of), em)], Setting::left(right, 1.3), article);
            let height = frame.height.max(blanks.height);
            frame.place(blanks, left, 0.0);
            frame.height = height + em * 0.25;
            frame.fill(0.0, frame.height, width, em * 0.04, HAIR);
            flows.push(Flow::One(Block::new(frame, em * 0.3)));
        }
        flows
    })
}
