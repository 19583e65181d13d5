//! The words of a step or a note as they are printed.

use crate::language::prose::{Insert, Prose};
use crate::measure::own_words::in_own_words_on;
use crate::measure::show::Units;
use crate::measure::temperature::Dial;
use crate::model::heat;
use crate::model::step::Words;

/// Prose in which nothing is taken. What temperatures in it are read on, its own words tell.
pub fn mere_prose(words: &[Words], units: Units) -> Prose {
    mere_prose_on(words, units, heat::dial_of_words(words))
}

/// Prose in which nothing is taken, of what is read on this dial: the cue of a step.
pub fn mere_prose_on(words: &[Words], units: Units, dial: Dial) -> Prose {
    let mut prose = Prose::default();
    for word in words {
        match word {
            Words::Text(text) => prose.push_text(text),
            Words::Measure(said) => prose.push_insert(Insert::Measure(in_own_words_on(said, units, dial))),
            Words::Use { name, .. } => prose.push_text(&name.text),
        }
    }
    prose
}
