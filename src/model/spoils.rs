//! Which food spoils within hours where it is warm, and within days in the cold: what it is made of, and what of that is dry.
//!
//! Whether something in the food keeps it, acid, sugar or salt, is another question.

use crate::model::cooking::has_word_beginning;
use crate::model::cooking::raw_flesh::is_flesh;
use crate::model::cooking::state::is_so;
use crate::model::cooking::state_words::State;
use crate::model::kind::Kind;
use crate::model::larder::kind_of_word;
use crate::model::lowered::Beginnings;
use crate::model::recipe::Ingredient;
use crate::text::words::words_with_hyphens;

/// What germs grow on.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Body {
    /// Meat, poultry, fish, crustaceans and molluscs.
    Flesh,
    /// Milk, cream, soft cheese.
    Milk,
    /// Egg.
    Egg,
    /// A vegetable.
    Vegetable,
    /// Beans, peas, lentils.
    Pulse,
    /// Rice, of which the poison stays when it is cooked again.
    Rice,
    /// Another grain.
    Grain,
}

/// What of an ingredient spoils; `None` of what keeps, and of what is dry.
pub fn body(line: &Ingredient) -> Option<Body> {
    let body = match line.kind {
        _ if is_flesh(line) => Body::Flesh,
        Kind::Milk | Kind::Dairy => Body::Milk,
        Kind::Egg => Body::Egg,
        Kind::Vegetable => Body::Vegetable,
        Kind::Pulse => Body::Pulse,
        Kind::Grain if has_word_beginning(line.name.key.as_str(), ["rice"]) => Body::Rice,
        Kind::Grain => Body::Grain,
        _ => return None,
    };
    (!is_dry(line)).then_some(body)
}

/// Food that is bought cooked or fresh, moist and hardly sour, whatever nobody does to it here.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Bought {
    /// Cooked rice, of which the poison stays whatever comes later.
    Rice,
    /// Tofu and fresh cheese: as flesh is, they are told also where somebody cooks them later.
    Curd,
    /// What is told where nobody cooks it later: cooked grain and pulses, soup, stock, sprouts, cut melon and leaves.
    Other,
}

/// Which of them a line is (FDA Food Code 1-201.10, time and temperature control: plant food that is heat-treated, raw seed sprouts, cut melons, cut leafy
/// greens, cut tomatoes; from memory).
pub fn bought(line: &Ingredient) -> Option<Bought> {
    let name = line.name.key.as_str();
    // Of flour, water, salt and most fruit nothing below is asked.
    let may_be = matches!(line.kind, Kind::Grain | Kind::Pulse | Kind::Other)
        || name == "sprouts"
        || [CURDS, MOIST, MELONS, TOMATOES, STARCHY].iter().any(|words| line.name.has_word_beginning(words));
    if !may_be {
        return None;
    }
    let said = line.preparation.as_deref().map(str::to_lowercase);
    let words = || words_with_hyphens(name).chain(said.iter().flat_map(|said| words_with_hyphens(said)));
    let is_none = |word: &str| {
        (DRY.contains(&word) && word != "dry")
            || [
                "pickled",
                "fermented",
                "preserved",
                "seed",
                "seeds",
                "frozen",
                "crisps",
                "starter",
                "culture",
                "salted",
                "cube",
                "cubes",
                "apple",
            ]
            .contains(&word)
    };
    if !line.stays_in() || line.part().is_some() || is_flesh(line) || words().any(is_none) {
        return None;
    }
    let is_cooked = || is_so(line, State::Cooked);
    let is_cut = || {
        words().any(|word| {
            [
                "cut",
                "chopped",
                "sliced",
                "diced",
                "cubed",
                "quartered",
                "halved",
                "shredded",
                "torn",
                "crushed",
                "peeled",
                "pieces",
            ]
            .contains(&word)
        })
    };
    // What is called `cooked rice` is listed under no such name.
    let kind = match (line.kind, name.split_once(' ')) {
        (Kind::Other, Some((_, rest))) if is_cooked() => kind_of_word(rest),
        (kind, _) => kind,
    };
    match kind {
        Kind::Grain if has_word_beginning(name, ["rice"]) => is_cooked().then_some(Bought::Rice),
        Kind::Grain | Kind::Pulse if is_cooked() => Some(Bought::Other),
        Kind::Vegetable if line.name.has_word_beginning(STARCHY) && is_cooked() => Some(Bought::Other),
        Kind::Fruit | Kind::Vegetable | Kind::Other if line.name.has_word_beginning(MELONS) => Some(Bought::Other),
        Kind::Fruit | Kind::Vegetable if line.name.has_word_beginning(TOMATOES) => {
            (is_cut() && !is_cooked() && !has_word_beginning(name, ["tinned", "canned", "paste", "pur"]))
                .then_some(Bought::Other)
        }
        _ if line.name.has_word_beginning(CURDS) => Some(Bought::Curd),
        Kind::Spice | Kind::Fat | Kind::Seasoning => None,
        _ if line.name.has_word_beginning(MOIST) || name == "sprouts" => Some(Bought::Other),
        _ => None,
    }
}

/// Roots that are food for all that grows once they are cooked, by the beginnings of words.
const STARCHY: &Beginnings =
    &Beginnings::of(&["potato", "sweet potato", "yam", "taro", "cassava", "sweetcorn", "corn|"]);
/// Fruit that is food for it once it is cut.
const MELONS: &Beginnings = &Beginnings::of(&["melon", "watermelon", "cantaloupe", "honeydew"]);
const TOMATOES: &Beginnings = &Beginnings::of(&["tomato"]);
/// What is pressed of curd, of milk or of plants.
const CURDS: &Beginnings = &Beginnings::of(&["tofu", "seitan", "paneer", "halloumi", "tempeh"]);
/// Moist as it is bought: dishes, sprouts and leaves. Common practice, no source, beside what the code names.
const MOIST: &Beginnings = &Beginnings::of(&[
    "soup",
    "gravy",
    "custard|",
    "black pudding",
    "white pudding",
    "pâté",
    "pate|",
    "beef stock",
    "chicken stock",
    "meat stock",
    "fish stock",
    "vegetable stock",
    "bone broth",
    "bean sprout",
    "beansprout",
    "alfalfa sprout",
    "mung sprout",
    "radish sprout",
    "clover sprout",
    "lettuce",
    "spinach",
    "rocket|",
    "salad leaves",
    "hummus",
]);

/// What does not spoil within hours, by whole words. Milk that is pasteurised or of high heat keeps while it is shut; what is mixed in is open.
/// Common practice, no source.
pub const DRY: &[&str] = &["powder", "powdered", "dried", "condensed", "evaporated"];

/// Cheese that is hard enough to stand, by the beginnings of words.
const HARD_CHEESE: &[&str] =
    &["parmesan", "parmigiano", "pecorino", "cheddar", "gruy", "emmental", "comté", "comte", "gouda"];

/// Whether a line is dry enough, or made of a plant, so that it does not spoil within hours: by its name, or by what is said of it alone and not
/// of something beside it, `with dried herbs`. Meat out of a tin is as open as other meat.
fn is_dry(line: &Ingredient) -> bool {
    let name = line.name.key.as_str();
    let is_of_plant = |word: &str| ["vegan", "plant-based"].contains(&word);
    let is_dry = |word: &str| {
        DRY.contains(&word)
            || word == "tinned" && !is_flesh(line)
            || word == "dry" && matches!(line.kind, Kind::Milk | Kind::Dairy)
    };
    if words_with_hyphens(name).any(|word| is_dry(word) || is_of_plant(word)) || has_word_beginning(name, HARD_CHEESE) {
        return true;
    }
    let is_cheese = || line.kind == Kind::Dairy && words_with_hyphens(name).any(|word| word == "cheese");
    if is_cheese() && (words_with_hyphens(name).any(|word| word == "hard") || name.contains("grana padano")) {
        return true;
    }
    let Some(said) = line.preparation.as_ref().map(|said| said.to_lowercase()) else { return false };
    said.split([',', ';', '(', ')']).any(|clause| {
        let words: Vec<&str> = words_with_hyphens(clause).collect();
        let is_it = |word: &&str| is_dry(word) || is_of_plant(word) || *word == "hard" && is_cheese();
        words.len() <= 2 && words.last().is_some_and(is_it)
    })
}
