//! The first sheet of a day: everything that is made, and for when.

use super::frame::{Block, Flow, Frame, HAIR, SOFT};
use super::paragraph::{Setting, Words};
use super::tags::{Node, Role};
use super::{Made, Press, head, plain, sheet_of};
use crate::figures::card::{Card, DayHead};
use crate::out::report::seen;
use crate::out::sheet::{Foot, Sheet, allergens_of, made_for_names};
use std::rc::Rc;

/// The sheet.
pub(super) fn cover(press: &mut Press<'_>, day: &DayHead, cards: &[Card], sheet: &Sheet) -> Made {
    let allergens = allergens_of(cards);
    let foot = Foot::plain(&day.name, sheet);
    sheet_of(press, &foot, |press, article| {
        let em = press.em;
        let title = head::title(press, &day.name, None, &[], article);
        let mut flows = vec![Flow::One(Block::new(title, 0.0))];
        let mut lines = Vec::new();
        if !allergens.is_empty() {
            let size = em * 1.25;
            lines.push(vec![
                Words::new("On this day are used ", size),
                Words::new(plain(&allergens.join(", ")), size).bold(),
            ]);
        }
        flows.extend(head::care_box(press, &lines, &day.cautions, article));
        flows.extend(head::notes(press, &day.notes, article));
        flows.extend(table(press, cards, article));
        flows.extend(head::credits(press, &day.credits, article));
        flows
    })
}

fn table(press: &mut Press<'_>, cards: &[Card], article: Node) -> Vec<Flow> {
    let em = press.em;
    let size = em * 1.25;
    let node = press.tags.add(Some(article), Role::Table("What is made on the day, and for when.".to_owned()));
    let head_node = press.tags.add(Some(node), Role::TableHead);
    let heads = ["what", "how much", "ready"].map(|text| vec![Words::new(text, em * 0.82).ink(SOFT)]);
    let head = Rc::new(row(press, &heads, head_node, true));
    let body = press.tags.add(Some(node), Role::TableBody);
    let mut flows = vec![Flow::One(Block::new((*head).clone(), em * 0.8).kept())];
    for card in cards {
        let mut what = vec![Words::new(plain(&card.title), size).bold()];
        for (choice, option) in &card.choices {
            what.push(Words::new(format!(", {}: {}", plain(choice), plain(option)), size * 0.88).ink(SOFT));
        }
        let much = card.makes.as_ref().map_or_else(|| " ".to_owned(), |makes| seen(&makes.shown));
        let ready = match &card.ready_shown {
            Some(ready) => ready.clone(),
            None if !card.made_for.is_empty() => format!("before {}", plain(&made_for_names(card))),
            None => " ".to_owned(),
        };
        let cells = [what, vec![Words::new(much, size).bold()], vec![Words::new(ready, size)]];
        let frame = row(press, &cells, body, false);
        flows.push(Flow::One(Block { frame, above: 0.0, keep: false, repeat: Some(Rc::clone(&head)), ruled: false }));
    }
    flows
}

fn row(press: &mut Press<'_>, cells: &[Vec<Words>; 3], parent: Node, is_head: bool) -> Frame {
    let (em, width) = (press.em, press.width());
    let row = press.tags.add(Some(parent), Role::Row);
    let places = [(0.0, 0.46), (0.46, 0.25), (0.71, 0.29)];
    let mut frame = Frame::default();
    let mut high = 0.0_f32;
    for (at, (words, (left, wide))) in cells.iter().zip(places).enumerate() {
        let role = match (is_head, at) {
            (true, _) => Role::ColumnHead,
            (false, 0) => Role::RowHead,
            (false, _) => Role::Cell,
        };
        let cell = press.tagged(words, Setting::left(wide * width - em * 0.8, 1.3), row, role);
        high = high.max(cell.height);
        frame.place(cell, left * width, em * 0.3);
    }
    frame.height = high + em * 0.7;
    frame.fill(0.0, frame.height - em * 0.07, width, em * 0.07, HAIR);
    frame
}
