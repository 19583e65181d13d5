//! Doughs into which butter is folded, and how warm they prove: what `odd-temperature` looks for beside the name of a step.

use super::Subject;
use super::dough::inside;
use crate::language::syntax::Name;
use crate::measure::number::Number;
use crate::measure::show::{self, Units};
use crate::model::cooking::rests::{PROVES, RISES};
use crate::model::cooking::{beginnings, called};
use crate::model::recipe::{Part, PartId, Recipe};
use crate::model::step::{Step, StepKind};
use crate::text::diagnostic::Diagnostic;

/// Butter softens from 28 °C and is oil at 32: warmer no layered dough proves. Common practice, no source.
const WARMEST: Number = Number::whole(30);

/// They are told under the name of the check of temperatures.
pub(super) fn problems<'s>(subject: &'s Subject<'_>, check: &'static str) -> impl Iterator<Item = Diagnostic> + 's {
    subject.own_parts().flat_map(move |(id, part, _)| {
        let proves = part.steps.iter().enumerate().filter(|(_, step)| {
            let named = called(step, PROVES) || called(step, RISES);
            step.kind == StepKind::Wait && named && step.temperature.is_some_and(|(low, _)| low.celsius() > WARMEST)
        });
        let layered = proves.filter(move |(at, _)| is_layered(subject.recipe, id, *at));
        layered.filter_map(move |(_, step)| problem(check, step))
    })
}

fn problem(check: &'static str, step: &Step) -> Option<Diagnostic> {
    let (low, _) = step.temperature?;
    let message = format!(
        "`{}` is at {}, and butter is folded into the dough: it melts from 30 °C on and runs out",
        step.name,
        show::temperature(low, Units::Metric)
    );
    Some(
        Diagnostic::advice(check, step.span, message).help("prove it at 24 to 28 °C; look whether a digit has slipped"),
    )
}

/// Whether what is in a step of a part has turns with butter behind it, in the part or in one that it takes.
fn is_layered(recipe: &Recipe, id: PartId, at: usize) -> bool {
    inside(recipe, id).into_iter().any(|inner| {
        let Some(part) = recipe.part(inner) else { return false };
        let until = if inner == id { at } else { part.steps.len() };
        part.steps.iter().take(until).any(|step| turns(&step.name)) && holds_butter(recipe, inner)
    })
}

fn holds_butter(recipe: &Recipe, id: PartId) -> bool {
    let has_butter =
        |part: &Part| part.lines.iter().any(|line| line.stays_in() && line.name.has_word(beginnings!["butter"]));
    inside(recipe, id).into_iter().filter_map(|inner| recipe.part(inner)).any(has_butter)
}

/// Whether a step of that name folds butter into a dough.
pub(super) fn turns(name: &Name) -> bool {
    name.has_word(beginnings!["lock", "laminat", "book", "letter"])
        || name.has_word(beginnings!["turn"]) && !name.has_word(beginnings!["out", "over"])
}
