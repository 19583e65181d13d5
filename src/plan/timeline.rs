//! When each step starts and ends, counted from the first.

use crate::make::order::Order;
use crate::make::work::Work;
use crate::measure::number::Overflow;
use crate::measure::show::Units;
use crate::model::recipe::Recipe;
use crate::model::step::{StepKind, StepRef};
use crate::plan::ask::{self, Hours};
use crate::plan::explain::{self, Case};
use crate::plan::kept::{self, Kept};
use crate::plan::limit::Limit;
use crate::plan::problem::{Minute, Problem, Rule, Window};
use crate::plan::solve::{self, Infeasible, Plan};
use crate::plan::tasks::{self, Task, Tasks};
use crate::solve::formula::Formula;
use std::cell::Cell;
use std::collections::HashMap;

/// Minutes of a day.
const DAY: Minute = 24 * 60;

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

impl Timeline {
    /// The same for who reads these units.
    pub fn in_units(mut self, units: Units) -> Timeline {
        self.kept.iter_mut().for_each(|kept| kept.units = units);
        self
    }
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
    Ok(solved.as_ref().map_or_else(|| unplanned(&tasks), |solved| told(recipe, &work, &tasks, solved)))
}

/// The timeline of a batch of which there is none in its recipe's kitchen, for who reads it at home: what has risen stands until the oven is
/// free. Without rows where there is none then either.
///
/// # Errors
/// When a number leaves the range of exact numbers.
pub fn with_waiting(recipe: &Recipe, formula: &Formula) -> Result<Timeline, Overflow> {
    let work = Work::of(vec![Order::of(recipe.clone(), formula.clone())])?;
    let tasks = tasks::of(&work, &recipe.kitchen)?;
    let mut problem = ask::problem(&tasks, &recipe.kitchen, &Hours::default());
    for lag in &mut problem.lags {
        if matches!(lag.rule, Rule::Alive | Rule::FirstPiece | Rule::UpTo) {
            lag.most = None;
        }
    }
    let solved = solve::quickly(&problem).ok();
    Ok(solved.as_ref().map_or_else(|| unplanned(&tasks), |solved| told(recipe, &work, &tasks, solved)))
}

/// What is known of a batch of which there is no plan: not when, and still how long somebody works on it.
fn unplanned(tasks: &Tasks) -> Timeline {
    let (hands_minutes, tend_minutes) = worked(tasks);
    Timeline { hands_minutes, tend_minutes, ..Timeline::default() }
}

/// Minutes of work, people counted one by one, and minutes in which somebody stays in reach.
fn worked(tasks: &Tasks) -> (i64, i64) {
    let of = |kind: StepKind| tasks.list.iter().filter(move |task| task.kind == kind);
    (of(StepKind::Hands).map(hands).sum(), of(StepKind::Tend).map(|task| task.minutes).sum())
}

/// Minutes of work in one task: two pairs of hands at once are twice as many.
fn hands(task: &Task) -> i64 {
    if task.kind == StepKind::Hands { task.minutes * i64::from(task.people.max(1)) } else { 0 }
}

/// When somebody at home is up and about, in minutes of the day: nobody works outside of that. Common practice, no source.
const AWAKE: (Minute, Minute) = (7 * 60, 22 * 60);

/// Who serves something early gets up so much sooner, in minutes. Common practice, no source.
const UP_BEFORE: Minute = 2 * 60;

/// Nothing is begun at home more days than this before it is served.
const DAYS_BEFORE: Minute = 20;

/// Steps of search for times that leave the nights alone.
const STEPS_OF_NIGHTS: u64 = 20_000;

/// Who has to get up for the last of it does so by so many minutes sooner, the least first.
const SOONER: [Minute; 4] = [0, 60, 120, 180];

/// When somebody is up, on the day on which something is served by so much sooner than usual, for what is served at a minute of that day;
/// counted from the midnight before that.
fn awake(serve: Minute, sooner: Minute) -> Vec<Window> {
    let (up, to_bed) = AWAKE;
    let day = |back: Minute| Window { opens: up - back * DAY, closes: to_bed - back * DAY };
    let served = Window { opens: up.min(serve - UP_BEFORE) - sooner, closes: to_bed.max(serve) };
    (1..=DAYS_BEFORE).rev().map(day).chain([served]).collect()
}

/// The work of a timeline that ends when something is served for which somebody has to be up in the night, and its minutes, counted from
/// the midnight before that.
pub fn in_the_night(timeline: &Timeline, serve: Minute) -> Vec<(&TimelineRow, Minute)> {
    let first = serve - timeline.span_minutes;
    let at_night =
        |row: &&TimelineRow| row.kind != StepKind::Wait && is_asleep(first + row.start, first + row.end, serve);
    timeline.rows.iter().filter(at_night).map(|row| (row, first + row.start)).collect()
}

/// Whether somebody who serves at a minute of a day sleeps for some of the time between two others, counted from the midnight before it.
pub fn is_asleep(from: Minute, to: Minute, serve: Minute) -> bool {
    !awake(serve, 0).iter().any(|window| window.opens <= from && to <= window.closes)
}

/// The timeline of a batch that is served at a minute of a day by somebody at home, who sleeps at night: its rests go on for
/// as long as they may, and the span lasts until it is served. `None` where no rest of it can go on so, or where it would be ready on the
/// day before and does not keep.
///
/// # Errors
/// When a number leaves the range of exact numbers.
pub fn served(recipe: &Recipe, formula: &Formula, serve: Minute) -> Result<Option<Timeline>, Overflow> {
    let work = Work::of(vec![Order::of(recipe.clone(), formula.clone())])?;
    let tasks = tasks::of(&work, &recipe.kitchen)?;
    for sooner in SOONER {
        let hours = Hours { open: awake(serve, sooner), dues: vec![Some(serve)], ..Hours::default() };
        if let Some(mut solved) = served_in(&tasks, &ask::problem(&tasks, &recipe.kitchen, &hours), sooner == 0) {
            let first = solved.starts.iter().take(tasks.list.len()).copied().min().unwrap_or(serve);
            for minute in solved.starts.iter_mut().chain(&mut solved.ends) {
                *minute -= first;
            }
            return Ok(Some(Timeline { span_minutes: serve - first, ..told(recipe, &work, &tasks, &solved) }));
        }
    }
    Ok(None)
}

/// A plan of what is served; `None` where there is none, or what does not keep would be ready on the day before.
fn served_in(tasks: &Tasks, problem: &Problem, searches: bool) -> Option<Plan> {
    let searched = || searches.then(|| solve::plan(problem, &Limit::steps(STEPS_OF_NIGHTS)).ok()).flatten();
    let solved = solve::quickly(problem).ok().or_else(searched)?;
    let ready = tasks.finals.iter().flatten().filter_map(|last| solved.ends.get(*last)).max();
    let is_stale = ready.is_some_and(|ready| *ready < 0) && tasks.keeps.first().is_none_or(Option::is_none);
    (!is_stale).then_some(solved)
}

/// What a plan that counts from zero says of each step.
fn told(recipe: &Recipe, work: &Work, tasks: &Tasks, solved: &Plan) -> Timeline {
    let mut rows: Vec<TimelineRow> = Vec::new();
    let mut places: HashMap<StepRef, usize> = HashMap::new();
    for (task, (start, end)) in tasks.list.iter().zip(solved.starts.iter().zip(&solved.ends)) {
        let hands = hands(task);
        let step = recipe.part(task.step.part).and_then(|part| part.steps.get(task.step.step));
        // What is done at several moments of a rest is told at each of them.
        let has_moments = step.is_some_and(|step| !step.moments.is_empty());
        let place = places.get(&task.step).filter(|_| !has_moments);
        match place.and_then(|place| rows.get_mut(*place)) {
            Some(row) => {
                row.hands += hands;
                row.start = row.start.min(*start);
                row.end = row.end.max(*end);
            }
            None => {
                let part = recipe.part(task.step.part);
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
                    loads: if has_moments { 1 } else { task.loads },
                    hands,
                };
                places.insert(task.step, rows.len());
                rows.push(row);
            }
        }
    }
    rows.sort_by_key(|row| row.start);
    let times: Vec<(i64, i64)> = solved.starts.iter().copied().zip(solved.ends.iter().copied()).collect();
    let (hands_minutes, tend_minutes) = worked(tasks);
    Timeline {
        span_minutes: rows.iter().map(|row| row.end).max().unwrap_or(0),
        hands_minutes,
        tend_minutes,
        kept: kept::of(work, tasks, &times, Units::Metric),
        rows,
    }
}

/// With more tasks than this nobody who prints a card waits until it is known what stands in the way, or what would help.
const MOST_TASKS: usize = 300;
/// What a card says then.
const NOT_FOUND: &str = "no times were found at once for a batch of this size; `miche plan` looks longer.";
/// Steps of search that it may cost to know that there is no plan.
const MOST_STEPS: u64 = 60_000;
/// How often the search for what stands in the way asks whether to go on, at most: the same on every machine.
const MOST_ASKED: u32 = 5_000;

/// Why no times can keep what the recipe says of them, whatever ovens and hands there are; nothing where only those are too few.
///
/// # Errors
/// When a number leaves the range of exact numbers.
pub fn why_never(recipe: &Recipe, formula: &Formula) -> Result<Option<String>, Overflow> {
    let work = Work::of(vec![Order::of(recipe.clone(), formula.clone())])?;
    let tasks = tasks::of(&work, &recipe.kitchen)?;
    if tasks.list.is_empty() || tasks.list.len() > MOST_TASKS {
        return Ok(None);
    }
    let problem = ask::problem(&tasks, &recipe.kitchen, &Hours::default());
    if problem.faults().is_empty() { Ok(None) } else { why_none(recipe, formula).map(Some) }
}

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
    let (work, tasks, hours, problem) = (&work, &tasks, &hours, &problem);
    let case =
        Case { work, tasks, kitchen, hours, problem, clock: None, rest: None, stop: &stop, fresh: true, hot: true };
    let mut problems = explain::missing_equipment(work, tasks, kitchen, |_| true);
    let faults = problem.faults();
    if problems.is_empty() && !faults.is_empty() {
        problems = case.explain(&Infeasible::Faults(faults));
    } else if problems.is_empty() {
        let limit = Limit { stop: &stop, ..Limit::steps(MOST_STEPS) };
        if solve::possible(problem, &limit) == Some(false) {
            problems = case.explain(&Infeasible::Impossible);
        }
    }
    let said = problems.first().map(|problem| match &problem.help {
        Some(help) => format!("{}. What would help: {help}.", problem.message),
        None => format!("{}.", problem.message),
    });
    Ok(said.unwrap_or_else(|| NOT_FOUND.to_owned()))
}
