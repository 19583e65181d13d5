//! The weigh-out strip: a line to tick for everything that goes into the bowl, and what the scale shows when it is in.

use super::figure::Column;
use crate::figures::card::{LineCard, PartCard};
use crate::measure::quantity::Mass;
use crate::out::report::clean;
use maud::{Markup, html};

/// Which columns a strip has.
struct Columns {
    split: bool,
    each: Option<Column>,
    in_all: Option<Column>,
    preferments: Vec<Column>,
    weigh: Column,
    shows: Option<Column>,
    share: Option<Column>,
}

impl Columns {
    fn of(part: &PartCard) -> Columns {
        let split = !part.preferments.is_empty();
        let lines = || part.lines.iter();
        let shown = lines().map(|line| line.shown.as_str()).chain([part.total_shown.as_str()]);
        let mixed = lines().map(|line| line.final_mix_shown.as_str());
        let mixed = mixed
            .chain(part.preferments.iter().map(|column| column.total_shown.as_str()))
            .chain([part.final_mix_shown.as_str()]);
        let shows = lines()
            .map(|line| line.running.as_str())
            .chain(part.preferments.iter().map(|column| column.running.as_str()));
        let share = lines().map(|line| line.percent_shown.as_str());
        let runs = lines().any(|line| !line.running.is_empty());
        let percents = lines().any(|line| !line.percent_shown.is_empty());
        Columns {
            split,
            each: part.per_piece.then(|| Column::of(lines().map(|line| line.each_shown.as_str()))),
            in_all: split.then(|| Column::of(shown.clone())),
            preferments: part.preferments.iter().map(|one| Column::of(one.cells.iter().map(String::as_str))).collect(),
            weigh: if split { Column::of(mixed) } else { Column::of(shown) },
            shows: runs.then(|| Column::of(shows)),
            share: percents.then(|| Column::of(share.chain([part.percent_total_shown.as_str()]))),
        }
    }
}

/// The strip of a part; nothing for a part without ingredients.
pub(super) fn strip(part: &PartCard) -> Markup {
    if part.lines.is_empty() {
        return html! {};
    }
    let columns = Columns::of(part);
    let stairs = stairs(part);
    html! {
        div.wide {
            table class={ "strip" @if columns.split { " split" } @if part.preferments.len() > 1 { " many" } @if has_kilograms(part) { " kg" } } {
                (heads(part, &columns))
                tbody {
                    @for (at, line) in part.lines.iter().enumerate() {
                        (row(part, line, at, &columns, stairs.get(at).copied().flatten()))
                    }
                    @for at in 0..part.preferments.len() {
                        (preferment_row(part, at, &columns, stairs.get(part.lines.len() + at).copied().flatten()))
                    }
                }
                (total(part, &columns))
            }
        }
    }
}

/// Whether a figure is in kilograms, which take more room than grams.
fn has_kilograms(part: &PartCard) -> bool {
    let lines =
        part.lines.iter().flat_map(|line| [&line.shown, &line.running, &line.each_shown, &line.final_mix_shown]);
    lines
        .chain([&part.total_shown, &part.final_mix_shown])
        .any(|shown| shown.split(" (").next().is_some_and(|first| first.ends_with(" kg")))
}

fn heads(part: &PartCard, columns: &Columns) -> Markup {
    let base = part.base_name.as_deref().unwrap_or("");
    html! {
        thead {
            tr {
                td {}
                th.name scope="col" { "what goes in" }
                @if columns.each.is_some() { th.fig scope="col" { "each" } }
                @if columns.in_all.is_some() { th.fig scope="col" { "in all" } }
                @for one in &part.preferments { th.fig scope="col" { (clean(&one.name)) } }
                th.fig scope="col" { (if columns.split { "final mix" } else if part.per_piece { "in all" } else { "weigh" }) }
                @if columns.shows.is_some() { th.shows scope="col" { "scale shows" } }
                @if columns.share.is_some() {
                    th.share scope="col" { @if base == "flour" || base.is_empty() { "%" } @else { "% of " (clean(base)) } }
                }
            }
        }
    }
}

fn row(part: &PartCard, line: &LineCard, at: usize, columns: &Columns, stair: Option<(f64, f64)>) -> Markup {
    let name = clean(&line.ingredient);
    let weigh = if columns.split { &line.final_mix_shown } else { &line.shown };
    html! {
        tr.aside[line.aside] {
            td.tick {
                @if !weigh.is_empty() { input type="checkbox" aria-label={ (name) ", weighed" }; }
                @if let Some((start, length)) = stair { (stair_under(start, length)) }
            }
            th.name scope="row" {
                span {
                    span.what { b { (name) } (how(line)) }
                    span.leader {}
                }
            }
            @if let Some(column) = columns.each { td.fig { (column.set(&line.each_shown)) } }
            @if let Some(column) = columns.in_all { td.fig { (column.set(&line.shown)) } }
            @for (one, column) in part.preferments.iter().zip(&columns.preferments) {
                td.fig { (column.set(one.cells.get(at).map_or("", String::as_str))) }
            }
            td.fig.weigh { (columns.weigh.set(weigh)) }
            @if let Some(column) = columns.shows { td.fig.shows { (column.set(&line.running)) } }
            @if let Some(column) = columns.share { td.fig.share { (column.set(&line.percent_shown)) } }
        }
    }
}

/// Temperature, preparation and the like, quiet behind the name.
fn how(line: &LineCard) -> Markup {
    let temperature = line.temperature_shown.as_ref().map(|at| format!("at {at}"));
    let optional = line.optional.then(|| "optional".to_owned());
    let aside = line.aside.then(|| "set aside".to_owned());
    let measure = line.measure.clone().filter(|measure| *measure != line.shown);
    let all = [measure, temperature, line.preparation.clone(), optional, aside];
    html! { @for clause in all.iter().flatten() { span.how { ", " (clean(clause)) } } }
}

fn preferment_row(part: &PartCard, at: usize, columns: &Columns, stair: Option<(f64, f64)>) -> Markup {
    let Some(one) = part.preferments.get(at) else { return html! {} };
    html! {
        tr {
            td.tick {
                input type="checkbox" aria-label={ (clean(&one.name)) ", weighed" };
                @if let Some((start, length)) = stair { (stair_under(start, length)) }
            }
            th.name scope="row" {
                span { span.what { b { (clean(&one.name)) } span.how { ", all of it" } } span.leader {} }
            }
            @if columns.in_all.is_some() { td.fig {} }
            @for (other, column) in columns.preferments.iter().enumerate() {
                td.fig { @if other == at { (column.set(&one.total_shown)) } }
            }
            td.fig.weigh { (columns.weigh.set(&one.total_shown)) }
            @if let Some(column) = columns.shows { td.fig.shows { (column.set(&one.running)) } }
            @if columns.share.is_some() { td.fig.share {} }
        }
    }
}

fn total(part: &PartCard, columns: &Columns) -> Markup {
    if part.total_shown.is_empty() {
        return html! {};
    }
    let weigh = if columns.split { &part.final_mix_shown } else { &part.total_shown };
    html! {
        tfoot {
            tr {
                td {}
                th.name scope="row" { span.total { "total" } }
                @if columns.each.is_some() { td.fig {} }
                @if let Some(column) = columns.in_all { td.fig { (column.set(&part.total_shown)) } }
                @for _ in &part.preferments { td.fig {} }
                td.fig.weigh { (columns.weigh.set(weigh)) }
                @if columns.shows.is_some() { td.fig.shows {} }
                @if let Some(column) = columns.share { td.fig.share { (column.set(&part.percent_total_shown)) } }
            }
        }
    }
}

/// Where each line's share of the bowl begins and how long it is, of 1; lines first, then preferments.
pub(in crate::out) fn stairs(part: &PartCard) -> Vec<Option<(f64, f64)>> {
    let in_bowl = |line: &LineCard| if line.aside { None } else { line.final_mix };
    let masses: Vec<Option<Mass>> =
        part.lines.iter().map(in_bowl).chain(part.preferments.iter().map(|column| column.total)).collect();
    let total: f64 = masses.iter().flatten().map(|mass| mass.value().to_f64()).sum();
    let mut start = 0.0;
    masses
        .iter()
        .map(|mass| {
            let length = mass.filter(|_| total > 0.0)?.value().to_f64() / total;
            let from = start;
            start += length;
            (length > 0.0).then_some((from, length))
        })
        .collect()
}

/// One tread of the stair. It is an ornament: the figures beside it say the same.
fn stair_under(start: f64, length: f64) -> Markup {
    let x = (start * 1000.0).min(995.0);
    // A pinch of saffron still gets a tread that can be seen.
    let width = (length * 1000.0).max(5.0);
    html! {
        svg.stair viewBox="0 0 1000 4" preserveAspectRatio="none" aria-hidden="true" focusable="false" {
            rect.run x="0" y="3" width="1000" height="1" {}
            rect.rise x=(format!("{x:.1}")) y="0" width=(format!("{width:.1}")) height="4" {}
        }
    }
}
