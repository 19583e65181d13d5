//! The words of a step or a note as they are printed.

use crate::language::prose::{Insert, Prose};
use crate::measure::quantity::Mass;
use crate::measure::show::{self, Units};
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
pub fn measure(said: &[Said], units: Units) -> String {
    let Some(first) = said.first() else { return String::new() };
    let one = |value: Value| match value {
        Value::Mass(mass) => mass_measure(mass, units),
        Value::Temperature(temperature) => show::temperature(temperature, units),
        Value::Length(length) => show::length(length, units),
        Value::Time(time) => show::duration(time),
        Value::Volume(_) => show::said_plain(first),
        other => show::value_plain(other),
    };
    match (first.value, first.upper) {
        (Value::Time(low), Some(Value::Time(high))) => show::duration_range(low, high),
        (Value::Temperature(low), Some(Value::Temperature(high))) => show::temperature_range(low, Some(high), units),
        (low, Some(high)) => format!("{} – {}", one(low), one(high)),
        (value, None) => one(value),
    }
}

fn mass_measure(mass: Mass, units: Units) -> String {
    match units {
        Units::Metric => show::mass_plain(mass),
        Units::Us => show::mass_us(mass),
        Units::Both => format!("{} ({})", show::mass_plain(mass), show::mass_us(mass)),
    }
}
