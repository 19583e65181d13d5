//! That nobody is needed elsewhere in the middle of what they do, told to the solver as it comes up.
//!
//! A plan that is found is looked at; where somebody would have to be in two places, the solver is told that this moment does not come
//! within these tasks. Few such pairs ever come up, where all of them would be thousands.

use super::super::caught::{self, Caught};
use super::super::standard_form::{StandardForm, Times, end, start};
use super::events::{Events, small};
use pumpkin_core::Solver;
use pumpkin_core::predicate;
use pumpkin_core::predicates::Predicate;
use pumpkin_core::proof::ConstraintTag;
use pumpkin_core::variables::Literal;
use std::collections::{BTreeMap, BTreeSet};

/// What the solver was told so far.
#[derive(Debug, Default)]
pub struct Apart {
    /// What is asked for now: that nobody is caught where it weighs more than so much.
    above: Option<i64>,
    /// What holds when it is, by what it weighs.
    switches: BTreeMap<i64, Literal>,
    /// For an event and a task, that the event comes no later than the task begins, and no sooner than it ends.
    known: BTreeMap<(usize, usize), [Literal; 2]>,
    /// The events and tasks at which somebody may be caught all the same.
    allowed: BTreeSet<(usize, Vec<usize>)>,
}

impl Apart {
    /// Asks from now on that nobody is caught where it weighs more than so much; `None`: nothing.
    pub fn ask(&mut self, above: Option<i64>) {
        self.above = above;
    }

    /// Asks from now on that nobody is caught but where they are here already.
    pub fn ask_but_for(&mut self, here: &[Caught]) {
        self.allowed = here.iter().map(|one| (one.event, one.at.clone())).collect();
        // What was told until now holds no longer.
        self.switches.clear();
        self.above = Some(0);
    }

    /// Whether anything was told that is asked for.
    pub fn is_told(&self) -> bool {
        !self.switches.is_empty()
    }

    /// Of the places at which somebody is caught those at which nobody is to be.
    pub fn refused(&self, caught: Vec<Caught>) -> Vec<Caught> {
        let Some(above) = self.above else { return Vec::new() };
        let is_allowed = |one: &Caught| self.allowed.contains(&(one.event, one.at.clone()));
        caught.into_iter().filter(|one| one.weight > above && !is_allowed(one)).collect()
    }

    /// What a search assumes.
    pub fn assumed(&self) -> Vec<Predicate> {
        let Some(above) = self.above else { return Vec::new() };
        let asked = self.switches.iter().filter(|(weight, _)| **weight > above);
        asked.map(|(_, switch)| switch.get_true_predicate()).collect()
    }

    /// Tells the solver that an event does not come within all of some tasks while no more people are there.
    pub fn never(
        &mut self,
        model: &StandardForm,
        (events, solver): (&mut Events, &mut Solver),
        tag: ConstraintTag,
        caught: &Caught,
        times: &Times,
    ) {
        let switch = *self.switches.entry(caught.weight).or_insert_with(|| solver.new_literal());
        let mut clause = vec![(!switch).get_true_predicate()];
        for task in &caught.at {
            let pair = self.known.entry((caught.event, *task)).or_insert_with(|| {
                let (before, after) = (solver.new_literal(), solver.new_literal());
                events.apart(solver, tag, (caught.event, start(*task)), 0, Some(before));
                events.apart(solver, tag, (end(*task), caught.event), 0, Some(after));
                [before, after]
            });
            clause.extend(pair.map(|literal| literal.get_true_predicate()));
        }
        let (first, last) = caught::no_more_people(model, caught::at(times, caught.event));
        let moment = events.view(caught.event);
        if let Some(first) = first {
            let before = small(first - 1);
            clause.push(predicate!(moment <= before));
        }
        if let Some(last) = last {
            let after = small(last + 1);
            clause.push(predicate!(moment >= after));
        }
        solver.add_clause(clause, tag);
    }
}
