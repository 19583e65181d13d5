//! Which allergens are in a recipe, and of which of its ingredients that is not known.

use crate::measure::quantity::Mass;
use crate::model::recipe::{Ingredient, PartId, Recipe, Refers};
use crate::solve::formula::Formula;
use std::collections::HashSet;

/// What is found in some parts.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Found {
    /// Allergens as larder files name them, each once, in the order in which they are met.
    pub known: Vec<String>,
    /// Ingredients whose allergens are not known, as often as they are met.
    pub unknown: Vec<String>,
}

/// What is in everything that a batch consists of, also what is set aside or optional: it still touches the food.
pub fn of_recipe(recipe: &Recipe, formula: &Formula) -> Found {
    // What another batch of the day makes for this one is in it all the same.
    let draws_on = |id: PartId| formula.part(id).is_some_and(|part| part.makes > Some(Mass::ZERO));
    let parts = recipe.parts().filter(|(id, part)| part.foreign.is_none() || draws_on(*id));
    walk(recipe, parts.map(|(id, _)| id))
}

/// The allergens of a part, counting the parts in it, as larder files name them.
pub fn of_part(recipe: &Recipe, id: PartId) -> Vec<String> {
    walk(recipe, [id]).known
}

/// Goes through some parts and all parts in them, each once, however many ways lead to it. It does not use the program's
/// own stack: parts may lie deep in parts.
fn walk(recipe: &Recipe, parts: impl IntoIterator<Item = PartId>) -> Found {
    let mut found = Found::default();
    let mut seen = HashSet::new();
    for first in parts {
        let mut open: Vec<Lines<'_>> = seen.insert(first).then(|| Lines::of(recipe, first)).into_iter().collect();
        while let Some(lines) = open.last_mut() {
            let Some(line) = lines.left.next() else {
                open.pop();
                continue;
            };
            match &line.refers {
                Refers::Part(other) => {
                    if seen.insert(*other) {
                        open.push(Lines::of(recipe, *other));
                    }
                }
                Refers::Pantry(Some(facts)) => {
                    // A block that gives a price does not tell what is in it.
                    if !facts.knows_allergens && !lines.are_repeated {
                        found.unknown.push(line.name.to_string());
                    }
                    for allergen in &facts.allergens {
                        if !found.known.contains(allergen) {
                            found.known.push(allergen.clone());
                        }
                    }
                }
                // A preferment's lines stand in the formula it is taken out of.
                Refers::Pantry(None) if lines.are_repeated => {}
                Refers::Pantry(None) => found.unknown.push(line.name.to_string()),
            }
        }
    }
    found
}

/// The lines of a part that were not looked at yet.
struct Lines<'a> {
    left: std::slice::Iter<'a, Ingredient>,
    are_repeated: bool,
}

impl<'a> Lines<'a> {
    fn of(recipe: &'a Recipe, id: PartId) -> Lines<'a> {
        let part = recipe.part(id);
        Lines {
            left: part.map_or(&[][..], |part| &part.lines).iter(),
            are_repeated: part.is_some_and(|part| part.from.is_some()),
        }
    }
}
