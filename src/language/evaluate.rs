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
    let value = total(&quantity.terms, measures);
    let upper = quantity.upper.as_ref().map(|terms| total(terms, measures)).transpose();
    let (Ok((value, slack)), Ok(upper)) = (value, upper) else {
        diagnostics.push(without_value(quantity, measures));
        return None;
    };
    Some(Said {
        value,
        upper: upper.map(|(value, _)| value),
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

/// The value of terms that add up, and its slack.
fn total(terms: &[Term], measures: Option<Measures>) -> Result<(Value, Number), Overflow> {
    let dimension = terms.first().and_then(|term| term.unit).map_or(Dimension::Count, |unit| unit.value.dimension());
    if dimension == Dimension::Temperature {
        return temperature(terms);
    }
    let mut value = Number::ZERO;
    let mut slack = Number::ZERO;
    for term in terms {
        let unit = term.unit.map_or(Unit::Piece, |unit| unit.value);
        let size = unit.size(measures).ok_or(Overflow)?;
        value = value.plus(term.number.value.times(size)?)?;
        slack = slack.plus(slack_of(term, unit).times(size)?)?;
    }
    let value = match dimension {
        Dimension::Mass => Value::Mass(Mass::new(value)),
        Dimension::Volume => Value::Volume(Volume::new(value)),
        Dimension::Count => Value::Count(Count::new(value)),
        Dimension::Length => Value::Length(Length::new(value)),
        Dimension::Time => Value::Time(Duration::new(value)),
        Dimension::Proportion | Dimension::Temperature => Value::Proportion(Proportion::new(value)),
    };
    Ok((value, slack))
}

/// A whole number of a small metric unit was rounded to the whole; of a larger unit (`2 lb`, `1 kg`) it is meant exactly.
fn slack_of(term: &Term, unit: Unit) -> Number {
    let small = matches!(unit, Unit::Gram | Unit::Millilitre | Unit::Millimetre | Unit::Percent | Unit::Milligram);
    if term.number.value.is_whole() && !small { Number::ZERO } else { term.number.slack() }
}

fn temperature(terms: &[Term]) -> Result<(Value, Number), Overflow> {
    let [term] = terms else { return Err(Overflow) };
    let written = term.number.value;
    match term.unit.map(|unit| unit.value) {
        Some(Unit::Fahrenheit) => {
            let slack = dial_slack(written, 200, 25).unwrap_or_else(|| term.number.slack());
            let slack = slack.over(Number::constant(9, 5))?;
            Ok((Value::Temperature(Temperature::from_fahrenheit(written)?), slack))
        }
        _ => {
            let slack = dial_slack(written, 100, 10).unwrap_or_else(|| term.number.slack());
            Ok((Value::Temperature(Temperature::from_celsius(written)), slack))
        }
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
