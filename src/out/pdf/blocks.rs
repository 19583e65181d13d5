//! A page of blocks as PDF: the same blocks, in the same order, as on the page in the browser.

use super::frame::{BLACK, Block, Flow, Frame, HAIR, SOFT};
use super::paragraph::{self, Setting, Side, Words};
use super::tags::{Node, Role};
use super::{Made, NoPdf, Pdf, Press, head, picture, plain, print, sheet_of};
use crate::language::prose::Prose;
use crate::out::block::{self, Change, Paint, Phrase, Row, Table, Text, Tone, Voice};
use crate::out::page::{CHANGES, Page};
use crate::out::sheet::{Foot, Sheet};
use crate::out::text::{self, Style};
use crate::out::typeset;
use std::rc::Rc;

/// Renders a page.
///
/// # Errors
/// When the document cannot be written by the rules of PDF/UA-1.
pub fn render_page(page: &Page, sheet: &Sheet) -> Result<Pdf, NoPdf> {
    print(&page.title, sheet, |press| {
        let foot = Foot::plain(&page.title, sheet);
        let sheets = page.blocks.split(|one| matches!(one, block::Block::Rule)).filter(|sheet| !sheet.is_empty());
        let sheets: Vec<Made> = sheets
            .map(|blocks| {
                let made = sheet_of(press, &foot, |press, article| {
                    let mut flows = Vec::new();
                    for one in blocks {
                        block(press, one, article, &mut flows);
                    }
                    flows
                });
                let heading = blocks.iter().find_map(|one| match one {
                    block::Block::Heading(heading) => Some(heading.text.clone()),
                    _ => None,
                });
                Made { title: heading.unwrap_or(made.title), ..made }
            })
            .collect();
        sheets
    })
}

fn block(press: &mut Press<'_>, block: &block::Block, parent: Node, flows: &mut Vec<Flow>) {
    use block::Block as Of;
    let (em, width) = (press.em, press.width());
    let put = |frame: Frame, above: f32| Flow::One(Block::new(frame, above));
    match block {
        Of::Gap | Of::Rule => {}
        Of::Section(blocks) => blocks.iter().for_each(|one| self::block(press, one, parent, flows)),
        Of::Heading(one) if one.level == 1 => {
            let frame = head::title(press, &one.text, None, &[], parent);
            flows.push(put(frame, 0.0));
        }
        Of::Heading(one) => flows.push(heading(press, one, parent)),
        Of::Text(one) => {
            let words: Vec<Words> = one.runs.iter().map(|run| in_tone(run, em * 1.1)).collect();
            let frame = press.paragraph(&words, Setting::left(width, 1.35), parent);
            flows.push(put(frame, em * 0.5));
        }
        Of::Care(words) => {
            let words = [Words::new("Caution ", em * 1.1).bold(), Words::new(typeset::quoted(&plain(words)), em * 1.1)];
            flows.extend(head::care_box(press, &[words.to_vec()], &[], parent));
        }
        Of::Facts(all) | Of::Bullets(all) => {
            let list = press.tags.add(Some(parent), Role::List(false));
            for runs in all {
                let frame = bullet(press, runs, list);
                flows.push(put(frame, em * 0.2));
            }
        }
        Of::Picture(one) => {
            let frame = picture::set(press, one, parent);
            flows.push(put(frame, em * 0.6));
        }
        Of::Table(one) => flows.extend(table(press, one, parent)),
        Of::Changes(all) => changes(press, all, parent, flows),
        Of::Figures(all) => {
            let rows = all.iter().map(|(what, shown)| vec![what.clone(), shown.unbroken()]).collect();
            let figures = Table::figures(vec![String::new(), String::new()], rows, block::Frame::Read);
            self::block(press, &figures, parent, flows);
        }
        Of::Alarm(alarm) => {
            let words = Words::new(plain(&format!("{}: {}", alarm.what, alarm.of)), em * 1.25).bold();
            flows.extend(head::care_box(press, &[vec![words]], &[], parent));
        }
        Of::Remarks(all) => {
            let said: Vec<String> = all.iter().map(|one| block::sentence(one)).collect();
            self::block(press, &block::words(said.join(" ")), parent, flows);
        }
        Of::Prose(voice, prose) => {
            let first = (*voice == Voice::Caution).then(|| Phrase::strong("Caution: "));
            for one in paragraphs(prose, first) {
                self::block(press, &one, parent, flows);
            }
        }
        Of::Steps(all) => {
            for one in all.iter().flat_map(step) {
                self::block(press, &one, parent, flows);
            }
        }
        Of::Source(topic) => {
            let words = [Words::new(format!("Formula and sources: miche explain {topic}"), em * 0.9).ink(SOFT)];
            let frame = press.paragraph(&words, Setting::left(width, 1.3), parent);
            flows.push(put(frame, em * 0.2));
        }
        // What has no look of its own on paper stands as in plain text, line by line.
        other => {
            let text = text::render(std::slice::from_ref(other), Style::plain(90));
            for line in text.lines().filter(|line| !line.trim().is_empty()) {
                let frame = press.paragraph(&[Words::new(plain(line), em)], Setting::left(width, 1.3), parent);
                flows.push(put(frame, 0.0));
            }
        }
    }
}

/// Prose as paragraphs, which are broken where the paper wants it; `first` stands before its first words.
fn paragraphs(prose: &Prose, first: Option<Phrase>) -> Vec<block::Block> {
    let mut first = first;
    let plain = prose.plain();
    let lines = plain.lines().filter(|line| !line.trim().is_empty());
    lines
        .map(|line| block::Block::Text(Text::of(first.take().into_iter().chain([Phrase::plain(line)]).collect())))
        .collect()
}

/// A step: its number, name and facts, what is done, and by what one sees that it is done.
fn step(step: &block::Step) -> Vec<block::Block> {
    let head =
        vec![Phrase::strong(format!("{}. {}", step.number, step.name)), Phrase::plain(format!("  {}", step.facts))];
    let cue = step.cue.plain();
    let cue = (!cue.is_empty()).then(|| block::words(format!("Until {cue}")));
    std::iter::once(block::Block::Text(Text::of(head))).chain(paragraphs(&step.prose, None)).chain(cue).collect()
}

/// What changed, in its order: figures that follow each other as a table, the rest as paragraphs.
fn changes(press: &mut Press<'_>, all: &[Change], parent: Node, flows: &mut Vec<Flow>) {
    for run in all.chunk_by(|one, next| one.figure().is_some() == next.figure().is_some()) {
        let cells = |one: &block::BeforeAndNow| {
            [one.whole_name(), one.old.unbroken(), one.new.unbroken(), one.remark.clone()].map(Phrase::plain)
        };
        let rows: Vec<Row> = run.iter().filter_map(Change::figure).map(|one| Row::of(cells(one))).collect();
        if !rows.is_empty() {
            let column = |(at, head): (usize, &&str)| block::Column {
                head: (*head).to_owned(),
                side: if matches!(at, 1 | 2) { block::Side::Right } else { block::Side::Left },
            };
            let columns = CHANGES.iter().enumerate().map(column).collect();
            flows.extend(table(press, &Table { columns, rows, frame: block::Frame::Read }, parent));
        }
        for change in run {
            let said = match change {
                Change::Said(words, _) => block::Block::Text(block::Text::of(words.clone())),
                Change::Step(step) => block::words(text::said_of_step(step)),
                Change::Line(_) | Change::Figure(_) => continue,
            };
            block(press, &said, parent, flows);
        }
    }
}

fn in_tone(run: &Phrase, size: f32) -> Words {
    let words = Words::new(typeset::quoted(&plain(&run.text)), size);
    if matches!(run.tone, Tone::Strong | Tone::Amount) { words.bold() } else { words }
}

/// A heading below the title's, on a rule that goes through the page.
fn heading(press: &mut Press<'_>, one: &block::Heading, parent: Node) -> Flow {
    let (em, width) = (press.em, press.width());
    let (size, rule, above) = if one.level == 2 { (1.25, 0.18, 1.2) } else { (1.1, 0.0, 0.8) };
    let level = u16::try_from(one.level).unwrap_or(6).min(6);
    let words = [Words::new(one.text.clone(), em * size).bold()];
    let mut frame = press.tagged(&words, Setting::left(width, 1.25), parent, Role::Heading(level, one.text.clone()));
    if rule > 0.0 {
        frame.height += em * 0.15;
        frame.fill(0.0, frame.height, width, em * rule, BLACK);
        frame.height += em * (rule + 0.1);
    }
    Flow::One(Block::new(frame, em * above).kept())
}

fn bullet(press: &mut Press<'_>, runs: &[Phrase], list: Node) -> Frame {
    let em = press.em;
    let item = press.tags.add(Some(list), Role::ListItem);
    let label = press.tags.add(Some(item), Role::Label);
    let body = press.tags.add(Some(item), Role::ListBody);
    let dot = [Words::new("•", em * 1.1)];
    let mut frame = paragraph::set(press.faces, &dot, Setting::left(em * 1.2, 1.35), Some(label));
    let words: Vec<Words> = runs.iter().map(|run| in_tone(run, em * 1.1)).collect();
    let said = press.paragraph(&words, Setting::left(press.width() - em * 1.2, 1.35), body);
    frame.height = frame.height.max(said.height);
    frame.place(said, em * 1.2, 0.0);
    frame
}

/// A column with its place.
struct Laid {
    left: f32,
    width: f32,
    side: Side,
}

/// The room between two columns, in parts of the measure.
const APART: f32 = 0.9;
/// How wide a column may be before its words are broken, in parts of the measure.
const WIDEST: f32 = 11.0;

fn table(press: &mut Press<'_>, table: &Table, parent: Node) -> Vec<Flow> {
    let em = press.em;
    let is_numbered = table.rows.iter().any(|row| row.drawn.is_some());
    let columns = lay(press, table, is_numbered);
    let node = press.tags.add(
        Some(parent),
        Role::Table(table.columns.iter().map(|one| one.head.as_str()).collect::<Vec<&str>>().join(", ")),
    );
    let mut flows = Vec::with_capacity(table.rows.len() + 1);
    let repeat = table.has_head().then(|| {
        let group = press.tags.add(Some(node), Role::TableHead);
        let row = press.tags.add(Some(group), Role::Row);
        let numbers = is_numbered.then(|| "No.".to_owned());
        let heads = numbers.into_iter().chain(table.columns.iter().map(|column| column.head.clone()));
        let cells: Vec<Words> = heads.map(|head| Words::new(head, em * 0.9).ink(SOFT)).collect();
        let mut frame = cells_beside(press, &cells, &columns, row, Role::ColumnHead);
        frame.fill(0.0, frame.height - em * 0.12, press.width(), em * 0.12, BLACK);
        Rc::new(frame)
    });
    flows.extend(repeat.iter().map(|head| Flow::One(Block::new(Frame::clone(head), em * 0.3).kept())));
    let body = press.tags.add(Some(node), Role::TableBody);
    for row in &table.rows {
        let row_node = press.tags.add(Some(body), Role::Row);
        let number = is_numbered.then(|| Words::new(row.drawn.map_or_else(String::new, |at| at.to_string()), em));
        let cells: Vec<Words> = number.into_iter().chain(words_of(row, table, em)).collect();
        let mut frame = cells_beside(press, &cells, &columns, row_node, Role::Cell);
        frame.fill(0.0, frame.height - em * 0.06, press.width(), em * 0.06, HAIR);
        flows.push(Flow::One(Block { repeat: repeat.clone(), ..Block::new(frame, 0.0) }));
        if let Some(instead) = &row.instead {
            let words = [Words::new(typeset::quoted(&plain(instead)), em).bold()];
            let frame = press.paragraph(&words, Setting::left(press.width(), 1.3), row_node);
            flows.push(Flow::One(Block::new(frame, 0.0)));
        }
    }
    flows
}

/// The words of a row as they stand out: in a run sheet what is done with hands, what rests, what to take care of.
fn words_of(row: &Row, table: &Table, em: f32) -> Vec<Words> {
    let is_run = table.frame == block::Frame::Run;
    let cells = row.cells.iter().enumerate().map(|(at, cell)| {
        let words = Words::new(typeset::quoted(&plain(&cell.text)), em);
        match row.paint {
            _ if !is_run => words,
            Paint::Red => words.bold(),
            Paint::Bold if at == 0 || at == 2 => words.bold(),
            Paint::Dim => words.ink(SOFT),
            _ => words,
        }
    });
    cells.collect()
}

/// Columns as wide as their words, the last one as wide as what is left.
fn lay(press: &Press<'_>, table: &Table, is_numbered: bool) -> Vec<Laid> {
    let em = press.em;
    let numbers = is_numbered.then_some((em * 2.2, Side::Left));
    let natural = table.columns.iter().enumerate().map(|(at, column)| {
        let head = paragraph::width(press.faces, &[Words::new(column.head.clone(), em * 0.9)]);
        let cell = |row: &Row| row.cells.get(at).map(|cell| Words::new(plain(&cell.text), em).bold());
        let cells = table.rows.iter().filter_map(cell);
        let widest = cells.map(|words| paragraph::width(press.faces, &[words])).fold(head, f32::max);
        let side = if column.side == block::Side::Right { Side::Right } else { Side::Left };
        (widest.min(em * WIDEST) + 0.5, side)
    });
    let wanted: Vec<(f32, Side)> = numbers.into_iter().chain(natural).collect();
    let last = wanted.len().saturating_sub(1);
    let apart = em * APART;
    let room = press.width() - apart * last as f32;
    let others: f32 = wanted.iter().take(last).map(|(width, _)| width).sum();
    // Where hardly any room would be left for the last, all the others give way alike.
    let least = room * 0.25;
    let share = if others > room - least { (room - least) / others.max(1.0) } else { 1.0 };
    let mut left = 0.0;
    let lay = |(at, (width, side)): (usize, &(f32, Side))| {
        let width = if at == last { room - others * share } else { width * share };
        let laid = Laid { left, width, side: *side };
        left += width + apart;
        laid
    };
    wanted.iter().enumerate().map(lay).collect()
}

fn cells_beside(press: &mut Press<'_>, cells: &[Words], columns: &[Laid], row: Node, role: Role) -> Frame {
    let em = press.em;
    let mut frame = Frame::default();
    for (words, column) in cells.iter().zip(columns) {
        let words = if words.text.is_empty() { Words { text: " ".to_owned(), ..words.clone() } } else { words.clone() };
        let setting = Setting { width: column.width, leading: 1.3, side: column.side };
        let cell = press.tagged(&[words], setting, row, role.clone());
        frame.height = frame.height.max(cell.height + em * 0.55);
        frame.place(cell, column.left, em * 0.25);
    }
    frame
}
