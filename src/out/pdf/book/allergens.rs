//! The table of allergens: a row a recipe, a column an allergen.

use super::heading;
use crate::figures::book::{Book, Entry};
use crate::out::pdf::frame::{BLACK, Block, Drawn, Flow, Frame, Glyphs, HAIR, Item, SOFT};
use crate::out::pdf::paragraph::{self, Setting, Words};
use crate::out::pdf::tags::{Node, Role};
use crate::out::pdf::{Press, plain};
use std::rc::Rc;

pub(super) const TITLE: &str = "Allergens";

/// Over the column for recipes of which not everything is known.
const NOT_KNOWN: &str = "not known";

/// Whether there is anything to say.
pub(super) fn is_said(book: &Book) -> bool {
    !book.allergens.is_empty() || has_unknown(book)
}

fn has_unknown(book: &Book) -> bool {
    book.entries().any(|entry| !entry.told.allergens_unknown.is_empty())
}

/// Where the columns stand.
struct Grid {
    /// The room of the names of recipes.
    names: f32,
    /// The room of the number of a page.
    number: f32,
    /// The width of a column.
    column: f32,
}

/// Sets the table; nothing where no recipe has an allergen.
pub(super) fn set(press: &mut Press<'_>, book: &Book, starts: &[usize], parent: Node) -> Vec<Flow> {
    if !is_said(book) {
        return Vec::new();
    }
    let (em, width) = (press.em, press.width());
    let mut names: Vec<String> = book.allergens.iter().map(|one| plain(&one.name)).collect();
    if has_unknown(book) {
        names.push(NOT_KNOWN.to_owned());
    }
    let column = (em * 1.9).min(width * 0.55 / names.len() as f32);
    let number = em * 3.2;
    let grid = Grid { names: width - number - column * names.len() as f32, number, column };
    let mut flows = vec![Flow::One(Block::new(heading(press, TITLE, 2.2, 1, parent), 0.0).kept())];
    let mut says = "A dot means that the recipe contains it, by one of its ways or by all.".to_owned();
    if has_unknown(book) {
        says.push_str(" A question mark means that of an ingredient nobody has said what it contains: read its label.");
    }
    let words = [Words::new(says, em * 0.95)];
    flows.push(Flow::One(Block::new(press.paragraph(&words, Setting::left(width, 1.35), parent), em * 0.9).kept()));
    let table = press.tags.add(Some(parent), Role::Table("which recipe contains which allergen".to_owned()));
    let head = Rc::new(head(press, &names, &grid, table));
    flows.push(Flow::One(Block::new(Frame::clone(&head), em * 1.2).kept()));
    let body = press.tags.add(Some(table), Role::TableBody);
    for (at, entry) in book.entries().enumerate() {
        let frame = row(press, book, (at, entry), starts.get(at).copied(), &grid, body);
        flows.push(Flow::One(Block { repeat: Some(Rc::clone(&head)), ..Block::new(frame, 0.0) }));
    }
    flows
}

/// The head: the names of the allergens run upwards.
fn head(press: &mut Press<'_>, names: &[String], grid: &Grid, table: Node) -> Frame {
    let em = press.em;
    let group = press.tags.add(Some(table), Role::TableHead);
    let row = press.tags.add(Some(group), Role::Row);
    let size = em * 0.92;
    let mut runs = Vec::with_capacity(names.len());
    for name in names {
        let shaped = press.faces.shape(&press.faces.fit(name), false);
        runs.push(Glyphs { shaped, bold: false, size, ink: BLACK });
    }
    let high = runs.iter().map(Glyphs::width).fold(em * 1.4, f32::max) + em * 0.4;
    let mut frame = Frame::of_height(high);
    let first =
        press.tagged(&[Words::new("Recipe", size).ink(SOFT)], Setting::left(grid.names, 1.3), row, Role::ColumnHead);
    let lift = high - first.height - em * 0.2;
    frame.place(first, 0.0, lift);
    let page = Setting { width: grid.number - em * 0.6, leading: 1.3, side: paragraph::Side::Right };
    let page = press.tagged(&[Words::new("page", size).ink(SOFT)], page, row, Role::ColumnHead);
    frame.place(page, grid.names, lift);
    for (at, run) in runs.into_iter().enumerate() {
        let node = press.tags.add(Some(row), Role::ColumnHead);
        let x = grid.names + grid.number + grid.column * (at as f32 + 0.5) + size * 0.3;
        frame.items.push(Item { drawn: Drawn::Upwards(x, high - em * 0.3, run), node: Some(node) });
    }
    frame.fill(0.0, high - em * 0.08, press.width(), em * 0.08, BLACK);
    frame
}

fn row(
    press: &mut Press<'_>,
    book: &Book,
    (at, entry): (usize, &Entry),
    page: Option<usize>,
    grid: &Grid,
    body: Node,
) -> Frame {
    let em = press.em;
    let node = press.tags.add(Some(body), Role::Row);
    let title = [Words::new(plain(&entry.title), em)];
    let name = press.tagged(&title, Setting::left(grid.names - em * 0.5, 1.25), node, Role::RowHead);
    let mut frame = Frame::of_height(name.height + em * 0.5);
    frame.place(name, 0.0, em * 0.25);
    let digits = [Words::new(page.map_or_else(String::new, |page| page.to_string()), em * 0.92).ink(SOFT)];
    let setting = Setting { width: grid.number - em * 0.6, leading: 1.3, side: paragraph::Side::Right };
    let digits = press.tagged(&digits, setting, node, Role::Cell);
    frame.place(digits, grid.names, em * 0.25);
    let contains = book.allergens.iter().map(|one| if one.entries.contains(&at) { "•" } else { " " });
    let unknown = has_unknown(book).then_some(if entry.told.allergens_unknown.is_empty() { " " } else { "?" });
    for (number, mark) in contains.chain(unknown).enumerate() {
        let words = [Words::new(mark, em * 1.1).bold()];
        let wide = paragraph::width(press.faces, &words);
        let left = grid.names + grid.number + grid.column * number as f32;
        let cell = press.tagged(&words, Setting::left(grid.column.max(wide + 0.1), 1.2), node, Role::Cell);
        frame.place(cell, left + (grid.column - wide) / 2.0, em * 0.2);
    }
    frame.fill(0.0, frame.height - em * 0.05, press.width(), em * 0.05, HAIR);
    frame
}
