//! A plan as it is shown: who does what when, with which equipment, for what.

mod laid;
mod lights;
mod stands;

use super::clock::{Change, Clock};
use super::hot_food::HotFood;
use super::kept::{self, Kept};
use super::problem::{Minute, Window};
use super::solve::Plan;
use super::tasks::Tasks;
use super::which::Which;
use crate::make::store::{self, Remains, Taken};
use crate::make::work::Work;
use crate::measure::number::Number;
use crate::measure::show::Units;
use crate::measure::shown::Shown;
use crate::model::kitchen::Kitchen;
use crate::model::step::{StepKind, StepRef};
use laid::Laying;

/// One load of one step in a plan.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Row {
    /// The number of its task.
    pub task: usize,
    /// Which batch of the work it is for.
    pub batch: usize,
    /// Which step of that batch's recipe.
    pub at: StepRef,
    /// The recipe.
    pub recipe: String,
    /// The part.
    pub part: String,
    /// What tells it from others of that name: `for 09:00`, or the options that those do not have; mostly empty.
    pub which: String,
    /// The step.
    pub step: String,
    /// Which load, from 1.
    pub load: i64,
    /// How many loads the step has.
    pub loads: i64,
    /// Which of several times it is for, where its part is made once for them and this step for each.
    pub turn: Option<usize>,
    /// Of work that several share: which load of it this is a share of.
    pub bundle: Option<i64>,
    /// How many of those there are.
    pub bundles: i64,
    /// Who is busy.
    pub kind: StepKind,
    /// Minutes from the plan's start.
    pub start: Minute,
    /// Minutes from the plan's start.
    pub end: Minute,
    /// When it may end already, if the step's time is a range.
    pub soonest_end: Minute,
    /// When the last of a rest that may go on is taken up, where that is later than its end: in loads, the last one.
    pub last_taken: Option<Minute>,
    /// Whether what rested is put into the cold then, where it is kept until it is taken.
    pub into_cold: bool,
    /// For how many minutes what it made hot, and is eaten so, stands before the next step, or until it is wanted, where that is long.
    pub stands_hot: Option<Minute>,
    /// The equipment it holds.
    pub equipment: Option<String>,
    /// Which of them, from 1.
    pub unit: Option<u32>,
    /// How many of them there are.
    pub units: u32,
    /// People who work at it the whole time.
    pub cooks: u32,
    /// Which people, from 1.
    pub people: Vec<u32>,
    /// How hot, as printed.
    pub temperature: Option<Shown>,
    /// How many pieces are in the load, where they are counted.
    pub pieces: Option<Number>,
    /// How many of them are cooked at once, where several loads after each other are one row.
    pub at_a_time: Option<Number>,
    /// How much of all that the step works on is in the load: 1 for all of it.
    pub share: Number,
    /// The cue that ends it.
    pub cue: String,
}

/// Equipment that is lit: somebody sets it to a heat before it is needed.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Light {
    /// What is lit.
    pub equipment: String,
    /// Which of them, from 1.
    pub unit: Option<u32>,
    /// How many of them there are.
    pub units: u32,
    /// How hot it is to be.
    pub temperature: Option<Shown>,
    /// When, in minutes from the plan's start.
    pub start: Minute,
    /// When it is hot, in minutes from the plan's start.
    pub end: Minute,
    /// What is done to it.
    pub turned: Turned,
    /// The number of the task that goes in first.
    pub first: usize,
    /// Whether the next load goes in before it can be there: at home nothing waits for an oven.
    pub meanwhile: bool,
    /// Who sees to it, from 1: somebody who is there, whose hands are free if anybody's are.
    pub people: Vec<u32>,
}

/// What is done to equipment that must be hot.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Turned {
    /// It was cold, and is lit.
    On,
    /// It was hot, and is to be hotter.
    Up,
    /// It was hot, and is to be less so.
    Down,
    /// Nobody needs it for long.
    Off,
}

/// Somebody's rest in a shift.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Rest {
    /// Who, from 1.
    pub person: u32,
    /// When it begins, in minutes from the plan's start.
    pub start: Minute,
    /// When it ends, in minutes from the plan's start.
    pub end: Minute,
}

/// What a plan makes.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Made {
    /// The recipe.
    pub recipe: String,
    /// The options that other orders of it do not have; mostly empty.
    pub which: String,
    /// How much, as printed.
    pub wanted: String,
    /// When it is ready, in minutes from the plan's start.
    pub ready: Minute,
    /// When it has to be ready, in minutes from the plan's start.
    pub due: Option<Minute>,
}

/// A plan.
#[derive(Debug, Clone)]
pub struct Schedule {
    /// What it is of: the day's or the recipe's name.
    pub title: String,
    /// The kitchen; empty for the built-in one.
    pub kitchen: String,
    /// How many people work.
    pub cooks: u32,
    /// What the people are called, one after the other; empty where they have no names.
    pub names: Vec<String>,
    /// What is made.
    pub made: Vec<Made>,
    /// The loads, by their start.
    pub rows: Vec<Row>,
    /// What is lit when, by its start.
    pub lights: Vec<Light>,
    /// What is hot and goes into what keeps it hot, or into the cold, by its tasks.
    pub hot_food: Vec<HotFood>,
    /// Who rests when, by its start.
    pub rests: Vec<Rest>,
    /// The parts that may wait before they are taken: at the earliest, at the latest, and how they are kept.
    pub kept: Vec<Kept>,
    /// What comes from the store, and for which recipe.
    pub from_store: Vec<(String, Taken)>,
    /// What is left over of what is taken.
    pub left_over: Vec<Remains>,
    /// Minutes from the first start to when everything is ready.
    pub span: Minute,
    /// Minutes in which somebody works, people counted one by one.
    pub hands_minutes: Minute,
    /// Separate spells of work.
    pub spells: i64,
    /// Whether no plan takes less time, all weighed that weighs against it.
    pub optimal: bool,
    /// Whether of those that take no more time none lets less stand about, or has fewer spells of work.
    pub quietest: bool,
    /// The measures that are proven, the more important first: `span`, `standing`, `spells`.
    pub proven: Vec<&'static str>,
    /// The measures that were given up before the limit, because they no longer got better.
    pub given_up: Vec<&'static str>,
    /// Whether less stands about only in plans in which what is lit burns empty for longer.
    pub rests_for_an_oven: bool,
    /// Whether the time was over before the search was.
    pub cut_by_clock: bool,
    /// Whether no plan is shorter, whatever stands ready for the oven in it or grows cold.
    pub shortest: bool,
    /// By how many minutes it could at most be shorter.
    pub gap: Minute,
    /// The clock, for a plan with a time.
    pub clock: Option<Clock>,
    /// The minute of the clock at which it starts.
    pub start: Minute,
    /// Opening hours, in minutes from the plan's start; empty: always open.
    pub open: Vec<Window>,
}

/// What a plan is laid out with, beside the work and its times.
#[derive(Debug, Clone)]
pub struct Setting<'a> {
    /// The day's or the recipe's name.
    pub title: &'a str,
    /// The kitchen.
    pub kitchen: &'a Kitchen,
    /// When it is open, who is there, and when things are wanted.
    pub hours: &'a super::ask::Hours,
    /// The clock, for a plan with a time.
    pub clock: Option<Clock>,
    /// In which units figures are printed.
    pub units: Units,
}

impl Row {
    /// Which load of how many it is read as: a share of work by the load that it is a share of, whoever does the other one, so that loads
    /// are counted in one way all the day.
    pub fn counted(&self) -> (i64, i64) {
        match self.bundle.filter(|_| self.bundles > 1) {
            Some(bundle) => (bundle, self.bundles),
            None => (self.load, self.loads),
        }
    }
}

impl Light {
    /// The equipment, with its number where there are several.
    pub fn unit_name(&self) -> String {
        let unit = self.unit.filter(|_| self.units > 1).map(|unit| format!(" {unit}")).unwrap_or_default();
        format!("{}{unit}", self.equipment)
    }
}

impl Schedule {
    /// What somebody is called: their name, or `P1`.
    pub fn person(&self, number: u32) -> String {
        let at = usize::try_from(number).unwrap_or(0).wrapping_sub(1);
        self.names.get(at).cloned().unwrap_or_else(|| format!("P{number}"))
    }

    /// The time on the wall at a minute of the plan.
    pub fn wall(&self, minute: Minute) -> Option<jiff::civil::DateTime> {
        self.clock.as_ref()?.at(self.start + minute)
    }

    /// How far the clock on the wall is from UTC at a minute of the plan.
    pub fn offset(&self, minute: Minute) -> Option<String> {
        self.clock.as_ref()?.offset(self.start + minute)
    }

    /// When the clocks are put forward or back while the plan runs, in minutes from its start.
    pub fn clock_changes(&self) -> Vec<Change> {
        let until = self.rows.iter().map(|row| row.end).max().unwrap_or(0);
        let all = self.clock.as_ref().map(|clock| clock.changes(self.start, self.start + until)).unwrap_or_default();
        all.into_iter().map(|change| Change { minute: change.minute - self.start, ..change }).collect()
    }

    /// Whether the times on the wall at two minutes are as far apart as they are.
    pub fn is_by_the_clock(&self, start: Minute, end: Minute) -> bool {
        let (Some(from), Some(until)) = (self.wall(start), self.wall(end)) else { return true };
        from.checked_add(jiff::Span::new().minutes(end - start)).is_ok_and(|there| there == until)
    }

    /// Lays a solved plan out.
    pub fn of(setting: Setting<'_>, work: &Work, tasks: &Tasks, solved: &Plan) -> Schedule {
        let Setting { title, kitchen, hours, clock, units } = setting;
        // What is lit before the first step is the first that is done; moments of attention count like steps.
        let first = solved.starts.iter().copied().min().filter(|_| clock.is_some()).unwrap_or(0);
        let ends = laid::stretched(tasks, solved, &hours.dues);
        let laying = Laying { work, kitchen, tasks, solved, ends: &ends, first };
        let which = Which::of(work);
        let mut rows = laying.rows(&which, units);
        let made = laying.made(&which, &hours.dues);
        stands::note(&mut rows, work, tasks, &made);
        let last = rows.iter().map(|row| row.end).max().unwrap_or(0);
        let span = made.iter().filter_map(|made| made.due).max().map_or(last, |due| due.max(last));
        let lights =
            if hours.cold { lights::of(work, tasks, kitchen, hours, solved, (&ends, units)) } else { Vec::new() };
        let lights =
            lights.into_iter().map(|light| Light { start: light.start - first, end: light.end - first, ..light });
        let lights: Vec<Light> = lights.collect();
        let rests = laying.rests(hours, span, (&rows, &lights));
        let times: Vec<(Minute, Minute)> =
            solved.starts.iter().zip(&solved.ends).map(|(start, end)| (start - first, end - first)).collect();
        let from_store: Vec<(String, Taken)> = work
            .batches
            .iter()
            .flat_map(|batch| batch.from_store.iter().map(|one| (batch.recipe.name.to_string(), one.clone())))
            .collect();
        let left = work.batches.iter().flat_map(|batch| store::left(&batch.recipe, &batch.formula).unwrap_or_default());
        let left: Vec<store::Left> = left.collect();
        let left_over = store::remains(&left, from_store.iter().map(|(_, one)| one)).unwrap_or_default();
        let minutes = |row: &Row| (row.end - row.start) * Minute::from(row.cooks);
        Schedule {
            title: title.to_owned(),
            kitchen: if kitchen.span.is_some() { kitchen.name.clone() } else { String::new() },
            cooks: kitchen.cooks,
            kept: kept::of(work, tasks, &times, units),
            from_store,
            left_over,
            span,
            made,
            hands_minutes: rows.iter().filter(|row| row.kind == StepKind::Hands).map(minutes).sum(),
            rows,
            names: kitchen.named.iter().map(|cook| cook.name.to_string()).collect(),
            lights,
            hot_food: tasks.hot_food.clone(),
            rests,
            spells: solved.score.spells,
            optimal: solved.span_proven(),
            quietest: solved.proven(),
            proven: solved.measures_proven(),
            given_up: solved.given_up.clone(),
            rests_for_an_oven: solved.is_quietest_but_for_an_oven(),
            cut_by_clock: false,
            gap: solved.gap(),
            shortest: solved.shortest(),
            clock,
            start: first,
            open: hours
                .open
                .iter()
                .map(|window| Window { opens: window.opens - first, closes: window.closes - first })
                .filter(|window| window.closes > 0 && window.opens < span)
                .collect(),
        }
    }
}
