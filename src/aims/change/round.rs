//! From exact amounts to those that are written and weighed: in the units and to the steps of each line, without breaking an aim.

use super::Problem;
use super::form::{Form, Quotient};
use super::goal::Goal;
use super::ways::{Line, Trial};
use crate::make::weigh::Scales;
use crate::measure::number::{Number, Overflow};
use crate::measure::quantity::Mass;
use crate::measure::show::Units;
use crate::measure::unit::Unit;
use crate::measure::value::{Said, Value};
use crate::model::kitchen::{Kitchen, Scale};

/// A line's steps become finer so often when coarser ones meet no aim.
const FINER: u32 = 3;
/// So many steps are tried one after the other on the way to amounts that meet every aim.
const MOST_MOVES: usize = 60;

/// Amounts near the exact ones that meet all goals, in times what is written; `None` where none were found. `taken` are the forms of
/// the goals, and of others behind them, where they hold everywhere.
pub(super) fn to_scale(
    problem: &Problem<'_>,
    goals: &[Goal<'_>],
    exact: &[Number],
    taken: Option<Vec<Option<Quotient>>>,
) -> Result<Option<Vec<Number>>, Overflow> {
    let written = vec![Number::ONE; problem.lines.len()];
    let mut look = Look { problem, goals, taken, taken_at: written, trial: Trial::of(problem.ways) };
    let changed: Vec<usize> = moved(problem.free, exact);
    for finer in 0..=FINER {
        for movable in [&changed[..], problem.free] {
            let Some(found) = search(&mut look, exact, movable, finer)? else { continue };
            // Whatever the forms say, the formula itself has the last word.
            let taken = look.taken.take();
            if look.off(&found)?.is_zero() {
                return Ok(Some(found));
            }
            look.taken = taken;
        }
    }
    Ok(None)
}

/// How amounts are looked at while steps are tried: by the forms, where they hold everywhere, else by working the formula out.
struct Look<'p, 'w> {
    problem: &'p Problem<'w>,
    goals: &'p [Goal<'w>],
    taken: Option<Vec<Option<Quotient>>>,
    taken_at: Vec<Number>,
    trial: Trial,
}

/// The lines that change.
fn moved(free: &[usize], exact: &[Number]) -> Vec<usize> {
    free.iter().copied().filter(|at| exact.get(*at).is_some_and(|times| *times != Number::ONE)).collect()
}

fn search(
    look: &mut Look<'_, '_>,
    exact: &[Number],
    movable: &[usize],
    finer: u32,
) -> Result<Option<Vec<Number>>, Overflow> {
    let problem = look.problem;
    let mut now = vec![Number::ONE; problem.lines.len()];
    let mut steps: Vec<(usize, Number)> = Vec::new();
    for at in movable {
        let (Some(line), Some(wanted), Some(slot)) = (problem.lines.get(*at), exact.get(*at), now.get_mut(*at)) else {
            continue;
        };
        let Some(step) = step(problem, line, *wanted, finer)? else { continue };
        // A line that stays is as it is written, whatever the step.
        if *wanted != Number::ONE {
            *slot = wanted.rounded_to(step)?.max(if wanted.is_zero() { Number::ZERO } else { step });
        }
        steps.push((*at, step));
    }
    let mut missed = look.off(&now)?;
    for _ in 0..MOST_MOVES {
        if missed.is_zero() {
            return Ok(Some(now));
        }
        let Some((better, left)) = look.next(&now, &steps, missed)? else { return Ok(None) };
        (now, missed) = (better, left);
    }
    Ok(missed.is_zero().then_some(now))
}

/// Amounts with one line so much larger; `None` where that is less than nothing.
fn moved_by(from: &[Number], at: usize, by: Number) -> Result<Option<Vec<Number>>, Overflow> {
    let mut moved = from.to_vec();
    let Some(slot) = moved.get_mut(at) else { return Ok(None) };
    *slot = slot.plus(by)?;
    let possible = !slot.is_negative();
    Ok(possible.then_some(moved))
}

/// Pairs of steps are tried among so few lines only.
const MOST_PAIRED: usize = 24;

impl Look<'_, '_> {
    /// One step of one line, or of two at once, after which less is missed; the one after which least is.
    fn next(
        &mut self,
        now: &[Number],
        steps: &[(usize, Number)],
        missed: Number,
    ) -> Result<Option<(Vec<Number>, Number)>, Overflow> {
        let mut ways = Vec::with_capacity(2 * steps.len());
        for (at, step) in steps {
            ways.push((*at, *step));
            ways.push((*at, Number::ZERO.minus(*step)?));
        }
        let mut best: Option<(Vec<Number>, Number)> = None;
        for (at, by) in &ways {
            self.keep_better(moved_by(now, *at, *by)?, missed, &mut best)?;
        }
        if best.is_some() || ways.len() > MOST_PAIRED {
            return Ok(best);
        }
        for (number, (at, by)) in ways.iter().enumerate() {
            let Some(one) = moved_by(now, *at, *by)? else { continue };
            for (other, more) in ways.iter().skip(number + 1).filter(|(other, _)| other != at) {
                self.keep_better(moved_by(&one, *other, *more)?, missed, &mut best)?;
            }
        }
        Ok(best)
    }

    fn keep_better(
        &mut self,
        tried: Option<Vec<Number>>,
        missed: Number,
        best: &mut Option<(Vec<Number>, Number)>,
    ) -> Result<(), Overflow> {
        let Some(tried) = tried else { return Ok(()) };
        let left = self.off(&tried)?;
        if left < best.as_ref().map_or(missed, |(_, known)| *known) {
            *best = Some((tried, left));
        }
        Ok(())
    }

    /// The figure of a goal.
    fn value(&self, number: usize, goal: &Goal<'_>, times: &[Number]) -> Result<Option<Number>, Overflow> {
        let Some(taken) = &self.taken else {
            let short = |value: Number| value.rounded_to(Number::constant(1, 1_000_000_000));
            let value = goal.value(&self.trial.ways);
            let quotient = |(above, below): (Number, Number)| {
                above.over(below).or_else(|Overflow| short(above)?.over(short(below)?))
            };
            return value.map(quotient).transpose();
        };
        let Some(Some(quotient)) = taken.get(number) else { return Ok(None) };
        let at = |form: &Form| -> Result<Number, Overflow> {
            let mut value = form.at;
            for (index, slope) in self.problem.free.iter().zip(&form.slopes) {
                if let (Some(now), Some(then)) = (times.get(*index), self.taken_at.get(*index))
                    && now != then
                    && !slope.is_zero()
                {
                    value = value.plus(slope.times(now.minus(*then)?)?)?;
                }
            }
            Ok(value)
        };
        at(&quotient.above)?.over(at(&quotient.below)?).map(Some)
    }

    /// How much is missed in all, each goal in shares of its bound; nothing when all are met.
    fn off(&mut self, times: &[Number]) -> Result<Number, Overflow> {
        if self.taken.is_none() {
            self.trial.put_all(self.problem.lines, times)?;
        }
        let least = Number::constant(1, 1_000_000_000);
        let mut sum = Number::ZERO;
        for (number, goal) in self.goals.iter().enumerate() {
            let Some(value) = self.value(number, goal, times)? else { continue };
            let low = goal.low.map(|low| Ok((low, low.minus(value)?))).transpose()?;
            let high = goal.high.map(|high| Ok((high, value.minus(high)?))).transpose()?;
            for (bound, beyond) in [low, high].into_iter().flatten() {
                if beyond.is_positive() {
                    // What is missed by next to nothing is missed, and sums stay short.
                    let share = beyond.over(bound.size().max(Number::constant(1, 1000)))?;
                    sum = sum.plus(share.rounded_to(least)?.max(least))?;
                }
            }
        }
        Ok(sum)
    }
}

/// The smallest step of a line that is written and weighed, as a share of what is written.
fn step(problem: &Problem<'_>, line: &Line, wanted: Number, finer: u32) -> Result<Option<Number>, Overflow> {
    let Some(said) = line.said.first() else { return Ok(None) };
    let value = said.value.number();
    if !value.is_positive() {
        return Ok(None);
    }
    let way = line.places.first().and_then(|(way, ..)| problem.ways.get(*way));
    let Some(way) = way else { return Ok(None) };
    let by_piece =
        line.places.first().and_then(|(_, part, _)| way.recipe.part(*part)).is_some_and(|part| part.per_piece);
    let mass = line.mass(problem.ways);
    let step = written_step(said, value.times(wanted)?, mass, &way.recipe.kitchen, by_piece);
    let mut step = step.over(value)?;
    for _ in 0..finer {
        step = step.over(Number::whole(if said.value.goes_by_parts(said.unit) { 2 } else { 10 }))?;
    }
    Ok(Some(step))
}

/// The step in the unit of the value: grams, millilitres, pieces, shares.
fn written_step(said: &Said, value: Number, mass: Option<Mass>, kitchen: &Kitchen, by_piece: bool) -> Number {
    let size = said.size.unwrap_or(Number::ONE);
    let unit = |share: Number| size.times(share).unwrap_or(share);
    // A last digit that was written goes on to be.
    let digit = said.slack.times(Number::whole(2)).ok().filter(|digit| digit.is_positive() && !said.whole);
    match said.value {
        Value::Proportion(_) => {
            let tenth = Number::constant(1, 1000);
            let coarse = if value < Number::constant(1, 100) { Number::constant(1, 10_000) } else { tenth };
            digit.map_or(coarse, |digit| digit.min(coarse))
        }
        Value::Count(_) => Number::ONE,
        Value::Volume(_) => match said.unit {
            Some(Unit::Cup) => unit(Number::constant(1, 8)),
            Some(Unit::Teaspoon | Unit::Tablespoon) => unit(Number::constant(1, 4)),
            Some(found) if found.is_customary() => unit(Number::constant(1, 20)),
            _ => digit.map_or(Number::ONE, |digit| digit.min(Number::ONE)),
        },
        _ => match said.unit {
            Some(Unit::Ounce) => unit(Number::constant(1, 20)),
            Some(Unit::Pound) => unit(Number::constant(1, 100)),
            _ => {
                let scales = Scales::of(kitchen, Units::Metric);
                let carries = |fine: &Scale| fine.up_to.is_none_or(|most| mass.is_some_and(|mass| mass <= most));
                let scale = scales.fine.filter(carries).unwrap_or(scales.main).step.value();
                let scale = if by_piece { scale.min(Number::constant(1, 10)) } else { scale };
                digit.map_or(scale, |digit| digit.min(scale))
            }
        },
    }
}
