//! A plan as it is shown: who does what when, with which equipment, for what.

mod lights;

use super::clock::{Change, Clock};
use super::kept::{self, Kept};
use super::problem::{Minute, Stand, Window};
use super::solve::Plan;
use super::tasks::{Task, Tasks};
use super::which::Which;
use crate::make::batch::BatchPart;
use crate::make::loads;
use crate::make::store::{self, Remains, Taken};
use crate::make::work::Work;
use crate::measure::number::Number;
use crate::measure::show::Units;
use crate::measure::shown::Shown;
use crate::model::alive::STAND;
use crate::model::heat;
use crate::model::kitchen::Kitchen;
use crate::model::step::{Loads, StepKind, StepRef};
use crate::model::words::mere_prose_on;

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
    /// Whether it was hot before, at another temperature.
    pub again: bool,
    /// Whether it was hotter before.
    pub down: bool,
    /// Who sees to it, from 1: somebody who is there, whose hands are free if anybody's are.
    pub people: Vec<u32>,
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
        let starts = solved.starts.iter().copied();
        let first = starts.min().unwrap_or(0);
        let first = if clock.is_some() { first } else { 0 };
        let ends = stretched(tasks, solved);
        let which = Which::of(work);
        let mut rows: Vec<(usize, Row)> = Vec::with_capacity(tasks.list.len());
        for (at, task) in tasks.list.iter().enumerate() {
            let (Some(start), Some(end)) = (solved.starts.get(at), ends.get(at)) else { continue };
            rows.extend(row((work, kitchen), task, (start - first, end - first), units).map(|row| {
                let unit = tasks.holder(at).and_then(|holder| solved.units.get(holder).copied().flatten());
                let people = solved.cooks.get(at).cloned().unwrap_or_default();
                let last_taken = last_taken(work, tasks, solved, at).filter(|last| last > end).map(|last| last - first);
                let which = which.part(BatchPart { batch: task.batch, part: task.step.part }, task.turn);
                let is_put_away = |at: usize| {
                    let goes_on = solved.starts.get(at).zip(task.most_minutes).map(|(start, most)| start + most);
                    let limit = goes_on.unwrap_or(*end + STAND);
                    takers(tasks, solved, at).any(|taken| taken > limit)
                };
                let into_cold = tasks.into_cold(at).is_some() && is_put_away(at);
                let last_taken = last_taken.filter(|_| !into_cold);
                (at, Row { task: at, unit, people, last_taken, into_cold, which, ..row })
            }));
        }
        rows.sort_by_key(|(at, row)| (row.start, row.end, *at));
        let made = work.orders.iter().enumerate().map(|(at, order)| {
            let finals = tasks.finals.get(at).map_or(&[][..], Vec::as_slice);
            let ready = finals.iter().filter_map(|task| ends.get(*task)).max().copied().unwrap_or(first);
            Made {
                recipe: order.recipe.name.to_string(),
                which: which.order(at),
                wanted: order.wanted(),
                ready: ready - first,
                due: hours.dues.get(at).copied().flatten().map(|due| due - first),
            }
        });
        let made: Vec<Made> = made.collect();
        let last = rows.iter().map(|(_, row)| row.end).max().unwrap_or(0);
        let span = made.iter().filter_map(|made| made.due).max().map_or(last, |due| due.max(last));
        let rows: Vec<Row> = rows.into_iter().map(|(_, row)| row).collect();
        let lights =
            if hours.cold { lights::of(work, tasks, kitchen, hours, solved, (&ends, units)) } else { Vec::new() };
        let lights =
            lights.into_iter().map(|light| Light { start: light.start - first, end: light.end - first, ..light });
        let lights: Vec<Light> = lights.collect();
        let rests = solved.rests.iter();
        let rests = rests.map(|(person, start, end)| Rest { person: *person, start: start - first, end: end - first });
        let shift_of = |rest: &Rest| {
            let person = usize::try_from(rest.person).ok().and_then(|who| hours.people.get(who.checked_sub(1)?))?;
            let shifts = person.shifts.iter().map(|shift| shift.window);
            let shifts = shifts.map(|one| Window { opens: one.opens - first, closes: one.closes - first });
            let mut shifts = shifts;
            shifts.find(|shift| shift.opens <= rest.start && rest.start < shift.closes)
        };
        // What lies before the plan is no part of it.
        let rests = rests.filter(|rest| rest.start >= 0 && rest.start < span);
        let rests: Vec<Rest> = rests.filter(|rest| is_between_work(rest, shift_of(rest), (&rows, &lights))).collect();
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
            kept: kept::of(work, tasks, &times),
            from_store,
            left_over,
            span,
            made,
            hands_minutes: rows.iter().filter(|row| row.kind == StepKind::Hands).map(minutes).sum(),
            rows,
            names: kitchen.named.iter().map(|cook| cook.name.to_string()).collect(),
            lights,
            rests,
            spells: solved.score.spells,
            optimal: solved.span_proven(),
            quietest: solved.proven(),
            proven: solved.measures_proven(),
            given_up: solved.given_up.clone(),
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

/// Whose work in a shift is over within so many minutes of its beginning has room to rest before it or after it, and needs no row
/// that says when. Common practice, no source.
const SOON_OVER: Minute = 60;

/// Whether what somebody does in the shift in which they rest takes longer than that, from its first minute to its last, and some of it
/// comes before the rest and some after: who has not begun yet, or is done, rests anyway. To light something is work too, and so is what
/// is tended: it goes in and comes out by the hands of somebody who is there.
fn is_between_work(rest: &Rest, shift: Option<Window>, (rows, lights): (&[Row], &[Light])) -> bool {
    let mine = |row: &&Row| row.people.contains(&rest.person) || row.kind == StepKind::Tend;
    let work = rows.iter().filter(mine).map(|row| (row.start, row.end)).filter(|(start, end)| start < end);
    let lit = lights.iter().filter(|light| light.people.contains(&rest.person)).map(|light| (light.start, light.start));
    let here =
        |(start, end): &(Minute, Minute)| shift.is_none_or(|shift| shift.opens <= *start && *end <= shift.closes);
    let times: Vec<(Minute, Minute)> = work.chain(lit).filter(here).collect();
    let (first, last) = (times.iter().map(|time| time.0).min(), times.iter().map(|time| time.1).max());
    first.zip(last).is_some_and(|(first, last)| last - first > SOON_OVER && first < rest.start && rest.end <= last)
}

/// The ends of the tasks, a rest that may go on lasting until the first thing that takes it up.
fn stretched(tasks: &Tasks, solved: &Plan) -> Vec<Minute> {
    let mut ends: Vec<Minute> = solved.ends.iter().take(tasks.list.len()).copied().collect();
    for (at, task) in tasks.list.iter().enumerate() {
        let (Some(most), Some(start)) = (task.most_minutes, solved.starts.get(at)) else { continue };
        if let (Some(next), Some(end)) = (takers(tasks, solved, at).min(), ends.get_mut(at)) {
            let put_away = tasks.into_cold(at).and_then(|moment| solved.starts.get(moment)).copied();
            let last = start + most;
            *end = (*end).max(if next > last { put_away.map_or(last, |at| at.min(last)) } else { next });
        }
    }
    ends
}

/// When what a task made is taken up, by all that takes it. Shares of one piece of work that follow each other take it up when the first of
/// them does.
fn takers<'a>(tasks: &'a Tasks, solved: &'a Plan, at: usize) -> impl Iterator<Item = Minute> + 'a {
    let begins = move |used: usize| {
        let share = tasks.list.get(used).filter(|task| task.bundle.is_some());
        let Some(share) = share else { return solved.starts.get(used).copied() };
        let of = |task: &Task| {
            (task.batch, task.step, task.turn, task.bundle) == (share.batch, share.step, share.turn, share.bundle)
        };
        let all = tasks.list.iter().zip(&solved.starts).filter(|(task, _)| of(task));
        all.map(|(_, start)| *start).min()
    };
    tasks.standing.iter().filter_map(move |standing| match standing.stand {
        Stand::Between { made, used } if made == at => begins(used),
        _ => None,
    })
}

/// When the last of a rest that may go on is taken up: what keeps is taken as long as it does.
fn last_taken(work: &Work, tasks: &Tasks, solved: &Plan, at: usize) -> Option<Minute> {
    let task = tasks.list.get(at)?;
    let (most, last) = (task.most_minutes?, takers(tasks, solved, at).max()?);
    let part = work.batches.get(task.batch).and_then(|batch| batch.recipe.part(task.step.part));
    let keeps = part.is_some_and(|part| part.keeps.is_some());
    Some(if keeps { last } else { last.min(solved.starts.get(at)? + most) })
}

fn row(
    (work, kitchen): (&Work, &Kitchen),
    task: &Task,
    (start, end): (Minute, Minute),
    shown_in: Units,
) -> Option<Row> {
    let batch = work.batches.get(task.batch)?;
    let part = batch.recipe.part(task.step.part)?;
    let step = part.steps.get(task.step.step)?;
    let (origin, _) = batch.recipe.origin(task.step.part)?;
    let recipe = origin.name.to_string();
    let units = task.equipment.as_ref().and_then(|name| kitchen.find(name)).map_or(1, |equipment| equipment.count);
    let by_pieces = loads::is_by_pieces(step, kitchen) && loads::in_pieces(&batch.recipe, task.step.part);
    let counted = by_pieces || step.loads != Loads::Once;
    Some(Row {
        task: 0,
        batch: task.batch,
        at: task.step,
        recipe,
        part: part.name.to_string(),
        which: String::new(),
        step: step.name.to_string(),
        load: task.load,
        loads: task.loads,
        turn: task.turn,
        bundle: task.bundle,
        kind: task.kind,
        start,
        end,
        soonest_end: start + task.least_minutes,
        last_taken: None,
        into_cold: false,
        equipment: task.equipment.as_ref().map(ToString::to_string),
        unit: None,
        units,
        cooks: task.people,
        people: Vec::new(),
        temperature: heat::heat(step, shown_in),
        pieces: task.pieces.filter(|_| counted),
        share: task.share,
        cue: mere_prose_on(&step.cue, shown_in, heat::dial(step)).plain().replace('\n', " ").trim().to_owned(),
    })
}
