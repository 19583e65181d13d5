//! From a problem to the best plan.
//!
//! [`plan`] takes a [`Problem`] through these stages: [`fault`](super::fault) refuses what no plan can meet;
//! [`standard_form`](super::standard_form) puts it into the one form that the rest works on; [`first`] builds a good plan at once;
//! [`engine`] improves it until it is proven best or the [`Limit`] is reached; [`close_up`](super::close_up) closes up what then stands about
//! for nothing and [`put_off`](super::put_off) puts off what was lit too soon; [`settle`] and [`assign`] decide what no measure sees.

use super::bounds::lower_bound;
use super::close_up::{at_their_moments, close_up};
use super::dense::Dense;
use super::engine::{self, Outcome};
use super::fault::Fault;
use super::limit::{Budget, Limit};
use super::lit_once::lit_once;
pub use super::network::Cause;
use super::problem::{Minute, Problem, SPAN_WEIGHS};
use super::put_off::put_off;
use super::score::Score;
use super::standard_form::{StandardForm, Times};
use super::until_wanted::until_wanted;
use super::{assign, first, settle};

/// Up to so many tasks a plan that is made at once is closed up too.
const FEW_TASKS: usize = 60;

/// What the measures are called: the span, the standing, the spells.
const MEASURE_NAMES: [&str; 3] = ["span", "standing", "spells"];

/// When everything happens.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Plan {
    /// When each task starts.
    pub starts: Vec<Minute>,
    /// When each task ends.
    pub ends: Vec<Minute>,
    /// When each task is taken out of its equipment: when it ends, and what is handed over straight out of it no sooner than it is wanted,
    /// where nothing else needs the room.
    pub taken_out: Vec<Minute>,
    /// Which unit of its equipment each task holds, counted from 1.
    pub units: Vec<Option<u32>>,
    /// Which cooks work at each task, counted from 1.
    pub cooks: Vec<Vec<u32>>,
    /// When cooks rest: who, counted from 1, from when to when.
    pub rests: Vec<(u32, Minute, Minute)>,
    /// How good the plan is.
    pub score: Score,
    /// The least that each measure can come to, given the measures before it as they are in this plan. Only while a measure
    /// is proven does the bound of the next say something about all plans.
    pub least: Score,
    /// The measures that were given up before the limit, because looking on brought neither a better plan nor a better bound.
    pub given_up: Vec<&'static str>,
    /// How many steps the search took.
    pub steps: u64,
    /// How much of what stands about does so only because what is lit stands empty for less.
    pub rests_on: i64,
}

impl Plan {
    /// Whether no plan is better.
    pub fn proven(&self) -> bool {
        self.measures_proven().len() == MEASURE_NAMES.len()
    }

    /// The measures of which no plan has less, given those before them as they are; a measure counts only while those
    /// before it are proven.
    pub fn measures_proven(&self) -> Vec<&'static str> {
        let (score, least) = (self.score, self.least);
        let proven = [
            self.span_proven(),
            score.weighed == least.weighed && score.standing == least.standing,
            score.spells == least.spells,
        ];
        MEASURE_NAMES.into_iter().zip(proven).take_while(|(_, proven)| *proven).map(|(name, _)| name).collect()
    }

    /// How good it is without what rests on only so that what is lit burns empty for less: as good as the search found it.
    pub fn searched(&self) -> Score {
        Score { standing: self.score.standing - self.rests_on, ..self.score }
    }

    /// Whether none lets less stand about but one in which what is lit burns empty for longer.
    pub fn is_quietest_but_for_an_oven(&self) -> bool {
        let found = self.searched();
        self.rests_on > 0 && found.weighed == self.least.weighed && found.standing == self.least.standing
    }

    /// Whether no plan has a shorter span, but for such as are worse for what weighs against it.
    pub fn span_proven(&self) -> bool {
        self.shortest() || self.score.weighed == self.least.weighed
    }

    /// Whether no plan has a shorter span, whatever weighs against it.
    pub fn shortest(&self) -> bool {
        self.score.span == self.least.span
    }

    /// By how many minutes the span could at most be shorter in a better plan.
    pub fn gap(&self) -> Minute {
        if self.shortest() {
            return 0;
        }
        ((self.score.weighed - self.least.weighed).max(0) + SPAN_WEIGHS - 1).div_euclid(SPAN_WEIGHS)
    }
}

/// Why there is no plan.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Infeasible {
    /// One task or rule by itself cannot be met.
    Faults(Vec<Fault>),
    /// Everything together cannot be met.
    Impossible,
    /// Within the limit no plan was found, nor was it shown that there is none.
    Unknown,
}

/// Finds the best plan.
///
/// # Errors
/// When there is none, or none was found within the limit.
pub fn plan(problem: &Problem, limit: &Limit) -> Result<Plan, Infeasible> {
    let faults = problem.faults();
    if !faults.is_empty() {
        return Err(Infeasible::Faults(faults));
    }
    if problem.people.is_empty() || problem.people.iter().any(|person| !person.shifts.is_empty()) {
        return search(problem, limit);
    }
    // Of people without shifts mostly only the number counts: what is best for their number is best for them, if they can
    // share it out so that nobody has too long a day.
    let number = search(&by_number(problem), limit)?;
    if let Some(plan) = shared_out(problem, &number) {
        return Ok(no_worse(problem, plan));
    }
    let model = StandardForm::new(problem);
    let found = first::plan(problem, &model, limit.steps, limit.stop_without_plan);
    let bounds = |score: Score| {
        let least = Score { standing: 0, spells: number.least.spells.min(1), ..number.least };
        if score.weighed == least.weighed { least } else { Score { spells: least.spells.min(1), ..least } }
    };
    let found = found.map(|(_, mut times)| {
        polish(problem, &model, false, &mut times);
        let score = Score::of(&model, &times);
        finish(problem, &model, times, bounds(score), number.steps)
    });
    // Nothing better is looked for, however long the limit.
    let given_up =
        |plan: &Plan| MEASURE_NAMES.into_iter().filter(|name| !plan.measures_proven().contains(name)).collect();
    // What was found at once for their number may be shared out where the best for it cannot, and be better than what is found here.
    let shared = quickly(&by_number(problem)).ok().and_then(|plan| shared_out(problem, &plan));
    let shared = shared.map(|plan| Plan { least: bounds(plan.score), steps: number.steps, ..plan });
    let best = found.into_iter().chain(shared).min_by_key(|plan| plan.score).ok_or(Infeasible::Unknown)?;
    Ok(no_worse(problem, Plan { given_up: given_up(&best), ..best }))
}

/// The same, with people of whom only the number counts.
fn by_number(problem: &Problem) -> Problem {
    Problem { people: Vec::new(), ..problem.clone() }
}

/// A plan in which only the number of people counted, shared out between them; `None` if that was not found.
fn shared_out(problem: &Problem, plan: &Plan) -> Option<Plan> {
    let (starts, ends) = (&plan.starts, &plan.ends);
    assign::can(problem, starts, ends).then(|| {
        let cooks = assign::cooks(problem, starts, ends, &Dense::default());
        let rests = assign::rests(problem, (starts, ends), &plan.units, &cooks);
        Plan { cooks, rests, ..plan.clone() }
    })
}

fn search(problem: &Problem, limit: &Limit) -> Result<Plan, Infeasible> {
    let model = StandardForm::new(problem);
    let first = first::plan(problem, &model, limit.steps, limit.stop_without_plan);
    let mut budget = if first.is_some() { Budget::new(limit) } else { Budget::without_plan(limit) };
    match engine::improve(&model, first, &mut budget) {
        Outcome::Best(mut times, least, given_up) => {
            let rests_on = polish(problem, &model, true, &mut times);
            let plan = finish(problem, &model, times, least, budget.taken);
            Ok(no_worse(problem, Plan { given_up, rests_on, ..plan }))
        }
        Outcome::Nothing => Err(Infeasible::Impossible),
        Outcome::Unknown => Err(Infeasible::Unknown),
    }
}

/// Any plan, good or not, for what tries one thing after the other: the one that is found at once, or else the first of a search.
///
/// # Errors
/// When there is none, or none was found within the limit.
pub fn any_plan(problem: &Problem, limit: &Limit) -> Result<Plan, Infeasible> {
    if let Ok(found) = quickly(problem) {
        return Ok(found);
    }
    let has_shifts = problem.people.iter().any(|person| !person.shifts.is_empty());
    if !problem.faults().is_empty() || !problem.people.is_empty() && !has_shifts {
        return plan(problem, limit);
    }
    let model = StandardForm::new(problem);
    let mut budget = Budget::without_plan(limit);
    match engine::improve(&model, None, &mut budget) {
        Outcome::Best(times, least, _) => Ok(finish(problem, &model, times, least, budget.taken)),
        Outcome::Nothing => Err(Infeasible::Impossible),
        Outcome::Unknown => Err(Infeasible::Unknown),
    }
}

/// The plan, or the one that is found at once where that is better: closing up may do more for a plan that was looked at less.
fn no_worse(problem: &Problem, plan: Plan) -> Plan {
    if plan.proven() {
        return plan;
    }
    let score = plan.searched();
    let Some(other) = quickly(problem).ok().filter(|other| other.score < score) else { return plan };
    // The bounds of the later measures hold while those before them are as they were.
    let is_alike = other.score.weighed == plan.score.weighed;
    let least =
        if is_alike { plan.least } else { Score { standing: 0, spells: plan.least.spells.min(1), ..plan.least } };
    Plan { least, given_up: plan.given_up, steps: plan.steps, ..other }
}

/// Whether a problem can be planned at all, without looking for a good plan; `None` if that did not come out within the
/// limit. What answers this is much quicker than [`plan`], which is why explanations ask it of one problem after another.
pub fn possible(problem: &Problem, limit: &Limit) -> Option<bool> {
    possible_shaken(problem, 0, limit)
}

/// The same where so many more orders are tried before the search, which is longer on its way to a plan than they are.
pub fn possible_shaken(problem: &Problem, shaken: usize, limit: &Limit) -> Option<bool> {
    // What times and hours alone rule out needs no building.
    if is_ruled_out(problem) {
        return Some(false);
    }
    // Of people without shifts mostly only the number counts, as in a plan.
    let is_by_number = !problem.people.is_empty() && problem.people.iter().all(|person| person.shifts.is_empty());
    if is_by_number && !(limit.stop)() && quickly(problem).is_ok() {
        return Some(true);
    }
    let model = StandardForm::new(problem);
    if first::any(&model, shaken, limit.stop) {
        return Some(true);
    }
    engine::possible(&model, &mut Budget::new(limit))
}

/// Whether one task by itself, or the times between tasks and the opening hours, rule out every plan: found at once, without a search.
pub fn is_ruled_out(problem: &Problem) -> bool {
    !problem.faults().is_empty() || engine::earliest(&StandardForm::new(problem)).is_none()
}

/// Times that contradict each other by themselves, whatever there is to work with: a cycle of causes each of which asks for
/// more time than the next leaves, and by how many minutes it fails to close. `None` if there is no such cycle.
pub fn contradiction(problem: &Problem) -> Option<(Vec<Cause>, Minute)> {
    if !problem.faults().is_empty() {
        return None;
    }
    let cycle = StandardForm::new(problem).earliest().err()?;
    let mut causes: Vec<Cause> = cycle.arcs.iter().map(|arc| arc.cause).collect();
    causes.dedup();
    Some((causes, cycle.excess()))
}

/// Closes up what stands about for nothing, and puts off what is lit or made too soon. What a search found it may leave to rest on in the cold
/// for longer, so that nothing burns empty; what it leaves so.
fn polish(problem: &Problem, model: &StandardForm, is_searched: bool, times: &mut Times) -> i64 {
    close_up(problem, model, times);
    let before = Score::of(model, times);
    put_off(problem, model, is_searched, times);
    (Score::of(model, times).standing - before.standing).max(0)
}

fn finish(problem: &Problem, model: &StandardForm, mut times: Times, least: Score, steps: u64) -> Plan {
    settle::settle(model, &mut times);
    at_their_moments(problem, model, &mut times);
    lit_once(model, &mut times);
    let score = Score::of(model, &times);
    let out = |minutes: &[Minute]| minutes.iter().map(|minute| model.outward(*minute)).collect::<Vec<Minute>>();
    let (one, other) = (out(times.starts.as_slice()), out(times.ends.as_slice()));
    let (starts, ends) = if model.mirrored { (other, one) } else { (one, other) };
    let taken_out = until_wanted(problem, (&starts, &ends), times.units.as_slice());
    let units = assign::units(problem, &starts, &taken_out, times.units.as_slice());
    let cooks = assign::cooks(problem, &starts, &ends, &times.people);
    let rests = assign::rests(problem, (&starts, &ends), &units, &cooks);
    Plan { starts, ends, taken_out, units, cooks, rests, score, least, given_up: Vec::new(), steps, rests_on: 0 }
}

/// A plan found at once, without proof: for what is printed at once.
///
/// # Errors
/// When there is none, or none was found.
pub fn quickly(problem: &Problem) -> Result<Plan, Infeasible> {
    let faults = problem.faults();
    if !faults.is_empty() {
        return Err(Infeasible::Faults(faults));
    }
    if !problem.people.is_empty()
        && let Ok(number) = quickly(&by_number(problem))
        && problem.people.iter().all(|person| person.shifts.is_empty())
        && let Some(plan) = shared_out(problem, &number)
    {
        return Ok(plan);
    }
    let model = StandardForm::new(problem);
    let (score, mut times) = first::for_card(problem, &model).ok_or(Infeasible::Unknown)?;
    // What is wanted at a time was built from that time back; what it left standing before it is closed up.
    if !problem.dues.is_empty() && problem.tasks.len() <= FEW_TASKS {
        polish(problem, &model, false, &mut times);
    }
    Ok(finish(problem, &model, times, lower_bound(&model, score), 0))
}
