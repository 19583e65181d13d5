//! A book as a booklet: title page, contents, chapters that begin on right-hand pages, tables and indexes with the numbers of pages.

mod allergens;
mod contents;
mod index;
mod leaf;

use super::face::Faces;
use super::frame::{Block, Flow, Frame, Ink, SOFT};
use super::geometry::Geometry;
use super::paragraph::{Setting, Words};
use super::plates::Plates;
use super::tags::{Node, Role, Tags};
use super::{NoPdf, Pdf, Press, pages, plain, reader, write};
use crate::figures::book::{Book, Chapter};
use crate::figures::reader::ReaderPage;
use crate::model::published::Picture;
use crate::out::sheet::Sheet;
use crate::out::shrink::Shrunk;
use contents::Line;
use krilla::destination::XyzDestination;
use krilla::geom::Point;
use krilla::outline::{Outline, OutlineNode};
use leaf::Leaves;

/// Renders a book; `main_pages` are those of its recipes, in their order.
///
/// # Errors
/// When the document cannot be written by the rules of PDF/UA-1.
pub fn render_book(
    book: &Book,
    main_pages: &[ReaderPage],
    pictures: &[(Picture, Shrunk)],
    sheet: &Sheet,
) -> Result<Pdf, NoPdf> {
    let plates = Plates::new(pictures)?;
    let faces = Faces::new().ok_or_else(|| NoPdf("the type in the program is damaged".to_owned()))?;
    let (geometry, shift) = Geometry::bound(sheet);
    let mut press = Press { faces: &faces, tags: Tags::default(), geometry, em: geometry.em, label_node: None };
    let title = plain(&book.title);
    // What is read first stands first in the structure, also where it can only be set last.
    let front = press.tags.add(None, Role::Section);
    let contents = press.tags.add(None, Role::Section);
    let mut leaves = Leaves::default();
    for flows in [title_page(&mut press, book, front), imprint(&mut press, book, sheet, front)] {
        leaves.silent(pages::fill_bare(&press, &flows));
    }
    leaves.turn_to_the_right();
    let first = leaves.count();
    leaves.reserve(contents::pages_of(&press, &contents_without_numbers(book)));
    let bound = Bound { book, main_pages, plates: &plates };
    let lines = bound.body(&mut press, &mut leaves);
    let set = contents::set(&mut press, &lines, contents);
    leaves.put(first, pages::fill_bare(&press, &set));
    let outline = outline(&lines);
    let all = leaves.finish(&mut press, &title, shift);
    write(press, &all, outline, &title, &sheet.printed)
}

/// A book with its pictures.
struct Bound<'a> {
    book: &'a Book,
    /// The main page of each recipe, in their order.
    main_pages: &'a [ReaderPage],
    plates: &'a Plates,
}

impl Bound<'_> {
    /// Chapters, table and indexes; what the contents say of them.
    fn body(&self, press: &mut Press<'_>, leaves: &mut Leaves) -> Vec<Line> {
        let mut lines = Vec::new();
        let mut starts = Vec::new();
        let mut main_pages = self.main_pages.iter();
        // What stands before all chapters has no number.
        let first = usize::from(self.book.chapters.first().is_some_and(|chapter| chapter.title.is_some()));
        for (number, chapter) in (first..).zip(&self.book.chapters) {
            leaves.turn_to_the_right();
            if let Some(title) = &chapter.title {
                let node = press.tags.add(None, Role::Section);
                let flows = opener(press, number, title, chapter, node);
                lines.push(Line::chapter(plain(title), leaves.count() + 1));
                leaves.silent(pages::fill_bare(press, &flows));
            }
            for (entry, page) in chapter.entries.iter().zip(main_pages.by_ref()) {
                let node = press.tags.add(None, Role::Article);
                let level = if chapter.title.is_some() { 2 } else { 1 };
                let filled = reader::bound(press, page, self.plates, level, node);
                let page = leaves.count() + 1;
                lines.push(Line::recipe(plain(&entry.title), page));
                starts.push(page);
                leaves.running(filled, &plain(&entry.title));
            }
        }
        leaves.turn_to_the_right();
        type Set = fn(&mut Press<'_>, &Book, &[usize], Node) -> Vec<Flow>;
        let back: [(&str, Set); 3] = [
            (allergens::TITLE, allergens::set),
            (index::INGREDIENTS, index::ingredients),
            (index::TITLES, index::titles),
        ];
        for (title, set) in back {
            let node = press.tags.add(None, Role::Section);
            let flows = set(press, self.book, &starts, node);
            if flows.is_empty() {
                continue;
            }
            lines.push(Line::chapter(title.to_owned(), leaves.count() + 1));
            let filled = pages::fill_bare(press, &flows);
            leaves.running(filled, title);
        }
        lines
    }
}

/// What the contents will say, before it is known on which pages that stands.
fn contents_without_numbers(book: &Book) -> Vec<Line> {
    let mut lines = Vec::new();
    for chapter in &book.chapters {
        lines.extend(chapter.title.iter().map(|title| Line::chapter(plain(title), 0)));
        lines.extend(chapter.entries.iter().map(|entry| Line::recipe(plain(&entry.title), 0)));
    }
    let back = [
        (allergens::TITLE, allergens::is_said(book)),
        (index::INGREDIENTS, !book.ingredients.is_empty()),
        (index::TITLES, !book.titles.is_empty()),
    ];
    lines.extend(back.into_iter().filter(|(_, is_said)| *is_said).map(|(title, _)| Line::chapter(title.to_owned(), 0)));
    lines
}

/// A heading that begins a page, or a part of one.
fn heading(press: &mut Press<'_>, words: &str, scale: f32, level: u16, parent: Node) -> Frame {
    let set = [Words::new(words, press.em * scale).bold()];
    let width = press.width();
    press.tagged(&set, Setting::left(width, 1.12), parent, Role::Heading(level, words.to_owned()))
}

fn space(height: f32) -> Flow {
    Flow::One(Block::new(Frame::of_height(height), 0.0).kept())
}

/// The title at a third of the page, and whose it is.
fn title_page(press: &mut Press<'_>, book: &Book, parent: Node) -> Vec<Flow> {
    let (em, width) = (press.em, press.width());
    let mut flows = vec![space(press.geometry.height * 0.28)];
    let mut head = heading(press, &plain(&book.title), 3.6, 1, parent);
    head.height += em * 1.2;
    head.fill(0.0, head.height, em * 5.0, em * 0.3, Ink::Mark);
    head.height += em * 0.3;
    flows.push(Flow::One(Block::new(head, 0.0)));
    if let Some(by) = &book.by {
        let words = [Words::new(plain(by), em * 1.5)];
        let line = press.paragraph(&words, Setting::left(width, 1.3), parent);
        flows.push(Flow::One(Block::new(line, em * 1.4)));
    }
    flows
}

/// The back of the title page: where the book stands, and when it was printed.
fn imprint(press: &mut Press<'_>, book: &Book, sheet: &Sheet, parent: Node) -> Vec<Flow> {
    let (em, width) = (press.em, press.width());
    let mut said = Vec::new();
    said.extend(book.address.as_ref().map(|address| plain(address)));
    said.push(format!("Printed {}.", plain(&sheet.printed)));
    said.push("Weights, sums and tables are worked out from the recipes' own files.".to_owned());
    let mut frame = Frame::default();
    for words in said {
        let words = [Words::new(words, em * 0.9).ink(SOFT)];
        let line = press.paragraph(&words, Setting::left(width, 1.4), parent);
        frame.append(line, 0.0, em * 0.15);
    }
    vec![space((press.geometry.height - frame.height - em).max(0.0)), Flow::One(Block::new(frame, 0.0))]
}

/// The page that a chapter begins with: its number and name, and what stands in it.
fn opener(press: &mut Press<'_>, number: usize, title: &str, chapter: &Chapter, parent: Node) -> Vec<Flow> {
    let (em, width) = (press.em, press.width());
    let mut flows = vec![space(press.geometry.height * 0.16)];
    let digits = [Words::new(number.to_string(), em * 2.6).bold().ink(Ink::Mark)];
    let mut head = press.paragraph(&digits, Setting::left(width, 1.1), parent);
    let name = heading(press, &plain(title), 2.8, 1, parent);
    head.append(name, 0.0, em * 0.2);
    flows.push(Flow::One(Block::new(head, 0.0)));
    let list = press.tags.add(Some(parent), Role::List(false));
    for (at, entry) in chapter.entries.iter().enumerate() {
        let item = press.tags.add(Some(list), Role::ListItem);
        let body = press.tags.add(Some(item), Role::ListBody);
        let words = [Words::new(plain(&entry.title), em * 1.1)];
        let line = press.paragraph(&words, Setting::left(width, 1.35), body);
        flows.push(Flow::One(Block::new(line, if at == 0 { em * 2.0 } else { em * 0.25 })));
    }
    flows
}

/// Chapters with their recipes below them.
fn outline(lines: &[Line]) -> Outline {
    let mut outline = Outline::new();
    let mut open: Option<OutlineNode> = None;
    for line in lines {
        let place = XyzDestination::new(line.page.saturating_sub(1), Point::from_xy(0.0, 0.0));
        let node = OutlineNode::new(line.words.clone(), place);
        if line.is_chapter {
            if let Some(done) = open.replace(node) {
                outline.push_child(done);
            }
        } else {
            match &mut open {
                Some(chapter) => chapter.push_child(node),
                None => outline.push_child(node),
            }
        }
    }
    if let Some(done) = open {
        outline.push_child(done);
    }
    outline
}
