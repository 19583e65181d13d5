//! The best plan, found and proven by a constraint solver.
//!
//! The solver is told of everything in [`StandardForm`]: events that hang together rigidly are one variable; arcs, opening
//! hours, cooks and equipment become its constraints. Then the three goals are made small one after the other, each
//! kept while the next is worked on, beginning with the plan that was built at once.

mod apart;
mod closure;
mod events;
mod flow;
mod flow_bound;
mod goals;
mod heated;
mod pairs;
mod people;
mod rules;
mod search;
mod turns;

use super::bounds::lower_bound;
use super::caught;
use super::dense::Dense;
use super::limit::Budget;
use super::problem::{Minute, SPAN_WEIGHS};
use super::score::{self, Score};
use super::standard_form::{StandardForm, Times, end, start};
use apart::Apart;
use closure::Closure;
use events::{Events, small};
use goals::Goal;
use pairs::Pairs;
use people::People;
use pumpkin_conflict_resolvers::resolvers::{AnalysisMode, ResolutionResolver};
use pumpkin_core::Solver;
use pumpkin_core::options::SolverOptions;
use pumpkin_core::predicate;
use pumpkin_core::proof::ConstraintTag;
use pumpkin_core::results::{ProblemSolution, SatisfactionResultUnderAssumptions};
use pumpkin_core::variables::DomainId;
use search::Guide;
use std::collections::BTreeSet;

/// Models that take longer than this are left to the first plan: the solver counts in 32 bits.
const LONGEST: Minute = 1 << 28;

/// Models with more tasks than this are left to the first plan: the solver would not get anywhere in seconds.
pub const MOST_TASKS: usize = 250;

/// The steps that are spent at once on showing that a goal cannot be lower, before looking for better plans.
const PROBE: u64 = 4_000;

/// The steps for which a measure after the first may bring nothing worth it, neither a better plan nor a better bound, before it
/// is given up; when it has brought something, as many as it took for that. The steps of a large problem take longer each.
const PATIENCE: u64 = 50_000;
const PATIENCE_OF_MANY: u64 = 20_000;

/// From so many tasks on a problem is large.
const MANY_TASKS: usize = 50;

/// What is worth it: to close this share of what lies between the best plan and the bound, one in so many.
const WORTH: i64 = 20;

/// What the engine found.
#[derive(Debug, Clone)]
pub enum Outcome {
    /// A plan, the least that each measure can come to (it is the best if they are the same), and the measures that were given
    /// up before the limit because they no longer got better.
    Best(Times, Score, Vec<&'static str>),
    /// There is no plan.
    Nothing,
    /// The budget was used up before there was a plan.
    Unknown,
}

/// Improves a plan, or finds one, until it is proven best or the budget is used up.
pub fn improve(model: &StandardForm, first: Option<(Score, Times)>, budget: &mut Budget) -> Outcome {
    let first = match first {
        Some(first) => first,
        None => match find(model, budget) {
            Ok(found) => found,
            Err(Answer::Impossible) => return Outcome::Nothing,
            Err(_) => return Outcome::Unknown,
        },
    };
    let (score, _) = first;
    // A longer plan can only be better by what weighs against the span of this one.
    let horizon = score.weighed / SPAN_WEIGHS;
    let closure = if fits(model, horizon) { Closure::new(model, horizon) } else { None };
    match closure {
        Some(closure) => Engine::new(model, closure, Some(first)).run(horizon, budget),
        // Too much for the solver.
        None => Outcome::Best(first.1, lower_bound(model, score), Vec::new()),
    }
}

/// Whether there is any plan at all; `None` if the budget was used up before that was known.
pub fn possible(model: &StandardForm, budget: &mut Budget) -> Option<bool> {
    match find(model, budget) {
        Ok(_) => Some(true),
        Err(Answer::Impossible) => Some(false),
        Err(_) => None,
    }
}

/// The earliest each event can come, by arcs and opening hours together; `None` where they contradict each other.
pub fn earliest(model: &StandardForm) -> Option<Dense<Minute>> {
    closure::bounds(model, &model.network).map(|(earliest, _)| earliest)
}

/// Finds any plan.
fn find(model: &StandardForm, budget: &mut Budget) -> Result<(Score, Times), Answer> {
    // Contradictions between arcs and hours alone show in a model of any size.
    if closure::bounds(model, &model.network).is_none() {
        return Err(Answer::Impossible);
    }
    let horizon = model.horizon();
    if !fits(model, horizon) {
        return Err(Answer::OutOfSteps);
    }
    let closure = Closure::new(model, horizon).ok_or(Answer::Impossible)?;
    let mut engine = Engine::new(model, closure, None);
    let Some(span) = engine.span(horizon) else { return Err(Answer::Impossible) };
    let mut guide = engine.guide(budget);
    budget.allow(budget.left());
    loop {
        match engine.search(&mut guide, span, horizon, budget) {
            Answer::Found => return engine.best.ok_or(Answer::OutOfSteps),
            // Other times, for which there are people, may be found yet.
            Answer::Nobody if budget.left() > 0 && !budget.spent() && !engine.solver.is_inconsistent() => {}
            other => return Err(other),
        }
    }
}

/// Whether the solver can take a model on, for plans of such a span.
fn fits(model: &StandardForm, span: Minute) -> bool {
    !model.jobs.is_empty() && model.jobs.len() <= MOST_TASKS && span < LONGEST
}

struct Engine<'a> {
    model: &'a StandardForm,
    solver: Solver,
    tag: ConstraintTag,
    events: Events,
    pairs: Vec<Pairs>,
    people: People,
    apart: Apart,
    resolver: ResolutionResolver,
    best: Option<(Score, Times)>,
    given_up: Vec<&'static str>,
}

/// How one search ended.
enum Answer {
    Found,
    Impossible,
    OutOfSteps,
    /// Times were found for which there are not the people; they are not found again.
    Nobody,
    /// Times were found at which somebody is needed who could not turn away; they are not found again.
    Caught,
}

/// What becomes of a measure that is worked on.
#[derive(Debug, Clone, Copy)]
struct Aim {
    /// By this name it is given up when it no longer gets better.
    given_up_as: Option<&'static str>,
    /// Whether it stays as small as it was made.
    kept: bool,
}

impl Aim {
    fn of(name: &'static str) -> Aim {
        Aim { given_up_as: Some(name), kept: true }
    }
}

impl<'a> Engine<'a> {
    fn new(model: &'a StandardForm, closure: Closure, first: Option<(Score, Times)>) -> Engine<'a> {
        let options = SolverOptions { memory_preallocated: 1, ..SolverOptions::default() };
        let mut solver = Solver::with_options(options);
        let tag = solver.new_constraint_tag();
        let mut events = Events::new(model, closure, &mut solver, tag);
        rules::hours(model, &events, &mut solver, tag);
        let people = People::new(model, &mut events, &mut solver, tag);
        let pairs = rules::equipment(model, &mut events, &mut solver, tag);
        Engine {
            model,
            solver,
            tag,
            events,
            pairs,
            people,
            apart: Apart::default(),
            resolver: ResolutionResolver::new(AnalysisMode::OneUIP, true, false),
            best: first,
            given_up: Vec::new(),
        }
    }

    /// The goal of an early end; `None` if the solver found a contradiction while it was told of the model.
    fn span(&mut self, horizon: Minute) -> Option<Goal> {
        if self.solver.is_inconsistent() {
            return None;
        }
        let variable = goals::span(self.model, &self.events, &mut self.solver, self.tag, horizon);
        Some(Goal { variable, fixed: 0 })
    }

    fn run(&mut self, horizon: Minute, budget: &mut Budget) -> Outcome {
        let mut least = self.best.as_ref().map_or(Score::default(), |(score, _)| lower_bound(self.model, *score));
        if let Some(span) = self.span(horizon) {
            self.goals(span, &mut least, budget);
        }
        match self.best.take() {
            Some((_, times)) => Outcome::Best(times, least, std::mem::take(&mut self.given_up)),
            None => Outcome::Unknown,
        }
    }

    /// Makes the three measures small one after the other, and notes the least that each can be.
    fn goals(&mut self, span: Goal, least: &mut Score, budget: &mut Budget) {
        budget.allow(budget.left() / 2);
        let others = self.first_measure(span, least, budget);
        // A solver that contradicts itself takes no more variables. It never should: the best plan keeps every goal.
        if self.solver.is_inconsistent() {
            return;
        }
        // What comes next is about plans in which nobody is caught, but where they are in the best; that says something of all only where
        // no other is as good.
        let best = self.best.as_ref();
        let mut here = best.map(|(_, times)| caught::caught(self.model, times)).unwrap_or_default();
        here.retain(|one| one.weight > 0);
        let are_worse =
            here.is_empty() && others.is_none_or(|others| best.is_some_and(|(score, _)| score.weighed < others));
        if others.is_some() {
            self.apart.ask_but_for(&here);
        }
        // Each measure has its share, so that the one that no longer ends leaves something for the next.
        budget.allow(budget.left() * 2 / 3);
        let again = heated::again(self.model, &mut self.events, &self.pairs, &mut self.solver, self.tag);
        let standing = goals::standing(self.model, &self.events, &mut self.solver, self.tag, again);
        if let Some(standing) = standing {
            goals::flow_bound(self.model, &self.events, &mut self.solver, self.tag, standing);
            let found = self.minimise(standing, |score| score.standing, Aim::of("standing"), budget);
            if are_worse || !self.apart.is_told() {
                least.standing = found;
            }
        }
        if self.solver.is_inconsistent() {
            return;
        }
        budget.allow(budget.left());
        let spells = goals::spells(self.model, &mut self.events, &mut self.solver, self.tag);
        if let Some(standing) = standing {
            goals::flow_bound(self.model, &self.events, &mut self.solver, self.tag, standing);
        }
        let found = self.minimise(spells, |score| score.spells, Aim::of("spells"), budget);
        if are_worse || !self.apart.is_told() {
            least.spells = least.spells.max(found);
        }
    }

    /// The span, and what weighs against it. Mostly the plan with the shortest span is the best one, which is soon proven of the
    /// span alone; else both are weighed. Gives the least that a plan weighs in which somebody would have to be in two places, if there could
    /// be one.
    fn first_measure(&mut self, span: Goal, least: &mut Score, budget: &mut Budget) -> Option<i64> {
        let until = budget.until();
        let is_weighed = self.best.as_ref().is_some_and(|(score, _)| score.weighed > score.span * SPAN_WEIGHS);
        if is_weighed {
            budget.allow(until.saturating_sub(budget.taken) / 2);
        }
        let aim = Aim { given_up_as: None, kept: !self.model.weighs() };
        least.span = least.span.max(self.minimise(span, |score| score.span, aim, budget));
        least.weighed = least.weighed.max(least.span * SPAN_WEIGHS);
        if aim.kept || self.solver.is_inconsistent() {
            return None;
        }
        let tag = self.tag;
        let weights: BTreeSet<i64> = self.model.caught_weights().collect();
        let mut others = weights.first().map(|weight| least.span * SPAN_WEIGHS + weight);
        let terms = goals::long(self.model, &self.events, &mut self.solver, tag);
        if let Some(weighed) = goals::weighed(&mut self.solver, tag, span, terms) {
            budget.allow(until.saturating_sub(budget.taken));
            let aim = Aim { given_up_as: None, kept: true };
            // Of plans in which nobody is caught.
            self.apart.ask(others.map(|_| 0));
            let found = self.minimise(weighed, |score| score.weighed, aim, budget);
            let reached = self.best.as_ref().map_or(found, |(score, _)| score.weighed);
            others = weights.iter().map(|weight| self.least_caught(weighed, (*weight, reached), least, budget)).min();
            least.weighed = least.weighed.max(others.map_or(found, |others| found.min(others)));
        }
        others
    }

    /// The least that a plan weighs in which somebody is caught where it weighs so much, and nowhere where it weighs more; what is more than the
    /// best weighs is not told apart.
    fn least_caught(&mut self, goal: Goal, (weight, reached): (i64, i64), least: &Score, budget: &mut Budget) -> i64 {
        let known = least.span * SPAN_WEIGHS + weight;
        if known > reached || self.solver.is_inconsistent() {
            return known;
        }
        self.apart.ask(Some(weight));
        let mut guide = self.guide(budget);
        budget.allow(PROBE.min(budget.left()));
        let answer = self.search(&mut guide, goal, reached - weight, budget);
        budget.allow(budget.left());
        if matches!(answer, Answer::Impossible) { reached + 1 } else { known }
    }

    /// Makes one measure as small as it can be and gives the least that it can be. Where the budget does not suffice, that is
    /// less than what was reached.
    fn minimise(&mut self, goal: Goal, measure: fn(&Score) -> i64, aim: Aim, budget: &mut Budget) -> i64 {
        let mut least = i64::from(self.solver.lower_bound(&goal.variable)) + goal.fixed;
        let Some(mut reached) = self.best.as_ref().map(|(score, _)| measure(score)) else { return least };
        let stop_at = budget.until();
        let mut guide = self.guide(budget);
        // Finding the known plan again shows the search where to stay close to.
        self.search(&mut guide, goal, reached, budget);
        // From below and from above by turns, with longer strides while they lead somewhere.
        let (mut probe, mut stride) = (PROBE, 1);
        let mut from_below = true;
        let begun = budget.taken;
        let mut progress = begun;
        let mut open = reached - least;
        while least < reached && budget.taken < stop_at && !budget.spent() {
            let patience = self.patience().max(progress - begun);
            let stop_at =
                if aim.given_up_as.is_some() { stop_at.min(progress.saturating_add(patience)) } else { stop_at };
            if budget.taken >= stop_at {
                self.given_up.extend(aim.given_up_as);
                break;
            }
            let stride_now = stride.min(1 + (reached - least) / 2);
            let target = if from_below { (least + stride_now - 1).min(reached - 1) } else { reached - stride_now };
            budget.allow(probe.min(stop_at.saturating_sub(budget.taken)));
            match self.search(&mut guide, goal, target, budget) {
                Answer::Found => {
                    let best = self.best.as_ref().map_or(target, |(score, _)| measure(score));
                    if best > target {
                        // Such a plan there is, but a measure that comes first makes it worse.
                        break;
                    }
                    reached = best;
                    stride = if from_below { 1 } else { stride * 2 };
                }
                Answer::Impossible => {
                    least = target + 1;
                    stride = if from_below { stride * 2 } else { 1 };
                }
                Answer::OutOfSteps | Answer::Nobody | Answer::Caught if stride > 1 => stride = 1,
                Answer::OutOfSteps | Answer::Nobody | Answer::Caught => {
                    if !from_below {
                        probe = probe.saturating_mul(2);
                    }
                    from_below = !from_below;
                }
            }
            if (reached - least).saturating_mul(WORTH) <= open.saturating_mul(WORTH - 1) {
                (progress, open) = (budget.taken, reached - least);
            }
        }
        let least = least.min(reached);
        if aim.kept {
            let kept = small(reached - goal.fixed);
            let variable = goal.variable;
            self.solver.add_clause([predicate!(variable <= kept)], self.tag);
        }
        budget.allow(budget.left());
        least
    }

    fn search(&mut self, guide: &mut Guide, goal: Goal, target: i64, budget: &mut Budget) -> Answer {
        loop {
            match self.search_once(guide, goal, target, budget) {
                Answer::Caught if !budget.spent() && !self.solver.is_inconsistent() => {}
                Answer::Caught => return Answer::OutOfSteps,
                other => return other,
            }
        }
    }

    fn search_once(&mut self, guide: &mut Guide, goal: Goal, target: i64, budget: &mut Budget) -> Answer {
        let most = small(target - goal.fixed);
        let variable = goal.variable;
        let mut assume = vec![predicate!(variable <= most)];
        assume.extend(self.apart.assumed());
        let (times, people) = match self.solver.satisfy_under_assumptions(guide, budget, &mut self.resolver, &assume) {
            SatisfactionResultUnderAssumptions::Satisfiable(found) => {
                let solution = found.solution();
                let times = read(self.model, &self.events, &self.pairs, &solution);
                let people = self.people.at_work(self.model, &times, &solution);
                (times, people)
            }
            SatisfactionResultUnderAssumptions::UnsatisfiableUnderAssumptions(_)
            | SatisfactionResultUnderAssumptions::Unsatisfiable(_) => return Answer::Impossible,
            SatisfactionResultUnderAssumptions::Unknown(_) => return Answer::OutOfSteps,
        };
        let Some(people) = people else {
            // Enough people, but none who could do this: not these times, then.
            let never = self.people.never(self.model, &self.events, &times);
            self.solver.add_clause(never, self.tag);
            return Answer::Nobody;
        };
        let times = Times { people, ..times };
        let score = Score::of(self.model, &times);
        let refused = self.apart.refused(caught::caught(self.model, &times));
        for one in &refused {
            self.apart.never(self.model, (&mut self.events, &mut self.solver), self.tag, one, &times);
        }
        if !refused.is_empty() {
            return Answer::Caught;
        }
        if self.best.as_ref().is_none_or(|(best, _)| score <= *best) {
            self.best = Some((score, times));
        }
        Answer::Found
    }

    fn patience(&self) -> u64 {
        if self.model.jobs.len() < MANY_TASKS { PATIENCE } else { PATIENCE_OF_MANY }
    }

    fn guide(&self, budget: &Budget) -> Guide {
        let free = self.events.free();
        let variables: Vec<DomainId> = free.iter().map(|(_, variable)| *variable).collect();
        let known = self.best.as_ref().map(|(_, times)| {
            let events = score::events(times);
            free.iter().map(|(event, variable)| (*variable, small(events[*event]))).collect()
        });
        let variables = variables.into_iter().chain(self.people.rests()).collect();
        Guide::new(variables, known.unwrap_or_default(), budget.decided())
    }
}

fn read(model: &StandardForm, events: &Events, pairs: &[Pairs], solution: &impl ProblemSolution) -> Times {
    let value = |event: usize| Minute::from(solution.get_integer_value(events.view(event)));
    let tasks = 0..model.jobs.len();
    let mut units = Dense::filled(model.jobs.len(), 0);
    for (task, unit) in pairs.iter().flat_map(|pairs| pairs.units(solution)) {
        units[task] = unit;
    }
    Times {
        starts: tasks.clone().map(|task| value(start(task))).collect(),
        ends: tasks.map(|task| value(end(task))).collect(),
        units,
        people: Dense::filled(model.jobs.len(), Vec::new()),
    }
}
