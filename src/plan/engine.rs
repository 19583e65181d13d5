//! The best plan, found and proven by a constraint solver.
//!
//! The solver is told of everything in [`Model`]: moments that hang together rigidly are one variable; bonds, opening
//! hours, cooks and equipment become its constraints. Then the three goals are made small one after the other, each
//! kept while the next is worked on, beginning with the plan that was built at once.

mod closure;
mod drift;
mod flow;
mod goals;
mod moments;
mod pairs;
mod rules;
mod search;
mod turns;

use super::dense::Dense;
use super::limit::Budget;
use super::model::{Model, Times, end, start};
use super::problem::Minute;
use super::score::{self, Score};
use closure::Closure;
use moments::{Moments, small};
use pairs::Pairs;
use pumpkin_conflict_resolvers::resolvers::ResolutionResolver;
use pumpkin_core::Solver;
use pumpkin_core::options::SolverOptions;
use pumpkin_core::predicate;
use pumpkin_core::proof::ConstraintTag;
use pumpkin_core::results::{ProblemSolution, SatisfactionResultUnderAssumptions};
use pumpkin_core::variables::DomainId;
use search::Guide;

/// Models that take longer than this are left to the first plan: the solver counts in 32 bits.
const LONGEST: Minute = 1 << 28;

/// Models with more tasks than this are left to the first plan: the solver would not get anywhere in seconds.
pub const MOST_TASKS: usize = 250;

/// The steps that are spent at once on showing that a goal cannot be lower, before looking for better plans.
const PROBE: u64 = 4_000;

/// What the engine found.
#[derive(Debug, Clone)]
pub enum Found {
    /// A plan, its score, and the least that each measure can come to: it is the best if they are the same.
    Best(Times, Score, Score),
    /// There is no plan.
    Nothing,
    /// The budget was used up before there was a plan.
    Unknown,
}

/// Improves a plan, or finds one, until it is proven best or the budget is used up.
pub fn improve(model: &Model, first: Option<(Score, Times)>, budget: &mut Budget) -> Found {
    let horizon = first.as_ref().map_or_else(|| model.horizon(), |(score, _)| score.span);
    if model.jobs.is_empty() || model.jobs.len() > MOST_TASKS || horizon >= LONGEST {
        return match first {
            Some((score, times)) => Found::Best(times, score, floor(model, score)),
            None => Found::Unknown,
        };
    }
    let Some(closure) = Closure::new(model, horizon) else {
        // Nothing shorter than the first plan is possible, nor, by bonds and hours, anything at all.
        return match first {
            Some((score, times)) => Found::Best(times, score, floor(model, score)),
            None => Found::Nothing,
        };
    };
    let mut engine = Engine::new(model, closure, first);
    engine.run(horizon, budget)
}

/// What the measures of a plan cannot fall below by bonds alone.
pub fn floor(model: &Model, score: Score) -> Score {
    let span = model.earliest().map_or(0, |earliest| earliest.iter().copied().max().unwrap_or(0));
    Score { span: span.min(score.span), standing: 0, spells: i64::from(score.spells > 0) }
}

struct Engine<'a> {
    model: &'a Model,
    solver: Solver,
    tag: ConstraintTag,
    moments: Moments,
    pairs: Vec<Pairs>,
    resolver: ResolutionResolver,
    best: Option<(Score, Times)>,
}

/// How one search ended.
#[derive(Debug)]
enum Answer {
    Found,
    Impossible,
    OutOfSteps,
}

impl<'a> Engine<'a> {
    fn new(model: &'a Model, closure: Closure, first: Option<(Score, Times)>) -> Engine<'a> {
        let options = SolverOptions { memory_preallocated: 1, ..SolverOptions::default() };
        let mut solver = Solver::with_options(options);
        let tag = solver.new_constraint_tag();
        let mut moments = Moments::new(model, closure, &mut solver, tag);
        rules::hours(model, &moments, &mut solver, tag);
        rules::cooks(model, &moments, &mut solver, tag);
        let pairs = rules::equipment(model, &mut moments, &mut solver, tag);
        Engine { model, solver, tag, moments, pairs, resolver: ResolutionResolver::default(), best: first }
    }

    fn run(&mut self, horizon: Minute, budget: &mut Budget) -> Found {
        let span = goals::span(self.model, &self.moments, &mut self.solver, self.tag, horizon);
        let span = goals::Goal { variable: span, fixed: 0 };
        if self.best.is_none() {
            let mut guide = self.guide();
            budget.allow(budget.left());
            match self.search(&mut guide, span, i64::from(i32::MAX / 2), budget) {
                Answer::Found => {}
                Answer::Impossible => return Found::Nothing,
                Answer::OutOfSteps => return Found::Unknown,
            }
        }
        let mut least = Score { span: 0, standing: 0, spells: 0 };
        if let Some((score, _)) = &self.best {
            least = floor(self.model, *score);
        }
        budget.allow(budget.left() / 2);
        least.span = least.span.max(self.minimise(span, |score| score.span, budget));
        budget.allow(budget.left() * 3 / 4);
        let standing = goals::standing(self.model, &self.moments, &mut self.solver, self.tag);
        if let Some(standing) = standing {
            goals::drift(self.model, &self.moments, &mut self.solver, self.tag, standing);
            least.standing = self.minimise(standing, |score| score.standing, budget);
        }
        budget.allow(budget.left());
        let spells = goals::spells(self.model, &mut self.moments, &mut self.solver, self.tag);
        if let Some(standing) = standing {
            goals::drift(self.model, &self.moments, &mut self.solver, self.tag, standing);
        }
        least.spells = least.spells.max(self.minimise(spells, |score| score.spells, budget));
        match self.best.take() {
            Some((score, times)) => Found::Best(times, score, least),
            None => Found::Unknown,
        }
    }

    /// Makes one measure as small as it can be, keeps it so from here on, and gives the least that it can be. Where the
    /// budget does not suffice, that is less than what was reached.
    fn minimise(&mut self, goal: goals::Goal, measure: fn(&Score) -> i64, budget: &mut Budget) -> i64 {
        let mut least = i64::from(self.solver.lower_bound(&goal.variable)) + goal.fixed;
        let Some(mut reached) = self.best.as_ref().map(|(score, _)| measure(score)) else { return least };
        let stop_at = budget.until();
        let mut guide = self.guide();
        // Finding the known plan again shows the search where to stay close to.
        self.search(&mut guide, goal, reached, budget);
        let (mut probe, mut stride) = (PROBE, 1);
        let mut from_below = true;
        while least < reached && budget.taken < stop_at && !budget.spent() {
            let target = if from_below { (least + stride - 1).min(reached - 1) } else { reached - 1 };
            budget.allow(probe.min(stop_at.saturating_sub(budget.taken)));
            let answer = self.search(&mut guide, goal, target, budget);
            match answer {
                Answer::Found => {
                    let score = self.best.as_ref().map_or(target, |(score, _)| measure(score));
                    reached = score.min(target);
                    stride = 1;
                }
                Answer::Impossible => {
                    least = target + 1;
                    stride *= 2;
                }
                Answer::OutOfSteps => {
                    stride = 1;
                    if !from_below {
                        probe = probe.saturating_mul(2);
                    }
                    from_below = !from_below;
                }
            }
        }
        let least = least.min(reached);
        if self.solver.is_inconsistent() {
            return least;
        }
        let kept = small(reached - goal.fixed);
        let variable = goal.variable;
        self.solver.add_clause([predicate!(variable <= kept)], self.tag);
        budget.allow(budget.left());
        least
    }

    fn search(&mut self, guide: &mut Guide, goal: goals::Goal, target: i64, budget: &mut Budget) -> Answer {
        let most = small(target - goal.fixed);
        let variable = goal.variable;
        let assume = [predicate!(variable <= most)];
        let result = self.solver.satisfy_under_assumptions(guide, budget, &mut self.resolver, &assume);
        match result {
            SatisfactionResultUnderAssumptions::Satisfiable(found) => {
                let times = read(self.model, &self.moments, &self.pairs, &found.solution());
                let score = Score::of(self.model, &times);
                if self.best.as_ref().is_none_or(|(best, _)| score <= *best) {
                    self.best = Some((score, times));
                }
                Answer::Found
            }
            SatisfactionResultUnderAssumptions::UnsatisfiableUnderAssumptions(_)
            | SatisfactionResultUnderAssumptions::Unsatisfiable(_) => Answer::Impossible,
            SatisfactionResultUnderAssumptions::Unknown(_) => Answer::OutOfSteps,
        }
    }

    fn guide(&self) -> Guide {
        let free = self.moments.free();
        let variables: Vec<DomainId> = free.iter().map(|(_, variable)| *variable).collect();
        let known = self.best.as_ref().map(|(_, times)| {
            let moments = score::moments(times);
            free.iter().map(|(moment, variable)| (*variable, small(moments[*moment]))).collect()
        });
        Guide::new(variables, known.unwrap_or_default())
    }
}

fn read(model: &Model, moments: &Moments, pairs: &[Pairs], solution: &impl ProblemSolution) -> Times {
    let value = |moment: usize| Minute::from(solution.get_integer_value(moments.view(moment)));
    let tasks = 0..model.jobs.len();
    let mut units = Dense::filled(model.jobs.len(), 0);
    for (task, unit) in pairs.iter().flat_map(|pairs| pairs.units(solution)) {
        units[task] = unit;
    }
    Times {
        starts: tasks.clone().map(|task| value(start(task))).collect(),
        ends: tasks.map(|task| value(end(task))).collect(),
        units,
    }
}
