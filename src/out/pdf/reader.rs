//! A recipe for readers on paper: title, story and picture, what it makes, then ingredients beside the steps, or above them where
//! the paper is narrow.

mod opening;

use super::frame::{Beside, Block, Flow, Frame, HAIR, Ink, SOFT};
use super::pages::{self, Page};
use super::paragraph::{self, Setting, Words};
use super::plates::{self, Plates, Room};
use super::prose::{self, Look};
use super::tags::{Node, Role, Tags};
use super::{Made, NoPdf, Pdf, Press, plain, print, sheet_of};
use crate::figures::reader::{Day, Group, OtherWay, ReaderPage, Row, StandIn, Step};
use crate::language::prose::Prose;
use crate::measure::shown::Shown;
use crate::model::published::Picture;
use crate::out::reader::{day_name, end_facts, left_out, other_facts, other_title, step_facts};
use crate::out::sheet::{Foot, Sheet};
use crate::out::shrink::Shrunk;

/// How wide steps are set at most with their numbers, in parts of the type's size: 60 to 70 letters, which is what one reads well
/// (Bringhurst, The Elements of Typographic Style, from memory: 45 to 75, with 66 as the ideal).
const MEASURE: f32 = 33.0;

/// The same for words without a number beside them.
const WORDS: f32 = 30.5;

/// How narrow a column of ingredients may be, in parts of the type's size; narrower, they stand above the steps.
const NARROWEST: f32 = 12.5;

/// How large pictures and type are by turns, where that saves a sheet and nobody misses anything. In a book all type looks alike so.
const SIZES: [(f32, f32); 3] = [(1.0, 1.0), (0.85, 0.98), (0.7, 0.95)];

/// The same until a recipe stands on two sheets.
const SIZES_TIGHT: [(f32, f32); 4] = [(0.5, 0.95), (0.5, 0.89), (0.4, 0.86), (0.35, 0.83)];

/// How many sheets a recipe may take before all of it is set smaller.
const SHEETS: usize = 2;

/// How a recipe is set.
#[derive(Debug, Clone, Copy)]
struct Layout {
    /// The size of its type, in points.
    size: f32,
    /// The level of its title among the headings.
    level: u16,
    /// How high a picture of the whole may be, in points.
    picture: f32,
    /// Where the steps begin, where the ingredients stand beside them.
    beside: Option<f32>,
    /// The room of the steps.
    measure: f32,
}

impl Layout {
    /// The layout for the paper.
    fn of(press: &Press<'_>, size: f32, level: u16, pictures: f32) -> Layout {
        let (width, gutter) = (press.width(), size * 2.2);
        let measure = (size * MEASURE).min(width);
        // Where paper is a little too narrow for both, the steps give way.
        let least = size * MEASURE * 0.85;
        let list = (width - gutter - measure).max(size * NARROWEST).min(size * MEASURE * 0.6);
        let beside = (width - gutter - list >= least).then_some(list + gutter);
        let measure = beside.map_or(measure, |at| measure.min(width - at));
        Layout { size, level, picture: press.geometry.height * 0.27 * pictures, beside, measure }
    }

    /// The room of a column of ingredients.
    fn list(&self, press: &Press<'_>) -> f32 {
        self.beside.map_or_else(|| press.geometry.half(), |at| at - self.size * 2.2)
    }

    fn heading(&self, below: u16) -> u16 {
        self.level + below
    }
}

/// Renders recipes for readers, each on sheets of its own.
///
/// # Errors
/// When the document cannot be written by the rules of PDF/UA-1.
pub fn render_reader(recipes: &[ReaderPage], pictures: &[(Picture, Shrunk)], sheet: &Sheet) -> Result<Pdf, NoPdf> {
    let plates = Plates::new(pictures)?;
    let titles: Vec<String> = recipes.iter().map(|one| plain(&one.title)).collect();
    print(&titles.join(", "), sheet, |press| {
        // Small type is for the hand: it is set a little larger than the bench's figures are.
        let size = press.em * if sheet.compact { 1.14 } else { 1.05 };
        recipes.iter().map(|one| made(press, one, &plates, size, sheet)).collect()
    })
}

/// A recipe, with its pictures and its type as large as two sheets allow.
fn made(press: &mut Press<'_>, page: &ReaderPage, plates: &Plates, size: f32, sheet: &Sheet) -> Made {
    let foot = Foot::plain(&page.title, sheet);
    let set = |press: &mut Press<'_>, (pictures, type_size): (f32, f32)| {
        let layout = Layout::of(press, size * type_size, 1, pictures);
        sheet_of(press, &foot, |press, article| recipe(press, page, plates, layout, article))
    };
    let sheets = |trial: &mut Press<'_>, sizes: (f32, f32)| {
        let made = set(trial, sizes);
        pages::fill(trial, made).len()
    };
    let (best, count) = fewest(press, &SIZES, 1, sheets);
    let best = if count > SHEETS { fewest(press, &SIZES_TIGHT, SHEETS, sheets).0 } else { best };
    set(press, best)
}

/// A recipe of a book, set so that it takes as few pages as it can.
pub(super) fn bound(press: &mut Press<'_>, page: &ReaderPage, plates: &Plates, level: u16, node: Node) -> Vec<Page> {
    let size = press.em;
    let set = |press: &mut Press<'_>, (pictures, type_size): (f32, f32), node: Node| {
        let layout = Layout::of(press, size * type_size, level, pictures);
        let flows = recipe(press, page, plates, layout, node);
        pages::fill_bare(press, &flows)
    };
    let (best, _) = fewest(press, &SIZES, 1, |trial, sizes| {
        let node = trial.tags.add(None, Role::Article);
        set(trial, sizes, node).len()
    });
    set(press, best, node)
}

/// The first of some sizes, from large to small, with which no more pages are filled than are fine, or than with the smallest; and how
/// many those are.
fn fewest(
    press: &Press<'_>,
    sizes: &[(f32, f32)],
    fine: usize,
    count: impl Fn(&mut Press<'_>, (f32, f32)) -> usize,
) -> ((f32, f32), usize) {
    let tried = |size: (f32, f32)| {
        let geometry = press.geometry;
        let mut trial = Press { faces: press.faces, tags: Tags::default(), geometry, em: press.em, label_node: None };
        (size, count(&mut trial, size))
    };
    let [first, between @ .., last] = sizes else { return tried((1.0, 1.0)) };
    let whole = tried(*first);
    if whole.1 <= fine {
        return whole;
    }
    let least = tried(*last);
    if least.1 >= whole.1 {
        return whole;
    }
    between.iter().map(|size| tried(*size)).find(|one| one.1 <= least.1.max(fine)).unwrap_or(least)
}

/// A recipe as what pages are filled with.
fn recipe(press: &mut Press<'_>, page: &ReaderPage, plates: &Plates, layout: Layout, parent: Node) -> Vec<Flow> {
    let mut setter = Setter { press, plates, layout };
    let mut flows = setter.opening(page, parent);
    let list = setter.press.tags.add(Some(parent), Role::Section);
    let method = setter.press.tags.add(Some(parent), Role::Section);
    let groups = setter.ingredients(page, list, &mut flows);
    let mut steps = Vec::new();
    for day in &page.way.days {
        steps.extend(setter.day(page, day, method));
    }
    setter.bench(groups, steps, &mut flows);
    for other in &page.others {
        setter.other_way(other, parent, &mut flows);
    }
    setter.ends(page, parent, &mut flows);
    setter.texts(&page.notes, 1.0, parent, &mut flows);
    setter.texts(&page.credits, 0.86, parent, &mut flows);
    flows
}

/// What a recipe is set with.
struct Setter<'a, 'p> {
    press: &'a mut Press<'p>,
    plates: &'a Plates,
    layout: Layout,
}

impl Setter<'_, '_> {
    /// The ingredients under their heading, which goes over both columns where they stand above the steps.
    fn ingredients(&mut self, page: &ReaderPage, parent: Node, flows: &mut Vec<Flow>) -> Vec<Block> {
        let (size, level) = (self.layout.size, self.layout.heading(1));
        let width = self.layout.list(self.press);
        let title = self.heading("Ingredients", 1.4, (level, width), parent);
        if self.layout.beside.is_some() {
            return self.groups(&page.way.groups, title, parent);
        }
        flows.push(Flow::One(Block::new(title, size * 1.5).kept()));
        self.groups(&page.way.groups, Frame::default(), parent)
    }

    /// Ingredients and steps: beside each other, or the ones above the others in two columns.
    fn bench(&mut self, groups: Vec<Block>, steps: Vec<Block>, flows: &mut Vec<Flow>) {
        let above = self.layout.size * 1.5;
        match self.layout.beside {
            Some(at) => flows.push(Flow::Beside(Beside { left: groups, right: steps, at, above })),
            None => {
                if !groups.is_empty() {
                    flows.push(Flow::One(Block::new(Frame::of_height(self.layout.size * 0.4), 0.0).kept()));
                    flows.push(Flow::Two(groups));
                }
                let first = steps.into_iter().enumerate();
                let moved = first.map(|(at, block)| if at == 0 { Block { above, ..block } } else { block });
                flows.extend(moved.map(Flow::One));
            }
        }
    }

    fn heading(&mut self, words: &str, scale: f32, (level, width): (u16, f32), parent: Node) -> Frame {
        let name = plain(words);
        let set = [Words::new(name.clone(), self.layout.size * scale).bold()];
        self.press.tagged(&set, Setting::left(width, 1.15), parent, Role::Heading(level, name))
    }

    /// The ingredients part by part, a block a line; each heading is on a page with the first line below it.
    fn groups(&mut self, groups: &[Group], title: Frame, parent: Node) -> Vec<Block> {
        let (size, width) = (self.layout.size, self.layout.list(self.press));
        let mut blocks: Vec<Block> = Vec::new();
        let level = self.layout.heading(1);
        let mut head = title;
        for group in groups {
            if group.is_headed {
                let gap = if head.height > 0.0 { size * 0.55 } else { 0.0 };
                let name = self.heading(&group.part, 1.06, (level + 1, width), parent);
                head.append(name, 0.0, gap);
            }
            let list = self.press.tags.add(Some(parent), Role::List(false));
            for (at, row) in group.rows.iter().enumerate() {
                let above = if at == 0 && !blocks.is_empty() { size * 0.95 } else { 0.0 };
                let mut frame = std::mem::take(&mut head);
                let gap = if frame.height > 0.0 { size * 0.3 } else { 0.0 };
                frame.append(self.row(row, width, list), 0.0, gap);
                blocks.push(Block::new(frame, above));
            }
            let small = size * 0.88;
            let beside = group.divided_words().into_iter().chain(group.stand_ins.iter().map(StandIn::words));
            for one in beside {
                let words = [Words::new(plain(&one), small)];
                let frame = self.press.paragraph(&words, Setting::left(width, 1.3), parent);
                blocks.push(Block::new(frame, size * 0.35));
            }
            for one in &group.cautions {
                let frame = self.minded(one, small, width, parent);
                blocks.push(Block::new(frame, size * 0.4));
            }
            for one in &group.notes {
                let look = Look { size: small, width, bold: false };
                blocks.push(Block::new(prose::set(self.press, one, &[], look, parent), size * 0.4));
            }
            let room = Room { width, height: self.layout.picture * 0.7 };
            for picture in &group.pictures {
                blocks.extend(plates::set(self.press, self.plates, picture, (room, 0.0), parent));
            }
        }
        if head.height > 0.0 {
            blocks.push(Block::new(head, 0.0));
        }
        blocks
    }

    /// An ingredient, over a hairline: the amounts stand out, the author's first.
    fn row(&mut self, row: &Row, width: f32, list: Node) -> Frame {
        let size = self.layout.size;
        let item = self.press.tags.add(Some(list), Role::ListItem);
        let body = self.press.tags.add(Some(item), Role::ListBody);
        let mut words = Vec::new();
        if let Some(first) = row.first() {
            words.push(Words::new(first.to_string(), size).bold().unbroken());
        }
        words.push(Words::new(plain(&row.behind(Shown::unbroken)), size));
        let said = self.press.paragraph(&words, Setting::left(width, 1.28), body);
        let mut frame = Frame::of_height(size * 0.2);
        frame.append(said, 0.0, 0.0);
        frame.height += size * 0.2;
        frame.fill(0.0, frame.height, width, size * 0.05, HAIR);
        frame
    }

    /// The steps of a day.
    fn day(&mut self, page: &ReaderPage, day: &Day, parent: Node) -> Vec<Block> {
        let measure = self.layout.measure;
        let level = self.layout.heading(1);
        let name = self.heading(&day_name(page, day.number), 1.4, (level, measure), parent);
        let above = if day.number > 1 { self.layout.size * 1.6 } else { 0.0 };
        let mut blocks = vec![Block::new(name, above).kept()];
        blocks.extend(self.steps(&day.steps, parent));
        blocks
    }

    fn steps(&mut self, all: &[Step], parent: Node) -> Vec<Block> {
        let list = self.press.tags.add(Some(parent), Role::List(true));
        let mut blocks = Vec::new();
        for (number, step) in (1..).zip(all) {
            blocks.extend(self.step(number, step, list));
        }
        blocks
    }

    /// A step: its number at the left, its name and when and where, what is done, by what one sees that it is done, its pictures.
    fn step(&mut self, number: usize, step: &Step, list: Node) -> Vec<Block> {
        let size = self.layout.size;
        let indent = size * 2.0;
        let width = self.layout.measure - indent;
        let item = self.press.tags.add(Some(list), Role::ListItem);
        let label = self.press.tags.add(Some(item), Role::Label);
        let body = self.press.tags.add(Some(item), Role::ListBody);
        let digits = [Words::new(number.to_string(), size * 1.12).bold().ink(Ink::Mark)];
        let digits = paragraph::set(self.press.faces, &digits, Setting::left(f32::INFINITY, 1.25), Some(label));
        let mut words = vec![Words::new(plain(&step.name), size * 1.02).bold()];
        words.push(Words::new("\u{2002}", size));
        words.push(Words::new(plain(&step_facts(step)), size * 0.88).ink(SOFT));
        let mut right = self.press.paragraph(&words, Setting::left(width, 1.32), body);
        let look = Look { size, width, bold: false };
        let said = prose::set(self.press, &step.prose, &[], look, body);
        right.append(said, 0.0, size * 0.15);
        if !step.cue.is_empty() {
            let inset = size * 0.75;
            let look = Look { width: width - inset, ..look };
            let cue = prose::set(self.press, &step.cue, &[Words::new("Until ", size)], look, body);
            let top = right.height + size * 0.35;
            right.fill(0.0, top, size * 0.16, cue.height, Ink::Mark);
            right.append(cue, inset, size * 0.35);
        }
        let mut frame = Frame::of_height(right.height.max(digits.height));
        frame.place(digits, 0.0, 0.0);
        frame.place(right, indent, 0.0);
        let mut blocks = vec![Block::new(frame, size * 0.85)];
        let room = Room { width, height: self.layout.picture * 0.6 };
        for picture in &step.pictures {
            let plate = plates::set(self.press, self.plates, picture, (room, indent), body);
            if let (Some(plate), Some(last)) = (plate, blocks.last_mut()) {
                last.keep = true;
                blocks.push(plate);
            }
        }
        blocks
    }

    /// What is otherwise when another option is taken.
    fn other_way(&mut self, other: &OtherWay, parent: Node, flows: &mut Vec<Flow>) {
        let (size, width) = (self.layout.size, self.press.width());
        let section = self.press.tags.add(Some(parent), Role::Section);
        let level = self.layout.heading(1);
        let mut head = Frame::default();
        head.fill(0.0, 0.0, width, size * 0.06, HAIR);
        head.height = size * 0.7;
        let name = self.heading(&other_title(other), 1.4, (level, width), section);
        head.append(name, 0.0, 0.0);
        if let Some(words) = other_facts(other) {
            let words = [Words::new(words, size).ink(SOFT)];
            let line = self.press.paragraph(&words, Setting::left(width, 1.35), section);
            head.append(line, 0.0, size * 0.25);
        }
        let care = self.care_of_other(other, section);
        if care.height > 0.0 {
            head.append(care, 0.0, size * 0.4);
        }
        flows.push(Flow::One(Block::new(head, size * 1.6).kept()));
        let mut groups = self.groups(&other.groups, Frame::default(), section);
        if let Some(words) = left_out(other) {
            let list = self.layout.list(self.press);
            let frame = self.press.paragraph(&[Words::new(plain(&words), size)], Setting::left(list, 1.3), section);
            groups.push(Block::new(frame, size * 0.5));
        }
        let steps = self.steps(&other.steps, section);
        self.bench(groups, steps, flows);
        self.texts(&other.notes, 1.0, section, flows);
    }

    /// What stands at the end: tools, keeping, energy, shelf; what it is at the left, the words at the right.
    fn ends(&mut self, page: &ReaderPage, parent: Node, flows: &mut Vec<Flow>) {
        let (size, width) = (self.layout.size, self.press.width());
        let at = self.layout.beside.unwrap_or(size * 9.0);
        for (number, (what, words)) in end_facts(page).into_iter().enumerate() {
            let group = self.press.tags.add(Some(parent), Role::Group);
            let label = [Words::new(what, size * 0.95).ink(SOFT)];
            let label = self.press.paragraph(&label, Setting::left(at - size, 1.35), group);
            let room = (size * WORDS).min(width - at);
            let said = self.press.paragraph(&[Words::new(plain(&words), size)], Setting::left(room, 1.35), group);
            let mut frame = Frame::of_height(said.height.max(label.height) + size * 0.5);
            frame.fill(0.0, 0.0, width, size * 0.05, HAIR);
            frame.place(label, 0.0, size * 0.28);
            frame.place(said, at, size * 0.28);
            flows.push(Flow::One(Block::new(frame, if number == 0 { size * 1.6 } else { 0.0 })));
        }
    }

    fn texts(&mut self, all: &[Prose], scale: f32, parent: Node, flows: &mut Vec<Flow>) {
        let size = self.layout.size;
        let look = Look { size: size * scale, width: (size * scale * WORDS).min(self.press.width()), bold: false };
        for one in all {
            let frame = prose::set(self.press, one, &[], look, parent);
            if frame.height > 0.0 {
                flows.push(Flow::One(Block::new(frame, size * 0.8)));
            }
        }
    }

    /// Words beside a bar: what can hurt.
    fn minded(&mut self, words: &Prose, size: f32, width: f32, parent: Node) -> Frame {
        let inset = size * 0.8;
        let look = Look { size, width: width - inset, bold: false };
        let said = prose::set(self.press, words, &[], look, parent);
        opening::barred(said, size)
    }
}
