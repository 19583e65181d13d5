//! The words of a step or a note as they are printed.

use crate::language::prose::{Insert, Prose};
use crate::measure::show::{self, Units};
use crate::measure::shown::Shown;
use crate::measure::value::{Said, Value};
use crate::model::step::Words;

/// Prose in which nothing is taken.
pub fn mere_prose(words: &[Words], units: Units) -> Prose {
    let mut prose = Prose::default();
    for word in words {
        match word {
            Words::Text(text) => prose.push_text(text),
            Words::Measure(said) => prose.push_insert(Insert::Measure(measure(said, units))),
            Words::Use { name, .. } => prose.push_text(&name.text),
        }
    }
    prose
}

/// A fixed measure in the reader's units; the author's second way to say it serves the readers it was written for.
pub fn measure(said: &[Said], units: Units) -> Shown {
    let Some(first) = said.first() else { return Shown::default() };
    let one = |value: Value| match value {
        Value::Mass(mass) => show::mass(mass, units),
        Value::Temperature(temperature) => show::temperature(temperature, units),
        Value::Length(length) => show::length(length, units),
        Value::Time(time) => show::duration(time),
        Value::Volume(_) => show::said_plain(first),
        other => show::value_plain(other),
    };
    match (first.value, first.upper) {
        (Value::Time(low), Some(Value::Time(high))) => show::duration_range(low, high),
        (Value::Temperature(low), Some(Value::Temperature(high))) => show::temperature_range(low, Some(high), units),
        (low, Some(high)) => one(low).to(one(high)),
        (value, None) => one(value),
    }
}
