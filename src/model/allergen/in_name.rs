//! Which allergens of the law a name speaks of, word by word, and of which it says that they are not in it.

use super::{ENTRIES, Entry, MILK, singular};
use crate::model::kind::PLANTS;
use crate::text::words::words_without_hyphens;

/// What is called like something that a law lists, and is something else.
#[rustfmt::skip]
const NAMESAKES: &[&str] = &[
    "cream of", "butter bean", "oyster mushroom", "cocoa butter", "shea butter", "oyster plant", "butter lettuce", "crab apple", "fish mint",
    "egg fruit", "egg plant", "milk thistle", "peach butter", "apple butter",
];

/// Words with which a name says that nothing behind them is in it.
const WITHOUT: &[&str] = &["not", "without", "never"];
/// The same of the one thing that they stand before.
const NOT_THE_NEXT: &[&str] = &["no", "non"];

/// The entries that are called so, in the singular or the plural.
pub(super) fn called(asked: &str) -> Vec<&'static Entry> {
    let one = singular(asked);
    ENTRIES.iter().filter(|entry| entry.names().any(|known| known == asked || known == one)).collect()
}

/// The entries that a name stands for: as a whole, else all those of what it lists, without what it says it is free of.
pub(super) fn entries(name: &str) -> Vec<&'static Entry> {
    let name = name.to_lowercase();
    let whole = called(&name);
    if !whole.is_empty() {
        return whole;
    }
    let words: Vec<&str> = words_without_hyphens(&name).collect();
    let (words, out) = without_what_is_not_in_it(&words);
    let found = words.split(|word| ["and", "or"].contains(word)).flat_map(in_words);
    found.filter(|entry| !out.iter().any(|out| is_ruled_out(entry, out))).collect()
}

/// Whether what is free of one thing has none of another either: butter without milk, a mix without gluten that is called after wheat. What is
/// without wheat may be of rye.
fn is_ruled_out(entry: &Entry, out: &Entry) -> bool {
    match out.us {
        Some(word) => entry.us == Some(word),
        None => entry.eu == out.eu,
    }
}

/// The words of a name that say what is in it, and the entries of those that say what is not.
///
/// Only what it is free *of* is not: `free range eggs` are eggs, and `sugar-free peanut butter` is of peanuts. Milk without lactose is milk.
fn without_what_is_not_in_it<'w>(words: &[&'w str]) -> (Vec<&'w str>, Vec<&'static Entry>) {
    let (mut left, mut out): (Vec<&str>, Vec<&str>) = (Vec::new(), Vec::new());
    let mut rest = words.iter().copied().peekable();
    while let Some(word) = rest.next() {
        let is_list = word == "free" && rest.peek().is_some_and(|next| ["from", "of"].contains(next));
        if is_list || WITHOUT.contains(&word) {
            out.extend(rest.by_ref());
        } else if word == "free" {
            // All that is listed right before it: `egg and dairy free`.
            loop {
                let two = left.iter().rev().take(2).rev().copied().collect::<Vec<&str>>().join(" ");
                let more = usize::from(left.len() > 1 && !called(&two).is_empty());
                for _ in 0..=more {
                    out.extend(left.pop());
                }
                if !left.last().is_some_and(|before| ["and", "or"].contains(before)) {
                    break;
                }
                left.pop();
            }
        } else if NOT_THE_NEXT.contains(&word) {
            out.extend(rest.next());
        } else {
            left.push(word);
        }
    }
    out.retain(|word| *word != "lactose");
    (left, in_words(&out))
}

/// The entries of a row of words, two together before each alone, so that `brazil nut` is one thing and `wheat soy bean` two.
fn in_words(words: &[&str]) -> Vec<&'static Entry> {
    let mut found = Vec::new();
    let mut left = words;
    let mut of_a_plant = false;
    while let [first, rest @ ..] = left {
        let pair = rest.first().map(|second| format!("{first} {second}"));
        let is_namesake = |pair: &str| NAMESAKES.contains(&pair) || NAMESAKES.contains(&singular(pair).as_str());
        let of_two = pair.as_deref().map(called).unwrap_or_default();
        of_a_plant |= PLANTS.contains(first);
        if pair.as_deref().is_some_and(is_namesake) || !of_two.is_empty() {
            found.extend(of_two);
            left = rest.get(1..).unwrap_or_default();
        } else {
            found.extend(called(first).into_iter().filter(|entry| !(of_a_plant && entry.eu == Some(MILK))));
            left = rest;
        }
    }
    found
}

#[cfg(test)]
mod tests {
    use crate::model::allergen::{GLUTEN, Law, is_known};

    /// Nobody may be told that something contains what it says it is free of, or the other way round.
    #[test]
    fn what_is_not_in_it_is_not_read_as_in_it() {
        for name in [
            "dairy-free",
            "gluten free",
            "no nuts",
            "free from milk",
            "without egg",
            "non-dairy",
            "egg and dairy free",
            "dairy-free butter",
            "no-egg mayonnaise",
            "soya bean free",
            "gluten-free wheat",
        ] {
            assert!(!is_known(name), "{name}");
        }
    }

    /// Every name with `free` in it was passed over, whatever it was free of.
    #[test]
    fn only_what_a_name_is_free_of_is_not_in_it() {
        for (name, word) in [
            ("free range eggs", "eggs"),
            ("cage-free eggs", "eggs"),
            ("lactose-free milk", "milk"),
            ("sugar-free peanut butter", "peanuts"),
            ("guilt-free hazelnut cream", "nuts"),
            ("dairy-free hazelnut cream", "nuts"),
            ("milk of the free cow", "milk"),
            ("no-stir peanut butter", "peanuts"),
            ("wheat-free rye", GLUTEN),
        ] {
            assert_eq!(Law::Eu.words([name]), [word], "{name}");
        }
    }
}
