//! At how many degrees in the middle something is called done.

use crate::measure::temperature::Temperature;
use crate::measure::value::Said;
use crate::model::cooking::cold_words::COOLED;
use crate::model::cooking::may_cook::takes_only_fat;
use crate::model::cooking::{called, cooks, has_word_beginning, may_say};
use crate::model::lowered::{Beginnings, beginnings};
use crate::model::step::{Step, Words};
use crate::text::clauses::last_clause;

/// Where a temperature in the sentences of a step is that of the middle.
const MIDDLE: &Beginnings = &Beginnings::of(&["inside", "middle", "core", "centre", "center", "thigh", "thickest"]);

/// The temperature in the middle at which a step that cooks is done: the low end of a range.
pub(super) fn done_at(step: &Step) -> Option<(&Said, Temperature)> {
    let may_cool = || may_say(step, COOLED);
    let cools = |word: &Words| matches!(word, Words::Text(text) if COOLED.begin_in(&text.to_lowercase()));
    // Chocolate and fat that are melted are not cooked.
    if !cooks(step)
        || may_cool() && step.cue.iter().any(cools)
        || (called(step, beginnings!["melt", "temper"]) && takes_only_fat(step))
    {
        return None;
    }
    let in_cue = || step.cue.iter().filter_map(temperature).max_by_key(|(_, at)| *at);
    // What no word of a step says none of its sentences does.
    let middle = |words| if may_say(step, MIDDLE) { in_the_middle(words) } else { None };
    let read = || if may_say(step, READS) { measured_at_the_end(&step.words) } else { None };
    middle(&step.cue).or_else(in_cue).or_else(|| middle(&step.words)).or_else(read)
}

fn temperature(word: &Words) -> Option<(&Said, Temperature)> {
    word.temperature().map(|(said, (low, _))| (said, low))
}

/// The temperature of which the words behind it, up to a comma, or right before it say that it is that of the middle: `{74 C} outside and
/// {60 C} inside`.
pub(super) fn in_the_middle(words: &[Words]) -> Option<(&Said, Temperature)> {
    words.iter().enumerate().find_map(|(at, word)| {
        let found = temperature(word)?;
        let behind =
            words.get(at + 1).is_some_and(|word| matches!(word, Words::Text(text) if begins_with_middle(text)));
        let before = at.checked_sub(1).and_then(|before| words.get(before));
        let before = before.is_some_and(|word| matches!(word, Words::Text(text) if ends_with(text, MIDDLE)));
        (behind || before).then_some(found)
    })
}

fn begins_with_middle(text: &str) -> bool {
    let clause: String = text.chars().take_while(|c| c.is_alphanumeric() || c.is_whitespace()).collect();
    let clause = clause.to_lowercase();
    let first = clause.split(" and ").next().unwrap_or_default();
    has_word_beginning(first, MIDDLE)
}

/// Words right before what a thermometer shows when something is done.
const READS: &Beginnings = &Beginnings::of(&["until", "reads", "reaches", "probe", "thermometer"]);

fn measured_at_the_end(words: &[Words]) -> Option<(&Said, Temperature)> {
    words.windows(2).find_map(|two| match two {
        [Words::Text(text), measure] if ends_with(text, READS) => temperature(measure),
        _ => None,
    })
}

/// Whether one of the last words of a text, four at most and of the same clause, begins so.
fn ends_with(text: &str, beginnings: &Beginnings) -> bool {
    let text = text.to_lowercase();
    let clause = last_clause(&text);
    clause.split_whitespace().rev().take(4).any(|word| has_word_beginning(word, beginnings))
}
