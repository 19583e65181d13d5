//! The list as HTML: a sheet for the shop and one for the scale, with boxes to tick.

use super::figure::set;
use super::page;
use crate::figures::card::DayHead;
use crate::figures::list::List;
use crate::out::block::Group;
use crate::out::list::{Walk, sheets};
use crate::out::report::{clean, seen};
use crate::out::sheet::column::Column;
use crate::out::sheet::{Foot, Sheet};
use crate::out::typeset;
use maud::{DOCTYPE, Markup, html};

/// Renders the list.
pub fn render_list(list: &List, day: Option<&DayHead>, sheet: &Sheet) -> String {
    let title = day.map_or("What to buy and to weigh out", |day| day.name.as_str());
    let mut feet = Vec::new();
    let key: Vec<String> = list.batches.iter().map(|batch| format!("{} {}", batch.recipe, batch.makes)).collect();
    let sheets = sheets(list).map(|(name, walks)| {
        let foot = Foot::plain(&format!("{name}: {title}"), sheet);
        let body = html! {
            header {
                div.head { div { h1 { (name) } @if day.is_some() { p.sheet { (clean(title)) } } } }
                ul.plain.batches {
                    @for batch in &list.batches {
                        li { b { (seen(&batch.makes)) } @if !batch.makes.is_empty() { " " } (clean(&batch.recipe)) }
                    }
                }
            }
            @for walk in &walks { @for one in &walk.groups { (group(walk, one)) } }
        };
        page::sheet(&foot, &key.join("\n"), &mut feet, &body)
    });
    let style = page::Styles::new(sheet, &feet);
    let body = html! {
        (DOCTYPE)
        html lang="en" {
            (page::head(&clean(title), &style))
            body {
                main { @for one in &sheets { (one) } }
                (page::script())
            }
        }
    };
    typeset::markup(&body.into_string()) + "\n"
}

fn group(walk: &Walk, group: &Group) -> Markup {
    let column = Column::of(group.items.iter().map(|item| &item.amount));
    html! {
        section.part.bin[walk.is_weighed] {
            div.tab { h2 { (clean(walk.title(group))) } @if walk.is_weighed { p.all { (group.all) } } }
            table class={ "strip plain-strip" @if group.items.iter().any(|item| item.amount.is_in("kg")) { " kg" } } {
                thead { tr { td {} th.name scope="col" { (walk.names) } th.fig scope="col" { (walk.amounts) } } }
                tbody {
                    @for item in &group.items {
                        tr {
                            td.tick { label.box { input type="checkbox" aria-label=(clean(&walk.label(group, item))); } }
                            th.name scope="row" {
                                span {
                                    span.what { b { (clean(&item.name)) } @for remark in &item.remarks { span.how { ", " (clean(remark)) } } }
                                    span.leader {}
                                }
                            }
                            td.fig.weigh { (set(column, &item.amount)) }
                        }
                    }
                }
            }
        }
    }
}
