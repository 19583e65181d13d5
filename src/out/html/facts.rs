//! What a baker reads off below the strip, as a list of terms.

use super::steps;
use crate::figures::card::PartCard;
use crate::out::sheet::facts;
use maud::{Markup, html};

/// The facts of a part.
pub(super) fn facts(part: &PartCard) -> Markup {
    let all = facts::facts(part);
    html! {
        @if !all.is_empty() {
            dl.facts {
                @for fact in &all {
                    div.long[fact.is_long].sum[fact.is_sum] {
                        dt { (fact.term) }
                        dd { (fact.said) @if let Some(after) = &fact.after { small { ", " (after) } } @if let Some(blank) = &fact.blank { (steps::blank(blank)) } }
                    }
                }
            }
        }
        @if let Some(water) = facts::water(part) { (self::water(&water)) }
    }
}

/// The water, room by room.
fn water(water: &facts::Water) -> Markup {
    html! {
        table.water {
            caption { (water.caption) }
            tbody {
                @for row in &water.rows {
                    tr.large[row.is_large] { th scope="row" { (row.head) } @for cell in &row.cells { td { (cell) } } }
                }
            }
        }
        @if !water.why.is_empty() { p.sources { (water.why) } }
    }
}
