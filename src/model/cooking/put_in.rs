//! Food that the words of a step put in or on: what stands behind `add`, `brush with` and the like, and a larder knows. Common practice, no source.

use super::{in_lower_case, may_say, says};
use crate::language::syntax::Key;
use crate::model::larder::Larder;
use crate::model::lowered::{Beginnings, beginnings};
use crate::model::step::{PutIn, PutInBy, SaidToGoIn, Step, Words};
use crate::text::denied::DENY;
use crate::text::whole_words::{WholeWords, WordBits};
use crate::text::words::words_with_hyphens_and_apostrophes;
use std::borrow::Cow;
use std::sync::Arc;

mod named;

/// Verbs behind which what is put in stands as their object.
const DIRECTLY: &WholeWords = &WholeWords::of(&["add", "strew", "sprinkle", "scatter", "crumble", "drizzle"]);
/// Verbs behind which it stands with `with`.
#[rustfmt::skip]
const WITH: &WholeWords = &WholeWords::of(&[
    "brush", "glaze", "coat", "dust", "dredge", "top", "fill", "stuff", "spread", "season", "sandwich", "garnish", "decorate", "finish", "strew",
    "sprinkle", "scatter", "drizzle", "line", "pipe", "layer", "moisten", "enrich", "grease",
]);
/// Verbs behind which it stands with `in`, as what something is put into.
const IN: &WholeWords = &WholeWords::of(&["dip", "roll", "toss", "fry", "boil", "poach", "coat", "turn"]);
/// Verbs behind whose `in` it stands as what is put in.
const WORKED_IN: &WholeWords = &WholeWords::of(&["fold", "stir", "whisk", "beat", "mix", "work", "knead", "rub"]);

/// What tins are rubbed or dusted with, and are then.
const ON_TINS: &WholeWords = &WholeWords::of(&["butter", "flour", "buttered", "floured"]);
/// Most words are none of these, and stand behind none.
const TELLING: WordBits = WordBits::of(&[DIRECTLY, WITH, IN, WORKED_IN, ON_TINS, DENY]);

/// All of them, by their beginnings.
#[rustfmt::skip]
const PUTS: &Beginnings = beginnings![
    "add", "strew", "sprinkle", "scatter", "crumble", "drizzle", "brush", "glaze", "coat", "dust", "dredge", "top|", "fill", "stuff", "spread", "season",
    "sandwich", "garnish", "decorate", "finish", "line|", "pipe|", "layer", "moisten", "enrich", "dip|", "roll|", "toss|", "fry|", "boil|", "poach|", "turn|",
    "fold|", "stir|", "whisk|", "beat|", "mix|", "work|", "knead|", "rub|", "butter|", "flour|", "buttered|", "floured|",
    "grease",
];

/// What stands behind a verb before what is put in, and what denies it.
const BEHIND: &Beginnings =
    beginnings!["with|", "in|", "avoid", "cannot", "don", "neither", "never", "no|", "non|", "nor|", "not", "without"];

/// So many words are denied by what stands before them.
const DENIED: usize = 3;

/// Words of the longest name of a food that is looked for.
const LONGEST: usize = 4;

/// Words at which what is put in has ended: where it goes, how long, what it is like.
#[rustfmt::skip]
const ENDS: &WholeWords = &WholeWords::of(&[
    "to", "on", "onto", "into", "over", "between", "under", "around", "round", "through", "by", "at", "against", "until", "till", "like", "as", "before",
    "after", "while", "when", "if", "for", "from", "than", "without", "instead", "size", "so", "then", "onwards", "straight", "which", "that", "where",
]);
/// Words with which a food's name is that of a tool, a size or another thing.
#[rustfmt::skip]
const TOOLS: &WholeWords = &WholeWords::of(&[
    "knife", "pan", "timer", "paper", "brush", "cutter", "spoon", "cup", "tin", "tins", "tray", "trays", "ring", "rings", "bowl", "bath", "cloth", "press",
    "board", "stone", "mill", "grinder", "mould", "moulds", "dish", "rack", "weights", "sized", "coloured", "colored", "brown", "bag", "bottle", "jar", "jars", "machine", "wash",
]);
/// Words before a food with which it is none that is eaten: `baking beans`.
const NOT_EATEN: &WholeWords = &WholeWords::of(&["baking", "ceramic", "pie", "dry", "blind", "old", "raw"]);

/// Where a step's words are in telling what is put in.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Telling {
    Nothing,
    /// A verb was met, behind which `with` or `in` is waited for.
    Verb {
        with: bool,
        inside: bool,
    },
    /// What is put in stands here, or behind a `with` that comes.
    Food {
        with: bool,
    },
}

/// The food that a step's words put in, of a larder: found out once for a step, whichever choices leave it in.
pub fn put_in<'s>(step: &'s Step, larder: &Arc<Larder>) -> Cow<'s, [PutIn]> {
    if !may_say(step, PUTS) && !may_say(step, named::WITH_ALLERGENS) {
        return Cow::Borrowed(&[]);
    }
    let by = || PutInBy { larder: Arc::clone(larder), food: found(step, larder) };
    let known = step.asked.put_in.get_or_init(by);
    match Arc::ptr_eq(&known.larder, larder) {
        true => Cow::Borrowed(&known.food),
        false => Cow::Owned(found(step, larder)),
    }
}

/// The food behind the verbs of a step that the larder has, by its longest name at each place.
fn found(step: &Step, larder: &Larder) -> Vec<PutIn> {
    let mut found = Vec::new();
    let mut telling = Telling::Nothing;
    let mut amount = false;
    // One list for all clauses.
    let mut words = Vec::new();
    // Of so many verbs nearly every step may say one, and half of them do.
    let said = if says(step, PUTS) { step.words.len() } else { 0 };
    for (word, text) in in_lower_case(step).take(said) {
        if !matches!(word, Words::Text(_)) {
            amount = matches!(word, Words::Measure(_));
            continue;
        }
        // Most pieces have no such verb, and are not cut into clauses.
        if telling == Telling::Nothing && !PUTS.may_begin_in(text) {
            amount &= text.is_empty();
            continue;
        }
        for clause in clauses(text) {
            // Most of them neither have a verb nor what one waits for, as in `Brush {dough} with egg`.
            let is_read = match telling {
                Telling::Nothing => PUTS.may_begin_in(clause),
                Telling::Verb { .. } => BEHIND.may_begin_in(clause) || PUTS.may_begin_in(clause),
                Telling::Food { .. } => true,
            };
            if is_read {
                words.clear();
                words.extend(words_with_hyphens_and_apostrophes(clause));
                in_clause(&words, &mut telling, amount, larder, &mut found);
            }
            amount = false;
            // Only the last one may be without its end.
            if is_ended(clause) {
                telling = Telling::Nothing;
            }
        }
    }
    named::add(step, larder, &mut found);
    found
}

/// The clauses of a text, each with its end, which is one byte: looked for among bytes they are found in half the time.
fn clauses(text: &str) -> impl Iterator<Item = &str> {
    let mut end = 0;
    text.as_bytes().split_inclusive(ends_clause).filter_map(move |clause| {
        let begin = end;
        end += clause.len();
        text.get(begin..end)
    })
}

fn ends_clause(byte: &u8) -> bool {
    matches!(byte, b'.' | b';' | b':' | b'(' | b')' | b'!')
}

/// Whether a clause has its end; only the last one of a text may be without.
fn is_ended(clause: &str) -> bool {
    clause.as_bytes().last().is_some_and(ends_clause)
}

fn in_clause(words: &[&str], telling: &mut Telling, behind_amount: bool, larder: &Larder, found: &mut Vec<PutIn>) {
    let (mut amount, mut past) = (behind_amount, 0);
    // What denies the words behind it.
    let mut denied_at: Option<usize> = None;
    for (at, word) in words.iter().copied().enumerate() {
        let may_tell = TELLING.may_have(word);
        let is_denied = denied_at.is_some_and(|denied| at - denied <= DENIED);
        if may_tell && DENY.has(word) {
            denied_at = Some(at);
        }
        // It is of a name that was read, or tells nothing.
        if at < past || *telling == Telling::Nothing && !may_tell {
            continue;
        }
        let next = words.get(at + 1).copied().unwrap_or_default();
        if let Some(food) = of_tins(word, at, next) {
            let name = food.to_owned();
            found.push(PutIn {
                name,
                is_one: true,
                has_amount: false,
                is_known: false,
                is_of_tins: true,
                by: SaidToGoIn::ByAVerb,
            });
            continue;
        }
        let is = |verbs: &WholeWords| may_tell && verbs.has(word);
        let (directly, with, inside) = (is(DIRECTLY), is(WITH), is(IN) || is(WORKED_IN));
        if *telling == Telling::Nothing && !(with || inside || directly) {
            continue;
        }
        if is_denied {
            *telling = Telling::Nothing;
        } else if directly {
            (*telling, amount) = (Telling::Food { with }, false);
        } else if with || inside {
            (*telling, amount) = (Telling::Verb { with, inside }, false);
        } else if let Telling::Verb { with, inside } = *telling {
            if word == "with" && with || word == "in" && inside {
                *telling = Telling::Food { with: false };
            }
        } else if let Telling::Food { with } = *telling {
            if word == "with" && with {
                *telling = Telling::Food { with: false };
            } else if word == "with" || word == "in" || ENDS.has(word) {
                *telling = Telling::Nothing;
            } else if word.starts_with(|c: char| c.is_ascii_digit()) {
                amount = true;
            } else {
                if let Some((name, count)) = named_from(words, at, larder) {
                    past = at + count;
                    let before = at.checked_sub(1).and_then(|before| words.get(before)).copied().unwrap_or_default();
                    if !NOT_EATEN.has(before) {
                        let is_known = words.get(at.saturating_sub(2)..at).unwrap_or_default().contains(&"the");
                        let is_one = count == 1;
                        let by = SaidToGoIn::ByAVerb;
                        found.push(PutIn { name, is_one, has_amount: amount, is_known, is_of_tins: false, by });
                    }
                }
                amount &= word != "and" && word != "or";
            }
        }
    }
}

/// What a tin is rubbed or dusted with: `Butter the tins`, `floured trays`.
fn of_tins(word: &str, at: usize, next: &str) -> Option<&'static str> {
    let is_verb = || at == 0 && ["the", "a", "your", "each", "and", "two", "four", "six"].contains(&next);
    let is_tool = || TOOLS.has(next) || next.starts_with("ramekin") || next.starts_with("sheet");
    match word {
        "butter" if is_verb() => Some("butter"),
        "flour" if is_verb() => Some("flour"),
        "buttered" if is_tool() => Some("butter"),
        "floured" if is_tool() => Some("flour"),
        _ => None,
    }
}

/// The longest name of a food that begins at a place, which a larder has.
fn named_from(words: &[&str], at: usize, larder: &Larder) -> Option<(String, usize)> {
    let may_begin = larder.may_begin(words.get(at)?);
    (1..=LONGEST).rev().find_map(|count| {
        let run = words.get(at..at + count)?;
        // `butter for the tins` is found as butter.
        let before = run.iter().enumerate().skip(1).find(|(at, word)| **word == "for" && at + 1 < count);
        if !may_begin(count) && !before.is_some_and(|(before, _)| may_begin(before)) {
            return None;
        }
        let next = words.get(at + count).copied().unwrap_or_default();
        // `Butter, a walnut at a time` tells how large the lumps are.
        let is_measure = words.get(at + count..at + count + 3).is_some_and(|next| next == ["at", "a", "time"]);
        let name = Some(run).filter(|_| !TOOLS.has(next) && !is_measure)?.join(" ");
        larder.has_just(&Key::new(&name)).then_some((name, count))
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_verb_may_begin_a_clause_that_is_read() {
        for verb in [DIRECTLY, WITH, IN, WORKED_IN, ON_TINS].into_iter().flat_map(WholeWords::words) {
            assert!(PUTS.begin_in(verb), "{verb}");
        }
        for word in DENY.words().iter().chain(&["with", "in"]) {
            assert!(BEHIND.begin_in(word), "{word}");
        }
    }
}
