//! A plan as a page: a drawn timeline, then the run sheet.

use super::page::document;
use super::plan_svg;
use crate::out::report::clean;
use crate::plan::schedule::{Row, Schedule};
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
                figure tabindex="0" aria-label="Timeline" { (PreEscaped(drawing)) }
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
:root { --ink: #15181b; --soft: #4b5258; --hair: #c3c8cc; --paper: #fff; color-scheme: light dark; }
@media screen and (prefers-color-scheme: dark) { :root { --ink: #eceff1; --soft: #b3bbc1; --hair: #59626a; --paper: #16191c; } }
body { font: 15px/1.4 Verdana, 'DejaVu Sans', Arial, sans-serif; margin: 2em auto; max-width: 62em; padding: 0 1em; color: var(--ink); background: var(--paper); overflow-wrap: break-word; }
h1 { font-size: 1.5em; margin: 0 0 .3em; } h2 { font-size: 1.1em; margin: 1.2em 0 .3em; } ul { margin: .5em 0; padding-left: 1.2em; }
figure { margin: 1em 0; padding: .4em; overflow-x: auto; background: #fff; border-radius: .3em; } svg { display: block; width: 100%; min-width: 40em; height: auto; }
table { border-collapse: collapse; width: 100%; table-layout: fixed; }
th.number { width: 2.4em; } th.when { width: 9em; } th.who { width: 5em; } th.what { width: 8em; } th.use { width: 13em; } th { text-align: left; border-bottom: 1px solid; }
td { vertical-align: top; padding: .15em .8em .15em 0; border-bottom: 1px solid var(--hair); font-variant-numeric: tabular-nums; }
td:nth-child(2) { white-space: nowrap; } tr.hands td:nth-child(4) { font-weight: bold; } tr.wait { color: var(--soft); }
@media screen and (max-width: 44em) {
  thead { position: absolute; clip-path: inset(50%); width: 1px; height: 1px; overflow: hidden; }
  table, tbody { display: block; }
  tr { display: grid; grid-template-columns: 2em 1fr auto; padding: .4em 0; border-bottom: 1px solid var(--hair); }
  td { border: 0; padding: 0 .4em 0 0; } td:nth-child(3) { padding: 0; }
  td:nth-child(n+4) { grid-column: 2 / -1; }
}
@media print { body { margin: 0; max-width: none; font-size: 11px; } figure { padding: 0; } tr, svg { break-inside: avoid; } }
";
