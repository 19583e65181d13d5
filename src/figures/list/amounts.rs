//! How much of one thing all lines of a list take, as it is bought.

use super::Line;
use crate::figures::card::LineCard;
use crate::measure::number::{Number, Overflow};
use crate::measure::quantity::Mass;
use crate::measure::show::{self, Units};
use crate::measure::shown::Shown;
use crate::measure::to_buy::volume_to_buy;
use crate::measure::value::Value;

/// How many of it go in, where every line counts it and has its weight; `None` where some line weighs it.
pub(super) fn counted(group: &[&Line<'_>]) -> Result<Option<Number>, Overflow> {
    let mut count = Number::ZERO;
    for line in group {
        let Some(pieces) = pieces_of(line.line) else { return Ok(None) };
        count = count.plus(pieces)?;
    }
    Ok(Some(count).filter(|count| count.is_positive()))
}

/// How many a line says, of all that it lists.
pub(super) fn pieces_of(line: &LineCard) -> Option<Number> {
    match line.said_in {
        Some(Value::Count(count)) if line.mass.is_some() && line.mass == line.final_mix => Some(count.value()),
        _ => None,
    }
}

/// The factor by which the first value grows when the second is added to it.
pub(super) fn added(first: Value, second: Value) -> Result<Number, Overflow> {
    if first.number().is_zero() { Ok(Number::ONE) } else { second.number().over(first.number())?.plus(Number::ONE) }
}

/// Pieces are bought whole.
pub(super) fn natural_to_buy(value: Value, units: Units) -> Shown {
    match value {
        Value::Volume(volume) => volume_to_buy(volume, units),
        Value::Count(count) => show::pieces(count.value().ceil()),
        other => show::value_plain(other),
    }
}

/// What is bought so that so much of it goes in.
pub(super) fn with_waste(line: &LineCard, mass: Mass) -> Result<Mass, Overflow> {
    match (line.buy, line.mass) {
        (Some(buy), Some(all)) if all > Mass::ZERO => buy.times(mass.ratio(all)?),
        _ => Ok(mass),
    }
}
