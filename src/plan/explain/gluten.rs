//! What is made without gluten and goes into a mixer straight after a dough that has it.

use crate::model::allergen::Law;
use crate::model::contains;
use crate::model::cooking::has_word;
use crate::model::kind::Kind;
use crate::model::recipe::{PartId, Recipe};
use crate::plan::schedule::{Row, Schedule};
use crate::text::diagnostic::Diagnostic;
use std::collections::HashSet;

/// Equipment in which food lies open and leaves something behind.
const TOUCHES_FOOD: &[&str] =
    &["mixer", "spiral", "planetary", "bowl", "sheeter", "divider", "fryer", "blender", "processor"];

/// A warning for each step of something without gluten that takes up a mixer after something with gluten.
pub fn gluten_after_wheat(schedule: &Schedule, recipes: &[&Recipe]) -> Vec<Diagnostic> {
    let mut problems = Vec::new();
    let mut told = HashSet::new();
    for row in &schedule.rows {
        let Some((recipe, part)) = find(recipes, row).filter(|(recipe, _)| is_made_without(recipe)) else { continue };
        let Some(before) = before(schedule, row) else { continue };
        let Some((other, of)) = find(recipes, before).filter(|(other, of)| has_gluten(other, [*of])) else { continue };
        let Some(equipment) = &row.equipment else { continue };
        if !told.insert((row.recipe.clone(), row.part.clone(), row.step.clone())) {
            continue;
        }
        let steps = recipe.part(part).map_or(&[][..], |part| &part.steps);
        let Some(step) = steps.iter().find(|step| *step.name.text == *row.step) else { continue };
        let of = other.part(of).map_or_else(String::new, |part| part.name.to_string());
        let message = format!(
            "`{}` of `{}`, which has no gluten in it, goes into the {equipment} straight after `{of}` of `{}`, which has",
            row.step, row.recipe, before.recipe
        );
        problems.push(
            Diagnostic::warning("gluten-after-wheat", step.name.span, message)
                .help("make it first, with tools and a bowl of its own, or clean the machine between the two and write that as a step"),
        );
    }
    problems
}

fn find<'r>(recipes: &[&'r Recipe], row: &Row) -> Option<(&'r Recipe, PartId)> {
    let recipe = recipes.iter().find(|recipe| *recipe.name.text == *row.recipe)?;
    let (id, _) = recipe.parts().find(|(_, part)| *part.name.text == *row.part)?;
    Some((recipe, id))
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
    let found = contains::of_parts(recipe, parts);
    found.known.iter().any(|name| Law::Eu.is(name, "cereals containing gluten"))
}
