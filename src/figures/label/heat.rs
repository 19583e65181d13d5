//! What heat does to something that is sold before it is sold, and what it leaves raw.

use super::items::{Item, leaves};
use crate::measure::number::Number;
use crate::measure::quantity::Proportion;
use crate::model::cooking::{bakes, called, cooks};
use crate::model::kind::Kind;
use crate::model::recipe::{HeadMakes, Ingredient, Part, PartId, Recipe, Refers};
use crate::model::step::Step;

/// What is lost between what is mixed and what is sold, as far as anybody says it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Loss {
    /// In the oven.
    Baked(Proportion),
    /// In making it: what a part says behind what it makes.
    Making(Proportion),
    /// It is baked, and nobody says what the oven takes.
    OvenNotSaid,
    /// It is cooked, or may be, and nobody says what that takes.
    CookingNotSaid,
    /// Nothing bakes or cooks it.
    Unheated,
}

/// What goes into an oven to be warm or clean, and not to be baked: its step is called so.
const VESSELS: &[&str] = &["bottle", "bowl", "glass", "jar", "lid", "plate", "platter"];

/// What is so dry that a mix of it alone waits for water. Common practice, no source.
const DRY: Proportion = Proportion::new(Number::constant(1, 5));

/// The loss of what a part makes.
pub(super) fn loss(recipe: &Recipe, id: PartId, list: &[Item], bake_loss: Option<Proportion>, is_dough: bool) -> Loss {
    if let Some(loss) = bake_loss {
        return Loss::Baked(loss);
    }
    let within = within(recipe, id);
    let is_said = within.iter().any(|part| !part.steps.is_empty());
    let may_be_cooked = !is_said && is_wet(list);
    let is_baked =
        |part: &Part| part.steps.iter().any(|step| (bakes(step) || called(step, &["bak"])) && is_of_food(step));
    let divides = |part: &Part| part.divide.is_some() && is_baked(part);
    let is_baked_dough = is_dough && (may_be_cooked || within.iter().any(|part| is_baked(part)));
    if is_baked_dough || recipe.part(id).is_some_and(divides) {
        return Loss::OvenNotSaid;
    }
    let is_cooked = may_be_cooked || within.iter().any(|part| is_cooked(part));
    match making_loss(recipe, id) {
        // What a dough loses when it is divided stays on the bench: what the fat of a fryer takes is another thing.
        Some(_) if is_dough && is_cooked => Loss::CookingNotSaid,
        Some(loss) => Loss::Making(loss),
        None if is_cooked => Loss::CookingNotSaid,
        None => Loss::Unheated,
    }
}

/// What is raw flour or a dried pulse in what nothing cooks; of a list of ingredients without steps nobody can tell, unless it is dry.
pub(super) fn to_cook(recipe: &Recipe, id: PartId, list: &[Item]) -> Vec<String> {
    let within = within(recipe, id);
    let is_said = within.iter().any(|part| !part.steps.is_empty());
    if within.iter().any(|part| is_cooked(part)) || (!is_said && is_wet(list)) {
        return Vec::new();
    }
    let is_raw = |item: &&Item| {
        item.facts.as_ref().is_some_and(|facts| {
            let is_dry = facts.contents.water.is_some_and(|water| water < DRY);
            let is_raw = facts.flags.raw_flour || facts.kind == Some(Kind::Flour);
            !facts.flags.ready_to_eat && (is_raw || (facts.kind == Some(Kind::Pulse) && is_dry))
        })
    };
    leaves(list).into_iter().filter(is_raw).map(|item| item.name.clone()).collect()
}

fn is_cooked(part: &Part) -> bool {
    part.steps.iter().any(|step| cooks(step) && is_of_food(step))
}

fn is_of_food(step: &Step) -> bool {
    !called(step, VESSELS) || called(step, &["bak", "cook", "roast", "toast"])
}

/// Whether anything in it is wet or fat, so that it may be a dough or a dish and not a dry mix.
fn is_wet(list: &[Item]) -> bool {
    leaves(list).into_iter().filter(|item| !item.aside).any(|item| match &item.facts {
        Some(facts) => {
            let kind = facts.kind.unwrap_or_default();
            kind == Kind::Fat || facts.contents.water.map_or(!is_dry(kind), |water| water >= DRY)
        }
        None => true,
    })
}

/// Kinds that are dry where no figure says otherwise.
fn is_dry(kind: Kind) -> bool {
    matches!(
        kind,
        Kind::Flour
            | Kind::Starch
            | Kind::Grain
            | Kind::Salt
            | Kind::Yeast(_)
            | Kind::BakingPowder
            | Kind::Soda
            | Kind::RaisingAgent
            | Kind::Sugar
            | Kind::Nut
            | Kind::Seed
            | Kind::Pulse
            | Kind::Spice
            | Kind::Thickener
    )
}

/// A part and what is in it, each once.
fn within(recipe: &Recipe, id: PartId) -> Vec<&Part> {
    let mut seen = vec![id];
    let mut next = 0;
    while let Some(at) = seen.get(next).copied() {
        next += 1;
        let lines = recipe.part(at).map_or(&[][..], |part| &part.lines);
        for line in lines {
            if let Refers::Part(inner) = line.refers
                && !seen.contains(&inner)
            {
                seen.push(inner);
            }
        }
    }
    seen.into_iter().filter_map(|id| recipe.part(id)).collect()
}

/// What is lost in making it: what the part says, or the one part that it is filled with, such as jam into jars, or the head. What is
/// ladled out of a kettle is lost in the kettle.
fn making_loss(recipe: &Recipe, id: PartId) -> Option<Proportion> {
    let part = recipe.part(id)?;
    let inner = match part.lines.as_slice() {
        [Ingredient { refers: Refers::Part(inner), .. }] => recipe.part(*inner),
        _ => None,
    };
    let of_part = |part: &Part| part.makes.and_then(|makes| makes.loss).or_else(|| part.divide.as_ref()?.loss);
    let of_head = || match recipe.makes.as_ref()? {
        HeadMakes::Mass(makes) => makes.loss,
        HeadMakes::Pieces { .. } => None,
    };
    [Some(part), inner].into_iter().flatten().find_map(of_part).or_else(of_head)
}
