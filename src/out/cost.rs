//! What a batch costs, laid out.

use super::block::{Block, Frame, Heading, Table, words};
use crate::figures::cost::{self, Ageing, Cost, LineCost, OldPrice};
use crate::make::weigh::POUND;
use crate::measure::money;
use crate::measure::noun::{agreeing, counted};
use crate::measure::number::{Number, Overflow};
use crate::measure::quantity::Duration;
use crate::measure::show::{self, Units};
use schemars::JsonSchema;
use serde::Serialize;

fn money(amount: Number, currency: Option<&str>) -> String {
    money::shown(amount, 2, currency).to_string()
}

/// The page of a cost.
///
/// # Errors
/// When a figure leaves the range of exact numbers.
pub fn page(cost: &Cost, ageing: Ageing, units: Units) -> Result<Vec<Block>, Overflow> {
    let mut blocks = vec![Heading::block(1, format!("{}: cost", cost.recipe)), totals(cost)?];
    blocks.push(Heading::block(2, "Ingredients"));
    blocks.push(ingredients(cost, units)?);
    if cost.parts.len() > 1 {
        blocks.push(Heading::block(2, "Parts"));
        blocks.push(parts(cost));
    }
    blocks.extend(left_out(cost).into_iter().chain(old_prices(cost, ageing)).map(words));
    blocks.push(words("Ingredients only, by what is bought for the edible part. Wages, heat and rent are not in it."));
    Ok(blocks)
}

/// What the batch costs, and one piece of it.
fn totals(cost: &Cost) -> Result<Block, Overflow> {
    let currency = cost.currency.as_deref();
    let least = if cost.is_least() { "at least " } else { "" };
    // Where nothing has a price, nothing is said of it; and a figure of 0.00 would be one for what is made elsewhere.
    let said = |amount: String| match cost.total.is_positive() {
        true => format!("{least}{amount}"),
        false if !cost.missing.is_empty() => "no prices".to_owned(),
        false if !cost.elsewhere.is_empty() => "nothing of its own".to_owned(),
        false => "free".to_owned(),
    };
    let mut totals = vec![vec!["the batch".to_owned(), said(money(cost.total, currency))]];
    if let (Some(each), Some(pieces)) = (cost.each()?, cost.pieces) {
        totals.push(vec![one_of(pieces.value(), "pieces"), said(fine_money(each, currency))]);
    }
    for sort in &cost.sorts {
        totals.push(vec![one_of(sort.pieces.value(), &sort.sort), said(fine_money(sort.each, currency))]);
    }
    totals.push(vec!["work by hand".to_owned(), show::duration(Duration::minutes(cost.hands_minutes)).to_string()]);
    Ok(Table::figures(vec![String::new(), String::new()], totals, Frame::Sheet))
}

/// What is bought of each ingredient, at which price.
fn ingredients(cost: &Cost, units: Units) -> Result<Block, Overflow> {
    let (grams, per) = match units {
        Units::Us => (POUND.value(), "a lb"),
        Units::Metric | Units::Both => (Number::whole(1000), "a kg"),
    };
    let mut rows = Vec::with_capacity(cost.lines.len());
    for line in &cost.lines {
        let per_unit = line.per_gram.map(|price| price.times(grams)).transpose()?;
        rows.push(vec![
            line.name.clone(),
            line.bought.map_or_else(|| "no weight".to_owned(), |mass| show::mass(mass, units).to_string()),
            per_unit.map_or_else(String::new, |price| price.decimal_fixed(2)),
            line.priced_on.map_or_else(String::new, |on| on.to_string()),
            match line.cost {
                Some(cost) if cost.is_zero() => "free".to_owned(),
                Some(price) => money(price, cost.currency.as_deref()),
                None if line.per_gram.is_some() => "not counted".to_owned(),
                None => "no price".to_owned(),
            },
            share_of(cost, line),
        ]);
    }
    let head = ["ingredient", "bought", per, "price of", "cost", "share"].map(str::to_owned).to_vec();
    let (head, rows) = without_empty_columns(head, rows);
    Ok(Table::figures(head, rows, Frame::Sheet))
}

/// What the own ingredients of each part cost.
fn parts(cost: &Cost) -> Block {
    let currency = cost.currency.as_deref();
    let parts = cost.parts.iter().map(|part| {
        let amount = match (part.is_least, part.is_priced) {
            _ if !part.has_own => "none of its own".to_owned(),
            (true, false) => "no prices".to_owned(),
            (true, true) => format!("at least {}", money(part.cost, currency)),
            (false, false) => "free".to_owned(),
            (false, true) => money(part.cost, currency),
        };
        let name = match &part.beyond {
            Some(from) => format!("{}, beyond what {from} takes", part.name),
            None => part.name.clone(),
        };
        vec![name, amount]
    });
    let head = vec!["part, its own ingredients".to_owned(), "cost".to_owned()];
    Table::figures(head, parts.collect(), Frame::Sheet)
}

/// What is not in the totals, and why.
fn left_out(cost: &Cost) -> Vec<String> {
    // What has a price and no weight is put in by eye.
    let is_priced = |name: &&String| cost.lines.iter().any(|line| line.name == **name && line.per_gram.is_some());
    let (by_eye, unpriced): (Vec<&String>, Vec<&String>) = cost.missing.iter().partition(is_priced);
    let mut said = Vec::new();
    if !unpriced.is_empty() {
        said.push(format!(
            "No price: {}. So the totals are the least that it costs. Say in a larder file, of each, `costs 1.20 per kg`.",
            show::list(&unpriced)
        ));
    }
    if !cost.elsewhere.is_empty() {
        said.push(format!(
            "Not in this cost, for it is made in a batch of its own or comes from the store: {}.",
            show::list(&cost.elsewhere)
        ));
    }
    if !by_eye.is_empty() {
        said.push(format!("Not counted, for the recipe gives no weight: {}.", show::list(&by_eye)));
    }
    said
}

/// Prices that are to be asked again.
fn old_prices(cost: &Cost, ageing: Ageing) -> Option<String> {
    let price = |price: OldPrice| format!("{} ({}, {} ago)", price.name, price.priced_on, days(price.days));
    let old: Vec<String> = cost.old_prices(ageing).into_iter().map(price).collect();
    let (good, on) = (ageing.good_for_days, ageing.on);
    (!old.is_empty()).then(|| format!("Prices more than {} old on {on}: {}. Ask again.", days(good), show::list(&old)))
}

/// Which piece a row is about. A batch of one has no others.
fn one_of(pieces: Number, noun: &str) -> String {
    if pieces == Number::ONE {
        format!("the one {}", agreeing(pieces, noun))
    } else {
        format!("one of {} {noun}", show::count_of(pieces))
    }
}

fn days(days: i64) -> String {
    counted(Number::whole(days), "days")
}

/// Which share of the total a line is, to a tenth of a percent.
fn share_of(cost: &Cost, line: &LineCost) -> String {
    let percent = cost.share(line).filter(|share| share.value().is_positive()).and_then(|share| share.percent().ok());
    percent.map_or_else(String::new, |percent| format!("{} %", percent.decimal_fixed(1)))
}

/// Money for one piece: a roll may cost less than a hundredth.
fn fine_money(amount: Number, currency: Option<&str>) -> String {
    money::shown(amount, 3, currency).to_string()
}

/// What stands below the costs of several batches: what they cost together.
pub fn total(costs: &[Cost]) -> Vec<Block> {
    let Some(sum) = cost::together(costs) else { return Vec::new() };
    let least = if sum.is_least { "at least " } else { "" };
    let all = match (sum.is_least, sum.total.is_positive()) {
        (true, false) => "no prices".to_owned(),
        _ => format!("{least}{}", money(sum.total, sum.currency.as_deref())),
    };
    let rows = vec![
        vec!["all batches".to_owned(), all],
        vec!["work by hand".to_owned(), show::duration(Duration::minutes(sum.hands_minutes)).to_string()],
    ];
    vec![
        Heading::block(1, "All together: cost".to_owned()),
        Table::figures(vec![String::new(), String::new()], rows, Frame::Sheet),
    ]
}

/// A column that says nothing in any row is left out.
fn without_empty_columns(head: Vec<String>, rows: Vec<Vec<String>>) -> (Vec<String>, Vec<Vec<String>>) {
    let says = |at: usize| rows.iter().any(|row| row.get(at).is_some_and(|cell| !cell.is_empty()));
    let kept: Vec<bool> = (0..head.len()).map(says).collect();
    let keep = |row: Vec<String>| -> Vec<String> {
        row.into_iter().zip(&kept).filter(|(_, kept)| **kept).map(|(cell, _)| cell).collect()
    };
    let rows = rows.iter().cloned().map(keep).collect();
    (keep(head), rows)
}

#[derive(Serialize, JsonSchema)]
pub(super) struct WireAll<'a> {
    /// Rises when a key changes its meaning or goes away.
    format: u32,
    /// A cost for each file.
    costs: Vec<Wire<'a>>,
    /// All batches together, where there are several.
    #[serde(skip_serializing_if = "Option::is_none")]
    together: Option<WireTotal>,
}

#[derive(Serialize, JsonSchema)]
struct WireTotal {
    /// The currency of the prices; null where none is said.
    currency: Option<String>,
    /// What all of them cost together.
    total: f64,
    /// Whether prices are missing, so that it costs at least this.
    is_lower_bound: bool,
    /// Work by hand.
    hands_minutes: i64,
}

#[derive(Serialize, JsonSchema)]
struct Wire<'a> {
    /// The name of the recipe.
    recipe: &'a str,
    /// The currency of the prices; null where none is said.
    currency: Option<&'a str>,
    /// What the batch costs.
    total: f64,
    /// What a piece costs.
    each: Option<f64>,
    /// What a piece of each sort costs, where there are several sorts.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    sorts: Vec<WireSort<'a>>,
    /// Whether prices or parts are missing, so that it costs at least this.
    is_lower_bound: bool,
    /// Ingredients without a price.
    missing: &'a [String],
    /// Parts that went into it and are not in the cost: made in a batch of their own, or taken from the store.
    #[serde(skip_serializing_if = "<[String]>::is_empty")]
    elsewhere: &'a [String],
    /// Work by hand.
    hands_minutes: i64,
    /// The ingredients.
    ingredients: Vec<WireLine<'a>>,
    /// Ingredients whose price is old.
    old_prices: Vec<String>,
    /// The parts.
    parts: Vec<WirePart<'a>>,
}

#[derive(Serialize, JsonSchema)]
struct WireLine<'a> {
    /// The name of the ingredient.
    ingredient: &'a str,
    /// What has to be bought of it.
    bought_g: Option<f64>,
    /// What the line costs; null where that is not known.
    cost: Option<f64>,
    /// What a kilogram costs.
    price_per_kg: Option<f64>,
    /// The day of the price.
    priced_on: Option<String>,
}

#[derive(Serialize, JsonSchema)]
struct WireSort<'a> {
    /// The sort.
    sort: &'a str,
    /// How many pieces of the sort.
    pieces: f64,
    /// What one of them costs.
    each: f64,
}

#[derive(Serialize, JsonSchema)]
struct WirePart<'a> {
    /// The name of the part.
    part: &'a str,
    /// Of a preferment, the part in whose cost its ingredients are, but for what is made of it besides: this is the cost of that alone.
    #[serde(skip_serializing_if = "Option::is_none")]
    beyond: Option<&'a str>,
    /// What the own ingredients of the part cost.
    cost: f64,
}

/// The costs for programs.
///
/// # Errors
/// When the writing fails, which it does not for these values.
pub fn json(costs: &[Cost], ageing: Ageing) -> Result<String, serde_json::Error> {
    let wire = |cost| -> Wire<'_> {
        let cost: &Cost = cost;
        Wire {
            recipe: &cost.recipe,
            currency: cost.currency.as_deref(),
            total: cost.total.to_f64(),
            each: cost.each().ok().flatten().map(Number::to_f64),
            sorts: cost
                .sorts
                .iter()
                .map(|sort| WireSort {
                    sort: &sort.sort,
                    pieces: sort.pieces.value().to_f64(),
                    each: sort.each.to_f64(),
                })
                .collect(),
            is_lower_bound: cost.is_least(),
            missing: &cost.missing,
            elsewhere: &cost.elsewhere,
            hands_minutes: cost.hands_minutes,
            ingredients: cost
                .lines
                .iter()
                .map(|line| WireLine {
                    ingredient: &line.name,
                    bought_g: line.bought.map(|mass| mass.value().to_f64()),
                    cost: line.cost.map(Number::to_f64),
                    price_per_kg: line.per_gram.map(|price| price.to_f64() * 1000.0),
                    priced_on: line.priced_on.map(|on| on.to_string()),
                })
                .collect(),
            old_prices: cost.old_prices(ageing).into_iter().map(|price| price.name).collect(),
            parts: cost
                .parts
                .iter()
                .map(|part| WirePart { part: &part.name, beyond: part.beyond.as_deref(), cost: part.cost.to_f64() })
                .collect(),
        }
    };
    let together = cost::together(costs).map(|sum| WireTotal {
        currency: sum.currency,
        total: sum.total.to_f64(),
        is_lower_bound: sum.is_least,
        hands_minutes: sum.hands_minutes,
    });
    let all = WireAll { format: 1, costs: costs.iter().map(wire).collect(), together };
    crate::out::report::to_json(&all).map(|text| text + "\n")
}
