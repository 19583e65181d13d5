//! Labels for programs.

use super::{CAUTION, checklist, said};
use crate::figures::label::table::{self, Gap};
use crate::figures::label::{Item, Label, Quantity, Strength};
use crate::measure::number::{Number, Overflow};
use crate::measure::quantity::{Mass, Proportion};
use crate::measure::show::Units;
use crate::model::allergen::Law;
use schemars::JsonSchema;
use serde::Serialize;

#[derive(Serialize, JsonSchema)]
pub(in crate::out) struct WireAll<'a> {
    /// Rises when a key changes its meaning or goes away.
    format: u32,
    /// A label for each file.
    labels: Vec<Wire<'a>>,
}

#[derive(Serialize, JsonSchema)]
struct Wire<'a> {
    /// The name of the recipe.
    recipe: &'a str,
    /// By which law.
    law: &'a str,
    /// The ingredients.
    ingredients: Vec<WireItem<'a>>,
    /// The allergens, in the words of the law.
    contains: &'a [String],
    /// Ingredients of which nobody knows the allergens.
    unknown: &'a [String],
    /// Shares of ingredients that the label has to say.
    quantities: Vec<WireQuantity<'a>>,
    /// The net weight of one, in grams.
    net_g: f64,
    /// What is lost in the oven, in percent.
    bake_loss_percent: Option<f64>,
    /// Which share of what is made was in the oven, and so loses that there: what is filled or glazed afterwards is not.
    baked_percent: f64,
    /// What a piece weighs, in grams.
    each_g: Option<f64>,
    /// The nutrition of all that is made.
    nutrition_batch: Vec<WireSum<'a>>,
    /// What is not counted, for it is set aside or has no weight.
    not_counted: &'a [String],
    /// What this label does not do.
    caution: &'a str,
    /// The name of the food.
    #[serde(skip_serializing_if = "Option::is_none")]
    sold_as: Option<&'a str>,
    /// How it is stored.
    #[serde(skip_serializing_if = "Option::is_none")]
    store: Option<&'a str>,
    /// The lot.
    #[serde(skip_serializing_if = "Option::is_none")]
    batch: Option<&'a str>,
    /// Name and address of the business.
    #[serde(skip_serializing_if = "Option::is_none")]
    business: Option<&'a str>,
    /// Traces that may be in it.
    #[serde(skip_serializing_if = "Option::is_none")]
    may_contain: Option<&'a str>,
    /// Where it is from.
    #[serde(skip_serializing_if = "Option::is_none")]
    origin: Option<&'a str>,
    /// How it is used.
    #[serde(skip_serializing_if = "Option::is_none")]
    directions: Option<&'a str>,
    /// For how many days it is good.
    #[serde(skip_serializing_if = "Option::is_none")]
    good_for_days: Option<i64>,
    /// Why it says `use by`; null where it says `best before`.
    #[serde(skip_serializing_if = "Option::is_none")]
    use_by_because: Option<&'a str>,
    /// The day on which it was made, `2027-04-10`; null where none is said.
    #[serde(skip_serializing_if = "Option::is_none")]
    made: Option<String>,
    /// What a pack weighs, in grams.
    #[serde(skip_serializing_if = "Option::is_none")]
    pack_g: Option<f64>,
    /// What a serving weighs, in grams.
    #[serde(skip_serializing_if = "Option::is_none")]
    serving_g: Option<f64>,
    /// Of what is sold by volume, in millilitres.
    #[serde(skip_serializing_if = "Option::is_none")]
    net_ml: Option<f64>,
    /// What one measures, in millilitres.
    #[serde(skip_serializing_if = "Option::is_none")]
    each_ml: Option<f64>,
    /// Of what is sold in a liquid: what is left on a sieve, as far as somebody says it.
    #[serde(skip_serializing_if = "Option::is_none")]
    drained_percent: Option<f64>,
    /// What went in solid.
    #[serde(skip_serializing_if = "Option::is_none")]
    solid_percent: Option<f64>,
    /// How strong a drink is, where nothing but what went in makes it so.
    #[serde(skip_serializing_if = "Option::is_none")]
    alcohol_percent_by_volume: Option<f64>,
    /// Allergens whose species the law wants and nobody says.
    species_not_said: Vec<WireSpecies<'a>>,
    /// Bought foods whose own list the law wants and nobody says.
    lists_not_said: Vec<String>,
    /// What the law asks for, in its order, and how the label answers.
    asked: Vec<WireAsked>,
}

#[derive(Serialize, JsonSchema)]
struct WireAsked {
    /// Where the law asks for it.
    rule: &'static str,
    /// What the law asks for.
    what: &'static str,
    /// `on_label`, `not_said` or `not_asked`.
    standing: &'static str,
    /// What stands there, what is lacking, or why it is not asked for.
    words: String,
}

#[derive(Serialize, JsonSchema)]
struct WireSpecies<'a> {
    /// The name of the ingredient.
    ingredient: &'a str,
    /// The allergen.
    allergen: &'a str,
}

#[derive(Serialize, JsonSchema)]
struct WireItem<'a> {
    /// The name of the ingredient.
    ingredient: &'a str,
    /// In grams.
    grams: Option<f64>,
    /// The allergens in it.
    allergens: Vec<&'a str>,
    /// What it is made of itself.
    ingredients: Vec<WireItem<'a>>,
    /// As it stands in the list.
    listed: &'a str,
    /// The allergens in the words of the law.
    said: Vec<String>,
}

#[derive(Serialize, JsonSchema)]
struct WireQuantity<'a> {
    /// The name of the ingredient.
    ingredient: &'a str,
    /// In percent.
    percent: Option<f64>,
}

#[derive(Serialize, JsonSchema)]
struct WireSum<'a> {
    /// The nutrient.
    nutrient: &'a str,
    /// The unit of the figures.
    unit: &'a str,
    /// How much of it there is.
    amount: f64,
    /// Whether there may be more.
    is_lower_bound: bool,
    /// With the most that what is not known can bring; `null` where something goes in by no weight, or is strained out again.
    at_most: Option<f64>,
    /// What lacks the figure, and the share of the weight as sold that it has.
    missing: Vec<&'a String>,
    /// The share of the weight of which nothing is known, in percent.
    missing_percent: f64,
}

fn wire_items<'a>(items: &'a [Item], law: Law) -> Vec<WireItem<'a>> {
    let wire = |item: &'a Item| WireItem {
        ingredient: &item.name,
        grams: item.mass.map(|mass| mass.value().to_f64()),
        allergens: item.allergens(law),
        ingredients: wire_items(&item.inner, law),
        listed: item.listed(law),
        said: item.said(law).iter().filter(|said| said.is_listed(law)).map(|said| said.shown().to_owned()).collect(),
    };
    items.iter().map(wire).collect()
}

/// The labels for programs: figures of the whole batch, before any rounding.
///
/// # Errors
/// A sentence, when a figure leaves the range of exact numbers.
pub fn json(labels: &[Label]) -> Result<String, String> {
    let mut all = WireAll { format: 1, labels: Vec::with_capacity(labels.len()) };
    let tables: Result<Vec<Vec<table::Row>>, Overflow> = labels.iter().map(table::rows).collect();
    let tables = tables.map_err(|_| too_large())?;
    for (label, rows) in labels.iter().zip(&tables) {
        all.labels.push(wire(label, rows).map_err(|_| too_large())?);
    }
    crate::out::report::to_json(&all).map(|text| text + "\n").map_err(|error| error.to_string())
}

fn too_large() -> String {
    "a figure leaves the range of exact numbers".to_owned()
}

fn wire<'a>(label: &'a Label, rows: &'a [table::Row]) -> Result<Wire<'a>, Overflow> {
    let quantity = |quantity: &'a Quantity| WireQuantity {
        ingredient: &quantity.name,
        percent: quantity.share.percent().ok().map(Number::to_f64),
    };
    let hundred = label.hundred()?.ratio(label.net)?;
    let millilitres = |mass: Mass| Ok::<_, Overflow>(label.volume(mass)?.map(|volume| volume.value().to_f64()));
    let percent = |share: Proportion| Ok::<_, Overflow>(share.percent()?.to_f64());
    let mut sums = Vec::new();
    for row in rows {
        for figure in &row.figures {
            let unit = figure.unit.trim();
            // What is strained out again weighs nothing in what is sold, and nobody knows what it leaves there.
            let leaves_behind = |name: &&String| label.nutrition.strained_out.contains(name);
            let weighed: Vec<String> = figure.missing.iter().filter(|name| !leaves_behind(name)).cloned().collect();
            sums.push(WireSum {
                nutrient: row.name,
                unit: if unit.is_empty() { "kcal" } else { unit },
                amount: figure.least.to_f64(),
                is_lower_bound: figure.gap(label, hundred)? != Gap::None,
                at_most: (figure.unweighed.names.is_empty() && weighed.len() == figure.missing.len())
                    .then(|| figure.most.to_f64()),
                missing: figure.missing.iter().chain(&figure.unweighed.names).collect(),
                missing_percent: label.weight_of(&weighed)?.as_share_of(label.net)?.percent()?.to_f64(),
            });
        }
    }
    let good_for = label.sale.good_for.as_ref();
    Ok(Wire {
        recipe: &label.name,
        law: if label.law == Law::Eu { "eu" } else { "us" },
        ingredients: wire_items(&label.ingredients, label.law),
        contains: &label.contains,
        unknown: &label.unknown,
        quantities: label.quantities.iter().map(quantity).collect(),
        net_g: label.net.value().to_f64(),
        baked_percent: label.baked.percent()?.to_f64(),
        bake_loss_percent: label.bake_loss.and_then(|loss| loss.percent().ok()).map(Number::to_f64),
        each_g: label.each.map(|each| each.value().to_f64()),
        nutrition_batch: sums,
        not_counted: &label.nutrition.uncounted,
        caution: CAUTION,
        sold_as: label.sale.sold_as.as_deref(),
        store: label.sale.store.as_deref(),
        batch: label.sale.batch.as_deref(),
        business: label.sale.business.as_deref(),
        may_contain: label.sale.may_contain.as_deref(),
        origin: label.sale.origin.as_deref(),
        directions: label.sale.directions.as_deref(),
        good_for_days: good_for.and_then(|good| good.time.whole_days()),
        use_by_because: good_for.and_then(|good| good.use_by.as_deref()),
        made: label.made.map(|made| made.to_string()),
        pack_g: label.pack.map(|pack| pack.net.value().to_f64()),
        serving_g: label.pack.filter(|_| label.law == Law::Us).map(|pack| pack.serving.value().to_f64()),
        net_ml: millilitres(label.net)?,
        each_ml: label.each.map(millilitres).transpose()?.flatten(),
        drained_percent: label.promise.drained.map(percent).transpose()?,
        solid_percent: label.promise.solid.map(percent).transpose()?,
        alcohol_percent_by_volume: match label.promise.strength {
            Some(Strength::Of(share)) => Some(percent(share)?),
            _ => None,
        },
        species_not_said: label
            .without_species
            .iter()
            .map(|(ingredient, allergen)| WireSpecies { ingredient, allergen })
            .collect(),
        lists_not_said: said::without_lists(label),
        asked: checklist::of(label, Units::Metric)?
            .into_iter()
            .map(|one| WireAsked { rule: one.rule, what: one.what, standing: one.standing.key(), words: one.words })
            .collect(),
    })
}
