//! What a baker reads off below the strip, as a list of terms.

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
                    div class=[fact.is_long.then_some("long")] {
                        dt { (fact.term) }
                        dd { (fact.said) @if let Some(after) = &fact.after { small { ", " (after) } } }
                    }
                }
            }
        }
    }
}
