//! Which thing of one version is which of the other: by name, then by likely renaming.

use crate::language::syntax::{Key, Name};
use crate::model::recipe::{Part, PartId, Recipe};
use std::collections::HashMap;
use std::sync::Arc;

/// Whether two names are alike enough to be a renaming when nothing better is there: two letters in five may differ.
fn alike(one: &str, other: &str) -> bool {
    let longer = one.chars().count().max(other.chars().count());
    strsim::osa_distance(one, other) * 5 <= longer * 2
}

/// Old and new places that belong together, in the order of the new version; what is gone stands where it stood.
pub(super) fn pairs<T>(
    old: &[T],
    new: &[T],
    name: impl Fn(&T) -> &Name,
    same_otherwise: impl Fn(&T, &T) -> bool,
) -> Vec<(Option<usize>, Option<usize>)> {
    let free_old = |taken: &[Option<usize>], at: usize| !taken.contains(&Some(at));
    // Two of one name are told apart by what else they say, and else by their order.
    let mut of_name: HashMap<&Key, Vec<usize>> = HashMap::new();
    for (at, one) in old.iter().enumerate() {
        of_name.entry(&name(one).key).or_default().push(at);
    }
    let mut partner_of_new: Vec<Option<usize>> = Vec::new();
    for one in new {
        let left = of_name.get_mut(&name(one).key).filter(|left| !left.is_empty());
        partner_of_new.push(left.map(|left| {
            let alike = left.iter().position(|at| old.get(*at).is_some_and(|other| same_otherwise(other, one)));
            left.remove(alike.unwrap_or(0))
        }));
    }
    for (at, one) in new.iter().enumerate() {
        if partner_of_new.get(at).copied().flatten().is_some() {
            continue;
        }
        let mut candidates = old.iter().enumerate().filter(|(other, _)| free_old(&partner_of_new, *other));
        let renamed = candidates
            .find(|(_, other)| alike(name(other).key.as_str(), name(one).key.as_str()) || same_otherwise(other, one))
            .map(|(other, _)| other);
        if let Some(slot) = partner_of_new.get_mut(at) {
            *slot = renamed;
        }
    }
    let mut pairs: Vec<(Option<usize>, Option<usize>)> = Vec::new();
    let mut next_gone = 0;
    for (at, partner) in partner_of_new.iter().enumerate() {
        if let Some(partner) = partner {
            for gone in (next_gone..*partner).filter(|gone| free_old(&partner_of_new, *gone)) {
                pairs.push((Some(gone), None));
            }
            next_gone = next_gone.max(partner + 1);
        }
        pairs.push((*partner, Some(at)));
    }
    for gone in (next_gone..old.len()).filter(|gone| free_old(&partner_of_new, *gone)) {
        pairs.push((Some(gone), None));
    }
    pairs
}

/// The parts of two recipes that belong together; those of used recipes are compared in their own files.
pub(super) fn parts(old: &Recipe, new: &Recipe) -> Vec<(Option<PartId>, Option<PartId>)> {
    let own = |recipe: &Recipe| -> Vec<Arc<Part>> {
        recipe.parts.iter().take_while(|part| part.foreign.is_none()).cloned().collect()
    };
    // The one part of a recipe without `part` lines has the recipe's name and follows it.
    let (old_parts, new_parts) = (own(old), own(new));
    let alone = old_parts.len() == 1 && new_parts.len() == 1;
    let found = pairs(
        &old_parts,
        &new_parts,
        |part| &part.name,
        |one, other| alone || (!one.lines.is_empty() && one.lines.len() == other.lines.len() && same_lines(one, other)),
    );
    found.into_iter().map(|(old, new)| (old.map(PartId), new.map(PartId))).collect()
}

fn same_lines(one: &Part, other: &Part) -> bool {
    one.lines.iter().zip(&other.lines).all(|(a, b)| a.name.same(&b.name))
}
