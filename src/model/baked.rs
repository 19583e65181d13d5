//! What the lines of a bake name in its recipe: which step, which line of which part, which options.

use crate::language::bakes::{Bake, Ran, readings};
use crate::language::parse::nearest;
use crate::language::syntax::{Key, Name};
use crate::model::larder::{Larder, is_called};
use crate::model::recipe::{Choice, Part, PartId, Recipe, Selection};
use crate::model::reference::StepRef;
use std::collections::HashMap;
use std::sync::Arc;

/// What a name in a log can be.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Found<T> {
    /// It is one thing.
    One(T),
    /// Several parts have such a thing: the names that say which.
    Several(Vec<String>),
    /// Nothing is called so; the nearest name, and the first of those that there are.
    Nothing(Option<String>, Vec<String>),
}

/// The place of what went in that the recipe has no line of, in its part: another flour for some of it, seeds that were left over.
pub const ADDED: usize = usize::MAX;

/// So many names are told of all that there are.
const TOLD: usize = 12;

impl<T: Copy> Found<T> {
    /// The one thing.
    pub fn one(&self) -> Option<T> {
        match self {
            Found::One(one) => Some(*one),
            Found::Several(_) | Found::Nothing(..) => None,
        }
    }
}

fn nothing<T>(said: &Name, mut known: Vec<String>) -> Found<T> {
    let near = nearest(said.key.as_str(), known.iter().map(String::as_str)).map(str::to_owned);
    known.truncate(TOLD);
    Found::Nothing(near, known)
}

/// What the names in a log are in one recipe; each is looked for once, however many bakes say it.
#[derive(Debug, Default)]
pub struct Names {
    steps: HashMap<Arc<str>, Found<StepRef>>,
    lines: HashMap<Arc<str>, Found<(PartId, usize)>>,
}

impl Names {
    /// The step that a line of a bake is of.
    pub fn step(&mut self, recipe: &Recipe, ran: &Ran) -> &Found<StepRef> {
        self.steps.entry(Arc::clone(&ran.step.text)).or_insert_with(|| step(recipe, ran))
    }

    /// The line of a part that is meant by what went in.
    pub fn line(&mut self, recipe: &Recipe, name: &Name) -> &Found<(PartId, usize)> {
        self.lines.entry(Arc::clone(&name.text)).or_insert_with(|| line(recipe, name))
    }
}

/// The names of a part's things, each with its part.
fn found<T: Copy>(
    recipe: &Recipe,
    said: &Name,
    things: &[(PartId, Name, T)],
    same: fn(&Key, &Key) -> bool,
) -> Found<T> {
    let part_name = |id: PartId| recipe.part(id).map_or_else(String::new, |part| part.name.to_string());
    let mut all: Vec<(PartId, T)> = Vec::new();
    for (name, of) in readings(&said.text) {
        let (name, of) = (Key::new(name), of.map(Key::new));
        for (part, called, thing) in things {
            let is_of = of.as_ref().is_none_or(|of| Key::new(&part_name(*part)) == *of);
            if is_of && same(&called.key, &name) && !all.iter().any(|(known, _)| known == part) {
                all.push((*part, *thing));
            }
        }
    }
    // A bare name is the recipe's own before it is that of a recipe which it draws on.
    let is_own = |(id, _): &(PartId, T)| recipe.part(*id).is_some_and(|part| part.foreign.is_none());
    if all.iter().any(is_own) {
        all.retain(is_own);
    }
    match all.as_slice() {
        [(_, one)] => Found::One(*one),
        [] => {
            let mut known: Vec<String> = Vec::new();
            for (_, name, _) in things {
                if !known.iter().any(|before| Key::new(before) == name.key) {
                    known.push(name.to_string());
                }
            }
            nothing(said, known)
        }
        several => Found::Several(several.iter().map(|(part, _)| format!("{said} of {}", part_name(*part))).collect()),
    }
}

/// The step that a line of a bake is of.
pub fn step(recipe: &Recipe, ran: &Ran) -> Found<StepRef> {
    let mut things = Vec::new();
    for (id, part) in recipe.parts() {
        things.extend((0..).zip(&part.steps).map(|(at, step)| (id, step.name.clone(), StepRef { part: id, step: at })));
    }
    found(recipe, &ran.step, &things, |one, other| one == other)
}

fn line(recipe: &Recipe, name: &Name) -> Found<(PartId, usize)> {
    let mut things = Vec::new();
    for (id, part) in recipe.parts() {
        things.extend((0..).zip(&part.lines).map(|(at, line)| (id, line.name.clone(), (id, at))));
    }
    // What a preferment takes is listed in its total formula, too: the first part that has it is meant there.
    match found(recipe, name, &things, is_called) {
        Found::Several(several) => {
            let of_total: Vec<(PartId, usize)> = things
                .iter()
                .filter(|(id, called, _)| {
                    is_called(&called.key, &name.key) && recipe.part(*id).is_some_and(|part| part.from.is_none())
                })
                .map(|(.., at)| *at)
                .collect();
            match of_total.as_slice() {
                [one] => Found::One(*one),
                _ => Found::Several(several),
            }
        }
        Found::Nothing(None, known) => added(recipe, name).unwrap_or(Found::Nothing(None, known)),
        other => other,
    }
}

/// What is known and is nothing of the recipe's: where it went in. Where several parts are mixed the log has to say into which.
fn added(recipe: &Recipe, name: &Name) -> Option<Found<(PartId, usize)>> {
    let larder = Larder::new();
    let mut all = readings(&name.text).into_iter();
    let (bare, of) = all.find(|(bare, _)| larder.find(&Key::new(bare)).is_some())?;
    let of = of.map(Key::new);
    let is_mixed = |part: &Part| part.from.is_none() && part.lines.iter().any(|line| line.part().is_none());
    let parts = recipe.own_parts().filter(|(_, part)| match &of {
        Some(of) => part.name.key == *of,
        None => is_mixed(part),
    });
    let parts: Vec<(PartId, String)> = parts.map(|(id, part)| (id, part.name.to_string())).collect();
    match parts.as_slice() {
        [(one, _)] => Some(Found::One((*one, ADDED))),
        [] => None,
        several => Some(Found::Several(several.iter().map(|(_, part)| format!("{bare} of {part}")).collect())),
    }
}

/// The options that a bake followed, and those that no choice has.
pub fn selection(choices: &[Choice], bake: &Bake) -> (Selection, Vec<(Name, Found<()>)>) {
    let (mut selection, mut unknown) = (Selection::new(), Vec::new());
    for (of, option) in &bake.options {
        let fitting = choices.iter().filter(|choice| of.as_ref().is_none_or(|of| of.same(&choice.name)));
        let taken = fitting.clone().find(|choice| choice.options.iter().any(|known| known.same(option)));
        match taken {
            Some(choice) => selection.take(&choice.name.key, &option.key),
            None => {
                let known: Vec<String> =
                    choices.iter().flat_map(|choice| &choice.options).map(ToString::to_string).collect();
                unknown.push((option.clone(), nothing(option, known)));
            }
        }
    }
    (selection, unknown)
}
