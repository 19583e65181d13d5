//! The linear program, given to the crate that solves it. Nothing else here knows that crate, and what comes back is only where to
//! look: which lines change and which rows are tight. The figures are worked out exactly from that.

use super::row::Row;
use crate::measure::number::Number;
use microlp::{ComparisonOp, OptimizationDirection, Problem};

/// What to make small: what each line costs when it grows, and when it shrinks, by once what is written.
pub(super) struct Prices {
    pub(super) up: Vec<Number>,
    pub(super) down: Vec<Number>,
    /// The most that a line may grow, in times what is written.
    pub(super) most: Number,
}

/// Where the least lies.
#[derive(Debug, Clone)]
pub(super) struct Corner {
    /// The changes, rounded.
    pub(super) changes: Vec<Number>,
    /// Which lines stay, or are all gone.
    pub(super) fixed: Vec<bool>,
    /// Which rows are tight.
    pub(super) tight: Vec<bool>,
}

/// What came of it.
#[derive(Debug, Clone)]
pub(super) enum Found {
    /// A corner.
    Corner(Corner),
    /// No changes meet all rows.
    Nothing,
    /// The numbers are beyond what can be computed with.
    Failed,
}

/// So near to a bound is at it.
const NEAR: f64 = 1e-9;

/// The changes that meet all rows at the least price.
pub(super) fn least(rows: &[&Row], prices: &Prices) -> Found {
    let count = prices.up.len();
    let mut problem = Problem::new(OptimizationDirection::Minimize);
    let most = prices.most.to_f64();
    let mut variables = Vec::with_capacity(count);
    for (up, down) in prices.up.iter().zip(&prices.down) {
        variables.push((problem.add_var(up.to_f64(), (0.0, most)), problem.add_var(down.to_f64(), (0.0, 1.0))));
    }
    let mut sizes = Vec::with_capacity(rows.len());
    for row in rows {
        let slopes: Vec<f64> = row.slopes.iter().map(|slope| slope.to_f64()).collect();
        let size = slopes.iter().fold(0.0_f64, |size, slope| size.max(slope.abs()));
        let constant = row.constant.to_f64();
        if !size.is_finite() || !constant.is_finite() {
            return Found::Failed;
        }
        sizes.push(size);
        if size <= f64::MIN_POSITIVE {
            // No line has a say in it: it holds as it is or not at all.
            if row.constant.is_negative() || (row.is_equal && !row.constant.is_zero()) {
                return Found::Nothing;
            }
            continue;
        }
        let mut terms = Vec::with_capacity(2 * count);
        for (slope, (up, down)) in slopes.iter().zip(&variables) {
            let slope = slope / size;
            if slope.abs() > 1e-13 {
                terms.push((*up, slope));
                terms.push((*down, -slope));
            }
        }
        let sense = if row.is_equal { ComparisonOp::Eq } else { ComparisonOp::Ge };
        problem.add_constraint(terms.as_slice(), sense, -constant / size);
    }
    let solved = match problem.solve() {
        Ok(solved) => solved,
        Err(microlp::Error::Infeasible) => return Found::Nothing,
        Err(_) => return Found::Failed,
    };
    let Ok(solution) = solved.into_solution() else { return Found::Failed };
    let values: Vec<f64> =
        variables.iter().map(|(up, down)| solution.var_value(*up) - solution.var_value(*down)).collect();
    if values.iter().any(|value| !value.is_finite()) {
        return Found::Failed;
    }
    let tight = rows.iter().zip(&sizes).map(|(row, size)| {
        let sum: f64 = row.slopes.iter().zip(&values).map(|(slope, value)| slope.to_f64() * value).sum();
        *size > f64::MIN_POSITIVE && ((sum + row.constant.to_f64()) / size).abs() < NEAR * 10.0
    });
    let tight = tight.collect();
    let fixed = values.iter().map(|value| value.abs() < NEAR || (value + 1.0).abs() < NEAR).collect();
    Found::Corner(Corner { changes: values.iter().map(|value| rounded(*value)).collect(), fixed, tight })
}

/// To twelve places; what is there is a few thousand at most.
fn rounded(value: f64) -> Number {
    let scaled = (value * 1e12).round();
    // Far inside the range of whole numbers of that width.
    Number::fraction(scaled as i128, 1_000_000_000_000).unwrap_or(Number::ZERO)
}
