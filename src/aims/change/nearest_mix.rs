//! A mix that is as near as can be to something in what it consists of: the sum of what it has too much or too little of is the
//! least.

use super::exact;
use super::program::{Found, Prices, least};
use super::row::Row;
use crate::measure::number::{Number, Overflow};

/// The grams of each of some things that together come nearest to a gram of what is wanted. Each is given by what a gram of it
/// holds, in the order of `wanted`.
///
/// # Errors
/// When a number leaves the range of exact numbers.
pub(crate) fn nearest_mix(wanted: &[Number], given: &[Vec<Number>]) -> Result<Vec<Number>, Overflow> {
    // One variable for each thing, then one for how far each figure is off.
    let count = given.len() + wanted.len();
    let mut rows = Vec::with_capacity(given.len() + 2 * wanted.len());
    let blank = || vec![Number::ZERO; count];
    let put = |slopes: &mut Vec<Number>, at: usize, value: Number| {
        if let Some(slot) = slopes.get_mut(at) {
            *slot = value;
        }
    };
    for number in 0..given.len() {
        let mut slopes = blank();
        put(&mut slopes, number, Number::ONE);
        rows.push(Row { slopes, constant: Number::ZERO, is_equal: false, goal: 0 });
    }
    for (figure, wanted) in wanted.iter().enumerate() {
        for sign in [Number::ONE, Number::whole(-1)] {
            // How far it is off is at least what is too much, and what is too little.
            let mut slopes = blank();
            for (number, held) in given.iter().enumerate() {
                put(&mut slopes, number, held.get(figure).copied().unwrap_or(Number::ZERO).times(sign)?);
            }
            put(&mut slopes, given.len() + figure, Number::ONE);
            let constant = Number::ZERO.minus(wanted.times(sign)?)?;
            rows.push(Row { slopes, constant, is_equal: false, goal: 0 });
        }
    }
    let mut up = Vec::with_capacity(count);
    for number in 0..given.len() {
        // Of equal mixes the lighter, and of those the one that has more of what was named first.
        up.push(Number::constant(1, 1_000_000).times(Number::whole(i64::try_from(number).unwrap_or(0) + 1))?);
    }
    up.extend(wanted.iter().map(|_| Number::ONE));
    let prices = Prices { down: vec![Number::whole(10); count], up, most: Number::whole(1000) };
    let rows: Vec<&Row> = rows.iter().collect();
    let Found::Corner(corner) = least(&rows, &prices) else { return Ok(vec![Number::ZERO; given.len()]) };
    let mut exact = exact::changes(&corner, &rows);
    exact.truncate(given.len());
    Ok(exact.into_iter().map(|share| if share.is_negative() { Number::ZERO } else { share }).collect())
}
