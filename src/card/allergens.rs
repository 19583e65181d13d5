//! Allergens of everything that is made, through all parts.

use crate::formula::Formula;
use crate::quantity::Mass;
use crate::recipe::{Recipe, Refers};

/// The allergens, sorted, and the ingredients of which nothing is known.
pub(super) fn of(recipe: &Recipe, formula: &Formula) -> (Vec<String>, Vec<String>) {
    let mut known: Vec<String> = Vec::new();
    let mut unknown: Vec<String> = Vec::new();
    for (id, part) in recipe.parts() {
        // What another batch of the day makes for this one is in it all the same.
        let is_in = part.foreign.is_none() || formula.part(id).is_some_and(|part| part.makes > Some(Mass::ZERO));
        if !is_in {
            continue;
        }
        // What is set aside or optional still touches the food.
        for line in &part.lines {
            match &line.refers {
                Refers::Part(_) => {}
                Refers::Pantry(Some(facts)) => known.extend(facts.allergens.iter().cloned()),
                Refers::Pantry(None) if part.from.is_none() => unknown.push(line.name.to_string()),
                Refers::Pantry(None) => {}
            }
        }
    }
    known.sort();
    known.dedup();
    unknown.sort();
    unknown.dedup();
    (known, unknown)
}
