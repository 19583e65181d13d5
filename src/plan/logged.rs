//! Which tasks of a plan a log of bakes says have begun and ended, and when.

mod days;
mod moments;
mod shares;
pub mod sizes;

use super::ask::{self, Hours};
use super::clock::Clock;
use super::occupied::has_room;
use super::problem::{Minute, Problem};
use super::shifts::Staff;
use super::tasks::{Task, Tasks};
use crate::language::bakes::{Bake, CameTo, Log, Ran, Took};
use crate::language::parse::nearest;
use crate::language::syntax::Key;
use crate::make::work::Work;
use crate::measure::number::Number;
use crate::model::kitchen::Kitchen;
use crate::model::recipe::Recipe;
use crate::model::step::StepKind;
use crate::text::diagnostic::Diagnostic;
use crate::text::source::{SourceId, Span};
use jiff::civil::Time;

/// When a task began, and when it ended if it has.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Logged {
    /// Its start.
    pub start: Minute,
    /// Its end; `None` while it runs.
    pub end: Option<Minute>,
    /// The line that says so; `None` for what is known from what came after it.
    pub said: Option<Span>,
}

/// Who writes the head of a bake first begins at most so many minutes before the time in it.
pub const EARLY: Minute = 180;

/// What a line of a log names: a step of a part, and its tasks for whichever time they are.
struct Found {
    part: String,
    tasks: Vec<usize>,
}

/// Bakes that began so long before what is made is wanted are of another day.
const REACH: Minute = 4 * 1440;

/// Bakes that began no further apart may be of one day although one of them tells of something that is made once.
const BESIDE: Minute = 360;

/// Clocks are put back by so many minutes at most.
const LONGEST_CHANGE: Minute = 120;

/// Notes on the tasks what a log says of them.
pub struct Reading<'a> {
    /// What is made.
    pub work: &'a Work,
    /// The tasks.
    pub tasks: &'a Tasks,
    /// The clock.
    pub clock: &'a Clock,
    /// The moment at which the log is read.
    pub now: Minute,
    /// The last moment at which something is wanted.
    pub wanted: Minute,
    /// For each task, what is known of it.
    pub logged: Vec<Option<Logged>>,
    /// What is wrong with the logs.
    pub problems: Vec<Diagnostic>,
    /// The planner's problem, for what there is room for.
    room: Problem,
    /// Who was there, and how many work where nobody says who.
    staff: Staff,
    cooks: u32,
}

/// Lines of a bake with the tasks of the plan that each is of.
type RanTasks<'b> = Vec<(&'b Ran, Vec<usize>)>;

impl<'a> Reading<'a> {
    /// Nothing is known yet.
    pub fn new(
        (work, tasks, kitchen): (&'a Work, &'a Tasks, &Kitchen),
        clock: &'a Clock,
        now: Minute,
        wanted: Minute,
    ) -> Reading<'a> {
        let room = ask::problem(tasks, kitchen, &Hours::default());
        let staff = Staff::by_the_clock(kitchen, clock, now - REACH, now + 1);
        let (logged, problems) = (vec![None; tasks.list.len()], Vec::new());
        Reading { work, tasks, clock, now, wanted, logged, problems, room, staff, cooks: kitchen.cooks }
    }

    /// Takes in the log of a recipe.
    pub fn take(&mut self, log: &Log, recipe: SourceId) {
        let of = log.of.as_ref().map(|of| of.span);
        let batches = self.batches_of(recipe);
        if batches.is_empty() {
            let Some(of) = of else { return };
            self.problems.push(
                Diagnostic::warning("log-out-of-time", of, "nothing of this recipe is in the plan")
                    .help("leave the log away; or give that of a recipe that the plan makes, or plan its order too"),
            );
            return;
        }
        let mut near: Vec<(&Bake, Minute)> = Vec::new();
        for bake in &log.bakes {
            let Some(begins) = self.begins(bake) else { continue };
            // Older bakes are told elsewhere; one of tomorrow is a slip.
            if begins > self.now && bake.date.value != self.today() {
                self.late_date(bake);
            } else if begins >= self.now.min(self.wanted) - REACH {
                near.push((bake, begins));
            }
        }
        if near.is_empty() {
            let span = log.bakes.last().map(|bake| bake.date.span).or(of);
            let Some(span) = span else { return };
            self.problems.push(
                Diagnostic::warning("log-out-of-time", span, format!("the log says nothing of {}", self.today())).help(
                    format!("begin the day's bake with `bake {}`, or nothing of it counts as done", self.today()),
                ),
            );
        }
        for (begins, lines) in self.of_this_plan(&near, recipe, batches.len()) {
            self.bake(begins, lines);
        }
    }

    /// The last bakes of a log are those of this plan: so many that no part has more of them than it is made times. Of a part that is made
    /// for several times the first bake is of the first of them; what is made once for all stands in whichever bake it was written.
    fn of_this_plan<'b>(
        &mut self,
        near: &[(&'b Bake, Minute)],
        recipe: SourceId,
        batches: usize,
    ) -> Vec<(Minute, RanTasks<'b>)> {
        let mut kept: Vec<(Minute, Vec<(&'b Ran, Found)>)> = Vec::new();
        for (bake, begins) in near.iter().rev() {
            let mut wrong: Vec<Diagnostic> = Vec::new();
            let mut lines: Vec<(&'b Ran, Found)> = Vec::new();
            for ran in bake.steps.iter().filter(|ran| ran.time.is_some()) {
                match self.step(ran, recipe) {
                    Ok(found) => lines.push((ran, found)),
                    Err(problem) => wrong.push(*problem),
                }
            }
            let is_full = |found: &Found| {
                let has = |lines: &Vec<(&Ran, Found)>| lines.iter().any(|(_, other)| other.part == found.part);
                kept.iter().filter(|(_, lines)| has(lines)).count() >= self.times(&found.tasks).len()
            };
            // What is stirred once for two doughs may have been stirred for each of them: that is no bake of another day.
            let is_beside = kept.last().is_some_and(|(other, _)| other - begins <= BESIDE);
            let is_of_it = is_beside && lines.iter().any(|(_, found)| !is_full(found));
            if kept.len() >= batches || !is_of_it && lines.iter().any(|(_, found)| is_full(found)) {
                break;
            }
            self.problems.extend(wrong);
            kept.push((*begins, lines));
        }
        kept.reverse();
        let mut seen: Vec<String> = Vec::new();
        let mut all = Vec::with_capacity(kept.len());
        for (begins, lines) in kept {
            let mut here: Vec<String> = lines.iter().map(|(_, found)| found.part.clone()).collect();
            here.sort();
            here.dedup();
            let of_batch = |found: Found| {
                let before = seen.iter().filter(|part| **part == found.part).count();
                let batch = self.times(&found.tasks).get(before).copied();
                let is_of = |at: &usize| self.tasks.list.get(*at).map(|task| task.batch) == batch;
                found.tasks.into_iter().filter(is_of).collect::<Vec<usize>>()
            };
            let lines = lines.into_iter().map(|(ran, found)| (ran, of_batch(found)));
            let lines = lines.filter(|(_, tasks)| !tasks.is_empty()).collect();
            seen.extend(here);
            all.push((begins, lines));
        }
        all
    }

    /// The batches of some tasks, that which is wanted first before the others.
    fn times(&self, tasks: &[usize]) -> Vec<usize> {
        let mut batches: Vec<usize> =
            tasks.iter().filter_map(|task| self.tasks.list.get(*task)).map(|task| task.batch).collect();
        let wanted = |batch: &usize| {
            let orders = self.work.batches.get(*batch).map_or(&[][..], |batch| &batch.orders);
            orders.iter().filter_map(|order| self.work.orders.get(*order)?.ready).map(|ready| ready.when).min()
        };
        batches.sort_by_key(|batch| (wanted(batch), *batch));
        batches.dedup();
        batches
    }

    /// The batches that make parts of a recipe, in the order of the plan.
    fn batches_of(&self, recipe: SourceId) -> Vec<usize> {
        let mut batches: Vec<usize> = Vec::new();
        for task in &self.tasks.list {
            if !batches.contains(&task.batch) && self.origin(task).is_some_and(|(of, ..)| is_of(of, recipe)) {
                batches.push(task.batch);
            }
        }
        batches
    }

    /// The recipe in which a task is written, its part and its step.
    fn origin(&self, task: &Task) -> Option<(&'a Recipe, &'a str, &'a str)> {
        let recipe = &self.work.batches.get(task.batch)?.recipe;
        let (of, _) = recipe.origin(task.step.part)?;
        let part = recipe.part(task.step.part)?;
        Some((of, &part.name.text, &part.steps.get(task.step.step)?.name.text))
    }

    fn today(&self) -> jiff::civil::Date {
        self.clock.at(self.now).map_or(jiff::civil::Date::MIN, |at| at.date())
    }

    fn begins(&self, bake: &Bake) -> Option<Minute> {
        let at = bake.date.value.to_datetime(bake.time.unwrap_or(Time::midnight()));
        self.clock.minute(at).ok()
    }

    fn late_date(&mut self, bake: &Bake) {
        let message = format!("this bake begins on {}, which is after {}", bake.date.value, self.said(self.now));
        self.problems.push(
            Diagnostic::error("log-out-of-time", bake.date.span, message)
                .help("write the day on which it began, or give --now a later time"),
        );
    }

    fn bake(&mut self, begins: Minute, lines: Vec<(&Ran, Vec<usize>)>) {
        // What is one load in the plan may have gone in in several: it lasts from the first to the last of them.
        let mut went_in: Vec<(usize, i64)> = Vec::new();
        let alone: Vec<bool> = lines
            .iter()
            .map(|(ran, tasks)| {
                let same = lines.iter().filter(|(other, of)| other.load.is_none() && of == tasks);
                ran.load.is_none() && same.count() == 1
            })
            .collect();
        for ((ran, tasks), is_alone) in lines.into_iter().zip(alone) {
            let one_load = if let [task] = tasks.as_slice() { Some(*task) } else { None };
            let Some(tasks) = self.loads(ran, tasks, is_alone) else { continue };
            let load = one_load.zip(ran.load.map(|load| load.value));
            let is_another = load.is_some_and(|(task, load)| {
                went_in.iter().any(|(of, _)| *of == task) && !went_in.contains(&(task, load))
            });
            went_in.extend(load);
            if is_another {
                if let (Some(moments), Some((task, _))) = (self.moments(ran, &tasks, begins), load) {
                    self.widen(task, moments);
                }
                continue;
            }
            if let Some(task) = tasks.iter().find(|task| self.logged.get(**task).is_some_and(Option::is_some)) {
                let before = self.logged.get(*task).copied().flatten().and_then(|logged| logged.said);
                let problem =
                    Diagnostic::error("twice-named", ran.span(), format!("`{}` is in the log twice", ran.step));
                let problem = problem.help("say which load each of the lines is of: `load 2`");
                self.problems.push(match before {
                    Some(before) => problem.also(before, "here"),
                    None => problem,
                });
                continue;
            }
            if let Some((start, end)) = self.moments(ran, &tasks, begins) {
                self.note(&tasks, (start, end), ran);
            }
        }
    }

    /// The tasks of the step that a line names, wherever it is made.
    ///
    /// # Errors
    /// What is wrong with the line.
    fn step(&self, ran: &Ran, recipe: SourceId) -> Result<Found, Box<Diagnostic>> {
        let own = |task: &&Task| self.origin(task).is_some_and(|(of, ..)| is_of(of, recipe));
        let mut found: Vec<(&str, Vec<usize>)> = Vec::new();
        for (name, of) in ran.readings() {
            let (name, of) = (Key::new(name), of.map(Key::new));
            for (at, task) in self.tasks.list.iter().enumerate().filter(|(_, task)| own(task)) {
                let Some((_, part, step)) = self.origin(task) else { continue };
                if Key::new(step) != name || of.as_ref().is_some_and(|of| *of != Key::new(part)) {
                    continue;
                }
                match found.iter_mut().find(|(known, _)| *known == part) {
                    Some((_, tasks)) if tasks.contains(&at) => {}
                    Some((_, tasks)) => tasks.push(at),
                    None => found.push((part, vec![at])),
                }
            }
        }
        let step = &ran.step;
        match found.as_slice() {
            [] => {
                let steps: Vec<&str> =
                    self.tasks.list.iter().filter(own).filter_map(|task| Some(self.origin(task)?.2)).collect();
                let problem = Diagnostic::error("unknown-step", step.span, format!("the recipe has no step `{step}`"));
                Err(Box::new(match nearest(step.key.as_str(), steps.iter().copied()) {
                    Some(near) => problem.meant(step.span, near),
                    None => {
                        let mut known: Vec<String> = Vec::new();
                        steps.iter().map(|step| format!("`{step}`")).for_each(|step| {
                            if !known.contains(&step) {
                                known.push(step);
                            }
                        });
                        known.truncate(12);
                        problem.help(format!("known here: {}", known.join(", ")))
                    }
                }))
            }
            [(part, tasks)] => Ok(Found { part: (*part).to_owned(), tasks: tasks.clone() }),
            several => {
                let parts: Vec<String> = several.iter().map(|(part, _)| format!("`{step} of {part}`")).collect();
                let message = format!("`{step}` is a step of {} parts", several.len());
                let problem = Diagnostic::error("unknown-step", step.span, message);
                Err(Box::new(problem.help(format!("write {}", parts.join(" or ")))))
            }
        }
    }

    /// Those of a step's loads that a line is of.
    fn loads(&mut self, ran: &Ran, tasks: Vec<usize>, is_alone: bool) -> Option<Vec<usize>> {
        let of = |task: &usize| self.tasks.list.get(*task);
        if let Some(load) = ran.load.filter(|_| tasks.len() != 1) {
            let many = self.loads_in_one(ran, &tasks);
            let through = load.value.saturating_mul(many);
            let is_of = |task: &Task| (through - many + 1..=through).contains(&task.load);
            let some: Vec<usize> = tasks.iter().copied().filter(|task| of(task).is_some_and(is_of)).collect();
            if some.is_empty() {
                let message = format!("`{}` has {} loads", ran.step, tasks.len());
                let problem = Diagnostic::error("impossible-number", load.span, message);
                self.problems.push(problem.help(format!("write a load from 1 to {}", tasks.len())));
                return None;
            }
            return Some(some);
        }
        // Of work at moments of another step, a fold, a line is of one moment: those that are still to come are not done by it.
        if tasks.iter().any(|task| self.due(*task).is_some()) {
            let next = self.next_moment(ran, &tasks);
            return Some(vec![next.or(tasks.first().copied())?]);
        }
        // What still runs is at its first load that is not in the log, and with it those for which there is room at once, where no other
        // line tells of them.
        if let Some(Took::Since(_)) = ran.time.map(|time| time.value) {
            let is_open = |task: &usize| self.logged.get(*task).is_some_and(Option::is_none);
            let open: Vec<usize> = tasks.iter().copied().filter(is_open).collect();
            let Some(first) = open.first().copied() else { return Some(vec![tasks.first().copied()?]) };
            if !is_alone {
                return Some(vec![first]);
            }
            return Some(self.shares(&open).unwrap_or_else(|| self.at_once(&open)));
        }
        Some(tasks)
    }

    /// As many of some loads, from the first of them, as there is room for beside what the log has running: one of what hands do.
    fn at_once(&self, open: &[usize]) -> Vec<usize> {
        let is_running = |at: &usize| self.logged.get(*at).is_some_and(|one| one.is_some_and(|one| one.end.is_none()));
        let running: Vec<usize> = (0..self.logged.len()).filter(is_running).collect();
        let by_hand = |at: &usize| self.tasks.list.get(*at).is_some_and(|task| task.kind == StepKind::Hands);
        let mut some: Vec<usize> = Vec::new();
        for at in open {
            let others = running.iter().chain(&some).copied();
            if !some.is_empty() && (by_hand(at) || !has_room(&self.room, self.tasks, *at, others)) {
                break;
            }
            some.push(*at);
        }
        some
    }

    /// How many of a step's loads one of the log is: it held what it held when it was planned, also where the kitchen has less room by now.
    /// The line itself says how many pieces that were (`came to 30 x 25 g`), or the step does (`30 at a time`); pieces that were lost
    /// make no other load of it.
    fn loads_in_one(&self, ran: &Ran, tasks: &[usize]) -> i64 {
        let task = tasks.first().and_then(|task| self.tasks.list.get(*task));
        let Some(task) = task.filter(|task| task.bundle.is_none()) else { return 1 };
        let written = self.work.batches.get(task.batch).and_then(|batch| batch.recipe.part(task.step.part));
        let said = match ran.came_to.map(|came_to| came_to.value) {
            Some(CameTo::Pieces(pieces, _)) => Some(pieces),
            _ => written.and_then(|part| part.steps.get(task.step.step)).and_then(|step| step.loads.size()),
        };
        // What still runs is in what there is to run in.
        let said = said.filter(|_| !matches!(ran.time.map(|time| time.value), Some(Took::Since(_))));
        let held =
            said.zip(task.pieces).and_then(|(said, planned)| said.over(planned).ok()?.rounded_to(Number::ONE).ok());
        held.and_then(Number::to_whole).unwrap_or(1).max(1)
    }

    /// No step begins before its bake, nor before a step above it in its part that is in the log.
    fn least_start(&self, tasks: &[usize], begins: Minute) -> Minute {
        let Some(task) = tasks.first().and_then(|task| self.tasks.list.get(*task)) else { return begins };
        let above = self.tasks.list.iter().zip(&self.logged).filter(|(other, _)| {
            (other.batch, other.step.part) == (task.batch, task.step.part) && other.step.step < task.step.step
        });
        above.filter_map(|(_, logged)| Some(logged.as_ref()?.start)).fold(begins, Minute::max)
    }

    /// The first moment at which the clock shows a time, from a moment on.
    fn next(&self, time: Time, from: Minute) -> Option<Minute> {
        let day = self.clock.at(from)?.date();
        let days = std::iter::successors(Some(day), |day| day.tomorrow().ok()).take(3);
        // A time that the clocks show twice is also an hour later.
        let moments = days.filter_map(|day| self.clock.minute(day.to_datetime(time)).ok()).flat_map(|minute| {
            let again =
                (minute + 1..=minute + LONGEST_CHANGE).find(|later| self.clock.at(*later) == self.clock.at(minute));
            [Some(minute), again.filter(|_| self.clock.twice(minute).is_some())]
        });
        moments.flatten().find(|minute| *minute >= from)
    }

    fn said(&self, minute: Minute) -> String {
        self.clock.at(minute).map_or_else(String::new, |at| at.strftime("%H:%M on %A").to_string())
    }

    /// When a line says that its step began and ended.
    fn moments(&mut self, ran: &Ran, tasks: &[usize], begins: Minute) -> Option<(Minute, Option<Minute>)> {
        let took = ran.time?;
        let begin = match took.value {
            Took::Since(begin) | Took::Between(begin, _) => begin,
            // When it was, nobody says: it is over.
            Took::Lasted(time) => {
                let minutes = time.whole_minutes().unwrap_or(0);
                let after = self.least_start(tasks, begins);
                return Some(((self.now - minutes).max(after.min(self.now)), Some(self.now)));
            }
        };
        let start = self.start(begin, (tasks, begins))?;
        let end = self.end(tasks, start, took.value);
        let (last, what) = match end {
            Some(end) if start <= self.now => (end, "ends"),
            _ => (start, "begins"),
        };
        if last <= self.now {
            return Some((start, end));
        }
        let message = format!("`{}` {what} at {}, which is after {}", ran.step, self.said(last), self.said(self.now));
        let help = match (what, took.value) {
            ("ends", Took::Between(begin, end)) if end < begin => {
                format!("a step ends after it begins: {} is before {}", short(end), short(begin))
            }
            ("ends", Took::Between(begin, _)) => format!("while it runs, write `{}-`", short(begin)),
            _ => "is the day of its `bake` right, and does it stand below the step before it? A plan begins at --now"
                .to_owned(),
        };
        self.problems.push(Diagnostic::error("log-out-of-time", took.span, message).help(help));
        None
    }

    /// Another load of what is one in the plan: it is over when all of them are.
    fn widen(&mut self, task: usize, (start, end): (Minute, Option<Minute>)) {
        if let Some(Some(known)) = self.logged.get_mut(task) {
            known.start = known.start.min(start);
            known.end = known.end.zip(end).map(|(one, other)| one.max(other));
        }
    }

    /// Loads that one line tells of lie one after the other in its time; what was one load when it was done was done together.
    fn note(&mut self, tasks: &[usize], (start, end): (Minute, Option<Minute>), ran: &Ran) {
        if end.is_none() && self.shares(tasks).is_some() {
            return self.note_shares(tasks, start, ran);
        }
        let (said, is_one) = (ran.span(), ran.load.is_some());
        let count = Minute::try_from(tasks.len()).unwrap_or(1).max(1);
        for (number, task) in (0..).zip(tasks) {
            let at = |number: Minute| end.map(|end| start + (end - start) * number / count);
            let (start, end) = if is_one { (start, end) } else { (at(number).unwrap_or(start), at(number + 1)) };
            if let Some(slot) = self.logged.get_mut(*task) {
                *slot = Some(Logged { start, end, said: Some(said) });
            }
        }
    }
}

fn short(time: Time) -> String {
    time.strftime("%H:%M").to_string()
}

fn is_of(recipe: &Recipe, source: SourceId) -> bool {
    recipe.name.span.source == source
}
