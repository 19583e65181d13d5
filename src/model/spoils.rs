//! Which food spoils within hours where it is warm, and within days in the cold: what it is made of, and what of that is dry.
//!
//! Whether something in the food keeps it, acid, sugar or salt, is another question.

use crate::model::cooking::has_word_beginning;
use crate::model::cooking::raw_flesh::is_flesh;
use crate::model::kind::Kind;
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
