//! What the words of a line say that a thing is: cooked, smoked, minced. What they deny, leave for later or say of something else is none
//! of it: `not cooked`, `to be roasted`, `smoked paprika rubbed in`.

use super::state_words::State;
use crate::model::animals::is_of_animal;
use crate::model::kind::Kind;
use crate::model::larder::kind_of_word;
use crate::model::recipe::{Ingredient, Refers};
use crate::text::denied::denies;
use crate::text::words::{words_with_hyphens, words_without_hyphens};
use std::sync::Arc;

/// Words right before a state, or one word before that, by which it is not so yet, or not quite, beside those that deny it.
const NOT_YET: &[&str] =
    &["un", "to", "for", "before", "until", "when", "if", "half", "part", "partly", "barely", "raw", "later", "like"];

/// Words behind a state by which it is still to come.
const LATER: &[&str] = &["later", "afterwards", "below", "tomorrow", "above"];

/// Things that no larder has by one word, and the meat that is laid on other meat.
const OTHER_THINGS: &[&str] =
    &["bacon", "bean", "coconut", "coriander", "crouton", "glaze", "herb", "pea", "pine", "sauce"];

/// Words before a hyphen by which it is half so at most: `part-cooked`.
const HALF: &[&str] = &["half", "part", "par", "un", "non", "under", "semi", "soft", "lightly", "partly"];

/// Whether the name of a line or what is said behind it says of the thing itself that it is so.
pub fn is_so(line: &Ingredient, state: State) -> bool {
    says(line.name.key.as_str(), state, |_| true) || is_said_behind(line, state)
}

/// As [`is_so`], of what is said behind the name alone.
pub fn is_said_behind(line: &Ingredient, state: State) -> bool {
    let said = line.preparation.as_ref().map(|said| said.to_lowercase());
    said.is_some_and(|said| says_of(line.name.key.as_str(), &said, state))
}

/// As [`is_so`], of a name and what is said behind it, both in lower case.
pub fn is_said_to_be(name: &str, preparation: Option<&str>, state: State) -> bool {
    says(name, state, |_| true) || preparation.is_some_and(|said| says_of(name, said, state))
}

/// Whether what is said behind a name says it of the thing itself: `smoked paprika rubbed in` does not; `roasted the day before` and
/// `cooked boneless` do.
fn says_of(name: &str, said: &str, state: State) -> bool {
    says(said, state, |next| !LATER.contains(&next) && !is_other_thing(next, name))
}

/// Whether a word behind a state is that of what goes onto, into or beside the thing that a line is of.
fn is_other_thing(word: &str, name: &str) -> bool {
    let is_listed = || OTHER_THINGS.iter().any(|thing| is_one_or_more(word, thing));
    let is_known = || {
        let (kind, own) = (kind_of_word(word), kind_of_word(name));
        kind != Kind::Other && kind != own && (own != Kind::Other || !kind.is_flesh())
    };
    let is_its_own = || words_with_hyphens(name).any(|own| is_one_or_more(own, word) || is_one_or_more(word, own));
    !is_of_animal(word) && (is_listed() || is_known()) && !is_its_own()
}

/// Whether a word is that of a thing, of one or of several of it.
fn is_one_or_more(word: &str, thing: &str) -> bool {
    word.strip_prefix(thing).is_some_and(|end| ["", "s"].contains(&end))
}

/// Whether a clause of a text has a word of the state, with nothing shortly before it that takes it back; `may_follow` is asked of the word
/// behind.
fn says(text: &str, state: State, may_follow: impl Fn(&str) -> bool) -> bool {
    text.split([',', ';', '.', ':', '(', ')', '/']).any(|clause| {
        let words: Vec<&str> = words_with_hyphens(clause).collect();
        words.iter().enumerate().any(|(at, word)| {
            // `not smoked or cooked` denies both, and `to be fully cooked` is to come.
            let is_between = |word: &str| ["or", "nor", "be", "being", "been"].contains(&word) || word.ends_with("ly");
            let before = words.iter().take(at).rev().filter(|word| !is_between(word) && !tells(word, state));
            let is_back = before.take(2).any(|before| denies(before) || NOT_YET.contains(before));
            tells(word, state) && !is_back && words.get(at + 1).is_none_or(|next| may_follow(next))
        })
    })
}

fn tells(word: &str, state: State) -> bool {
    let is_whole = |(before, last): (&str, &str)| state.is_told_by(last) && !HALF.contains(&before);
    state.is_told_by(word) || word.rsplit_once('-').is_some_and(is_whole)
}

/// Nothing is cut away of fruit that goes in whole, and a piece of it weighs as much as one that is bought.
pub fn weigh_as_whole(line: &mut Ingredient) {
    let is_whole = line.preparation.as_ref().is_some_and(|said| goes_in_whole(line, said));
    if let (true, Refers::Pantry(Some(facts))) = (is_whole, &mut line.refers)
        && let Some(whole) = facts.as_whole()
    {
        *facts = Arc::new(whole);
        line.edible = None;
    }
}

/// Fruit and roots of which the peel is eaten: only of these nothing is cut away. Apples are cored, cherries stoned, and nobody eats the peel of
/// a banana or a mango.
const EATEN_WHOLE: &[&str] = &[
    "orange",
    "lemon",
    "lime",
    "mandarin",
    "clementine",
    "tangerine",
    "satsuma",
    "kumquat",
    "grapefruit",
    "bergamot",
    "yuzu",
    "citron",
    "fig",
    "potato",
    "carrot",
    "beetroot",
    "parsnip",
    "cucumber",
    "courgette",
    "zucchini",
    "radish",
];

/// Whether it goes in as it is bought, with its peel and all: oranges that are boiled whole, unpeeled potatoes. A whole carrot is peeled, and
/// what is denied, still to be peeled, or said of its zest or juice, is none of it.
fn goes_in_whole(line: &Ingredient, text: &str) -> bool {
    // Asked first, since it costs least and next to nothing else is.
    if !matches!(line.kind, Kind::Fruit | Kind::Vegetable) {
        return false;
    }
    let text = text.to_lowercase().replace("not peeled", "unpeeled");
    let name = line.name.key.as_str();
    let is_eaten = words_with_hyphens(name).any(|word| {
        EATEN_WHOLE
            .iter()
            .any(|thing| is_one_or_more(word.trim_end_matches("es"), thing) || is_one_or_more(word, thing))
    });
    let is_said = |clause: &str| {
        let said: Vec<&str> = words_with_hyphens(clause).collect();
        let has = |list: &[&str]| said.iter().any(|word| list.contains(word));
        let otherwise = has(&["not", "never", "no", "non", "half", "of", "to", "if", "or", "zest", "juice", "peel"]);
        let whole = said.first() == Some(&"whole") || said.last() == Some(&"whole");
        let unpeeled = has(&["unpeeled"]) || ["skin on", "in the skin"].iter().any(|words| clause.contains(words));
        !otherwise && (unpeeled || whole && line.kind == Kind::Fruit)
    };
    let loses = words_with_hyphens(&text).any(|word| {
        ["peeled", "pitted", "stoned", "cored", "trimmed", "juiced", "zested", "squeezed", "zest", "juice"]
            .contains(&word)
    });
    is_eaten && !loses && text.split(',').any(|clause| is_said(clause.trim()))
}

/// Whether a text, in lower case, has a word of the state, half so or denied as it may be.
pub fn may_be(text: &str, state: State) -> bool {
    words_without_hyphens(text).any(|word| state.is_told_by(word))
}

#[cfg(test)]
mod tests {
    use super::{State, is_said_to_be};

    /// Findings of a trial: each of the second kind was taken for cooked.
    #[test]
    fn a_state_is_neither_denied_nor_to_come_nor_of_another_thing() {
        let so = [State::Cooked, State::Preserved];
        let cooked = |name, said| so.into_iter().any(|state| is_said_to_be(name, Some(said), state));
        for (name, said) in [
            ("cooked chicken", ""),
            ("chicken", "cooked"),
            ("chicken", "roasted and pulled"),
            ("chicken", "skin off, pan-fried"),
            ("chicken", "cooked shredded"),
            ("chicken", "roasted the day before"),
            ("chicken", "cooked earlier"),
            ("chicken", "cooked to 75 C"),
            ("chicken", "boiled 8 min"),
            ("chicken", "cooked boneless"),
            ("chicken", "roasted skin removed"),
            ("chicken", "fully cooked strips"),
            ("chicken", "cut to size and cooked"),
            ("chicken", "boned for slicing and roasted"),
            ("chicken", "half a bird roasted"),
            ("chicken", "no skin and roasted"),
            ("chicken", "cooked/cooled"),
            ("egg", "hard-boiled"),
            ("egg", "boiled eggs, shelled"),
            ("kidney beans", "cooked beans"),
        ] {
            assert!(cooked(name, said), "{name}, {said}");
        }
        for (name, said) in [
            ("roasting chicken", ""),
            ("chicken breast", "to be roasted"),
            ("chicken breast", "not cooked"),
            ("chicken breast", "smoked paprika rubbed in"),
            ("chicken breast", "for fried chicken"),
            ("chicken breast", "not smoked"),
            ("chicken breast", "not smoked or cooked"),
            ("chicken breast", "roasted later"),
            ("chicken breast", "roasted hazelnuts inside"),
            ("chicken breast", "not yet cooked"),
            ("chicken breast", "boiled egg inside"),
            ("chicken breast", "with roasted pine nuts"),
            ("chicken breast", "to be fully cooked"),
            ("chicken", "half cooked"),
            ("chicken", "part-cooked"),
            ("chicken", "uncooked"),
        ] {
            assert!(!cooked(name, said), "{name}, {said}");
        }
    }

    /// What lies in, on or beside a roast. Common practice, no source.
    #[test]
    fn what_is_roasted_beside_a_thing_does_not_cook_it() {
        let mut taken = Vec::new();
        for other in [
            "almonds",
            "anchovies",
            "aubergines",
            "bacon",
            "beans",
            "bread",
            "breadcrumbs",
            "butter",
            "capers",
            "cauliflower",
            "chestnuts",
            "chilli",
            "coconut",
            "coriander",
            "courgettes",
            "croutons",
            "crumbs",
            "cumin",
            "egg",
            "eggs",
            "fennel",
            "garlic",
            "glaze",
            "hazelnuts",
            "herbs",
            "leeks",
            "lentils",
            "mushrooms",
            "mustard",
            "nuts",
            "oil",
            "onions",
            "paprika",
            "peas",
            "peanuts",
            "pecans",
            "pepper",
            "peppers",
            "pine nuts",
            "pistachios",
            "potatoes",
            "rice",
            "salt",
            "sauce",
            "seeds",
            "sesame",
            "shallots",
            "spices",
            "spinach",
            "tomatoes",
            "vegetables",
            "walnuts",
        ] {
            let said = format!("roasted {other} inside");
            if is_said_to_be("chicken breast", Some(&said), State::Cooked) {
                taken.push(other);
            }
        }
        assert!(taken.is_empty(), "{taken:?} roast the chicken");
        for own in ["meat", "breast", "chicken", "whole", "dry", "cold", "pieces", "slices", "joint", "mince"] {
            assert!(is_said_to_be("chicken breast", Some(&format!("cooked {own}")), State::Cooked), "{own}");
        }
    }
}
