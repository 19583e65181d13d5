//! Allergens in the words of the law: the nine of the United States and the fourteen of the European Union.
//!
//! Sources: Food Allergen Labeling and Consumer Protection Act of 2004 with the FASTER Act of 2021 (United States);
//! Regulation (EU) 1169/2011, Annex II. Larder files name an allergen in plain words; here it becomes the law's.

use crate::model::recipe::{Ingredient, PartId, Recipe, Refers};
use std::collections::HashSet;

/// Whose law.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Law {
    /// United States: nine.
    Us,
    /// European Union: fourteen.
    Eu,
}

/// An allergen of the law: its word, and how the names begin that larder files give it.
struct Entry {
    word: &'static str,
    names: &'static [&'static str],
}

const fn entry(word: &'static str, names: &'static [&'static str]) -> Entry {
    Entry { word, names }
}

const NUTS: &[&str] =
    &["nut", "tree nut", "almond", "hazelnut", "walnut", "cashew", "pecan", "brazil nut", "pistachio", "macadamia"];

/// FALCPA 2004 and FASTER 2021.
const US: &[Entry] = &[
    entry("milk", &["milk", "lactose"]),
    entry("eggs", &["egg"]),
    entry("fish", &["fish"]),
    entry("crustacean shellfish", &["crustacean", "shellfish"]),
    entry("tree nuts", NUTS),
    entry("peanuts", &["peanut"]),
    entry("wheat", &["wheat", "spelt", "kamut", "khorasan", "emmer", "einkorn", "durum"]),
    entry("soybeans", &["soy"]),
    entry("sesame", &["sesame"]),
];

/// Regulation (EU) 1169/2011, Annex II, shortened to the head words.
const EU: &[Entry] = &[
    entry(
        "cereals containing gluten",
        &[
            "wheat",
            "rye",
            "barley",
            "oat",
            "spelt",
            "kamut",
            "khorasan",
            "emmer",
            "einkorn",
            "durum",
            "triticale",
            "gluten",
            "cereal",
        ],
    ),
    entry("crustaceans", &["crustacean"]),
    entry("eggs", &["egg"]),
    entry("fish", &["fish"]),
    entry("peanuts", &["peanut"]),
    entry("soybeans", &["soy"]),
    entry("milk", &["milk", "lactose"]),
    entry("nuts", NUTS),
    entry("celery", &["celery", "celeriac"]),
    entry("mustard", &["mustard"]),
    entry("sesame seeds", &["sesame"]),
    entry("sulphur dioxide and sulphites", &["sulph", "sulf"]),
    entry("lupin", &["lupin"]),
    entry("molluscs", &["mollus"]),
];

impl Law {
    fn entries(self) -> &'static [Entry] {
        match self {
            Law::Us => US,
            Law::Eu => EU,
        }
    }

    /// The law's word for an allergen that a larder file names; `None` where that law does not list it.
    pub fn word(self, name: &str) -> Option<&'static str> {
        let name = name.to_lowercase();
        let is = |entry: &&Entry| entry.names.iter().any(|begins| name.starts_with(begins));
        self.entries().iter().find(is).map(|entry| entry.word)
    }

    /// The law's words for some allergens, in the order of the law.
    pub fn words<'n>(self, names: impl IntoIterator<Item = &'n str>) -> Vec<&'static str> {
        let found: Vec<&str> = names.into_iter().filter_map(|name| self.word(name)).collect();
        self.entries().iter().map(|entry| entry.word).filter(|word| found.contains(word)).collect()
    }
}

/// What is found in some parts.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Found {
    /// Allergens as larder files name them, each once, in the order in which they are met.
    pub known: Vec<String>,
    /// Ingredients of which nothing is known, as often as they are met.
    pub unknown: Vec<String>,
}

/// What is in some parts and all parts in them, also what is set aside or optional: it still touches the food.
///
/// Each part is looked at once, however many ways lead to it. The program's own stack is not used: parts may lie deep in
/// parts.
pub fn of_parts(recipe: &Recipe, parts: impl IntoIterator<Item = PartId>) -> Found {
    let mut found = Found::default();
    let mut seen = HashSet::new();
    for first in parts {
        let mut open: Vec<Lines<'_>> = seen.insert(first).then(|| Lines::of(recipe, first)).into_iter().collect();
        while let Some(lines) = open.last_mut() {
            let Some(line) = lines.left.next() else {
                open.pop();
                continue;
            };
            match &line.refers {
                Refers::Part(other) => {
                    if seen.insert(*other) {
                        open.push(Lines::of(recipe, *other));
                    }
                }
                Refers::Pantry(Some(facts)) => {
                    for allergen in &facts.allergens {
                        if !found.known.contains(allergen) {
                            found.known.push(allergen.clone());
                        }
                    }
                }
                // A preferment's lines stand in the formula it is taken out of.
                Refers::Pantry(None) if lines.are_repeated => {}
                Refers::Pantry(None) => found.unknown.push(line.name.to_string()),
            }
        }
    }
    found
}

/// The lines of a part that were not looked at yet.
struct Lines<'a> {
    left: std::slice::Iter<'a, Ingredient>,
    are_repeated: bool,
}

impl<'a> Lines<'a> {
    fn of(recipe: &'a Recipe, id: PartId) -> Lines<'a> {
        let part = recipe.part(id);
        Lines {
            left: part.map_or(&[][..], |part| &part.lines).iter(),
            are_repeated: part.is_some_and(|part| part.from.is_some()),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// FASTER Act: nine; Regulation (EU) 1169/2011, Annex II: fourteen.
    #[test]
    fn the_laws_list_nine_and_fourteen() {
        assert_eq!(US.len(), 9);
        assert_eq!(EU.len(), 14);
    }

    /// Rye is an allergen in the European Union and not in the United States, where only wheat is listed.
    #[test]
    fn the_laws_differ() {
        assert_eq!(Law::Eu.word("rye"), Some("cereals containing gluten"));
        assert_eq!(Law::Us.word("rye"), None);
        assert_eq!(Law::Us.word("Wheat"), Some("wheat"));
        assert_eq!(Law::Us.word("molluscs"), None);
        assert_eq!(Law::Eu.words(["milk", "rye", "wheat"]), ["cereals containing gluten", "milk"]);
    }
}
