//! Figures shown beside what is written: grams beside percentages, percentages beside grams, the clock beside steps.

use super::hint::Hint;
use super::view::View;
use super::{log, place};
use crate::language::syntax::Content;
use crate::measure::show;
use crate::measure::shown::Shown;
use crate::measure::value::Value;
use crate::model::recipe::{LineAmount, Recipe};

/// The hints of a stretch of the text.
pub(super) fn hints(view: &View, from: usize, to: usize) -> Vec<Hint> {
    let mut hints = Vec::new();
    let inside = |at: usize| from <= at && at <= to;
    for found in place::lines(view) {
        let at = found.line.amount_span.range().end;
        if !inside(at) {
            continue;
        }
        if let Some((text, about)) = beside(&found) {
            hints.push(Hint { at, text: text.to_string(), about: with(view, found.recipe, about) });
        }
    }
    // The clock asks the planner, which is left alone where no step is to be seen.
    for line in view.tree().lines.iter().filter(|line| inside(line.said.range().start)) {
        let Content::Step(head) = &line.content else { continue };
        let Some(found) = place::step_of(view, line.said) else { continue };
        if let Some((start, end)) = place::clock_of(view, &found) {
            hints.push(Hint {
                at: head.duration.span.range().end,
                text: format!("{} – {}", show::offset(start), show::offset(end)),
                about: with(view, &found.worked.made.0, "hours and minutes after the start"),
            });
        }
    }
    hints.extend(log::hints(view, inside));
    hints.sort_by_key(|hint| hint.at);
    hints
}

/// What a figure is, and with which options, where they are not the default.
fn with(view: &View, recipe: &Recipe, about: &str) -> String {
    let taken = view.taken(recipe);
    if taken.is_empty() { about.to_owned() } else { format!("{about}, with {taken}") }
}

/// The other way to say an amount.
fn beside(found: &place::PlacedLine<'_>) -> Option<(Shown, &'static str)> {
    let said_percent = match &found.line.amount {
        LineAmount::Said(said) if said.len() > 1 => return None,
        LineAmount::Said(said) => matches!(said.first()?.value, Value::Proportion(_)),
        LineAmount::All => true,
        LineAmount::ToTaste | LineAmount::AsNeeded | LineAmount::Broken => return None,
    };
    let is_mass = matches!(&found.line.amount, LineAmount::Said(said) if said.iter().any(|said| said.mass().is_some()));
    match (found.amount.mass, found.amount.percent) {
        (Some(mass), _) if said_percent => Some((show::mass_plain(mass), "in the whole batch")),
        (Some(mass), _) if found.part.per_piece => Some((show::mass_plain(mass), "in the whole batch")),
        (Some(_), Some(percent)) if is_mass => Some((show::percent(percent), "of the base")),
        (Some(mass), _) if !is_mass => Some((show::mass_plain(mass), "in the whole batch")),
        _ => None,
    }
}
