//! What a line says of a part that it draws on: before which of its steps it is taken.

use super::outline::PartOutline;
use super::reading::Reading;
use crate::language::syntax::{Content, IngredientClause, Name};
use crate::model::flow;
use crate::model::recipe::{PartId, Recipe, Refers};
use crate::model::step::StepRef;
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
                let other = place.and_then(|place| match lines.get(place)?.refers {
                    Refers::Part(other) => Some((place, other)),
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

/// The step of that name in a part; before it something must be done.
fn find(recipe: &Recipe, of: PartId, name: &Name, reading: &mut Reading) -> Option<StepRef> {
    let part = recipe.part(of)?;
    let Some(step) = part.steps.iter().position(|step| step.name.same(name)) else {
        let message = format!("`{}` has no step `{name}` before which it could be taken", part.name);
        let steps = part.steps.iter().map(|step| step.name.key.as_str());
        reading.unknown(Diagnostic::error("unknown-step", name.span, message), name, steps);
        return None;
    };
    if flow::sinks_without(part, of, &flow::left_out(part, of, step)).is_empty() {
        let message = format!("before `{name}` nothing is done of `{}`", part.name);
        reading.report(
            Diagnostic::error("unknown-step", name.span, message)
                .help("name a later step, or list what goes into the part instead of the part"),
        );
        return None;
    }
    Some(StepRef { part: of, step })
}
