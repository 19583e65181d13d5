//! Which ingredients have their quantity said, and how much of each there is.

use super::NoLabel;
use super::items::{Item, leaves};
use crate::language::syntax::Key;
use crate::measure::quantity::{Mass, Proportion};
use crate::model::kind::Kind;

/// The share of a named ingredient.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Quantity {
    /// What.
    pub name: String,
    /// Its weight as used, on the weight of what is sold. Over 100 % where water has left.
    pub share: Proportion,
}

/// Words of a food's name that name no ingredient of which a buyer wants to know how much: what it is, how it looks, where from.
/// Common practice, no source.
const PLAIN: &[&str] = &[
    "a", "all", "and", "bake", "baked", "bar", "best", "big", "biscuit", "black", "bread", "brown", "bun", "cake",
    "coarse", "cold", "cookie", "country", "dark", "dough", "fine", "flour", "for", "fresh", "golden", "green", "home",
    "in", "large", "light", "little", "loaf", "loave", "loaves", "of", "old", "on", "our", "pan", "pastry", "pie",
    "plain", "powder", "red", "roll", "round", "slice", "small", "soft", "strong", "sweet", "tart", "the", "tin",
    "warm", "water", "white", "whole", "with", "yellow", "yeast",
];

/// What stands at the end of one word with what it is made of: `oatcakes`, `cheesecake`, `beefburger`. Common practice, no source.
const MADE_OF: &[&str] = &["bread", "burger", "cake", "cream", "loaf", "pie", "sauce", "stick"];

/// Words that say what an ingredient is for where another word stands behind them: `jam sugar` is no jam, `pizza flour` no pizza.
/// Common practice, no source.
const FOR_WHAT: &[&str] =
    &["brine", "curry", "jam", "marmalade", "pasta", "pickle", "pizza", "pretzel", "pudding", "soup", "stock", "stew"];

/// What is cheese, though its name does not say so.
const CHEESES: &[&str] = &[
    "brie",
    "camembert",
    "cheddar",
    "comte",
    "comté",
    "edam",
    "emmental",
    "feta",
    "fontina",
    "gouda",
    "gruyere",
    "gruyère",
    "halloumi",
    "mascarpone",
    "mozzarella",
    "parmesan",
    "pecorino",
    "provolone",
    "ricotta",
    "romano",
    "roquefort",
    "tilsit",
];

/// Shares of what the name of the food names (Article 22) and of what was asked for.
///
/// # Errors
/// When something is asked for that is not in it, or a share leaves the range of exact numbers.
pub(super) fn quantities(title: &str, list: &[Item], net: Mass, asked: &[String]) -> Result<Vec<Quantity>, NoLabel> {
    let mut weights: Vec<(String, Mass, bool)> = Vec::new();
    let title = words_that_name(title);
    let compounds = list.iter().filter(|item| !item.inner.is_empty());
    for item in compounds.chain(leaves(list)) {
        let Some(mass) = item.mass.filter(|mass| *mass > Mass::ZERO) else { continue };
        let named = is_named(&title, item) && !flavours_only(item, mass, net)?;
        match weights.iter_mut().find(|(name, ..)| Key::new(name) == Key::new(&item.name)) {
            Some((_, known, is)) => {
                *known = known.plus(mass)?;
                *is |= named;
            }
            None => weights.push((item.name.clone(), mass, named)),
        }
    }
    for name in asked {
        if !weights.iter().any(|(known, ..)| Key::new(known) == Key::new(name)) {
            let known = weights.iter().map(|(name, ..)| name.as_str());
            let hint = crate::language::near::hint(name, known);
            return Err(NoLabel(format!("--quantity {name}: nothing of that name is weighed into it{hint}")));
        }
    }
    let mut quantities = Vec::new();
    for (name, mass, named) in weights {
        if named || asked.iter().any(|one| Key::new(one) == Key::new(&name)) {
            quantities.push(Quantity { share: mass.as_share_of(net)?, name });
        }
    }
    Ok(quantities)
}

/// What the name names and no quantity is asked of, for it only flavours.
///
/// # Errors
/// When a weight leaves the range of exact numbers.
pub(super) fn flavours(title: &str, list: &[Item], net: Mass) -> Result<Vec<String>, NoLabel> {
    let title = words_that_name(title);
    let mut names: Vec<String> = Vec::new();
    for item in leaves(list).into_iter().filter(|item| is_named(&title, item)) {
        let Some(mass) = item.mass else { continue };
        if flavours_only(item, mass, net)? && !names.contains(&item.name) {
            names.push(item.name.clone());
        }
    }
    Ok(names)
}

/// The words of a title that may name an ingredient.
fn words_that_name(title: &str) -> Vec<String> {
    let words = title.split(|c: char| !c.is_alphanumeric() && c != '-').map(stem).flat_map(with_what_it_is_made_of);
    words.filter(|word| !word.is_empty() && !PLAIN.contains(&word.as_str())).collect()
}

/// What flavours in small quantities is free of it (Annex VIII, 1(a)(iii), by the University of Reading, Food Labelling in the UK, seen):
/// a spice below 2 %, common practice.
fn flavours_only(item: &Item, mass: Mass, net: Mass) -> Result<bool, NoLabel> {
    let kind = item.facts.as_ref().and_then(|facts| facts.kind);
    Ok(matches!(kind, Some(Kind::Spice)) && mass.times(crate::measure::number::Number::whole(50))? < net)
}

/// Whether the name of the food names an ingredient: by a word of its name, or as a cheese.
fn is_named(title: &[String], item: &Item) -> bool {
    let words: Vec<String> = item.name.split_whitespace().map(stem).collect();
    let is_cheese =
        title.iter().any(|word| word == "cheese") && words.iter().any(|word| CHEESES.contains(&word.as_str()));
    let names = |(at, word): (usize, &String)| {
        let is_named =
            title.contains(word) || word.strip_suffix("meal").is_some_and(|grain| title.iter().any(|one| one == grain));
        is_named && (at + 1 == words.len() || !FOR_WHAT.contains(&word.as_str()))
    };
    !item.aside && (is_cheese || words.iter().enumerate().any(names))
}

/// `oatcake`, and `oat`.
fn with_what_it_is_made_of(word: String) -> Vec<String> {
    let made_of = MADE_OF.iter().find_map(|end| word.strip_suffix(end)).filter(|front| front.len() > 2);
    let front = made_of.map(str::to_owned);
    std::iter::once(word).chain(front).collect()
}

/// `plums` and `Plum` are the same word, and so are `cherries` and `cherry`, `tomatoes` and `tomato`.
fn stem(word: &str) -> String {
    let word = word.to_lowercase();
    if let Some(stem) = word.strip_suffix("ies").filter(|stem| stem.len() > 2) {
        return format!("{stem}y");
    }
    if let Some(stem) = word.strip_suffix("oes") {
        return format!("{stem}o");
    }
    word.strip_suffix('s').map_or_else(|| word.clone(), str::to_owned)
}
