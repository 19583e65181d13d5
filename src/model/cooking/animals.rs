//! Animals that are eaten, by the beginnings of words in a name. Common practice, no source.

use crate::text::word_begins::{has_word, parted};

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

/// Whether a name, in lower case, is that of an animal that is eaten.
pub fn is_of_animal(name: &str) -> bool {
    is_bird(name) || has_word(name, BEASTS)
}

/// Whether a name, in lower case, is that of a bird.
pub fn is_bird(name: &str) -> bool {
    has_word(name, BIRDS) || parted(name).any(|word| ["hen", "hens"].contains(&word))
}
