//! What the words of a line say that a thing is: cooked, smoked, minced. What they deny, leave for later or say of something else is none
//! of it: `not cooked`, `to be roasted`, `smoked paprika rubbed in`.

use super::animals::is_of_animal;

/// Words right before a state, or one word before that, by which it is not so, or not yet.
const NOT_YET: &[&str] = &[
    "not", "never", "no", "non", "un", "to", "for", "before", "until", "when", "if", "half", "part", "partly",
    "barely", "raw", "later", "without", "like",
];

/// Words behind a state by which it is still to come.
const LATER: &[&str] = &["later", "afterwards", "below", "tomorrow", "above"];

/// Things that stand behind a state which is theirs: what goes onto, into or beside the thing that the line is of.
const OTHER_THINGS: &[&str] = &[
    "almond",
    "anchov",
    "aubergine",
    "bacon",
    "bean",
    "bread",
    "breadcrumb",
    "butter",
    "cauliflower",
    "chestnut",
    "chilli",
    "coconut",
    "coriander",
    "crouton",
    "crumb",
    "cumin",
    "garlic",
    "glaze",
    "hazelnut",
    "herb",
    "lentil",
    "mushroom",
    "mustard",
    "nut",
    "oil",
    "onion",
    "paprika",
    "pea",
    "peanut",
    "pecan",
    "pepper",
    "pine",
    "pistachio",
    "potato",
    "rice",
    "salt",
    "sauce",
    "seed",
    "sesame",
    "shallot",
    "spice",
    "tomato",
    "vegetable",
    "walnut",
];

/// Words before a hyphen by which it is half so at most: `part-cooked`.
const HALF: &[&str] = &["half", "part", "par", "un", "non", "under", "semi", "soft", "lightly", "partly"];

/// Whether a name or what is said behind it, both in lower case, says of the thing itself that it is one of these.
pub fn is_said_to_be(name: &str, preparation: Option<&str>, states: &[&str]) -> bool {
    let in_name = || says(name, states, |_| true);
    // `smoked paprika rubbed in`: not the thing itself; `roasted the day before`, `cooked boneless`: that.
    let goes_on = |next: &str| {
        is_of_animal(next) || !(LATER.contains(&next) || OTHER_THINGS.iter().any(|thing| is_one_or_more(next, thing)))
    };
    in_name() || preparation.is_some_and(|said| says(said, states, goes_on))
}

/// Whether a word is that of a thing, of one or of several of it.
fn is_one_or_more(word: &str, thing: &str) -> bool {
    word.strip_prefix(thing).is_some_and(|end| ["", "s", "es", "y", "ies"].contains(&end))
}

/// Whether a clause of a text has one of the states, with nothing shortly before it that takes it back; `may_follow` is asked of the word
/// behind.
fn says(text: &str, states: &[&str], may_follow: impl Fn(&str) -> bool) -> bool {
    text.split([',', ';', '.', ':', '(', ')', '/']).any(|clause| {
        let words: Vec<&str> = words(clause).collect();
        words.iter().enumerate().any(|(at, word)| {
            // `not smoked or cooked` denies both, and `to be fully cooked` is to come.
            let is_between = |word: &str| ["or", "nor", "be", "being", "been"].contains(&word) || word.ends_with("ly");
            let before = words.iter().take(at).rev().filter(|word| !is_between(word) && !is_state(word, states));
            let is_back = before.take(2).any(|before| NOT_YET.contains(before));
            is_state(word, states) && !is_back && words.get(at + 1).is_none_or(|next| may_follow(next))
        })
    })
}

fn is_state(word: &str, states: &[&str]) -> bool {
    states.contains(&word)
        || word.rsplit_once('-').is_some_and(|(before, last)| states.contains(&last) && !HALF.contains(&before))
}

/// The words of a text, hyphens within them kept, signs around them left off.
pub fn words(text: &str) -> impl Iterator<Item = &str> {
    let words = text.split_whitespace().map(|word| word.trim_matches(|c: char| !c.is_alphanumeric()));
    words.filter(|word| !word.is_empty())
}

#[cfg(test)]
mod tests {
    use super::is_said_to_be;

    /// Findings of a trial: each of the second kind was taken for cooked.
    #[test]
    fn a_state_is_neither_denied_nor_to_come_nor_of_another_thing() {
        let cooked = |name, said| is_said_to_be(name, Some(said), &["cooked", "roasted", "fried", "smoked", "boiled"]);
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
            ("chicken breast", "to be fully cooked"),
            ("chicken", "half cooked"),
            ("chicken", "part-cooked"),
            ("chicken", "uncooked"),
        ] {
            assert!(!cooked(name, said), "{name}, {said}");
        }
    }
}
