//! What a baker reads off below the strip: pieces, what comes out, hydration, keeping.

use super::frame::{Block, Flow, Frame, HAIR, SOFT};
use super::paragraph::{self, Setting, Words};
use super::tags::{Node, Role};
use super::{Press, by_hand};
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
        let node = press.tags.add(Some(parent), Role::Paragraph);
        let blank = fact.blank.as_ref().map(|blank| by_hand::line(press, std::slice::from_ref(blank), em, 0.0, node));
        let said_wide = paragraph::width(press.faces, &said);
        let wanted = said_wide.max(paragraph::width(press.faces, &term)) + 0.5;
        let beside = blank.as_ref().map_or(0.0, |blank| em * 0.8 + blank.width);
        let wide = (wanted.max(said_wide + beside)).min(width);
        if x > 0.0 && x + wide > width {
            (x, y, high) = (0.0, y + high + em * 0.35, 0.0);
        }
        let mut fact = paragraph::set(press.faces, &term, Setting::left(wide, 1.2), Some(node));
        fact.append(paragraph::set(press.faces, &said, Setting::left(wide, 1.2), Some(node)), 0.0, 0.0);
        if let Some(blank) = blank {
            let top = fact.height - em * 1.42;
            fact.place(blank.frame, said_wide + em * 0.8, top);
        }
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
    if let Some(table) = facts::water(part) {
        let set = water(press, &table, parent);
        frame.append(set, 0.0, if frame.height > 0.0 { em * 0.6 } else { 0.0 });
    }
    if frame.height > 0.0 { vec![Flow::One(Block::new(frame, em * 0.6))] } else { Vec::new() }
}

/// The water, room by room: the row that is read at the mixer is large.
fn water(press: &mut Press<'_>, water: &facts::Water, parent: Node) -> Frame {
    let (em, width) = (press.em, press.width());
    let caption = [Words::new(water.caption.clone(), em * 0.9).ink(SOFT)];
    let mut frame = press.paragraph(&caption, Setting::left(width, 1.25), parent);
    let node = press.tags.add(Some(parent), Role::Table(water.caption.clone()));
    let body = press.tags.add(Some(node), Role::TableBody);
    let columns = water.rows.iter().map(|row| row.cells.len()).max().unwrap_or(0).max(1) as f32;
    let side = em * 9.0;
    let wide = ((width - side) / columns).min(em * 7.0);
    for one in &water.rows {
        let row_node = press.tags.add(Some(body), Role::Row);
        let (head_size, size) = if one.is_large { (em * 1.25, em * 1.5) } else { (em * 0.9, em * 1.1) };
        let mut head = Words::new(one.head.clone(), head_size);
        head.bold = one.is_large;
        let mut row = press.tagged(&[head], Setting::left(side - em * 0.6, 1.2), row_node, Role::RowHead);
        for (at, cell) in one.cells.iter().enumerate() {
            let mut words = Words::new(cell.clone(), size).unbroken();
            words.bold = one.is_large;
            let fits = paragraph::width(press.faces, std::slice::from_ref(&words)).max(1.0);
            words.size *= ((wide - em * 0.5) / fits).min(1.0);
            let set = press.tagged(&[words], Setting::left(wide, 1.2), row_node, Role::Cell);
            row.height = row.height.max(set.height);
            row.place(set, side + at as f32 * wide, 0.0);
        }
        row.height += em * 0.12;
        row.fill(0.0, row.height, side + columns * wide, em * 0.06, HAIR);
        frame.append(row, 0.0, em * 0.12);
    }
    if !water.why.is_empty() {
        let why = [Words::new(water.why.clone(), em * 0.9).ink(SOFT)];
        let line = press.paragraph(&why, Setting::left(width, 1.25), parent);
        frame.append(line, 0.0, em * 0.25);
    }
    frame
}
