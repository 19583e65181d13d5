//! What can be made of what there is, laid out.

use super::block::{Block, Frame, Heading, Table, words};
use crate::make::stock::UsedStock;
use crate::measure::noun::agreeing;
use crate::measure::number::Number;
use crate::measure::show::{self, Units};
use schemars::JsonSchema;
use serde::Serialize;

/// A batch made of what there is.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Stock {
    /// The recipe's name.
    pub recipe: String,
    /// How many times the batch as written.
    pub factor: Number,
    /// How many pieces.
    pub pieces: Option<Number>,
    /// What runs out first.
    pub limit: Option<String>,
    /// What remains of each.
    pub remains: Vec<UsedStock>,
}

/// The page of a stock.
pub fn page(stock: &Stock, units: Units) -> Vec<Block> {
    let times = format!("{} {} the recipe", show::number(stock.factor), agreeing(stock.factor, "times"));
    let size = stock.pieces.map_or_else(|| times.clone(), |pieces| format!("{}, {times}", show::pieces(pieces)));
    let limit = stock.limit.as_ref().map_or_else(String::new, |limit| format!("; {limit} runs out first"));
    let head = ["ingredient", "there is", "used", "left"].map(str::to_owned).to_vec();
    let rows = stock.remains.iter().map(|one| {
        let mut row = vec![one.name.clone()];
        row.extend([one.had, one.used, one.left].map(|mass| show::mass(mass, units).to_string()));
        row
    });
    vec![
        Heading::block(1, format!("{}: from what there is", stock.recipe)),
        words(format!("The largest whole batch is {size}{limit}.")),
        Table::figures(head, rows.collect(), Frame::Sheet),
    ]
}

#[derive(Serialize, JsonSchema)]
pub(super) struct WireAll<'a> {
    /// Rises when a key changes its meaning or goes away.
    format: u32,
    /// A stock for each file.
    stocks: Vec<Wire<'a>>,
}

#[derive(Serialize, JsonSchema)]
struct Wire<'a> {
    /// The name of the recipe.
    recipe: &'a str,
    /// How many times the batch as it is written.
    factor: f64,
    /// How many pieces.
    pieces: Option<f64>,
    /// What runs out first.
    limit: Option<&'a str>,
    /// What remains of each thing.
    remains: Vec<WireRemains<'a>>,
}

#[derive(Serialize, JsonSchema)]
struct WireRemains<'a> {
    /// The name of the ingredient.
    ingredient: &'a str,
    /// What there was, in grams.
    had_g: f64,
    /// What the work uses, in grams.
    used_g: f64,
    /// What is left then, in grams; below zero it lacks.
    left_g: f64,
}

/// The stock for programs.
///
/// # Errors
/// When the writing fails, which it does not for these values.
pub fn json(stocks: &[Stock]) -> Result<String, serde_json::Error> {
    let mut all = WireAll { format: 1, stocks: Vec::with_capacity(stocks.len()) };
    for stock in stocks {
        let remains = stock.remains.iter().map(|one| WireRemains {
            ingredient: &one.name,
            had_g: one.had.value().to_f64(),
            used_g: one.used.value().to_f64(),
            left_g: one.left.value().to_f64(),
        });
        all.stocks.push(Wire {
            recipe: &stock.recipe,
            factor: stock.factor.to_f64(),
            pieces: stock.pieces.map(Number::to_f64),
            limit: stock.limit.as_deref(),
            remains: remains.collect(),
        });
    }
    crate::out::report::to_json(&all).map(|text| text + "\n")
}
