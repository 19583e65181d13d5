//! What is offered as a way out, done to the files and asked of the planner again: only what was tried is offered.

use super::super::ask::{self, Hours};
use super::super::doughs;
use super::super::problem::{Minute, Problem};
use super::super::shifts::Staff;
use super::super::shorter;
use super::super::tasks::{self, Tasks};
use super::Case;
use crate::make::order::Order;
use crate::make::work::Work;
use crate::measure::number::Number;
use crate::measure::quantity::Duration;
use crate::model::kitchen::Kitchen;
use crate::model::recipe::Recipe;
use crate::model::step::{Loads, Step, Timing};
use crate::text::source::Span;
use jiff::ToSpan;
use std::borrow::Cow;
use std::sync::Arc;

/// Steps of search that trying one way out may cost.
pub(super) const EFFORT: u64 = 60_000;

/// The same for trying one figure.
const QUICK_EFFORT: u64 = 4_000;

/// One change of what the files say.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) enum Mend {
    /// A step, by its line, says something else.
    Step(Span, Says),
    /// A part, by the line of its `keeps`, keeps for so long.
    Keeps(Span, Minute),
    /// Another kitchen.
    Kitchen(Box<Kitchen>),
    /// An order, or every one, is wanted so much later.
    Later(Option<usize>, Minute),
    /// Work may begin so much sooner.
    Sooner(Minute),
    /// A rest that may go on stands where a limit of that number was.
    Rest(usize),
    /// An order is made in these doughs instead; of none, not at all.
    Doughs(usize, Vec<Dough>),
    /// An order shares no dough with one for another time.
    Alone(usize),
}

/// One of the doughs in which an order is made.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Dough {
    /// How much of the order, of 1.
    pub(super) share: Number,
    /// How many minutes before the order is wanted.
    pub(super) sooner: Minute,
}

/// What a step says instead.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) enum Says {
    /// It may go on for so long.
    UpTo(Minute),
    /// What it made may stand for so long.
    MayStand(Minute),
    /// It comes within so long after another, by its line.
    Within(Span, Minute),
    /// It takes so much longer.
    Lasts(Minute),
    /// It is done so much sooner within another.
    MomentsSooner(Minute),
    /// So many pieces at a time.
    AtATime(Number),
    /// So many share it.
    SharedBy(u32),
}

/// What is asked for when something is changed.
struct AskedFor<'a> {
    orders: Vec<Order>,
    dues: Vec<Option<Minute>>,
    /// The orders that share no dough with one for another time.
    alone: Vec<usize>,
    kitchen: &'a Kitchen,
}

/// Some orders as they are planned in a kitchen.
pub(super) struct Apart {
    pub(super) work: Work,
    pub(super) tasks: Tasks,
    pub(super) hours: Hours,
    pub(super) problem: Problem,
}

impl Case<'_> {
    /// Whether there is a plan when the files say so, as far as a little search shows.
    pub(super) fn holds(&self, mends: &[Mend]) -> bool {
        self.all_hold(mends, EFFORT)
    }

    /// As [`Case::holds`], with less of a search: for finding the least figure.
    pub(super) fn holds_quickly(&self, mends: &[Mend]) -> bool {
        self.all_hold(mends, QUICK_EFFORT)
    }

    fn all_hold(&self, mends: &[Mend], steps: u64) -> bool {
        self.can_be_planned(self.all_orders(), mends, steps)
    }

    /// Every order with its number.
    pub(super) fn all_orders(&self) -> Vec<(Order, usize)> {
        self.work.orders.iter().cloned().enumerate().map(|(at, order)| (order, at)).collect()
    }

    /// Whether some orders, each with its number among all, have a plan when the files say so: of one dough for several times, or else of one for
    /// each, as it is planned then. Which of them is better is not asked here.
    pub(super) fn can_be_planned(&self, orders: Vec<(Order, usize)>, mends: &[Mend], steps: u64) -> bool {
        let as_asked = |apart: &Apart| self.as_asked(apart).into_owned();
        self.can_be_planned_so(orders, mends, steps, &as_asked)
    }

    /// The same, where something else is to be possible.
    pub(super) fn can_be_planned_so(
        &self,
        orders: Vec<(Order, usize)>,
        mends: &[Mend],
        steps: u64,
        what: &dyn Fn(&Apart) -> Problem,
    ) -> bool {
        let Some(asked) = self.asked_for(orders, mends) else { return false };
        let can = |work: Work| {
            let apart = if (self.stop)() { None } else { self.laid(&asked, work, mends) };
            apart.is_some_and(|apart| self.possible_within(&what(&apart), steps))
        };
        let Ok(one) = Work::apart(asked.orders.clone(), &asked.alone) else { return false };
        // What is to be several doughs is not asked whether it could be one.
        let groupings = if asked.alone.is_empty() { doughs::groupings(&one) } else { Vec::new() };
        let apart = |alone: Vec<usize>| Work::apart(asked.orders.clone(), &alone).is_ok_and(can);
        can(one) || groupings.into_iter().any(apart)
    }

    /// What is planned when the files say so; `None` where that cannot be asked.
    pub(super) fn mended(&self, mends: &[Mend]) -> Option<Apart> {
        self.planned(self.all_orders(), mends)
    }

    /// Some orders, each with its number among all, when the files say so.
    pub(super) fn planned(&self, orders: Vec<(Order, usize)>, mends: &[Mend]) -> Option<Apart> {
        let asked = self.asked_for(orders, mends)?;
        let work = match asked.alone.as_slice() {
            [] => doughs::work(asked.orders.clone(), asked.kitchen),
            alone => Work::apart(asked.orders.clone(), alone),
        };
        self.laid(&asked, work.ok()?, mends)
    }

    /// What is asked for when the files say so.
    fn asked_for<'m>(&'m self, orders: Vec<(Order, usize)>, mends: &'m [Mend]) -> Option<AskedFor<'m>> {
        let kitchen = mends.iter().find_map(|mend| match mend {
            Mend::Kitchen(kitchen) => Some(kitchen.as_ref()),
            _ => None,
        });
        let kitchen = kitchen.unwrap_or(self.kitchen);
        let later = |at: usize| {
            let by = mends.iter().map(|mend| match mend {
                Mend::Later(of, by) if of.is_none_or(|of| of == at) => *by,
                _ => 0,
            });
            by.sum::<Minute>()
        };
        let mut known: Vec<(Arc<Recipe>, Arc<Recipe>)> = Vec::new();
        let mut changed: Vec<Order> = Vec::with_capacity(orders.len());
        let mut dues: Vec<Option<Minute>> = Vec::with_capacity(orders.len());
        let mut alone: Vec<usize> = Vec::new();
        for (mut order, at) in orders {
            order.recipe = rewritten(&order.recipe, mends, &mut known);
            let in_doughs = mends.iter().find_map(|mend| match mend {
                Mend::Doughs(of, doughs) if *of == at => Some(doughs.as_slice()),
                _ => None,
            });
            for Dough { share, sooner } in in_doughs.unwrap_or(&[Dough { share: Number::ONE, sooner: 0 }]) {
                let by = later(at) - sooner;
                let mut one = order.clone();
                if *share != Number::ONE {
                    // It is divided what is made: what is in the store is there for the first of them.
                    one.formula = one.formula.times(*share).ok()?;
                    one.making = one.making.map(|making| making.times(*share)).transpose().ok()?;
                }
                if let Some(ready) = one.ready.as_mut() {
                    ready.when = ready.when.checked_add(by.minutes()).ok()?;
                }
                if in_doughs.is_some_and(|doughs| doughs.len() > 1) || mends.contains(&Mend::Alone(at)) {
                    alone.push(changed.len());
                }
                changed.push(one);
                dues.push(self.hours.dues.get(at).copied().flatten().map(|due| due + by));
            }
        }
        Some(AskedFor { orders: changed, dues, alone, kitchen })
    }

    /// What the planner is asked of some work when the files say so.
    fn laid(&self, asked: &AskedFor<'_>, work: Work, mends: &[Mend]) -> Option<Apart> {
        let (kitchen, dues) = (asked.kitchen, asked.dues.clone());
        let tasks = tasks::of(&work, kitchen).ok()?;
        let sooner = mends.iter().map(|mend| if let Mend::Sooner(by) = mend { *by } else { 0 }).sum::<Minute>();
        let hours = self.hours_in(kitchen, dues, self.hours.earliest.map(|earliest| earliest - sooner));
        let mut problem = ask::problem(&tasks, kitchen, &hours);
        match self.rest {
            Some(rest) => problem = rest(&tasks, &problem)?,
            // The plan takes the shorter ends of ranges where it has to; a timeline without a clock has nothing that presses.
            None if self.clock.is_some() => problem = shorter::at_shortest(&problem, &tasks).unwrap_or(problem),
            None => {}
        }
        for mend in mends {
            if let Mend::Rest(at) = mend
                && let Some(lag) = problem.lags.get_mut(*at)
            {
                lag.most = None;
            }
        }
        Some(Apart { work, tasks, hours, problem })
    }

    /// The hours of a kitchen and of its people, as far as what is planned asks for any.
    fn hours_in(&self, kitchen: &Kitchen, dues: Vec<Option<Minute>>, earliest: Option<Minute>) -> Hours {
        if !self.hours.cold {
            return Hours { dues, earliest, ..self.hours.clone() };
        }
        let Staff { open, people } = match (self.clock, earliest) {
            (Some(clock), Some(from)) => {
                let last = dues.iter().flatten().copied().max().unwrap_or(from);
                // What is late may be so by a day.
                let until = if self.rest.is_some() { last.max(from) + 1440 } else { last };
                Staff::by_the_clock(kitchen, clock, from, until)
            }
            _ => Staff::without_clock(kitchen),
        };
        Hours { open, people, cold: true, dues, earliest }
    }
}

/// A recipe with what the mends make of it; each recipe once, so that what was one stays one.
fn rewritten(recipe: &Arc<Recipe>, mends: &[Mend], known: &mut Vec<(Arc<Recipe>, Arc<Recipe>)>) -> Arc<Recipe> {
    if !mends.iter().any(|mend| matches!(mend, Mend::Step(..) | Mend::Keeps(..))) {
        return Arc::clone(recipe);
    }
    if let Some((_, other)) = known.iter().find(|(one, _)| Arc::ptr_eq(one, recipe)) {
        return Arc::clone(other);
    }
    let mut other = recipe.as_ref().clone();
    for part in &mut other.parts {
        let mut written = Cow::Borrowed(part.as_ref());
        for mend in mends {
            match mend {
                Mend::Keeps(span, minutes) => {
                    if written.keeps.is_some_and(|keeps| keeps.span == *span)
                        && let Some(keeps) = written.to_mut().keeps.as_mut()
                    {
                        keeps.time = Duration::minutes(*minutes);
                    }
                }
                Mend::Step(span, says) => {
                    let found = written.steps.iter().position(|step| step.span == *span);
                    if let Some(step) = found.and_then(|at| written.to_mut().steps.get_mut(at)) {
                        says.write(step, recipe);
                    }
                }
                _ => {}
            }
        }
        if let Cow::Owned(written) = written {
            *part = Arc::new(written);
        }
    }
    let other = Arc::new(other);
    known.push((Arc::clone(recipe), Arc::clone(&other)));
    other
}

impl Says {
    /// Writes it into a step of a recipe.
    fn write(&self, step: &mut Step, recipe: &Recipe) {
        match self {
            Says::UpTo(minutes) => step.up_to = Some(Duration::minutes(*minutes)),
            Says::MayStand(minutes) => step.may_stand = Some(Duration::minutes(*minutes)),
            Says::Within(other, minutes) => {
                let is_other = |order: &Timing| {
                    let at = order.other();
                    let found = recipe.part(at.part).and_then(|part| part.steps.get(at.step));
                    found.is_some_and(|step| step.span == *other)
                };
                for order in &mut step.order {
                    if matches!(order, Timing::Within(..) | Timing::StraightAfter(_)) && is_other(order) {
                        *order = Timing::Within(Duration::minutes(*minutes), order.other());
                    }
                }
            }
            Says::Lasts(more) => {
                let longer = |time: Duration| time.plus(Duration::minutes(*more)).unwrap_or(time);
                step.time = (longer(step.time.0), longer(step.time.1));
            }
            Says::MomentsSooner(by) => {
                for moment in &mut step.moments {
                    *moment = moment.minus(Duration::minutes(*by)).unwrap_or(*moment);
                }
            }
            Says::AtATime(pieces) => {
                step.loads = if step.loads.is_by_piece() { Loads::EachOf(*pieces) } else { Loads::Of(*pieces) };
            }
            Says::SharedBy(many) => step.shared_by = *many,
        }
    }
}
