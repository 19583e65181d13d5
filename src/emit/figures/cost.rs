//! What a batch costs, laid out.

use super::{Block, words};
use crate::cost::Cost;
use crate::number::{Number, Overflow};
use crate::show;
use serde::Serialize;

fn money(amount: Number, currency: Option<&str>) -> String {
    let digits = amount.decimal_fixed(2);
    currency.map_or_else(|| digits.clone(), |currency| format!("{digits} {currency}"))
}

/// The page of a cost.
///
/// # Errors
/// When a figure leaves the range of exact numbers.
pub fn page(cost: &Cost) -> Result<Vec<Block>, Overflow> {
    let currency = cost.currency.as_deref();
    let least = if cost.missing.is_empty() { "" } else { "at least " };
    let mut blocks = vec![Block::Title(format!("{}: cost", cost.recipe))];
    let mut totals = vec![vec!["batch".to_owned(), format!("{least}{}", money(cost.total, currency))]];
    if let Some(each) = cost.each()? {
        totals.push(vec!["one piece".to_owned(), format!("{least}{}", money(each, currency))]);
    }
    totals.push(vec!["hands".to_owned(), format!("{} min", cost.hands_minutes)]);
    blocks.push(Block::Table(vec![String::new(), "cost".to_owned()], totals));
    blocks.push(Block::Heading("Ingredients".to_owned()));
    let rows = cost.lines.iter().map(|line| {
        vec![
            line.name.clone(),
            line.bought.map_or_else(|| "no weight".to_owned(), show::mass_plain),
            line.cost.map_or_else(|| "no price".to_owned(), |cost| money(cost, currency)),
            cost.share(line).map_or_else(String::new, show::percent),
        ]
    });
    let head = ["ingredient", "bought", "cost", "share"].map(str::to_owned).to_vec();
    blocks.push(Block::Table(head, rows.collect()));
    blocks.push(Block::Heading("Parts".to_owned()));
    let parts = cost.parts.iter().map(|part| vec![part.name.clone(), money(part.cost, currency)]);
    blocks.push(Block::Table(vec!["part, its own ingredients".to_owned(), "cost".to_owned()], parts.collect()));
    if !cost.missing.is_empty() {
        blocks.push(words(format!(
            "No price or no weight: {}. The totals are lower bounds until a larder file says `costs 1.20 per kg` of them.",
            show::list(&cost.missing)
        )));
    }
    blocks.push(words("Ingredients only, by what is bought for the edible part. Wages, heat and rent are not in it."));
    Ok(blocks)
}

#[derive(Serialize)]
struct WireAll<'a> {
    format: u32,
    costs: Vec<Wire<'a>>,
}

#[derive(Serialize)]
struct Wire<'a> {
    recipe: &'a str,
    currency: Option<&'a str>,
    total: f64,
    each: Option<f64>,
    is_lower_bound: bool,
    missing: &'a [String],
    hands_minutes: i64,
    ingredients: Vec<WireLine<'a>>,
    parts: Vec<WirePart<'a>>,
}

#[derive(Serialize)]
struct WireLine<'a> {
    ingredient: &'a str,
    bought_g: Option<f64>,
    cost: Option<f64>,
}

#[derive(Serialize)]
struct WirePart<'a> {
    part: &'a str,
    cost: f64,
}

/// The costs for programs.
///
/// # Errors
/// When the writing fails, which it does not for these values.
pub fn json(costs: &[Cost]) -> Result<String, serde_json::Error> {
    let wire = |cost| -> Wire<'_> {
        let cost: &Cost = cost;
        Wire {
            recipe: &cost.recipe,
            currency: cost.currency.as_deref(),
            total: cost.total.to_f64(),
            each: cost.each().ok().flatten().map(Number::to_f64),
            is_lower_bound: !cost.missing.is_empty(),
            missing: &cost.missing,
            hands_minutes: cost.hands_minutes,
            ingredients: cost
                .lines
                .iter()
                .map(|line| WireLine {
                    ingredient: &line.name,
                    bought_g: line.bought.map(|mass| mass.value().to_f64()),
                    cost: line.cost.map(Number::to_f64),
                })
                .collect(),
            parts: cost.parts.iter().map(|part| WirePart { part: &part.name, cost: part.cost.to_f64() }).collect(),
        }
    };
    crate::report::to_json(&WireAll { format: 1, costs: costs.iter().map(wire).collect() }).map(|text| text + "\n")
}
