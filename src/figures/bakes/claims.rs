//! What a formula says of the figures that a bake measures, for a batch of any size.

use super::measurement::Kind;
use crate::check::bakes::Sized;
use crate::language::syntax::Key;
use crate::make::loads;
use crate::make::mix::{self, Friction};
use crate::make::went_in;
use crate::measure::number::Number;
use crate::measure::quantity::Mass;
use crate::measure::temperature::Temperature;
use crate::model::cooking::has_word;
use crate::model::recipe::{HeadMakes, Part, PartId, Recipe};
use crate::model::reference::StepRef;
use crate::model::step::{Step, StepKind};
use crate::solve::formula::Formula;
use crate::solve::formula::heated;
use std::cell::OnceCell;
use std::sync::Arc;

/// The part and the step of these names.
pub fn find(recipe: &Recipe, part: &str, step: &str) -> Option<(PartId, usize)> {
    let (part, step) = (Key::new(part), Key::new(step));
    let (id, found) = recipe.parts().find(|(_, one)| one.name.key == part)?;
    Some((id, found.steps.iter().position(|one| one.name.key == step)?))
}

/// The step in which a part is mixed: the first in equipment with a friction or in a mixer, else the first by hands.
pub fn mix_step(recipe: &Recipe, part: &Part) -> Option<usize> {
    let in_mixer = |step: &Step| {
        step.equipment.as_ref().is_some_and(|name| {
            has_word(name.key.as_str(), ["mixer", "spiral", "planetary"])
                || recipe.kitchen.find(name).is_some_and(|equipment| equipment.friction.is_some())
        })
    };
    part.steps.iter().position(in_mixer).or_else(|| part.steps.iter().position(|step| step.kind == StepKind::Hands))
}

/// Whether a dough that leaves a step is to have its desired temperature: it comes from the mix, with no rest since.
pub(super) fn is_end_of_mix(recipe: &Recipe, part: &Part, at: usize) -> bool {
    let Some(mix) = mix_step(recipe, part) else { return false };
    let since = part.steps.get(mix..=at).unwrap_or_default();
    at >= mix && since.iter().all(|step| step.kind != StepKind::Wait)
}

/// Whether a step is done in heat that bakes: from 100 °C on.
pub(super) fn is_in_oven(step: &Step) -> bool {
    step.temperature.is_some_and(|(low, _)| low >= Temperature::from_celsius(Number::whole(100)))
}

/// Whether what a step loses is what the recipe's head calls `bake loss`: that of its pieces in the oven. What is made by weight, a
/// jam at 104 °C, loses what its part says.
pub fn is_bake_loss(recipe: &Recipe, part: PartId, step: &Step) -> bool {
    let in_pieces = matches!(recipe.makes, Some(HeadMakes::Pieces { .. }));
    is_in_oven(step) && in_pieces && recipe.final_part() == Some(part)
}

/// What the formula as it is written says of a figure: both ends of a range; nothing where it says nothing.
pub fn claim(recipe: &Recipe, formula: &Formula, kind: Kind, part: &str, step: &str) -> Option<(Number, Number)> {
    let (id, at) = find(recipe, part, step)?;
    Claims::at_size(recipe, formula, &Sized::times(Number::ONE)).of(kind, StepRef { part: id, step: at })
}

/// What a formula says for a batch of some size.
pub(super) struct Claims<'a> {
    /// The recipe of the day.
    pub recipe: &'a Recipe,
    /// Its formula, as written.
    pub formula: &'a Formula,
    /// The size of the bake.
    size: Sized,
    /// The formula at that size, once something asks for it; nothing where a number leaves the range of exact numbers.
    scaled: OnceCell<Option<Arc<Formula>>>,
}

impl<'a> Claims<'a> {
    /// Of a recipe and its formula, for a bake of some size.
    pub fn at_size(recipe: &'a Recipe, formula: &'a Formula, size: &Sized) -> Claims<'a> {
        Claims { recipe, formula, size: size.clone(), scaled: OnceCell::new() }
    }

    /// The formula at the size of the bake.
    pub fn scaled(&self) -> Option<&Formula> {
        self.scaled.get_or_init(|| self.size.formula(self.formula).ok()).as_deref()
    }

    /// How many times what is written is made of a part: of each sort its own.
    pub fn times(&self, part: PartId) -> Option<Number> {
        if self.size.of_sorts.is_none() {
            return Some(self.size.factor);
        }
        let (now, written) = (self.scaled()?.part(part)?.goes_in?, self.formula.part(part)?.goes_in?);
        now.ratio(written).ok().filter(|times| times.is_positive())
    }

    /// Both ends of what it says of a figure; nothing where it says nothing.
    pub fn of(&self, kind: Kind, at: StepRef) -> Option<(Number, Number)> {
        let (recipe, part) = (self.recipe, self.recipe.part(at.part)?);
        let step = part.steps.get(at.step)?;
        let one = |number: Number| Some((number, number));
        match kind {
            Kind::Time => Some((step.time.0.in_minutes().ok()?, step.time.1.in_minutes().ok()?)),
            Kind::LeftAt => {
                let desired = part.desired_temperature.filter(|_| is_end_of_mix(recipe, part, at.step))?;
                one(desired.celsius())
            }
            Kind::Friction => {
                match mix::friction(recipe, part)? {
                    (friction, Friction::Kitchen(_) | Friction::Said) => one(friction.celsius()),
                    // By hand none is counted, and nothing is claimed.
                    (_, Friction::Hand) => None,
                }
            }
            Kind::All => {
                let scaled = self.scaled()?;
                let solved = scaled.part(at.part)?;
                let all = solved.makes?.plus(went_in::held(recipe, scaled, at).ok()?).ok()?.value();
                match self.bake_loss(at.part).filter(|_| is_bake_loss(recipe, at.part, step)) {
                    Some(loss) => one(all.times(Number::ONE.minus(loss).ok()?).ok()?),
                    // What pieces weigh when they are baked is nowhere said.
                    None if is_bake_loss(recipe, at.part, step)
                        && solved.loss.is_none_or(|loss| loss.value().is_zero()) =>
                    {
                        None
                    }
                    None => one(all),
                }
            }
            Kind::Pieces => {
                let scaled = self.scaled()?;
                one(loads::pieces_of(part, scaled.part(at.part)?, scaled)?)
            }
            Kind::Each => {
                let each = self.each(at.part)?.value();
                if !is_in_oven(step) {
                    return one(each);
                }
                // What is filled in afterwards is not in it yet.
                let baked = heated::share(recipe, self.formula, at.part).ok()?.value();
                one(each.times(baked).ok()?.times(Number::ONE.minus(self.bake_loss(at.part)?).ok()?).ok()?)
            }
            Kind::Loss => {
                let solved = self.formula.part(at.part)?;
                let share = if is_bake_loss(recipe, at.part, step) {
                    self.bake_loss(at.part)?
                } else if let Some(divide) = part.divide {
                    divide.loss.or(solved.loss)?.value()
                } else {
                    part.makes.and_then(|makes| makes.loss).or(solved.loss)?.value()
                };
                one(share.times(Number::whole(100)).ok()?)
            }
        }
    }

    /// How much of the batch a load of a step is, of 1; all of it where none is said; nothing where the formula has no such load.
    pub fn share(&self, at: StepRef, load: Option<i64>) -> Option<Number> {
        let scaled = self.scaled()?;
        loads::share((self.recipe, at.part), scaled.part(at.part)?, scaled, at.step, load).ok()?
    }

    /// How many pieces there are at a step; nothing of what is in none.
    pub fn pieces(&self, at: StepRef) -> Option<Number> {
        let scaled = self.scaled()?;
        loads::pieces_at((self.recipe, at.part), scaled.part(at.part)?, scaled, at.step).ok()?
    }

    /// How many loads of a step are done one after the other: as many as there is equipment for go side by side.
    pub fn turns(&self, at: StepRef) -> Option<Number> {
        let scaled = self.scaled()?;
        loads::turns((self.recipe, at.part), scaled.part(at.part)?, scaled, at.step).ok()
    }

    /// What a piece of a part weighs before it is baked.
    pub fn each(&self, part: PartId) -> Option<Mass> {
        let own = self.formula.part(part)?.each;
        let is_final = self.recipe.final_part() == Some(part);
        own.or_else(|| self.formula.piece_weight(self.recipe).ok().flatten().filter(|_| is_final))
    }

    /// What the head says that a piece loses in the oven.
    fn bake_loss(&self, part: PartId) -> Option<Number> {
        let is_final = self.recipe.final_part() == Some(part);
        self.recipe.bake_loss.filter(|_| is_final).map(|loss| loss.value())
    }
}
