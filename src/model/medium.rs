//! What is sold in a liquid round it, brine, vinegar, syrup, and what is a drink: told from names and lines.
//!
//! A liquid medium is what Regulation (EU) 1169/2011, Annex IX, 5 lists, where the liquid is merely beside what one buys: water, solutions of
//! salts, brine, of food acids, vinegar, solutions of sugars, of sweeteners, fruit and vegetable juice in the case of fruit and vegetables
//! (as prenku.de, Regulation 1169/2011, and the questions on drained weight of a filler in jars print it, seen). Oil is none.

use super::cooking::{Beginnings, has_word_beginning, is_brine, words_of};
use super::kind::Kind;
use super::recipe::{Ingredient, Part, Recipe};
use super::step::Step;
use crate::text::clauses::head_of_name;

/// A liquid in which something solid is sold.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Medium {
    /// Brine, vinegar, water: nobody eats it.
    PouredOff,
    /// Syrup and juice: many eat it with what lies in it.
    Eaten,
}

/// Names of what lies in vinegar or in syrup, which say no `in`.
const PICKLED: &Beginnings = &Beginnings::of(&["pickl"]);
const BOTTLED: &Beginnings = &Beginnings::of(&["bottled", "canned", "tinned"]);

/// Words that name a liquid medium behind `in`.
const POURED_OFF: &[&str] = &["brine", "vinegar", "water"];
const EATEN: &[&str] = &["syrup", "juice"];

/// Last words of the names of drinks. Common practice, no source.
const DRINKS: &[&str] = &[
    "aperitif",
    "beer",
    "bitters",
    "cider",
    "coffee",
    "cordial",
    "drink",
    "eggnog",
    "gin",
    "juice",
    "kefir",
    "kombucha",
    "kvass",
    "lassi",
    "lemonade",
    "limoncello",
    "liqueur",
    "mead",
    "milk",
    "milkshake",
    "nectar",
    "orangeade",
    "perry",
    "punch",
    "schnapps",
    "shrub",
    "smoothie",
    "soda",
    "squash",
    "switchel",
    "tea",
    "tonic",
    "vermouth",
    "wine",
];

/// The medium in which what some parts make is sold; `None` where it is in none, as far as its names and lines tell.
pub fn of(recipe: &Recipe, within: &[&Part]) -> Option<Medium> {
    // What is taken drained of a pickle is eaten in no liquid.
    let is_drained = |part: &Part| {
        let takers = || within.iter().flat_map(|other| &other.lines);
        let is_it = |line: &&Ingredient| {
            line.part().and_then(|id| recipe.part(id)).is_some_and(|taken| std::ptr::eq(taken, part))
        };
        let drained = |line: &Ingredient| line.is_lifted_out() || line.is_prepared(["strained"]);
        let mut takes = takers().filter(is_it).peekable();
        takes.peek().is_some() && takes.all(drained)
    };
    let within: Vec<&Part> = within.iter().copied().filter(|part| !is_drained(part)).collect();
    let within = within.as_slice();
    let lines = || within.iter().flat_map(|part| &part.lines).filter(|line| line.stays_in());
    // Bread and what is baked lies in no liquid.
    let is_baked = |line: &Ingredient| line.is_flour || line.kind == Kind::Bread;
    let has_flour = within.iter().any(|part| part.lines.iter().any(|line| is_baked(line) && line.stays_in()));
    let solid = |kind: Kind| is_solid(kind) || kind == Kind::Other;
    if has_flour || !lines().any(|line| line.part().is_none() && solid(line.kind)) {
        return None;
    }
    let called = |beginnings: &Beginnings| {
        names(recipe).any(|name| has_word_beginning(&name, beginnings))
            || within.iter().any(|part| has_word_beginning(part.name.key.as_str(), beginnings))
    };
    let named = |words: &[&str]| names(recipe).any(|name| is_in(&name, words));
    let holds = |kinds: &[Kind]| lines().any(|line| line.part().is_none() && kinds.contains(&line.kind));
    // Vegetables packed under salted water that the steps call brine; meat that is only cured in one comes out again.
    let in_its_steps = || {
        let says_brine = |part: &&Part| {
            let words = |step: &Step| words_of(step).split(|c: char| !c.is_alphabetic()).any(|word| word == "brine");
            // What fish lay in before it was smoked is poured off here.
            let stays = |line: &Ingredient| line.kind == Kind::Water && line.stays_in() || line.part().is_some();
            part.steps.iter().any(words) && part.lines.iter().any(stays)
        };
        let has_flesh = lines().any(|line| line.kind.is_flesh());
        holds(&[Kind::Water]) && holds(&[Kind::Salt]) && !has_flesh && within.iter().any(says_brine)
    };
    let in_brine = lines().any(is_brine) || (holds(&[Kind::Vinegar]) && called(PICKLED)) || in_its_steps();
    let is_poured = || holds(&[Kind::Water, Kind::Ice, Kind::Vinegar, Kind::Juice, Kind::Syrup, Kind::Brine]);
    let in_syrup = || {
        named(EATEN) && is_poured() || called(BOTTLED) && holds(&[Kind::Water, Kind::Juice]) && holds(&[Kind::Fruit])
    };
    if in_brine || (named(POURED_OFF) && is_poured()) {
        Some(Medium::PouredOff)
    } else if in_syrup() {
        Some(Medium::Eaten)
    } else {
        None
    }
}

/// Whether an ingredient of this kind lies in a liquid as a piece of its own.
pub fn is_solid(kind: Kind) -> bool {
    matches!(
        kind,
        Kind::Vegetable
            | Kind::Fruit
            | Kind::Egg
            | Kind::Fish
            | Kind::Shellfish
            | Kind::Meat
            | Kind::Pulse
            | Kind::Dairy
    )
}

/// Whether it is called a drink, by the last word of its name or of what it is sold as: `Rhubarb and orange drink`.
pub fn is_called_a_drink(recipe: &Recipe) -> bool {
    names(recipe).any(|name| {
        // `ricotta from milk` is what is made of it.
        let name = head_of_name(&name);
        name.split_whitespace().next_back().is_some_and(|last| DRINKS.contains(&last))
    })
}

/// Its name and what it is sold as, in small letters.
fn names(recipe: &Recipe) -> impl Iterator<Item = String> {
    let sold_as = recipe.sale.sold_as.as_deref().map(str::to_lowercase);
    std::iter::once(recipe.name.to_string().to_lowercase()).chain(sold_as)
}

/// `pears in ginger syrup`: one of the words stands behind `in`, before anything else begins.
fn is_in(name: &str, words: &[&str]) -> bool {
    let mut behind = name.split(" in ").skip(1);
    behind.any(|rest| {
        let medium = rest.split([',', ';', '(']).next().unwrap_or_default();
        medium.split_whitespace().any(|word| words.contains(&word))
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_medium_stands_behind_in() {
        assert!(is_in("pears in ginger syrup", EATEN));
        assert!(is_in("tuna in water", POURED_OFF));
        assert!(!is_in("syrup sponge", EATEN));
        assert!(!is_in("cake in a tin, with syrup", EATEN));
        assert!(!is_in("water biscuits", POURED_OFF));
        assert!(!is_in("cod in watercress sauce", POURED_OFF));
    }
}
