//! Bench sums as one HTML page that stands by itself: plain tables, for the screen and the printer.

use crate::figures::bench::{Section, Sums};
use crate::out::document::document;
use crate::out::report::clean;
use maud::{Markup, html};

/// The page's own style.
const STYLE: &str = "body{font:16px/1.45 system-ui,sans-serif;max-width:46rem;margin:2rem auto;padding:0 1rem;color:#111;background:#fff}\
    h1{font-size:1.5rem}h2{font-size:1.1rem;margin:1.8rem 0 .4rem;border-bottom:2px solid #111}\
    table{border-collapse:collapse;width:100%}th{font-weight:400;text-align:left}td{text-align:right}\
    th,td{padding:.2rem .5rem .2rem 0;border-bottom:1px solid #bbb;vertical-align:top}thead th{font-weight:700}\
    thead th+th{text-align:right}p{margin:.5rem 0}.care{border:2px solid #111;padding:.5rem .8rem}section{break-inside:avoid}";

/// Renders the sums.
pub fn render(sums: &Sums) -> String {
    let title = clean(&format!("{}: bench sums", sums.recipe)).into_owned();
    let body = html! {
                main {
                    h1 { (title) }
                    @for one in &sums.sections { (section(one)) }
                    @for caution in &sums.cautions { p.care { b { "Caution. " } (clean(caution)) } }
                }
    };
    document(&title, STYLE, &html! {}, &body)
}

fn section(section: &Section) -> Markup {
    html! {
        section {
            h2 { (clean(&section.title)) }
            @if !section.rows.is_empty() {
                table { tbody {
                    @for row in &section.rows { tr { th scope="row" { (clean(&row.what)) } td { (clean(&row.shown)) } } }
                } }
            }
            @if let Some(table) = &section.table {
                table {
                    thead { tr { @for cell in &table.head { th scope="col" { (clean(cell)) } } } }
                    tbody {
                        @for row in &table.rows {
                            tr { @for (at, cell) in row.iter().enumerate() {
                                @if at == 0 { th scope="row" { (clean(cell)) } } @else { td { (clean(cell)) } }
                            } }
                        }
                    }
                }
            }
            @for remark in &section.remarks { p { (clean(remark)) } }
            p { small { "Formula and sources: " code { "miche explain " (section.topic) } } }
        }
    }
}
