//! Bounds of a quotient as rows of a linear program: a sum of changes and a constant that is not less than nothing, or is nothing.

use super::form::Quotient;
use crate::measure::number::{Number, Overflow};

/// `Σ slope × change + constant ≥ 0`, or `= 0`; a change is how many times what is written a line grows.
#[derive(Debug, Clone)]
pub(super) struct Row {
    pub(super) slopes: Vec<Number>,
    pub(super) constant: Number,
    pub(super) is_equal: bool,
    /// The goal that it is of.
    pub(super) goal: usize,
}

impl Row {
    /// The value at some changes.
    pub(super) fn at(&self, changes: &[Number]) -> Result<Number, Overflow> {
        let mut sum = self.constant;
        for (slope, change) in self.slopes.iter().zip(changes) {
            if !slope.is_zero() && !change.is_zero() {
                sum = sum.plus(slope.times(*change)?)?;
            }
        }
        Ok(sum)
    }
}

/// The rows of one goal whose forms were taken at some changes.
pub(super) fn rows(
    quotient: &Quotient,
    (low, high): (Option<Number>, Option<Number>),
    taken_at: &[Number],
    goal: usize,
) -> Result<Vec<Row>, Overflow> {
    let minus = |bound: Number, turn: bool| -> Result<Row, Overflow> {
        let form = |above: Number, below: Number| -> Result<Number, Overflow> {
            let value = above.minus(bound.times(below)?)?;
            if turn { Number::ZERO.minus(value) } else { Ok(value) }
        };
        let mut constant = form(quotient.above.at, quotient.below.at)?;
        let mut slopes = Vec::with_capacity(quotient.above.slopes.len());
        for ((above, below), at) in quotient.above.slopes.iter().zip(&quotient.below.slopes).zip(taken_at) {
            let slope = form(*above, *below)?;
            constant = constant.minus(slope.times(*at)?)?;
            slopes.push(slope);
        }
        Ok(Row { slopes, constant, is_equal: false, goal })
    };
    Ok(match (low, high) {
        (Some(low), Some(high)) if low == high => vec![Row { is_equal: true, ..minus(low, false)? }],
        (low, high) => {
            let mut found = Vec::new();
            if let Some(low) = low {
                found.push(minus(low, false)?);
            }
            if let Some(high) = high {
                found.push(minus(high, true)?);
            }
            found
        }
    })
}
