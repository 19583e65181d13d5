//! A weigh-out table: boxes to tick, names, and columns of figures whose points stand under one another.

use super::frame::{BLACK, Block, Flow, Frame, HAIR, Ink, SOFT, STAIR, WASH, WHITE};
use super::paragraph::{self, Setting, Side, Words};
use super::tags::{Node, Role};
use super::{Press, by_hand};
use crate::measure::shown::{Digits, Shown};
use crate::out::sheet::column::{Column, pointed};
use crate::out::typeset;
use std::rc::Rc;

/// A column of figures.
pub(super) struct Figures {
    /// What stands above it.
    pub(super) title: String,
    /// One a row, the total's last where there is a total.
    pub(super) cells: Vec<Shown>,
    /// Size in parts of the card's measure.
    pub(super) size: f32,
    pub(super) bold: bool,
    pub(super) ink: Ink,
    /// What the scale shows stands on a ground of its own.
    pub(super) shaded: bool,
}

/// A row's own things.
pub(super) struct Row {
    pub(super) name: Vec<Words>,
    pub(super) tick: bool,
    /// Where this line's share of the bowl begins and how long it is, of 1.
    pub(super) stair: Option<(f64, f64)>,
}

/// A table.
pub(super) struct Table {
    pub(super) summary: String,
    /// What stands above the names; a table without it has no head.
    pub(super) name_title: String,
    pub(super) rows: Vec<Row>,
    /// The name of the last row, when there is a total.
    pub(super) total: Option<String>,
    pub(super) columns: Vec<Figures>,
    /// Rows that are parted by a hairline, for a table without stairs.
    pub(super) ruled: bool,
}

/// A column with its widths decided.
struct Laid<'a> {
    figures: &'a Figures,
    column: Column,
    /// Type size of the figures.
    size: f32,
    /// Type size of words and of the second unit.
    small: f32,
    /// Room for the unit behind the digits.
    unit: f32,
    left: f32,
    width: f32,
    pad: f32,
}

/// Sets the table: a block for its head and for every row.
pub(super) fn set(press: &mut Press<'_>, table: &Table, parent: Node) -> Vec<Flow> {
    let em = press.em;
    let width = press.width();
    let tick = em * 2.1;
    let (columns, name_room) = lay(press, table, width - tick);
    let node = press.tags.add(Some(parent), Role::Table(table.summary.clone()));
    let mut blocks = Vec::with_capacity(table.rows.len() + 2);

    // A short table under a name that says it all has no head; its rows have theirs.
    let head = (!table.name_title.is_empty()).then(|| {
        let head_node = press.tags.add(Some(node), Role::TableHead);
        Rc::new(head(press, table, &columns, (tick, name_room), head_node))
    });
    blocks.extend(head.iter().map(|head| Block::new(Frame::clone(head), 0.0).kept()));

    let body = press.tags.add(Some(node), Role::TableBody);
    let count = table.rows.len();
    for (at, row) in table.rows.iter().enumerate() {
        let row_node = press.tags.add(Some(body), Role::Row);
        let mut frame = line(press, &columns, at, &row.name, (tick, name_room), row_node, true);
        if row.tick {
            let side = em * 1.45;
            frame.fill(em * 0.1, (em * 1.92 - side) / 2.0, side, side, WHITE);
            by_hand::tick(&mut frame, em * 0.1, (em * 1.92 - side) / 2.0, side);
        }
        if let Some((start, length)) = row.stair {
            let (start, length) = (start as f32, (length as f32).max(0.004));
            let start = start.min(1.0 - length).max(0.0);
            frame.ground(start * width, length * width, STAIR);
        }
        if table.ruled || row.stair.is_some() || at + 1 < count {
            frame.fill(0.0, frame.height - em * 0.06, width, em * 0.06, HAIR);
        }
        blocks.push(Block { frame, above: 0.0, keep: false, repeat: head.clone(), ruled: false });
    }
    if let Some(total) = &table.total {
        let foot = press.tags.add(Some(node), Role::TableFoot);
        let row_node = press.tags.add(Some(foot), Role::Row);
        let words = [Words::new(total.clone(), em * 1.25).bold()];
        let mut frame = line(press, &columns, count, &words, (tick, name_room), row_node, false);
        frame.fill(0.0, 0.0, width, em * 0.18, BLACK);
        blocks.push(Block { frame, above: 0.0, keep: false, repeat: head.clone(), ruled: false });
    }
    // A table is torn only when it is higher than a page; then its head and its total each keep a row.
    let whole: f32 = blocks.iter().map(|block| block.frame.height).sum();
    let stays = whole < press.geometry.height - em * 5.0;
    let count = blocks.len();
    for (at, block) in blocks.iter_mut().enumerate() {
        block.keep = at + 1 < count && (stays || at == 0 || (at + 2 == count && table.total.is_some()));
    }
    blocks.into_iter().map(Flow::One).collect()
}

/// Decides the widths: figures are set smaller where names would otherwise have no room.
fn lay<'a>(press: &Press<'_>, table: &'a Table, room: f32) -> (Vec<Laid<'a>>, f32) {
    // A word of a name is not torn as long as the figures are read: `wholewheat` is wider than six.
    let word = table.rows.iter().map(|row| paragraph::least_width(press.faces, &row.name)).fold(0.0, f32::max);
    let least = if table.columns.len() > 4 { word.clamp(press.em * 6.0, press.em * 9.0) } else { press.em * 9.0 };
    let scales = [1.0, 0.92, 0.85, 0.78, 0.7, 0.62, 0.55, 0.48, 0.4, 0.33];
    let mut laid = Vec::new();
    let mut name_room = 0.0;
    for scale in scales {
        laid = table.columns.iter().map(|figures| one(press, figures, scale)).collect();
        let taken: f32 = laid.iter().map(|column| column.width).sum();
        name_room = room - taken;
        if name_room >= least {
            break;
        }
    }
    let mut left = press.width() - laid.iter().map(|column| column.width).sum::<f32>();
    for column in &mut laid {
        column.left = left;
        left += column.width;
    }
    (laid, name_room.max(press.em * 2.0))
}

fn one<'a>(press: &Press<'_>, figures: &'a Figures, scale: f32) -> Laid<'a> {
    let em = press.em;
    let size = em * figures.size * scale;
    let column = Column::of(&figures.cells);
    let pad = em * 0.45 * scale.max(0.5);
    let small = (em * scale * if figures.bold { 1.15 } else { 0.95 }).min(size);
    let mut laid = Laid { figures, column, size, small, unit: 0.0, left: 0.0, width: 0.0, pad };
    for cell in &figures.cells {
        if let Some((digits, _)) = pointed(cell) {
            laid.unit = laid.unit.max(paragraph::width(press.faces, &[laid.unit_words(digits.unit)]));
        }
    }
    let title = laid.title_words(press);
    let mut widest = paragraph::least_width(press.faces, std::slice::from_ref(&title));
    if scale > 0.9 {
        widest = paragraph::width(press.faces, &[title]).min(em * 5.5);
    }
    if figures.shaded {
        widest += em * 0.3;
    }
    for cell in &figures.cells {
        let wide = match pointed(cell) {
            Some((digits, also)) => {
                let number = paragraph::width(press.faces, &[laid.words(&digits.digits)]);
                // As it is set, which never breaks, and a hair more: a fraction is as wide as its line makes it.
                let also = also
                    .map_or(0.0, |also| paragraph::width(press.faces, &[laid.small_words(also).unbroken()]) + em * 0.2);
                (number + laid.missing_width(press, digits) + laid.unit_room()).max(also)
            }
            None if is_one_figure(cell) => paragraph::width(press.faces, &[laid.say_words(cell)]) + em * 0.2,
            None => paragraph::width(press.faces, &[laid.say_words(cell)]).min(em * 6.5 * scale.max(0.6)),
        };
        widest = widest.max(wide);
    }
    laid.width = widest + 2.0 * pad;
    laid
}

/// Whether it is one weight, of however many units, which nobody reads over two lines: `3 lb 14 3/4 oz`.
fn is_one_figure(shown: &Shown) -> bool {
    shown.words.is_empty() && shown.also.is_none()
}

impl Laid<'_> {
    fn words(&self, text: &str) -> Words {
        self.styled(text, self.size)
    }

    fn styled(&self, text: &str, size: f32) -> Words {
        Words { text: typeset::words(text), bold: self.figures.bold, size, ink: self.figures.ink }
    }

    fn unit_words(&self, unit: &str) -> Words {
        self.styled(unit, self.size * 0.72)
    }

    fn small_words(&self, also: &Shown) -> Words {
        Words::new(also.to_string(), self.small * 0.9).ink(SOFT)
    }

    fn say_words(&self, shown: &Shown) -> Words {
        let words = self.styled(&shown.to_string(), self.small);
        if is_one_figure(shown) { words.unbroken() } else { words }
    }

    fn title_words(&self, press: &Press<'_>) -> Words {
        let ink = if self.figures.shaded { BLACK } else { SOFT };
        Words::new(self.figures.title.clone(), press.em * 0.82).ink(ink)
    }

    fn unit_room(&self) -> f32 {
        if self.unit > 0.0 { self.unit + self.size * 0.2 } else { 0.0 }
    }

    /// The room that decimals would take which a figure does not have.
    fn missing_width(&self, press: &Press<'_>, digits: &Digits) -> f32 {
        let missing = self.column.missing(digits);
        if missing == 0 {
            return 0.0;
        }
        let point = if digits.decimals() == 0 { "." } else { "" };
        paragraph::width(press.faces, &[self.words(&format!("{point}{}", "0".repeat(missing)))])
    }

    fn right(&self) -> f32 {
        self.left + self.width - self.pad
    }

    fn room(&self) -> f32 {
        self.width - 2.0 * self.pad
    }
}

fn head(press: &mut Press<'_>, table: &Table, columns: &[Laid<'_>], (tick, name): (f32, f32), parent: Node) -> Frame {
    let em = press.em;
    let row = press.tags.add(Some(parent), Role::Row);
    let mut cells = Vec::with_capacity(columns.len() + 1);
    let words = [Words::new(table.name_title.clone(), em * 0.82).ink(SOFT)];
    cells.push((tick, press.tagged(&words, Setting::left(name, 1.15), row, Role::ColumnHead)));
    for column in columns {
        let words = [column.title_words(press)];
        let words =
            if words.iter().all(|one| one.text.is_empty()) { vec![Words::new(" ", em * 0.82)] } else { words.to_vec() };
        let setting = Setting { width: column.room(), leading: 1.15, side: Side::Right };
        let cell = press.tagged(&words, setting, row, Role::ColumnHead);
        cells.push((column.left + column.pad, cell));
    }
    let high = cells.iter().map(|(_, cell)| cell.height).fold(0.0, f32::max) + em * 0.5;
    let mut frame = Frame::of_height(high);
    shade(&mut frame, columns, em, true);
    for (x, cell) in cells {
        let y = high - em * 0.2 - cell.height;
        frame.place(cell, x, y);
    }
    frame
}

/// The ground of the column that says what the scale shows.
fn shade(frame: &mut Frame, columns: &[Laid<'_>], em: f32, top: bool) {
    let high = frame.height;
    for column in columns.iter().filter(|column| column.figures.shaded) {
        frame.fill(column.left, 0.0, column.width, high, WASH);
        frame.fill(column.left, 0.0, em * 0.12, high, BLACK);
        frame.fill(column.left + column.width - em * 0.12, 0.0, em * 0.12, high, BLACK);
        if top {
            frame.fill(column.left, 0.0, column.width, em * 0.12, BLACK);
        }
    }
}

/// A row: its name and figures on one baseline.
fn line(
    press: &mut Press<'_>,
    columns: &[Laid<'_>],
    at: usize,
    name: &[Words],
    (tick, name_room): (f32, f32),
    row: Node,
    in_body: bool,
) -> Frame {
    let em = press.em;
    let tallest = columns.iter().map(|column| column.size).fold(em * 1.25, f32::max);
    let (rise, fall) = press.faces.rise();
    let baseline = em * 0.18 + tallest * 0.92;
    // The name's first line stands on the figures' baseline.
    let name_size = name.first().map_or(em, |one| one.size);
    let name_frame = press.tagged(name, Setting::left(name_room, 1.2), row, Role::RowHead);
    let name_base = (name_size * 1.2 - (rise + fall) * name_size) / 2.0 + rise * name_size;
    let mut bottom = baseline - name_base + name_frame.height;
    let mut cells: Vec<(Frame, f32, f32)> = vec![(name_frame, tick, baseline - name_base)];
    for column in columns {
        let node = press.tags.add(Some(row), Role::Cell);
        let nothing = Shown::default();
        let shown = column.figures.cells.get(at).unwrap_or(&nothing);
        let mut frame = Frame::default();
        let low = figure(press, column, shown, baseline, node, &mut frame);
        bottom = bottom.max(low);
        cells.push((frame, 0.0, 0.0));
    }
    let mut frame = Frame::of_height(bottom + em * 0.06);
    shade(&mut frame, columns, em, false);
    if !in_body {
        for column in columns.iter().filter(|column| column.figures.shaded) {
            let y = frame.height - em * 0.12;
            frame.fill(column.left, y, column.width, em * 0.12, BLACK);
        }
    }
    for (cell, x, y) in cells {
        frame.place(cell, x, y);
    }
    frame
}

/// Sets a figure on the baseline and gives how far down it reaches.
fn figure(press: &Press<'_>, column: &Laid<'_>, shown: &Shown, baseline: f32, node: Node, frame: &mut Frame) -> f32 {
    let run = |words: Words| super::frame::Glyphs {
        shaped: press.faces.shape(&press.faces.fit(&words.text), words.bold),
        bold: words.bold,
        size: words.size,
        ink: words.ink,
    };
    let bottom = baseline + column.size * 0.28;
    if shown.is_empty() {
        // A cell that says nothing is a cell all the same: rows keep their columns.
        frame.set(column.right(), baseline, run(Words::new(" ", column.small)), Some(node));
        return bottom;
    }
    let Some((figure, also)) = pointed(shown) else {
        let words = [column.say_words(shown)];
        let setting = Setting { width: column.room(), leading: 1.15, side: Side::Right };
        let set = paragraph::set(press.faces, &words, setting, Some(node));
        let (rise, fall) = press.faces.rise();
        let first = (column.small * 1.15 - (rise + fall) * column.small) / 2.0 + rise * column.small;
        let high = set.height;
        frame.place(set, column.left + column.pad, baseline - first);
        return bottom.max(baseline - first + high);
    };
    let digits = run(column.words(&figure.digits));
    let end = column.right() - column.unit_room() - column.missing_width(press, figure);
    frame.set(end - digits.width(), baseline, digits, Some(node));
    if !figure.unit.is_empty() {
        let mut unit = column.unit_words(figure.unit);
        unit.text = format!(" {}", unit.text);
        let unit = run(unit);
        let space = run(column.unit_words(" ")).width();
        frame.set(column.right() - column.unit - space, baseline, unit, Some(node));
    }
    match also {
        Some(also) => {
            let words = [column.small_words(also).unbroken()];
            frame.set(column.right(), baseline, run(Words::new(" ", column.small)), Some(node));
            let setting = Setting { width: column.room(), leading: 1.2, side: Side::Right };
            let set = paragraph::set(press.faces, &words, setting, Some(node));
            let high = set.height;
            frame.place(set, column.left + column.pad, bottom);
            bottom + high
        }
        None => bottom,
    }
}
