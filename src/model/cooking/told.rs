//! Whether a text tells who reads it to do an act: `Bake for 20 min` and `thaw before cooking` do; `serve with roast potatoes`, `eat this
//! cookie dough` and `do not cook` do not. Asked of directions and cautions, where a word alone says nothing. Common practice, no source.

use super::act::{DISHES, NAMED_AFTER, OTHERS, SIDES};
use crate::text::clauses::CLAUSE_ENDS;
use crate::text::denied::{denies, is_denied};
use crate::text::word_begins::{Beginnings, has_word_beginning};
use crate::text::words::words_with_apostrophes;

/// So many words before an act that is told may deny it.
const REACH: usize = 3;
/// Behind these a verb tells what to do next, or has to be done.
const LEADS: &[&str] = &["and", "then", "to", "must", "should"];
/// What may stand before a verb that tells, beside words that end in `ly`.
const BESIDE: &[&str] = &[
    "air", "always", "deep", "first", "just", "now", "oven", "pan", "part", "please", "shallow", "slow", "stir", "well",
];
/// Behind a verb that tells, wherever it stands.
const GOES_ON: &[&str] = &["it", "them", "thoroughly", "before", "until", "till"];
/// Before what is done at another time, and is done.
const AROUND: &[&str] = &["before", "after", "when", "while", "needs", "need", "requires", "require"];
/// Before a state in which it is eaten.
const UNTIL: &[&str] = &["be", "best", "eat", "once", "only", "serve", "till", "until", "when"];
/// How directions begin that say how it is eaten.
const SERVES: &[&str] = &["eat", "enjoy", "serve", "spoon", "spread", "top"];
/// What is headed by an act, on a pack.
const HEADINGS: &[&str] =
    &["advice", "directions", "guide", "guidelines", "instruction", "instructions", "method", "time", "times"];
/// Behind a word that is a thing here: `steam burns`.
const IS_A_THING: &[&str] = &["burn", "burns", "can", "escapes", "is", "may", "rises"];

/// Whether a text tells to do an act whose verb begins with one of these. Toasting is none: it browns what is done.
pub fn tells_to(text: &str, verbs: &Beginnings) -> bool {
    let text = text.to_lowercase();
    // The verb that was denied right before: `do not bake, fry or grill`.
    let mut was_denied = false;
    if heads_to(&text, verbs) {
        return true;
    }
    text.split(CLAUSE_ENDS).any(|clause| {
        // `deep-fry` is two words here alone.
        if !verbs.begin_in(clause) && !clause.contains(['-', '\'', '’']) {
            was_denied = false;
            return false;
        }
        let words: Vec<&str> = words_with_apostrophes(clause).collect();
        let is_verb = |word: &str| is_verb(word, verbs);
        let goes_on = was_denied && words.iter().all(|word| is_verb(word) || ["or", "nor", "it"].contains(word));
        was_denied = goes_on
            || (0..words.len())
                .any(|at| words.get(at).is_some_and(|word| is_verb(word)) && is_denied(&words, at, REACH, &[]));
        !goes_on && (0..words.len()).any(|at| is_told(&words, at, verbs))
    })
}

/// Whether a pack is headed so: `Cooking instructions: 25 min at 200 °C`, `Baking from frozen: 12 min`. What is headed so and needs none tells nothing.
fn heads_to(text: &str, verbs: &Beginnings) -> bool {
    let mut clauses = text.split_inclusive(CLAUSE_ENDS).peekable();
    while let Some(clause) = clauses.next() {
        if !verbs.begin_in(clause) {
            continue;
        }
        let words: Vec<&str> = words_with_apostrophes(clause).collect();
        let next = clauses.peek().copied().and_then(|next| words_with_apostrophes(next).next()).unwrap_or_default();
        let says_none = denies(next) || ["none", "n"].contains(&next);
        let acts = |word: &&str| word.ends_with("ing") && verbs.begin_in(word) && !has_word_beginning(word, OTHERS);
        let Some(at) = words.iter().position(acts).filter(|at| *at <= 1) else { continue };
        let behind = words.get(at + 1).copied().unwrap_or_default();
        let is_heading =
            clause.ends_with(':') && words.len() <= 4 && (HEADINGS.contains(&behind) || !NAMED_AFTER.contains(&behind));
        if !words.iter().any(|word| denies(word)) && !says_none && (is_heading || HEADINGS.contains(&behind)) {
            return true;
        }
    }
    false
}

/// Whether a word is a verb as one tells it: not `bakery`, `cookware`, `fryer`.
fn is_verb(word: &str, verbs: &Beginnings) -> bool {
    let ends = |rest: &str| ["", "e", "é", "y", "se", "ze"].contains(&rest);
    word != "toast" && verbs.words().iter().any(|verb| word.strip_prefix(verb).is_some_and(ends))
}

fn is_told(words: &[&str], at: usize, verbs: &Beginnings) -> bool {
    let Some(word) = words.get(at).copied().filter(|word| verbs.begin_in(word) && !has_word_beginning(word, OTHERS))
    else {
        return false;
    };
    let before = |back: usize| at.checked_sub(back).and_then(|at| words.get(at)).copied().unwrap_or_default();
    let next = words.get(at + 1).copied().unwrap_or_default();
    let denied = is_denied(words, at, REACH, &["instead"]);
    if word.ends_with("ing") {
        // Whoever must not eat it without cooking cooks it.
        let only_so = before(1) == "without" && is_denied(words, at - 1, at, &[]);
        let around = AROUND.contains(&before(1)) && before(2) != "or";
        let is_needed = before(1).starts_with("need") || before(1).starts_with("require");
        // `Finish baking at home`, `baking: 12 min`, `suitable for grilling`.
        let goes_on = ["finish", "continue", "complete"].contains(&before(1));
        let is_timed = || {
            let figure =
                |back: usize| words.get(at + back).is_some_and(|word| word.starts_with(|c: char| c.is_ascii_digit()));
            at == 0 && (figure(1) || ["at", "for"].contains(&next) && figure(2))
        };
        let suits = || {
            let front = words.get(..at).unwrap_or_default();
            front.contains(&"suitable")
                && front.iter().any(|word| ["by", "for"].contains(word))
                && !words.iter().any(|word| *word == "raw" || word.starts_with("eat"))
        };
        let is_so = || goes_on || is_timed() || suits() && !is_denied(words, at, at, &["if", "unsuitable"]);
        return !NAMED_AFTER.contains(&next) && (only_so || around && !(is_needed && denied) || !denied && is_so());
    }
    if word.ends_with("ed") {
        let is_eaten_so = next.is_empty()
            || next.ends_with("ly")
            || ["through", "in", "at", "for", "until", "from", "and"].contains(&next);
        let how = before(1);
        let by = if how.ends_with("ly") || how == "well" { before(2) } else { how };
        return !denied && UNTIL.contains(&by) && (by == "be" || is_eaten_so);
    }
    if denied || !is_verb(word, verbs) || IS_A_THING.contains(&next) {
        return false;
    }
    let is_beside = || words.iter().skip(at + 1).take(2).any(|word| SIDES.contains(word));
    let is_dish = || {
        let is_served = words.first().is_some_and(|first| SERVES.contains(first));
        let behind = |word: &&str| ["beside", "from", "of", "on", "over", "with"].contains(word);
        is_served && words.iter().take(at).any(behind) && (DISHES.contains(&word) || !GOES_ON.contains(&next))
    };
    let modifies = |word: &str| BESIDE.contains(&word) || word.ends_with("ly");
    let leads = match words.iter().take(at).rev().find(|word| !modifies(word)) {
        None => true,
        Some(lead) => LEADS.contains(lead),
    };
    (leads || GOES_ON.contains(&next)) && !is_beside() && !is_dish()
}

#[cfg(test)]
mod tests {
    use super::tells_to;
    use crate::model::cooking::heat_words::COOKING_VERBS;

    /// The first nine of the second kind made raw meat and raw dough cooked.
    #[test]
    fn a_text_tells_to_cook_where_a_verb_leads_and_is_not_denied() {
        for told in [
            "Bake for 20 min at 200 °C.",
            "Cook thoroughly before eating.",
            "From frozen, bake 25 min.",
            "Remove the film and roast for 20 min.",
            "Thaw fully before cooking.",
            "Do not eat without cooking.",
            "Oven bake at 180 °C.",
            "Deep-fry until gold.",
            "Place on a tray; then gently fry them.",
            "Raw: to be cooked before eating.",
            "It must be well cooked.",
            "Ready to cook.",
            "Do not microwave, bake in an oven.",
            "Serve when cooked through.",
            "Needs cooking.",
            "In a hot pan fry until done.",
            "Before serving, grill 4 min on each side.",
            "Cooking instructions: 25 min at 200 °C until 74 °C inside.",
            "Baking: 12 min at 220 °C.",
            "Oven cooking: 20 min.",
            "Baking from frozen: 12 min at 200 °C.",
            "Cooking time 25 min at 200 °C.",
            "Suitable for grilling.",
            "Finish baking at home, 8 min at 200 °C, and eat warm.",
            "Frying for 4 min on each side",
        ] {
            assert!(tells_to(told, COOKING_VERBS), "{told}");
        }
        for other in [
            "Serve cold, with toast.",
            "Serve with roast potatoes.",
            "Serve on grilled bread.",
            "Do not cook.",
            "Eat this cookie dough straight from the tub.",
            "Serve cold, with panna cotta.",
            "Spoon onto pancakes.",
            "Eat as it is. Do not bake.",
            "Keep away from heat.",
            "Serve cold.",
            "Do not bake, fry or grill.",
            "Don't bake it.",
            "Toast the bread and lay it on.",
            "Grill the bread and serve it on top.",
            "Serve with bean stew and roast potatoes.",
            "Serve with chips and stew.",
            "No need to cook.",
            "Needs no cooking.",
            "Eat raw or cooked.",
            "A bakery in the griddle house.",
            "Steam burns.",
            "On a baking tray.",
            "Cooking instructions: none, eat as it is.",
            "Cooking: not needed.",
            "No cooking: eat as it is.",
            "Not suitable for frying.",
            "Cooking oil: rape.",
            "Suitable for eating raw or for cooking.",
            "Baking powder: with phosphate.",
            "Fully cooked.",
        ] {
            assert!(!tells_to(other, COOKING_VERBS), "{other}");
        }
    }
}
