//! Which allergens are in parts of a recipe, and of which ingredients that is not known.

use crate::model::allergen::Law;
use crate::model::recipe::{Ingredient, PartId, Recipe, Refers};
use crate::model::sale::both;
use crate::model::species::{self, Said};
use std::collections::HashSet;

/// What is found in some parts.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Allergenic {
    /// Allergens as larder files name them, each once, in the order in which they are met.
    pub known: Vec<String>,
    /// Ingredients whose allergens are not known, as often as they are met.
    pub unknown: Vec<String>,
    /// Traces that the packs of ingredients name.
    pub traces: Vec<String>,
}

impl Allergenic {
    /// The traces that are said of all of it, and those of the packs, without what is in it anyway; `None` where none is left.
    pub fn may_contain(&self, said: Option<&str>, law: Law) -> Option<String> {
        let held: Vec<Said> = self.known.iter().flat_map(|name| species::said(law, [name.as_str()])).collect();
        let of_packs = self.traces.join(", ");
        both(said.map(str::to_owned), Some(&of_packs)).and_then(|traces| traces_besides(&traces, &held, law))
    }
}

/// Those of some traces that are not in it anyway; `None` where all are.
pub(crate) fn traces_besides(traces: &str, held: &[Said], law: Law) -> Option<String> {
    let left: Vec<&str> = traces
        .split(',')
        .map(str::trim)
        .filter(|word| {
            let said = species::said(law, [*word]);
            said.is_empty() || said.iter().any(|one| !held.contains(one))
        })
        .collect();
    (!left.is_empty()).then(|| left.join(", "))
}

/// What is in some parts and all parts in them, also what is set aside or optional: it still touches the food.
///
/// Each part is looked at once, however many ways lead to it. The program's own stack is not used: parts may lie deep in
/// parts. `is_out` says of a line of a part, by its place there, that nothing of it goes in.
pub fn of_parts(
    recipe: &Recipe,
    parts: impl IntoIterator<Item = PartId>,
    is_out: impl Fn(PartId, usize) -> bool,
) -> Allergenic {
    let mut found = Allergenic::default();
    let mut seen = HashSet::new();
    for first in parts {
        let mut open: Vec<Lines<'_>> = seen.insert(first).then(|| Lines::of(recipe, first)).into_iter().collect();
        while let Some(lines) = open.last_mut() {
            let Some((at, line)) = lines.left.next() else {
                open.pop();
                continue;
            };
            if is_out(lines.of, at) {
                continue;
            }
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
                    add_new(&facts.allergens, &mut found.known);
                    add_new(&facts.traces, &mut found.traces);
                }
                // A preferment's lines stand in the formula it is taken out of.
                Refers::Pantry(None) if lines.are_repeated => {}
                Refers::Pantry(None) => found.unknown.push(line.name.to_string()),
            }
        }
    }
    found
}

fn add_new(names: &[String], known: &mut Vec<String>) {
    for name in names {
        if !known.contains(name) {
            known.push(name.clone());
        }
    }
}

/// The lines of a part that were not looked at yet.
struct Lines<'a> {
    of: PartId,
    left: std::iter::Enumerate<std::slice::Iter<'a, Ingredient>>,
    are_repeated: bool,
}

impl<'a> Lines<'a> {
    fn of(recipe: &'a Recipe, id: PartId) -> Lines<'a> {
        let part = recipe.part(id);
        Lines {
            of: id,
            left: part.map_or(&[][..], |part| &part.lines).iter().enumerate(),
            are_repeated: part.is_some_and(|part| part.from.is_some()),
        }
    }
}
