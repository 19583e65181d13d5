//! How a recipe begins on paper: title, author, story, picture, what it makes, allergens and cautions.

use super::{Setter, WORDS};
use crate::figures::reader::{OtherWay, ReaderPage};
use crate::language::prose::Prose;
use crate::out::pdf::frame::{BLACK, Block, Flow, Frame, HAIR, SOFT};
use crate::out::pdf::paragraph::{self, Setting, Words};
use crate::out::pdf::plain;
use crate::out::pdf::plates::{self, Room};
use crate::out::pdf::prose::{self, Look};
use crate::out::pdf::tags::{Node, Role};
use crate::out::reader::{also_contains, opening_facts, unknown};

impl Setter<'_, '_> {
    /// All that stands above the ingredients.
    pub(super) fn opening(&mut self, page: &ReaderPage, parent: Node) -> Vec<Flow> {
        let (size, width) = (self.layout.size, self.press.width());
        let title = self.heading(&page.title, 2.4, (self.layout.level, width), parent);
        let mut flows = vec![Flow::One(Block::new(title, 0.0).kept())];
        let mut put = |frame: Frame, above: f32| {
            if frame.height > 0.0 {
                flows.push(Flow::One(Block::new(frame, above)));
            }
        };
        if let Some(by) = &page.by {
            let words = [Words::new(format!("By {}", plain(by)), size * 1.1).ink(SOFT)];
            put(self.press.paragraph(&words, Setting::left(width, 1.3), parent), size * 0.3);
        }
        let scale = 1.12;
        let look = Look { size: size * scale, width: (size * scale * WORDS).min(width), bold: false };
        for one in &page.story {
            put(prose::set(self.press, one, &[], look, parent), size * 0.8);
        }
        let room = Room { width, height: self.layout.picture };
        for picture in &page.pictures {
            if let Some(plate) = plates::set(self.press, self.plates, picture, (room, 0.0), parent) {
                put(plate.frame, size * 1.1);
            }
        }
        put(self.facts(page, parent), size * 1.1);
        put(self.care(page, parent), size * 0.9);
        flows
    }

    /// What it makes and how long it takes, between two hairlines: what it is small above the figure.
    fn facts(&mut self, page: &ReaderPage, parent: Node) -> Frame {
        let all = opening_facts(page);
        if all.is_empty() {
            return Frame::default();
        }
        let (size, width) = (self.layout.size, self.press.width());
        let group = self.press.tags.add(Some(parent), Role::Group);
        let mut frame = Frame::default();
        frame.fill(0.0, 0.0, width, size * 0.06, HAIR);
        let (mut x, mut y, mut high) = (0.0_f32, size * 0.55, 0.0_f32);
        for (what, words) in all {
            let label = [Words::new(what, size * 0.85).ink(SOFT)];
            let said = [Words::new(plain(&words), size * 1.15).bold()];
            let natural = paragraph::width(self.press.faces, &label).max(paragraph::width(self.press.faces, &said));
            let wide = (natural + 0.5).min(width);
            if x > 0.0 && x + wide > width {
                (x, y, high) = (0.0, y + high + size * 0.4, 0.0);
            }
            let pair = self.press.tags.add(Some(group), Role::Group);
            let mut cell = self.press.paragraph(&label, Setting::left(wide, 1.25), pair);
            let said = self.press.paragraph(&said, Setting::left(wide, 1.25), pair);
            cell.append(said, 0.0, 0.0);
            high = high.max(cell.height);
            frame.place(cell, x, y);
            x += wide + size * 2.2;
        }
        frame.height = y + high + size * 0.5;
        frame.fill(0.0, frame.height, width, size * 0.06, HAIR);
        frame.height += size * 0.06;
        frame
    }

    /// Allergens, and what can hurt, a line each beside a bar.
    fn care(&mut self, page: &ReaderPage, parent: Node) -> Frame {
        let contains = (!page.allergens.is_empty()).then(|| ["Contains ".to_owned(), page.allergens.join(", ")]);
        self.care_of(contains, (&page.allergens_unknown, &page.cautions), parent)
    }

    /// The same of another way: what it brings besides.
    pub(super) fn care_of_other(&mut self, other: &OtherWay, parent: Node) -> Frame {
        let contains = also_contains(other).map(|words| [words, String::new()]);
        self.care_of(contains, (&other.allergens_unknown, &other.cautions), parent)
    }

    fn care_of(
        &mut self,
        contains: Option<[String; 2]>,
        (not_known, cautions): (&[String], &[Prose]),
        parent: Node,
    ) -> Frame {
        let size = self.layout.size;
        let width = (size * (WORDS + 0.8)).min(self.press.width()) - size * 0.8;
        let group = self.press.tags.add(Some(parent), Role::Group);
        let mut inner = Frame::default();
        if let Some([words, names]) = contains {
            let words = [Words::new(plain(&words), size).bold(), Words::new(plain(&names), size)];
            inner.append(self.press.paragraph(&words, Setting::left(width, 1.35), group), 0.0, 0.0);
        }
        if let Some(words) = unknown(not_known) {
            let words = [Words::new(plain(&words), size)];
            inner.append(self.press.paragraph(&words, Setting::left(width, 1.35), group), 0.0, 0.0);
        }
        for one in cautions {
            let gap = if inner.height > 0.0 { size * 0.25 } else { 0.0 };
            inner.append(prose::set(self.press, one, &[], Look { size, width, bold: false }, group), 0.0, gap);
        }
        barred(inner, size)
    }
}

/// Something beside a bar as high as it.
pub(super) fn barred(inner: Frame, size: f32) -> Frame {
    if inner.height <= 0.0 {
        return Frame::default();
    }
    let mut frame = Frame::of_height(inner.height);
    frame.fill(0.0, 0.0, size * 0.28, inner.height, BLACK);
    frame.place(inner, size * 0.8, 0.0);
    frame
}
