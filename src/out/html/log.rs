//! The sheet of the log to fill in by hand, behind the cards.

use super::page;
use crate::figures::bakes::blank::Blank;
use crate::out::bakes::sheet::{head, name, room, title};
use crate::out::report::clean;
use crate::out::sheet::{Foot, Sheet};
use maud::{Markup, html};

/// One sheet.
pub(super) fn sheet(blank: &Blank, feet: &mut Vec<Foot>, sheet: &Sheet) -> Markup {
    let foot = Foot::plain(&clean(&title(blank)), sheet);
    let body = html! {
        header.head { h1 { (clean(&title(blank))) } }
        p { (clean(&head(blank))) }
        table.log {
            thead { tr { th scope="col" { "what" } th scope="col" { "by the formula" } th scope="col" { "measured" } } }
            tbody {
                @for line in &blank.lines {
                    tr { th scope="row" { (clean(&name(line))) } td { (clean(&line.expected)) } td { (room(line.of)) } }
                }
            }
        }
    };
    page::sheet(&foot, &blank.size, feet, &body)
}
