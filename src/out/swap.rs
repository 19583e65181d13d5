//! What stands in for an ingredient, laid out.

use super::block::{Block, Frame, Heading, Table, words};
use super::comparison::{self, Changes, Place};
use super::json::Figure;
use super::page::Page;
use crate::figures::swap::{PartSwap, Swap};
use crate::measure::number::Number;
use crate::measure::show::mass_plain;
use schemars::JsonSchema;
use serde::Serialize;

/// The page of a swap, and below it what changes with it.
pub fn page(swap: &Swap, changes: &Changes) -> Page {
    let title = format!("{}: something else for {}", swap.recipe, swap.old);
    let mut blocks = vec![Heading::block(1, &title)];
    for part in &swap.parts {
        blocks.push(Heading::block(2, format!("{}: for {} of {}", part.part, mass_plain(part.out), swap.old)));
        let rows = part.comes.iter().map(|(name, mass)| vec![name.clone(), mass_plain(*mass).to_string()]).collect();
        blocks.push(Table::figures(vec!["ingredient".to_owned(), "comes in".to_owned()], rows, Frame::Sheet));
        blocks.push(words(rest(part)));
    }
    for remark in &swap.remarks {
        blocks.push(words(remark));
    }
    blocks.push(Block::Gap);
    blocks.extend(comparison::page(std::slice::from_ref(changes), Place::Terminal).blocks);
    Page { title, below: 0, blocks }
}

/// `All that goes in: water +0.1, sugar −0.3 points; the rest as before.`
fn rest(part: &PartSwap) -> String {
    let hundredth = Number::constant(5, 1000);
    let told: Vec<String> = part
        .rest
        .iter()
        .filter(|(_, points)| points.size() >= hundredth)
        .map(|(name, points)| {
            let sign = if points.is_negative() { "−" } else { "+" };
            format!("{name} {sign}{}", points.size().decimal(2))
        })
        .collect();
    if told.is_empty() {
        "Water, fat, sugar, protein, salt and weight are as before.".to_owned()
    } else {
        format!("In points of all that goes in: {}; the rest as before.", told.join(", "))
    }
}

const FORMAT: u32 = 1;

#[derive(Serialize, JsonSchema)]
pub(super) struct Wire<'a> {
    /// Rises when a key changes its meaning or goes away.
    format: u32,
    /// The name of the recipe.
    recipe: &'a str,
    /// The ingredient that goes out.
    old: &'a str,
    /// The parts.
    parts: Vec<WirePart<'a>>,
    /// What there is to say of it, a sentence each.
    remarks: &'a [String],
}

#[derive(Serialize, JsonSchema)]
struct WirePart<'a> {
    /// The name of the part.
    part: &'a str,
    /// What goes out, in grams.
    out_g: Figure,
    /// What comes in its place.
    comes: Vec<WireComer<'a>>,
    /// What the part has more of than before.
    rest: Vec<WireRest<'a>>,
}

#[derive(Serialize, JsonSchema)]
struct WireComer<'a> {
    /// The name of the ingredient.
    ingredient: &'a str,
    /// In grams.
    grams: Figure,
}

#[derive(Serialize, JsonSchema)]
struct WireRest<'a> {
    /// Which figure.
    figure: &'a str,
    /// How much more, in points of all that goes in.
    points: Figure,
}

/// The swap as JSON, ending in a line break.
///
/// # Errors
/// Only what the serializer reports, which these types never cause.
pub fn json(swap: &Swap) -> serde_json::Result<String> {
    let parts = swap.parts.iter().map(|part| WirePart {
        part: &part.part,
        out_g: Figure(part.out.value()),
        comes: part
            .comes
            .iter()
            .map(|(name, mass)| WireComer { ingredient: name, grams: Figure(mass.value()) })
            .collect(),
        rest: part.rest.iter().map(|(figure, points)| WireRest { figure, points: Figure(*points) }).collect(),
    });
    let wire =
        Wire { format: FORMAT, recipe: &swap.recipe, old: &swap.old, parts: parts.collect(), remarks: &swap.remarks };
    super::report::to_json(&wire).map(|text| text + "\n")
}
