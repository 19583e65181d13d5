//! Whether something is raw meat, poultry or fish: one answer for all checks, cautions and labels. Common practice, no source.

use super::state::is_said_to_be;
use super::state_words::State;
use crate::measure::noun;
use crate::model::animals::{is_of_animal, is_of_the_water};
use crate::model::kind::Kind;
use crate::model::larder::Facts;
use crate::model::recipe::Ingredient;
use crate::text::words::words_with_hyphens;

/// Meat that names no animal, by the last word of its name.
const CUTS: &[&str] = &[
    "steak",
    "mince",
    "burger",
    "hamburger",
    "patty",
    "patties",
    "liver",
    "sausage",
    "meatball",
    "brisket",
    "sirloin",
    "hen",
    "meat",
];

/// Words beside a cut by which it is meat still: of `vegetable burgers` and `pumpkin meat` nobody here says that they are.
const OF_MEAT: &[&str] = &[
    "minced",
    "ground",
    "raw",
    "lean",
    "fat",
    "fatty",
    "fresh",
    "frozen",
    "thin",
    "thick",
    "grilling",
    "frying",
    "stewing",
    "braising",
    "roasting",
    "rump",
    "sirloin",
    "fillet",
    "ribeye",
    "rib-eye",
    "flank",
    "skirt",
    "minute",
    "t-bone",
    "small",
    "large",
    "breakfast",
    "butcher's",
    "calf",
    "calf's",
    "calves",
    "ox",
    "game",
    "boneless",
    "bone-in",
    "trimmed",
    "diced",
    "sliced",
    "sausage",
    "hamburger",
    "burger",
    "steak",
];

/// What is called after an animal, or made of one, and is no flesh, wherever the word stands.
const NO_FLESH: &[&str] = &[
    "bouillon",
    "broth",
    "crackling",
    "dripping",
    "egg",
    "gelatin",
    "gelatine",
    "gooseberry",
    "gooseberries",
    "goosefoot",
    "lambrusco",
    "caviar",
    "ink",
    "surimi",
    "mayonnaise",
    "lettuce",
    "scratching",
    "stock",
    "tomato",
    "tomatoes",
    "woods",
    "vegan",
    "vegetarian",
    "veggie",
    "plant-based",
    "rind",
];

/// The same by the last word.
const MADE_OF_IT: &[&str] = &[
    "seasoning",
    "gravy",
    "powder",
    "jus",
    "cube",
    "oil",
    "sauce",
    "cake",
    "finger",
    "stick",
    "mushroom",
    "leaf",
    "leaves",
    "jelly",
    "ball",
    "tempura",
    "apple",
    "yolk",
    "paste",
    "roe",
    "pie",
    "extract",
    "flavour",
    "flavouring",
    "bun",
    "rub",
    "marinade",
    "soup",
    "spice",
    "ham",
    "pea",
    "pepper",
    "corn",
    "berry",
    "berries",
    "fig",
    "crisp",
    "noodle",
    "casing",
    "floss",
    "rillette",
    "pate",
    "pâté",
    "terrine",
];

/// Whether a name or what is said of it, in lower case, tells of minced meat.
pub fn is_minced(name: &str, preparation: Option<&str>) -> bool {
    is_said_to_be(name, preparation, State::Minced)
}

/// Whether a word is one of these, or several of it.
fn is(word: &str, of: &[&str]) -> bool {
    of.iter().any(|one| noun::is_one_or_several(word, one))
}

/// Whether a name is that of fat: `duck fat` is, `low fat mince` and `mince of 5 % fat` are not.
pub fn is_of_fat(name: &str) -> bool {
    let mut before = "";
    words_with_hyphens(name).any(|word| {
        let is_less = ["low", "lower", "reduced", "less", "lean"].contains(&before)
            || before.starts_with(|c: char| c.is_ascii_digit());
        before = word;
        is(word, &["fat"]) && !is_less
    })
}

fn is_no_flesh(name: &str) -> bool {
    is_of_fat(name)
        || words_with_hyphens(name).any(|word| is(word, NO_FLESH))
        || words_with_hyphens(name).last().is_some_and(|last| is(last, MADE_OF_IT))
}

fn is_called_flesh(name: &str) -> bool {
    let words: Vec<&str> = words_with_hyphens(name).collect();
    let is_cut = || {
        let split = words.split_last();
        split.is_some_and(|(last, before)| is(last, CUTS) && before.iter().all(|word| OF_MEAT.contains(word)))
    };
    is_of_animal(name) || is_fish(name) || is_cut()
}

/// Whether what no larder knows is fish or seafood by a word of its name.
fn is_fish(name: &str) -> bool {
    // Anchovies are sold salted; of fresh ones nobody here knows.
    words_with_hyphens(name).any(|word| is_of_the_water(word) && !word.starts_with("anchov"))
}

/// Whether a line is flesh, raw or not: by its kind, or what no larder knows by its name.
pub fn is_flesh(line: &Ingredient) -> bool {
    let name = line.name.key.as_str();
    let by_name = || line.kind == Kind::Other && line.part().is_none() && line.facts().is_none();
    line.kind.is_flesh() || by_name() && is_called_flesh(name) && !is_no_flesh(name)
}

/// Whether something is raw meat, poultry or fish, by its name and what is said of it, both in lower case, its kind, and what the larder
/// knows.
pub fn is_raw_flesh(name: &str, preparation: Option<&str>, kind: Kind, facts: Option<&Facts>) -> bool {
    let is_said = |state| is_said_to_be(name, preparation, state);
    let is_other = || is_no_flesh(name) || is_said(State::Preserved);
    let is_flesh = match kind {
        Kind::Meat | Kind::Fish | Kind::Shellfish => facts.is_some() || !is_other(),
        // What no larder knows and is called after an animal or a cut of one.
        Kind::Other => facts.is_none() && is_called_flesh(name) && !is_other(),
        _ => false,
    };
    // A larder's tuna is tinned; who writes `raw` has another.
    let says_raw = || {
        words_with_hyphens(name).chain(preparation.into_iter().flat_map(words_with_hyphens)).any(|word| word == "raw")
    };
    // A joint to roast is a roasting joint; `roast chicken` was roasted.
    let is_done = || is_said(State::Cooked) || name.starts_with("roast ");
    is_flesh && !is_done() && (says_raw() || !facts.is_some_and(|facts| facts.flags.ready_to_eat))
}

/// Whether a line is raw meat, poultry or fish. A part of that name is looked at by itself.
pub fn is_raw(line: &Ingredient) -> bool {
    // What is of no animal is known by its kind.
    if !(line.kind.is_flesh() || line.kind == Kind::Other) || line.part().is_some() {
        return false;
    }
    let preparation = line.preparation.as_ref().map(|said| said.to_lowercase());
    is_raw_flesh(line.name.key.as_str(), preparation.as_deref(), line.kind, line.facts())
}
