//! Two columns of which each goes on over the page for itself: ingredients beside the steps.

use super::Filler;
use crate::out::pdf::frame::{Beside, Block};
use std::collections::VecDeque;

/// Frames may be higher than the room by this, in points: sums of lengths are not exact.
const SLACK: f32 = 0.05;

/// What stands in a column, and how far from the left.
struct Column {
    x: f32,
    blocks: VecDeque<Block>,
}

impl Filler<'_, '_> {
    /// Fills both columns, page for page, and goes on below the longer one.
    pub(super) fn beside(&mut self, both: Beside) {
        if self.begun {
            let above = both.above;
            if above + beginning(&both, self.continued_room()) > self.left() {
                self.next_page();
            } else {
                self.y += above;
            }
        }
        let mut columns =
            [Column { x: 0.0, blocks: both.left.into() }, Column { x: both.at, blocks: both.right.into() }];
        loop {
            let (top, is_fresh) = (self.y, !self.begun);
            let mut lowest = top;
            for column in &mut columns {
                lowest = lowest.max(self.column(column, top, is_fresh));
            }
            self.y = lowest;
            if columns.iter().all(|column| column.blocks.is_empty()) {
                return;
            }
            self.next_page();
        }
    }

    /// Puts into a column what the page has room for, and says how far down it is filled. On a page on which nothing stands
    /// something always goes in, if it has to be cut.
    fn column(&mut self, column: &mut Column, top: f32, is_fresh: bool) -> f32 {
        let room = self.geometry.height - top;
        let mut used = 0.0;
        while let Some(block) = column.blocks.pop_front() {
            let gap = if used > 0.0 { block.above } else { 0.0 };
            let needs = chain(std::iter::once(&block).chain(&column.blocks), self.continued_room());
            let fits = used + gap + needs <= room + SLACK;
            let begins = used == 0.0 && is_fresh;
            if !fits && !begins {
                column.blocks.push_front(block);
                break;
            }
            if block.frame.height > room + SLACK {
                let above = block.above;
                let (upper, lower) = block.frame.cut(room);
                self.y = top;
                self.put(column.x, upper);
                column.blocks.push_front(Block::new(lower, above));
                return top + room;
            }
            self.y = top + used + gap;
            used += gap + block.frame.height;
            self.put(column.x, block.frame);
        }
        top + used
    }
}

/// How much room the first of both columns needs, so that neither begins where only its heading fits.
pub(super) fn beginning(both: &Beside, most: f32) -> f32 {
    chain(both.left.iter(), most).max(chain(both.right.iter(), most))
}

/// How high a block is with those that it must stay with; by itself where all of them are more than a page.
fn chain<'a>(mut blocks: impl Iterator<Item = &'a Block>, most: f32) -> f32 {
    let Some(first) = blocks.next() else { return 0.0 };
    let mut height = first.frame.height;
    let mut keep = first.keep;
    while keep {
        let Some(next) = blocks.next() else { break };
        height += next.above + next.frame.height;
        keep = next.keep;
    }
    if height > most { first.frame.height } else { height }
}
