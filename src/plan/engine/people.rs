//! Who works: their number at any time, and where it matters who is there when, who does what.
//!
//! That so many people are enough at any time does not say that they can share the work: a task that lasts from one shift into
//! another is nobody's. In models of a usual size the solver is therefore told of each person; in larger ones a plan is
//! looked at when it is found.

use super::super::dense::Dense;
use super::super::problem::{Label, Minute, Window};
use super::super::share_out;
use super::super::standard_form::{StandardForm, Times, end, start};
use super::events::{Events, View, small};
use super::rules::{self, Taken, no_more_than};
use pumpkin_constraints::{boolean_less_than_or_equals, less_than_or_equals};
use pumpkin_core::Solver;
use pumpkin_core::predicate;
use pumpkin_core::predicates::Predicate;
use pumpkin_core::proof::ConstraintTag;
use pumpkin_core::results::ProblemSolution;
use pumpkin_core::variables::{DomainId, Literal, TransformableVariable};

/// Pairs of tasks times people beyond which the solver is told only of numbers.
const MOST: usize = 12_000;

/// What the solver was told of people.
#[derive(Debug, Default)]
pub struct People {
    /// The tasks at which somebody works.
    work: Vec<usize>,
    /// For each of them and each person, whether they work at it; empty where the solver knows only of numbers.
    by: Vec<Vec<Literal>>,
    /// When people rest: who, the start, and how long.
    rests: Vec<Rest>,
}

/// The one rest of a shift.
#[derive(Debug, Clone, Copy)]
struct Rest {
    person: usize,
    window: Window,
    start: DomainId,
    length: i32,
}

impl People {
    /// Tells the solver who works.
    pub fn new(model: &StandardForm, events: &mut Events, solver: &mut Solver, tag: ConstraintTag) -> People {
        let work = |task: &usize| model.jobs[*task].cooks > 0 && model.jobs[*task].shortest > 0;
        let work: Vec<usize> = (0..model.jobs.len()).filter(work).collect();
        if model.people.is_empty() {
            let demands: Vec<(usize, i64)> =
                work.iter().map(|task| (*task, i64::from(model.jobs[*task].cooks))).collect();
            rules::together(model, events, solver, tag, &demands, model.cooks);
            return People::default();
        }
        let mut people = People { work, by: Vec::new(), rests: Vec::new() };
        people.rest(model, events, solver);
        people.count(model, events, solver, tag);
        let pairs = people.work.len() * people.work.len().saturating_sub(1) / 2;
        if pairs * model.people.len() <= MOST {
            people.name(model, events, solver, tag);
        }
        people
    }

    /// The events at which rests begin.
    pub fn rests(&self) -> impl Iterator<Item = DomainId> + '_ {
        self.rests.iter().map(|rest| rest.start)
    }

    /// The earliest and the latest that anybody works.
    fn reach(&self, events: &Events) -> (Minute, Minute) {
        let first = self.work.iter().map(|task| events.closure.earliest(start(*task))).min();
        let last = self.work.iter().map(|task| events.closure.latest(end(*task))).max();
        (first.unwrap_or(0), last.unwrap_or(0))
    }

    /// The rests of the shifts in which there could be work.
    fn rest(&mut self, model: &StandardForm, events: &Events, solver: &mut Solver) {
        let (first, last) = self.reach(events);
        for (person, who) in model.people.iter().enumerate() {
            for shift in who.shifts.iter().filter(|shift| shift.rest > 0) {
                if shift.window.closes <= first || shift.window.opens >= last {
                    continue;
                }
                let (from, until) = shift.rests_between();
                let start = solver.new_bounded_integer(small(from), small(until));
                self.rests.push(Rest { person, window: shift.window, start, length: small(shift.rest) });
            }
        }
    }

    /// No more work at a time than people who are there and do not rest.
    fn count(&self, model: &StandardForm, events: &Events, solver: &mut Solver, tag: ConstraintTag) {
        let (first, last) = self.reach(events);
        let mut taken: Vec<Taken> = Vec::new();
        for task in &self.work {
            let job = &model.jobs[*task];
            let demand = i32::try_from(job.cooks).unwrap_or(i32::MAX);
            taken.push(Taken { start: events.view(start(*task)), length: small(job.shortest), demand });
        }
        for who in model.people.iter().filter(|who| !who.shifts.is_empty()) {
            let mut free = first;
            let mut away = Vec::new();
            for shift in &who.shifts {
                away.push((free, shift.window.opens.min(last)));
                free = free.max(shift.window.closes);
            }
            away.push((free, last));
            for (from, until) in away.into_iter().filter(|(from, until)| from < until) {
                let start = solver.new_bounded_integer(small(from), small(from)).scaled(1);
                taken.push(Taken { start, length: small(until - from), demand: 1 });
            }
        }
        taken.extend(self.rests.iter().map(|rest| Taken {
            start: rest.start.scaled(1),
            length: rest.length,
            demand: 1,
        }));
        no_more_than(solver, tag, &taken, small(model.cooks));
    }

    /// Who does what: somebody who is there, does nothing else meanwhile, and does not rest.
    fn name(&mut self, model: &StandardForm, events: &mut Events, solver: &mut Solver, tag: ConstraintTag) {
        for task in &self.work {
            let by: Vec<Literal> = (0..model.people.len()).map(|_| solver.new_literal()).collect();
            let cooks = small(i64::from(model.jobs[*task].cooks));
            let all = small(i64::try_from(by.len()).unwrap_or(0));
            let ones = vec![1; by.len()];
            solver.add_constraint(boolean_less_than_or_equals(ones.clone(), by.clone(), cooks, tag)).post();
            let not: Vec<Literal> = by.iter().map(|by| !*by).collect();
            solver.add_constraint(boolean_less_than_or_equals(ones, not, all - cooks, tag)).post();
            for (who, by) in model.people.iter().zip(&by) {
                let (first, last) = (events.closure.earliest(start(*task)), events.closure.latest(end(*task)));
                let mut free = Minute::MIN;
                let ends = Window { opens: Minute::MAX, closes: Minute::MAX };
                for window in who.shifts.iter().map(|shift| shift.window).chain([ends]) {
                    // Away from `free` to when this shift begins.
                    if !who.shifts.is_empty() && last > free && first < window.opens {
                        let mut clause = vec![(!*by).get_true_predicate()];
                        let (starts, ends) = (events.view(start(*task)), events.view(end(*task)));
                        if free > Minute::MIN {
                            let free = small(free);
                            clause.push(predicate!(ends <= free));
                        }
                        if window.opens < Minute::MAX {
                            let opens = small(window.opens);
                            clause.push(predicate!(starts >= opens));
                        }
                        solver.add_clause(clause, tag);
                    }
                    free = window.closes;
                }
            }
            self.by.push(by);
        }
        self.one_at_a_time(model, events, solver, tag);
        self.not_while_resting(events, solver, tag);
    }

    fn one_at_a_time(&self, model: &StandardForm, events: &mut Events, solver: &mut Solver, tag: ConstraintTag) {
        for (at, one) in self.work.iter().enumerate() {
            for (after, other) in self.work.iter().enumerate().skip(at + 1) {
                let mut apart: Vec<Predicate> = Vec::new();
                let mut always = false;
                for (from, to) in [(end(*one), start(*other)), (end(*other), start(*one))] {
                    if events.closure.least(from, to) >= 0 {
                        always = true;
                    } else if events.closure.most(from, to) >= 0 {
                        let literal = solver.new_literal();
                        events.apart(solver, tag, (from, to), 0, Some(literal));
                        apart.push(literal.get_true_predicate());
                    }
                }
                if always {
                    continue;
                }
                for person in 0..model.people.len() {
                    let (Some(one), Some(other)) = (self.literal(at, person), self.literal(after, person)) else {
                        continue;
                    };
                    let not = [!one, !other].map(|literal| literal.get_true_predicate());
                    solver.add_clause(apart.iter().copied().chain(not).collect::<Vec<_>>(), tag);
                }
            }
        }
    }

    fn not_while_resting(&self, events: &Events, solver: &mut Solver, tag: ConstraintTag) {
        for rest in &self.rests {
            for (at, task) in self.work.iter().enumerate() {
                let (first, last) = (events.closure.earliest(start(*task)), events.closure.latest(end(*task)));
                let Some(by) = self.literal(at, rest.person) else { continue };
                if last <= rest.window.opens || first >= rest.window.closes {
                    continue;
                }
                let (before, after) = (solver.new_literal(), solver.new_literal());
                let (starts, ends): (View, View) = (events.view(start(*task)), events.view(end(*task)));
                let begins = rest.start.scaled(1);
                let over = less_than_or_equals(vec![ends, begins.scaled(-1)], 0, tag);
                solver.add_constraint(over).implied_by(before);
                let not_yet = less_than_or_equals(vec![begins, starts.scaled(-1)], -rest.length, tag);
                solver.add_constraint(not_yet).implied_by(after);
                let clause = [!by, before, after].map(|literal| literal.get_true_predicate());
                solver.add_clause(clause, tag);
            }
        }
    }

    fn literal(&self, at: usize, person: usize) -> Option<Literal> {
        self.by.get(at)?.get(person).copied()
    }

    /// Who works at each task in a solution; `None` if nobody could.
    pub fn at_work(
        &self,
        model: &StandardForm,
        times: &Times,
        solution: &impl ProblemSolution,
    ) -> Option<Dense<Vec<usize>>> {
        let mut at_work: Dense<Vec<usize>> = Dense::filled(model.jobs.len(), Vec::new());
        if model.people.is_empty() {
            return Some(at_work);
        }
        // How long a day may be is nothing that the solver knows.
        let too_long = model.people.iter().any(|person| {
            let lasts = person.shifts.iter().map(|shift| shift.window.closes - shift.window.opens).max();
            lasts.is_none_or(|lasts| lasts > person.longest)
        });
        if (self.by.is_empty() || too_long) && !self.work.is_empty() {
            return Some(share_out::people(model.people.as_slice(), &works(model, times))?.into());
        }
        for (task, by) in self.work.iter().zip(&self.by) {
            let who = by.iter().enumerate().filter(|(_, by)| solution.get_literal_value(**by));
            at_work[*task] = who.map(|(person, _)| person).collect();
        }
        Some(at_work)
    }

    /// That not all work lies at these times.
    pub fn never(&self, model: &StandardForm, events: &Events, times: &Times) -> Vec<Predicate> {
        let moved = self.work.iter().filter(|task| {
            events.closure.earliest(start(**task)) < events.closure.latest(start(**task))
                && model.jobs[**task].cooks > 0
        });
        moved
            .map(|task| {
                let (starts, at) = (events.view(start(*task)), small(times.starts[*task]));
                predicate!(starts != at)
            })
            .collect()
    }
}

fn works(model: &StandardForm, times: &Times) -> Vec<share_out::Work> {
    let work = |task: usize| share_out::Work {
        start: times.starts[task],
        end: times.ends[task],
        cooks: model.jobs[task].cooks,
        label: Label::default(),
    };
    (0..model.jobs.len()).map(work).collect()
}
