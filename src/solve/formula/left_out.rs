//! What goes into a part of which some is taken before its last steps: an ingredient only as far as the steps that draw it are done.

use super::{Draw, Drawn, Formula, SolvedLine, SolvedPart, balance, composition, heated};
use crate::measure::number::{Number, Overflow};
use crate::measure::quantity::Mass;
use crate::measure::value::Value;
use crate::model::flow;
use crate::model::noted::Noted;
use crate::model::recipe::{Ingredient, LineAmount, Part, PartId, Recipe};
use crate::model::step::Target;
use std::collections::{BTreeSet, HashMap};

/// A use of a part before one of its steps.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Early {
    /// The step from which on nothing more is done for it.
    pub before: usize,
    /// What is taken then.
    pub mass: Mass,
    /// What that would come to if the other steps were done too: with what they draw.
    pub whole: Mass,
}

impl Early {
    /// For so many times the batch.
    pub(super) fn times(self, factor: Number) -> Result<Early, Overflow> {
        Ok(Early { before: self.before, mass: self.mass.times(factor)?, whole: self.whole.times(factor)? })
    }
}

impl SolvedPart {
    /// The part as it would be if all its steps were done for all of it.
    pub fn as_written(&self) -> &SolvedPart {
        self.written.as_deref().unwrap_or(self)
    }

    /// What is taken before the last steps, beside what the part weighs before an oven has had it.
    pub(super) fn early_before_oven(&self) -> Result<Vec<Early>, Overflow> {
        let raw = |early: &Early| {
            let whole = self.oven.map_or(Ok(early.whole), |oven| early.whole.over(oven))?;
            Ok(Early { whole, ..*early })
        };
        self.early.iter().map(raw).collect()
    }

    /// How much of the part is still there at a step, of 1: what is used before it is not.
    ///
    /// # Errors
    /// When a number leaves the range of exact numbers.
    pub fn reach(&self, part: &Part, id: PartId, step: usize) -> Result<Number, Overflow> {
        let makes = self.as_written().makes.filter(|makes| *makes > Mass::ZERO);
        let (Some(makes), false) = (makes, self.early.is_empty()) else { return Ok(Number::ONE) };
        let ends_before = |early: &&Early| flow::left_out(part, id, early.before).get(step) == Some(&true);
        let gone = Mass::sum(self.early.iter().filter(ends_before).map(|early| early.whole))?;
        // What is left over of a part that is only used early is no reason to go on with it.
        if let Some(used) = self.balance.used.filter(|_| gone > Mass::ZERO) {
            let used = used.minus(Mass::sum(self.early.iter().map(|early| early.mass))?)?;
            let used = used.plus(Mass::sum(self.early.iter().map(|early| early.whole))?)?;
            if used.minus(gone)? <= Mass::ZERO {
                return Ok(Number::ZERO);
            }
        }
        makes.minus(gone)?.max(Mass::ZERO).ratio(makes)
    }

    /// The same with what is not drawn taken away; of each line so much goes in, of 1.
    fn with_lines(&self, part: &Part, goes_in: &[Number]) -> Result<SolvedPart, Overflow> {
        let mut lines = Vec::with_capacity(self.lines.len());
        let (mut of_all, mut of_stays) = (Mass::ZERO, Mass::ZERO);
        for ((line, amount), share) in part.lines.iter().zip(&self.lines).zip(goes_in) {
            let now = amount.of(*share)?;
            if let (Some(whole), false) = (amount.mass, line.aside) {
                let gone = whole.minus(now.mass.unwrap_or(Mass::ZERO))?;
                of_all = of_all.plus(gone)?;
                if line.stays_in() {
                    of_stays = of_stays.plus(gone)?;
                }
            }
            lines.push(now);
        }
        let stays = self.stays.map(|mass| mass.minus(of_stays)).transpose()?;
        // What is lost is lost of what is there.
        let kept = match (self.stays, stays) {
            (Some(whole), Some(stays)) if whole > Mass::ZERO => stays.ratio(whole)?,
            _ => Number::ONE,
        };
        let scaled = |mass: Option<Mass>| mass.map(|mass| mass.times(kept)).transpose();
        Ok(SolvedPart {
            lines,
            stays,
            goes_in: self.goes_in.map(|mass| mass.minus(of_all)).transpose()?,
            makes: scaled(self.makes)?,
            needs: scaled(self.needs)?,
            written: Some(Box::new(self.clone())),
            ..self.clone()
        })
    }
}

impl SolvedLine {
    /// So much of it, of 1; what does not go in at all has no amount.
    fn of(self, share: Number) -> Result<SolvedLine, Overflow> {
        if share == Number::ONE {
            return Ok(self);
        }
        if share.is_zero() {
            return Ok(SolvedLine { left_out: true, ..SolvedLine::default() });
        }
        let mass = |mass: Option<Mass>| mass.map(|mass| mass.times(share)).transpose();
        let value = |value: Option<Value>| value.map(|value| value.times(share)).transpose();
        Ok(SolvedLine {
            mass: mass(self.mass)?,
            final_mix: mass(self.final_mix)?,
            each: mass(self.each)?,
            natural: value(self.natural)?,
            measure: value(self.measure)?,
            percent: self.percent.map(|percent| percent.times(share)).transpose()?,
            left_out: false,
            filled_before: self.filled_before,
        })
    }
}

/// What is known of how the parts are used before their last steps. The parts are solved again with it until nothing changes.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub(super) struct LeftOut {
    /// How much there is of a part before a step, as a share of all of it; only where that is less.
    before: HashMap<(PartId, usize), Number>,
    /// How much goes in of a line, as a share of what is written; only where that is less.
    goes_in: HashMap<(PartId, usize), Number>,
}

impl LeftOut {
    /// How much of the whole of a part there is when a line takes it.
    pub(super) fn there(&self, id: PartId, line: &Ingredient) -> Number {
        let before = line.before.and_then(|before| self.before.get(&(id, before.step)));
        before.copied().unwrap_or(Number::ONE)
    }

    /// How much of a line goes in, of 1.
    pub(super) fn goes_in(&self, id: PartId, line: usize) -> Number {
        self.goes_in.get(&(id, line)).copied().unwrap_or(Number::ONE)
    }

    /// Whether nothing of a line goes in.
    pub(super) fn is_out(&self, id: PartId, line: usize) -> bool {
        self.goes_in(id, line).is_zero()
    }
}

/// Whether any line takes a part before one of its steps.
pub(super) fn is_any(recipe: &Recipe) -> bool {
    recipe.parts().any(|(_, part)| part.lines.iter().any(|line| line.before.is_some()))
}

/// Whether a line takes as much as there is: all of a part, or pieces of it, which weigh less before their last steps.
pub(super) fn takes_what_is_there(line: &Ingredient) -> bool {
    match &line.amount {
        LineAmount::All => true,
        LineAmount::Said(said) => said.iter().all(|said| matches!(said.value, Value::Count(_))),
        _ => false,
    }
}

/// Takes away what is not drawn, in all parts, those that take before those that are taken. What was written stays in
/// [`SolvedPart::written`].
///
/// # Errors
/// When an amount leaves the range of exact numbers.
pub(super) fn apply(recipe: &Recipe, formula: &mut Formula, made: &[bool]) -> Result<LeftOut, Overflow> {
    let mut known = LeftOut::default();
    for id in users_first(recipe) {
        apply_to(recipe, formula, id, (made, Number::ONE), &mut known)?;
    }
    Ok(known)
}

impl Formula {
    /// Takes away of a part what no step draws that is done, when it stands as written and those that take of it are done; `made`
    /// says which parts are, and `share` how much of what is taken of it, where the rest is there already.
    ///
    /// # Errors
    /// When an amount leaves the range of exact numbers.
    pub fn leave_out(&mut self, recipe: &Recipe, id: PartId, made: &[bool], share: Number) -> Result<(), Overflow> {
        apply_to(recipe, self, id, (made, share), &mut LeftOut::default())?;
        let balance = balance::of(recipe, self, id)?;
        if let Some(slot) = self.parts.get_mut(id.0).filter(|part| !part.early.is_empty() && share == Number::ONE) {
            slot.balance = balance;
        }
        Ok(())
    }

    /// Works out anew what the parts consist of, where some of them are used before their last steps.
    ///
    /// # Errors
    /// When an amount leaves the range of exact numbers.
    pub fn compose(&mut self, recipe: &Recipe) -> Result<(), Overflow> {
        if is_any(recipe) { composition::fill(recipe, self, &[]) } else { Ok(()) }
    }

    /// Which parts nothing takes because only steps that are left out would; one flag for each part.
    pub fn unwanted(&self, recipe: &Recipe) -> Vec<bool> {
        let mut unwanted = vec![false; recipe.parts.len()];
        if !self.parts.iter().flat_map(|part| &part.lines).any(|line| line.left_out) {
            return unwanted;
        }
        for id in users_first(recipe) {
            let is_out =
                |(user, at): (PartId, usize)| unwanted.get(user.0) == Some(&true) || self.is_left_out(user, at);
            let none = recipe.users(id).next().is_some() && recipe.users(id).all(is_out);
            if let Some(slot) = unwanted.get_mut(id.0) {
                *slot = none;
            }
        }
        unwanted
    }

    /// What so much of a part, as a line takes it, comes to with all steps done: that much of it is made.
    ///
    /// # Errors
    /// When an amount leaves the range of exact numbers.
    pub fn whole_of(&self, recipe: &Recipe, id: PartId, line: &Ingredient, mass: Mass) -> Result<Mass, Overflow> {
        match (line.before, recipe.part(id), self.part(id)) {
            (Some(before), Some(part), Some(solved)) => {
                let there = there_before(part, id, solved.as_written(), before.step)?;
                mass.over(there.times(heated::before_oven(recipe, self, id, before.step)?)?)
            }
            _ => Ok(mass),
        }
    }
}

/// As [`apply`] for one part, whose users are done.
fn apply_to(
    recipe: &Recipe,
    formula: &mut Formula,
    id: PartId,
    (made, share): (&[bool], Number),
    known: &mut LeftOut,
) -> Result<(), Overflow> {
    let Some(part) = recipe.part(id) else { return Ok(()) };
    let is_early = |(user, at): (PartId, usize)| {
        recipe.part(user).and_then(|user| user.lines.get(at)).is_some_and(|line| line.before.is_some())
    };
    if !recipe.users(id).any(is_early) {
        return Ok(());
    }
    let Some(whole) = formula.part(id).cloned() else { return Ok(()) };
    let balance = if share == Number::ONE { balance::of(recipe, formula, id)? } else { whole.balance };
    let mut early = Vec::new();
    for (user, at) in recipe.users(id).filter(|(user, _)| made.get(user.0) == Some(&true)) {
        let line = recipe.part(user).and_then(|user| user.lines.get(at)).filter(|line| !line.from_store);
        let Some(before) = line.and_then(|line| line.before) else { continue };
        let there = there_before(part, id, &whole, before.step)?;
        let there = there.times(heated::before_oven(recipe, formula, id, before.step)?)?;
        if there != Number::ONE {
            known.before.insert((id, before.step), there);
        }
        if let Some(mass) = formula.part(user).and_then(|user| user.lines.get(at)?.mass) {
            early.push(Early { before: before.step, mass, whole: mass.over(there)? }.times(share)?);
        }
    }
    let mut now = SolvedPart { early, balance, ..whole };
    let mut goes_in = Vec::with_capacity(part.lines.len());
    for at in 0..part.lines.len() {
        let share = drawn(&now.draws, at, |step| now.reach(part, id, step))?;
        if share != Number::ONE {
            known.goes_in.insert((id, at), share);
        }
        goes_in.push(share);
    }
    if goes_in.iter().any(|share| *share != Number::ONE) {
        let less = now.with_lines(part, &goes_in)?;
        let draws = now
            .draws
            .iter()
            .map(|draw| now.draw_now(draw, (part, id), &goes_in))
            .collect::<Result<Noted<_, _>, _>>()?;
        now = SolvedPart { draws, ..less };
    }
    let is_raw = now.oven.is_some() && is_all_taken_raw(recipe, formula, id)?;
    if is_raw {
        let written = now.written.take().unwrap_or_else(|| Box::new(now.clone()));
        let early = now.early_before_oven()?;
        now = SolvedPart { makes: now.makes_before_oven()?, oven: None, early, written: Some(written), ..now };
    }
    if let Some(slot) = formula.parts.get_mut(id.0) {
        *slot = now;
    }
    if is_raw && share == Number::ONE {
        let balance = balance::of(recipe, formula, id)?;
        if let Some(slot) = formula.parts.get_mut(id.0) {
            slot.balance = balance;
        }
    }
    Ok(())
}

/// Whether all that is taken of a part is taken before an oven has had it: then it weighs what its dough weighs.
fn is_all_taken_raw(recipe: &Recipe, formula: &Formula, id: PartId) -> Result<bool, Overflow> {
    for (user, at) in recipe.users(id) {
        let line = recipe.part(user).and_then(|user| user.lines.get(at));
        let Some(before) = line.and_then(|line| line.before) else { return Ok(false) };
        if heated::left_by_oven(recipe, formula, id, Some(before.step))?.is_some() {
            return Ok(false);
        }
    }
    Ok(true)
}

impl SolvedPart {
    /// What a pair of braces draws when not all of the part comes to its step; of what is not drawn at all its share stays.
    fn draw_now(&self, draw: &Draw, (part, id): (&Part, PartId), goes_in: &[Number]) -> Result<Draw, Overflow> {
        let reach = self.reach(part, id, draw.step)?;
        let now = draw.times(reach)?;
        let of_line = match draw.target {
            Target::Line(at) => goes_in.get(at).copied().unwrap_or(Number::ONE),
            Target::Preferment(_) => return Ok(draw.clone()),
        };
        if of_line.is_zero() {
            let drawn = Drawn { share: draw.drawn.share, ..Drawn::default() };
            return Ok(Draw { drawn, ..now });
        }
        let share = draw.drawn.share.map(|share| share.times(reach)?.over(of_line)).transpose()?;
        Ok(Draw { drawn: Drawn { share, ..now.drawn }, ..now })
    }
}

/// How much of a line the steps draw, of 1, when so much of each step is done; what no step draws goes in at the beginning.
fn drawn(draws: &[Draw], line: usize, done: impl Fn(usize) -> Result<Number, Overflow>) -> Result<Number, Overflow> {
    let (mut named, mut drawn) = (Number::ZERO, Number::ZERO);
    for draw in draws.iter().filter(|draw| draw.target == Target::Line(line)) {
        let Some(share) = draw.drawn.share else { return Ok(Number::ONE) };
        named = named.plus(share)?;
        drawn = drawn.plus(share.times(done(draw.step)?)?)?;
    }
    let rest = Number::ONE.minus(named)?.max(Number::ZERO);
    Ok(drawn.plus(rest)?.min(Number::ONE))
}

/// How much of a part there is before a step, of 1 for all of it: without what that step and those after it draw. All of it where
/// something has no known weight.
fn there_before(part: &Part, id: PartId, whole: &SolvedPart, before: usize) -> Result<Number, Overflow> {
    let Some(stays) = whole.stays.filter(|stays| *stays > Mass::ZERO) else { return Ok(Number::ONE) };
    let left_out = flow::left_out(part, id, before);
    let is_done = |step: usize| Ok(if left_out.get(step) == Some(&true) { Number::ZERO } else { Number::ONE });
    let mut there = stays;
    for (at, (_, amount)) in part.lines.iter().zip(&whole.lines).enumerate().filter(|(_, (line, _))| line.stays_in()) {
        let Some(mass) = amount.mass else { continue };
        there = there.minus(mass.times(Number::ONE.minus(drawn(&whole.draws, at, is_done)?)?)?)?;
    }
    let share = there.ratio(stays)?;
    Ok(if share.is_positive() { share } else { Number::ONE })
}

/// A part after all that take of it, else in the order of the file. Rings were reported and come last.
pub(crate) fn users_first(recipe: &Recipe) -> Vec<PartId> {
    let mut takes: Vec<Vec<PartId>> = vec![Vec::new(); recipe.parts.len()];
    let mut waits = vec![0_usize; recipe.parts.len()];
    for (id, part) in recipe.parts() {
        for user in recipe.users(id).map(|(user, _)| user).filter(|user| *user != id).chain(part.from) {
            if let (Some(taken), Some(count)) = (takes.get_mut(user.0), waits.get_mut(id.0)) {
                taken.push(id);
                *count += 1;
            }
        }
    }
    let waits_for_none = |(id, waits): (usize, &usize)| (*waits == 0).then_some(PartId(id));
    let mut ready: BTreeSet<PartId> = waits.iter().enumerate().filter_map(waits_for_none).collect();
    let mut order = Vec::with_capacity(recipe.parts.len());
    while let Some(id) = ready.pop_first() {
        order.push(id);
        for taken in takes.get(id.0).into_iter().flatten() {
            if let Some(count) = waits.get_mut(taken.0) {
                *count -= 1;
                if *count == 0 {
                    ready.insert(*taken);
                }
            }
        }
    }
    order.extend(waits.iter().enumerate().filter(|(_, waits)| **waits > 0).map(|(id, _)| PartId(id)));
    order
}
