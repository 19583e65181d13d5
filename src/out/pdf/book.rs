//! A book as a booklet: title page, contents, chapters that begin on right-hand pages, tables and indexes with the numbers of pages.

mod allergens;
mod contents;
mod cover;
mod index;
mod leaf;

use super::face::Faces;
use super::frame::{Block, Flow, Frame, Ink, SOFT};
use super::geometry::Geometry;
use super::paragraph::{self, Setting, Words};
use super::plates::Plates;
use super::tags::{Node, Role, Tags};
use super::{NoPdf, Pdf, Press, pages, plain, reader, write};
use crate::figures::book::{Book, Chapter};
use crate::figures::reader::ReaderPage;
use crate::model::published::Picture;
use crate::out::sheet::Sheet;
use crate::out::shrink::Shrunk;
use contents::Line;
pub use cover::cover;
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
    let words = Words::new(words, press.em * scale).bold();
    headed(press, words, level, parent)
}

fn headed(press: &mut Press<'_>, words: Words, level: u16, parent: Node) -> Frame {
    let width = press.width();
    let said = words.text.clone();
    press.tagged(&[words], Setting::left(width, 1.12), parent, Role::Heading(level, said))
}

/// Longer words, in characters, stand on no page in any size.
const LONGEST: usize = 2_000;

/// A title as large as it can be within a width and a height; one that is too long for that also when it is small is cut.
fn title(faces: &Faces, words: &str, em: f32, room: (f32, f32)) -> Words {
    fitted(faces, words, room, 1.12, |words| {
        [3.6, 2.8, 2.2, 1.7, 1.3].map(|scale| Words::new(words, em * scale).bold())
    })
}

/// Whose it is, in the same way.
fn author(faces: &Faces, words: &str, em: f32, room: (f32, f32)) -> Words {
    fitted(faces, words, room, 1.3, |words| [1.5, 1.4, 1.3, 1.2, 1.0].map(|scale| Words::new(words, em * scale)))
}

/// Words in the first of some sizes in which they fit.
fn fitted(
    faces: &Faces,
    said: &str,
    (width, height): (f32, f32),
    leading: f32,
    sizes: impl Fn(&str) -> [Words; 5],
) -> Words {
    let fits = |words: &Words| {
        paragraph::set(faces, std::slice::from_ref(words), Setting::left(width, leading), None).height <= height
    };
    let mut length = said.chars().count().min(LONGEST);
    loop {
        let mut words: String = said.chars().take(length).collect();
        if words.len() < said.len() {
            words.push('…');
        }
        let [largest, large, middle, small, smallest] = sizes(&words);
        for words in [largest, large, middle, small] {
            if fits(&words) {
                return words;
            }
        }
        if length < 40 || fits(&smallest) {
            return smallest;
        }
        length = length * 3 / 4;
    }
}

fn space(height: f32) -> Flow {
    Flow::One(Block::new(Frame::of_height(height), 0.0).kept())
}

/// The title at a third of the page, and whose it is.
fn title_page(press: &mut Press<'_>, book: &Book, parent: Node) -> Vec<Flow> {
    let (em, width, high) = (press.em, press.width(), press.geometry.height);
    let mut flows = vec![space(high * 0.28)];
    let words = title(press.faces, &plain(&book.title), em, (width, high * 0.45));
    let mut head = headed(press, words, 1, parent);
    head.height += em * 1.2;
    head.fill(0.0, head.height, em * 5.0, em * 0.3, Ink::Mark);
    head.height += em * 0.3;
    flows.push(Flow::One(Block::new(head, 0.0)));
    if let Some(by) = &book.by {
        let words = [author(press.faces, &plain(by), em, (width, high * 0.12))];
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
fn opener(press: &mut Press<'_>, number: usize, called: &str, chapter: &Chapter, parent: Node) -> Vec<Flow> {
    let (em, width) = (press.em, press.width());
    let mut flows = vec![space(press.geometry.height * 0.16)];
    let digits = [Words::new(number.to_string(), em * 2.6).bold().ink(Ink::Mark)];
    let mut head = press.paragraph(&digits, Setting::left(width, 1.1), parent);
    let name = title(press.faces, &plain(called), em, (width, press.geometry.height * 0.45));
    let name = Words { size: name.size.min(em * 2.8), ..name };
    let name = headed(press, name, 1, parent);
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
