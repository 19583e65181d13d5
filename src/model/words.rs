//! The words of a step or a note as they are printed.

use crate::language::prose::{Insert, Prose};
use crate::measure::own_words::in_own_words;
use crate::measure::show::Units;
use crate::model::step::Words;

/// Prose in which nothing is taken.
pub fn mere_prose(words: &[Words], units: Units) -> Prose {
    let mut prose = Prose::default();
    for word in words {
        match word {
            Words::Text(text) => prose.push_text(text),
            Words::Measure(said) => prose.push_insert(Insert::Measure(in_own_words(said, units))),
            Words::Use { name, .. } => prose.push_text(&name.text),
        }
    }
    prose
}
