//! What is made without gluten and goes into a mixer straight after a dough that has it.

use crate::make::batch::Batch;
use crate::make::work::Work;
use crate::model::allergen::Law;
use crate::model::contains;
use crate::model::cooking::has_word_beginning;
use crate::model::kind::Kind;
use crate::model::recipe::PartId;
use crate::plan::problem::Minute;
use crate::plan::schedule::{Row, Schedule};
use crate::text::diagnostic::Diagnostic;
use crate::text::source::Span;
use std::collections::HashSet;

/// Equipment in which food lies open and leaves something behind.
const TOUCHES_FOOD: &[&str] =
    &["mixer", "spiral", "planetary", "bowl", "sheeter", "divider", "fryer", "blender", "processor"];

/// What to be careful of at a row of a plan: what is made without gluten meets what a dough with gluten left in a machine, or what cools is
/// left alone.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Contact {
    /// The check that says so.
    pub check: &'static str,
    /// The number of the row: that in which it goes in.
    pub row: usize,
    /// When, in minutes from the plan's start.
    pub minute: Minute,
    /// The name of its step.
    pub place: Span,
    /// What it is: what goes in after what.
    pub said: String,
    /// What would help.
    pub help: &'static str,
}

const GLUTEN_AFTER_WHEAT: &str = "gluten-after-wheat";

/// How to keep the two apart.
const KEEP_APART: &str =
    "make it first, with tools and a bowl of its own, or clean the machine between the two and write that as a step";

impl Contact {
    /// As a problem.
    pub fn problem(&self) -> Diagnostic {
        let problem = match self.check {
            GLUTEN_AFTER_WHEAT => Diagnostic::warning(self.check, self.place, &self.said),
            _ => Diagnostic::advice(self.check, self.place, &self.said),
        };
        problem.help(self.help)
    }
}

/// Each step of something without gluten that takes up a mixer after something with gluten.
pub fn gluten_after_wheat(schedule: &Schedule, work: &Work) -> Vec<Contact> {
    let mut contacts = Vec::new();
    let mut told = HashSet::new();
    for (at, row) in schedule.rows.iter().enumerate() {
        let Some(batch) = work.batches.get(row.batch).filter(|batch| is_made_without(batch, row.at.part)) else {
            continue;
        };
        let Some(before) = before(schedule, row) else { continue };
        if !work.batches.get(before.batch).is_some_and(|other| has_gluten(other, [before.at.part])) {
            continue;
        }
        let Some(equipment) = &row.equipment else { continue };
        let step = batch.recipe.part(row.at.part).and_then(|part| part.steps.get(row.at.step));
        let Some(step) = step.filter(|_| told.insert((row.batch, row.at))) else { continue };
        let unit = row.unit.filter(|_| row.units > 1).map(|unit| format!(" {unit}")).unwrap_or_default();
        let said = format!(
            "`{}` of `{}`, which has no gluten in it, goes into the {equipment}{unit} straight after `{}` of `{}`, which has",
            row.step, row.recipe, before.part, before.recipe
        );
        contacts.push(Contact {
            check: GLUTEN_AFTER_WHEAT,
            minute: row.start,
            row: at,
            place: step.name.span,
            said,
            help: KEEP_APART,
        });
    }
    contacts
}

/// Where something without gluten follows something with gluten in a machine: the tasks that go into it without gluten, each with one that
/// has gluten and should come after it. Empty where nothing does.
pub fn without_gluten_first(schedule: &Schedule, work: &Work) -> Vec<(usize, usize)> {
    let contacts = gluten_after_wheat(schedule, work);
    let machines: Vec<&String> =
        contacts.iter().filter_map(|contact| schedule.rows.get(contact.row)?.equipment.as_ref()).collect();
    let there =
        || schedule.rows.iter().filter(|row| row.equipment.as_ref().is_some_and(|name| machines.contains(&name)));
    let of = |row: &Row| work.batches.get(row.batch);
    let without = there().filter(|row| of(row).is_some_and(|batch| is_made_without(batch, row.at.part)));
    let with = || there().filter(|row| of(row).is_some_and(|batch| has_gluten(batch, [row.at.part])));
    let with: Vec<&Row> = with().collect();
    let mut pairs = Vec::new();
    for row in without {
        let after = with.iter().filter(|other| other.equipment == row.equipment);
        pairs.extend(after.map(|other| (row.task, other.task)));
    }
    pairs
}

/// What lay in the same machine last.
fn before<'s>(schedule: &'s Schedule, row: &Row) -> Option<&'s Row> {
    let equipment = row.equipment.as_ref().filter(|name| has_word_beginning(&name.to_lowercase(), TOUCHES_FOOD))?;
    let same = |other: &&Row| other.equipment.as_ref() == Some(equipment) && other.unit == row.unit;
    let earlier = schedule.rows.iter().filter(same).filter(|other| other.start < row.start);
    earlier.max_by_key(|other| other.start)
}

/// Whether a part belongs to a recipe of flour, starch or grain, or one called so, in which nothing has gluten, as far as the larder
/// knows. What nothing takes because only steps that are left out would is no part of it.
fn is_made_without(batch: &Batch, part: PartId) -> bool {
    let recipe = &batch.recipe;
    let Some((origin, _)) = recipe.origin(part) else { return false };
    let unwanted = batch.formula.unwanted(recipe);
    let is_own = |id: PartId| recipe.origin(id).is_some_and(|(other, _)| std::ptr::eq(other, origin));
    let own = || recipe.parts().filter(|(id, _)| is_own(*id) && unwanted.get(id.0) != Some(&true));
    let is_milled = |kind: Kind| matches!(kind, Kind::Flour | Kind::Starch | Kind::Grain);
    let milled = own().any(|(_, part)| part.lines.iter().any(|line| line.is_flour || is_milled(line.kind)));
    let said = has_word_beginning(origin.name.key.as_str(), ["gluten", "gf"]);
    (milled || said) && !has_gluten(batch, own().map(|(id, _)| id))
}

fn has_gluten(batch: &Batch, parts: impl IntoIterator<Item = PartId>) -> bool {
    let found = contains::of_parts(&batch.recipe, parts, |part, line| batch.formula.is_left_out(part, line));
    found.known.iter().any(|name| Law::Eu.is(name, "cereals containing gluten"))
}
