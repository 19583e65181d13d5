//! The words of a step or a note as they are printed.

use crate::language::prose::{Insert, Prose};
use crate::measure::show::{self, Units};
use crate::measure::shown::Shown;
use crate::measure::unit::Unit;
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

/// A fixed measure in the reader's units. Where the author said it twice, each reader gets the author's own words; spoons and
/// cups stay what they are.
pub fn measure(said: &[Said], units: Units) -> Shown {
    match units {
        Units::Metric => in_system(said, false),
        Units::Us => in_system(said, true),
        Units::Both => {
            let (metric, us) = (in_system(said, false), in_system(said, true));
            if metric == us { metric } else { metric.also(us) }
        }
    }
}

fn in_system(said: &[Said], us: bool) -> Shown {
    let is_own = |one: &&Said| one.unit.and_then(Unit::is_us) == Some(us);
    match (said.iter().find(is_own), said.first()) {
        (Some(own), _) if us || said.len() > 1 => show::said(own),
        (_, Some(first)) => converted(first, if us { Units::Us } else { Units::Metric }),
        (_, None) => Shown::default(),
    }
}

/// In a system in which it was not said.
fn converted(said: &Said, units: Units) -> Shown {
    let one = |value: Value| match value {
        Value::Mass(mass) => show::mass(mass, units),
        Value::Temperature(temperature) => show::temperature(temperature, units),
        Value::Length(length) => show::length(length, units),
        Value::Time(time) => show::duration(time),
        Value::Volume(volume) if units == Units::Us => {
            crate::measure::spoons::kitchen_measure(volume).unwrap_or_else(|| show::said_plain(said))
        }
        Value::Volume(_) => show::said_plain(&Said { value, ..*said }),
        other => show::value_plain(other),
    };
    match (said.value, said.upper) {
        (Value::Time(low), Some(Value::Time(high))) => show::duration_range(low, high),
        (low, Some(high)) => one(low).to(one(high)),
        (value, None) => one(value),
    }
}
