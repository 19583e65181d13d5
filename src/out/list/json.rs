//! The list for programs.

use crate::figures::list::{Bought, FromStore, LeftOver, List, Portion, Stocked};
use crate::measure::number::Number;
use crate::measure::shown::Shown;
use schemars::JsonSchema;
use serde::Serialize;

/// Rises when a key changes its meaning or goes away.
const FORMAT: u32 = 1;

#[derive(Serialize, JsonSchema)]
pub(in crate::out) struct Wire<'a> {
    /// Rises when a key changes its meaning or goes away.
    format: u32,
    /// What is made.
    batches: Vec<WireBatch<'a>>,
    /// What to buy, by section.
    buy: Vec<WireBought<'a>>,
    /// What to weigh out, ingredient by ingredient.
    weigh: Vec<WirePortions<'a>>,
    /// What is taken out of store.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    store: Vec<WireFromStore<'a>>,
    /// What there is and what remains of it.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    stock: Vec<WireStocked<'a>>,
    /// What is left over.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    left_over: Vec<WireLeft<'a>>,
}

#[derive(Serialize, JsonSchema)]
struct WireFromStore<'a> {
    /// What it is.
    what: &'a str,
    /// The name of the recipe.
    recipe: Option<&'a str>,
    /// In grams.
    grams: Option<f64>,
    /// How many pieces that is, where it is in pieces.
    pieces: Option<f64>,
    /// As it is printed.
    shown: &'a Shown,
    /// The day on which it was made, `2027-04-10`.
    made: Option<&'a str>,
    /// Which parts take it.
    into: Vec<WirePlace<'a>>,
    /// What is left of it in the store.
    left_here_g: Option<f64>,
}

#[derive(Serialize, JsonSchema)]
struct WirePlace<'a> {
    /// The name of the recipe.
    recipe: &'a str,
    /// The name of the part.
    part: &'a str,
}

#[derive(Serialize, JsonSchema)]
struct WireStocked<'a> {
    /// The name of the ingredient.
    ingredient: &'a str,
    /// What there was, in grams.
    had_g: f64,
    /// What is taken, in grams.
    taken_g: f64,
    /// What remains, in grams.
    remains_g: f64,
}

#[derive(Serialize, JsonSchema)]
struct WireLeft<'a> {
    /// What it is.
    what: &'a str,
    /// Of what it is left.
    of: &'a [String],
    /// In grams.
    grams: Option<f64>,
    /// What is taken, in grams.
    taken_g: f64,
    /// What remains, in grams.
    remains_g: Option<f64>,
    /// As it is printed.
    shown: &'a Shown,
}

#[derive(Serialize, JsonSchema)]
struct WireBatch<'a> {
    /// The name of the recipe.
    recipe: &'a str,
    /// What is made, as it is printed.
    makes: &'a Shown,
}

#[derive(Serialize, JsonSchema)]
struct WireBought<'a> {
    /// Where it is bought.
    section: Option<&'a str>,
    /// The name of the ingredient.
    ingredient: &'a str,
    /// Other names under which it stands in the recipes.
    also: &'a [String],
    /// What is needed.
    grams: Option<f64>,
    /// What has to be bought: before peeling, in whole packs.
    buy_g: Option<f64>,
    /// As it is printed.
    shown: &'a Shown,
    /// How many pieces that is.
    pieces: Option<i64>,
    /// In millilitres.
    #[serde(skip_serializing_if = "Option::is_none")]
    millilitres: Option<f64>,
    /// What has no weight and is bought besides.
    besides: &'a [Shown],
    /// Whether it may be left out.
    optional: bool,
}

#[derive(Serialize, JsonSchema)]
struct WirePortions<'a> {
    /// The name of the ingredient.
    ingredient: &'a str,
    /// In grams.
    grams: Option<f64>,
    /// As it is printed.
    shown: &'a Shown,
    /// Which part takes how much.
    portions: Vec<WirePortion<'a>>,
}

#[derive(Serialize, JsonSchema)]
struct WirePortion<'a> {
    /// The name of the recipe.
    recipe: &'a str,
    /// The name of the part.
    part: &'a str,
    /// In grams.
    grams: Option<f64>,
    /// As it is printed.
    shown: &'a Shown,
    /// How many pieces.
    #[serde(skip_serializing_if = "Option::is_none")]
    pieces: Option<f64>,
    /// What its card calls it, where that is another name.
    #[serde(skip_serializing_if = "Option::is_none")]
    called: Option<&'a str>,
    /// What is said behind the name.
    preparation: Option<&'a str>,
}

/// The list as JSON, ending in a line break.
///
/// # Errors
/// Only what the serializer reports, which these types never cause.
pub fn render(list: &List) -> serde_json::Result<String> {
    let buy =
        list.buy.iter().flat_map(|section| section.items.iter().map(|item| bought(item, section.name.as_deref())));
    let wire = Wire {
        format: FORMAT,
        batches: list.batches.iter().map(|batch| WireBatch { recipe: &batch.recipe, makes: &batch.makes }).collect(),
        buy: buy.collect(),
        weigh: list
            .weigh
            .iter()
            .map(|one| WirePortions {
                ingredient: &one.name,
                grams: one.mass.map(grams),
                shown: &one.shown,
                portions: one.portions.iter().map(portion).collect(),
            })
            .collect(),
        store: list.store.iter().map(from_store).collect(),
        stock: list.stocked.iter().map(stocked).collect(),
        left_over: list.left.iter().map(left_over).collect(),
    };
    crate::out::report::to_json(&wire).map(|text| text + "\n")
}

fn grams(mass: crate::measure::quantity::Mass) -> f64 {
    mass.value().to_f64()
}

fn bought<'a>(item: &'a Bought, section: Option<&'a str>) -> WireBought<'a> {
    WireBought {
        section,
        ingredient: &item.name,
        also: &item.also,
        grams: item.needed.map(grams),
        buy_g: item.bought.map(grams),
        shown: &item.shown,
        pieces: item.pieces,
        millilitres: item.volume.map(|volume| volume.value().to_f64()),
        besides: &item.besides,
        optional: item.optional,
    }
}

fn from_store(one: &FromStore) -> WireFromStore<'_> {
    WireFromStore {
        what: &one.name,
        recipe: one.of.as_deref(),
        grams: one.mass.map(grams),
        pieces: one.pieces.map(Number::to_f64),
        shown: &one.shown,
        made: one.made.as_deref(),
        into: one.into.iter().map(|(recipe, part)| WirePlace { recipe, part }).collect(),
        left_here_g: one.left_here.map(grams),
    }
}

fn stocked(one: &Stocked) -> WireStocked<'_> {
    WireStocked {
        ingredient: &one.name,
        had_g: grams(one.had),
        taken_g: grams(one.taken),
        remains_g: grams(one.remains),
    }
}

fn left_over(one: &LeftOver) -> WireLeft<'_> {
    WireLeft {
        what: &one.of.what,
        of: &one.of.of,
        grams: one.of.left.map(grams),
        taken_g: grams(one.of.taken),
        remains_g: one.of.remains.map(grams),
        shown: &one.shown,
    }
}

fn portion(portion: &Portion) -> WirePortion<'_> {
    WirePortion {
        recipe: &portion.recipe,
        part: &portion.part,
        grams: portion.mass.map(grams),
        shown: &portion.shown,
        pieces: portion.pieces.map(Number::to_f64),
        called: portion.called.as_deref(),
        preparation: portion.preparation.as_deref(),
    }
}
