//! The list as HTML: a sheet for the shop and one for the scale, with boxes to tick.

use super::figure::set;
use super::page;
use crate::figures::card::DayHead;
use crate::figures::list::{List, Section};
use crate::out::list::{Shelf, place, portion_remarks, remarks, section_title, shelves};
use crate::out::report::{clean, seen};
use crate::out::sheet::column::Column;
use crate::out::sheet::{Foot, Sheet};
use maud::{DOCTYPE, Markup, html};

/// Renders the list.
pub fn render_list(list: &List, day: Option<&DayHead>, sheet: &Sheet) -> String {
    let title = day.map_or("What to buy and to weigh out", |day| day.name.as_str());
    let mut feet = Vec::new();
    let key: Vec<String> = list.batches.iter().map(|batch| format!("{} {}", batch.recipe, batch.makes)).collect();
    let sheets = [("Buy", buy(list)), ("Weigh out", weigh(list))].map(|(name, body)| {
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
            (body)
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
    body.into_string() + "\n"
}

fn buy(list: &List) -> Markup {
    html! {
        @for section in &list.buy { (shelf(section)) }
        @for shelf in &shelves(list) { (kept(shelf)) }
    }
}

/// What there is already, or is left over.
fn kept(shelf: &Shelf) -> Markup {
    let column = Column::of(shelf.items.iter().map(|item| &item.shown));
    html! {
        section.part {
            div.tab { h2 { (shelf.title) } }
            table class={ "strip plain-strip" @if shelf.items.iter().any(|item| item.shown.is_in("kg")) { " kg" } } {
                thead { tr { td {} th.name scope="col" { "what" } th.fig scope="col" { "how much" } } }
                tbody {
                    @for item in &shelf.items {
                        tr {
                            td.tick { input type="checkbox" aria-label={ (clean(&item.name)) ", " (shelf.done) }; }
                            th.name scope="row" {
                                span {
                                    span.what { b { (clean(&item.name)) } @for remark in &item.remarks { span.how { ", " (clean(remark)) } } }
                                    span.leader {}
                                }
                            }
                            td.fig.weigh { (set(column, &item.shown)) }
                        }
                    }
                }
            }
        }
    }
}

fn shelf(section: &Section) -> Markup {
    let column = Column::of(section.items.iter().map(|item| &item.shown));
    html! {
        section.part {
            div.tab { h2 { (clean(section_title(section.name.as_deref()))) } }
            table class={ "strip plain-strip" @if section.items.iter().any(|item| item.shown.is_in("kg")) { " kg" } } {
                thead { tr { td {} th.name scope="col" { "what to buy" } th.fig scope="col" { "how much" } } }
                tbody {
                    @for item in &section.items {
                        tr {
                            td.tick { input type="checkbox" aria-label={ (clean(&item.name)) ", bought" }; }
                            th.name scope="row" {
                                span {
                                    span.what { b { (clean(&item.name)) } @for remark in remarks(item) { span.how { ", " (clean(&remark)) } } }
                                    span.leader {}
                                }
                            }
                            td.fig.weigh { (set(column, &item.shown)) }
                        }
                    }
                }
            }
        }
    }
}

fn weigh(list: &List) -> Markup {
    html! {
        @for one in &list.weigh {
            section.part.bin {
                div.tab { h2 { (clean(&one.name)) } p.all { (one.shown) } }
                @let column = Column::of(one.portions.iter().map(|portion| &portion.shown));
                table class={ "strip plain-strip" @if one.portions.iter().any(|portion| portion.shown.is_in("kg")) { " kg" } } {
                    thead { tr { td {} th.name scope="col" { "for" } th.fig scope="col" { "weigh" } } }
                    tbody {
                        @for portion in &one.portions {
                            tr {
                                td.tick { input type="checkbox" aria-label={ (clean(&one.name)) " for " (clean(&place(&portion.recipe, &portion.part))) ", weighed" }; }
                                th.name scope="row" {
                                    span {
                                        span.what {
                                            b { (clean(&place(&portion.recipe, &portion.part))) }
                                            @for remark in portion_remarks(portion) { span.how { ", " (clean(&remark)) } }
                                        }
                                        span.leader {}
                                    }
                                }
                                td.fig.weigh { (set(column, &portion.shown)) }
                            }
                        }
                    }
                }
            }
        }
    }
}
