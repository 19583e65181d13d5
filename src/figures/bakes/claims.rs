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
use crate::model::cooking::has_word_beginning;
use crate::model::cooking::may_cook::{Takes, takes_of_the_weight};
use crate::model::recipe::{HeadMakes, Part, PartId, Recipe};
use crate::model::reference::StepRef;
use crate::model::step::{Step, StepKind};
use crate::solve::formula::{Formula, heated};
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
            has_word_beginning(name.key.as_str(), ["mixer", "spiral", "planetary"])
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

/// Whether a step is done in heat that bakes: from 100 °C on, or in an oven that says no temperature.
pub(super) fn is_in_oven(step: &Step) -> bool {
    step.temperature.map_or_else(
        || takes_of_the_weight(step) == Takes::AsBaking,
        |(low, _)| low >= Temperature::from_celsius(Number::whole(100)),
    )
}

/// What says how much is lost up to the end of a step.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum LossOf {
    /// The recipe's head, as `bake loss`: what pieces lose in the oven, those that are sold and those that are filled afterwards.
    Head,
    /// The part, behind `divide` or `makes`: what is made by weight, a jam at 104 °C, loses that.
    Part,
    /// Nobody: pieces that are baked twice, in their own part and in one that takes them up, or what stands when they are baked.
    Nobody,
}

/// What says how much is lost up to the end of a step.
pub fn loss_of(recipe: &Recipe, formula: &Formula, at: StepRef) -> LossOf {
    let Some(part) = recipe.part(at.part) else { return LossOf::Nobody };
    let in_pieces = matches!(recipe.makes, Some(HeadMakes::Pieces { .. }));
    let is_sold = recipe.final_part() == Some(at.part) || formula.sold(recipe).contains(&at.part);
    let is_own = part.foreign.is_none() && recipe.bake_loss.is_some();
    let of_head = |step: &Step| {
        let is_last = || heated::is_last_bake(recipe, formula, at.part, step).unwrap_or(false);
        in_pieces && is_in_oven(step) && (is_sold || (is_own && is_last()))
    };
    let Some(step) = part.steps.get(at.step) else { return LossOf::Nobody };
    if of_head(step) {
        LossOf::Head
    } else if is_in_oven(step) {
        let is_baked_again = is_own && in_pieces && part.divide.is_some();
        if is_baked_again && takes_of_the_weight(step) == Takes::AsBaking { LossOf::Nobody } else { LossOf::Part }
    } else if part.steps.iter().take(at.step).any(of_head) {
        LossOf::Nobody
    } else {
        LossOf::Part
    }
}

/// What the formula as it is written says of a figure: both ends of a range; nothing where it says nothing.
pub fn claim(recipe: &Recipe, formula: &Formula, kind: Kind, part: &str, step: &str) -> Option<(Number, Number)> {
    let (id, at) = find(recipe, part, step)?;
    Claims::at_size(recipe, formula, &Sized::times(Number::ONE)).of(kind, StepRef { part: id, step: at })
}

/// How a part stands when a step of it begins, and what says how much is lost by then: the same for a batch of any size.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Begins {
    /// What says the loss.
    pub loss_of: LossOf,
    /// How much of the part goes into the step, of 1 of all that it holds; nothing where nobody says.
    pub into: Option<Number>,
    /// How much of it goes in only after the step, where it is made by weight.
    pub later: Number,
    /// What a piece weighs that goes into the step.
    pub piece: Option<Mass>,
    /// Whether what goes in is pieces of which the formula says what each weighs: those that are baked, or made one by one.
    pub is_by_piece: bool,
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
                let is_head = loss_of(recipe, self.formula, at) == LossOf::Head;
                // What pieces weigh when they are baked is nowhere said.
                let is_said = recipe.bake_loss.is_some() || solved.loss.is_some_and(|loss| !loss.value().is_zero());
                if is_head && !is_said {
                    return None;
                }
                one(all.times(self.stands(at, at.step + 1)?).ok()?)
            }
            Kind::Pieces => {
                let scaled = self.scaled()?;
                one(loads::pieces_of(part, scaled.part(at.part)?, scaled)?)
            }
            Kind::Each => {
                if is_in_oven(step) && (loss_of(recipe, self.formula, at) != LossOf::Head || recipe.bake_loss.is_none())
                {
                    return None;
                }
                one(self.each(at.part)?.value().times(self.stands(at, at.step + 1)?).ok()?)
            }
            Kind::Loss => {
                let solved = self.formula.part(at.part)?;
                let share = match (loss_of(recipe, self.formula, at), part.divide) {
                    (LossOf::Head, _) => recipe.bake_loss?,
                    (LossOf::Nobody, _) => return None,
                    (LossOf::Part, Some(divide)) => divide.loss.or(solved.loss)?,
                    (LossOf::Part, None) => part.makes.and_then(|makes| makes.loss).or(solved.loss)?,
                };
                let share = share.value();
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
        let of_final = || self.formula.piece_weight(self.recipe).ok().flatten().filter(|_| is_final);
        own.or_else(of_final).or_else(|| self.formula.per_piece(self.recipe, part).ok().flatten())
    }

    /// How much of a part there is at the end of a step, of 1 of all that goes into it: without what goes in later into pieces, and less
    /// what the head says that the oven took, in the first so many steps or in a part that was baked before it was taken. Nothing where
    /// that is baked once more later: what it lost before, nobody says.
    pub fn stands(&self, at: StepRef, steps: usize) -> Option<Number> {
        let part = self.recipe.part(at.part)?;
        let loss = self.recipe.bake_loss.filter(|_| part.foreign.is_none());
        let loss = loss.map_or(Number::ZERO, |loss| loss.value());
        let stands = heated::stands(self.recipe, self.formula, at, steps).ok()?;
        let lost = stands.heated.times(loss).ok()?;
        let is_head = loss_of(self.recipe, self.formula, at) == LossOf::Head;
        if !is_head && !lost.is_zero() && part.steps.iter().skip(steps).any(is_in_oven) {
            return None;
        }
        let present = if is_head || part.per_piece || !lost.is_zero() { stands.present } else { Number::ONE };
        present.minus(lost).ok()
    }

    /// How much of all that a part holds in the end is in it at the end of a step, of 1.
    pub fn present(&self, at: StepRef, step: usize) -> Option<Number> {
        let at = StepRef { step, ..at };
        heated::stands(self.recipe, self.formula, at, step).ok().map(|stands| stands.present)
    }

    /// How a part stands when a step of it begins.
    pub fn begins(&self, at: StepRef) -> Begins {
        let stands = self.stands(at, at.step);
        let loss_of = loss_of(self.recipe, self.formula, at);
        let present = self.present(at, at.step);
        // The head's loss is that of all the time in the oven.
        let into = if loss_of == LossOf::Head { present } else { stands };
        let part = self.recipe.part(at.part);
        let step = part.and_then(|part| part.steps.get(at.step));
        let is_whole = stands == Some(Number::ONE);
        let is_weighed = is_whole && loss_of == LossOf::Part && step.is_some_and(|step| !step.loads.is_by_piece());
        let later = present.and_then(|present| Number::ONE.minus(present).ok()).filter(|_| is_weighed);
        Begins {
            loss_of,
            into,
            later: later.unwrap_or(Number::ZERO),
            piece: self.each(at.part).zip(into).and_then(|(each, into)| each.times(into).ok()),
            is_by_piece: !is_whole || step.is_some_and(is_in_oven) || part.is_some_and(|part| part.per_piece),
        }
    }
}
