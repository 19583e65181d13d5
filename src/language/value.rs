//! Amounts as they are understood: a written quantity with its dimension and its tolerance.

use crate::language::syntax::{Quantity, Term};
use crate::measure::number::{Number, Overflow};
use crate::measure::quantity::{Count, Duration, Length, Mass, Proportion, Volume};
use crate::measure::temperature::Temperature;
use crate::measure::unit::{Dimension, Measures, Unit};
use crate::text::diagnostic::Diagnostic;
use crate::text::source::Span;

/// An exact quantity of any dimension.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[allow(missing_docs)] // the variants are the dimensions
pub enum Value {
    Mass(Mass),
    Volume(Volume),
    Count(Count),
    Length(Length),
    Time(Duration),
    Temperature(Temperature),
    Proportion(Proportion),
}

impl Value {
    /// So many times this. A temperature does not grow with the batch.
    pub fn times(self, factor: Number) -> Result<Value, Overflow> {
        Ok(match self {
            Value::Mass(mass) => Value::Mass(mass.times(factor)?),
            Value::Volume(volume) => Value::Volume(volume.times(factor)?),
            Value::Count(count) => Value::Count(count.times(factor)?),
            Value::Length(length) => Value::Length(length.times(factor)?),
            Value::Time(time) => Value::Time(time.times(factor)?),
            Value::Proportion(share) => Value::Proportion(share.times(factor)?),
            Value::Temperature(temperature) => Value::Temperature(temperature),
        })
    }

    /// Both together; `None` where they measure different things, or degrees, which do not add up.
    ///
    /// # Errors
    /// When the sum leaves the range of exact numbers.
    pub fn plus(self, other: Value) -> Result<Option<Value>, Overflow> {
        Ok(match (self, other) {
            (Value::Mass(one), Value::Mass(other)) => Some(Value::Mass(one.plus(other)?)),
            (Value::Volume(one), Value::Volume(other)) => Some(Value::Volume(one.plus(other)?)),
            (Value::Count(one), Value::Count(other)) => Some(Value::Count(one.plus(other)?)),
            (Value::Length(one), Value::Length(other)) => Some(Value::Length(one.plus(other)?)),
            (Value::Time(one), Value::Time(other)) => Some(Value::Time(one.plus(other)?)),
            (Value::Proportion(one), Value::Proportion(other)) => Some(Value::Proportion(one.plus(other)?)),
            _ => None,
        })
    }

    /// The number in the dimension's own unit.
    pub fn number(self) -> Number {
        match self {
            Value::Mass(mass) => mass.value(),
            Value::Volume(volume) => volume.value(),
            Value::Count(count) => count.value(),
            Value::Length(length) => length.value(),
            Value::Time(time) => time.value(),
            Value::Temperature(temperature) => temperature.celsius(),
            Value::Proportion(share) => share.value(),
        }
    }

    /// What it measures.
    pub fn dimension(self) -> Dimension {
        match self {
            Value::Mass(_) => Dimension::Mass,
            Value::Volume(_) => Dimension::Volume,
            Value::Count(_) => Dimension::Count,
            Value::Length(_) => Dimension::Length,
            Value::Time(_) => Dimension::Time,
            Value::Temperature(_) => Dimension::Temperature,
            Value::Proportion(_) => Dimension::Proportion,
        }
    }
}

/// A quantity that was said: its value, how far its digits leave it open, and the unit it was said in.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct Said {
    /// The value; the lower end of a range.
    pub value: Value,
    /// The upper end, when a range was said.
    pub upper: Option<Value>,
    /// How far the value may be off by the rounding its digits imply, in the dimension's own unit.
    pub slack: Number,
    /// The unit of the first term; `None` for a bare number.
    pub unit: Option<Unit>,
    /// Whether all its digits are whole, so that it claims no rounding.
    pub whole: bool,
    /// Where.
    pub span: Span,
}

impl Said {
    /// The larger end of a range, or the value.
    pub fn most(&self) -> Value {
        self.upper.unwrap_or(self.value)
    }

    /// The mass, if it is one.
    pub fn mass(&self) -> Option<Mass> {
        if let Value::Mass(mass) = self.value { Some(mass) } else { None }
    }

    /// The share, if it is one.
    pub fn proportion(&self) -> Option<Proportion> {
        if let Value::Proportion(share) = self.value { Some(share) } else { None }
    }

    /// The temperature, if it is one.
    pub fn temperature(&self) -> Option<Temperature> {
        if let Value::Temperature(temperature) = self.value { Some(temperature) } else { None }
    }

    /// The time, if it is one: from and to.
    pub fn times(&self) -> Option<(Duration, Duration)> {
        match (self.value, self.most()) {
            (Value::Time(low), Value::Time(high)) => Some((low, high)),
            _ => None,
        }
    }
}

/// Understands a written quantity; `None` when it was reported.
pub fn evaluate(quantity: &Quantity, measures: Option<Measures>, diagnostics: &mut Vec<Diagnostic>) -> Option<Said> {
    let first = quantity.terms.first()?;
    let unit = first.unit.map(|unit| unit.value);
    let mut all_terms = quantity.terms.iter().chain(quantity.upper.iter().flatten());
    if let Some(unit) = all_terms.find_map(|term| sizeless(term, measures)) {
        diagnostics.push(which_cup(unit.1, unit.0, measures));
        return None;
    }
    let value = total(&quantity.terms, measures);
    let upper = quantity.upper.as_ref().map(|terms| total(terms, measures)).transpose();
    match (value, upper) {
        (Ok((value, slack)), Ok(upper)) => Some(Said {
            value,
            upper: upper.map(|(value, _)| value),
            slack,
            unit,
            whole: quantity.terms.iter().all(|term| term.number.value.is_whole()),
            span: quantity.span,
        }),
        _ => {
            diagnostics.push(too_large(quantity.span));
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
    if term.number.value.is_whole() && !small { Number::ZERO } else { term.number.slack }
}

fn temperature(terms: &[Term]) -> Result<(Value, Number), Overflow> {
    let [term] = terms else { return Err(Overflow) };
    let written = term.number.value;
    match term.unit.map(|unit| unit.value) {
        Some(Unit::Fahrenheit) => {
            let slack = dial_slack(written, Number::whole(200), Number::whole(25)).unwrap_or(term.number.slack);
            let slack = slack.over(Number::constant(9, 5))?;
            Ok((Value::Temperature(Temperature::from_fahrenheit(written)?), slack))
        }
        _ => {
            let slack = dial_slack(written, Number::whole(100), Number::whole(10)).unwrap_or(term.number.slack);
            Ok((Value::Temperature(Temperature::from_celsius(written)), slack))
        }
    }
}

/// Oven dials go by 25 °F and by 10 °C: a hot reading on such a mark stands for the whole mark.
fn dial_slack(written: Number, hot: Number, mark: Number) -> Option<Number> {
    if written < hot || !written.over(mark).ok()?.is_whole() {
        return None;
    }
    mark.over(Number::whole(2)).ok()
}
