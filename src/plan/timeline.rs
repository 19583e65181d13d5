//! When each step starts and ends, counted from the first.

use crate::make::order::Order;
use crate::make::work::Work;
use crate::measure::number::Overflow;
use crate::model::recipe::Recipe;
use crate::model::step::{StepKind, StepRef};
use crate::plan::ask::{self, Hours};
use crate::plan::explain::{self, Case};
use crate::plan::kept::{self, Kept};
use crate::plan::limit::Limit;
use crate::plan::problem::Problem;
use crate::plan::solve::{self, Infeasible, Plan};
use crate::plan::tasks;
use crate::solve::formula::Formula;
use std::cell::Cell;
use std::collections::HashMap;

/// When each step starts and ends, counted from the first, with the kitchen's equipment and cooks.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Timeline {
    /// One row a step, by its start.
    pub rows: Vec<TimelineRow>,
    /// Minutes from the first start to the last end.
    pub span_minutes: i64,
    /// Minutes in which somebody works, people counted one by one.
    pub hands_minutes: i64,
    /// Minutes in which something runs that somebody stays in reach of.
    pub tend_minutes: i64,
    /// The parts that may be made ahead.
    pub kept: Vec<Kept>,
}

/// One step on the timeline: from the start of its first load to the end of its last.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct TimelineRow {
    /// Which step of which part.
    pub at: StepRef,
    /// The part.
    pub part: String,
    /// The step.
    pub step: String,
    /// Its place among the steps of its part, from 1.
    pub number: usize,
    /// Who is busy.
    pub kind: StepKind,
    /// Minutes from the first step to the start.
    pub start: i64,
    /// Minutes from the first step to the end.
    pub end: i64,
    /// What it holds.
    pub equipment: Option<String>,
    /// How many loads.
    pub loads: i64,
    /// Minutes in which somebody works on it, people counted one by one.
    pub hands: i64,
}

/// The timeline of a batch in its recipe's kitchen, everything as early as equipment and cooks allow. It is the
/// planner's first plan: a card is printed at once and does not wait for proof.
///
/// # Errors
/// When a number leaves the range of exact numbers.
pub fn of(recipe: &Recipe, formula: &Formula) -> Result<Timeline, Overflow> {
    of_again(recipe, formula, &mut Memory::default())
}

/// The last question to the planner and its answer. Most of what is typed changes neither.
#[derive(Debug, Default)]
pub struct Memory {
    last: Option<(Problem, Option<Plan>)>,
}

/// As [`of`], without planning again what was planned the last time.
///
/// # Errors
/// When a number leaves the range of exact numbers.
pub fn of_again(recipe: &Recipe, formula: &Formula, memory: &mut Memory) -> Result<Timeline, Overflow> {
    let work = Work::of(vec![Order::of(recipe.clone(), formula.clone())])?;
    let tasks = tasks::of(&work, &recipe.kitchen)?;
    let problem = ask::problem(&tasks, &recipe.kitchen, &Hours::default());
    // Steps that no plan can hold are reported by the checks; a card without times is then still of use.
    let (_, solved) = match memory.last.take().filter(|(asked, _)| *asked == problem) {
        Some(known) => memory.last.insert(known),
        None => {
            let solved = solve::quickly(&problem).ok();
            memory.last.insert((problem, solved))
        }
    };
    let Some(solved) = solved else { return Ok(Timeline::default()) };
    let mut rows: Vec<TimelineRow> = Vec::new();
    let mut places: HashMap<StepRef, usize> = HashMap::new();
    for (task, (start, end)) in tasks.list.iter().zip(solved.starts.iter().zip(&solved.ends)) {
        let hands = if task.kind == StepKind::Hands { task.minutes * i64::from(task.people.max(1)) } else { 0 };
        match places.get(&task.step).and_then(|place| rows.get_mut(*place)) {
            Some(row) => {
                row.hands += hands;
                row.start = row.start.min(*start);
                row.end = row.end.max(*end);
            }
            None => {
                let part = recipe.part(task.step.part);
                let step = part.and_then(|part| part.steps.get(task.step.step));
                let name =
                    |name: Option<&crate::language::syntax::Name>| name.map(ToString::to_string).unwrap_or_default();
                let row = TimelineRow {
                    at: task.step,
                    part: name(part.map(|part| &part.name)),
                    step: name(step.map(|step| &step.name)),
                    number: task.step.step + 1,
                    kind: task.kind,
                    start: *start,
                    end: *end,
                    equipment: task.equipment.as_ref().map(ToString::to_string),
                    loads: task.loads,
                    hands,
                };
                places.insert(task.step, rows.len());
                rows.push(row);
            }
        }
    }
    rows.sort_by_key(|row| row.start);
    let times: Vec<(i64, i64)> = solved.starts.iter().copied().zip(solved.ends.iter().copied()).collect();
    // Two pairs of hands at once are twice the minutes of work.
    let tends = tasks.list.iter().filter(|task| task.kind == StepKind::Tend);
    Ok(Timeline {
        span_minutes: rows.iter().map(|row| row.end).max().unwrap_or(0),
        hands_minutes: rows.iter().map(|row| row.hands).sum(),
        tend_minutes: tends.map(|task| task.minutes).sum(),
        kept: kept::of(&work, &tasks, &times),
        rows,
    })
}

/// With more tasks than this nobody who prints a card waits until it is known what stands in the way, or what would help.
const MOST_TASKS: usize = 300;
/// What a card says then.
const NOT_FOUND: &str = "no times were found at once for a batch of this size; `miche plan` looks longer.";
/// Steps of search that it may cost to know that there is no plan.
const MOST_STEPS: u64 = 60_000;
/// How often the search for what stands in the way asks whether to go on, at most: the same on every machine.
const MOST_ASKED: u32 = 5_000;

/// Why a batch has no timeline in its recipe's kitchen, and what would help, in sentences: the same that `plan` says.
///
/// # Errors
/// When a number leaves the range of exact numbers.
pub fn why_none(recipe: &Recipe, formula: &Formula) -> Result<String, Overflow> {
    let work = Work::of(vec![Order::of(recipe.clone(), formula.clone())])?;
    let tasks = tasks::of(&work, &recipe.kitchen)?;
    if tasks.list.is_empty() {
        return Ok(String::new());
    }
    if tasks.list.len() > MOST_TASKS {
        return Ok(NOT_FOUND.to_owned());
    }
    let hours = Hours::default();
    let problem = ask::problem(&tasks, &recipe.kitchen, &hours);
    let asked = Cell::new(0_u32);
    let stop = || {
        asked.set(asked.get().saturating_add(1));
        asked.get() > MOST_ASKED
    };
    let kitchen = &recipe.kitchen;
    let case = Case { work: &work, tasks: &tasks, kitchen, hours: &hours, problem: &problem, clock: None, stop: &stop };
    let mut problems = explain::missing_equipment(&work, &tasks, kitchen);
    let faults = problem.faults();
    if problems.is_empty() && !faults.is_empty() {
        problems = case.explain(&Infeasible::Faults(faults));
    } else if problems.is_empty() {
        let limit = Limit { stop: &stop, ..Limit::steps(MOST_STEPS) };
        if solve::possible(&problem, &limit) == Some(false) {
            problems = case.explain(&Infeasible::Impossible);
        }
    }
    let said = problems.first().map(|problem| match &problem.help {
        Some(help) => format!("{}. What would help: {help}.", problem.message),
        None => format!("{}.", problem.message),
    });
    Ok(said.unwrap_or_else(|| NOT_FOUND.to_owned()))
}
