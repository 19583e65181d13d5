//! What goes in at a step, load by load: the card's amounts where all of it is one load, else that load's share of them.

use super::spoons::in_pieces_as_cut;
use super::{DivideCard, Maker, PartCard};
use crate::make::batch::Batch;
use crate::make::loads;
use crate::measure::number::{Number, Overflow};
use crate::measure::quantity::Mass;
use crate::measure::show::{self, Units};
use crate::measure::shown::Shown;
use crate::measure::value::Value;
use crate::model::cooking::{bakes, is_fried_in, is_hot};
use crate::model::flow;
use crate::model::kind::Kind;
use crate::model::recipe::{Ingredient, PartId};
use crate::model::step::{Loads, Step, StepRef, Target};
use crate::solve::formula::heated;
use std::cell::RefCell;
use std::collections::HashMap;

/// An amount that goes in.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Portion {
    /// Of what.
    pub ingredient: String,
    /// How much, exactly; `None` for what has no weight.
    pub mass: Option<Mass>,
    /// As printed; empty where there is no figure.
    pub shown: Shown,
    /// Whether it is all that is made of a part.
    pub is_all: bool,
    /// Whether it is what an earlier load went through, fat or boiling water, or what was heated in its pot, and nothing more goes in.
    pub is_the_same: bool,
}

/// How much of what goes in is for a load.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct LoadShare {
    /// Of what stays in the load, of 1.
    pub own: Number,
    /// Of what is filled in for all the loads that go through it, of 1: none from the second load on.
    pub bath: Number,
    /// Whether what it is fried or boiled in went in before that was heated.
    pub is_filled: bool,
}

/// What goes in at the steps of a batch.
pub struct GoesIn<'a> {
    batch: &'a Batch,
    maker: Maker<'a>,
    parts: RefCell<HashMap<PartId, Option<PartCard>>>,
}

impl<'a> GoesIn<'a> {
    /// For a batch, with amounts in these units.
    pub fn of(batch: &'a Batch, units: Units) -> GoesIn<'a> {
        GoesIn { batch, maker: Maker::new(&batch.recipe, &batch.formula, units), parts: RefCell::default() }
    }

    /// What goes in at a step with a load of it.
    ///
    /// # Errors
    /// When an amount leaves the range of exact numbers.
    pub fn at(&self, step: StepRef, load: LoadShare) -> Result<Vec<Portion>, Overflow> {
        self.look_at(step.part)?;
        let parts = self.parts.borrow();
        let Some(card) = parts.get(&step.part).and_then(Option::as_ref) else { return Ok(Vec::new()) };
        let mut portions = Vec::new();
        for (whole, natural, target) in all(self.batch, card, step) {
            if self.is_in_the_pot(step, target) {
                portions.push(Portion { mass: None, shown: Shown::words("the"), is_the_same: true, ..whole });
                continue;
            }
            let is_bath = self.is_bath(step, target);
            let is_heated = load.is_filled && self.is_heated_first(step, target);
            let is_filled = is_heated || self.is_filled_before(step, target);
            if is_filled || is_bath && load.bath.is_zero() {
                portions.push(Portion { mass: None, shown: Shown::words("the same"), is_the_same: true, ..whole });
                continue;
            }
            let share = if is_bath { load.bath } else { load.own };
            let mut portion = self.share((whole.clone(), natural), share)?;
            // What the card weighs out for a load is what goes in at it.
            if let Some(shown) = of_one_load(card, target, &whole, share).filter(|_| !is_bath) {
                portion.shown = shown.clone();
            }
            let portion = match portion.mass.filter(|_| portion.is_all) {
                // Who takes all there is of it weighs nothing off: the figure is for the eye, and finer than no scale.
                Some(mass) => Portion { shown: self.maker.weighed_alone(mass)?, ..portion },
                None => portion,
            };
            portions.push(self.after_the_oven(portion, step.part, target)?);
        }
        Ok(portions)
    }

    /// What is filled in for a load before what it goes into is heated: nobody heats a fryer that is dry.
    ///
    /// # Errors
    /// When an amount leaves the range of exact numbers.
    pub fn before_it_is_hot(&self, step: StepRef, load: LoadShare) -> Result<Vec<Portion>, Overflow> {
        self.look_at(step.part)?;
        let parts = self.parts.borrow();
        let Some(card) = parts.get(&step.part).and_then(Option::as_ref) else { return Ok(Vec::new()) };
        let mut portions = Vec::new();
        for (whole, natural, target) in all(self.batch, card, step) {
            if !self.is_heated_first(step, target) || self.is_in_the_pot(step, target) {
                continue;
            }
            let share = if self.is_bath(step, target) { load.bath } else { load.own };
            if !share.is_zero() {
                portions.push(self.share((whole, natural), share)?);
            }
        }
        Ok(portions)
    }

    /// How a part is cut into pieces, at the first step that makes pieces of it; for one of several times, what is cut for that.
    ///
    /// # Errors
    /// When an amount leaves the range of exact numbers.
    pub fn divide(&self, step: StepRef, turn: Option<usize>) -> Result<Option<DivideCard>, Overflow> {
        self.look_at(step.part)?;
        let steps = self.batch.recipe.part(step.part).map_or(&[][..], |part| &part.steps);
        let first = steps.iter().position(|step| step.loads != Loads::Once);
        let apart = self.batch.apart.as_ref();
        if let (Some((apart, turn)), Some(part), true) = (
            apart.and_then(|apart| Some((apart, apart.turns.get(turn?)?))),
            self.batch.recipe.part(step.part),
            first == Some(step.step),
        ) {
            let formula = apart.formula_of(turn, &self.batch.formula)?;
            let maker = Maker::new(&self.batch.recipe, &formula, self.maker.units);
            return formula.part(step.part).map_or(Ok(None), |solved| maker.divide((step.part, part), solved));
        }
        let parts = self.parts.borrow();
        let divide = parts.get(&step.part).and_then(|card| card.as_ref()?.divide.as_ref());
        Ok(divide.filter(|_| first == Some(step.step)).cloned())
    }

    /// Of what was in the oven since it was weighed out, pieces are told, or that its weight is that of the dough.
    fn after_the_oven(&self, portion: Portion, part: PartId, target: Target) -> Result<Portion, Overflow> {
        let (recipe, formula) = (&self.batch.recipe, &self.batch.formula);
        let of = match target {
            Target::Line(at) => {
                recipe.part(part).and_then(|part| part.lines.get(at).filter(|line| line.before.is_none())?.part())
            }
            Target::Preferment(_) => None,
        };
        let Some(of) = of.filter(|_| portion.mass.is_some()) else { return Ok(portion) };
        if !heated::is_lighter(recipe, formula, of)? {
            return Ok(portion);
        }
        let pieces = formula.part(of).and_then(|part| part.pieces).filter(|_| portion.is_all);
        let shown = match pieces {
            Some(pieces) => show::pieces(pieces.value()),
            None => Shown::words(format!("{} before baking", portion.shown)),
        };
        Ok(Portion { shown, ..portion })
    }

    /// Whether all the loads of a step go through it, one after the other: what they are fried or boiled in is filled in once, and stays where
    /// it is.
    fn is_bath(&self, step: StepRef, target: Target) -> bool {
        let (Some(part), Target::Line(at)) = (self.batch.recipe.part(step.part), target) else { return false };
        let stays_there =
            part.lines.get(at).is_some_and(|line| line.strained_out || line.aside && is_fried_in(part, at));
        let goes_through = |step| loads::is_by_pieces(step, &self.batch.recipe.kitchen);
        stays_there && part.steps.get(step.step).is_some_and(goes_through)
    }

    /// Whether it is what something is fried or boiled in, a fat or a water, and is in there while that gets hot. An oven is heated empty.
    fn is_heated_first(&self, step: StepRef, target: Target) -> bool {
        let (Some(part), Target::Line(at)) = (self.batch.recipe.part(step.part), target) else { return false };
        let bakes = part.steps.get(step.step).is_none_or(bakes);
        let is_it = |line: &Ingredient| {
            line.aside && is_fried_in(part, at)
                || line.strained_out
                    && (line.kind == Kind::Water || line.part().is_some() && self.is_bath(step, target))
        };
        !bakes && part.lines.get(at).is_some_and(is_it)
    }

    /// Whether it was filled in for another order of the day.
    fn is_filled_before(&self, step: StepRef, target: Target) -> bool {
        let solved = self.batch.formula.part(step.part);
        matches!(target, Target::Line(at) if solved.and_then(|part| part.lines.get(at)).is_some_and(|line| line.filled_before))
    }

    /// Whether it is a part that was brought to its heat in what the step works in, and that loads go through: none of it goes in any more.
    fn is_in_the_pot(&self, step: StepRef, target: Target) -> bool {
        let (Some(part), Target::Line(at)) = (self.batch.recipe.part(step.part), target) else { return false };
        let Some(bath) = part.lines.get(at).filter(|line| !line.stays_in()).and_then(Ingredient::part) else {
            return false;
        };
        let heated = self.batch.recipe.part(bath).and_then(|bath| bath.steps.last());
        let place = |step: &Step| step.equipment.clone();
        let both = heated.filter(|step| is_hot(step)).and_then(place).zip(part.steps.get(step.step).and_then(place));
        both.is_some_and(|(one, other)| one.same(&other))
    }

    fn look_at(&self, part: PartId) -> Result<(), Overflow> {
        if !self.parts.borrow().contains_key(&part) {
            let card = self.maker.part(part)?;
            self.parts.borrow_mut().insert(part, card);
        }
        Ok(())
    }

    fn share(&self, (whole, natural): (Portion, Option<Value>), share: Number) -> Result<Portion, Overflow> {
        if share == Number::ONE {
            return Ok(whole);
        }
        let mass = whole.mass.map(|mass| mass.times(share)).transpose()?;
        let shown = match (mass, natural) {
            (Some(mass), _) => self.maker.weighed_alone(mass)?,
            (None, Some(value)) => show::value_plain(in_pieces_as_cut(value.times(share)?)),
            (None, None) => whole.shown,
        };
        Ok(Portion { mass, shown, is_all: false, ..whole })
    }
}

/// What the card prints of a line or a preferment for one load, where all of it goes in load by load and this is one of them.
fn of_one_load<'c>(card: &'c PartCard, target: Target, whole: &Portion, share: Number) -> Option<&'c Shown> {
    let load = card.load.as_ref()?;
    let is_one = Number::whole(load.loads).times(share) == Ok(Number::ONE) && share != Number::ONE;
    let (all, shown) = match target {
        Target::Line(at) => (card.lines.get(at)?.final_mix, load.lines.get(at)?),
        Target::Preferment(id) => {
            let column = card.preferments.iter().find(|column| column.id == id)?;
            (column.total, load.preferments.iter().find(|(one, ..)| *one == id).map(|(_, shown, _)| shown)?)
        }
    };
    Some(shown).filter(|shown| is_one && whole.mass == all && !shown.is_empty())
}

/// Whether so much is all that a batch makes of a part, but for a thousandth.
fn is_all_of(batch: &Batch, part: Option<PartId>, mass: Option<Mass>) -> bool {
    let made = part.and_then(|part| batch.formula.part(part)).filter(|part| part.is_made);
    // A preferment makes what is taken of it, and its spare besides.
    let made = made.filter(|part| part.spare.is_none_or(|spare| spare.value().is_zero()));
    let off = Number::constant(1, 1000);
    made.and_then(|part| part.makes).zip(mass).is_some_and(|(makes, mass)| {
        let apart = makes.max(mass).minus(makes.min(mass));
        makes > Mass::ZERO && apart.and_then(|apart| Ok(apart <= makes.times(off)?)).unwrap_or(false)
    })
}

/// All that goes in at a step: what its prose names and, at the first step that takes anything, what no step names.
fn all(batch: &Batch, card: &PartCard, step: StepRef) -> Vec<(Portion, Option<Value>, Target)> {
    let named = card.steps.get(step.step).map_or(&[][..], |step| &step.uses);
    let by_name = named.iter().map(|one| {
        let natural = match one.target {
            // A share of what has no weight was worked out for its prose only.
            Target::Line(at) if one.mass.is_none() => card.lines.get(at).filter(|line| line.shown == one.shown),
            _ => None,
        };
        let is_all = is_all_of(batch, one.part, one.mass);
        let (ingredient, shown) = (one.ingredient.clone(), one.shown.clone());
        let portion = Portion { ingredient, mass: one.mass, shown, is_all, is_the_same: false };
        (portion, natural.and_then(|line| line.natural), one.target)
    });
    let mut portions: Vec<(Portion, Option<Value>, Target)> = by_name.collect();
    let is_first = batch.recipe.part(step.part).is_some_and(|part| flow::first_taker(part) == step.step);
    if !is_first {
        return portions;
    }
    let is_named = |target: Target| card.steps.iter().flat_map(|step| &step.uses).any(|one| one.target == target);
    let lines = card.lines.iter().enumerate().filter(|(at, line)| !line.aside && !is_named(Target::Line(*at)));
    let lines = lines.filter(|(_, line)| !line.final_mix_shown.is_empty()).map(|(at, line)| {
        let shown = line.final_mix_shown.clone();
        let written = batch.recipe.part(step.part).and_then(|part| part.lines.get(at));
        let of = written.and_then(Ingredient::part);
        let is_all = is_all_of(batch, of, line.final_mix);
        let ingredient = line.ingredient.clone();
        let portion = Portion { ingredient, mass: line.final_mix, shown, is_all, is_the_same: false };
        (portion, line.natural, Target::Line(at))
    });
    let preferments = card.preferments.iter().filter(|one| !is_named(Target::Preferment(one.id)));
    let preferments = preferments.map(|one| {
        let (ingredient, shown) = (one.name.clone(), one.total_shown.clone());
        let is_all = is_all_of(batch, Some(one.id), one.total);
        (Portion { ingredient, mass: one.total, shown, is_all, is_the_same: false }, None, Target::Preferment(one.id))
    });
    portions.extend(lines.chain(preferments));
    portions
}
