//! What leaves the oven crisp and has lost next to nothing there. Common practice, no source: crispbread keeps a twentieth of its weight as water.

use super::CHECK;
use crate::check::Subject;
use crate::check::dough::{has_flour, mille};
use crate::measure::number::Number;
use crate::measure::show;
use crate::model::cooking::{beginnings, called, dries_through};
use crate::model::lowered::Beginnings;
use crate::model::step::Step;
use crate::text::diagnostic::Diagnostic;
use crate::text::source::Span;

/// What is crisp all through, by the beginnings of words of its name.
const CRISP: &Beginnings = &Beginnings::of(&["crispbread", "crisp bread", "cracker", "rusk", "zwieback", "knäcke"]);
/// Of its water two fifths at least are gone then.
const GONE: Number = Number::constant(2, 5);

/// A bake loss of 3.4 % of a dough that is two fifths water and leaves the oven dry; at the place where what is made is told.
pub(super) fn problem(subject: &Subject<'_>, span: Span) -> Option<Diagnostic> {
    let recipe = subject.recipe;
    let id = recipe.final_part()?;
    let (part, solved) = (recipe.part(id).filter(|part| !part.broken)?, subject.formula.part(id)?);
    let loss = recipe.bake_loss?;
    let named = [&recipe.name, &part.name].iter().any(|name| name.has_word_beginning(CRISP));
    // A crust is crisp as well.
    let is_dried = |step: &Step| called(step, beginnings!["dry|", "drying", "dehydrat"]) && dries_through(step);
    let is_crisp = named || part.steps.iter().any(is_dried);
    let water = solved.composition.water.as_share_of(solved.composition.total).ok()?;
    let least = water.value().times(GONE).ok()?;
    if !is_crisp || !has_flour(solved, 300) || water < mille(250) || loss.value() >= least {
        return None;
    }
    let message = format!(
        "a bake loss of {} of what is {} water and leaves the oven crisp: most of that water is lost in it",
        show::percent(loss),
        show::percent(water)
    );
    Some(Diagnostic::advice(CHECK.name, span, message).help("look whether a point or a digit has slipped"))
}
