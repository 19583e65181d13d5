//! A sheet for each station: what comes in, what is weighed and done there, where it goes.

use super::frame::{Block, Flow};
use super::tags::{Node, Role};
use super::{Made, Press, facts, head, plain, sheet_of, steps, strip, timeline};
use crate::figures::card::{Card, Stay, stations};
use crate::out::block::Phrase;
use crate::out::sheet::facts::base_line;
use crate::out::sheet::{Foot, Sheet, handovers};

/// The sheets, and one over all of them with notes and timeline.
pub(super) fn sheets(press: &mut Press<'_>, card: &Card, sheet: &Sheet) -> Vec<Made> {
    let all = stations(card);
    let mut sheets = Vec::with_capacity(all.len() + 1);
    for station in &all {
        let foot = Foot::new(card, &format!("{}: {}", card.title, station.name), sheet);
        sheets.push(sheet_of(press, &foot, |press, article| {
            let mut flows = head::head(press, card, Some(&station.title()), article);
            flows.extend(head::care(press, card, &card.short_cautions, article));
            for one in &station.works {
                flows.extend(work(press, card, (one, station.name), article));
            }
            flows
        }));
    }
    let foot = Foot::new(card, &format!("{}: all stations", card.title), sheet);
    sheets.push(sheet_of(press, &foot, |press, article| {
        let mut flows = head::head(press, card, Some("All stations"), article);
        flows.extend(head::care(press, card, &card.short_cautions, article));
        flows.extend(head::notes(press, &card.notes, article));
        flows.extend(timeline::figure(press, card, sheet, article));
        flows.extend(head::sources(press, card, article));
        flows.extend(head::credits(press, &card.credits, article));
        flows
    }));
    sheets
}

fn work(press: &mut Press<'_>, card: &Card, (work, here): (&Stay<'_>, &str), article: Node) -> Vec<Flow> {
    let part = work.part;
    let section = press.tags.add(Some(article), Role::Section);
    let is_last = work.steps.last().is_some_and(|(number, _)| *number == part.steps.len());
    let base = if work.weighs.is_some() { base_line(part) } else { String::new() };
    let mut flows = vec![head::tab(press, &plain(&part.name), &base, false, section)];
    let comes_in = handovers(card, true, &work.comes_in, here);
    flows.extend(handed(press, true, &comes_in, section));
    if let Some(weighs) = &work.weighs {
        let mut strip = strip::strip(press, weighs, section);
        if let Some(Flow::One(first)) = strip.first_mut().filter(|_| !comes_in.is_empty()) {
            first.above = press.em * 0.5;
        }
        flows.extend(strip);
    }
    if is_last {
        flows.extend(facts::facts(press, part, section));
    }
    flows.extend(head::part_care(press, &part.cautions, section));
    flows.extend(head::notes(press, &part.notes, section));
    flows.extend(steps::steps(press, &work.steps, steps::Set { level: 3, starts: true }, section));
    flows.extend(handed(press, false, &handovers(card, false, &work.goes_out, here), section));
    flows
}

/// What is handed over.
fn handed(press: &mut Press<'_>, comes_in: bool, all: &[Vec<Phrase>], parent: Node) -> Vec<Flow> {
    if all.is_empty() {
        return Vec::new();
    }
    let label = if comes_in { "Comes in" } else { "Goes out" };
    let frame = head::boxed_rows(press, label, all, Some(3), parent);
    // What comes in stands over what is done with it.
    vec![Flow::One(Block { keep: comes_in, ..Block::new(frame, press.em * 0.6) })]
}
