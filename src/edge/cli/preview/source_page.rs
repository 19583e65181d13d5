//! A file's text with its line numbers, its problems beneath the lines they are about.

use super::last_good::Read;
use super::page;
use super::place::Place;
use super::view::problems;
use super::wire::Problem;
use crate::out::report::clean;
use crate::text::line_break;
use maud::{Markup, html};

/// The page. Each line can be gone to by its number: `#L12`.
pub(super) fn render(place: &Place, read: &Read) -> String {
    let sources = &read.project.sources;
    let Some(source) = sources.get(read.source) else { return page::message("Not readable", "") };
    let name = place.name_shown(&source.name);
    let found: Vec<Problem> = problems(read).iter().map(|problem| Problem::of(place, sources, problem)).collect();
    let here = |line: usize| found.iter().filter(move |problem| problem.line().1 == line);
    let body = html! {
        table.text {
            @for (line, text) in (1..).zip(line_break::lines(&source.text)) {
                tr #{ "L" (line) } class=[here(line).filter(|one| one.line().0 == name).map(|one| one.words().0).next()] {
                    th scope="row" { a href={ "#L" (line) } { (line) } }
                    td { (clean(text.trim_end_matches(['\n', '\r']))) }
                }
                @for problem in here(line).filter(|one| one.line().0 == name) { (said(problem)) }
            }
        }
    };
    page::document(&name, &body)
}

fn said(problem: &Problem) -> Markup {
    let (severity, message) = problem.words();
    // Names in messages stand between backticks.
    let pieces = message.split('`').enumerate();
    html! {
        tr.said {
            td {}
            td class=(severity) {
                b { (severity) ":" } " "
                @for (at, piece) in pieces { @if at % 2 == 1 { code { (piece) } } @else { (piece) } }
            }
        }
    }
}
