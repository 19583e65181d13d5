//! What is made without gluten and goes into a mixer straight after a dough that has it.

use crate::make::work::Work;
use crate::model::allergen::Law;
use crate::model::contains;
use crate::model::cooking::has_word;
use crate::model::kind::Kind;
use crate::model::recipe::{PartId, Recipe};
use crate::plan::schedule::{Row, Schedule};
use crate::text::diagnostic::Diagnostic;
use crate::text::source::Span;
use std::collections::HashSet;

/// Equipment in which food lies open and leaves something behind.
const TOUCHES_FOOD: &[&str] =
    &["mixer", "spiral", "planetary", "bowl", "sheeter", "divider", "fryer", "blender", "processor"];

/// What is made without gluten meets what a dough with gluten left in a machine.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Contact {
    /// The number of the row in which it goes in.
    pub row: usize,
    /// The name of its step.
    pub place: Span,
    /// What goes in after what.
    pub said: String,
}

/// How to keep the two apart.
pub const KEEP_APART: &str =
    "make it first, with tools and a bowl of its own, or clean the machine between the two and write that as a step";

impl Contact {
    /// As a warning.
    pub fn problem(&self) -> Diagnostic {
        Diagnostic::warning("gluten-after-wheat", self.place, &self.said).help(KEEP_APART)
    }
}

/// Each step of something without gluten that takes up a mixer after something with gluten.
pub fn gluten_after_wheat(schedule: &Schedule, work: &Work) -> Vec<Contact> {
    let mut contacts = Vec::new();
    let mut told = HashSet::new();
    for (at, row) in schedule.rows.iter().enumerate() {
        let Some((recipe, part)) = find(work, row).filter(|(recipe, _)| is_made_without(recipe)) else { continue };
        let Some(before) = before(schedule, row) else { continue };
        if !find(work, before).is_some_and(|(other, of)| has_gluten(other, [of])) {
            continue;
        }
        let Some(equipment) = &row.equipment else { continue };
        let step = recipe.part(part).and_then(|part| part.steps.get(row.at.step));
        let Some(step) = step.filter(|_| told.insert((row.batch, row.at))) else { continue };
        let unit = row.unit.filter(|_| row.units > 1).map(|unit| format!(" {unit}")).unwrap_or_default();
        let said = format!(
            "`{}` of `{}`, which has no gluten in it, goes into the {equipment}{unit} straight after `{}` of `{}`, which has",
            row.step, row.recipe, before.part, before.recipe
        );
        contacts.push(Contact { row: at, place: step.name.span, said });
    }
    contacts
}

/// The recipe in which a row's part is written, and its number there.
fn find<'w>(work: &'w Work, row: &Row) -> Option<(&'w Recipe, PartId)> {
    work.batches.get(row.batch)?.recipe.origin(row.at.part)
}

/// What lay in the same machine last.
fn before<'s>(schedule: &'s Schedule, row: &Row) -> Option<&'s Row> {
    let equipment = row.equipment.as_ref().filter(|name| has_word(&name.to_lowercase(), TOUCHES_FOOD))?;
    let same = |other: &&Row| other.equipment.as_ref() == Some(equipment) && other.unit == row.unit;
    let earlier = schedule.rows.iter().filter(same).filter(|other| other.start < row.start);
    earlier.max_by_key(|other| other.start)
}

/// Something of flour, starch or grain, or called so, in which nothing has gluten, as far as the larder knows.
fn is_made_without(recipe: &Recipe) -> bool {
    let own = || recipe.parts().filter(|(_, part)| part.foreign.is_none());
    let is_milled = |kind: Kind| matches!(kind, Kind::Flour | Kind::Starch | Kind::Grain);
    let milled = own().any(|(_, part)| part.lines.iter().any(|line| line.is_flour || is_milled(line.kind)));
    let said = has_word(recipe.name.key.as_str(), &["gluten", "gf"]);
    (milled || said) && !has_gluten(recipe, own().map(|(id, _)| id))
}

fn has_gluten(recipe: &Recipe, parts: impl IntoIterator<Item = PartId>) -> bool {
    let found = contains::of_parts(recipe, parts, |_, _| false);
    found.known.iter().any(|name| Law::Eu.is(name, "cereals containing gluten"))
}
