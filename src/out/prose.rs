//! Prose as HTML: the safe CommonMark events, with amounts set in.

use crate::language::prose::{Insert, Prose};
use crate::out::report::clean;
use maud::{Markup, PreEscaped, html};
use pulldown_cmark::{Event, Tag, TagEnd};

/// Block-level markup of the prose.
pub(in crate::out) fn blocks(prose: &Prose) -> Markup {
    let events = prose.events(|insert| vec![Event::InlineHtml(set_in(insert).into_string().into())]);
    // A heading inside a step would break the order of the card's own headings.
    let events = events.into_iter().flat_map(|event| match event {
        Event::Start(Tag::Heading { .. }) => vec![Event::Start(Tag::Paragraph), Event::Start(Tag::Strong)],
        Event::End(TagEnd::Heading(_)) => vec![Event::End(TagEnd::Strong), Event::End(TagEnd::Paragraph)],
        other => vec![other],
    });
    let mut out = String::new();
    pulldown_cmark::html::push_html(&mut out, events);
    PreEscaped(out)
}

/// An amount as it stands among words: the figure never breaks from its unit.
fn set_in(insert: &Insert) -> Markup {
    html! {
        @match insert {
            Insert::Measure(shown) => span.measure { (shown) },
            Insert::Each { amount, ingredient } => {
                b { (clean(ingredient)) } " (" b.amount { (amount) } " each)"
            }
            Insert::Amount { before, amount, of, ingredient } => {
                @if !before.is_empty() { (before) " " }
                @if !amount.is_empty() { b.amount { (amount) @if !of.is_empty() { " " (of) } } " " }
                b { (clean(ingredient)) }
            }
        }
    }
}
