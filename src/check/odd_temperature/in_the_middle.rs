//! What is called done hotter than it can be in the middle, and bread that is raw there.

use super::CHECK;
use crate::check::Subject;
use crate::check::done::{done_at, in_the_middle};
use crate::check::undercooked::takes_what_is_asked;
use crate::measure::number::Number;
use crate::measure::show;
use crate::measure::temperature::Temperature;
use crate::measure::value::Said;
use crate::model::cooking::bakes;
use crate::model::step::Step;
use crate::text::diagnostic::Diagnostic;

/// What is wrong with the temperatures at which steps are called done.
pub(super) fn problems(subject: &Subject<'_>) -> Vec<Diagnostic> {
    let mut problems = Vec::new();
    for (id, part, _) in subject.own_parts() {
        for (at, step) in part.steps.iter().enumerate() {
            let Some(done) = done_at(step) else { continue };
            let has_flesh = || takes_what_is_asked(subject.recipe, part, at);
            let is_raised = || !has_flesh() && subject.fermented().has(id);
            problems.extend(hotter_than_steam(step, has_flesh).or_else(|| raw_crumb(step, done, is_raised)));
        }
    }
    problems
}

/// In the middle of what is moist it is no hotter than steam, however hot the oven is.
const STEAM: Number = Number::whole(101);

/// A sign that says more in the middle than there can be.
fn hotter_than_steam(step: &Step, has_flesh: impl Fn() -> bool) -> Option<Diagnostic> {
    let (said, at) = in_the_middle(&step.cue)?;
    if at.celsius() <= STEAM || !(bakes(step) || has_flesh()) {
        return None;
    }
    let message = format!(
        "`{}` is done at {} in the middle: what is moist gets no hotter than 100 °C",
        step.name,
        show::said_plain(said)
    );
    Some(
        Diagnostic::advice(CHECK.name, said.span, message)
            .help("look whether a digit has slipped, or the unit, C or F"),
    )
}

/// A raised dough is crumb from here on; a lean one from 88 °C. Common practice, no source.
const CRUMB: Number = Number::whole(82);

/// Bread that comes out of the oven raw in the middle.
fn raw_crumb(step: &Step, (said, at): (&Said, Temperature), is_raised: impl Fn() -> bool) -> Option<Diagnostic> {
    let is_told_elsewhere = at.celsius() < Number::whole(50);
    if is_told_elsewhere || at.celsius() >= CRUMB || !bakes(step) || !is_raised() {
        return None;
    }
    let message = format!(
        "`{}` is done at {}: a raised dough is crumb from 82 °C in the middle, a lean one from 88 °C",
        step.name,
        show::said_plain(said)
    );
    Some(
        Diagnostic::advice(CHECK.name, said.span, message)
            .help("look whether the digits are in order: a loaf is done at 93 to 98 °C"),
    )
}
