//! What a line says of a part that it draws on: before which of its steps it is taken.

use super::outline::PartOutline;
use super::reading::Reading;
use crate::language::syntax::{Content, IngredientClause, Name};
use crate::model::flow;
use crate::model::recipe::{Part, PartId, Recipe, Refers};
use crate::model::step::{StepRef, Target, Words};
use crate::text::diagnostic::Diagnostic;

/// Binds `before STEP` of the lines that draw on a part, once the steps of all parts are known.
pub(super) fn bind(recipe: &mut Recipe, outlines: &[&PartOutline<'_>], reading: &mut Reading) {
    let mut bound: Vec<(usize, usize, StepRef)> = Vec::new();
    for (at, outline) in outlines.iter().enumerate() {
        for line in outline.lines.iter().filter(|line| recipe.selection.holds(&line.only)) {
            let Content::Ingredient(written) = &line.content else { continue };
            let said = written.clauses.iter().filter_map(|clause| match &clause.value {
                IngredientClause::Before(step) => Some(step),
                _ => None,
            });
            for step in said {
                let lines = recipe.parts.get(at).map_or(&[][..], |part| &part.lines);
                let place = lines.iter().position(|known| known.name.span == written.name.span);
                let other = place.and_then(|place| match &lines.get(place)?.refers {
                    Refers::Part(other) => Some((place, *other)),
                    Refers::Pantry(None) => {
                        no_part(recipe, PartId(at), &written.name, step, reading);
                        None
                    }
                    Refers::Pantry(_) => None,
                });
                if let Some((place, other)) = other
                    && let Some(step) = find(recipe, other, step, reading)
                {
                    bound.push((at, place, step));
                }
            }
        }
    }
    for (part, line, step) in bound {
        if let Some(line) = recipe.part_mut(PartId(part)).and_then(|part| part.lines.get_mut(line)) {
            line.before = Some(step);
        }
    }
}

/// Tells of a name that no larder knows and no part has, where it is meant for one since it is taken `before STEP`: another part has such a
/// step, or other files are used, whose parts are what one takes like that.
fn no_part(recipe: &Recipe, id: PartId, name: &Name, step: &Name, reading: &mut Reading) {
    let others = || recipe.parts().filter(|(other, _)| *other != id).map(|(_, part)| part);
    let has_step = |part: &&Part| part.steps.iter().any(|known| known.name.same(step));
    let mut known: Vec<&Part> = others().filter(has_step).collect();
    if known.is_empty() && recipe.used.is_empty() {
        return;
    }
    if known.is_empty() {
        known.extend(others());
    }
    let message = format!("`before {step}` takes `{name}` as a part that has such a step, and no part is called so");
    let known = known.iter().map(|part| part.name.key.as_str());
    reading.unknown(Diagnostic::error("unknown-name", name.span, message), name, known);
}

/// The step of that name in a part; before it something must be done.
fn find(recipe: &Recipe, of: PartId, name: &Name, reading: &mut Reading) -> Option<StepRef> {
    let part = recipe.part(of)?;
    let Some(step) = part.steps.iter().position(|step| step.name.same(name)) else {
        let message = format!("`{}` has no step `{name}` before which it could be taken", part.name);
        let steps = part.steps.iter().map(|step| step.name.key.as_str());
        reading.unknown(Diagnostic::error("unknown-step", name.span, message), name, steps);
        return None;
    };
    let left_out = flow::left_out(part, of, step);
    if flow::sinks_without(part, of, &left_out).is_empty() {
        let message = format!("before `{name}` nothing is done of `{}`", part.name);
        reading.report(
            Diagnostic::error("unknown-step", name.span, message)
                .help("name a later step, or list what goes into the part instead of the part"),
        );
        return None;
    }
    if let Some((at, preferment)) = preferment_left_out(part, &left_out) {
        let preferment = recipe.part(preferment).map(|part| part.name.to_string()).unwrap_or_default();
        let goes_in = part.steps.get(at).map(|step| step.name.to_string()).unwrap_or_default();
        let message = format!(
            "`{preferment}` goes into `{}` with `{goes_in}`, so what is taken before `{name}` would lack what was taken out for it",
            part.name
        );
        reading.report(
            Diagnostic::error("unknown-step", name.span, message)
                .help(format!("name a step after `{goes_in}`, or take `{preferment}` in an earlier step")),
        );
        return None;
    }
    Some(StepRef { part: of, step })
}

/// The first step of those that are left out which draws a preferment of the part, and that preferment: it was taken out of what goes
/// into the part as a whole.
fn preferment_left_out(part: &Part, left_out: &[bool]) -> Option<(usize, PartId)> {
    part.steps.iter().enumerate().filter(|(at, _)| left_out.get(*at) == Some(&true)).find_map(|(at, step)| {
        step.words.iter().find_map(|word| match word {
            Words::Use { target: Some(Target::Preferment(preferment)), .. } => Some((at, *preferment)),
            _ => None,
        })
    })
}
