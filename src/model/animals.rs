//! Animals that are eaten, in one table: who they are by the words of a name, and what is asked of each. Common practice, no source.

use crate::measure::noun;
use crate::model::lowered::{Beginnings, beginnings};
use crate::text::word_begins::has_word_beginning;
use crate::text::words::words_without_hyphens;

const BIRDS: &[&str] = &[
    "chicken",
    "poultry",
    "turkey",
    "duck",
    "goose",
    "poussin",
    "quail",
    "guinea",
    "pheasant",
    "partridge",
    "pigeon",
    "capon",
    "grouse",
    "cockerel",
];

/// Other animals whose meat no larder knows by them alone.
const BEASTS: &[&str] = &["beef", "boar", "lamb", "mutton", "pork", "rabbit", "reindeer", "veal", "venison"];

/// What is of a pig unless another animal is named, by beginnings of words; `ham` is a word of its own.
const OF_PIGS: &[&str] = &[
    "pork",
    "bacon",
    "gammon",
    "lard",
    "pancetta",
    "prosciutto",
    "speck",
    "chorizo",
    "guanciale",
    "nduja",
    "mortadella",
];

/// Words by which it is of no animal.
const OF_NONE: &[&str] = &["vegan", "vegetarian", "veggie", "plant", "mushroom"];

/// Species of fish, by whole words in the singular: for the law the fish is named by it.
#[rustfmt::skip]
pub const FISH: &[&str] = &[
    "anchovy", "bass", "bream", "brill", "carp", "catfish", "cod", "coley", "conger", "dace", "eel", "flounder", "grouper", "gurnard",
    "haddock", "hake", "halibut", "herring", "kingfish", "mackerel", "mahi-mahi", "monkfish", "mullet", "perch", "pike", "pilchard",
    "plaice", "pollack", "pollock", "saithe", "salmon", "sardine", "skate", "snapper", "sole", "sprat", "sturgeon", "swordfish", "tilapia",
    "trout", "tuna", "turbot", "whitebait", "whiting", "zander",
];

/// Crustaceans.
pub const CRUSTACEANS: &[&str] = &["prawn", "shrimp", "crab", "lobster", "crayfish", "langoustine", "scampi", "krill"];

/// What the law of the United States calls some of them.
const BY_LAW: &[(&str, &str)] = &[("prawn", "shrimp"), ("scampi", "langoustine")];

/// Every fish and crustacean, with the word by which a law names its species.
pub fn species() -> impl Iterator<Item = (&'static str, &'static [&'static str])> {
    FISH.iter().chain(CRUSTACEANS).map(|word| {
        let by_law = BY_LAW.iter().find(|(known, _)| known == word);
        (by_law.map_or(*word, |(_, law)| *law), std::slice::from_ref(word))
    })
}

/// What people choose by the animal, and by what words lines are of it. What may be of several, as mince and sausages may, names none.
pub const BY_THEIR_MEAT: &[(&str, &Beginnings)] = &[
    (
        "beef",
        beginnings![
            "beef",
            "steak",
            "brisket",
            "sirloin",
            "rump",
            "chuck",
            "ox|",
            "oxtail",
            "veal",
            "bresaola",
            "pastrami",
            "bone marrow",
            "shin|",
            "short rib"
        ],
    ),
    (
        "pork",
        beginnings![
            "pork",
            "ham|",
            "hams|",
            "bacon",
            "gammon",
            "pancetta",
            "lardon",
            "speck",
            "prosciutto",
            "chorizo",
            "salami",
            "trotter",
            "pig",
            "crackling"
        ],
    ),
    ("lamb", beginnings!["lamb", "mutton", "hogget"]),
    ("chicken", beginnings!["chicken", "poussin", "hen|", "capon", "poultry", "cockerel"]),
    ("turkey", beginnings!["turkey"]),
    ("duck", beginnings!["duck", "magret"]),
    ("goose", beginnings!["goose"]),
    ("rabbit", beginnings!["rabbit"]),
    ("venison", beginnings!["venison", "deer", "roe|"]),
    ("salmon", beginnings!["salmon", "gravad", "gravlax", "lox|"]),
    ("cod", beginnings!["cod|", "bacal"]),
    ("haddock", beginnings!["haddock", "finnan", "smokie"]),
    ("tuna", beginnings!["tuna"]),
    ("mackerel", beginnings!["mackerel"]),
    ("trout", beginnings!["trout"]),
    ("herring", beginnings!["herring", "kipper", "bloater", "matjes"]),
    ("prawn", beginnings!["prawn", "shrimp", "scampi", "langoustine"]),
    ("crab", beginnings!["crab"]),
    ("lobster", beginnings!["lobster"]),
];

/// Molluscs.
#[rustfmt::skip]
pub const MOLLUSCS: &[&str] = &[
    "mussel", "oyster", "clam", "cockle", "scallop", "squid", "octopus", "cuttlefish", "calamari", "snail", "abalone", "whelk", "winkle",
];

/// Beasts and fish that are not kosher, by the beginnings of words: who chews no cud or has no cloven hoof, who has no scales (Leviticus 11). What of the
/// water has a shell or none at all is none either.
#[rustfmt::skip]
const NOT_KOSHER: &[&str] = &[
    "rabbit", "hare|", "horse", "camel", "boar", "eel|", "eels|", "conger", "catfish", "monkfish", "shark", "skate", "ray|", "dogfish", "frog", "sturgeon",
    "swordfish", "turbot",
];

/// Whether a name, in lower case, is that of an animal that is not kosher, other than a pig.
pub fn is_not_kosher(name: &str) -> bool {
    has_word_beginning(name, NOT_KOSHER) || has_word_beginning(name, CRUSTACEANS) || has_word_beginning(name, MOLLUSCS)
}

/// Whether a name, in lower case, is that of an animal that is eaten, other than what lives in water.
pub fn is_of_animal(name: &str) -> bool {
    is_bird(name) || has_word_beginning(name, BEASTS)
}

/// Whether a name, in lower case, is that of a bird.
pub fn is_bird(name: &str) -> bool {
    has_word_beginning(name, BIRDS) || words_without_hyphens(name).any(|word| ["hen", "hens"].contains(&word))
}

/// Whether a name, in lower case, is that of what is of a pig: not of `beef bacon` or `turkey ham`.
pub fn is_of_pig(name: &str) -> bool {
    let is_ham = || words_without_hyphens(name).any(|word| ["ham", "hams"].contains(&word));
    let is_of_other = || {
        is_bird(name)
            || has_word_beginning(name, OF_NONE)
            || BEASTS.iter().any(|beast| !["pork", "boar"].contains(beast) && has_word_beginning(name, [*beast]))
    };
    (has_word_beginning(name, OF_PIGS) || is_ham()) && !is_of_other()
}

/// Whether a word, in lower case and in either number, is that of a fish or of what else of the water is eaten.
pub fn is_of_the_water(word: &str) -> bool {
    ["fish"].iter().chain(FISH).chain(MOLLUSCS).chain(CRUSTACEANS).any(|known| noun::is_one_or_several(word, known))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn each_is_asked_for_itself() {
        for (name, of_pig) in [
            ("smoked bacon", true),
            ("cooked ham", true),
            ("pork shoulder", true),
            ("turkey ham", false),
            ("beef bacon", false),
            ("vegan chorizo", false),
            ("hamburger bun", false),
            ("lambrusco", false),
        ] {
            assert_eq!(is_of_pig(name), of_pig, "{name}");
        }
        for word in ["anchovies", "prawns", "bream", "squid", "fish"] {
            assert!(is_of_the_water(word), "{word}");
        }
        assert!(!is_of_the_water("solid") && !is_of_animal("lemon") && is_bird("spring hens"));
    }
}
