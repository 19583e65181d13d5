//! A plan as a page: a drawn timeline, then the run sheet.

use super::document::document;
use super::plan_svg;
use crate::plan::schedule::{Row, Schedule};
use crate::report::clean;
use maud::{PreEscaped, html};

/// The page.
pub fn render(schedule: &Schedule, changes: &[String]) -> String {
    let title = clean(&schedule.title).into_owned();
    let drawing = plan_svg::render(schedule);
    let body = html! {
                h1 { "Plan: " (title) }
                ul {
                    @for made in &schedule.made {
                        li { (clean(&super::plan::promise(schedule, made))) }
                    }
                }
                p { (super::plan::summary(schedule)) }
                figure { (PreEscaped(drawing)) }
                @for day in days(schedule) {
                    @if let Some(heading) = &day.0 { h2 { (heading) } }
                    table {
                        thead { tr { th.number { "No." } th.when { "When" } th.who { "Who" } th.what { "What" } th.use { "For" } th { "How" } } }
                        tbody {
                            @for (at, row) in &day.1 {
                                tr class=(row.kind.word()) {
                                    td { (at + 1) }
                                    @for cell in super::plan::cells(schedule, row) { td { (clean(&cell)) } }
                                }
                            }
                        }
                    }
                }
                @for change in changes { p { (clean(change)) } }
                p { (super::plan::verdict(schedule)) }
    };
    document(&format!("Plan: {title}"), STYLE, &html! {}, &body)
}

/// A day's heading and its rows with their numbers.
type Day<'a> = (Option<String>, Vec<(usize, &'a Row)>);

fn days(schedule: &Schedule) -> Vec<Day<'_>> {
    let mut days: Vec<Day<'_>> = Vec::new();
    for (at, row) in schedule.rows.iter().enumerate() {
        let heading = schedule.wall(row.start).map(|at| at.strftime("%A %-d %B %Y").to_string());
        match days.last_mut() {
            Some((last, rows)) if *last == heading => rows.push((at, row)),
            _ => days.push((heading, vec![(at, row)])),
        }
    }
    days
}

const STYLE: &str = "
body { font: 15px/1.4 Georgia, 'Times New Roman', serif; margin: 2em auto; max-width: 60em; padding: 0 1em; color: #000; background: #fff; }
h1 { font-size: 1.5em; margin: 0 0 .3em; } h2 { font-size: 1.1em; margin: 1.2em 0 .3em; }
figure { margin: 1em 0; overflow-x: auto; } svg { width: 100%; min-width: 40em; height: auto; }
table { border-collapse: collapse; width: 100%; table-layout: fixed; }
th.number { width: 2.2em; } th.when { width: 8.5em; } th.who { width: 4.6em; } th.what { width: 8em; } th.use { width: 13em; } th { text-align: left; border-bottom: 1px solid #000; }
td { vertical-align: top; padding: .15em .8em .15em 0; border-bottom: 1px solid #ccc; font-variant-numeric: tabular-nums; }
td:nth-child(2) { white-space: nowrap; } tr.hands td:nth-child(4) { font-weight: bold; } tr.wait { color: #444; }
@media print { body { margin: 0; max-width: none; font-size: 11px; } tr, svg { break-inside: avoid; } }
";
