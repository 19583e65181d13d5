//! The weigh-out strip as a table with boxes to tick and a stair under its lines.

use super::figure::set;
use crate::figures::card::PartCard;
use crate::measure::shown::Shown;
use crate::out::sheet::column;
use crate::out::sheet::strip::{Column, Kind, Row, Strip};
use maud::{Markup, html};

/// The strip of a part; nothing for a part without ingredients.
pub(super) fn strip(part: &PartCard) -> Markup {
    let Some(strip) = Strip::of(part) else { return html! {} };
    let aligned: Vec<column::Column> = strip.columns.iter().map(|one| column::Column::of(&one.cells)).collect();
    let cells = |at: usize| {
        let cell = |(one, aligned): (&Column, &column::Column)| {
            let shown = one.cells.get(at).cloned().unwrap_or_default();
            figure(one, &shown, *aligned)
        };
        html! { @for cell in strip.columns.iter().zip(&aligned).map(cell) { (cell) } }
    };
    html! {
        div.wide {
            table class={ "strip" @if strip.split { " split" } @if part.preferments.len() > 1 { " many" } @if strip.has_kilograms() { " kg" } } {
                thead {
                    tr {
                        td {}
                        th.name scope="col" { "what goes in" }
                        @for one in &strip.columns { (head(one)) }
                    }
                }
                tbody { @for (at, one) in strip.rows.iter().enumerate() { (row(one, &cells(at))) } }
                @if strip.has_total {
                    tfoot { tr { td {} th.name scope="row" { span.total { "total" } } (cells(strip.rows.len())) } }
                }
            }
            @if strip.columns.iter().any(|column| !matches!(column.kind, Kind::Weigh | Kind::Each)) {
                details.fold { summary aria-label="All columns" {} }
            }
        }
    }
}

fn head(column: &Column) -> Markup {
    html! {
        @match column.kind {
            Kind::Weigh => th.fig.weigh scope="col" { (column.title) },
            Kind::Shows => th.shows scope="col" { (column.title) },
            Kind::Share => th.share scope="col" { (column.title) },
            _ => th.fig scope="col" { (column.title) },
        }
    }
}

/// A cell; on a telephone all but what is weighed stand below it, each with what it is.
fn figure(column: &Column, shown: &Shown, aligned: column::Column) -> Markup {
    let figure = set(aligned, shown);
    html! {
        @match column.kind {
            Kind::Weigh => td.fig.weigh { (figure) },
            Kind::Each => td.fig.each data-head=(column.title) { (figure) },
            Kind::Shows => td.fig.shows data-head=(column.title) { (figure) },
            Kind::Share => td.fig.share data-head=(column.title) { (figure) },
            _ => td.fig data-head=(column.title) { (figure) },
        }
    }
}

fn row(row: &Row, cells: &Markup) -> Markup {
    html! {
        tr.aside[row.aside] {
            td.tick {
                @if row.tick { label.box { input type="checkbox" aria-label={ (row.name) ", weighed" }; } }
                @if let Some((start, length)) = row.stair { (stair_under(start, length)) }
            }
            th.name scope="row" {
                span {
                    span.what { b { (row.name) } @for clause in &row.how { span.how { ", " (clause) } } }
                    span.leader {}
                }
            }
            (cells)
        }
    }
}

/// One tread of the stair. It is an ornament: the figures beside it say the same.
fn stair_under(start: f64, length: f64) -> Markup {
    let x = (start * 1000.0).min(995.0);
    // A pinch of saffron still gets a tread that can be seen.
    let width = (length * 1000.0).max(5.0);
    html! {
        svg.stair viewBox="0 0 1000 4" preserveAspectRatio="none" aria-hidden="true" focusable="false" {
            rect x=(format!("{x:.1}")) y="0" width=(format!("{width:.1}")) height="4" {}
        }
    }
}
