//! How often units are heated again, as terms of what is made small.
//!
//! The loads of a unit that are wanted at a heat are put in a row: each follows one other load, or is the first of its unit.
//! A unit has one first load and a load at most one that follows it, so that each row is the whole unit in the order of the
//! starts. Where the one before leaves another heat, the heating counts, unless the kitchen was closed between.
//!
//! Loads fall into sorts between which it always counts. Something of each sort is the first of its unit or comes after another
//! sort, so that there are no fewer changes than sorts beyond the first of each unit: told outright, since the rows would show it
//! only one by one.

use super::super::heats::{loads, sooner, unlike};
use super::super::problem::Minute;
use super::super::standard_form::{StandardForm, end, start};
use super::events::{Events, View, small};
use super::pairs::Pairs;
use pumpkin_constraints::less_than_or_equals;
use pumpkin_core::Solver;
use pumpkin_core::predicate;
use pumpkin_core::proof::ConstraintTag;
use pumpkin_core::variables::{Literal, TransformableVariable};

/// With more loads than this in one kind of equipment it is not counted: their pairs become too many.
const MOST: usize = 48;

/// The minutes for which units are heated again, in terms that are added up.
pub fn again(
    model: &StandardForm,
    events: &mut Events,
    pairs: &[Pairs],
    solver: &mut Solver,
    tag: ConstraintTag,
) -> Vec<View> {
    let mut terms = Vec::new();
    for kind in 0..model.equipment.len() {
        let loads = loads(model, kind);
        if loads.len() <= MOST {
            Row { model, events, pairs, solver, tag, kind }.tell(&loads, &mut terms);
        }
    }
    terms
}

struct Row<'a> {
    model: &'a StandardForm,
    events: &'a mut Events,
    pairs: &'a [Pairs],
    solver: &'a mut Solver,
    tag: ConstraintTag,
    kind: usize,
}

impl Row<'_> {
    fn clause(&mut self, literals: impl IntoIterator<Item = Literal>) {
        let clause: Vec<_> = literals.into_iter().map(|literal| literal.get_true_predicate()).collect();
        self.solver.add_clause(clause, self.tag);
    }

    /// At most one of them holds.
    fn one_at_most(&mut self, literals: &[Literal]) {
        for (at, one) in literals.iter().enumerate() {
            for other in literals.iter().skip(at + 1) {
                self.clause([!*one, !*other]);
            }
        }
    }

    fn tell(&mut self, loads: &[usize], terms: &mut Vec<View>) {
        let heating = self.model.equipment[self.kind].heating;
        let firsts: Vec<(usize, Literal)> = loads.iter().map(|load| (*load, self.solver.new_literal())).collect();
        let sorts = self.sorts(loads);
        let mut begins: Vec<Vec<Literal>> = vec![Vec::new(); loads.len()];
        let mut changes: Vec<View> = Vec::new();
        // A load that may be over at once heats nothing then.
        let mut never_closed = loads.iter().all(|load| self.model.jobs[*load].shortest > 0);
        // For each load those that may come right before it, and for each those that may come right after it.
        let mut behind: Vec<Vec<Literal>> = vec![Vec::new(); loads.len()];
        for ((then, first_of_unit), sort) in firsts.iter().zip(&sorts) {
            let mut before = vec![*first_of_unit];
            begins.get_mut(*sort).into_iter().for_each(|begins| begins.push(*first_of_unit));
            let mut costs: Option<Literal> = None;
            for (first, behind) in loads.iter().zip(&mut behind).filter(|(first, _)| *first != then) {
                let Some(follows) = self.follows(*first, *then) else { continue };
                before.push(follows);
                behind.push(follows);
                if unlike(self.model, self.kind, *first, *then) {
                    let cost = *costs.get_or_insert_with(|| self.solver.new_literal());
                    let closed = self.closed_between(*first, *then);
                    never_closed &= closed.is_empty();
                    self.clause([!follows, cost].into_iter().chain(closed));
                }
            }
            self.clause(before.iter().copied());
            self.one_at_most(&before);
            if let Some(cost) = costs {
                terms.push(cost.get_integer_variable().scaled(small(heating)));
                changes.push(cost.get_integer_variable().scaled(-1));
                begins.get_mut(*sort).into_iter().for_each(|begins| begins.push(cost));
            }
        }
        for behind in &behind {
            self.one_at_most(behind);
        }
        if never_closed && !changes.is_empty() {
            let begins = begins.into_iter().filter(|begins| !begins.is_empty());
            let count = begins.map(|begins| self.clause(begins)).count();
            let units = usize::try_from(self.model.equipment[self.kind].count).unwrap_or(usize::MAX);
            let least = Minute::try_from(count.saturating_sub(units)).unwrap_or(0);
            self.solver.add_constraint(less_than_or_equals(changes, small(-least), self.tag)).post();
        }
        for (at, (one, first)) in firsts.iter().enumerate() {
            for (other, also) in firsts.iter().skip(at + 1) {
                self.never_in_one((*one, *other), vec![!*first, !*also]);
            }
        }
    }

    /// For each load the number of its sort: loads of one sort may follow each other without a change, and those of two sorts never
    /// do, whichever comes first.
    fn sorts(&self, loads: &[usize]) -> Vec<usize> {
        let mut sorts: Vec<usize> = (0..loads.len()).collect();
        for (at, one) in loads.iter().enumerate() {
            for (behind, other) in loads.iter().enumerate().skip(at + 1) {
                let agree =
                    !unlike(self.model, self.kind, *one, *other) || !unlike(self.model, self.kind, *other, *one);
                if let (true, Some(from), Some(to)) = (agree, sorts.get(behind).copied(), sorts.get(at).copied()) {
                    sorts.iter_mut().filter(|sort| **sort == from).for_each(|sort| *sort = to);
                }
            }
        }
        sorts
    }

    /// Whether a load comes right after another in its unit; `None` if it never does.
    fn follows(&mut self, first: usize, then: usize) -> Option<Literal> {
        let (from, to, by) = sooner(self.model, first, then);
        if self.events.closure.most(from, to) < by {
            return None;
        }
        let follows = self.solver.new_literal();
        if self.events.closure.least(from, to) < by {
            self.events.apart(self.solver, self.tag, (from, to), by, Some(follows));
        }
        for (one, other) in self.units(first, then) {
            self.clause([!follows, !one, other]);
        }
        Some(follows)
    }

    /// For each unit whether either load is in it; none where there is one unit.
    fn units(&self, one: usize, other: usize) -> Vec<(Literal, Literal)> {
        let inside = |task: usize| self.pairs.iter().find_map(|pairs| pairs.inside(task)).unwrap_or_default();
        inside(one).iter().copied().zip(inside(other).iter().copied()).collect()
    }

    /// That something does not hold of two loads in one unit.
    fn never_in_one(&mut self, (one, other): (usize, usize), not: Vec<Literal>) {
        let units = self.units(one, other);
        if units.is_empty() {
            self.clause(not);
            return;
        }
        for (one, other) in units {
            self.clause(not.iter().copied().chain([!one, !other]));
        }
    }

    /// Decisions any of which says that the kitchen is closed at some time between two loads.
    fn closed_between(&mut self, first: usize, then: usize) -> Vec<Literal> {
        let (first, then) = if self.model.mirrored { (then, first) } else { (first, then) };
        let mut closed = Vec::new();
        for pair in self.model.open.windows(2) {
            let [before, after] = pair else { continue };
            let (soonest, latest) = (self.events.closure.earliest(end(first)), self.events.closure.latest(start(then)));
            if soonest >= after.opens || latest <= before.closes {
                continue;
            }
            let literal = self.solver.new_literal();
            let (ends, starts) = (self.events.view(end(first)), self.events.view(start(then)));
            let (closes, opens) = (small(before.closes + 1), small(after.opens - 1));
            let not = (!literal).get_true_predicate();
            self.solver.add_clause([not, predicate!(ends <= opens)], self.tag);
            self.solver.add_clause([not, predicate!(starts >= closes)], self.tag);
            closed.push(literal);
        }
        closed
    }
}
