//! A label, laid out.

use super::block::{Block, Frame, Heading, Phrase, Table, Text, words};
use crate::figures::label::nutrition::{Nutrient, Sum};
use crate::figures::label::{Item, Label, rounding};
use crate::measure::number::{Number, Overflow};
use crate::measure::quantity::Proportion;
use crate::measure::show::{self, Units};
use crate::model::allergen::Law;
use schemars::JsonSchema;
use serde::Serialize;

/// What stands under every label.
const CAUTION: &str = "Calculated from the formula and the larder, not analysed. Bought ingredients have ingredients, allergens and \
traces of their own: take them from the pack. Have a label checked under the law of the place where you sell.";

/// The page of a label.
///
/// # Errors
/// When a figure leaves the range of exact numbers.
pub fn page(label: &Label, units: Units) -> Result<Vec<Block>, Overflow> {
    let law = match label.law {
        Law::Eu => "European Union",
        Law::Us => "United States",
    };
    let mut blocks = vec![Heading::block(1, format!("{}: label ({law})", label.name))];
    let mut runs = vec![Phrase::plain("Ingredients: ")];
    list(&label.ingredients, label, &mut runs);
    runs.push(Phrase::plain("."));
    blocks.push(Block::Text(Text::of(runs)));
    // In the European Union the list itself says it, and beside a list no statement is made (Article 21).
    if label.law == Law::Us && !label.contains.is_empty() {
        blocks.push(Block::Text(Text::of(vec![
            Phrase::strong("Contains"),
            Phrase::plain(format!(": {}.", label.contains.join(", "))),
        ])));
    }
    if !label.unknown.is_empty() {
        let unknown = show::list(&label.unknown);
        blocks.push(words(format!("The larder does not know {unknown}: their allergens are not in this list.")));
    }
    for quantity in &label.quantities {
        let share = quantity.share.percent()?;
        let text = if share > Number::whole(100) {
            format!("made with {} g of {} for each 100 g", share.decimal(0), quantity.name)
        } else {
            format!("{} {} %", quantity.name, share.decimal(if share < Number::whole(10) { 1 } else { 0 }))
        };
        blocks.push(words(format!("Quantity: {text} (weight as used, on the weight as sold).")));
    }
    // In the United States both systems stand on a label (15 USC 1453, from memory); elsewhere grams do, and ounces for who reads them.
    let units = if label.law == Law::Us || units != Units::Metric { Units::Both } else { Units::Metric };
    let net = match label.each {
        Some(each) => {
            format!("Net weight: {} a piece, {} the batch", show::mass(each, units), show::mass(label.net, units))
        }
        None => format!("Net weight of the batch: {}", show::mass(label.net, units)),
    };
    let loss = match label.bake_loss {
        None if label.is_dough => {
            ". That is the weight of the dough: nobody says what the oven takes. Weigh a piece before and after, and say it \
             behind `makes`, `bake loss 12 %`, or with --bake-loss"
                .to_owned()
        }
        None => ". That is the weight as mixed: nobody says what cooking takes of it".to_owned(),
        Some(loss) if loss.value().is_zero() => ", with nothing lost in baking".to_owned(),
        Some(loss) => format!(", after a bake loss of {}", show::percent(loss)),
    };
    blocks.push(words(format!("{net}{loss}.")));
    blocks.push(Heading::block(2, "Nutrition, calculated"));
    blocks.push(table(label, units)?);
    blocks.extend(gaps(label)?);
    blocks.push(words(CAUTION));
    Ok(blocks)
}

fn list(items: &[Item], label: &Label, runs: &mut Vec<Phrase>) {
    for (at, item) in items.iter().enumerate() {
        if at > 0 {
            runs.push(Phrase::plain(", "));
        }
        if !item.inner.is_empty() {
            runs.push(Phrase::plain(format!("{} (", item.name)));
            list(&item.inner, label, runs);
            runs.push(Phrase::plain(")"));
            continue;
        }
        let allergens = item.allergens(label.law);
        if allergens.is_empty() || label.law == Law::Us {
            runs.push(Phrase::plain(&item.name));
            continue;
        }
        let name = item.name.to_lowercase();
        let unnamed: Vec<&str> = allergens.into_iter().filter(|word| !name.contains(word)).collect();
        runs.push(Phrase::strong(if unnamed.is_empty() {
            item.name.clone()
        } else {
            format!("{} ({})", item.name, unnamed.join(", "))
        }));
    }
}

type Round = fn(Number) -> Result<String, Overflow>;

/// What a figure lacks.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Gap {
    /// Nothing.
    None,
    /// Those of next to nothing, within what is tolerated anyway.
    Trace,
    /// The figures of ingredients that are a small part of the whole: it is at least so much.
    Small,
    /// Those of more than [`LARGE`] of the weight: what is left to add up says nothing.
    Large,
}

/// Which share of the weight as sold may lack figures. Common practice, no source.
const LARGE: Proportion = Proportion::new(Number::constant(1, 20));

/// Which share may lack figures without a word in the table: a gram in 100 g, of whatever it is. The EU guidance on tolerances of
/// December 2012 lets a declared fat be 1.5 g off and more, the others 2 g and more (from memory); salt is held closer.
const TRACE: Proportion = Proportion::new(Number::constant(1, 100));

fn gap(label: &Label, missing: &[String]) -> Result<Gap, Overflow> {
    if missing.is_empty() {
        return Ok(Gap::None);
    }
    let lacking = label.weight_of(missing)?;
    Ok(if lacking > label.net.share(LARGE)? {
        Gap::Large
    } else if label.law == Law::Eu && lacking <= label.net.share(TRACE)? {
        Gap::Trace
    } else {
        Gap::Small
    })
}

/// A row of the table: the sum of the batch, and how it is shown.
struct Row {
    name: &'static str,
    amount: Number,
    gap: Gap,
    round: Round,
    unit: &'static str,
}

fn rows(label: &Label) -> Result<Vec<Row>, Overflow> {
    let nutrition = &label.nutrition;
    let row = |name, nutrient, round: Round| -> Result<Row, Overflow> {
        let (amount, gap) = match nutrition.sum(nutrient) {
            Some(sum) => (sum.amount, gap(label, &sum.missing)?),
            None => (Number::ZERO, Gap::Large),
        };
        Ok(Row { name, amount, gap, round, unit: "g" })
    };
    if label.law == Law::Us {
        let salt = row("sodium", Nutrient::Salt, rounding::us_sodium)?;
        // The larder's salt is sodium x 2.5, so a gram of it is 400 mg of sodium.
        let sodium = Row { amount: salt.amount.times(Number::whole(400))?, unit: "mg", ..salt };
        return Ok(vec![
            Row { unit: "", ..row("calories", Nutrient::Energy, rounding::us_calories)? },
            row("total fat", Nutrient::Fat, rounding::us_fat)?,
            sodium,
            row("total carbohydrate", Nutrient::Carbohydrate, rounding::us_grams)?,
            row("dietary fiber", Nutrient::Fibre, rounding::us_grams)?,
            row("total sugars", Nutrient::Sugars, rounding::us_grams)?,
            row("protein", Nutrient::Protein, rounding::us_grams)?,
        ]);
    }
    let (kilojoules, kilocalories, missing) = nutrition.eu_energy()?;
    let energy_gap = gap(label, &missing)?;
    let Sum { amount, missing, .. } = nutrition.available_carbohydrate()?;
    let energy = |amount, unit| Row { name: "energy", amount, gap: energy_gap, round: rounding::eu_energy, unit };
    Ok(vec![
        energy(kilojoules, "kJ"),
        energy(kilocalories, "kcal"),
        row("fat", Nutrient::Fat, rounding::eu_grams)?,
        Row { name: "carbohydrate", amount, gap: gap(label, &missing)?, round: rounding::eu_grams, unit: "g" },
        row("of which sugars", Nutrient::Sugars, rounding::eu_grams)?,
        row("fibre", Nutrient::Fibre, rounding::eu_grams)?,
        row("protein", Nutrient::Protein, rounding::eu_grams)?,
        match row("salt", Nutrient::Salt, rounding::eu_salt)? {
            Row { gap: Gap::Trace, name, amount, round, unit } => Row { gap: Gap::Small, name, amount, round, unit },
            salt => salt,
        },
    ])
}

fn table(label: &Label, units: Units) -> Result<Block, Overflow> {
    let mut head = vec![String::new(), "per 100 g".to_owned()];
    head.extend(label.each.map(|each| match units {
        Units::Metric => format!("per piece ({})", show::mass(each, units)),
        _ => format!("per piece, {}", show::mass(each, units)),
    }));
    let hundred = Number::whole(100).over(label.net.value())?;
    let mut table = Vec::new();
    for row in rows(label)? {
        let mut cells = vec![row.name.to_owned()];
        let one = label.pieces.map(|pieces| Number::ONE.over(pieces.value())).transpose()?;
        for factor in [Some(hundred), one].into_iter().flatten() {
            let figure = (row.round)(row.amount.times(factor)?)?;
            cells.push(match row.gap {
                Gap::Large => "not known".to_owned(),
                // At least less than a half is not to be read.
                Gap::Small if figure.starts_with(['<', 'l']) => {
                    format!("at least 0 {}", row.unit).trim_end().to_owned()
                }
                Gap::Small => format!("at least {figure} {}", row.unit).trim_end().to_owned(),
                Gap::None | Gap::Trace => format!("{figure} {}", row.unit).trim_end().to_owned(),
            });
        }
        table.push(cells);
    }
    Ok(Table::figures(head, table, Frame::Sheet))
}

/// What the table lacks.
fn gaps(label: &Label) -> Result<Vec<Block>, Overflow> {
    let mut gaps = vec![words(match label.law {
        Law::Eu => "The table is incomplete: the larder has no saturates, which the law asks for.".to_owned(),
        Law::Us => {
            "The table is incomplete: the larder has no saturated and trans fat, cholesterol, added sugars, vitamin D, \
                    calcium, iron and potassium, which the law asks for."
                .to_owned()
        }
    })];
    let mut missing: Vec<String> = Vec::new();
    for name in label.nutrition.sums.iter().flat_map(|sum| &sum.missing) {
        if !missing.contains(name) {
            missing.push(name.clone());
        }
    }
    if !missing.is_empty() {
        let share = label.weight_of(&missing)?.as_share_of(label.net)?;
        let names = show::list(&missing);
        let weight = share.percent()?.decimal(1);
        let so = if label.law == Law::Eu && share <= TRACE {
            "That little is within what is tolerated of all but salt."
        } else {
            "That is why it says `at least` or `not known`."
        };
        gaps.push(words(format!(
            "The larder lacks figures of {names}, {weight} % of the weight as sold: they are not in the sums. {so}"
        )));
    }
    if !label.nutrition.uncounted.is_empty() {
        let names = show::list(&label.nutrition.uncounted);
        gaps.push(words(format!("Not counted, for it is set aside or has no weight: {names}.")));
    }
    Ok(gaps)
}

#[derive(Serialize, JsonSchema)]
pub(super) struct WireAll<'a> {
    format: u32,
    labels: Vec<Wire<'a>>,
}

#[derive(Serialize, JsonSchema)]
struct Wire<'a> {
    recipe: &'a str,
    /// eu or us.
    law: &'a str,
    ingredients: Vec<WireItem<'a>>,
    /// Allergens, as the law calls them.
    contains: &'a [String],
    /// Ingredients whose allergens are not known.
    unknown: &'a [String],
    quantities: Vec<WireQuantity<'a>>,
    /// Net weight of the batch.
    net_g: f64,
    bake_loss_percent: Option<f64>,
    each_g: Option<f64>,
    nutrition_batch: Vec<WireSum<'a>>,
    /// Ingredients that the figures leave out.
    not_counted: &'a [String],
    caution: &'a str,
}

#[derive(Serialize, JsonSchema)]
struct WireItem<'a> {
    ingredient: &'a str,
    grams: Option<f64>,
    allergens: Vec<&'a str>,
    ingredients: Vec<WireItem<'a>>,
}

#[derive(Serialize, JsonSchema)]
struct WireQuantity<'a> {
    ingredient: &'a str,
    percent: Option<f64>,
}

#[derive(Serialize, JsonSchema)]
struct WireSum<'a> {
    nutrient: &'a str,
    unit: &'a str,
    amount: f64,
    /// Whether something is not known, so that it is at least this.
    is_lower_bound: bool,
}

fn wire_items<'a>(items: &'a [Item], law: Law) -> Vec<WireItem<'a>> {
    let wire = |item: &'a Item| WireItem {
        ingredient: &item.name,
        grams: item.mass.map(|mass| mass.value().to_f64()),
        allergens: item.allergens(law),
        ingredients: wire_items(&item.inner, law),
    };
    items.iter().map(wire).collect()
}

/// The labels for programs: figures of the whole batch, before any rounding.
///
/// # Errors
/// A sentence, when a figure leaves the range of exact numbers.
pub fn json(labels: &[Label]) -> Result<String, String> {
    let mut all = WireAll { format: 1, labels: Vec::with_capacity(labels.len()) };
    for label in labels {
        let rows = rows(label).map_err(|_| "a figure leaves the range of exact numbers".to_owned())?;
        let sum = |row: Row| WireSum {
            nutrient: row.name,
            unit: if row.unit.is_empty() { "kcal" } else { row.unit },
            amount: row.amount.to_f64(),
            is_lower_bound: row.gap != Gap::None,
        };
        let quantity = |quantity| -> WireQuantity<'_> {
            let quantity: &crate::figures::label::Quantity = quantity;
            WireQuantity { ingredient: &quantity.name, percent: quantity.share.percent().ok().map(Number::to_f64) }
        };
        all.labels.push(Wire {
            recipe: &label.name,
            law: if label.law == Law::Eu { "eu" } else { "us" },
            ingredients: wire_items(&label.ingredients, label.law),
            contains: &label.contains,
            unknown: &label.unknown,
            quantities: label.quantities.iter().map(quantity).collect(),
            net_g: label.net.value().to_f64(),
            bake_loss_percent: label.bake_loss.and_then(|loss| loss.percent().ok()).map(Number::to_f64),
            each_g: label.each.map(|each| each.value().to_f64()),
            nutrition_batch: rows.into_iter().map(sum).collect(),
            not_counted: &label.nutrition.uncounted,
            caution: CAUTION,
        });
    }
    crate::out::report::to_json(&all).map(|text| text + "\n").map_err(|error| error.to_string())
}
