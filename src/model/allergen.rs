//! Allergens in the words of the law: the nine of the United States and the fourteen of the European Union.
//!
//! Sources: Food Allergen Labeling and Consumer Protection Act of 2004 with the FASTER Act of 2021 (United States);
//! Regulation (EU) 1169/2011, Annex II. Larder files name an allergen in plain words; here it becomes the law's. What a plain
//! word stands for (cheese for milk, malt for barley, cod for fish) is after the FDA's guidance 'Questions and Answers
//! Regarding Food Allergens' and the technical guidance of the UK's Food Standards Agency, both from memory. Pine nuts are tree
//! nuts for the FDA and no nuts of Annex II; coconut is in neither list since the FDA's edition of January 2025 (from memory).

mod in_name;
mod listed;

use crate::model::animals::{CRUSTACEANS, FISH, MOLLUSCS};
use in_name::entries;
pub use listed::listed_in;

/// Whose law.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Law {
    /// United States: nine.
    Us,
    /// European Union: fourteen.
    Eu,
}

/// Words that mean the same for both laws.
struct Entry {
    /// The law's word in the United States, if it lists it.
    us: Option<&'static str>,
    /// The law's word in the European Union, if it lists it.
    eu: Option<&'static str>,
    /// What larder files call it, in lower case and in the singular; the first says it best.
    names: &'static [&'static str],
    /// The animals of which it is.
    animals: &'static [&'static str],
}

impl Entry {
    /// Everything that it is called.
    fn names(&self) -> impl Iterator<Item = &'static str> {
        self.names.iter().chain(self.animals).copied()
    }

    /// The same, of some animals.
    const fn of(self, animals: &'static [&'static str]) -> Entry {
        Entry { animals, ..self }
    }
}

pub(super) const MILK: &str = "milk";
pub(crate) const GLUTEN: &str = "cereals containing gluten";

/// The words of the laws, in their order.
const US: &[&str] =
    &[MILK, "eggs", "fish", "crustacean shellfish", "tree nuts", "peanuts", "wheat", "soybeans", "sesame"];
const EU: &[&str] = &[
    GLUTEN,
    "crustaceans",
    "eggs",
    "fish",
    "peanuts",
    "soybeans",
    MILK,
    "nuts",
    "celery",
    "mustard",
    "sesame seeds",
    "sulphur dioxide and sulphites",
    "lupin",
    "molluscs",
];

const fn both(us: &'static str, eu: &'static str, names: &'static [&'static str]) -> Entry {
    Entry { us: Some(us), eu: Some(eu), names, animals: &[] }
}

const fn eu(word: &'static str, names: &'static [&'static str]) -> Entry {
    Entry { us: None, eu: Some(word), names, animals: &[] }
}

/// What is wheat, whatever it is called.
pub(super) const WHEATS: &[&str] = &[
    "wheat",
    "spelt",
    "kamut",
    "khorasan",
    "emmer",
    "einkorn",
    "durum",
    "semolina",
    "farro",
    "bulgur",
    "bulghur",
    "wheatgerm",
    "couscous",
    "graham",
    "farina",
    "seitan",
    "triticale",
    "freekeh",
    "dinkel",
];

const ENTRIES: &[Entry] = &[
    both("wheat", GLUTEN, WHEATS),
    // Which cereal they are of stands on the pack; United States law is asked about wheat alone.
    both("wheat", GLUTEN, &["wholemeal", "pasta"]),
    eu(
        GLUTEN,
        &[
            "gluten",
            "cereal",
            "cereals containing gluten",
            "cereal containing gluten",
            "rye",
            "barley",
            "oat",
            "malt",
            "gluten-containing cereal",
        ],
    ),
    both(
        "crustacean shellfish",
        "crustaceans",
        &["crustacean", "crustacean shellfish", "shellfish", "shell fish", "crustacea"],
    )
    .of(CRUSTACEANS),
    eu("molluscs", &["mollusc", "mollusk", "molluscan shellfish", "shellfish", "shell fish"]).of(MOLLUSCS),
    both("eggs", "eggs", &["egg", "albumen", "albumin", "ovalbumin", "yolk", "mayonnaise", "meringue", "lysozyme"]),
    both("fish", "fish", &["fish", "caviar", "roe", "surimi"]).of(FISH),
    both("peanuts", "peanuts", &["peanut", "groundnut", "ground nut", "arachis", "monkey nut", "earth nut", "goober"]),
    both(
        "soybeans",
        "soybeans",
        &[
            "soy",
            "soya",
            "soybean",
            "soyabean",
            "soy bean",
            "soya bean",
            "tofu",
            "edamame",
            "tempeh",
            "miso",
            "tamari",
            "natto",
        ],
    ),
    both(
        MILK,
        MILK,
        &[
            "milk",
            "dairy",
            "lactose",
            "cheese",
            "cream",
            "whey",
            "butter",
            "buttermilk",
            "casein",
            "caseinate",
            "curd",
            "ghee",
            "kefir",
            "lactalbumin",
            "quark",
            "skyr",
            "butterfat",
            "yoghurt",
            "yogurt",
        ],
    ),
    both(
        "tree nuts",
        "nuts",
        &[
            "nut",
            "tree nut",
            "almond",
            "hazelnut",
            "filbert",
            "cobnut",
            "walnut",
            "cashew",
            "pecan",
            "brazil nut",
            "brazil",
            "pistachio",
            "macadamia",
            "queensland nut",
            "marzipan",
            "praline",
            "gianduja",
            "frangipane",
        ],
    ),
    Entry { us: Some("tree nuts"), eu: None, names: &["pine nut", "pine kernel", "pinon"], animals: &[] },
    eu("celery", &["celery", "celeriac"]),
    eu("mustard", &["mustard"]),
    both("sesame", "sesame seeds", &["sesame", "sesame seed", "tahini", "tahina", "benne", "gingelly", "halva"]),
    // Highly refined oil is exempt in the United States; Annex II exempts that of soybeans only.
    eu("peanuts", &["refined peanut oil", "refined groundnut oil", "highly refined peanut oil"]),
    eu("lupin", &["lupin", "lupine"]),
    eu(
        "sulphur dioxide and sulphites",
        &[
            "sulphite",
            "sulfite",
            "sulphur dioxide",
            "sulfur dioxide",
            "sulphur dioxide and sulphites",
            "sulphur",
            "sulfur",
            "so2",
            "bisulphite",
            "bisulfite",
            "metabisulphite",
            "metabisulfite",
            "e220",
            "e221",
            "e222",
            "e223",
            "e224",
            "e226",
            "e227",
            "e228",
        ],
    ),
];

/// The same name in the singular, as far as the list needs it: `anchovies`, `molluscs`, `brazil nuts`.
pub(super) fn singular(word: &str) -> String {
    let (stem, end) = if let Some(stem) = word.strip_suffix("ies") {
        (stem, "y")
    } else if let Some(stem) = word.strip_suffix("radishes") {
        (stem, "radish")
    } else {
        (word.strip_suffix('s').filter(|stem| !stem.ends_with('s')).unwrap_or(word), "")
    };
    format!("{stem}{end}")
}

/// Whether one of the laws lists what is called so.
pub fn is_known(name: &str) -> bool {
    !entries(name).is_empty()
}

/// Every name that is known, for 'did you mean'.
pub fn names() -> impl Iterator<Item = &'static str> {
    ENTRIES.iter().flat_map(Entry::names)
}

/// The words with which larders best say an allergen, one for each that a law lists.
pub fn plain_words() -> impl Iterator<Item = &'static str> {
    ENTRIES.iter().filter_map(|entry| entry.names.first()).copied()
}

impl Law {
    /// Its words, in its order.
    pub fn listed(self) -> &'static [&'static str] {
        match self {
            Law::Us => US,
            Law::Eu => EU,
        }
    }

    /// Whether what a larder file calls `name` is what this law calls `word`.
    pub fn is(self, name: &str, word: &str) -> bool {
        self.words([name]).contains(&word)
    }

    /// The law's words for some allergens, in the order of the law.
    pub fn words<'n>(self, names: impl IntoIterator<Item = &'n str>) -> Vec<&'static str> {
        let of = |entry: &Entry| if self == Law::Us { entry.us } else { entry.eu };
        let found: Vec<&str> = names.into_iter().flat_map(entries).filter_map(of).collect();
        self.listed().iter().copied().filter(|word| found.contains(word)).collect()
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
        for entry in ENTRIES {
            assert!(entry.us.is_none_or(|word| US.contains(&word)) && entry.eu.is_none_or(|word| EU.contains(&word)));
            for name in entry.names() {
                assert!(is_known(name), "{name}");
                assert!(singular(&singular(name)) == singular(name), "{name}");
            }
        }
    }

    /// Rye is an allergen in the European Union and not in the United States, where only wheat is listed.
    #[test]
    fn the_laws_differ() {
        assert_eq!(Law::Eu.words(["rye"]), [GLUTEN]);
        assert!(Law::Us.words(["rye"]).is_empty());
        assert_eq!(Law::Us.words(["Wheat"]), ["wheat"]);
        assert!(Law::Us.words(["molluscs"]).is_empty());
        assert_eq!(Law::Eu.words(["milk", "rye", "wheat"]), [GLUTEN, "milk"]);
    }

    /// FDA, 'Questions and Answers Regarding Food Allergens', and the UK FSA's technical guidance on Annex II (from memory).
    #[test]
    fn plain_words_become_the_words_of_the_law() {
        for (plain, us, eu) in [
            ("dairy", Some("milk"), Some("milk")),
            ("cheese", Some("milk"), Some("milk")),
            ("cow's milk", Some("milk"), Some("milk")),
            ("whey powder", Some("milk"), Some("milk")),
            ("anchovies", Some("fish"), Some("fish")),
            ("cod", Some("fish"), Some("fish")),
            ("prawns", Some("crustacean shellfish"), Some("crustaceans")),
            ("groundnuts", Some("peanuts"), Some("peanuts")),
            ("malt", None, Some(GLUTEN)),
            ("barley malt", None, Some(GLUTEN)),
            ("semolina", Some("wheat"), Some(GLUTEN)),
            ("triticale", Some("wheat"), Some(GLUTEN)),
            ("oats", None, Some(GLUTEN)),
            ("SO2", None, Some("sulphur dioxide and sulphites")),
            ("Brazil nuts", Some("tree nuts"), Some("nuts")),
            ("almond milk", Some("tree nuts"), Some("nuts")),
            ("peanut butter", Some("peanuts"), Some("peanuts")),
            ("soya lecithin", Some("soybeans"), Some("soybeans")),
            ("pine nuts", Some("tree nuts"), None),
            ("egg whites", Some("eggs"), Some("eggs")),
        ] {
            assert_eq!(Law::Us.words([plain]), us.into_iter().collect::<Vec<_>>(), "{plain}");
            assert_eq!(Law::Eu.words([plain]), eu.into_iter().collect::<Vec<_>>(), "{plain}");
        }
    }

    /// Shellfish are crustaceans in one law, and crustaceans or molluscs in the other: both are named.
    #[test]
    fn shellfish_count_in_both_laws() {
        assert_eq!(Law::Us.words(["shellfish"]), ["crustacean shellfish"]);
        assert_eq!(Law::Eu.words(["shellfish"]), ["crustaceans", "molluscs"]);
    }

    #[test]
    fn what_no_law_lists_is_not_known() {
        let namesakes = [
            "cream of tartar",
            "butter beans",
            "oyster mushrooms",
            "cocoa butter",
            "coconut milk",
            "vegan cream cheese",
        ];
        for name in
            ["moon dust", "nutmeg", "butternut", "coconut", "gelatine", "buckwheat", ""].into_iter().chain(namesakes)
        {
            assert!(!is_known(name), "{name}");
        }
    }

    /// A name of two words hid the others of the line from both laws.
    #[test]
    fn every_word_of_a_list_counts() {
        for (name, us, eu) in [
            ("wheat and soy beans", vec!["wheat", "soybeans"], vec![GLUTEN, "soybeans"]),
            ("milk or pine nuts", vec!["milk", "tree nuts"], vec!["milk"]),
            ("milk/brazil nuts", vec!["milk", "tree nuts"], vec!["milk", "nuts"]),
            ("almond and cow's milk", vec!["milk", "tree nuts"], vec!["milk", "nuts"]),
            ("shell fish", vec!["crustacean shellfish"], vec!["crustaceans", "molluscs"]),
            ("earth nuts", vec!["peanuts"], vec!["peanuts"]),
        ] {
            assert_eq!(Law::Us.words([name]), us, "{name}");
            assert_eq!(Law::Eu.words([name]), eu, "{name}");
        }
    }
}
