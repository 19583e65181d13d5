//! The head of a card: name, batch, choices, what can hurt somebody, notes.

use super::steps;
use crate::figures::card::{Card, ScaledBy};
use crate::language::prose::Prose;
use crate::measure::noun;
use crate::measure::number::Number;
use crate::out::block::{Phrase, Tone};
use crate::out::prose;
use crate::out::report::{clean, seen};
use crate::out::sheet::{by_hand, from_store, made_for};
use maud::{Markup, html};

/// Name and batch; `sheet` is what this sheet holds when it is not the whole recipe.
pub(super) fn head(card: &Card, title: &str, sheet: Option<&str>) -> Markup {
    html! {
        header {
            div.head {
                div {
                    h1 { (clean(title)) }
                    @if let Some(sheet) = sheet { p.sheet { (clean(sheet)) } }
                }
                @if card.makes.is_some() || card.factor != Number::ONE {
                    div.ticket {
                        @if let Some(makes) = &card.makes { p.batch { (seen(&makes.shown)) } }
                        @if card.factor != Number::ONE { p.times { (crate::measure::show::number(card.factor)) " × the recipe" } }
                        @if let Some(ready) = &card.ready_shown { p { "ready " b { (ready) } } }
                        @if let Some(limit) = &card.limit { p { (clean(&noun::as_far_as(limit))) } }
                        @if let Some(by) = card.scaled_by.as_ref().and_then(ScaledBy::words) { p { (clean(&by)) } }
                    }
                }
            }
            @if !card.made_for.is_empty() {
                div.hand {
                    p.for { "Made for" }
                    ul.plain { @for row in made_for(card) { li { (runs(&row)) } } }
                }
            }
            @if !card.from_store.is_empty() {
                div.hand {
                    p.for { "From the store" }
                    ul.plain { @for row in from_store(card) { li { (runs(&row)) } } }
                }
            }
            @if !card.choices.is_empty() || !card.kitchen.is_empty() {
                dl.picks {
                    @for (choice, option) in &card.choices {
                        div { dt { (clean(choice)) } dd { (clean(option)) } }
                    }
                    @if !card.kitchen.is_empty() { div { dt { "made in" } dd { (clean(&card.kitchen)) } } }
                }
            }
            div.record { @for blank in &by_hand::of_batch(card) { (steps::blank(blank)) } }
        }
    }
}

/// Words of which some stand out.
pub(super) fn runs(runs: &[Phrase]) -> Markup {
    html! {
        @for run in runs {
            @match run.tone {
                Tone::Strong => b { (run.text) },
                Tone::Amount => b.amount { (run.text) },
                Tone::Plain | Tone::Quiet | Tone::Typed => (run.text),
            }
        }
    }
}

/// The box with allergens and cautions. That nothing is known to be in it is also said.
pub(super) fn care(card: &Card, cautions: &[Prose]) -> Markup {
    html! {
        @if !card.allergens.is_empty() || !card.allergens_unknown.is_empty() || !cautions.is_empty() {
            div.care role="note" {
                @if !card.allergens.is_empty() {
                    p.holds { "Contains " strong { (clean(&card.allergens.join(", "))) } }
                }
                @if !card.allergens_unknown.is_empty() {
                    p.unknown { "Allergens not known of: " (clean(&card.allergens_unknown.join(", "))) ". Read their labels." }
                }
                @for caution in cautions { (warning(caution)) }
            }
        }
    }
}

/// The cautions of a part.
pub(super) fn part_care(cautions: &[Prose]) -> Markup {
    html! {
        @if !cautions.is_empty() {
            div.care role="note" { @for caution in cautions { (warning(caution)) } }
        }
    }
}

/// One caution: a line, its hazard first.
pub(super) fn warning(caution: &Prose) -> Markup {
    html! { div.warn { (sign()) div { (prose::blocks(caution)) } } }
}

/// Notes.
pub(super) fn notes(notes: &[Prose]) -> Markup {
    html! { @if !notes.is_empty() { div.notes { @for note in notes { (prose::blocks(note)) } } } }
}

/// What a telephone folds away below all that is done at the bench: times, sources, credits, the foot. Wider screens and paper have no fold.
pub(super) fn about() -> Markup {
    html! { details.fold.about { summary aria-label="Times, sources, revision" {} } }
}

/// Where the cautions were published.
pub(super) fn sources(card: &Card) -> Markup {
    html! { @if !card.caution_sources.is_empty() { p.sources { (clean(&card.caution_sources)) } } }
}

/// Whom to thank.
pub(super) fn credits(card: &Card) -> Markup {
    all_credits(&card.credits)
}

/// Whom to thank, of a recipe or a day.
pub(super) fn all_credits(credits: &[Prose]) -> Markup {
    html! { @if !credits.is_empty() { div.credits { @for credit in credits { (prose::blocks(credit)) } } } }
}

/// A warning triangle, drawn: fonts have it as a coloured picture or not at all.
fn sign() -> Markup {
    html! {
        svg viewBox="0 0 24 22" aria-hidden="true" focusable="false" {
            path d="M12 2 22.5 20.5H1.5ZM12 8.5v6M12 16.6v2" stroke-width="2.4" stroke-linejoin="round" {}
        }
    }
}
