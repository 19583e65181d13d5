//! The first sheet of a day: everything that is made, and for when.

use super::{head, page};
use crate::figures::card::{Card, DayHead};
use crate::out::report::{clean, seen};
use crate::out::sheet::{Foot, Sheet, allergens_of, made_for_names};
use maud::{Markup, html};

/// The sheet.
pub(super) fn cover(day: &DayHead, cards: &[Card], feet: &mut Vec<Foot>, sheet: &Sheet) -> Markup {
    let allergens = allergens_of(cards);
    let foot = Foot::plain(&day.name, sheet);
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
                        td.much { @if let Some(makes) = &card.makes { (seen(&makes.shown)) } }
                        td {
                            @match &card.ready_shown {
                                Some(ready) => (ready),
                                None if !card.made_for.is_empty() => {
                                    "before " (clean(&made_for_names(card)))
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
