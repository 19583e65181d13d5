//! Parts that draw on themselves.

use crate::model::recipe::{Ingredient, PartId, Recipe};
use crate::text::diagnostic::Diagnostic;

/// So many rings are told: one part too many in a chain closes thousands.
const MOST_RINGS: usize = 20;
/// Of the parts of a ring so many are named.
const MOST_NAMED: usize = 12;

/// Reports rings of parts; says whether there is one.
pub(super) fn report(recipe: &Recipe, diagnostics: &mut Vec<Diagnostic>) -> bool {
    let mut state = vec![State::New; recipe.parts.len()];
    let mut found = 0;
    for (start, _) in recipe.parts() {
        walk(recipe, start, &mut state, &mut found, diagnostics);
    }
    found > 0
}

#[derive(Clone, Copy, PartialEq)]
enum State {
    New,
    Open,
    Done,
}

/// Depth first with a stack of its own, so that a thousand parts in a chain do not exhaust the program's.
fn walk(recipe: &Recipe, start: PartId, state: &mut [State], found: &mut usize, diagnostics: &mut Vec<Diagnostic>) {
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
                *found += 1;
                if *found <= MOST_RINGS {
                    let ring: Vec<PartId> = path.iter().map(|(id, _)| *id).skip_while(|id| *id != next).collect();
                    diagnostics.extend(problem(recipe, &ring));
                }
            }
            _ => {}
        }
    }
}

fn set(state: &mut [State], id: PartId, to: State) {
    if let Some(state) = state.get_mut(id.0) {
        *state = to;
    }
}

/// The parts that a part cannot be made without.
fn needs(recipe: &Recipe, id: PartId) -> Vec<PartId> {
    let Some(part) = recipe.part(id) else { return Vec::new() };
    let drawn = part.lines.iter().filter_map(Ingredient::part);
    drawn.chain(part.from).collect()
}

fn problem(recipe: &Recipe, ring: &[PartId]) -> Option<Diagnostic> {
    let parts: Vec<_> = ring.iter().filter_map(|id| recipe.part(*id)).collect();
    let (first, others) = parts.split_first()?;
    let left_out = parts.len().saturating_sub(MOST_NAMED);
    let dots = (left_out > 0).then(|| format!("… ({left_out} more)"));
    let named = parts.iter().take(MOST_NAMED).map(|part| &*part.name.text);
    let names: Vec<&str> = named.chain(dots.as_deref()).chain([&*first.name.text]).collect();
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
    for part in others.iter().take(MOST_NAMED) {
        problem = problem.also(part.name.span, "also in the ring");
    }
    Some(problem)
}
