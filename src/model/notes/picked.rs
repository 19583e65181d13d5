//! A formula that is told in prose, and has no list: `Mix 500 g of strong flour with 350 g water and 10 g salt`. What its words weigh is picked
//! out of them, a line for each thing; the words stay as they are.

use super::amount::Unit;
use super::in_prose::behind;
use super::ingredient;
use super::item::Read;
use super::kinds;
use super::measure::{Measure, measure};
use super::pieces::is_in_pieces;
use super::unweighed::is_known;
use super::vague;
use super::verbs::{BEGUN, is_verb};
use super::words;
use crate::language::syntax::Key;
use crate::measure::noun::singular;

/// Why a mark stands at what was picked out.
pub(super) const PICKED: &str = "picked out of the words below";
/// So many words behind an amount are looked through for its thing.
const WORDS: usize = 4;
/// So many words a name has before its amount.
const NAME_WORDS: usize = 3;
/// A longer line is not read.
const LONGEST: usize = 600;
/// Words that name nothing, and end what something is called.
#[rustfmt::skip]
const ENDS: [&str; 48] = [
    "and", "or", "with", "to", "in", "into", "on", "onto", "for", "from", "at", "by", "until", "till", "then", "over", "under", "per", "each",
    "the", "a", "an", "of", "is", "are", "was", "were", "that", "which", "it", "them", "while", "when", "if", "plus", "as", "so", "but",
    "together", "through", "apiece", "more", "back", "aside", "high", "long", "wide", "deep",
];
/// What is weighed and goes into nothing: what holds it, and what it is divided into.
#[rustfmt::skip]
const NO_FOOD: [&str; 27] = [
    "ball", "balls", "basin", "batch", "batches", "bowl", "bowls", "box", "casserole", "dish", "dough", "doughs", "jar", "jars", "mixture", "mould",
    "moulds", "oven", "pan", "pans", "part", "parts", "pot", "pots", "ramekins", "saucepan", "weight",
];
/// Words before an amount that make it some of what was said already: `the 50 g water`, `another 20 g flour`.
const SOME_OF_IT: [&str; 9] = ["the", "this", "that", "these", "those", "remaining", "rest", "other", "about-the"];

/// What is picked out of a line: each ingredient, and the words that say it.
pub(super) type Picked = Vec<(Read, String)>;

/// What the words of some lines weigh, line by line.
pub(super) fn out_of(lines: &[String]) -> Vec<(usize, Picked)> {
    let mut known: Vec<Key> = Vec::new();
    let mut found = Vec::new();
    for (at, line) in lines.iter().enumerate().filter(|(_, line)| line.len() <= LONGEST) {
        let mut picked: Picked = amounts(line)
            .into_iter()
            .filter_map(|said| {
                let (said, words) = said;
                let mut read = ingredient::read(&said, true).filter(|read| read.len() == 1)?.pop()?;
                let key = Key::new(&singular(&read.name));
                // What is said again may be some of the same: that stays in the words, with a mark.
                if known.contains(&key) {
                    return None;
                }
                known.push(key);
                read.look.insert(0, PICKED.to_owned());
                Some((read, words))
            })
            .collect();
        // `two hundred and fifty grams of oats`.
        let rest = picked.iter().fold(line.clone(), |rest, (_, words)| rest.replacen(words.as_str(), "", 1));
        if let Some((first, _)) = picked.first_mut().filter(|_| vague::holds_in_words(&rest)) {
            first.look.push("more amounts stand in these words: give each a line".to_owned());
        }
        if !picked.is_empty() {
            found.push((at, picked));
        }
    }
    found
}

/// The amounts in a line with what they are of, `500 g strong flour`, and as they stand there, `500 g of strong flour`.
fn amounts(line: &str) -> Vec<(String, String)> {
    let mut found = Vec::new();
    let mut from = 0;
    let mut before = "";
    for (at, word) in words_of(line) {
        let rest = line.get(at..).unwrap_or_default();
        let may_begin = at >= from && !is_some_of_it(before) && !is_of_a_fruit(line.get(..at).unwrap_or_default());
        let said = may_begin.then(|| amount_of(rest).or_else(|| amount_behind(rest))).flatten();
        if let Some((length, said)) = said {
            from = at + length;
            found.push((said, line.get(at..from).unwrap_or_default().to_owned()));
        }
        before = word;
    }
    found
}

fn is_some_of_it(word: &str) -> bool {
    SOME_OF_IT.contains(&word.to_lowercase().as_str())
}

/// Whether `zest of`, `juice of` stands before an amount: how many there are in all is not said.
fn is_of_a_fruit(before: &str) -> bool {
    let mut words = before.split_whitespace().rev().map(str::to_lowercase);
    let of = words.next().is_some_and(|word| word == "of");
    of && words.next().is_some_and(|word| ["zest", "juice", "peel", "rind"].contains(&word.as_str()))
}

/// A name at the start of a text with its amount behind it, `salt 25g`, and how long both are.
fn amount_behind(text: &str) -> Option<(usize, String)> {
    let ends: Vec<usize> = text.match_indices([' ', ':', '(']).map(|(at, _)| at).take(NAME_WORDS).collect();
    ends.into_iter().rev().find_map(|end| {
        let (name, rest) = text.split_at_checked(end)?;
        if !name.chars().all(|c| c.is_alphabetic() || matches!(c, ' ' | '-')) {
            return None;
        }
        let (length, amount) = behind(rest)?;
        let is_food = is_known(name) || is_known(&singular(name));
        let is_it = is_food && (amount.is_quantity() || is_in_pieces(name, amount.value));
        let figure = rest.get(..length)?.trim_matches([' ', ':', '(', ')', '.']);
        is_it.then(|| (end + length, format!("{figure} {name}")))
    })
}

/// Where the words of a line begin.
fn words_of(line: &str) -> impl Iterator<Item = (usize, &str)> {
    let mut at = 0;
    line.split(char::is_whitespace).filter_map(move |word| {
        let start = at;
        at += word.len() + line.get(start + word.len()..)?.chars().next().map_or(0, char::len_utf8);
        let bare = word.trim_start_matches(['(', '\u{201c}', '"', '+']);
        (!bare.is_empty()).then_some((start + word.len() - bare.len(), bare))
    })
}

/// An amount at the start of a text with what it is of, and how long both are.
fn amount_of(text: &str) -> Option<(usize, String)> {
    let (amount, rest) = measure(text)?;
    let shown = text.get(..text.len() - rest.len())?.trim();
    let behind = rest.trim_start();
    let name_at = ["of the ", "of ", "a ", ""].into_iter().find_map(|of| behind.strip_prefix(of))?;
    // `50 g of the sugar` is some of what was said.
    if behind.starts_with("of the ") || !(rest.starts_with([' ', '\u{a0}'])) {
        return None;
    }
    let clause = name_at.split([',', ';', '.', '(', ')', ':', '!', '\u{2013}', '\u{2014}']).next()?;
    let all: Vec<&str> = clause.split_whitespace().take(WORDS).collect();
    let end = all.iter().position(|word| ends_a_name(word)).unwrap_or(all.len());
    let name = name_of(all.get(..end)?, &amount)?;
    let length = text.len() - name_at.len() + name_at.find(name.last()?)? + name.last()?.len();
    Some((length, format!("{shown} {}", name.join(" "))))
}

fn ends_a_name(word: &str) -> bool {
    let lower = word.to_lowercase();
    ENDS.contains(&lower.as_str()) || !lower.starts_with(char::is_alphabetic)
}

/// The words that name what an amount is of: what is known, else of a weight or a volume the words up to one that ends a name.
fn name_of<'w, 't>(all: &'w [&'t str], amount: &Measure) -> Option<&'w [&'t str]> {
    let is_food = |name: &str| is_known(name) || is_known(&singular(name));
    let known = (0..all.len())
        .flat_map(|from| (from + 1..=all.len()).rev().map(move |to| (from, to)))
        .find(|(from, to)| *from <= 2 && all.get(*from..*to).is_some_and(|some| is_food(&some.join(" "))));
    let measured = amount.is_quantity() && amount.known() != Some("%");
    match known {
        Some((_, to)) => {
            let name = all.get(..to)?;
            // `flour 1000 water`: a number is of pieces, or it is of what stands before it.
            let counted = match amount.unit {
                None => amount.has_figure && is_in_pieces(&name.join(" "), amount.value),
                other => matches!(other, Some(Unit::Counted | Unit::Loose)),
            };
            (measured || counted).then_some(name)
        }
        None => {
            let last = all.last()?.to_lowercase();
            let is_plain = all.len() <= 2
                && all.iter().all(|word| word.chars().all(|c| c.is_alphabetic() || c == '-'))
                && !all
                    .iter()
                    .any(|word| is_verb(&word.to_lowercase()) || BEGUN.contains(&word.to_lowercase().as_str()));
            let is_food = is_plain
                && !NO_FOOD.contains(&last.as_str())
                && !kinds::is_product(&last)
                && !kinds::names_a_part(&last);
            (measured && is_food && words::all_of(&last).next().is_some_and(|word| word.len() > 2)).then_some(all)
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn picked(line: &str) -> String {
        let all: Vec<String> = out_of(&[line.to_owned()])
            .into_iter()
            .flat_map(|(_, all)| all)
            .map(|(read, _)| format!("{} {}", read.name, read.amount))
            .collect();
        all.join(" | ")
    }

    #[test]
    fn what_words_weigh_is_picked_out_of_them() {
        for (line, wanted) in [
            (
                "Mix 500 g of strong flour with 350 g water and 10 g salt, add 5 g dried yeast and knead for 10 minutes.",
                "strong flour 500 g | water 350 g | salt 10 g | dried yeast 5 g",
            ),
            ("Dissolve 60 g of salt and 20 g sugar in 1 litre of water.", "salt 60 g | sugar 20 g | water 1 l"),
            ("Sweat two onions in 50 g butter for 10 minutes.", "onions 2 | butter 50 g"),
            ("Knead, then work in 30 g of soft butter.", "butter 30 g"),
            (
                "Mix 1 kg flour with 650g water. Add salt 25g and yeast 2g, eggs 2.",
                "flour 1 kg | water 650 g | salt 25 g | yeast 2 g | eggs 2",
            ),
            ("Zest of 4 lemons and juice of 6, 1 kg sugar.", "sugar 1 kg"),
            ("Stir in 200 g samphire and 1 egg.", "samphire 200 g | egg 1"),
            // Said again: some of the same, or more.
            ("Mix 300 g flour and 200 g water, then add the 50 g water.", "flour 300 g | water 200 g"),
            ("Rub 100 g sugar into 200 g flour, dust with 20 g sugar.", "sugar 100 g | flour 200 g"),
            ("Mix flour 1000 water 800 salt 25 and knead.", ""),
            // Nothing that goes in.
            ("Divide into 10 pieces of 90 g and prove 45 min in a 500 g tin at 26 C.", ""),
            ("Shape 2 loaves of 500 g each, bake 40 min at 220 C.", ""),
            ("Boil in a 5 l pot for 10 min, then press under a 2 kg weight.", ""),
            ("Fold 3 times every 30 min; keep 2 tbsp for serving.", ""),
        ] {
            assert_eq!(picked(line), wanted, "{line}");
        }
    }
}
