//! Which order would have to be left out, or made smaller, for there to be a plan.

use super::super::ask;
use super::super::limit::Limit;
use super::super::problem::Minute;
use super::super::shorter;
use super::super::solve::{self, Infeasible};
use super::super::tasks;
use super::Case;
use super::mend::{Apart, Dough, EFFORT, Mend};
use super::offer::Offer;
use super::relax::Less;
use crate::make::order::Order;
use crate::measure::number::Number;
use crate::measure::show;
use crate::model::step::StepKind;
use crate::text::diagnostic::Diagnostic;

/// So many orders are offered to be left out, each by itself.
const MOST: usize = 2;
/// So many orders are tried.
const TRIED: usize = 12;

impl Case<'_> {
    /// Orders that cannot be made even if nothing else is: why, and what would give way for each by itself.
    pub(super) fn alone(&self) -> Vec<Diagnostic> {
        let orders = &self.work.orders;
        if orders.len() < 2 || !self.is_whole() {
            return Vec::new();
        }
        let limit = Limit { stop: self.stop, ..Limit::steps(EFFORT) };
        let impossible = (0..orders.len()).filter_map(|at| {
            let one = self.only(vec![(orders.get(at)?.clone(), at)])?;
            (solve::possible(&one.problem, &limit) == Some(false)).then_some((at, one))
        });
        let impossible: Vec<(usize, Apart)> = impossible.collect();
        let others = (0..orders.len()).filter(|at| !impossible.iter().any(|(other, _)| other == at));
        let others: Vec<(Order, usize)> = others.filter_map(|at| Some((orders.get(at)?.clone(), at))).collect();
        let others_are_possible =
            !impossible.is_empty() && !others.is_empty() && self.can_be_planned(others, &[], EFFORT);
        let told = impossible.iter().filter_map(|(at, one)| {
            let Apart { work, tasks, hours, problem } = one;
            let case = Case { work, tasks, hours, problem, ..*self };
            let said = case.together(&Infeasible::Impossible);
            let why = said.message.strip_prefix("there is no plan: ");
            let of = self.told(*at)?;
            let message = match why {
                Some(why) => format!("there is no plan for {of}, even with nothing else to make: {why}"),
                None => format!("there is no plan for {of}, even with nothing else to make"),
            };
            // Whether it is enough for all of them is another question.
            let help = match (said.help.clone().map(|help| format!("for it alone: {help}")), others_are_possible) {
                (Some(help), true) => Some(format!("{help}; or leave it out")),
                (None, true) => Some("leave it out".to_owned()),
                (help, false) => help,
            };
            Some(Diagnostic { message, help, ..said })
        });
        told.collect()
    }

    /// Whether nothing of the day is done yet, nor asked for otherwise than in its files.
    fn is_whole(&self) -> bool {
        let whole = ask::problem(self.tasks, self.kitchen, self.hours);
        whole == *self.problem || shorter::at_shortest(&whole, self.tasks).is_some_and(|short| short == *self.problem)
    }

    /// Orders without any one of which there is a plan, those with the least work first, and how much of the first of them could be
    /// made.
    pub(super) fn leave_out(&self) -> Less {
        if !self.is_whole() {
            return Less::default();
        }
        let orders = &self.work.orders;
        let mut offers: Vec<Offer> = Vec::new();
        let mut offered: Vec<usize> = Vec::new();
        if orders.len() > 1 {
            let mut by_work: Vec<usize> = (0..orders.len()).collect();
            by_work.sort_by_key(|at| (self.work_for(*at), *at));
            let is_enough = |at: usize| {
                let others = (0..orders.len()).filter(|other| *other != at);
                let others = others.filter_map(|other| Some((orders.get(other)?.clone(), other))).collect();
                self.can_be_planned(others, &[], EFFORT)
            };
            for at in by_work.into_iter().take(TRIED) {
                let again = offered.iter().any(|other| self.alike(*other, at));
                if !again && offered.len() < MOST && is_enough(at) {
                    offered.push(at);
                }
            }
            let told = offered.iter().filter_map(|at| {
                let without = vec![Mend::Doughs(*at, Vec::new())];
                Some(Offer::said_so(format!("leave out {}", self.told(*at)?), without))
            });
            offers.extend(told);
        }
        let smaller = offered.first().copied().or(if orders.len() == 1 { Some(0) } else { None });
        let in_time = smaller.and_then(|at| Some((at, self.fewer(at)?)));
        if let Some((at, pieces)) = in_time {
            offers.extend(self.more_in_several_doughs(at, pieces));
            offers.extend(self.less_of(at, pieces));
        }
        Less { offers, in_time, orders: offered.iter().filter_map(|at| orders.get(*at)?.span).collect() }
    }

    /// The order with the most work.
    pub(super) fn largest(&self) -> Option<usize> {
        (0..self.work.orders.len()).max_by_key(|at| (self.work_for(*at), std::cmp::Reverse(*at)))
    }

    /// The minutes of work and baking in what is done for an order alone.
    fn work_for(&self, order: usize) -> Minute {
        let own = |task: &&tasks::Task| self.work.batches.get(task.batch).is_some_and(|batch| batch.orders == [order]);
        self.tasks.list.iter().filter(own).filter(|task| task.kind != StepKind::Wait).map(|task| task.minutes).sum()
    }

    /// Whether two orders ask for the same at the same time.
    fn alike(&self, one: usize, other: usize) -> bool {
        let of = |at: usize| self.work.orders.get(at);
        of(one).zip(of(other)).is_some_and(|(one, other)| {
            one.recipe.is_same(&other.recipe) && one.wanted() == other.wanted() && one.ready == other.ready
        })
    }

    /// An order as it is told: how much of what, and for when where another asks for as much.
    fn told(&self, at: usize) -> Option<String> {
        let order = self.work.orders.get(at)?;
        let said = format!("{} of `{}`", order.wanted(), order.recipe.name);
        let others = || (0..self.work.orders.len()).filter(|other| *other != at);
        if others().any(|other| self.alike(at, other)) {
            return Some(format!("one of the orders for {said}, which are alike"));
        }
        let as_much = |other: usize| {
            self.work
                .orders
                .get(other)
                .is_some_and(|other| other.recipe.name.same(&order.recipe.name) && other.wanted() == order.wanted())
        };
        let due = self.hours.dues.get(at).copied().flatten().filter(|_| others().any(as_much));
        Some(match due.and_then(|due| self.wall(due)) {
            Some(wanted) => format!("the {said} for {wanted}"),
            None => said,
        })
    }

    /// The pieces of an order that are to be made and of which fewer could be: two and more.
    pub(super) fn divisible(&self, at: usize) -> Option<i64> {
        let order = self.work.orders.get(at).filter(|order| order.asked.is_none())?;
        self.in_store(at)?;
        order.made().pieces?.value().to_whole().filter(|pieces| *pieces > 1)
    }

    /// How many pieces of an order are in the store.
    pub(super) fn in_store(&self, at: usize) -> Option<i64> {
        let order = self.work.orders.get(at)?;
        let there = order.formula.pieces?.value().minus(order.made().pieces?.value()).ok()?;
        there.to_whole()
    }

    /// How many pieces of an order could be made.
    fn fewer(&self, at: usize) -> Option<i64> {
        let pieces = self.divisible(at)?;
        let can = |count: i64| self.share_of(at, count).is_some_and(|mends| self.holds(&mends));
        if !can(1) {
            return None;
        }
        let (mut low, mut high) = (1, pieces);
        while high - low > 1 {
            let middle = low + (high - low) / 2;
            if can(middle) { low = middle } else { high = middle }
        }
        Some(low)
    }

    /// That only so many pieces of an order are made, as one dough.
    fn share_of(&self, at: usize, count: i64) -> Option<Vec<Mend>> {
        let pieces = self.work.orders.get(at)?.made().pieces?.value();
        let share = Number::whole(count).over(pieces).ok()?;
        Some(vec![Mend::Doughs(at, vec![Dough { share, sooner: 0 }])])
    }

    /// The same, as it is offered.
    fn less_of(&self, at: usize, count: i64) -> Option<Offer> {
        let order = self.work.orders.get(at)?;
        let (of, few) = (order.wanted(), show::count_of(Number::whole(count + self.in_store(at)?)));
        Some(Offer::said_so(format!("make {few} of the {of} of `{}`", order.recipe.name), self.share_of(at, count)?))
    }

    /// Some orders without the others, each with its number among all.
    fn only(&self, orders: Vec<(Order, usize)>) -> Option<Apart> {
        if (self.stop)() { None } else { self.planned(orders, &[]) }
    }
}
