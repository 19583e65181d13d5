//! Meat and fish that a title promises, where another animal is listed in its place.

use crate::model::animals::BY_THEIR_MEAT;
use crate::model::cooking::beginnings;
use crate::model::lowered::Beginnings;
use crate::model::recipe::{Ingredient, Recipe};

/// Behind the animal, what is none of it: a beef tomato, a crab apple, a steak that is fried as chicken is.
const OTHER_THINGS: &[&str] = &[
    "tomato",
    "tomatoes",
    "apple",
    "apples",
    "fried",
    "stick",
    "paste",
    "seasoning",
    "fat",
    "egg",
    "eggs",
    "sauce",
    "style",
    "of",
];

/// A word of a title that promises an animal of which no line is, where a line is of another.
pub(super) fn unkept<'t>(recipe: &Recipe, title: &'t str) -> Option<&'t str> {
    let words: Vec<&str> = title.split(' ').collect();
    let lines = || recipe.parts().flat_map(|(_, part)| &part.lines);
    let is_of = |line: &Ingredient, names: &'static Beginnings| {
        line.name.has_word_beginning(names)
            || line.preparation.as_deref().is_some_and(|said| names.begin_in(&said.to_lowercase()))
    };
    // What a whole file is called after may be a part that is made elsewhere.
    let in_parts = |names: &'static Beginnings| {
        recipe.parts().any(|(_, part)| part.name.key != recipe.name.key && part.name.has_word_beginning(names))
    };
    words.iter().enumerate().find_map(|(at, word)| {
        let one = super::singular(word);
        let (_, names) = BY_THEIR_MEAT.iter().find(|(known, _)| *known == one)?;
        let is_other_thing = words.get(at + 1).is_some_and(|next| OTHER_THINGS.contains(next));
        // A stock or a fat of another animal stands beside any.
        let is_another = |line: &Ingredient| {
            line.kind.is_flesh()
                && line.stays_in()
                && !line
                    .name
                    .has_word_beginning(beginnings!["stock", "fat|", "broth", "gelatin", "dripping", "lard|", "anchov"])
                && BY_THEIR_MEAT.iter().any(|(known, others)| *known != one && is_of(line, others))
        };
        let is_kept = lines().any(|line| is_of(line, names)) || in_parts(names);
        (!is_other_thing && !is_kept && lines().any(is_another)).then_some(*word)
    })
}
