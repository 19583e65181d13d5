//! What of other files goes into a recipe, looked at where it comes in: whether it is cooked is settled in the dish in which it is eaten, and the
//! file that it comes from may be right by itself.

use super::Subject;
use super::dough::inside;
use crate::model::recipe::{Ingredient, Part, PartId};
use crate::solve::formula::SolvedPart;
use crate::text::diagnostic::Diagnostic;

/// Looks at each part of another file that goes into the recipe, once, and tells what is found on the recipe's own line through which it comes.
pub(super) fn told_where_it_comes_in<'a>(
    subject: &Subject<'a>,
    diagnostics: &mut Vec<Diagnostic>,
    mut look: impl FnMut((PartId, &'a Part, &'a SolvedPart), &mut Vec<Diagnostic>),
) {
    let recipe = subject.recipe;
    // Those of other files stand behind all others.
    let has_foreign = || recipe.parts.iter().next_back().is_some_and(|last| last.foreign.is_some());
    if !subject.is_of_whole() || !has_foreign() {
        return;
    }
    let foreign = |id: PartId| recipe.part(id).filter(|part| part.foreign.is_some());
    let mut seen = vec![false; recipe.parts.len()];
    let mut found = Vec::new();
    for (_, part) in recipe.own_parts() {
        for line in &part.lines {
            let Some(first) = line.part().filter(|id| foreign(*id).is_some()) else { continue };
            if seen.get(first.0) == Some(&true) {
                continue;
            }
            for id in inside(recipe, first) {
                let (Some(slot), Some(part), Some(solved)) =
                    (seen.get_mut(id.0).filter(|slot| !**slot), foreign(id), subject.formula.part(id))
                else {
                    continue;
                };
                *slot = true;
                look((id, part, solved), &mut found);
            }
            diagnostics.extend(found.drain(..).map(|problem| on_line(problem, line)));
        }
    }
}

/// A problem that was found in another file, told on a line of this one. Its mends are for the other.
fn on_line(problem: Diagnostic, line: &Ingredient) -> Diagnostic {
    let message = format!("of `{}`, from another file: {}", line.name, problem.message);
    Diagnostic {
        message,
        span: line.name.span,
        label: String::new(),
        also: Vec::new(),
        mend: None,
        other_mend: None,
        ..problem
    }
}
