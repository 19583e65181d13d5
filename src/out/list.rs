//! The list: what to buy and what to weigh out.

pub(in crate::out) mod csv;
pub(super) mod json;

pub use csv::render as csv;
pub use json::render as json;

use super::block::{Block, Group, Heading, Item, Look, Phrase, Rows};
use super::{markdown, text};
use crate::figures::list::{Bought, FromStore, LeftOver, List, ListedBatch, Portion, Portions, Section, Stocked};
use crate::measure::number::Number;
use crate::measure::shown::Shown;
use crate::model::counted::as_cut;

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
    ];
    for Walk { name, groups, is_weighed, .. } in walks(list) {
        let rows = if is_weighed { Rows::Weigh(groups) } else { Rows::Buy(groups) };
        blocks.extend([Block::Gap, Heading::looking(2, name, Look::Capitals), Block::Rows(rows)]);
    }
    blocks
}

/// A walk with the list in the hand: along the shelves of the shop, to the store, to the bins.
pub(super) struct Walk {
    /// What it is for: `Buy`.
    pub(super) name: &'static str,
    /// What stands over its names.
    pub(super) names: &'static str,
    /// What stands over its amounts.
    pub(super) amounts: &'static str,
    /// What was done with a thing that is ticked off.
    done: &'static str,
    /// Whether it is for the scale: then a group is one thing, of which it is said how much there is in all.
    pub(super) is_weighed: bool,
    /// The things, group by group.
    pub(super) groups: Vec<Group>,
}

impl Walk {
    /// What stands over a group on a printed sheet.
    pub(super) fn title<'g>(&self, group: &'g Group) -> &'g str {
        if group.name.is_empty() { self.name } else { &group.name }
    }

    /// What a box says to those who have it read out.
    pub(super) fn label(&self, group: &Group, item: &Item) -> String {
        let of = if self.is_weighed { format!("{} for ", group.name) } else { String::new() };
        format!("{of}{}, {}", item.name, self.done)
    }
}

/// All walks; those for what there is already, or is left over, only where there is something.
fn walks(list: &List) -> Vec<Walk> {
    let buy = Walk {
        name: "Buy",
        names: "what to buy",
        amounts: "how much",
        done: "bought",
        is_weighed: false,
        groups: list.buy.iter().map(shelf).collect(),
    };
    let kept = |name, done, items: Vec<Item>| {
        let groups = vec![Group { name: String::new(), all: Shown::default(), items }];
        Walk { name, names: "what", amounts: "how much", done, is_weighed: false, groups }
    };
    let besides = [
        kept("From store", "taken", list.store.iter().map(from_store).collect()),
        kept("In stock", "taken", list.stocked.iter().map(stocked).collect()),
        kept("Left over", "put away", list.left.iter().map(left_over).collect()),
    ];
    let weigh = Walk {
        name: "Weigh out",
        names: "for",
        amounts: "weigh",
        done: "weighed",
        is_weighed: true,
        groups: list.weigh.iter().map(bin).collect(),
    };
    let is_needed = |walk: &Walk| walk.groups.iter().any(|group| !group.items.is_empty());
    std::iter::once(buy).chain(besides.into_iter().filter(is_needed)).chain([weigh]).collect()
}

/// The printed sheets, each with its name: one for the shop and the store, one for the scale.
pub(super) fn sheets(list: &List) -> [(&'static str, Vec<Walk>); 2] {
    let (scale, shop) = walks(list).into_iter().partition(|walk| walk.is_weighed);
    [("Buy", shop), ("Weigh out", scale)]
}

fn from_store(one: &FromStore) -> Item {
    let into: Vec<String> = one.into.iter().map(|(recipe, part)| place(recipe, part)).collect();
    let mut remarks: Vec<String> = one.of.iter().map(|of| format!("of {of}")).collect();
    remarks.extend(one.made.as_ref().map(|made| format!("made {made}")));
    remarks.push(format!("for {}", crate::measure::show::list(&into)));
    if !one.left_here_shown.is_empty() {
        remarks.push(format!("{} of it are left over here", one.left_here_shown));
    }
    Item { name: one.name.clone(), amount: one.shown.clone(), remarks }
}

fn stocked(one: &Stocked) -> Item {
    let remarks =
        if one.remains.value().is_zero() { Vec::new() } else { vec![format!("{} remain", one.remains_shown)] };
    Item { name: one.name.clone(), amount: one.taken_shown.clone(), remarks }
}

fn left_over(one: &LeftOver) -> Item {
    let mut remarks = vec![format!("of {}", crate::measure::show::list(&one.of.of))];
    if !one.taken_shown.is_empty() {
        remarks.push(format!("{} more are taken again", one.taken_shown));
    }
    Item { name: one.of.what.clone(), amount: one.shown.clone(), remarks }
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
        all: Shown::default(),
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
fn remarks(item: &Bought) -> Vec<String> {
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

/// What stands behind a weighing: which it is, where several go out of one bin; how many it is, and how it is prepared.
pub(super) fn portion_remarks(portion: &Portion) -> Vec<String> {
    let called = portion.called.iter().cloned();
    called
        .chain(portion.pieces.map(|pieces| counted(as_cut(pieces))))
        .chain(portion.preparation.iter().cloned())
        .collect()
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
