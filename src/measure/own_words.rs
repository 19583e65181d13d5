//! What was said once or twice, in the reader's units: `230 C = 450 F` is 450 °F for who reads Fahrenheit, and not 446.

use super::show::{self, Units};
use super::shown::Shown;
use super::spoons;
use super::temperature::Dial;
use super::unit::{Measures, Unit};
use super::value::{Said, Value};

/// What was said in the reader's units, in the author's words. Where the author said it twice, each reader gets the author's own words; spoons and
/// cups stay what they are.
pub fn in_own_words(said: &[Said], units: Units) -> Shown {
    in_own_words_on(said, units, Dial::Oven)
}

/// The same, where a temperature is read on this dial.
pub fn in_own_words_on(said: &[Said], units: Units, dial: Dial) -> Shown {
    match units {
        Units::Metric => in_system(said, false, dial),
        Units::Us => in_system(said, true, dial),
        Units::Both => {
            let (metric, us) = (in_system(said, false, dial), in_system(said, true, dial));
            if metric == us { metric } else { metric.also(us) }
        }
    }
}

/// Whether it is said in cups, spoons or pints that are not those of the United States: who reads US units has others.
pub fn is_of_elsewhere(said: &Said) -> bool {
    let unit = said.unit.filter(|unit| unit.is_kitchen_measure());
    unit.is_some_and(|unit| said.size.is_some() && unit.size(Some(Measures::Us)) != said.size)
}

/// An amount in the cups, litres or pieces that it was said in, at another size; for who reads US units litres, pints of elsewhere, and what
/// no cup or spoon shows, are cups, spoons and quarts.
pub fn at_size(said: Option<&Said>, amount: Value, units: Units) -> Shown {
    let in_cups = || match amount {
        Value::Volume(volume) if units == Units::Us || (units == Units::Both && said.is_some_and(is_of_elsewhere)) => {
            spoons::customary(volume)
        }
        _ => None,
    };
    // No cup shows 3.95 of it.
    let is_measurable = |shown: &Shown| units != Units::Us || shown.terms.iter().all(|term| !term.digits.contains('.'));
    // A pint of elsewhere is none to who reads US units.
    let is_own = |said: &&Said| units == Units::Metric || !is_of_elsewhere(said);
    let own = said.filter(is_own).and_then(|said| spoons::at_size(said, amount)).filter(is_measurable);
    own.or_else(in_cups).unwrap_or_else(|| show::value_plain(amount))
}

fn in_system(said: &[Said], us: bool, dial: Dial) -> Shown {
    let is_own = |one: &&Said| one.unit.and_then(Unit::is_us) == Some(us) && !(us && is_of_elsewhere(one));
    match (said.iter().find(is_own), said.first()) {
        (Some(own), _) if us || said.len() > 1 => show::said(own),
        (_, Some(first)) => converted(first, if us { Units::Us } else { Units::Metric }, dial),
        (_, None) => Shown::default(),
    }
}

/// In a system in which it was not said.
fn converted(said: &Said, units: Units, dial: Dial) -> Shown {
    let one = |value: Value| match value {
        Value::Mass(mass) => show::mass(mass, units),
        Value::Temperature(temperature) => show::temperature_on(temperature, units, dial),
        Value::Length(length) => show::length(length, units),
        Value::Time(time) => show::duration(time),
        Value::Volume(volume) if units == Units::Us => {
            let is_own = !is_of_elsewhere(said);
            let measure = spoons::kitchen_measure(volume).filter(|_| is_own).or_else(|| spoons::customary(volume));
            measure.unwrap_or_else(|| show::said_plain(said))
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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::measure::number::Number;
    use crate::measure::temperature::Temperature;
    use crate::text::source::{SourceId, Span};

    fn said(degrees: i64, unit: Unit) -> Said {
        let number = Number::whole(degrees);
        let at = match unit {
            Unit::Fahrenheit => Temperature::from_fahrenheit(number).expect("small"),
            _ => Temperature::from_celsius(number),
        };
        Said {
            value: Value::Temperature(at),
            upper: None,
            slack: Number::ZERO,
            unit: Some(unit),
            size: None,
            whole: true,
            span: Span::new(SourceId(0), 0, 0),
        }
    }

    #[test]
    fn each_reader_gets_the_half_that_was_written_for_them() {
        let both = [said(25, Unit::Celsius), said(78, Unit::Fahrenheit)];
        assert_eq!(in_own_words(&both, Units::Metric).to_string(), "25 °C");
        assert_eq!(in_own_words(&both, Units::Us).to_string(), "78 °F");
        assert_eq!(in_own_words(&both, Units::Both).to_string(), "25 °C (78 °F)");
        assert_eq!(in_own_words(&both[..1], Units::Us).to_string(), "77 °F");
        assert_eq!(in_own_words(&[], Units::Us).to_string(), "");
    }
}
