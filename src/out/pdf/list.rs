//! The list: a sheet for the shop and one for the scale, with boxes to tick.

use super::frame::{BLACK, Block, Flow, HAIR, SOFT};
use super::paragraph::{Setting, Words};
use super::table::{Figures, Row, Table, set};
use super::tags::{Node, Role};
use super::{Made, Press, head, plain, sheet_of};
use crate::figures::card::DayHead;
use crate::figures::list::List;
use crate::measure::shown::Shown;
use crate::out::list::{place, portion_remarks, remarks, section_title, shelves};
use crate::out::report::seen;
use crate::out::sheet::{Foot, Sheet};

/// Both sheets.
pub(super) fn sheets(
    press: &mut Press<'_>,
    list: &List,
    day: Option<&DayHead>,
    title: &str,
    sheet: &Sheet,
) -> Vec<Made> {
    let mut sheets = Vec::new();
    for name in ["Buy", "Weigh out"] {
        let foot = Foot::plain(&format!("{name}: {title}"), sheet);
        sheets.push(sheet_of(press, &foot, |press, article| {
            let mut flows = top(press, list, name, day.is_some().then_some(title), article);
            flows.extend(if name == "Buy" { buy(press, list, article) } else { weigh(press, list, article) });
            flows
        }));
    }
    sheets
}

fn top(press: &mut Press<'_>, list: &List, name: &str, of: Option<&str>, article: Node) -> Vec<Flow> {
    let em = press.em;
    let mut frame = head::title(press, name, of, &[], article);
    let mut words = Vec::new();
    for (at, batch) in list.batches.iter().enumerate() {
        if at > 0 {
            words.push(Words::new("\u{A0}\u{A0}\u{A0} ", em));
        }
        if !batch.makes.is_empty() {
            words.push(Words::new(format!("{} ", seen(&batch.makes)), em).bold());
        }
        words.push(Words::new(plain(&batch.recipe), em));
    }
    if !words.is_empty() {
        let width = press.width();
        let line = press.paragraph(&words, Setting::left(width, 1.4), article);
        frame.append(line, 0.0, em * 0.35);
        frame.height += em * 0.3;
        frame.fill(0.0, frame.height, width, em * 0.06, HAIR);
    }
    vec![Flow::One(Block::new(frame, 0.0))]
}

fn figures(title: &str, cells: Vec<Shown>) -> Figures {
    Figures { title: title.to_owned(), cells, size: 1.4, bold: true, ink: BLACK, shaded: false }
}

fn buy(press: &mut Press<'_>, list: &List, article: Node) -> Vec<Flow> {
    let em = press.em;
    let mut flows = Vec::new();
    for section in &list.buy {
        let node = press.tags.add(Some(article), Role::Section);
        let title = plain(section_title(section.name.as_deref()));
        flows.push(head::tab(press, &title, "", false, node));
        let rows = section.items.iter().map(|item| {
            let mut name = vec![Words::new(plain(&item.name), em * 1.25).bold()];
            name.extend(
                remarks(item).iter().map(|remark| Words::new(format!(", {}", plain(remark)), em * 1.1).ink(SOFT)),
            );
            Row { name, tick: true, stair: None }
        });
        let table = Table {
            summary: format!("What to buy: {title}."),
            name_title: "what to buy".to_owned(),
            rows: rows.collect(),
            total: None,
            columns: vec![figures("how much", section.items.iter().map(|item| item.shown.clone()).collect())],
            ruled: true,
        };
        flows.extend(set(press, &table, node));
    }
    for shelf in shelves(list) {
        let node = press.tags.add(Some(article), Role::Section);
        flows.push(head::tab(press, shelf.title, "", false, node));
        let rows = shelf.items.iter().map(|item| {
            let mut name = vec![Words::new(plain(&item.name), em * 1.25).bold()];
            let remarks = item.remarks.iter();
            name.extend(remarks.map(|remark| Words::new(format!(", {}", plain(remark)), em * 1.1).ink(SOFT)));
            Row { name, tick: true, stair: None }
        });
        let table = Table {
            summary: format!("{}.", shelf.title),
            name_title: "what".to_owned(),
            rows: rows.collect(),
            total: None,
            columns: vec![figures("how much", shelf.items.iter().map(|item| item.shown.clone()).collect())],
            ruled: true,
        };
        flows.extend(set(press, &table, node));
    }
    flows
}

fn weigh(press: &mut Press<'_>, list: &List, article: Node) -> Vec<Flow> {
    let em = press.em;
    let mut flows = Vec::new();
    for one in &list.weigh {
        let node = press.tags.add(Some(article), Role::Section);
        let name = plain(&one.name);
        flows.push(head::tab(press, &name, &one.shown.to_string(), true, node));
        let rows = one.portions.iter().map(|portion| {
            let mut words = vec![Words::new(plain(&place(&portion.recipe, &portion.part)), em * 1.25).bold()];
            let remarks = portion_remarks(portion);
            words.extend(remarks.iter().map(|how| Words::new(format!(", {}", plain(how)), em * 1.1).ink(SOFT)));
            Row { name: words, tick: true, stair: None }
        });
        let table = Table {
            summary: format!("{name}: what to weigh out of it."),
            name_title: String::new(),
            rows: rows.collect(),
            total: None,
            columns: vec![figures("weigh", one.portions.iter().map(|portion| portion.shown.clone()).collect())],
            ruled: true,
        };
        flows.extend(set(press, &table, node));
    }
    flows
}
