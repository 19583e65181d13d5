//! Unit conversions against an outside library: every row of `tests/data/units-pint.csv`, which that library made (the head
//! of the table names it and its version, and `tests/scripts/units_reference.py` makes it again).
//!
//! Each amount is written into a recipe, read and understood as any other, and turned into the other unit by exact
//! division. The digits are then taken out of the fraction by long division, so that nothing here rounds but the table.

// Helpers outside a test function fail a test by panicking, as the tests do.
#![allow(clippy::expect_used, clippy::panic)]

use miche::language::evaluate::evaluate;
use miche::language::parse::parse;
use miche::language::syntax::{Content, Piece, Quantity};
use miche::measure::number::Number;
use miche::measure::temperature::TemperatureDifference;
use miche::measure::unit::{Measures, Unit};
use miche::measure::value::Value;
use miche::text::source::SourceId;
use std::collections::BTreeSet;

/// The table has so many significant digits where a conversion does not end earlier.
const DIGITS: usize = 24;

const TABLE: &str = include_str!("data/units-pint.csv");

#[test]
fn every_recorded_conversion_is_ours() {
    let mut faults = Vec::new();
    let mut rows = 0;
    let mut units = BTreeSet::new();
    for line in TABLE.lines().filter(|line| !line.starts_with('#')).skip(1) {
        let cells: Vec<&str> = line.split(',').collect();
        let [from_value, from, to, system, to_value] = cells.as_slice() else { panic!("{line}: not five cells") };
        let measures = Measures::from_word(system);
        assert_eq!(measures.is_none(), *system == "any", "{line}: unknown system");
        let ours = convert(from_value, from, to, measures).unwrap_or_else(|| panic!("{line}: not converted"));
        if significant(ours) != printed(to_value) {
            faults.push(format!("{line}: ours is {ours:?}"));
        }
        units.insert((*from, *system));
        units.insert((*to, *system));
        rows += 1;
    }
    assert!(faults.is_empty(), "{} of {rows} rows:\n{}", faults.len(), faults.join("\n"));
    assert!(rows > 5000, "the table holds {rows} rows");
    // 5 masses, 4 volumes, 4 lengths, 5 times and 2 temperatures that are the same everywhere; 7 US and 7 imperial measures
    // and 3 metric ones, each against the 4 volumes.
    assert_eq!(units.len(), 20 + 11 + 11 + 7, "some unit is missing: {units:?}");
}

/// The amount in the other unit.
fn convert(value: &str, from: &str, to: &str, measures: Option<Measures>) -> Option<Number> {
    let said = evaluate(&quantity(value, from), measures, &mut Vec::new())?;
    let to = Unit::from_word(to)?;
    match (said.value, to) {
        (Value::Temperature(temperature), Unit::Celsius) => Some(temperature.celsius()),
        (Value::Temperature(temperature), Unit::Fahrenheit) => temperature.fahrenheit().ok(),
        (value, to) if value.dimension() == to.dimension() => value.number().over(to.size(measures)?).ok(),
        _ => None,
    }
}

/// The amount as the language reads it.
fn quantity(value: &str, unit: &str) -> Quantity {
    let text = format!("recipe Rolls\nmix: hands 1 min\n    {{{value} {unit}}}\n");
    let (tree, problems) = parse(SourceId(0), &text);
    assert!(problems.is_empty(), "{text}: {problems:?}");
    let Some(Content::Prose(pieces)) = tree.lines.last().map(|line| &line.content) else { panic!("{text}") };
    match pieces.as_slice() {
        [Piece::Measure(chain)] if chain.len() == 1 => chain.first().expect("one").clone(),
        _ => panic!("{text}: not read as a measure"),
    }
}

/// A decimal figure: below nothing or not, its digits without zeros at either end, and the power of ten of the first one.
#[derive(Debug, PartialEq, Eq)]
struct Figure {
    negative: bool,
    digits: String,
    power: i32,
}

/// The first digits of a fraction by long division, the last rounded half up.
fn significant(number: Number) -> Figure {
    let (above, below) = number.parts();
    let (negative, mut rest, below) = (above < 0, above.unsigned_abs(), below.unsigned_abs());
    if rest == 0 {
        return Figure { negative: false, digits: String::new(), power: 0 };
    }
    let mut power = 0;
    let mut scale = below;
    while rest / 10 >= scale {
        scale = scale.checked_mul(10).expect("the table holds kitchen amounts");
        power += 1;
    }
    while rest < scale {
        rest = rest.checked_mul(10).expect("the table holds kitchen amounts");
        power -= 1;
    }
    let mut digits: Vec<u8> = Vec::new();
    for _ in 0..DIGITS {
        digits.push(u8::try_from(rest / scale).expect("one digit"));
        rest = (rest % scale).checked_mul(10).expect("the table holds kitchen amounts");
    }
    if rest / scale >= 5 {
        let mut at = DIGITS;
        loop {
            if at == 0 {
                digits.insert(0, 1);
                power += 1;
                break;
            }
            at -= 1;
            let digit = digits.get_mut(at).expect("inside");
            if *digit < 9 {
                *digit += 1;
                break;
            }
            *digit = 0;
        }
    }
    let digits: String = digits.iter().map(|digit| char::from(b'0' + digit)).collect();
    Figure { negative, digits: digits.trim_end_matches('0').to_owned(), power }
}

/// A figure of the table.
fn printed(text: &str) -> Figure {
    let (negative, text) = text.strip_prefix('-').map_or((false, text), |rest| (true, rest));
    let (whole, fraction) = text.split_once('.').unwrap_or((text, ""));
    let all = format!("{whole}{fraction}");
    let zeros = all.len() - all.trim_start_matches('0').len();
    let digits = all.trim_matches('0').to_owned();
    if digits.is_empty() {
        return Figure { negative: false, digits, power: 0 };
    }
    let power = i32::try_from(whole.len()).expect("short") - 1 - i32::try_from(zeros).expect("short");
    Figure { negative, digits, power }
}

/// The comparison itself can fail: one digit off is found, in either direction.
#[test]
fn figures_differ_where_a_digit_does() {
    let third = Number::fraction(1, 3).expect("a third");
    assert_eq!(significant(third), printed("0.333333333333333333333333"));
    assert_ne!(significant(third), printed("0.333333333333333333333334"));
    let thirds = Number::fraction(-200, 3).expect("a fraction");
    assert_eq!(significant(thirds), printed("-66.6666666666666666666667"));
    assert_ne!(significant(thirds), printed("66.6666666666666666666667"));
    assert_eq!(significant(Number::whole(1200)), printed("1200"));
    assert_ne!(significant(Number::whole(1200)), printed("120"));
    assert_ne!(significant(Number::fraction(1, 20).expect("a twentieth")), printed("0.5"));
    assert_eq!(significant(Number::ZERO), printed("0"));
    let below_one = Number::fraction(10_i128.pow(25) - 1, 10_i128.pow(25)).expect("nearly one");
    assert_eq!(significant(below_one), printed("1"));
}

/// A difference of temperatures has no offset: 9 °F of friction are 5 °C.
#[test]
fn differences_of_temperature_scale_only() {
    let friction = TemperatureDifference::from_fahrenheit(Number::whole(9)).expect("small");
    assert_eq!(friction.celsius(), Number::whole(5));
    assert_eq!(friction.fahrenheit(), Ok(Number::whole(9)));
}
