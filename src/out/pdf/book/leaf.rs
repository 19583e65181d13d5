//! The pages of a book in their order: which stand at the right, what stands above and below them.

use crate::out::pdf::Press;
use crate::out::pdf::frame::{Frame, SOFT};
use crate::out::pdf::pages::{Page, one_line};
use crate::out::pdf::paragraph::{Side, Words};

/// A page, and what its running head says; a page without one has no number either.
struct Leaf {
    page: Page,
    running: Option<String>,
}

/// Pages in their order. The first is a right-hand page, and so is every other.
#[derive(Default)]
pub(super) struct Leaves(Vec<Leaf>);

impl Leaves {
    /// How many there are; the next one has the number after it.
    pub(super) fn count(&self) -> usize {
        self.0.len()
    }

    /// Pages without head and number: titles.
    pub(super) fn silent(&mut self, pages: Vec<Page>) {
        self.0.extend(pages.into_iter().map(|page| Leaf { page, running: None }));
    }

    /// Pages with a running head.
    pub(super) fn running(&mut self, pages: Vec<Page>, words: &str) {
        self.0.extend(pages.into_iter().map(|page| Leaf { page, running: Some(words.to_owned()) }));
    }

    /// Leaves a page free where the next would be one at the left.
    pub(super) fn turn_to_the_right(&mut self) {
        if self.count() % 2 == 1 {
            self.silent(vec![Page::of(Vec::new())]);
        }
    }

    /// Keeps so many pages for what is put there later.
    pub(super) fn reserve(&mut self, pages: usize) {
        self.running((0..pages).map(|_| Page::of(Vec::new())).collect(), "Contents");
    }

    /// Puts pages where some were kept.
    pub(super) fn put(&mut self, first: usize, pages: Vec<Page>) {
        for (leaf, page) in self.0.iter_mut().skip(first).zip(pages) {
            leaf.page = page;
        }
    }

    /// The pages with heads and numbers: the book's title at the left, what stands there at the right, numbers outside; what is
    /// bound has room at its inner side.
    pub(super) fn finish(self, press: &mut Press<'_>, title: &str, shift: f32) -> Vec<Page> {
        let (em, width) = (press.em, press.width());
        let mut pages = Vec::with_capacity(self.0.len());
        for (number, leaf) in (1..).zip(self.0) {
            let mut page = leaf.page;
            let is_right = number % 2 == 1;
            page.shift = if is_right { shift } else { -shift };
            if let Some(words) = leaf.running {
                let (words, side) = if is_right { (words, Side::Right) } else { (title.to_owned(), Side::Left) };
                let line = one_line(press, &[Words::new(words, em * 0.85).ink(SOFT)], width, side).unwrap_or_default();
                let mut head = Frame::default();
                head.place(line, 0.0, -em * 2.3);
                page.head = Some(head);
                let digits = [Words::new(number.to_string(), em * 0.95).bold()];
                let mut foot = Frame::default();
                foot.place(one_line(press, &digits, width, side).unwrap_or_default(), 0.0, em);
                page.foot.push((0.0, foot));
            }
            pages.push(page);
        }
        pages
    }
}
