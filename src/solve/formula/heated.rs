//! How much of what is made was in the heat that takes of its weight: what is filled, glazed or strewn afterwards loses nothing there.

use super::{Formula, SolvedPart};
use crate::measure::number::{Number, Overflow};
use crate::measure::quantity::{Mass, Proportion};
use crate::model::alive::Alive;
use crate::model::cooking::may_cook::{Takes, takes_of_the_weight};
use crate::model::flow::heats_empty;
use crate::model::recipe::{Part, PartId, Recipe, Refers};
use crate::model::reference::StepRef;
use crate::model::step::{Step, Target, Timing};
use std::cell::RefCell;
use std::collections::{HashMap, HashSet};

/// What the heat takes of all that is made, when it takes so much of what was in it: of a bun that is filled after it was baked less.
///
/// # Errors
/// When a sum leaves the range of exact numbers.
pub fn loss_of_all(recipe: &Recipe, formula: &Formula, id: PartId, loss: Proportion) -> Result<Proportion, Overflow> {
    let share = share(recipe, formula, id)?;
    loss.value().times(share.value()).map(Proportion::new)
}

/// Which share of a part's weight was in the heat: all of it where no step says otherwise.
///
/// # Errors
/// When a sum leaves the range of exact numbers.
pub fn share(recipe: &Recipe, formula: &Formula, id: PartId) -> Result<Proportion, Overflow> {
    // What a part says that it loses by itself, as roasted onions do, the head does not say again; but where nothing else is heated. Where
    // nothing is baked or fried, what is lost is lost in pots.
    for (least, all) in
        [(Takes::AsBaking, false), (Takes::AsBaking, true), (Takes::AsCooking, false), (Takes::AsCooking, true)]
    {
        let share = Looked { all, ..Looked::for_heat((recipe, formula), least) }.share(id, None, 0)?;
        if share.is_positive() {
            return Ok(Proportion::new(share));
        }
    }
    Ok(Proportion::WHOLE)
}

/// Whether the head says what the oven takes, and a part of the recipe was in it when another takes it up: then it weighs less than the dough
/// that it was made of. What is drawn from another recipe is weighed as it came out of the oven there ([`SolvedPart::oven`]).
///
/// # Errors
/// When a sum leaves the range of exact numbers.
pub fn is_lighter(recipe: &Recipe, formula: &Formula, id: PartId) -> Result<bool, Overflow> {
    let is_own = recipe.part(id).is_some_and(|part| part.foreign.is_none());
    Ok(is_own && recipe.users(id).next().is_some() && left_by_oven(recipe, formula, id, None)?.is_some())
}

/// What the oven leaves of a part, of 1, by the `bake loss` of its own recipe's head: of its steps before `until`. `None` where no oven has
/// had it by then, or where the part says by itself what it loses.
///
/// # Errors
/// When a sum leaves the range of exact numbers.
pub fn left_by_oven(
    recipe: &Recipe,
    formula: &Formula,
    id: PartId,
    until: Option<usize>,
) -> Result<Option<Number>, Overflow> {
    let says_own = recipe.part(id).is_none_or(|part| part.makes.is_some());
    // What is drawn from another recipe was in the oven there.
    let loss = recipe.origin(id).and_then(|(origin, _)| origin.bake_loss);
    let Some(loss) = loss.filter(|_| !says_own) else { return Ok(None) };
    let looked = Looked::for_heat((recipe, formula), Takes::AsBaking);
    let share = looked.share(id, until, 0)?;
    let left = Number::ONE.minus(loss.value().times(share)?)?;
    Ok(Some(left).filter(|left| share.is_positive() && left.is_positive()))
}

/// How many times as much a part of another recipe weighs before one of its steps as when the oven there has had it.
///
/// # Errors
/// When a sum leaves the range of exact numbers.
pub(super) fn before_oven(recipe: &Recipe, formula: &Formula, id: PartId, step: usize) -> Result<Number, Overflow> {
    let Some(oven) = formula.part(id).and_then(|part| part.as_written().oven) else { return Ok(Number::ONE) };
    left_by_oven(recipe, formula, id, Some(step))?.unwrap_or(Number::ONE).over(oven)
}

/// How a part stands at the end of a step of it, both as shares of all that it holds in the end.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Stands {
    /// What is in by then.
    pub present: Number,
    /// What of that has been in the heat that takes of the weight: here, or in a part that was baked before it was taken.
    pub heated: Number,
}

/// How a part stands at the end of a step: what is in by then, and what of it was in the heat in the first so many steps.
///
/// # Errors
/// When a sum leaves the range of exact numbers.
pub fn stands(recipe: &Recipe, formula: &Formula, at: StepRef, steps: usize) -> Result<Stands, Overflow> {
    let looked = Looked::for_heat((recipe, formula), Takes::AsBaking);
    let sums = looked.sums(at.part, Some(steps), 0, Some(at.step))?;
    if sums.all <= Mass::ZERO {
        return Ok(Stands { present: Number::ONE, heated: Number::ZERO });
    }
    Ok(Stands { present: sums.present.ratio(sums.all)?, heated: sums.heated.ratio(sums.all)? })
}

/// Whether a step bakes what the parts that take it up do not bake again: buns that are filled when they are cold.
///
/// # Errors
/// When a sum leaves the range of exact numbers.
pub fn is_last_bake(recipe: &Recipe, formula: &Formula, id: PartId, step: &Step) -> Result<bool, Overflow> {
    let looked = Looked::for_heat((recipe, formula), Takes::AsBaking);
    let says_own = recipe.part(id).is_none_or(|part| part.makes.is_some_and(|makes| makes.loss.is_some()));
    Ok(!says_own && looked.is_meant(step) && !looked.again(id, &mut HashSet::new())?)
}

/// What a part holds.
struct Sums {
    all: Mass,
    /// Of that what is in by some step; all of it where none is asked for.
    present: Mass,
    /// Of that what was in the heat.
    heated: Mass,
}

struct Looked<'a> {
    recipe: &'a Recipe,
    formula: &'a Formula,
    /// Also parts that say their own loss.
    all: bool,
    /// What a step takes at least to be one that is meant.
    least: Takes,
    /// The shares of parts that others take up: of parts that share parts there are more ways down than anybody has time for.
    known: RefCell<HashMap<(PartId, Option<usize>), Number>>,
}

impl<'a> Looked<'a> {
    /// Steps that take so much at least, of parts that do not say their own loss.
    fn for_heat((recipe, formula): (&'a Recipe, &'a Formula), least: Takes) -> Looked<'a> {
        Looked { recipe, formula, all: false, least, known: RefCell::default() }
    }

    /// The share of a part that another takes up, of its steps before `until`.
    fn share_within(&self, id: PartId, until: Option<usize>, depth: usize) -> Result<Number, Overflow> {
        if let Some(share) = self.known.borrow().get(&(id, until)) {
            return Ok(*share);
        }
        let share = self.share(id, until, depth)?;
        self.known.borrow_mut().insert((id, until), share);
        Ok(share)
    }

    /// The share of a part, of its steps before `until`.
    fn share(&self, id: PartId, until: Option<usize>, depth: usize) -> Result<Number, Overflow> {
        let sums = self.sums(id, until, depth, None)?;
        if sums.all > Mass::ZERO { sums.heated.ratio(sums.all) } else { Ok(Number::ZERO) }
    }

    /// What a part holds by the end of the step `by`, or in the end, and what of it the steps before `until` heat.
    fn sums(&self, id: PartId, until: Option<usize>, depth: usize, by: Option<usize>) -> Result<Sums, Overflow> {
        let mut sums = Sums { all: Mass::ZERO, present: Mass::ZERO, heated: Mass::ZERO };
        let (Some(part), Some(solved)) = (self.recipe.part(id), self.formula.part(id)) else { return Ok(sums) };
        let says_own = part.makes.is_some_and(|makes| makes.loss.is_some()) || solved.oven.is_some();
        // A ring of parts was reported; it must not hang here.
        if depth > self.recipe.parts.len() || (depth > 0 && says_own && !self.all) {
            return Ok(sums);
        }
        let done = part.steps.get(..until.unwrap_or(part.steps.len())).unwrap_or(&part.steps);
        let last = done.iter().rposition(|step| self.is_meant(step));
        let unnamed = match last {
            Some(last) => self.unnamed((id, part), solved, last)?,
            None => Vec::new(),
        };
        for (at, (line, amount)) in part.lines.iter().zip(&solved.lines).enumerate() {
            let Some(mass) = amount.mass.filter(|_| line.stays_in() && !amount.left_out) else { continue };
            let inner = line.part();
            // A preferment's lines already stand in the total formula.
            if inner.and_then(|inner| self.recipe.part(inner)).is_some_and(|inner| inner.from == Some(id)) {
                continue;
            }
            sums.all = sums.all.plus(mass)?;
            let is_in = match last {
                Some(_) if unnamed.contains(&at) => mass,
                Some(last) => in_by((id, part), solved, at, last)?.min(mass),
                None => Mass::ZERO,
            };
            let present = match by {
                Some(by) => in_by((id, part), solved, at, by)?.min(mass).max(is_in),
                None => mass,
            };
            sums.present = sums.present.plus(present)?;
            sums.heated = sums.heated.plus(is_in)?;
            if let Refers::Part(inner) = line.refers {
                let until = line.before.filter(|before| before.part == inner).map(|before| before.step);
                sums.heated =
                    sums.heated.plus(present.minus(is_in)?.times(self.share_within(inner, until, depth + 1)?)?)?;
            }
        }
        Ok(sums)
    }

    /// Whether what takes a part up, or what takes that up, heats it once more; parts that were asked already are not asked again.
    fn again(&self, id: PartId, asked: &mut HashSet<PartId>) -> Result<bool, Overflow> {
        if !asked.insert(id) {
            return Ok(false);
        }
        for (user, line) in self.recipe.users(id) {
            let (Some(part), Some(solved)) = (self.recipe.part(user), self.formula.part(user)) else { continue };
            if let Some(last) = part.steps.iter().rposition(|step| self.is_meant(step))
                && (in_by((user, part), solved, line, last)? > Mass::ZERO
                    || self.unnamed((user, part), solved, last)?.contains(&line))
            {
                return Ok(true);
            }
            if self.again(user, asked)? {
                return Ok(true);
            }
        }
        Ok(false)
    }

    /// Which lines are baked by a step that names none of them, `Bake until gold.` of rolls that are named where they are filled afterwards:
    /// what is alive until then; and where nothing at all is in by then, the doughs and else the parts that are drawn later.
    fn unnamed(&self, (id, part): (PartId, &Part), solved: &SolvedPart, last: usize) -> Result<Vec<usize>, Overflow> {
        let mut is_empty = true;
        for (at, line) in part.lines.iter().enumerate() {
            let is_in = in_by((id, part), solved, at, last)? > Mass::ZERO;
            if is_in && (line.part().is_some() || line.is_flour) {
                return Ok(Vec::new());
            }
            is_empty &= !is_in;
        }
        let parts: Vec<(usize, PartId)> =
            part.lines.iter().enumerate().filter_map(|(at, line)| line.part().map(|inner| (at, inner))).collect();
        let of = |is: &dyn Fn(PartId) -> bool| -> Vec<usize> {
            parts.iter().filter(|(_, inner)| is(*inner)).map(|(at, _)| *at).collect()
        };
        let alive = Alive::of(self.recipe);
        let is_dough = |inner| self.formula.part(inner).is_some_and(|inner| inner.composition.flour > Mass::ZERO);
        let mut ways = vec![of(&|inner| alive.at_end(inner))];
        if is_empty {
            ways.extend([of(&is_dough), of(&|_| true)]);
        }
        Ok(ways.into_iter().find(|lines| !lines.is_empty()).unwrap_or_default())
    }

    fn is_meant(&self, step: &Step) -> bool {
        let takes = takes_of_the_weight(step);
        let is_enough = takes == Takes::AsBaking || (takes == Takes::AsCooking && self.least == Takes::AsCooking);
        is_enough && !heats_empty(step)
    }
}

/// How much of a line is in by the step that heats last: what the steps until then take of it, and what none of them takes, such as what
/// lies in a preferment, but for what later ones do.
fn in_by((id, part): (PartId, &Part), solved: &SolvedPart, line: usize, last: usize) -> Result<Mass, Overflow> {
    let all = solved.lines.get(line).and_then(|amount| amount.mass).unwrap_or(Mass::ZERO);
    let taken = |is_in: bool| {
        let draws = solved.draws.iter().filter(|draw| draw.target == Target::Line(line));
        let draws = draws.filter(|draw| is_by(part, id, draw.step, last) == is_in);
        // What could not be compared was reported, and counts as all there is.
        Mass::sum(draws.map(|draw| draw.drawn.mass.unwrap_or(all))).map(|mass| mass.min(all))
    };
    Ok(taken(true)?.max(all.minus(taken(false)?)?))
}

/// Whether what a step takes is in when another one of its part heats: it stands above it or is that one, and does not say that it comes
/// later or goes on beside it; or it says that it comes before, or into it.
fn is_by(part: &Part, id: PartId, step: usize, last: usize) -> bool {
    let orders =
        || part.steps.get(step).into_iter().flat_map(|step| &step.order).filter(|order| order.other().part == id);
    let into = |order: &Timing| matches!(order, Timing::Into(_) | Timing::Before(_)) && order.other().step <= last;
    let later = |order: &Timing| !matches!(order, Timing::Into(_) | Timing::Before(_)) && order.other().step >= last;
    step == last || orders().any(into) || (step < last && !orders().any(later))
}
