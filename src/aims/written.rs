//! New amounts as changes of the text: only the digits of the lines that change, in the units in which they are written; an amount
//! that is said twice is changed in both.

use super::change::{Line, Way};
use crate::language::syntax::{Amount, Content, Quantity, Term, Tree};
use crate::measure::number::{Number, Overflow};
use crate::measure::quantity::Mass;
use crate::measure::unit::Unit;
use crate::measure::value::{Said, Value};
use crate::text::diagnostic::Edit;

/// The changes of a text that make each line so many times what it says. `before` and `now` hold the old and the new amounts: where
/// the base changed, another line's share that stands beside its weight is another too.
///
/// # Errors
/// When a number leaves the range of exact numbers.
pub fn edits(
    tree: &Tree,
    lines: &[Line],
    times: &[Number],
    before: &[Way],
    now: &[Way],
) -> Result<Vec<Edit>, Overflow> {
    let mut edits = Vec::new();
    for (line, times) in lines.iter().zip(times).filter(|(line, times)| **times != Number::ONE || line.said.len() > 1) {
        let Some(node) = tree.line_at(line.span.start) else { continue };
        let Content::Ingredient(written) = &node.content else { continue };
        let Amount::Chain(chain) = &written.amount else { continue };
        for (number, (quantity, said)) in chain.iter().zip(&line.said).enumerate() {
            let is_first = number == 0;
            let (old, new) = if is_first {
                (said.value.number(), said.value.number().times(*times)?)
            } else {
                (other_half(line, said, Number::ONE, before)?, other_half(line, said, *times, now)?)
            };
            if old != new {
                one(quantity, said, new, is_first, &mut edits)?;
            }
        }
    }
    Ok(edits)
}

/// What another way to say the amount comes to: a weight or a share as it is worked out now, anything else in proportion.
fn other_half(line: &Line, said: &Said, times: Number, ways: &[Way]) -> Result<Number, Overflow> {
    let solved = line.places.first().and_then(|(way, part, at)| {
        let way = ways.get(*way)?;
        let pieces =
            way.recipe.part(*part).filter(|one| one.per_piece).and_then(|one| way.formula.pieces_for(one, *part));
        Some((way.formula.part(*part)?.lines.get(*at)?, pieces))
    });
    match (said.value, solved) {
        (Value::Mass(_), Some((solved, pieces))) => {
            let mass = solved.mass.unwrap_or(Mass::ZERO).value();
            pieces.map_or(Ok(mass), |pieces| mass.over(pieces.value()))
        }
        (Value::Proportion(_), Some((solved, _))) => match solved.percent {
            Some(share) => Ok(share.value()),
            None => said.value.number().times(times),
        },
        _ => said.value.number().times(times),
    }
}

/// Puts new digits into one quantity. The first says the amount and stands exactly; the others are rounded to what their digits
/// claim.
fn one(quantity: &Quantity, said: &Said, value: Number, is_first: bool, edits: &mut Vec<Edit>) -> Result<(), Overflow> {
    let mut put = |term: &Term, number: Number, by_parts: bool| {
        let text = if by_parts { fraction(number) } else { number.decimal(9) };
        edits.push(Edit { span: term.number.span, text });
    };
    match quantity.terms.as_slice() {
        [term] => {
            let size = said.size.unwrap_or(Number::ONE);
            let number = value.over(size)?;
            let by_parts = said.value.goes_by_parts(term.unit.map(|unit| unit.value));
            let number = if is_first { number } else { number.rounded_to(claimed(term, by_parts))? };
            put(term, number, by_parts);
        }
        terms => {
            // Of `1 lb 4 oz` all but the last stay whole.
            let mut left = value;
            for (at, term) in terms.iter().enumerate() {
                let Some(size) = term.unit.and_then(|unit| unit.value.size(None)) else { return Ok(()) };
                let number = left.over(size)?;
                let is_last = at + 1 == terms.len();
                let number = match (is_last, is_first) {
                    (false, _) => number.floor(),
                    (true, true) => number,
                    (true, false) => number.rounded_to(claimed(term, false))?,
                };
                left = left.minus(number.times(size)?)?;
                put(term, number, false);
            }
        }
    }
    Ok(())
}

/// The step that a number's digits claim; of a whole number a tenth where a whole one would say too little.
fn claimed(term: &Term, by_parts: bool) -> Number {
    if by_parts {
        return Number::constant(1, 8);
    }
    let unit = term.unit.map(|unit| unit.value);
    let whole = if term.number.value.is_whole() {
        match unit {
            Some(Unit::Kilogram | Unit::Litre) => Number::constant(1, 1000),
            Some(Unit::Ounce | Unit::Pound | Unit::FluidOunce | Unit::Pint | Unit::Quart | Unit::Gallon) => {
                Number::constant(1, 100)
            }
            Some(Unit::Percent) => Number::constant(1, 10),
            _ => Number::ONE,
        }
    } else {
        Number::constant(1, 100)
    };
    let written = term.number.slack().times(Number::whole(2)).ok().filter(|step| step.is_positive());
    written.map_or(whole, |written| written.min(whole))
}

/// `1 3/8`; with decimals where the parts are smaller than sixteenths.
fn fraction(number: Number) -> String {
    let whole = number.floor();
    let (above, below) = number.minus(whole).unwrap_or(Number::ZERO).parts();
    if above == 0 {
        return whole.decimal(0);
    }
    if below > 16 {
        return number.decimal(9);
    }
    if whole.is_zero() { format!("{above}/{below}") } else { format!("{} {above}/{below}", whole.decimal(0)) }
}
