//! One comparison out of those under every choice: what holds under some choices only is marked with them.

use super::{AimChange, Comparison, Figure, LineChange, PartChange, StepChange};
use crate::model::recipe::{Choice, Selection};
use crate::model::ways;

/// Something that changes under some choices.
trait Marked: Clone + PartialEq {
    fn mark(&mut self, only: String);
}

impl Marked for LineChange {
    fn mark(&mut self, only: String) {
        self.only = only;
    }
}

impl Marked for StepChange {
    fn mark(&mut self, only: String) {
        self.only = only;
    }
}

impl Marked for AimChange {
    fn mark(&mut self, only: String) {
        self.only = only;
    }
}

impl Marked for Figure {
    fn mark(&mut self, only: String) {
        self.only = only;
    }
}

/// Merges the comparisons of a recipe under all its selections; the first is that of the default choices.
///
/// `None` without any comparison.
pub fn merge(choices: &[Choice], all: Vec<(Selection, Comparison)>) -> Option<Comparison> {
    let selections: Vec<Selection> = all.iter().map(|(selection, _)| selection.clone()).collect();
    let comparisons: Vec<Comparison> = all.into_iter().map(|(_, comparison)| comparison).collect();
    let merger = Merger { choices, selections };
    let mut merged = comparisons.first()?.clone();
    merged.head = merger.gather(comparisons.iter().map(|one| one.head.as_slice()));
    merged.plan = merger.gather(comparisons.iter().map(|one| one.plan.as_slice()));
    merged.aims = merger.gather(comparisons.iter().map(|one| one.aims.as_slice()));
    merged.parts = merger.parts(&comparisons);
    for other in comparisons.iter().skip(1) {
        add_new(&mut merged.allergens_gained, &other.allergens_gained);
        add_new(&mut merged.allergens_lost, &other.allergens_lost);
        add_new(&mut merged.allergens_unknown, &other.allergens_unknown);
        add_new(&mut merged.texts, &other.texts);
        if other.rescaled != merged.rescaled {
            merged.rescaled = None;
        }
    }
    // An allergen that another choice keeps is neither gained nor lost by the recipe.
    let gained = merged.allergens_gained.clone();
    merged.allergens_gained.retain(|one| !merged.allergens_lost.contains(one));
    merged.allergens_lost.retain(|one| !gained.contains(one));
    Some(merged)
}

fn add_new<T: Clone + PartialEq>(list: &mut Vec<T>, more: &[T]) {
    for one in more {
        if !list.contains(one) {
            list.push(one.clone());
        }
    }
}

struct Merger<'a> {
    choices: &'a [Choice],
    selections: Vec<Selection>,
}

impl Merger<'_> {
    fn parts(&self, comparisons: &[Comparison]) -> Vec<PartChange> {
        let mut names: Vec<&str> = Vec::new();
        for part in comparisons.iter().flat_map(|one| &one.parts) {
            if !names.contains(&part.name.as_str()) {
                names.push(&part.name);
            }
        }
        names.iter().filter_map(|name| self.part(name, comparisons)).collect()
    }

    fn part(&self, name: &str, comparisons: &[Comparison]) -> Option<PartChange> {
        let of = |one: &Comparison| one.parts.iter().find(|part| part.name == name).cloned();
        let found: Vec<Option<PartChange>> = comparisons.iter().map(of).collect();
        let mut merged = found.iter().flatten().next()?.clone();
        let holding: Vec<usize> =
            found.iter().enumerate().filter(|(_, part)| part.is_some()).map(|(at, _)| at).collect();
        // A part that is there under some choices only carries the mark itself; its lines need none.
        let scope: Vec<usize> =
            if merged.change == super::Change::Changed { (0..found.len()).collect() } else { holding };
        merged.lines =
            self.gather_in(&scope, found.iter().map(|part| part.as_ref().map_or(&[][..], |part| &part.lines)));
        merged.figures =
            self.gather_in(&scope, found.iter().map(|part| part.as_ref().map_or(&[][..], |part| &part.figures)));
        merged.steps =
            self.gather_in(&scope, found.iter().map(|part| part.as_ref().map_or(&[][..], |part| &part.steps)));
        merged.only = self.label(&scope, &(0..found.len()).collect::<Vec<usize>>());
        for part in found.iter().flatten() {
            add_new(&mut merged.texts, &part.texts);
        }
        Some(merged)
    }

    fn gather<'t, T: Marked + 't>(&self, lists: impl Iterator<Item = &'t [T]>) -> Vec<T> {
        let all: Vec<usize> = (0..self.selections.len()).collect();
        self.gather_in(&all, lists)
    }

    /// Every different change once, marked with the choices under which it is made, out of those in `scope`.
    fn gather_in<'t, T: Marked + 't>(&self, scope: &[usize], lists: impl Iterator<Item = &'t [T]>) -> Vec<T> {
        let mut gathered: Vec<(T, Vec<usize>)> = Vec::new();
        for (at, list) in lists.enumerate() {
            for one in list {
                match gathered.iter_mut().find(|(known, _)| known == one) {
                    Some((_, under)) => under.push(at),
                    None => gathered.push((one.clone(), vec![at])),
                }
            }
        }
        gathered
            .into_iter()
            .map(|(mut one, under)| {
                one.mark(self.label(&under, scope));
                one
            })
            .collect()
    }

    /// The options that tell the selections `under` from the others in `scope`; empty when they are all of it.
    fn label(&self, under: &[usize], scope: &[usize]) -> String {
        ways::said(self.choices, &self.selections, under, scope)
    }
}
