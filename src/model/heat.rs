//! How hot something is said to be, as finely as it is read: by the dial of an oven, or by a thermometer in sugar or fat.

use crate::language::syntax::Name;
use crate::measure::own_words::in_own_words_on;
use crate::measure::show::{self, Units};
use crate::measure::shown::Shown;
use crate::measure::temperature::Dial;
use crate::model::cooking::{Beginnings, has_word_beginning, says};
use crate::model::step::{Step, Words};

/// What is hot by a dial of its own, by fives.
const DIALS: &Beginnings = &Beginnings::of(&["oven", "griddle", "grill", "iron", "steamer", "salamander"]);

/// What is boiled or fried by the degree: a caramel of 118 °C is no caramel of 120.
const BY_DEGREE: &Beginnings = &Beginnings::of(&[
    "sugar",
    "syrup",
    "caramel",
    "cand",
    "toffee",
    "fudge",
    "nougat",
    "brittle",
    "praline",
    "marshmallow",
    "honey",
    "glucose",
    "isomalt",
    "treacle",
    "molasses",
    "jam|",
    "jams|",
    "jelly",
    "marmalade",
    "fat",
    "oil",
    "lard",
    "dripping",
    "fry",
    "fried",
    "fries",
    "thermometer",
]);

/// What has no dial of degrees, so that heat in it is read on a thermometer.
const WITHOUT_DIAL: &Beginnings = &Beginnings::of(&[
    "hob",
    "stove",
    "burner",
    "induction",
    "pan|",
    "pans|",
    "saucepan",
    "pot|",
    "pots|",
    "kettle",
    "copper",
    "bath",
    "microwave",
    "fryer",
]);

/// What the temperatures of a step are read on: a thermometer where sugar is boiled or something is fried, and in a pot on a hob; else the
/// dial of an oven.
pub fn dial(step: &Step) -> Dial {
    let is_one_of = |beginnings: &Beginnings| {
        step.equipment.as_ref().is_some_and(|name: &Name| has_word_beginning(name.key.as_str(), beginnings))
    };
    if is_one_of(DIALS) || says(step, DIALS) || !(says(step, BY_DEGREE) || is_one_of(WITHOUT_DIAL)) {
        return Dial::Oven;
    }
    Dial::Thermometer
}

/// The same, of a note or a caution.
pub fn dial_of_words(words: &[Words]) -> Dial {
    let has = |words: &Words, beginnings: &Beginnings| match words {
        Words::Text(text) => has_word_beginning(&text.to_lowercase(), beginnings),
        Words::Use { name, .. } => has_word_beginning(name.key.as_str(), beginnings),
        Words::Measure(_) => false,
    };
    let says = |beginnings: &Beginnings| words.iter().any(|word| has(word, beginnings));
    let measures = words.iter().any(|word| matches!(word, Words::Measure(_)));
    if measures && says(BY_DEGREE) && !says(DIALS) { Dial::Thermometer } else { Dial::Oven }
}

/// How hot a step begins, in the author's words; `None` where no heat is said.
pub fn first_heat(step: &Step, units: Units) -> Option<Shown> {
    step.temperature?;
    Some(in_own_words_on(&step.temperature_said, units, dial(step)))
}

/// How hot a step is, later falls included, in the author's words; `None` where no heat is said.
pub fn heat(step: &Step, units: Units) -> Option<Shown> {
    let first = first_heat(step, units)?;
    let dial = dial(step);
    if step.later.is_empty() {
        return Some(first);
    }
    let later = step.later.iter().zip(&step.later_said).map(|((_, after), said)| {
        format!(" then {} after {}", in_own_words_on(said, units, dial), show::duration(*after))
    });
    Some(Shown::words(std::iter::once(first.to_string()).chain(later).collect::<String>()))
}
