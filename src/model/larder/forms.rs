//! The forms of a name: under which a larder may have it, and which words before it leave it the food that it is.

use crate::measure::noun;
use std::borrow::Cow;

/// The forms under which a name may stand in a larder, nearest first: as it is and in the other number, then the same of
/// what stands before ` for `.
pub(super) fn forms(name: &str) -> impl Iterator<Item = Cow<'_, str>> {
    let before = name.split_once(" for ").map(|(what, _)| what);
    // Endings that are taken off, and what stands in their place.
    let endings = [("", ""), ("ies", "y"), ("es", ""), ("s", ""), ("", "s"), ("", "es"), ("y", "ies")];
    [Some(name), before].into_iter().flatten().flat_map(move |text| {
        endings.into_iter().filter_map(move |(end, other)| {
            let stem = text.strip_suffix(end)?;
            Some(if other.is_empty() { Cow::Borrowed(stem) } else { Cow::Owned(format!("{stem}{other}")) })
        })
    })
}

/// Words before a food's name that leave it that food: what was done to it, how warm it is, of which sort. What takes water out
/// or puts salt in (`dried`, `salted`, `pickled`) is not among them, nor what makes a powder of it.
const PREPARED: &[&str] = &[
    "roasted",
    "toasted",
    "stale",
    "blanched",
    "skinned",
    "peeled",
    "shelled",
    "unsalted",
    "chopped",
    "sliced",
    "diced",
    "grated",
    "shredded",
    "crushed",
    "broken",
    "crumbled",
    "halved",
    "mashed",
    "melted",
    "softened",
    "soft",
    "sifted",
    "sieved",
    "washed",
    "rinsed",
    "drained",
    "beaten",
    "raw",
    "ripe",
    "cold",
    "chilled",
    "cool",
    "warm",
    "lukewarm",
    "tepid",
    "hot",
    "warmed",
    "scalded",
    "frozen",
    "fresh",
    "live",
    "whole",
    "wholegrain",
    "coarse",
    "fine",
    "finely",
    "coarsely",
    "roughly",
    "freshly",
    "lightly",
    "thinly",
    "large",
    "medium",
    "small",
    "organic",
    "free-range",
    "cage-free",
    "pasture-raised",
    "grass-fed",
    "corn-fed",
    "good",
    "best",
    "local",
    "white",
    "red",
    "yellow",
    "green",
    "black",
    "golden",
    "dark",
    "light",
    "sweet",
    "mild",
    "strong",
    "smooth",
    "crunchy",
    "plain",
    "english",
    "pickling",
];

/// Words that make another food of a name: a sweet pepper is no ground pepper, white chocolate has milk in it, green beans are
/// no dried ones.
const ANOTHER: &[(&str, &[&str])] = &[
    (
        "pepper",
        &[
            "sweet", "hot", "mild", "red", "yellow", "green", "large", "small", "raw", "ripe", "whole", "roasted",
            "sliced", "diced",
        ],
    ),
    ("chocolate", &["white", "hot"]),
    ("bean", &["green", "black", "white", "red", "yellow"]),
    ("corn", &["sweet"]),
    ("spice", &["pickling"]),
    ("muffin", &["english"]),
];

/// The same in two words.
const PREPARED_IN_TWO: &[&str] =
    &["free range ", "free run ", "cage free ", "pasture raised ", "grass fed ", "corn fed "];

/// A name without its first word, where that only says how it was prepared or of which sort it is.
pub(super) fn unprepared(name: &str) -> Option<&str> {
    if let Some(rest) = PREPARED_IN_TWO.iter().find_map(|two| name.strip_prefix(two)) {
        return Some(rest);
    }
    let (first, rest) = name.split_once(' ')?;
    (PREPARED.contains(&first) && !is_another(first, rest)).then_some(rest)
}

/// Whether a first word and the rest of a name are a food of their own, and not the rest of it prepared.
fn is_another(first: &str, rest: &str) -> bool {
    ANOTHER.iter().any(|(what, words)| noun::is_one_or_several(rest, what) && words.contains(&first))
}
