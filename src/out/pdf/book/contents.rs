//! The contents of a book: chapters and recipes with the numbers of their pages, which one can follow on a screen.

use super::heading;
use crate::out::pdf::frame::{Block, Drawn, Flow, Frame, Item, SOFT};
use crate::out::pdf::paragraph::{self, Setting, Side, Words};
use crate::out::pdf::tags::{Node, Role, Tags};
use crate::out::pdf::{Press, pages};

/// A line of the contents.
pub(super) struct Line {
    pub(super) words: String,
    /// The number of the page, from 1.
    pub(super) page: usize,
    pub(super) is_chapter: bool,
}

impl Line {
    pub(super) fn chapter(words: String, page: usize) -> Line {
        Line { words, page, is_chapter: true }
    }

    pub(super) fn recipe(words: String, page: usize) -> Line {
        Line { words, page, is_chapter: false }
    }
}

/// How many pages the contents take: that hangs on their words and not on the numbers.
pub(super) fn pages_of(press: &Press<'_>, lines: &[Line]) -> usize {
    let geometry = press.geometry;
    let mut trial = Press { faces: press.faces, tags: Tags::default(), geometry, em: press.em, label_node: None };
    let node = trial.tags.add(None, Role::Section);
    let flows = set(&mut trial, lines, node);
    pages::fill_bare(&trial, &flows).len()
}

/// Sets the contents.
pub(super) fn set(press: &mut Press<'_>, lines: &[Line], parent: Node) -> Vec<Flow> {
    let em = press.em;
    let title = heading(press, "Contents", 2.2, 1, parent);
    let mut flows = vec![Flow::One(Block::new(title, 0.0).kept())];
    let list = press.tags.add(Some(parent), Role::Contents);
    for (at, line) in lines.iter().enumerate() {
        let item = press.tags.add(Some(list), Role::ContentsItem);
        let above = match (line.is_chapter, at) {
            (_, 0) => em * 1.6,
            (true, _) => em * 1.1,
            (false, _) => em * 0.3,
        };
        let mut words = Words::new(line.words.clone(), if line.is_chapter { em * 1.1 } else { em });
        words.bold = line.is_chapter;
        let width = press.width();
        let frame = led(press, words, line.page, (0.0, width), item);
        let block = Block::new(frame, above);
        // A chapter's name stays with its first recipe.
        let has_recipe = line.is_chapter && lines.get(at + 1).is_some_and(|next| !next.is_chapter);
        flows.push(Flow::One(if has_recipe { block.kept() } else { block }));
    }
    flows
}

/// Words, and at the right the number of a page, with dots that lead there; so far from the left, in a column so wide.
pub(super) fn led(
    press: &mut Press<'_>,
    words: Words,
    page: usize,
    (indent, width): (f32, f32),
    parent: Node,
) -> Frame {
    let size = words.size;
    let link = press.tags.add(Some(parent), Role::Link);
    let digits = [Words { text: page.to_string(), ..words.clone() }];
    // Room for four digits, so that lines break where they do before the numbers are known.
    let side = size * 2.6;
    let said = paragraph::set(press.faces, &[words], Setting::left(width - indent - side, 1.3), Some(link));
    let setting = Setting { width: side, leading: 1.3, side: Side::Right };
    let number = paragraph::set(press.faces, &digits, setting, Some(link));
    let mut frame = Frame::of_height(said.height);
    let last = said.height - number.height;
    let end = last_end(&said) + indent + size * 0.5;
    let until = width - paragraph::width(press.faces, &digits) - size * 0.5;
    frame.place(said, indent, 0.0);
    frame.place(number, width - side, last);
    let dot = [Words::new(".", size).ink(SOFT)];
    let step = size * 0.62;
    // Dots stand below each other from line to line.
    let mut x = until - (until / step).fract() * step - step;
    while x >= end {
        frame.place(paragraph::set(press.faces, &dot, Setting::left(step, 1.3), None), x, last);
        x -= step;
    }
    let height = frame.height;
    frame.items.push(Item { drawn: Drawn::Link(0.0, 0.0, width, height, page.saturating_sub(1)), node: Some(link) });
    frame
}

/// Where the last line of a paragraph ends.
fn last_end(frame: &Frame) -> f32 {
    let ends = frame.items.iter().filter_map(|item| match &item.drawn {
        Drawn::Text(x, y, run) => Some((*y, x + run.width())),
        _ => None,
    });
    ends.fold((f32::MIN, 0.0_f32), |(y, x), (next, end)| if next > y { (next, end) } else { (y, x.max(end)) }).1
}
