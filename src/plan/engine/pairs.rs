//! Equipment whose loads must be looked at two by two: because settings differ, because loads share a unit, or because
//! a rest may hold its unit longer than it needs.

use super::super::dense::Dense;
use super::super::network::LONG_AGO;
use super::super::occupancy::told_apart;
use super::super::problem::{Holding, Minute};
use super::super::standard_form::{StandardForm, end, start};
use super::events::Events;
use pumpkin_constraints::boolean_less_than_or_equals;
use pumpkin_core::Solver;
use pumpkin_core::predicates::Predicate;
use pumpkin_core::proof::ConstraintTag;
use pumpkin_core::results::ProblemSolution;
use pumpkin_core::variables::Literal;

/// Whether something holds: known from the start, or up to the solver.
#[derive(Debug, Clone, Copy)]
enum Truth {
    Always,
    Never,
    Open(Literal),
}

/// One kind of equipment, its loads, and which unit each is in.
#[derive(Debug)]
pub struct Pairs {
    tasks: Vec<usize>,
    /// For each load and unit, whether it is in it; empty where there is one unit or units are not told apart.
    inside: Dense<Vec<Literal>>,
}

/// What is being told to the solver about one kind of equipment.
struct Telling<'a> {
    model: &'a StandardForm,
    events: &'a mut Events,
    solver: &'a mut Solver,
    tag: ConstraintTag,
    tasks: &'a [usize],
    inside: Dense<Vec<Literal>>,
}

impl Pairs {
    /// Tells the solver about one kind of equipment and the loads that it takes.
    pub fn new(
        model: &StandardForm,
        events: &mut Events,
        solver: &mut Solver,
        tag: ConstraintTag,
        kind: usize,
        tasks: &[usize],
    ) -> Pairs {
        let equipment = &model.equipment[kind];
        let apart = told_apart(equipment);
        let units = usize::try_from(equipment.count).unwrap_or(usize::MAX).min(tasks.len());
        let inside = Dense::filled(tasks.len(), Vec::new());
        let mut telling = Telling { model, events, solver, tag, tasks, inside };
        if apart && units > 1 {
            telling.choose_units(units);
        }
        // Where lengths are fixed and there is one unit, the solver already counts what is in it at one time.
        let counted = units <= 1 && tasks.iter().all(|task| model.jobs[*task].fixed());
        let takes = match equipment.shared {
            Some(takes) => Some(takes),
            None if apart || equipment.count == 1 => None,
            None => Some(i64::from(equipment.count)),
        };
        telling.orders(takes, apart, counted);
        Pairs { tasks: tasks.to_vec(), inside: telling.inside }
    }

    /// For each unit, whether a load is in it; empty where there is one unit. `None` of a load of other equipment.
    pub fn inside(&self, task: usize) -> Option<&[Literal]> {
        let at = self.tasks.iter().position(|other| *other == task)?;
        Some(&self.inside[at])
    }

    /// The unit each load is in, in a solution.
    pub fn units<'a>(&'a self, solution: &'a impl ProblemSolution) -> impl Iterator<Item = (usize, usize)> + 'a {
        self.tasks.iter().zip(self.inside.iter()).map(|(task, inside)| {
            let unit = inside.iter().position(|literal| solution.get_literal_value(*literal));
            (*task, unit.unwrap_or(0))
        })
    }
}

impl Telling<'_> {
    fn clause(&mut self, literals: &[Literal]) {
        let clause: Vec<Predicate> = literals.iter().map(|literal| literal.get_true_predicate()).collect();
        self.solver.add_clause(clause, self.tag);
    }

    /// Each load is in one unit. Units are alike, so they are numbered as they first come up.
    fn choose_units(&mut self, units: usize) {
        for at in 0..self.tasks.len() {
            let inside: Vec<Literal> = (0..units).map(|_| self.solver.new_literal()).collect();
            self.clause(&inside);
            for (unit, one) in inside.iter().enumerate() {
                if unit > at {
                    self.clause(&[!*one]);
                }
                for other in inside.iter().skip(unit + 1) {
                    self.clause(&[!*one, !*other]);
                }
            }
            self.inside[at] = inside;
        }
    }

    /// For every two loads: one is before the other, or they share, or they are in different units. `takes` is what
    /// all loads at one time may come to, if they may overlap at all; `counted`, whether the solver sees to that.
    fn orders(&mut self, takes: Option<i64>, apart: bool, counted: bool) {
        let count = self.tasks.len();
        let mut present: Dense<Vec<(i64, Truth)>> = Dense::filled(count, Vec::new());
        for at in 0..count {
            for other in at + 1..count {
                let (Some(one), Some(two)) = (self.load(at), self.load(other)) else { continue };
                let heat = |first, then| if apart { self.model.heating(first, then) } else { 0 };
                let (to, back) = (heat(one.1, two.1), heat(two.1, one.1));
                let alike = !apart || self.model.alike(one.1, two.1);
                if counted && alike {
                    continue;
                }
                let before = self.before(one.0, two.0, to);
                let behind = self.before(two.0, one.0, back);
                if let (Truth::Open(before), Truth::Open(behind)) = (before, behind) {
                    self.clause(&[!before, !behind]);
                }
                let shares = match (takes, apart) {
                    (None, _) => false,
                    (Some(_), true) => self.model.share(one.1, two.1),
                    (Some(takes), false) => takes > 1,
                };
                if !shares {
                    self.exclude((at, other), before, behind);
                } else {
                    let together = self.together((at, other));
                    let size = |holding: Holding| if apart { holding.size } else { 1 };
                    let there = self.present(one.0, two.0, before, together);
                    present[other].push((size(one.1), there));
                    let there = self.present(two.0, one.0, behind, together);
                    present[at].push((size(two.1), there));
                }
            }
        }
        if let Some(takes) = takes {
            for (at, present) in present.iter().enumerate() {
                let own = self.load(at).map_or(0, |(_, holding)| if apart { holding.size } else { 1 });
                self.limit(present, takes - own);
            }
        }
    }

    fn load(&self, at: usize) -> Option<(usize, Holding)> {
        let task = *self.tasks.get(at)?;
        Some((task, self.model.jobs[task].holds?))
    }

    /// Whether one task is over, and what it needs heated, before another starts.
    fn before(&mut self, first: usize, then: usize, heat: Minute) -> Truth {
        let (from, to) = (end(first), start(then));
        if self.events.closure.least(from, to) >= heat {
            return Truth::Always;
        }
        if self.events.closure.least(to, from) > -heat && self.events.closure.least(to, from) != LONG_AGO {
            return Truth::Never;
        }
        let literal = self.solver.new_literal();
        self.events.apart(self.solver, self.tag, (from, to), heat, Some(literal));
        Truth::Open(literal)
    }

    /// Whether two loads are in one unit.
    fn together(&mut self, pair: (usize, usize)) -> Truth {
        let (one, two) = (self.inside[pair.0].clone(), self.inside[pair.1].clone());
        if one.is_empty() {
            return Truth::Always;
        }
        let together = self.solver.new_literal();
        for (one, two) in one.iter().zip(two.iter()) {
            self.clause(&[!*one, !*two, together]);
        }
        Truth::Open(together)
    }

    /// Two loads that must not overlap in one unit.
    fn exclude(&mut self, pair: (usize, usize), before: Truth, behind: Truth) {
        let mut order = Vec::new();
        for truth in [before, behind] {
            match truth {
                Truth::Always => return,
                Truth::Never => {}
                Truth::Open(literal) => order.push(literal),
            }
        }
        let (one, two) = (self.inside[pair.0].clone(), self.inside[pair.1].clone());
        if one.is_empty() {
            self.clause(&order);
            return;
        }
        for (one, two) in one.iter().zip(two.iter()) {
            let mut clause = order.clone();
            clause.extend([!*one, !*two]);
            self.clause(&clause);
        }
    }

    /// Whether `other` is in the same unit at the moment `task` starts; may be true without need, never false wrongly.
    fn present(&mut self, other: usize, task: usize, over: Truth, together: Truth) -> Truth {
        // `other` starts after `task` does.
        let later = {
            let (from, to) = (start(task), start(other));
            let least = self.events.closure.least(from, to);
            let back = self.events.closure.least(to, from);
            if least > 0 {
                Truth::Always
            } else if back != LONG_AGO && back >= 0 {
                Truth::Never
            } else {
                let literal = self.solver.new_literal();
                self.events.apart(self.solver, self.tag, (from, to), 1, Some(literal));
                Truth::Open(literal)
            }
        };
        let mut clause = Vec::new();
        for absent in [over, later] {
            match absent {
                Truth::Always => return Truth::Never,
                Truth::Never => {}
                Truth::Open(literal) => clause.push(literal),
            }
        }
        match together {
            Truth::Never => return Truth::Never,
            Truth::Always => {}
            Truth::Open(literal) => clause.push(!literal),
        }
        if clause.is_empty() {
            return Truth::Always;
        }
        let present = self.solver.new_literal();
        clause.push(present);
        self.clause(&clause);
        Truth::Open(present)
    }

    /// What is present comes to no more than so much.
    fn limit(&mut self, present: &[(i64, Truth)], room: i64) {
        let always: i64 =
            present.iter().filter(|(_, truth)| matches!(truth, Truth::Always)).map(|(size, _)| size).sum();
        let open: Vec<(i64, Literal)> = present
            .iter()
            .filter_map(|(size, truth)| match truth {
                Truth::Open(literal) => Some((*size, *literal)),
                _ => None,
            })
            .collect();
        let room = room - always;
        if open.iter().map(|(size, _)| size).sum::<i64>() <= room {
            return;
        }
        if open.is_empty() {
            // What is certainly there is too much: a decision that can go neither way says so.
            let never = self.solver.new_literal();
            self.clause(&[never]);
            self.clause(&[!never]);
            return;
        }
        let sizes: Vec<i32> = open.iter().map(|(size, _)| super::events::small(*size)).collect();
        let literals: Vec<Literal> = open.iter().map(|(_, literal)| *literal).collect();
        let limit = boolean_less_than_or_equals(sizes, literals, super::events::small(room), self.tag);
        self.solver.add_constraint(limit).post();
    }
}
