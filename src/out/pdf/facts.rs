//! What a baker reads off below the strip: pieces, what comes out, hydration, keeping.

use super::Press;
use super::frame::{Block, Flow, Frame, SOFT};
use super::paragraph::{self, Setting, Words};
use super::tags::{Node, Role};
use crate::figures::card::PartCard;
use crate::out::sheet::facts;

/// The facts beside each other, each under its name; what is long below them.
pub(super) fn facts(press: &mut Press<'_>, part: &PartCard, parent: Node) -> Vec<Flow> {
    let all = facts::facts(part);
    let (em, width) = (press.em, press.width());
    let mut frame = Frame::default();
    let (mut x, mut y, mut high) = (0.0_f32, 0.0_f32, 0.0_f32);
    for fact in all.iter().filter(|fact| !fact.is_remark) {
        let term = [Words::new(fact.term, em * 0.82).ink(SOFT)];
        let after = fact.after.as_ref().map_or_else(String::new, |after| format!(", {after}"));
        let said = [Words::new(fact.said.clone(), em * 1.15).bold(), Words::new(after, em * 0.95)];
        let wanted = paragraph::width(press.faces, &said).max(paragraph::width(press.faces, &term)) + 0.5;
        let wide = wanted.min(width);
        if x > 0.0 && x + wide > width {
            (x, y, high) = (0.0, y + high + em * 0.35, 0.0);
        }
        let node = press.tags.add(Some(parent), Role::Paragraph);
        let mut fact = paragraph::set(press.faces, &term, Setting::left(wide, 1.2), Some(node));
        fact.append(paragraph::set(press.faces, &said, Setting::left(wide, 1.2), Some(node)), 0.0, 0.0);
        high = high.max(fact.height);
        frame.place(fact, x, y);
        x += wide + em * 1.6;
    }
    frame.height = y + high;
    for fact in all.iter().filter(|fact| fact.is_remark) {
        let words = [Words::new(format!("{} ", fact.term), em * 0.82).ink(SOFT), Words::new(fact.said.clone(), em)];
        let line = press.paragraph(&words, Setting::left(width, 1.3), parent);
        frame.append(line, 0.0, if frame.height > 0.0 { em * 0.3 } else { 0.0 });
    }
    if frame.height > 0.0 { vec![Flow::One(Block::new(frame, em * 0.6))] } else { Vec::new() }
}
