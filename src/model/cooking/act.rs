//! Which words of a text are acts of cooking: `roast the leeks` is one; `line a baking tray`, `do not cook`, `with toast` and `the cook's
//! knife` are none.

use crate::model::kind::Kind;
use crate::model::larder::kind_of_word;
use crate::text::clauses::CLAUSE_ENDS;
use crate::text::denied::{denies, is_denied};
use crate::text::word_begins::{Beginnings, has_word_beginning};
use crate::text::words::words_with_apostrophes;

/// Words shortly before a verb that leave it for another time, or say that something else is done.
const TAKEN_BACK: &[&str] = &["before", "instead"];
/// Words right before a verb by which it may be done, by somebody, and is not done here: `you can cook it later`, `what ferments`.
const LEFT_OPEN: &[&str] = &["can", "could", "may", "might", "people", "some", "others", "what"];
/// What food lies in or is worked with, and that is cleaned and heated empty. What is closed on food is told from it by what stands before it.
#[rustfmt::skip]
const EMPTY: &[&str] = &[
    "jar", "jars", "bottle", "bottles", "bowl", "bowls", "knife", "knives", "plate", "plates", "cloth", "cloths", "muslin", "lid", "lids", "glass",
    "glasses", "spoon", "spoons", "whisk", "board", "boards", "tongs", "hands", "thermometer", "funnel", "equipment", "utensils", "cutters",
];
/// Words before such a thing with which there is food in it.
const FILLED: &[&str] = &["filled", "closed", "full", "sealed", "of"];

/// What is called after what is done in it, with it or to it.
pub(super) const NAMED_AFTER: &[&str] = &[
    "tray",
    "trays",
    "sheet",
    "sheets",
    "paper",
    "parchment",
    "powder",
    "soda",
    "tin",
    "tins",
    "dish",
    "dishes",
    "pan",
    "pans",
    "rack",
    "bag",
    "bags",
    "basket",
    "time",
    "times",
    "stone",
    "steel",
    "spray",
    "apple",
    "apples",
    "chocolate",
    "margarine",
    "potato",
    "potatoes",
    "fat",
    "oil",
    "thermometer",
    "string",
    "twine",
    "brush",
    "juices",
    "instructions",
    "ring",
    "rings",
    "beans",
    "cases",
];

/// What is done and eaten, behind such words as `with`.
pub(super) const DISHES: &[&str] =
    &["toast", "toasts", "roast", "roasts", "stew", "stews", "fries", "bakes", "fry-up", "grill"];

/// What is served beside something, and is cooked for itself.
pub(super) const SIDES: &[&str] = &[
    "bread",
    "bun",
    "buns",
    "chips",
    "crackers",
    "garnish",
    "muffin",
    "muffins",
    "noodles",
    "pasta",
    "potatoes",
    "rice",
    "roll",
    "rolls",
    "toast",
    "toasts",
    "vegetables",
];

/// How a clause begins that says what is eaten with it.
const SERVED: &[&str] = &["eat", "enjoy", "serve", "served", "goes", "good"];

/// Words behind a verb by which nothing is done.
const NOTHING: &[&str] = &["nothing", "no", "none", "neither"];

/// Words before a thing that nobody has spoken of yet, and those before one that somebody has.
const SOME: &[&str] = &["a", "an", "some", "another", "other", "more", "extra", "your"];
const THE: &[&str] = &["the", "those", "these"];

/// Words at which the thing ends that a verb is done to.
const BEHIND_A_THING: &[&str] = &[
    "and",
    "or",
    "in",
    "on",
    "at",
    "to",
    "for",
    "with",
    "until",
    "till",
    "then",
    "while",
    "meanwhile",
    "of",
    "from",
    "into",
    "over",
    "under",
    "by",
    "as",
    "so",
    "when",
    "if",
    "before",
    "after",
    "beside",
    "alongside",
];

/// So much of what a recipe is of: `fry a batch at a time`.
const PORTIONS: &[&str] = &[
    "batch", "batches", "bit", "couple", "dozen", "few", "handful", "ladleful", "layer", "little", "load", "lot",
    "part", "piece", "quarter", "sheet", "slice", "spoonful", "third", "tray",
];

/// Words that begin like a verb of cooking and are none.
pub(super) const OTHERS: &[&str] = &["cookie", "cookbook", "cookery", "baker", "search", "stewards"];

/// What is written before `fry` with a hyphen.
const FIRST_HALVES: &[&str] = &["deep", "pan", "shallow", "stir"];

/// Words behind a participle by which it is still done here: `cooked and chilled`.
const GOES_ON: &[&str] = &[
    "and", "or", "it", "them", "in", "until", "till", "through", "at", "on", "for", "to", "with", "then", "over",
    "under", "by", "off", "all",
];

/// What comes behind a piece of text in its step.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Behind {
    /// Other text at most.
    Words,
    /// Something that the step takes, somewhere.
    Takes,
}

/// Whether a text in lower case tells of an act whose verb begins with one of these.
pub fn says_act(text: &str, verbs: &Beginnings, behind: Behind) -> bool {
    acts(text, verbs, behind).next().is_some()
}

/// As [`says_act`], where much depends on its being so: nothing in the clause before the verb denies it, and no engine is called after it. A word
/// may raise a doubt by itself; to take one away it must be done.
pub fn surely_says_act(text: &str, verbs: &Beginnings) -> bool {
    verbs.begin_in(text)
        && text.split_inclusive(CLAUSE_ENDS).filter(|clause| verbs.begin_in(clause)).any(|clause| {
            let Clause { words, acts, .. } = Clause::of(clause, verbs, Behind::Takes);
            acts.into_iter().any(|at| {
                let mut before = words.iter().take(at);
                words.get(at).is_some_and(|word| !word.ends_with("ator")) && !before.any(|word| denies(word))
            })
        })
}

/// A clause with the acts in it.
struct Clause<'t> {
    words: Vec<&'t str>,
    /// Which of the words are acts that are done to what the step is of.
    acts: Vec<usize>,
    /// Whether the text ends with it, so that what stands behind the text goes on with it.
    is_open: bool,
}

impl<'t> Clause<'t> {
    fn of(clause: &'t str, verbs: &Beginnings, behind: Behind) -> Clause<'t> {
        let end = clause.chars().next_back().filter(|end| CLAUSE_ENDS.contains(end));
        let words: Vec<&str> = words_with_apostrophes(clause).collect();
        let is_one = |at: &usize| is_act(&words, *at, verbs) && !is_of_others(&words, *at, (end, behind));
        let acts = (0..words.len()).filter(is_one).collect();
        Clause { words, acts, is_open: end.is_none() }
    }
}

/// For each act of a text the words that stand behind it at the end of the text; `None` where its clause ends before that.
pub fn acts<'t>(text: &'t str, verbs: &Beginnings, behind: Behind) -> impl Iterator<Item = Option<Vec<&'t str>>> {
    // Most clauses hold none of the verbs, and their words are not looked at one by one; `deep-fry` is two words here alone.
    let may_say = move |clause: &str| verbs.begin_in(clause) || clause.contains(['-', '\'', '’']);
    text.split_inclusive(CLAUSE_ENDS).filter(move |clause| may_say(clause)).flat_map(move |clause| {
        let Clause { words, acts, is_open } = Clause::of(clause, verbs, behind);
        acts.into_iter().map(move |at| is_open.then(|| words.iter().skip(at + 1).copied().collect()))
    })
}

fn is_act(words: &[&str], at: usize, verbs: &Beginnings) -> bool {
    let before = |back: usize| at.checked_sub(back).and_then(|at| words.get(at)).copied().unwrap_or_default();
    let is_joined = |word: &str| FIRST_HALVES.contains(&before(1)) && verbs.begin_in(&format!("{}-{word}", before(1)));
    let is_verb = |word: &&str| (verbs.begin_in(word) || is_joined(word)) && !has_word_beginning(word, OTHERS);
    let Some(word) = words.get(at).copied().filter(is_verb) else { return false };
    let next = words.get(at + 1).copied();
    let is_left_open =
        LEFT_OPEN.contains(&before(1)) || words.get(at + 1..).is_some_and(|rest| rest.contains(&"later"));
    let is_taken_back = before(1) == "for" || is_left_open || is_denied(words, at, 3, TAKEN_BACK);
    let is_vessel = word.ends_with("ing") && next.is_some_and(|next| NAMED_AFTER.contains(&next));
    let is_dish = DISHES.contains(&word) && ["with", "on", "of", "from"].contains(&before(1));
    let is_person = word.ends_with("'s")
        || word.ends_with("’s")
        || (["cook", "cooks"].contains(&word) && ["the", "a", "one", "another"].contains(&before(1)));
    let is_done_here = ["is", "are", "be", "been", "was", "were"].contains(&before(1));
    let is_of_next = next.map_or(["the", "some", "with", "of"].contains(&before(1)), |next| {
        !GOES_ON.contains(&next) && !next.ends_with("ly")
    });
    let is_state = word.ends_with("ed") && !is_done_here && is_of_next;
    // `Serve with boiled rice and roast potatoes`: the second of two that are eaten with it is one as well.
    let is_served_with = || {
        let begins = words.first().is_some_and(|first| SERVED.contains(first))
            || words.iter().take(at).any(|word| *word == "goes");
        let names = next.is_some_and(|next| {
            !GOES_ON.contains(&next) && !next.ends_with("ly") && !next.starts_with(|c: char| c.is_ascii_digit())
        });
        begins && names && words.iter().take(at).any(|word| ["with", "beside", "alongside", "on"].contains(word))
    };
    !(is_taken_back || is_vessel || is_dish || is_person || is_state || is_served_with())
}

/// Whether an act is done to something else than what the step is of, or to nothing: `toast the bread meanwhile`, `fry an egg to go with it`, `boil
/// the kettle`, `roast some nuts`, `bake nothing else`. Of what runs into what the step takes, the thing is that.
fn is_of_others(words: &[&str], at: usize, (end, behind): (Option<char>, Behind)) -> bool {
    let rest = words.get(at + 1..).unwrap_or_default();
    if is_done_to_the_empty(words) {
        return true;
    }
    let Some(first) = rest.first().filter(|_| !(end.is_none() && behind == Behind::Takes)) else { return false };
    if NOTHING.contains(first) {
        return true;
    }
    let is_new = SOME.contains(first);
    if !is_new && !THE.contains(first) {
        return false;
    }
    let thing: Vec<&str> =
        rest.iter().skip(1).take_while(|word| !BEHIND_A_THING.contains(word)).take(3).copied().collect();
    let Some(noun) = thing.last().filter(|_| !thing.iter().any(|word| PORTIONS.contains(word))) else { return false };
    let is_side = SIDES.contains(noun) || DISHES.contains(noun);
    let goes_with = |pair: &[&str]| matches!(pair, ["go" | "serve" | "eat", "with" | "beside" | "alongside"]);
    let is_beside =
        words.iter().any(|word| ["meanwhile", "meantime"].contains(word)) || words.windows(2).any(goes_with);
    let is_by_kind = || {
        use Kind::{Fruit, Grain, Nut, Pulse, Vegetable};
        // `Fry some onions, then add` goes on with them.
        let is_whole = end.is_none_or(|end| ['.', ';', '!'].contains(&end)) && rest.last() == Some(noun);
        is_whole && (is_side || matches!(kind_of_word(noun), Fruit | Grain | Nut | Pulse | Vegetable))
    };
    *noun == "kettle" || is_beside && (is_new || is_side) || is_new && is_by_kind()
}

/// Whether what a clause tells is done to jars, plates or knives, whatever it goes on with: `scald the bowl with boiling water`, `bring the plates to the
/// boil`, `wash your hands and boil the knife`.
fn is_done_to_the_empty(words: &[&str]) -> bool {
    let Some(at) = words.iter().take(8).position(|word| EMPTY.contains(word)) else { return false };
    let before = words.get(..at).unwrap_or_default();
    const VERBS: &[&str] = &[
        "boil",
        "scald",
        "bring",
        "wash",
        "rinse",
        "clean",
        "heat",
        "warm",
        "steam",
        "simmer",
        "bake",
        "sterilise",
        "sterilize",
    ];
    const AROUND: &[&str] = &["in", "into", "on", "onto", "over", "with", "to", "from", "under", "until"];
    before.iter().any(|word| VERBS.contains(word))
        && !before.iter().any(|word| FILLED.contains(word) || AROUND.contains(word))
}

#[cfg(test)]
mod tests {
    use super::{Behind, says_act, surely_says_act};
    use crate::model::cooking::heat_words::COOKS;
    use crate::model::lowered::beginnings;

    /// Findings of a trial: each of the second kind made beans boiled or rice fermented, and a check of poison slept.
    #[test]
    fn what_takes_a_doubt_away_must_be_done() {
        let verbs = beginnings!["boil", "simmer", "ferment", "dehydrat", "curd", "pasteuri"];
        for act in
            ["boil hard for 10 min", "bring to a simmer", "leave to ferment", "fermented until sour", "pasteurise it"]
        {
            assert!(surely_says_act(act, verbs), "{act}");
        }
        for other in [
            "do not let it boil",
            "it never comes to a simmer",
            "serve with boiled rice",
            "served with fermented tofu",
            "so that it does not ferment",
            "set the dehydrator beside it",
            "it is not pasteurised",
            "stop before it curdles",
        ] {
            assert!(!surely_says_act(other, verbs), "{other}");
        }
    }

    /// Findings of a trial: each of the second kind made raw meat cooked.
    #[test]
    fn an_act_is_neither_a_vessel_nor_a_dish_nor_denied() {
        for act in [
            "simmer for 20 min",
            "bring to the boil",
            "mix, then roast the leeks",
            "leave until cooked",
            "boiled and drained",
            "put on the grill",
            "deep-fry",
            "let it simmer gently",
            "cook",
            "fried until gold",
            "keep it boiling",
            "bake the bread",
            "fry a few at a time",
            "bake another tray",
            "boil the potatoes",
            "serve with rice or fry in butter",
            "serve with cheese and bake until gold",
            "meanwhile simmer the sauce",
            "fry an egg",
            "roast the chicken meanwhile",
            "bring the kettle to the boil and cook",
            "boil the filled jars for 10 min",
            "simmer in a bowl over water",
            "bring the clams to the boil",
        ] {
            assert!(says_act(act, COOKS, Behind::Words), "{act}");
        }
        for other in [
            "line a baking tray",
            "serve with toast",
            "with a cook's knife",
            "do not cook it",
            "on toast",
            "the toasted nuts",
            "ready for baking",
            "brush before baking",
            "baker's yeast",
            "cookies",
            "top with fried onions",
            "in a roasting tin",
            "never boil it",
            "serve with boiled rice and roast potatoes",
            "bake nothing else meanwhile",
            "toast the bread meanwhile",
            "bake the bread meanwhile",
            "fry an egg to go with it",
            "boil the kettle for tea",
            "wash your hands and roast some nuts",
            "in the meantime toast some bread",
            "boil the jars first",
            "scald the bowl with boiling water",
            "wash your hands and boil the knife",
            "bring the plates to the boil",
            "some people cook it",
            "you can cook it later",
        ] {
            assert!(!says_act(other, COOKS, Behind::Words), "{other}");
        }
    }
}
