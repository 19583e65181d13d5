//! Steps that heat before what they heat is taken, and that finish pieces before they are cooked.
//!
//! They are told by `step-out-of-place`.

use crate::model::cooking::{bakes, called, cooks_by_head, first_draws};
use crate::model::flow::heats_empty;
use crate::model::lowered::beginnings;
use crate::model::recipe::{Ingredient, Part, Recipe, Refers};
use crate::model::step::{Step, StepKind, Target, Words};
use crate::text::diagnostic::Diagnostic;

/// The first step of a part that heats what is not there yet, or finishes what is still raw.
pub(super) fn problem(recipe: &Recipe, check: &'static str, part: &Part) -> Option<Diagnostic> {
    let (early, later, message, help) = if let Some((finish, cook)) = finished_first(recipe, part) {
        let message = format!("`{}` comes before `{}`, which takes what is to be cooked", finish.name, cook.name);
        (finish, cook, message, format!("move it below `{}`", cook.name))
    } else {
        let (heat, take) = heated_empty(recipe, part)?;
        let message =
            format!("`{}` comes before `{}`, and nothing of `{}` was taken before it", heat.name, take.name, part.name);
        (heat, take, message, format!("move it below `{}`", take.name))
    };
    Some(Diagnostic::warning(check, early.name.span, message).also(later.name.span, "taken here").help(help))
}

/// The lines that stand for a part of flour, and whether that was baked there.
fn doughs<'r>(recipe: &'r Recipe, part: &'r Part) -> impl Iterator<Item = (usize, &'r Part)> {
    let of_flour = |part: &Part| part.lines.iter().any(|line| line.is_flour && !line.aside);
    part.lines.iter().enumerate().filter_map(move |(at, line)| {
        let made = recipe.part(line.part()?)?;
        of_flour(made).then_some((at, made))
    })
}

/// Pieces that are filled or sugared in a step above the one that cooks them: the first that does, and the one that cooks.
pub(super) fn finished_first<'p>(recipe: &Recipe, part: &'p Part) -> Option<(&'p Step, &'p Step)> {
    if !part.per_piece {
        return None;
    }
    let draws = first_draws(part);
    // The dough itself, raw so far, is taken in a step that cooks.
    let cook = doughs(recipe, part).find_map(|(at, dough)| {
        let first = draws.get(&Target::Line(at)).copied()?;
        let step = part.steps.get(first)?;
        (!dough.steps.iter().any(bakes)
            && cooks_by_head(step)
            && called(step, beginnings!["fry", "deep-fry", "boil", "bake", "griddle"]))
        .then_some(first)
    })?;
    let finishes = |step: &&Step| {
        let by_piece = step.kind == StepKind::Hands && step.loads.is_by_piece() && step.order.is_empty();
        by_piece
            && called(step, beginnings!["fill", "sugar", "glaze", "ice", "dust", "sandwich"])
            && step.lines_taken().next().is_some()
    };
    Some((part.steps.iter().take(cook).find(finishes)?, part.steps.get(cook)?))
}

/// A step that heats and takes nothing, before anything was taken, and the later one that takes what it should have heated.
fn heated_empty<'p>(recipe: &Recipe, part: &'p Part) -> Option<(&'p Step, &'p Step)> {
    let takes = |step: &Step| step.words.iter().any(|word| matches!(word, Words::Use { target: Some(_), .. }));
    let first = part.steps.iter().position(takes)?;
    let before = part.steps.iter().take(first);
    let heat =
        before.enumerate().find(|(_, step)| step.kind != StepKind::Wait && cooks_by_head(step)).map(|(at, _)| at)?;
    let (heating, taking) = (part.steps.get(heat)?, part.steps.get(first)?);
    let is_fixed = !heating.order.is_empty() || !taking.order.is_empty();
    if is_fixed || heats_empty(heating) || called(heating, beginnings!["preheat", "heat", "warm"]) {
        return None;
    }
    let draws = first_draws(part);
    let taken = |at: usize| draws.get(&Target::Line(at)).is_some_and(|draw| *draw == first);
    // What is boiled after it was baked was boiled raw: bagels.
    let raw_dough = || doughs(recipe, part).any(|(at, dough)| taken(at) && !dough.steps.iter().any(bakes));
    let cooks_it = cooks_by_head(taking) && taking.kind != StepKind::Wait && raw_dough();
    // Cases that were baked already are not baked again empty.
    let cases = doughs(recipe, part).all(|(_, dough)| dough.steps.iter().any(bakes))
        && doughs(recipe, part).any(|(at, _)| taken(at));
    let others =
        |line: &Ingredient| matches!(line.refers, Refers::Part(_)) || line.kind == crate::model::kind::Kind::Egg;
    let fills = taking.kind == StepKind::Hands
        && called(taking, beginnings!["fill", "pour"])
        && bakes(heating)
        && cases
        && part.lines.iter().enumerate().filter(|(at, line)| taken(*at) && others(line)).count() > 1
        && !part.steps.iter().skip(first + 1).any(bakes);
    (cooks_it || fills).then_some((heating, taking))
}
