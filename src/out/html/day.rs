//! The first sheet of a day: everything that is made, and for when.

use super::{Sheet, head, page};
use crate::figures::card::{Card, DayHead};
use crate::out::report::clean;
use maud::{Markup, html};

/// The sheet.
pub(super) fn cover(day: &DayHead, cards: &[Card], feet: &mut Vec<page::Foot>, sheet: &Sheet) -> Markup {
    let mut allergens: Vec<&str> = cards.iter().flat_map(|card| &card.allergens).map(String::as_str).collect();
    allergens.sort_unstable();
    allergens.dedup();
    let foot = page::Foot::plain(&day.name, sheet);
    let body = html! {
        header { div.head { div { h1 { (clean(&day.name)) } } } }
        @if !allergens.is_empty() || !day.cautions.is_empty() {
            div.care role="note" {
                @if !allergens.is_empty() { p.holds { "On this day are used " strong { (clean(&allergens.join(", "))) } } }
                @for caution in &day.cautions { (head::warning(caution)) }
            }
        }
        (head::notes(&day.notes))
        table.day {
            thead { tr { th scope="col" { "what" } th scope="col" { "how much" } th scope="col" { "ready" } } }
            tbody {
                @for card in cards {
                    tr {
                        th scope="row" {
                            (clean(&card.title))
                            @for (choice, option) in &card.choices { span.how { ", " (clean(choice)) ": " (clean(option)) } }
                        }
                        td.much { @if let Some(makes) = &card.makes { (clean(&makes.shown)) } }
                        td {
                            @match &card.ready_shown {
                                Some(ready) => (ready),
                                None if !card.made_for.is_empty() => {
                                    "before " (clean(&names(card)))
                                }
                                None => "",
                            }
                        }
                    }
                }
            }
        }
        (head::all_credits(&day.credits))
    };
    page::sheet(&foot, "", feet, &body)
}

pub(in crate::out) fn names(card: &Card) -> String {
    let mut names: Vec<&str> = Vec::new();
    for one in card.made_for.iter().filter(|one| one.recipe != card.title) {
        if !names.contains(&one.recipe.as_str()) {
            names.push(&one.recipe);
        }
    }
    crate::measure::show::list(&names)
}
