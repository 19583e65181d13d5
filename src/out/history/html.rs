//! A history as one self-contained page: the chart, and the table under it.

use super::{FIGURES, cells, chart, counted, date, instead, parts, subject, title};
use crate::figures::history::{History, Row};
use crate::out::document::{document, sealed};
use crate::out::report::clean;
use maud::{Markup, PreEscaped, html};

const STYLE: &str = "\
:root{color-scheme:light dark}\
body{font:1rem/1.5 system-ui,sans-serif;max-width:70rem;margin:2rem auto;padding:0 1rem}\
svg{width:100%;height:auto}\
table{border-collapse:collapse;width:100%;margin:.5rem 0 1rem}\
th,td{text-align:left;padding:.25rem .75rem .25rem 0;border-bottom:1px solid #8886;vertical-align:top}\
.n{text-align:right;font-variant-numeric:tabular-nums}\
@media print{body{margin:0;max-width:none}svg,tr{break-inside:avoid}}";

/// Renders the history.
pub fn render(history: &History) -> String {
    let title = clean(title(history));
    let parts = parts(history);
    let body = html! { main {
                h1 { (title) }
                p { (counted(history)) "." @if !parts.is_empty() { " Figures of " (clean(&parts.join(", "))) "." } }
                @if let Some(chart) = chart::render(history) { (PreEscaped(chart)) }
                table {
                    thead { tr {
                        th scope="col" { "date" }
                        th scope="col" { "revision" }
                        @for head in FIGURES { th.n scope="col" { (head) } }
                        th scope="col" { "subject" }
                    } }
                    tbody { @for row in &history.rows { (line(row)) } }
                }
    } };
    document(&format!("History: {title}"), STYLE, &sealed(), &body)
}

fn line(row: &Row) -> Markup {
    html! {
        tr {
            td { (clean(date(row))) }
            td { (clean(&row.short)) }
            @if let Some(figures) = row.figures() {
                @for cell in cells(figures) { td.n { (clean(&cell)) } }
            } @else if let Some(why) = instead(row) {
                td colspan=(FIGURES.len()) { strong { (clean(&why)) } }
            }
            td { (clean(&subject(row))) }
        }
    }
}
