//! Changes as one self-contained HTML page: before and now in two columns, to be read or printed.

use super::{Changes, Run, amount, bracketed, by_how_much, words};
use crate::figures::compare::{Change, Comparison, Figure, PartChange, StepChange, TextChange};
use crate::out::page::{document, sealed};
use crate::out::report::clean;
use maud::{Markup, html};

const STYLE: &str = "\
:root{color-scheme:light dark}\
body{font:1rem/1.5 system-ui,sans-serif;max-width:60rem;margin:2rem auto;padding:0 1rem}\
table{border-collapse:collapse;width:100%;margin:.5rem 0 1rem}\
th,td{text-align:left;padding:.25rem .75rem .25rem 0;border-bottom:1px solid #8886;vertical-align:top}\
td.n{text-align:right;font-variant-numeric:tabular-nums}\
.loud{border:3px solid;padding:.5rem 1rem;font-weight:700}\
del{text-decoration:line-through}ins{text-decoration:underline;font-weight:700}\
@media print{body{margin:0;max-width:none}section{break-inside:avoid}}";

/// Renders the changes of all files.
pub fn render(all: &[Changes]) -> String {
    let title = all.first().map_or("", |first| first.comparison.recipe.as_str());
    let body = html! { main { @for changes in all { (file(changes)) } } };
    document(&format!("Changes: {title}"), STYLE, &sealed(), &body)
}

fn file(changes: &Changes) -> Markup {
    let comparison = &changes.comparison;
    html! {
        h1 { (clean(&comparison.recipe)) @if let Some(was) = &comparison.was { " (was " (clean(was)) ")" } }
        @if changes.is_empty() { p { (super::text::nothing(changes)) } } @else { (body(comparison)) }
    }
}

fn body(comparison: &Comparison) -> Markup {
    html! {
        @for allergen in &comparison.allergens_gained { p.loud { "Allergen gained: " (clean(allergen)) } }
        @for allergen in &comparison.allergens_lost { p.loud { "Allergen no longer in it: " (clean(allergen)) } }
        @if let Some(factor) = comparison.rescaled {
            p { "Every amount is " strong { (crate::measure::show::number(factor)) " times" } " what it was." }
        }
        @if !comparison.head.is_empty() || !comparison.plan.is_empty() {
            table {
                (head_row())
                tbody { @for figure in comparison.head.iter().chain(&comparison.plan) { (figure_row(figure)) } }
            }
        }
        @for (check, message) in &comparison.problems_raised { p { strong { "New problem" } " (" (check) "): " (clean(message)) } }
        @for (check, message) in &comparison.problems_cleared { p { "Problem gone (" (check) "): " (clean(message)) } }
        @for text in &comparison.texts { (text_row(text)) }
        @for part in &comparison.parts { (part_body(part)) }
    }
}

fn head_row() -> Markup {
    html! { thead { tr { th scope="col" { "what" } th scope="col" { "before" } th scope="col" { "now" } th scope="col" { "change" } } } }
}

fn figure_row(figure: &Figure) -> Markup {
    html! { tr { th scope="row" { (figure.figure) (clean(&bracketed(&figure.only))) } td.n { (clean(&figure.old)) } td.n { (clean(&figure.new)) } td {} } }
}

fn part_body(part: &PartChange) -> Markup {
    let what = match part.change {
        Change::Added => " (new)",
        Change::Removed => " (gone)",
        Change::Changed => "",
    };
    html! {
        section {
            h2 { (clean(&part.name)) (clean(&bracketed(&part.only))) @if let Some(was) = &part.was { " (was " (clean(was)) ")" } (what) }
            @if !part.lines.is_empty() || !part.figures.is_empty() {
                table {
                    (head_row())
                    tbody {
                        @for line in &part.lines {
                            tr {
                                th scope="row" {
                                    (clean(&line.ingredient)) (clean(&bracketed(&line.only)))
                                    @if let Some(was) = &line.was { " (was " (clean(was)) ")" }
                                }
                                td.n { (amount(line.old_percent, &line.old_shown)) }
                                td.n { (amount(line.new_percent, &line.new_shown)) }
                                td {
                                    @match line.change {
                                        Change::Added => "new",
                                        Change::Removed => "gone",
                                        Change::Changed => (by_how_much(line)),
                                    }
                                }
                            }
                            @for clause in &line.clauses { (figure_row(clause)) }
                        }
                        @for figure in &part.figures { (figure_row(figure)) }
                    }
                }
            }
            @for text in &part.texts { (text_row(text)) }
            @for step in &part.steps { (step_body(step)) }
        }
    }
}

fn text_row(text: &TextChange) -> Markup {
    html! { p { (text.kind.word()) " " (text.change.word()) ": " (clean(&text.text)) } }
}

fn step_body(step: &StepChange) -> Markup {
    html! {
        p {
            strong { (clean(&step.step)) } (clean(&bracketed(&step.only)))
            @if let Some(was) = &step.was { " (was " (clean(was)) ")" }
            @match step.change { Change::Added => " (new)", Change::Removed => " (gone)", Change::Changed => "" }
            @if step.moved { " (moved)" }
            @for field in &step.fields { "; " (field.figure) ": " (clean(&field.old)) " → " (clean(&field.new)) }
        }
        @if let Some((old, new)) = &step.prose {
            p {
                @for (run, text) in words(&clean(old), &clean(new)) {
                    @match run { Run::Same => (text), Run::Gone => del { (text) }, Run::New => ins { (text) } }
                }
            }
        }
    }
}
