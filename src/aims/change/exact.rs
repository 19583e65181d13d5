//! The corner exactly: the tight rows as equations in the lines that change, solved by elimination without rounding.

use super::program::Corner;
use super::row::Row;
use crate::measure::number::Number;
use num_rational::BigRational;
use num_traits::{Signed, ToPrimitive, Zero};

/// The number itself where it fits, else to fifteen places.
fn number(value: &BigRational) -> Option<Number> {
    if let (Some(above), Some(below)) = (value.numer().to_i128(), value.denom().to_i128())
        && below < 1_000_000_000_000_000
        && above.unsigned_abs() < 1_000_000_000_000_000_000_000
    {
        return Number::fraction(above, below);
    }
    Number::to_the_finest(value)
}

/// The exact changes at a corner. Where its rows do not settle every line, those left over stay as they were found.
pub(super) fn changes(corner: &Corner, rows: &[&Row]) -> Vec<Number> {
    let free: Vec<usize> = corner.fixed.iter().enumerate().filter(|(_, fixed)| !**fixed).map(|(at, _)| at).collect();
    let settled: Vec<Number> = corner
        .changes
        .iter()
        .zip(&corner.fixed)
        .map(|(change, fixed)| if *fixed { whole(*change) } else { *change })
        .collect();
    let mut equations: Vec<Vec<BigRational>> = Vec::new();
    for (row, _) in rows.iter().zip(&corner.tight).filter(|(_, tight)| **tight) {
        let slope = |at: usize| row.slopes.get(at).copied().unwrap_or(Number::ZERO);
        let mut equation: Vec<BigRational> = free.iter().map(|at| slope(*at).unbound()).collect();
        let mut right = -row.constant.unbound();
        for (at, change) in settled.iter().enumerate().filter(|(at, _)| !free.contains(at)) {
            right -= slope(at).unbound() * change.unbound();
        }
        equation.push(right);
        equations.push(equation);
    }
    let Some(solved) = eliminate(equations, &free, &corner.changes) else { return settled };
    let mut exact = settled;
    for (at, value) in free.iter().zip(solved) {
        if let (Some(slot), Some(value)) = (exact.get_mut(*at), number(&value)) {
            *slot = value;
        }
    }
    exact
}

/// A line that stays, or is all gone.
fn whole(change: Number) -> Number {
    if change.size() < Number::constant(1, 2) { Number::ZERO } else { Number::whole(-1) }
}

/// Gauss and Jordan. An equation that says nothing new is passed over; so is one that contradicts the others, which only looked
/// tight.
fn eliminate(mut equations: Vec<Vec<BigRational>>, free: &[usize], found: &[Number]) -> Option<Vec<BigRational>> {
    let mut pivots: Vec<(usize, usize)> = Vec::new();
    for number in 0..equations.len() {
        // Of what is left in it the largest is solved for.
        let equation = equations.get(number)?.clone();
        let (slopes, _) = equation.split_at(free.len());
        let largest = slopes.iter().enumerate().max_by(|(_, one), (_, other)| one.abs().cmp(&other.abs()))?;
        let (column, pivot) = (largest.0, largest.1.clone());
        if pivot.is_zero() {
            continue;
        }
        let scaled: Vec<BigRational> = equation.iter().map(|value| value / &pivot).collect();
        for (other, row) in equations.iter_mut().enumerate() {
            let times = row.get(column)?.clone();
            if other == number {
                row.clone_from(&scaled);
            } else if !times.is_zero() {
                for (slot, value) in row.iter_mut().zip(&scaled) {
                    *slot -= value * &times;
                }
            }
        }
        pivots.push((column, number));
    }
    let is_pivot = |column: usize| pivots.iter().any(|(pivot, _)| *pivot == column);
    let mut values: Vec<BigRational> =
        free.iter().map(|at| found.get(*at).copied().map_or_else(BigRational::zero, Number::unbound)).collect();
    let given = values.clone();
    for (column, number) in &pivots {
        let row = equations.get(*number)?;
        let mut value = row.last()?.clone();
        for (other, slope) in row.iter().take(free.len()).enumerate() {
            if !is_pivot(other) {
                value -= slope * given.get(other)?;
            }
        }
        if let Some(slot) = values.get_mut(*column) {
            *slot = value;
        }
    }
    Some(values)
}
