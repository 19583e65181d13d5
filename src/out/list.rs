//! The list: what to buy and what to weigh out.

mod csv;
mod json;

pub use csv::render as csv;
pub use json::render as json;

use super::block::{Block, Group, Heading, Item, Look, Phrase, Rows};
use super::{markdown, text};
use crate::figures::list::{Bought, FromStore, LeftOver, List, ListedBatch, Portion, Portions, Section, Stocked};
use crate::measure::number::Number;

/// The list as plain text.
pub fn text(list: &List, style: text::Style) -> String {
    text::render(&blocks(list), style)
}

/// The list as Markdown.
pub fn markdown(list: &List) -> String {
    markdown::render(&blocks(list))
}

fn blocks(list: &List) -> Vec<Block> {
    let mut blocks = vec![
        Heading::looking(1, "What to buy and to weigh out", Look::Absent),
        Block::Facts(list.batches.iter().map(batch).collect()),
        Block::Gap,
        Heading::looking(2, "Buy", Look::Capitals),
        Block::Rows(Rows::Buy(list.buy.iter().map(shelf).collect())),
    ];
    for shelf in shelves(list) {
        let item = |one: Kept| Item { amount: one.shown, name: one.name, remarks: one.remarks };
        let group = Group {
            name: String::new(),
            all: crate::measure::shown::Shown::default(),
            items: shelf.items.into_iter().map(item).collect(),
        };
        blocks.extend([
            Block::Gap,
            Heading::looking(2, shelf.title, Look::Capitals),
            Block::Rows(Rows::Buy(vec![group])),
        ]);
    }
    blocks.extend([
        Block::Gap,
        Heading::looking(2, "Weigh out", Look::Capitals),
        Block::Rows(Rows::Weigh(list.weigh.iter().map(bin).collect())),
    ]);
    blocks
}

/// What is neither bought nor weighed out: it is there already, or is left over.
pub(super) struct Shelf {
    pub(super) title: &'static str,
    /// What is done with it, for its box to tick.
    pub(super) done: &'static str,
    pub(super) items: Vec<Kept>,
}

/// One thing on such a shelf.
pub(super) struct Kept {
    pub(super) name: String,
    pub(super) shown: crate::measure::shown::Shown,
    pub(super) remarks: Vec<String>,
}

/// The shelves that have something on them.
pub(super) fn shelves(list: &List) -> Vec<Shelf> {
    let all = [
        Shelf { title: "From store", done: "taken", items: list.store.iter().map(from_store).collect() },
        Shelf { title: "In stock", done: "taken", items: list.stocked.iter().map(stocked).collect() },
        Shelf { title: "Left over", done: "put away", items: list.left.iter().map(left_over).collect() },
    ];
    all.into_iter().filter(|shelf| !shelf.items.is_empty()).collect()
}

fn from_store(one: &FromStore) -> Kept {
    let into: Vec<String> = one.into.iter().map(|(recipe, part)| place(recipe, part)).collect();
    let mut remarks: Vec<String> = one.of.iter().map(|of| format!("of {of}")).collect();
    remarks.extend(one.made.as_ref().map(|made| format!("made {made}")));
    remarks.push(format!("for {}", crate::measure::show::list(&into)));
    if !one.left_here_shown.is_empty() {
        remarks.push(format!("{} of it are left over here", one.left_here_shown));
    }
    Kept { name: one.name.clone(), shown: one.shown.clone(), remarks }
}

fn stocked(one: &Stocked) -> Kept {
    let remarks =
        if one.remains.value().is_zero() { Vec::new() } else { vec![format!("{} remain", one.remains_shown)] };
    Kept { name: one.name.clone(), shown: one.taken_shown.clone(), remarks }
}

fn left_over(one: &LeftOver) -> Kept {
    let mut remarks = vec![format!("of {}", crate::measure::show::list(&one.of.of))];
    if !one.taken_shown.is_empty() {
        remarks.push(format!("{} more are taken again", one.taken_shown));
    }
    Kept { name: one.of.what.clone(), shown: one.shown.clone(), remarks }
}

fn batch(batch: &ListedBatch) -> Vec<Phrase> {
    let mut runs = vec![Phrase::plain(&batch.recipe)];
    if !batch.makes.is_empty() {
        runs.extend([Phrase::plain(": "), Phrase::amount(&batch.makes)]);
    }
    runs
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
        remarks: portion_remarks(portion),
    });
    Group { name: one.name.clone(), all: one.shown.clone(), items: items.collect() }
}

/// What stands behind the amount of something to buy: pieces, what has no weight, other names, whether it is optional.
pub(super) fn remarks(item: &Bought) -> Vec<String> {
    let mut remarks = Vec::new();
    // What is bought by number says it once.
    let by_number = item.shown.is_in("piece") || item.shown.is_in("pieces");
    remarks.extend(item.pieces.filter(|_| !by_number).map(|pieces| counted(Number::whole(pieces))));
    remarks.extend(item.besides.iter().map(ToString::to_string));
    if !item.also.is_empty() {
        remarks.push(format!("also for {}", crate::measure::show::list(&item.also)));
    }
    if item.optional {
        remarks.push("optional".to_owned());
    }
    remarks
}

/// What stands behind a weighing: how many it is, and how it is prepared.
pub(super) fn portion_remarks(portion: &Portion) -> Vec<String> {
    portion.pieces.map(counted).into_iter().chain(portion.preparation.iter().cloned()).collect()
}

/// `4 pieces`
fn counted(pieces: Number) -> String {
    crate::measure::show::pieces(pieces).to_string()
}

/// The heading of a section of the shop.
pub(super) fn section_title(name: Option<&str>) -> &str {
    name.unwrap_or("elsewhere")
}

/// `Harbour rolls, dough`; the part is left out where it has the recipe's name.
pub(super) fn place(recipe: &str, part: &str) -> String {
    if recipe == part { recipe.to_owned() } else { format!("{recipe}, {part}") }
}
