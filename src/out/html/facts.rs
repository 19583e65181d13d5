//! What a baker reads off below the strip: pieces, what comes out, hydration, keeping.

use crate::figures::card::PartCard;
use crate::measure::quantity::Proportion;
use crate::measure::show;
use crate::out::report::clean;
use crate::out::text::rounded;
use maud::{Markup, html};

/// `100 % = 1350 g flour`, beside the part's name.
pub(in crate::out) fn base_line(part: &PartCard) -> String {
    let from = part.from.as_ref().map(|from| format!("taken out of {from}"));
    let base = match (&part.base_shown, part.base_name.as_deref()) {
        (shown, Some(name)) if !shown.is_empty() => {
            let of = if part.from.is_some() { "all " } else { "" };
            Some(format!("100 % is {of}{}: {shown}", if name == "total" { "everything" } else { name }))
        }
        _ => None,
    };
    let words: Vec<String> = from.into_iter().chain(base).collect();
    clean(&words.join(" · ")).into_owned()
}

fn lost(loss: Option<Proportion>) -> Option<String> {
    loss.filter(|loss| loss.value().is_positive()).map(|loss| format!("{} lost", show::percent(rounded(loss))))
}

/// The facts as a list of terms.
pub(super) fn facts(part: &PartCard) -> Markup {
    let divide = part.divide.as_ref();
    let makes = part.makes.as_ref();
    let hydration = part.hydration.filter(|share| share.value().is_positive());
    let keeps = part.keeps.as_ref().map(|keeps| keeps.strip_prefix("keeps ").unwrap_or(keeps));
    let nothing = divide.is_none()
        && makes.is_none()
        && hydration.is_none()
        && part.prefermented.is_none()
        && part.desired_temperature.is_none()
        && part.balance.is_none()
        && keeps.is_none()
        && part.rounding.is_empty();
    if nothing {
        return html! {};
    }
    html! {
        dl.facts {
            @if let Some(divide) = divide {
                div { dt { "divide" } dd { (show::count_of(divide.pieces)) " × " (clean(&divide.each_shown)) (small(lost(divide.actual_loss))) } }
            }
            @if let Some(makes) = makes {
                div { dt { "makes" } dd { (clean(&makes.shown)) (small(lost(makes.actual_loss))) } }
            }
            @if let Some(at) = &part.desired_temperature {
                div { dt { "dough after mixing" } dd { (at) } }
            }
            @if let Some(water) = &part.water_shown {
                div.long { dt { "pour" } dd { (clean(water)) } }
            }
            @if let Some(keeps) = keeps {
                div { dt { "keeps" } dd { (clean(keeps)) } }
            }
            @if let Some(balance) = &part.balance {
                div { dt { "balance" } dd { (clean(&balance.shown)) } }
            }
            @if let Some(share) = hydration {
                div { dt { "water on flour" } dd { (show::percent(rounded(share))) } }
            }
            @if let Some(share) = part.prefermented {
                div { dt { "flour fermented before" } dd { (show::percent(rounded(share))) } }
            }
            @if !part.rounding.is_empty() {
                div.long { dt { "on the scale" } dd { (clean(&part.rounding.join("; "))) } }
            }
        }
    }
}

fn small(text: Option<String>) -> Markup {
    html! { @if let Some(text) = text { small { ", " (text) } } }
}
