//! Parts that draw on themselves.

use crate::model::recipe::{PartId, Recipe, Refers};
use crate::text::diagnostic::Diagnostic;

/// Reports every ring of parts; says whether there is one.
pub(super) fn report(recipe: &Recipe, diagnostics: &mut Vec<Diagnostic>) -> bool {
    let mut state = vec![State::New; recipe.parts.len()];
    let mut found = false;
    for (start, _) in recipe.parts() {
        found |= walk(recipe, start, &mut state, diagnostics);
    }
    found
}

#[derive(Clone, Copy, PartialEq)]
enum State {
    New,
    Open,
    Done,
}

/// Depth first with a stack of its own, so that a thousand parts in a chain do not exhaust the program's.
fn walk(recipe: &Recipe, start: PartId, state: &mut [State], diagnostics: &mut Vec<Diagnostic>) -> bool {
    let mut found = false;
    let mut path: Vec<(PartId, Vec<PartId>)> = Vec::new();
    if state.get(start.0) == Some(&State::New) {
        path.push((start, needs(recipe, start)));
        set(state, start, State::Open);
    }
    while let Some((at, rest)) = path.last_mut() {
        let at = *at;
        let Some(next) = rest.pop() else {
            set(state, at, State::Done);
            path.pop();
            continue;
        };
        match state.get(next.0) {
            Some(State::New) => {
                set(state, next, State::Open);
                path.push((next, needs(recipe, next)));
            }
            Some(State::Open) => {
                found = true;
                let ring: Vec<PartId> = path.iter().map(|(id, _)| *id).skip_while(|id| *id != next).collect();
                diagnostics.extend(problem(recipe, &ring));
            }
            _ => {}
        }
    }
    found
}

fn set(state: &mut [State], id: PartId, to: State) {
    if let Some(state) = state.get_mut(id.0) {
        *state = to;
    }
}

/// The parts that a part cannot be made without.
fn needs(recipe: &Recipe, id: PartId) -> Vec<PartId> {
    let Some(part) = recipe.part(id) else { return Vec::new() };
    let drawn = part.lines.iter().filter_map(|line| match line.refers {
        Refers::Part(other) => Some(other),
        Refers::Pantry(_) => None,
    });
    drawn.chain(part.from).collect()
}

fn problem(recipe: &Recipe, ring: &[PartId]) -> Option<Diagnostic> {
    let parts: Vec<_> = ring.iter().filter_map(|id| recipe.part(*id)).collect();
    let (first, others) = parts.split_first()?;
    let names: Vec<&str> = parts.iter().chain([first]).map(|part| &*part.name.text).collect();
    let is_preferment = parts.len() == 2 && parts.iter().any(|part| part.from.is_some());
    let (message, help) = if is_preferment {
        let preferment = parts.iter().find(|part| part.from.is_some())?;
        let total = parts.iter().find(|part| part.from.is_none())?;
        (
            format!(
                "`{}` is taken out of `{}`, so `{}` cannot list it as an ingredient too",
                preferment.name, total.name, total.name
            ),
            format!(
                "take the line `{}` out of `{}`: that part is the total formula and already holds what goes into it",
                preferment.name, total.name
            ),
        )
    } else {
        (
            format!("these parts draw on each other in a ring: {}", names.join(" → ")),
            "a part can only be made of parts that can be made before it; take one of the lines out".to_owned(),
        )
    };
    let mut problem = Diagnostic::error("part-cycle", first.name.span, message).help(help);
    for part in others {
        problem = problem.also(part.name.span, "also in the ring");
    }
    Some(problem)
}
