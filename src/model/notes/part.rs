//! A part of what notes tell of, while it is gathered.

use super::entry::Item;
use super::item::NO_UNIT;
use super::kinds::INTO_A_DOUGH;
use super::measure::measure;
use crate::language::syntax::Key;
use crate::measure::quantity::Mass;
use crate::measure::unit::Unit;
use std::collections::HashSet;

/// A part.
#[derive(Debug, Default)]
pub(super) struct Part {
    pub(super) name: Option<String>,
    pub(super) ingredients: Vec<Item>,
    pub(super) names: Vec<String>,
    /// The amounts of those names, as they were read.
    pub(super) amounts: Vec<String>,
    /// What is known of the weight of what goes in.
    weight: Option<Mass>,
    /// Whether it is said how it is divided.
    pub(super) divided: bool,
    /// Whether it is said how long it keeps.
    pub(super) keeps: bool,
    pub(super) keys: HashSet<Key>,
    /// The names that nothing told has taken yet.
    pub(super) untaken: Vec<String>,
    pub(super) told: Vec<Item>,
    pub(super) steps: Vec<Key>,
}

impl Part {
    /// A part of which only the name is known.
    pub(super) fn named(name: String) -> Part {
        Part { name: Some(name), ..Part::default() }
    }

    /// Adds what an ingredient weighs, where its amount says a weight.
    pub(super) fn weigh(&mut self, amount: &str) {
        let Some((one, _)) = measure(amount).filter(|(one, _)| one.is_mass()) else { return };
        let size = one.known().and_then(Unit::from_word).and_then(|unit| unit.size(None));
        let more = one.value.zip(size).and_then(|(value, size)| Mass::new(size).times(value).ok());
        let weight = self.weight.unwrap_or(Mass::ZERO);
        self.weight = more.map(|more| weight.plus(more).unwrap_or(weight)).or(self.weight);
    }

    /// Whether flour goes in.
    pub(super) fn has_flour(&self) -> bool {
        self.names.iter().any(|name| {
            let lower = name.to_lowercase();
            ["flour", "mehl", "farine", "farina"].iter().any(|word| lower.contains(word))
        })
    }

    /// Whether it is made to go into a dough, by its name: `Poolish`, `Rye sour`.
    pub(super) fn goes_into_a_dough(&self) -> bool {
        let last = self.name.as_deref().and_then(|name| name.split_whitespace().last()).map(str::to_lowercase);
        last.is_some_and(|last| INTO_A_DOUGH.contains(&last.as_str()))
    }

    /// The name of a part that has none: what most formulas begin with.
    pub(super) fn first_name(&self, at: usize) -> String {
        if self.has_flour() && at == 0 { "dough".to_owned() } else { "main part".to_owned() }
    }
}

/// Of the parts that are wanted, the first of those into which most goes by weight; `None` where there is none.
pub(super) fn main_part(parts: &[Part], is_wanted: impl Fn(&Part) -> bool) -> Option<usize> {
    let wanted = parts.iter().enumerate().filter(|(_, part)| is_wanted(part));
    wanted.rev().max_by_key(|(_, part)| part.weight).map(|(at, _)| at)
}

/// Marks every number without a unit where one of them is too large to be pieces: all of them are grams, then.
pub(super) fn mark_bare_numbers(parts: &mut [Part]) {
    let is_marked = |item: &Item| item.look.as_deref().is_some_and(|look| look.contains(NO_UNIT));
    if !parts.iter().flat_map(|part| &part.ingredients).any(is_marked) {
        return;
    }
    for item in parts.iter_mut().flat_map(|part| &mut part.ingredients) {
        let amount = item.lines.first().and_then(|line| line.split_once(" .. ")).map_or("", |(_, amount)| amount);
        let figure = amount.split(',').next().unwrap_or_default();
        if item.look.is_none() && !figure.is_empty() && figure.chars().all(|c| c.is_ascii_digit() || c == '.') {
            item.look = Some(format!("{NO_UNIT}, and another line cannot be pieces"));
        }
    }
}
