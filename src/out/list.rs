//! The list: what to buy and what to weigh out.

mod csv;
mod json;

pub use csv::render as csv;
pub use json::render as json;

use super::block::{Block, Group, Heading, Item, Look, Phrase, Rows};
use super::{markdown, text};
use crate::figures::list::{Bought, List, ListedBatch, Portions, Section};

/// The list as plain text.
pub fn text(list: &List, style: text::Style) -> String {
    text::render(&blocks(list), style)
}

/// The list as Markdown.
pub fn markdown(list: &List) -> String {
    markdown::render(&blocks(list))
}

fn blocks(list: &List) -> Vec<Block> {
    vec![
        Heading::looking(1, "What to buy and to weigh out", Look::Absent),
        Block::Facts(list.batches.iter().map(batch).collect()),
        Block::Gap,
        Heading::looking(2, "Buy", Look::Capitals),
        Block::Rows(Rows::Buy(shelves(list))),
        Block::Gap,
        Heading::looking(2, "Weigh out", Look::Capitals),
        Block::Rows(Rows::Weigh(bins(list))),
    ]
}

fn batch(batch: &ListedBatch) -> Vec<Phrase> {
    let mut runs = vec![Phrase::plain(&batch.recipe)];
    if !batch.makes.is_empty() {
        runs.extend([Phrase::plain(": "), Phrase::amount(&batch.makes)]);
    }
    runs
}

/// What to buy, shelf by shelf.
pub(super) fn shelves(list: &List) -> Vec<Group> {
    list.buy.iter().map(shelf).collect()
}

/// What to weigh out, bin by bin.
pub(super) fn bins(list: &List) -> Vec<Group> {
    list.weigh.iter().map(bin).collect()
}

fn shelf(section: &Section) -> Group {
    let item = |item: &Bought| Item { amount: item.shown.clone(), name: item.name.clone(), remarks: remarks(item) };
    Group {
        name: section_title(section.name.as_deref()).to_owned(),
        all: crate::measure::shown::Shown::default(),
        items: section.items.iter().map(item).collect(),
    }
}

fn bin(one: &Portions) -> Group {
    let items = one.portions.iter().map(|portion| Item {
        amount: portion.shown.clone(),
        name: place(&portion.recipe, &portion.part),
        remarks: portion.preparation.iter().cloned().collect(),
    });
    Group { name: one.name.clone(), all: one.shown.clone(), items: items.collect() }
}

/// What stands behind the amount of something to buy: pieces, what has no weight, other names, whether it is optional.
pub(super) fn remarks(item: &Bought) -> Vec<String> {
    let mut remarks = Vec::new();
    remarks.extend(item.pieces.map(|pieces| format!("{pieces} {}", if pieces == 1 { "piece" } else { "pieces" })));
    remarks.extend(item.besides.iter().map(ToString::to_string));
    if !item.also.is_empty() {
        remarks.push(format!("also for {}", crate::measure::show::list(&item.also)));
    }
    if item.optional {
        remarks.push("optional".to_owned());
    }
    remarks
}

/// The heading of a section of the shop.
pub(super) fn section_title(name: Option<&str>) -> &str {
    name.unwrap_or("elsewhere")
}

/// `Harbour rolls, dough`; the part is left out where it has the recipe's name.
pub(super) fn place(recipe: &str, part: &str) -> String {
    if recipe == part { recipe.to_owned() } else { format!("{recipe}, {part}") }
}
