//! Sticks of butter, as it is sold in the United States: four ounces each, or half a cup (USDA FoodData Central, butter, salted, 173410:
//! `1 stick` is 113 g and `1 cup` 227 g, from memory).

use super::measure::{Measure, measure};
use crate::measure::number::Number;
use crate::text::words::has_whole_word;

/// What one weighs, in the words of notes.
const ONE: &str = "4 oz";

/// Whether an amount is counted in sticks.
pub(super) fn is_stick(amount: &Measure) -> bool {
    ["stick", "sticks"].contains(&amount.word.to_lowercase().as_str())
}

/// How many sticks an amount is, if it is some.
fn sticks(amount: &Measure) -> Option<Number> {
    amount.value.filter(|many| is_stick(amount) && amount.has_figure && many.is_positive())
}

/// An amount of butter in sticks.
fn in_sticks(amount: &Measure) -> Option<Number> {
    let (above, below) = match amount.known()? {
        "oz" => (1, 4),
        "lb" => (4, 1),
        "g" => (1, 113),
        "kg" => (1000, 113),
        "cup" => (2, 1),
        "tbsp" => (1, 8),
        _ => return None,
    };
    amount.value?.times(Number::constant(above, below)).ok()
}

/// Whether an amount beside so many sticks is of all of them, and not of each: `2 sticks (8 oz)`.
pub(super) fn is_of_all(first: &Measure, beside: &Measure) -> bool {
    let Some((many, beside)) = sticks(first).zip(in_sticks(beside)) else { return false };
    let (from_all, from_one) = (beside.minus(many), beside.minus(Number::ONE));
    matches!((from_all, from_one), (Ok(all), Ok(one)) if all.size() < one.size())
}

/// How many sticks of butter an amount is, and what one weighs, where nothing stands beside it and the name is one of butter.
pub(super) fn weighed(amount: &Measure, name: &str) -> Option<(Number, Measure)> {
    let many = sticks(amount).filter(|_| has_whole_word(&name.to_lowercase(), ["butter", "margarine"]))?;
    measure(ONE).map(|(one, _)| (many, one))
}
