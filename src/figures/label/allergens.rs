//! The allergens of what is sold, and what is not known of them.

use super::items::{Item, leaves};
use crate::model::allergen::Law;
use crate::model::species;

pub(super) fn of_unknown_allergens(list: &[Item]) -> Vec<String> {
    let mut names: Vec<String> = leaves(list)
        .into_iter()
        .filter(|item| !item.facts.as_ref().is_some_and(|facts| facts.knows_allergens))
        .map(|item| item.name.clone())
        .collect();
    names.sort();
    names.dedup();
    names
}

/// What is in all of it, in the law's words and order: in the European Union by the law's own headings with the cereals and nuts behind
/// them, in the United States with the nuts, species of fish and shellfish and the animals, which 21 USC 343(w) asks for.
pub(super) fn contains(list: &[Item], law: Law) -> Vec<String> {
    let leaves = leaves(list);
    let names = leaves.iter().filter_map(|item| item.facts.as_ref()).flat_map(|facts| &facts.allergens);
    let said = species::said(law, names.map(String::as_str));
    let mut shown: Vec<String> = Vec::new();
    let mut words: Vec<&str> = Vec::new();
    for one in &said {
        if words.contains(&one.word) {
            continue;
        }
        words.push(one.word);
        let of_it: Vec<&str> =
            said.iter().filter(|other| other.word == one.word).filter_map(|other| other.species.as_deref()).collect();
        let is_bare = said.iter().any(|other| other.word == one.word && other.species.is_none());
        // Goat's milk is no other allergen than milk; it is named beside it or instead of it.
        let animals = matches!(one.word, "milk" | "eggs");
        shown.push(match (of_it.is_empty(), animals, is_bare) {
            (true, ..) => one.word.to_owned(),
            (false, true, true) => format!("{}, {}", one.word, of_it.join(", ")),
            (false, true, false) => of_it.join(", "),
            (false, false, _) => format!("{} ({})", one.word, of_it.join(", ")),
        });
    }
    shown
}

/// Ingredients of which the law wants the species of an allergen and the larder does not say it, with the law's word.
pub(super) fn without_species(list: &[Item], law: Law) -> Vec<(String, &'static str)> {
    let mut found: Vec<(String, &'static str)> = Vec::new();
    for item in leaves(list) {
        for said in item.said(law).iter().filter(|said| said.lacks_species(law)) {
            let one = (item.listed().to_owned(), said.word);
            if !found.contains(&one) {
                found.push(one);
            }
        }
    }
    found
}
