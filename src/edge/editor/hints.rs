//! Figures shown beside what is written: grams beside percentages, percentages beside grams, the clock beside steps.

use super::place;
use super::view::View;
use crate::language::syntax::Content;
use crate::measure::show;
use crate::measure::shown::Shown;
use crate::measure::value::Value;
use crate::model::recipe::LineAmount;

/// A figure and the offset it stands at.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Hint {
    /// Behind which byte.
    pub at: usize,
    /// The figure.
    pub text: String,
    /// What it is.
    pub about: &'static str,
}

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
            hints.push(Hint { at, text: text.to_string(), about });
        }
    }
    let heads = view.tree().lines.iter().filter(|line| inside(line.said.range().start));
    let mut steps = heads.filter(|line| matches!(line.content, Content::Step(_))).peekable();
    // The clock asks the planner, which is left alone where no step is to be seen.
    if steps.peek().is_some()
        && let (Some((recipe, _)), Some(timeline)) = (view.worked(), view.timeline())
    {
        for line in steps {
            let Content::Step(head) = &line.content else { continue };
            let Some((id, _, step)) = place::step_of(view, line.said) else { continue };
            let Some(part) = recipe.part(id) else { continue };
            let row = timeline.rows.iter().find(|row| *row.part == *part.name.text && *row.step == *step.name.text);
            if let Some(row) = row {
                let text = format!("{} – {}", show::offset(row.start), show::offset(row.end));
                hints.push(Hint {
                    at: head.duration.span.range().end,
                    text,
                    about: "hours and minutes after the start",
                });
            }
        }
    }
    hints.sort_by_key(|hint| hint.at);
    hints
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
