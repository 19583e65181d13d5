//! Preferments that an option leaves out: what only steps draw that are not done under it is not made.

use super::outline::{PartOutline, StepOutline};
use super::reading::Reading;
use crate::language::syntax::{Content, Piece};
use crate::model::recipe::Selection;
use crate::text::diagnostic::Diagnostic;

/// The parts without the preferments that no step of their dough draws under a selection, while one does under another: all that the
/// dough lists goes into it directly then. Each is told, since its name may only have been forgotten.
pub(super) fn without_left_out<'o, 't>(
    mut parts: Vec<&'o PartOutline<'t>>,
    selection: &Selection,
    reading: &mut Reading,
) -> Vec<&'o PartOutline<'t>> {
    while let Some(at) = parts.iter().position(|part| is_left_out(part, &parts, selection)) {
        let part = parts.remove(at);
        let of = part.from.map(ToString::to_string).unwrap_or_default();
        let message =
            format!("no step takes `{}`, so it is not made: all that `{of}` lists goes into it at once", part.name);
        reading.report(Diagnostic::warning("never-used", part.name.span, message).help(format!(
            "take it where it goes into the mix, `{{{0}}}`; where it is meant so, write the option behind it, `part {0}, from {of} \
             [OPTION]`",
            part.name
        )));
    }
    parts
}

fn is_left_out(part: &PartOutline<'_>, parts: &[&PartOutline<'_>], selection: &Selection) -> bool {
    let Some(from) = part.from else { return false };
    // Without its dough nothing is known of it, and what others list or take out of it is made for them.
    let Some(dough) = parts.iter().find(|other| other.name.same(from)) else { return false };
    // Asked first, since it costs least: where every step of the dough is done, none leaves anything out.
    if dough.steps.iter().all(|step| selection.holds(&step.head.only)) {
        return false;
    }
    let lists = |content: &Content| matches!(content, Content::Ingredient(line) if line.name.same(&part.name));
    let is_wanted = |other: &&PartOutline<'_>| {
        other.from.is_some_and(|from| from.same(&part.name)) || other.lines.iter().any(|line| lists(&line.content))
    };
    if parts.iter().any(is_wanted) {
        return false;
    }
    let draws = |step: &&StepOutline<'_>| step.below.iter().any(|line| is_drawn(part, &line.content));
    let (done, left_out): (Vec<_>, Vec<_>) = dough.steps.iter().partition(|step| selection.holds(&step.head.only));
    !done.is_empty() && !done.iter().any(draws) && left_out.iter().any(draws)
}

fn is_drawn(part: &PartOutline<'_>, content: &Content) -> bool {
    let Content::Prose(pieces) = content else { return false };
    pieces.iter().any(|piece| matches!(piece, Piece::Use(_, name) if name.same(&part.name)))
}
