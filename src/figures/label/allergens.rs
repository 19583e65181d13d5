//! The allergens of what is sold, and what is not known of them.

use super::items::{Item, leaves};
use crate::model::allergen::Law;
use crate::model::contains::traces_besides;
use crate::model::sale::both;
use crate::model::species::Said;

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
    let mut said: Vec<Said> = Vec::new();
    for one in leaves(list).into_iter().flat_map(|item| item.said(law)) {
        if !said.contains(&one) {
            said.push(one);
        }
    }
    let mut shown: Vec<String> = Vec::new();
    for word in law.listed() {
        let of_it: Vec<&Said> = said.iter().filter(|one| one.word == *word).collect();
        let species: Vec<&str> = of_it.iter().filter_map(|one| one.species.as_deref()).collect();
        let is_bare = of_it.len() > species.len();
        // Goat's milk is named beside milk or instead of it; almonds are named behind the nuts.
        if matches!(*word, "milk" | "eggs") {
            shown.extend(is_bare.then(|| (*word).to_owned()));
            shown.extend(species.into_iter().map(str::to_owned));
        } else if !species.is_empty() {
            shown.push(format!("{word} ({})", species.join(", ")));
        } else if is_bare {
            shown.push((*word).to_owned());
        }
    }
    shown
}

/// The traces that the packs of its ingredients name; `None` where none does.
pub(super) fn said_of_ingredients(list: &[Item]) -> Option<String> {
    let words = leaves(list).into_iter().filter_map(|item| item.facts.as_ref()).flat_map(|facts| facts.traces.iter());
    let words: Vec<&str> = words.map(String::as_str).collect();
    both(None, Some(words.join(", ").as_str()))
}

/// Those of some traces that are not in it anyway; `None` where all are.
pub(super) fn traces(traces: &str, list: &[Item], law: Law) -> Option<String> {
    let held: Vec<Said> = leaves(list).into_iter().flat_map(|item| item.said(law)).collect();
    traces_besides(traces, &held, law)
}

/// Ingredients of which the law wants the species of an allergen and the larder does not say it, with the law's word.
pub(super) fn without_species(list: &[Item], law: Law) -> Vec<(String, &'static str)> {
    let mut found: Vec<(String, &'static str)> = Vec::new();
    for item in leaves(list) {
        for said in item.said(law).iter().filter(|said| said.lacks_species(law)) {
            let one = (item.listed(law).to_owned(), said.word);
            if !found.contains(&one) {
                found.push(one);
            }
        }
    }
    found
}
