//! A sheet for each station: what comes in, what is weighed and done there, where it goes.

use super::{facts, head, page, steps, strip, timeline};
use crate::figures::card::{Card, Stay, stations};
use crate::out::block::Phrase;
use crate::out::report::clean;
use crate::out::sheet::facts::base_line;
use crate::out::sheet::{Foot, Sheet, handovers};
use maud::{Markup, html};

/// The sheets, and one over all of them with notes and timeline.
pub(super) fn sheets(card: &Card, feet: &mut Vec<Foot>, sheet: &Sheet) -> Vec<Markup> {
    let all = stations(card);
    let mut sheets: Vec<Markup> = Vec::with_capacity(all.len() + 1);
    for station in &all {
        let title = format!("{}: {}", card.title, station.name);
        let foot = Foot::new(card, &title, sheet);
        let body = html! {
            (head::head(card, &card.title, Some(&station.title())))
            (head::care(card, &card.short_cautions))
            @for one in &station.works { (work(card, one, station.name)) }
        };
        sheets.push(page::article(card, &foot, feet, &body));
    }
    let foot = Foot::new(card, &format!("{}: all stations", card.title), sheet);
    let body = html! {
        (head::head(card, &card.title, Some("All stations")))
        (head::care(card, &card.short_cautions))
        (head::notes(&card.notes))
        (timeline::figure(card, sheet))
        (head::sources(card))
        (head::credits(card))
    };
    sheets.push(page::article(card, &foot, feet, &body));
    sheets
}

fn work(card: &Card, work: &Stay<'_>, here: &str) -> Markup {
    let part = work.part;
    let is_last = work.steps.last().is_some_and(|(number, _)| *number == part.steps.len());
    html! {
        section.part {
            div.tab {
                h2 { (clean(&part.name)) }
                p { @if work.weighs.is_some() { (base_line(part)) } }
            }
            (handed(true, &handovers(card, true, &work.comes_in, here)))
            @if let Some(weighs) = &work.weighs { (strip::strip(weighs)) }
            @if is_last { (facts::facts(part)) }
            (head::part_care(&part.cautions))
            (head::notes(&part.notes))
            ol.steps { @for (number, step) in &work.steps { (steps::step(step, *number, true)) } }
            (handed(false, &handovers(card, false, &work.goes_out, here)))
        }
    }
}

/// What is handed over.
fn handed(comes_in: bool, all: &[Vec<Phrase>]) -> Markup {
    let label = if comes_in { "Comes in" } else { "Goes out" };
    html! {
        @if !all.is_empty() {
            div.hand {
                h3 { (label) }
                ul.plain { @for row in all { li { (head::runs(row)) } } }
            }
        }
    }
}
