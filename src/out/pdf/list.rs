//! The list: a sheet for the shop and one for the scale, with boxes to tick.

use super::frame::{BLACK, Block, Flow, HAIR, SOFT};
use super::paragraph::{Setting, Words};
use super::table::{Figures, Row, Table, set};
use super::tags::{Node, Role};
use super::{Made, Press, head, plain, sheet_of};
use crate::figures::card::DayHead;
use crate::figures::list::List;
use crate::out::block::Group;
use crate::out::list::{Walk, sheets as walked};
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
    let of = walked(list).into_iter().map(|(name, walks)| {
        let foot = Foot::plain(&format!("{name}: {title}"), sheet);
        sheet_of(press, &foot, |press, article| {
            let mut flows = top(press, list, name, day.is_some().then_some(title), article);
            let groups = walks.iter().flat_map(|walk| walk.groups.iter().map(move |group| (walk, group)));
            flows.extend(groups.flat_map(|(walk, one)| group(press, walk, one, article)));
            flows
        })
    });
    of.collect()
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

fn group(press: &mut Press<'_>, walk: &Walk, group: &Group, article: Node) -> Vec<Flow> {
    let em = press.em;
    let node = press.tags.add(Some(article), Role::Section);
    let title = plain(walk.title(group));
    let mut flows = vec![head::tab(press, &title, &group.all.to_string(), walk.is_weighed, node)];
    let rows = group.items.iter().map(|item| {
        let mut name = vec![Words::new(plain(&item.name), em * 1.25).bold()];
        name.extend(item.remarks.iter().map(|remark| Words::new(format!(", {}", plain(remark)), em * 1.1).ink(SOFT)));
        Row { name, tick: true, stair: None }
    });
    let figures = Figures {
        title: walk.amounts.to_owned(),
        cells: group.items.iter().map(|item| item.amount.clone()).collect(),
        size: 1.4,
        bold: true,
        ink: BLACK,
        shaded: false,
    };
    let summary = if walk.is_weighed {
        format!("{title}: what to weigh out of it.")
    } else if group.name.is_empty() {
        format!("{title}.")
    } else {
        format!("What to buy: {title}.")
    };
    let table = Table {
        summary,
        name_title: walk.names.to_owned(),
        rows: rows.collect(),
        total: None,
        columns: vec![figures],
        ruled: true,
    };
    flows.extend(set(press, &table, node));
    flows
}
