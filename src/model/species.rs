//! Allergens as a law wants them said: the cereal, the nut, the species of fish, the animal by name.

use crate::model::allergen::{GLUTEN, Law, MILK, WHEATS, singular};
use crate::model::animals;

/// The kinds of cereal and nut that the laws want named, and the words of larder files for each; fish and crustaceans stand with the animals.
///
/// Regulation (EU) 1169/2011, Annex II, 1 and 8, with Commission notice 2017/C 428/01 (seen): the cereal and the nut by its name, and not
/// `gluten` or `nuts`. 21 USC 343(w)(2): the nut, the species of fish and of crustacean (as mass.gov tells it, seen; the rest from memory). Of a wheat the law's
/// word is wheat, whichever it is.
const SPECIES: &[(&str, &[&str])] = &[
    ("wheat", WHEATS),
    ("rye", &["rye", "triticale"]),
    ("barley", &["barley", "malt"]),
    ("oats", &["oat"]),
    ("almonds", &["almond", "marzipan", "frangipane"]),
    ("hazelnuts", &["hazelnut", "filbert", "cobnut", "gianduja"]),
    ("walnuts", &["walnut"]),
    ("cashews", &["cashew"]),
    ("pecan nuts", &["pecan"]),
    ("Brazil nuts", &["brazil nut", "brazil"]),
    ("pistachio nuts", &["pistachio"]),
    ("macadamia nuts", &["macadamia", "queensland nut"]),
    ("pine nuts", &["pine nut", "pine kernel", "pinon"]),
];

/// All kinds that are named, those of fish and crustaceans with them.
fn species() -> impl Iterator<Item = (&'static str, &'static [&'static str])> {
    SPECIES.iter().copied().chain(animals::species())
}

/// Animals of which milk and egg are named by them: the FDA's guidance on food allergens of January 2025 (from memory) has `milk` and
/// `egg` stand for those of cows and hens.
const OTHER_ANIMALS: &[&str] =
    &["goat", "sheep", "ewe", "buffalo", "mare", "camel", "duck", "goose", "quail", "turkey", "pheasant", "ostrich"];

/// Law words whose kind is named in the European Union and in the United States.
const EU_BY_KIND: &[&str] = &[GLUTEN, "nuts"];
/// Gluten of a cereal that nobody names may be wheat, which is the only one that United States law lists.
const US_BY_KIND: &[&str] = &["fish", "crustacean shellfish", "tree nuts", GLUTEN];

/// An allergen as a law wants it said.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub struct Said {
    /// The law's own word for its kind: `cereals containing gluten`.
    pub word: &'static str,
    /// The cereal, nut, species or animal, where the law wants that named.
    pub species: Option<String>,
}

impl Said {
    /// The word that stands on a label: that of the species where it is named, else the law's.
    pub fn shown(&self) -> &str {
        self.species.as_deref().unwrap_or(self.word)
    }

    /// Whether the law wants to know of which kind it is and nobody says.
    pub fn lacks_species(&self, law: Law) -> bool {
        self.species.is_none() && by_kind(law).contains(&self.word)
    }

    /// Whether the law has it in its list. Gluten of a cereal that nobody names is in none of the United States: it is asked about there.
    pub fn is_listed(&self, law: Law) -> bool {
        law.listed().contains(&self.word)
    }

    /// The word that stands on a label, and what the law still wants to know of it.
    pub fn shown_with_question(&self, law: Law) -> String {
        match self.lacks_species(law) {
            true => format!("{} (the law wants to know {})", self.word, wanted(law, self.word)),
            false => self.shown().to_owned(),
        }
    }

    /// Where in a text the allergen is named, as bytes: its own word or that of its kind, whole.
    pub fn named_in(&self, text: &str) -> Option<std::ops::Range<usize>> {
        let mut words: Vec<&str> = species()
            .filter(|(species, _)| self.species.as_deref() == Some(species))
            .flat_map(|(_, words)| words.iter().copied())
            .filter(|word| {
                self.species.as_deref().is_some_and(|species| singular(species) == *word) || *word == "wheat"
            })
            .collect();
        let own = self.species.as_deref().unwrap_or(self.word);
        words.push(own);
        words.extend(match self.word {
            "eggs" => &["egg"][..],
            "peanuts" => &["peanut"],
            "soybeans" => &["soya", "soy", "soybean"],
            "sesame seeds" | "sesame" => &["sesame"],
            "sulphur dioxide and sulphites" => &["sulphite", "sulphur dioxide"],
            "crustaceans" => &["crustacean"],
            "molluscs" => &["mollusc"],
            _ => &[],
        });
        let lower = text.to_lowercase();
        // Where folding changes how long a text is, its places are not those of the text.
        if lower.len() != text.len() {
            return None;
        }
        words.iter().find_map(|word| whole_word(&lower, &word.to_lowercase()))
    }
}

/// Where a word stands in a text by itself, in either number.
fn whole_word(text: &str, word: &str) -> Option<std::ops::Range<usize>> {
    let is_letter = |c: Option<char>| c.is_some_and(char::is_alphanumeric);
    text.match_indices(word).find_map(|(start, _)| {
        let mut end = start + word.len();
        if is_letter(text.get(..start)?.chars().next_back()) {
            return None;
        }
        for plural in ["es", "s"] {
            let after = text.get(end..)?;
            if after.strip_prefix(plural).is_some_and(|rest| !is_letter(rest.chars().next())) {
                end += plural.len();
                break;
            }
        }
        (!is_letter(text.get(end..)?.chars().next())).then_some(start..end)
    })
}

/// What a law wants to know of an allergen of which only the kind is named.
pub fn wanted(law: Law, word: &str) -> &'static str {
    match (law, word) {
        (_, "nuts" | "tree nuts") => "which nuts",
        (Law::Us, GLUTEN) => "whether that is wheat",
        (Law::Us, _) => "which species",
        _ => "which cereal",
    }
}

/// Words of a law whose kind is to be named.
fn by_kind(law: Law) -> &'static [&'static str] {
    match law {
        Law::Us => US_BY_KIND,
        Law::Eu => EU_BY_KIND,
    }
}

/// The allergens of one ingredient, as larder files name them, as this law wants them said, in its order, each once. A word that names only the kind says nothing
/// beside one that names the species.
pub fn said<'n>(law: Law, names: impl IntoIterator<Item = &'n str>) -> Vec<Said> {
    let mut found: Vec<Said> = Vec::new();
    let mut read: Vec<&str> = Vec::new();
    for name in names {
        read.push(name);
        let lower = name.to_lowercase();
        for word in law.words([name]) {
            for species in species_of(law, word, &lower) {
                let said = Said { word, species };
                if !found.contains(&said) {
                    found.push(said);
                }
            }
        }
    }
    found.extend(may_be_wheat(law, &read).then_some(Said { word: GLUTEN, species: None }));
    let with_species: Vec<&str> = found.iter().filter(|said| said.species.is_some()).map(|said| said.word).collect();
    found.retain(|said| said.species.is_some() || !with_species.contains(&said.word));
    found.sort_by_key(|said| law.listed().iter().position(|word| *word == said.word));
    found
}

/// Whether a law that lists wheat alone has to be asked, since gluten is in it and no name says of which cereal.
pub fn may_be_wheat(law: Law, names: &[&str]) -> bool {
    let is_bare = |name: &&str| {
        law == Law::Us
            && Law::Eu.is(name, GLUTEN)
            && law.words([*name]).is_empty()
            && species_of(Law::Eu, GLUTEN, &name.to_lowercase()) == [None]
    };
    let names_cereal = |name: &&str| {
        Law::Eu.is(name, GLUTEN)
            && (law.is(name, "wheat") || species_of(Law::Eu, GLUTEN, &name.to_lowercase()) != [None])
    };
    names.iter().any(is_bare) && !names.iter().any(names_cereal)
}

/// The words of some that say most: `gluten` says nothing beside `rye`, nor `tree nuts` beside `almond`.
pub fn most_exact(names: &[String]) -> Vec<String> {
    // Most ingredients have one allergen or none, and nothing stands beside it.
    if names.len() < 2 {
        return names.to_vec();
    }
    let is_exact = |name: &&String| {
        [Law::Eu, Law::Us].iter().any(|law| said(*law, [name.as_str()]).iter().any(|said| said.species.is_some()))
    };
    let words = |name: &String| [Law::Eu, Law::Us].map(|law| law.words([name.as_str()]));
    let (exact, vague): (Vec<&String>, Vec<&String>) = names.iter().partition(is_exact);
    let exact: Vec<_> = exact.into_iter().map(words).collect();
    let is_covered = |name: &String| {
        let of = words(name);
        let covers =
            |more: &[Vec<&str>; 2]| of.iter().zip(more).all(|(one, other)| one.iter().all(|word| other.contains(word)));
        vague.contains(&name) && exact.iter().any(covers)
    };
    names.iter().filter(|name| !is_covered(name)).cloned().collect()
}

/// The species that a larder's word names, where the law wants it; `None` where it names none.
fn species_of(law: Law, word: &str, name: &str) -> Vec<Option<String>> {
    if law == Law::Us && (word == MILK || word == "eggs") {
        let animal = OTHER_ANIMALS.iter().find(|animal| whole_word(name, animal).is_some());
        let what = if word == MILK { "milk" } else { "egg" };
        let animal = animal.map(|animal| if *animal == "ewe" { "sheep" } else { animal });
        return vec![animal.map(|animal| format!("{animal} {what}"))];
    }
    if !by_kind(law).contains(&word) {
        return vec![None];
    }
    let one = singular(name);
    let is = |known: &str| known == one || known == name || whole_word(name, known).is_some();
    let found: Vec<Option<String>> = species()
        .filter(|(_, words)| words.iter().any(|known| is(known)))
        .filter(|(species, _)| law.words([*species]).contains(&word))
        .map(|(species, _)| Some(species.to_owned()))
        .collect();
    if found.is_empty() { vec![None] } else { found }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Commission notice 2017/C 428/01 (seen) and 21 USC 343(w)(2), from memory; FDA guidance of January 2025 on goat milk and duck egg (from
    /// memory).
    #[test]
    fn the_laws_want_the_species() {
        let said = |law: Law, names: &[&str]| -> Vec<String> {
            super::said(law, names.iter().copied()).iter().map(|said| said.shown().to_owned()).collect()
        };
        assert_eq!(said(Law::Eu, &["wheat", "gluten", "milk"]), ["wheat", "milk"]);
        assert_eq!(said(Law::Eu, &["gluten"]), ["cereals containing gluten"]);
        assert_eq!(said(Law::Eu, &["rye", "wheat", "gluten"]), ["rye", "wheat"]);
        assert_eq!(said(Law::Eu, &["spelt"]), ["wheat"]);
        assert_eq!(said(Law::Eu, &["almond", "tree nuts"]), ["almonds"]);
        assert_eq!(said(Law::Us, &["almond", "tree nuts", "cod", "fish"]), ["cod", "almonds"]);
        assert_eq!(said(Law::Eu, &["cod", "fish"]), ["fish"]);
        assert_eq!(said(Law::Us, &["tree nuts"]), ["tree nuts"]);
        // Gluten that nobody names the cereal of may be wheat; that of rye or oats is not.
        assert_eq!(said(Law::Us, &["celery", "gluten"]), ["cereals containing gluten"]);
        assert_eq!(said(Law::Us, &["cereals containing gluten", "milk"]), ["cereals containing gluten", "milk"]);
        assert!(super::said(Law::Us, ["gluten"]).iter().all(|said| said.lacks_species(Law::Us)));
        assert!(said(Law::Us, &["rye", "gluten"]).is_empty() && said(Law::Us, &["oats"]).is_empty());
        assert_eq!(said(Law::Us, &["wheat", "gluten"]), ["wheat"]);
        assert_eq!(said(Law::Us, &["pasta", "gluten"]), ["wheat"]);
        assert_eq!(said(Law::Us, &["goat milk", "milk"]), ["goat milk"]);
        assert_eq!(said(Law::Us, &["goat milk"]), ["goat milk"]);
        assert_eq!(said(Law::Eu, &["goat milk"]), ["milk"]);
        assert_eq!(said(Law::Us, &["duck egg"]), ["duck egg"]);
        assert!(said(Law::Eu, &["pine nut"]).is_empty());
        assert_eq!(said(Law::Us, &["pine nut"]), ["pine nuts"]);
        assert!(said(Law::Us, &["refined peanut oil"]).is_empty());
        assert_eq!(said(Law::Eu, &["refined peanut oil"]), ["peanuts"]);
        assert_eq!(said(Law::Us, &["prawns"]), ["shrimp"]);
        assert_eq!(said(Law::Eu, &["triticale"]), ["wheat", "rye"]);
    }

    #[test]
    fn the_exact_word_is_enough() {
        let exact = |names: &[&str]| most_exact(&names.iter().map(|name| (*name).to_owned()).collect::<Vec<String>>());
        assert_eq!(exact(&["rye", "gluten"]), ["rye"]);
        assert_eq!(exact(&["gluten", "milk"]), ["gluten", "milk"]);
        assert_eq!(exact(&["almond", "tree nuts", "peanuts"]), ["almond", "peanuts"]);
        // Pine nuts are none of the European Union's nuts, so `tree nuts` says more than they do.
        assert_eq!(exact(&["pine nut", "tree nuts"]), ["pine nut", "tree nuts"]);
        assert_eq!(exact(&["cod", "fish"]), ["cod"]);
    }

    #[test]
    fn the_very_word_is_found_in_a_name() {
        let at = |name: &str, law: Law, text: &str| {
            super::said(law, [name]).first().and_then(|said| said.named_in(text)).map(|range| text[range].to_owned())
        };
        assert_eq!(at("milk", Law::Eu, "whole milk").as_deref(), Some("milk"));
        assert_eq!(at("wheat", Law::Eu, "strong white flour"), None);
        assert_eq!(at("wheat", Law::Eu, "buckwheat noodles"), None);
        assert_eq!(at("egg", Law::Eu, "Eggs, beaten").as_deref(), Some("Eggs"));
        assert_eq!(at("almond", Law::Eu, "ground almonds").as_deref(), Some("almonds"));
        assert_eq!(at("soy", Law::Eu, "soy sauce").as_deref(), Some("soy"));
        assert_eq!(at("milk", Law::Eu, "buttermilk"), None);
        assert_eq!(at("wheat", Law::Eu, "spelt flour"), None);
    }

    /// One wording wherever an allergen is told of which the law wants to know more: on a label, and where an editor shows what is known.
    #[test]
    fn what_a_law_wants_to_know_is_said_in_one_place() {
        let shown = |law: Law, names: &[&str]| -> Vec<String> {
            said(law, names.iter().copied()).iter().map(|one| one.shown_with_question(law)).collect()
        };
        assert_eq!(
            shown(Law::Us, &["gluten"]),
            ["cereals containing gluten (the law wants to know whether that is wheat)"]
        );
        assert_eq!(shown(Law::Eu, &["gluten"]), ["cereals containing gluten (the law wants to know which cereal)"]);
        assert_eq!(shown(Law::Eu, &["rye", "milk"]), ["rye", "milk"]);
        assert!(!said(Law::Us, ["gluten"]).iter().any(|one| one.is_listed(Law::Us)));
    }
}
