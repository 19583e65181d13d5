//! From a written quantity to the value that it stands for.

use crate::language::syntax::{Quantity, Term, WrittenNumber};
use crate::measure::number::{Number, Overflow};
use crate::measure::quantity::{Count, Density, Duration, Length, Mass, Proportion, Volume};
use crate::measure::temperature::Temperature;
use crate::measure::unit::{Dimension, Measures, Unit};
use crate::measure::value::{Said, Value};
use crate::text::diagnostic::Diagnostic;
use crate::text::source::{Span, Spanned};

/// Understands a written quantity; `None` when it was reported.
pub fn evaluate(quantity: &Quantity, measures: Option<Measures>, diagnostics: &mut Vec<Diagnostic>) -> Option<Said> {
    let first = quantity.terms.first()?;
    let unit = first.unit.map(|unit| unit.value);
    let value = value_of(&quantity.terms, measures);
    let slack = slack_of(&quantity.terms, measures);
    let upper = quantity.upper.as_ref().map(|terms| value_of(terms, measures)).transpose();
    let (Ok(value), Ok(slack), Ok(upper)) = (value, slack, upper) else {
        diagnostics.push(without_value(quantity, measures));
        return None;
    };
    Some(Said {
        value,
        upper,
        slack,
        unit,
        size: unit.and_then(|unit| unit.size(measures)),
        whole: quantity.terms.iter().all(|term| term.number.value.is_whole()),
        span: quantity.span,
    })
}

/// The problem of a quantity that has no value: a unit of no size here, or sums that are too large.
fn without_value(quantity: &Quantity, measures: Option<Measures>) -> Diagnostic {
    let mut all_terms = quantity.terms.iter().chain(quantity.upper.iter().flatten());
    match all_terms.find_map(|term| sizeless(term, measures)) {
        Some((unit, span)) => which_cup(span, unit, measures),
        None => too_large(quantity.span),
    }
}

/// A weight of more than nothing; `None` when it was reported.
pub fn mass(quantity: &Quantity, diagnostics: &mut Vec<Diagnostic>) -> Option<Mass> {
    let mass = evaluate(quantity, None, diagnostics)?.mass()?;
    if mass > Mass::ZERO {
        return Some(mass);
    }
    diagnostics.push(Diagnostic::error("impossible-number", quantity.span, "it cannot weigh nothing"));
    None
}

/// How heavy a volume is: a weight `per` so many of a unit; `None` when it was reported.
pub fn density(
    weight: &Quantity,
    number: Option<WrittenNumber>,
    unit: Spanned<Unit>,
    measures: Option<Spanned<Measures>>,
    diagnostics: &mut Vec<Diagnostic>,
) -> Option<Density> {
    let mass = mass(weight, diagnostics)?;
    let size = unit.value.size(measures.map(|measures| measures.value))?;
    let count = number.map_or(Number::ONE, |number| number.value);
    match size.times(count).and_then(|volume| Density::of(mass, Volume::new(volume))) {
        Ok(density) => Some(density),
        Err(_) => {
            diagnostics.push(too_large(weight.span.to(unit.span)));
            None
        }
    }
}

/// The unit of a term whose size is not known here.
fn sizeless(term: &Term, measures: Option<Measures>) -> Option<(Unit, Span)> {
    let unit = term.unit?;
    let known = unit.value.dimension() == Dimension::Temperature || unit.value.size(measures).is_some();
    (!known).then_some((unit.value, unit.span))
}

fn which_cup(span: Span, unit: Unit, measures: Option<Measures>) -> Diagnostic {
    let word = unit.word(true);
    match measures {
        None => Diagnostic::error("which-cup", span, format!("a `{word}` differs between countries"))
            .help("say which in the head of the recipe: `measures US`, `measures metric` or `measures imperial`"),
        Some(measures) => Diagnostic::error("which-cup", span, format!("there is no {} `{word}`", measures.word()))
            .help("use `ml` or `l`, or change the `measures` line"),
    }
}

/// The problem of a sum that left the range of exact numbers.
pub fn too_large(span: Span) -> Diagnostic {
    Diagnostic::error("impossible-number", span, "the sums with this amount leave the range of exact numbers")
        .help("use an amount of ordinary size and with fewer digits")
}

/// What a written quantity comes to, its first end where it is a range, for what asks neither how far its digits leave it open nor whose
/// cups are meant; `None` where it has no value.
pub fn value(quantity: &Quantity) -> Option<Value> {
    value_of(&quantity.terms, None).ok()
}

/// The same of a time, from and to.
pub fn times(quantity: &Quantity) -> Option<(Duration, Duration)> {
    let low = value(quantity)?;
    let high = quantity.upper.as_ref().map_or(Ok(low), |terms| value_of(terms, None));
    match (low, high) {
        (Value::Time(low), Ok(Value::Time(high))) => Some((low, high)),
        _ => None,
    }
}

/// What terms measure; a number without a unit counts pieces.
fn dimension(terms: &[Term]) -> Dimension {
    terms.first().and_then(|term| term.unit).map_or(Dimension::Count, |unit| unit.value.dimension())
}

/// The unit of a term, and its size.
fn sized(term: &Term, measures: Option<Measures>) -> Result<(Unit, Number), Overflow> {
    let unit = term.unit.map_or(Unit::Piece, |unit| unit.value);
    Ok((unit, unit.size(measures).ok_or(Overflow)?))
}

/// The value of terms that add up.
fn value_of(terms: &[Term], measures: Option<Measures>) -> Result<Value, Overflow> {
    let dimension = dimension(terms);
    if dimension == Dimension::Temperature {
        return temperature(terms);
    }
    let value = terms.iter().try_fold(Number::ZERO, |value, term| {
        let (_, size) = sized(term, measures)?;
        value.plus(term.number.value.times(size)?)
    })?;
    Ok(match dimension {
        Dimension::Mass => Value::Mass(Mass::new(value)),
        Dimension::Volume => Value::Volume(Volume::new(value)),
        Dimension::Count => Value::Count(Count::new(value)),
        Dimension::Length => Value::Length(Length::new(value)),
        Dimension::Time => Value::Time(Duration::new(value)),
        Dimension::Proportion | Dimension::Temperature => Value::Proportion(Proportion::new(value)),
    })
}

/// How far the digits of terms that add up leave their value open.
fn slack_of(terms: &[Term], measures: Option<Measures>) -> Result<Number, Overflow> {
    if dimension(terms) == Dimension::Temperature {
        return slack_of_degrees(terms);
    }
    terms.iter().try_fold(Number::ZERO, |slack, term| {
        let (unit, size) = sized(term, measures)?;
        slack.plus(slack_in(term, unit).times(size)?)
    })
}

/// A whole number of a small metric unit was rounded to the whole; of a larger unit (`2 lb`, `1 kg`) it is meant exactly.
fn slack_in(term: &Term, unit: Unit) -> Number {
    let small = matches!(unit, Unit::Gram | Unit::Millilitre | Unit::Millimetre | Unit::Percent | Unit::Milligram);
    if term.number.value.is_whole() && !small { Number::ZERO } else { term.number.slack() }
}

fn temperature(terms: &[Term]) -> Result<Value, Overflow> {
    let [term] = terms else { return Err(Overflow) };
    let written = term.number.value;
    Ok(Value::Temperature(match term.unit.map(|unit| unit.value) {
        Some(Unit::Fahrenheit) => Temperature::from_fahrenheit(written)?,
        _ => Temperature::from_celsius(written),
    }))
}

fn slack_of_degrees(terms: &[Term]) -> Result<Number, Overflow> {
    let [term] = terms else { return Err(Overflow) };
    let slack = |hot, mark| dial_slack(term.number.value, hot, mark).unwrap_or_else(|| term.number.slack());
    match term.unit.map(|unit| unit.value) {
        Some(Unit::Fahrenheit) => slack(200, 25).over(Number::constant(9, 5)),
        _ => Ok(slack(100, 10)),
    }
}

/// Oven dials go by 25 °F and by 10 °C: a hot reading on such a mark stands for the whole mark.
fn dial_slack(written: Number, hot: i64, mark: i64) -> Option<Number> {
    let is_marked = written.to_whole().is_some_and(|written| written >= hot && written % mark == 0);
    if is_marked { Number::fraction(mark.into(), 2) } else { None }
}

/// How long a time is, its longer end.
pub fn longest(quantity: &Quantity, diagnostics: &mut Vec<Diagnostic>) -> Option<Duration> {
    evaluate(quantity, None, diagnostics)?.times().map(|(_, most)| most)
}
