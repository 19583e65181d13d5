//! Spoons and cups that nobody has: what `odd-amount` looks for in amounts that are told in them alone.

use crate::measure::number::Number;
use crate::measure::unit::Unit;
use crate::measure::value::Said;
use crate::model::recipe::{Part, Refers};
use crate::text::diagnostic::Diagnostic;

/// From so many on a spoon is not counted: eight teaspoons are nearly three tablespoons, and sixteen tablespoons a cup. Butter is printed by
/// the tablespoon up to a pound of it. Common practice, no source.
const MOST: &[(Unit, i64, &str)] = &[(Unit::Teaspoon, 9, "tablespoons"), (Unit::Tablespoon, 19, "cups, or by weight")];

/// Amounts in tenths of a spoon or a cup, which come by halves, thirds, quarters and eighths, and spoons by the dozen.
pub(super) fn problems<'p>(part: &'p Part, check: &'static str) -> impl Iterator<Item = Diagnostic> + 'p {
    let own = part.lines.iter().filter(|line| matches!(line.refers, Refers::Pantry(_)));
    own.filter_map(move |line| {
        // What is told by weight too was reckoned, not measured.
        let [said] = line.said() else { return None };
        let unit = said.unit.filter(|unit| matches!(unit, Unit::Teaspoon | Unit::Tablespoon | Unit::Cup))?;
        let number = in_unit(said)?;
        let word = unit.word(true);
        let message = if said.slack.is_positive() && !said.whole && !is_a_measure(number) {
            format!(
                "no spoon or cup measures {} {word}: they come by halves, thirds, quarters and eighths",
                number.decimal(2)
            )
        } else {
            let (_, _, larger) = MOST.iter().find(|(of, most, _)| *of == unit && number > Number::whole(*most))?;
            format!("nobody counts {} {word}: so much is told in {larger}", number.decimal(2))
        };
        let help = "look whether a point has slipped; what is so small or so large is safer by weight";
        Some(Diagnostic::advice(check, line.amount_span, message).help(help))
    })
}

/// How many of its unit were said.
fn in_unit(said: &Said) -> Option<Number> {
    let value = match said.value {
        crate::measure::value::Value::Volume(volume) => volume.value(),
        _ => return None,
    };
    value.over(said.size?).ok()
}

/// Whether a number is one of eighths, or of thirds as far as two digits tell it.
fn is_a_measure(number: Number) -> bool {
    let is_of = |share: i64| number.times(Number::whole(share)).is_ok_and(Number::is_whole);
    let is_near = |share: i64| {
        number.times(Number::whole(share)).is_ok_and(|times| {
            let rest = times.minus(times.floor()).unwrap_or(Number::ZERO);
            rest <= Number::constant(3, 100) || rest >= Number::constant(96, 100)
        })
    };
    is_of(8) || is_near(3)
}
