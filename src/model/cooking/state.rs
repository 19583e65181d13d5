//! What the words of a line say that a thing is: cooked, smoked, minced. What they deny, leave for later or say of something else is none
//! of it: `not cooked`, `to be roasted`, `smoked paprika rubbed in`.

use super::animals::is_of_animal;

/// Words before a state by which it is not so, or not yet.
const NOT_YET: &[&str] = &[
    "not", "never", "no", "non", "un", "to", "for", "before", "until", "when", "if", "half", "part", "partly",
    "barely", "raw", "later", "without", "like",
];

/// Words behind a state in a preparation by which it is still that of the thing itself.
const GOES_ON: &[&str] = &[
    "and",
    "or",
    "then",
    "but",
    "in",
    "with",
    "on",
    "off",
    "from",
    "until",
    "at",
    "by",
    "whole",
    "cold",
    "hot",
    "warm",
    "through",
    "already",
    "first",
    "meat",
    "flesh",
    "leftovers",
    "weight",
    "yesterday",
];

/// Words before a hyphen by which it is half so at most: `part-cooked`.
const HALF: &[&str] = &["half", "part", "par", "un", "non", "under", "semi", "soft", "lightly", "partly"];

/// Whether a name or what is said behind it, both in lower case, says of the thing itself that it is one of these.
pub fn is_said_to_be(name: &str, preparation: Option<&str>, states: &[&str]) -> bool {
    let in_name = || says(name, states, |_| true);
    let goes_on = |next: &str| {
        let is_another = ["ed", "en", "ly"].iter().any(|end| next.ends_with(end));
        GOES_ON.contains(&next) || is_another || is_of_animal(next)
    };
    in_name() || preparation.is_some_and(|said| says(said, states, goes_on))
}

/// Whether a clause of a text has one of the states, with nothing before it that takes it back; `may_follow` is asked of the word behind.
fn says(text: &str, states: &[&str], may_follow: impl Fn(&str) -> bool) -> bool {
    text.split([',', ';', '.', ':', '(', ')']).any(|clause| {
        let words: Vec<&str> = words(clause).collect();
        words.iter().enumerate().any(|(at, word)| {
            let is_back = words.iter().take(at).any(|before| NOT_YET.contains(before));
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
            ("chicken", "half cooked"),
            ("chicken", "part-cooked"),
            ("chicken", "uncooked"),
        ] {
            assert!(!cooked(name, said), "{name}, {said}");
        }
    }
}
