//! Cards as one HTML file that stands by itself: type, style and script inside, nothing fetched.
//!
//! A design of our own for the bench. Three things carry it: the weigh-out strip, where a stair under the lines shows how
//! the bowl fills; the step, with time and heat at the left and the cue in a tag of its own; and the drawn timeline,
//! where hands, tend and wait differ by shape. All of it is right in black and white.

mod day;
mod facts;
mod figure;
mod head;
pub mod labels;
mod list;
mod log;
mod page;
mod station;
mod steps;
mod strip;
mod timeline;

pub use list::render_list;

use crate::figures::bakes::blank::Blank;
use crate::figures::card::{Card, DayHead, PartCard, stations};
use crate::out::report::clean;
use crate::out::sheet::facts::base_line;
use crate::out::sheet::{By, Foot, Sheet};
use crate::out::typeset;
use maud::{DOCTYPE, Markup, html};

/// Renders the cards.
pub fn render(cards: &[Card], day: Option<&DayHead>, sheet: &Sheet) -> String {
    render_logged(cards, day, &[], sheet)
}

/// Renders the cards, and behind them the sheets of the log to fill in by hand.
pub fn render_logged(cards: &[Card], day: Option<&DayHead>, logs: &[Blank], sheet: &Sheet) -> String {
    let mut feet = Vec::new();
    let mut sheets = Vec::new();
    sheets.extend(day.map(|day| day::cover(day, cards, &mut feet, sheet)));
    for card in cards {
        match sheet.by {
            By::Recipe => sheets.push(whole(card, &mut feet, sheet)),
            By::Part => sheets.extend(by_part(card, &mut feet, sheet)),
            By::Station if stations(card).len() < 2 => sheets.push(whole(card, &mut feet, sheet)),
            By::Station => sheets.extend(station::sheets(card, &mut feet, sheet)),
        }
    }
    sheets.extend(logs.iter().map(|blank| log::sheet(blank, &mut feet, sheet)));
    let title = match (day, cards) {
        (Some(day), _) => clean(&day.name).into_owned(),
        (None, [one]) => clean(&one.title).into_owned(),
        (None, many) => many.iter().map(|card| clean(&card.title).into_owned()).collect::<Vec<String>>().join(", "),
    };
    let style = page::Styles::new(sheet, &feet);
    let body = html! {
        (DOCTYPE)
        html lang="en" {
            (page::head(&title, &style))
            body {
                main { @for one in &sheets { (one) } }
                (page::script())
            }
        }
    };
    typeset::markup(&body.into_string()) + "\n"
}

/// One sheet for the whole recipe.
fn whole(card: &Card, feet: &mut Vec<Foot>, sheet: &Sheet) -> Markup {
    let foot = Foot::new(card, &card.title, sheet);
    let lonely = card.parts.len() == 1 && card.parts.first().is_some_and(|part| part.name == card.title);
    let body = html! {
        (head::head(card, &card.title, None))
        (head::care(card, &card.short_cautions))
        (head::notes(&card.notes))
        @for one in &card.parts { (part(one, !lonely)) }
        (head::about())
        (timeline::figure(card, sheet))
        (head::sources(card))
        (head::credits(card))
    };
    page::article(card, &foot, feet, &body)
}

/// A sheet for each part.
fn by_part(card: &Card, feet: &mut Vec<Foot>, sheet: &Sheet) -> Vec<Markup> {
    let count = card.parts.len();
    card.parts
        .iter()
        .enumerate()
        .map(|(at, one)| {
            let title =
                if one.name == card.title { card.title.clone() } else { format!("{}: {}", card.title, one.name) };
            let foot = Foot::new(card, &title, sheet);
            let body = html! {
                (head::head(card, &card.title, (count > 1).then_some(one.name.as_str())))
                (head::care(card, &card.short_cautions))
                (part(one, count > 1))
                @if at + 1 == count {
                    (head::notes(&card.notes))
                    (head::about())
                    (timeline::figure(card, sheet))
                    (head::sources(card))
                    (head::credits(card))
                }
            };
            page::article(card, &foot, feet, &body)
        })
        .collect()
}

/// A part: tab, strip, what is read off it, steps.
fn part(part: &PartCard, tab: bool) -> Markup {
    let name = clean(&part.name);
    html! {
        section.part {
            @if tab || part.base.is_some() {
                div.tab {
                    h2 { @if tab { (name) } @else { "Weigh out" } }
                    p { (base_line(part)) }
                }
            }
            (strip::strip(part))
            (facts::facts(part))
            (head::part_care(&part.cautions))
            (head::notes(&part.notes))
            (steps::steps(part))
        }
    }
}
