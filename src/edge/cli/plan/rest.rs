//! The rest of a day: `--now` and `--bakes`.

use super::super::orders::{self, Asked};
use crate::edge::loader::{Loader, ReadLog, Unreadable};
use crate::figures::run_sheet::{NextLimit, Now, State};
use crate::make::work::Work;
use crate::model::step::StepKind;
use crate::plan::catch_up::{CaughtUp, Wanted as Order};
use crate::plan::clock::Clock;
use crate::plan::explain;
use crate::plan::kept::Kept;
use crate::plan::logged::{EARLY, Logged, Reading};
use crate::plan::problem::{Minute, Window};
use crate::plan::running::FromNow;
use crate::plan::schedule::{Row, Schedule, Setting};
use crate::plan::tasks::{self, Task, Tasks};
use crate::text::diagnostic::{Diagnostic, Severity};
use crate::text::source::SourceId;
use jiff::civil::{DateTime, Time};
use std::path::PathBuf;

/// Limits with more room than this, in minutes, are not named.
const NEAR: Minute = 30;
/// So many limits that are kept are named at most beside those that are broken.
const MOST_LIMITS: usize = 8;
/// So many days before and after the last due time a time of the day is looked for.
const DAYS: i64 = 4;
/// Logs go on so many minutes after everything was wanted: a day that is late is still followed.
const HALF_A_DAY: Minute = 720;

/// Reads the logs.
///
/// # Errors
/// When one cannot be read at all.
pub(super) fn read(loader: &mut Loader, files: &[PathBuf]) -> Result<Vec<ReadLog>, Unreadable> {
    files.iter().map(|file| loader.load_log(file)).collect()
}

/// That there is no plan from now on may only be because nobody said what is done by now.
pub(super) fn with_no_log(problems: Vec<Diagnostic>) -> Vec<Diagnostic> {
    let said = |problem: Diagnostic| {
        let hint = "without `--bakes LOG` nothing counts as begun: let a log say what is done by now";
        let help = problem.help.as_ref().map_or_else(|| hint.to_owned(), |help| format!("{hint}; else {help}"));
        problem.help(help)
    };
    problems.into_iter().map(said).collect()
}

/// What the options say of now.
pub(super) struct Wanted<'a> {
    pub(super) now: Option<&'a str>,
    pub(super) from: Option<&'a str>,
    pub(super) logs: Vec<ReadLog>,
}

impl Wanted<'_> {
    /// Settles from which moment on is planned, and gives the logs back.
    ///
    /// # Errors
    /// A sentence, when the options cannot be met.
    pub(super) fn begin(self, asked: &mut Asked) -> Result<Vec<ReadLog>, String> {
        if self.now.is_none() && self.logs.is_empty() {
            return Ok(self.logs);
        }
        if self.from.is_some() {
            return Err("--now says from when on is planned: leave --from out".to_owned());
        }
        let Some(clock) = &asked.clock else {
            return Err("--now needs a time by which things are ready: a day says it, or --ready does".to_owned());
        };
        let wanted = asked.dues.iter().flatten().copied().max().unwrap_or(0);
        let now = match self.now {
            Some(text) => moment(text, clock, wanted, &self.logs)?,
            None => {
                let here = clock.zone().to_datetime(jiff::Timestamp::now());
                clock.minute(here).map_err(|_| "the computer's clock is too far off to plan by".to_owned())?
            }
        };
        asked.now = Some(now);
        Ok(self.logs)
    }
}

/// The moment that `--now` says: a time of the day is the last one before what is made is wanted, but none before the last
/// bake began, unless that is about to: some write the head of a bake before they begin it.
fn moment(text: &str, clock: &Clock, wanted: Minute, logs: &[ReadLog]) -> Result<Minute, String> {
    let no_such = || format!("--now {text}: this is no time; write `05:50`, or day and time, \"2026-12-05 05:50\"");
    let Some(time) = orders::time_of_day(text) else {
        let when = orders::moment("--now", text).map_err(|_| no_such())?;
        return clock.minute(when).map_err(|_| no_such());
    };
    let day = clock.at(wanted).ok_or_else(no_such)?.date();
    let days = (-DAYS..=DAYS).filter_map(|days| day.checked_add(jiff::Span::new().days(days)).ok());
    let times: Vec<Minute> = days.filter_map(|day| clock.minute(day.to_datetime(time)).ok()).collect();
    let before = times.iter().copied().filter(|at| *at <= wanted).max().ok_or_else(no_such)?;
    let began = |at: DateTime| clock.minute(at).ok().filter(|at| *at >= wanted - DAYS * 1440 && *at <= wanted + 1440);
    let bakes = logs.iter().flat_map(|log| &log.log.bakes);
    let begun = bakes.filter_map(|bake| began(bake.date.value.to_datetime(bake.time.unwrap_or(Time::midnight()))));
    match begun.max() {
        Some(begun) if begun > before + EARLY => Ok(times.into_iter().find(|at| *at >= begun).unwrap_or(before)),
        _ => Ok(before),
    }
}

/// What the logs say of each task, and what of them is odd.
type Told = (Vec<Option<Logged>>, Vec<Diagnostic>);

/// Reads what the logs say of each task.
///
/// # Errors
/// What is wrong with the logs.
pub(super) fn logged(asked: &Asked, tasks: &Tasks, logs: &[ReadLog], now: Minute) -> Result<Told, Vec<Diagnostic>> {
    let Some(clock) = &asked.clock else { return Ok((vec![None; tasks.list.len()], Vec::new())) };
    let wanted = asked.dues.iter().flatten().copied().max().unwrap_or(now);
    let mut reading = Reading::new((&asked.work, tasks, &asked.kitchen), clock, now, wanted);
    for log in logs {
        if let Some(recipe) = log.recipe {
            reading.take(&log.log, recipe);
        }
    }
    let is_wrong = reading.problems.iter().any(|problem| problem.severity == Severity::Error);
    if is_wrong { Err(reading.problems) } else { Ok((reading.logged, reading.problems)) }
}

/// Follows the logs that lie beside a day: those of what is made, of bakes that began shortly before it is wanted. Planned is from
/// the last moment that they tell, or from this minute if that lies between it and when all is wanted.
///
/// # Errors
/// What is wrong with the logs.
pub(super) fn follow(asked: &mut Asked, logs: Vec<ReadLog>) -> Result<Vec<ReadLog>, Vec<Diagnostic>> {
    let (Some(clock), Some(wanted)) = (asked.clock.clone(), asked.dues.iter().flatten().copied().max()) else {
        return Ok(Vec::new());
    };
    let is_near = |log: &ReadLog| {
        log.log.bakes.iter().any(|bake| {
            let begins = clock.minute(bake.date.value.to_datetime(bake.time.unwrap_or(Time::midnight())));
            begins.is_ok_and(|at| (wanted - DAYS * 1440..=wanted + HALF_A_DAY).contains(&at))
        })
    };
    let tasks = tasks::of(&asked.work, &asked.kitchen).map_err(|_| vec![explain::too_large(&asked.work)])?;
    let is_made = |log: &ReadLog| log.recipe.is_some_and(|recipe| makes(&asked.work, &tasks, recipe));
    let logs: Vec<ReadLog> = logs.into_iter().filter(|log| is_made(log) && is_near(log)).collect();
    let wrong = logs.iter().flat_map(|log| &log.problems).filter(|problem| problem.severity == Severity::Error);
    let wrong: Vec<Diagnostic> = wrong.cloned().collect();
    if !wrong.is_empty() {
        return Err(wrong);
    }
    let (told, _) = logged(asked, &tasks, &logs, wanted + HALF_A_DAY)?;
    let Some(last) = told.iter().flatten().map(|one| one.end.unwrap_or(one.start)).max() else { return Ok(Vec::new()) };
    let here = clock.minute(clock.zone().to_datetime(jiff::Timestamp::now())).ok();
    asked.now = Some(here.filter(|here| (last..=wanted).contains(here)).unwrap_or(last));
    Ok(logs)
}

/// Whether some task of a plan is written in that recipe.
fn makes(work: &Work, tasks: &Tasks, recipe: SourceId) -> bool {
    tasks.list.iter().any(|task| {
        let of = work.batches.get(task.batch).and_then(|batch| batch.recipe.origin(task.step.part));
        of.is_some_and(|(origin, _)| origin.source == recipe)
    })
}

/// The orders, and the tasks that are done for each of them alone.
pub(super) fn orders(asked: &Asked, tasks: &Tasks) -> Vec<Order> {
    let orders = 0..asked.work.orders.len();
    let alone = orders.map(|order| {
        let own = |task: &Task| {
            let Some(batch) = asked.work.batches.get(task.batch) else { return false };
            let turn = batch.apart.as_ref().zip(task.turn).and_then(|(apart, turn)| apart.turns.get(turn));
            batch.orders == [order] || turn.is_some_and(|turn| turn.orders == [order])
        };
        let of: Vec<usize> = (0..tasks.list.len()).filter(|at| tasks.list.get(*at).is_some_and(own)).collect();
        let busy = of.iter().filter_map(|at| tasks.list.get(*at)).filter(|task| task.kind != StepKind::Wait);
        let left = busy.map(|task| task.minutes).sum();
        Order { order, tasks: of, left }
    });
    alone.collect()
}

/// The plan with what is done as it was, and how the day stands.
pub(super) fn laid_out(
    setting: Setting<'_>,
    work: &Work,
    tasks: &Tasks,
    (from_now, lost): (&FromNow, &[usize]),
    caught_up: CaughtUp,
    now: Minute,
) -> (Schedule, Now) {
    let CaughtUp { mut plan, leave_out, broken, kept, .. } = caught_up;
    for (at, logged) in from_now.logged.iter().enumerate() {
        let Some(logged) = logged else { continue };
        if let Some(start) = plan.starts.get_mut(at) {
            *start = logged.start;
        }
        if let (Some(end), Some(was)) = (plan.ends.get_mut(at), logged.end) {
            *end = was;
        }
        if let (Some(out), Some(was)) = (plan.taken_out.get_mut(at), logged.end) {
            *out = was;
        }
    }
    let hours = setting.hours.open.clone();
    let mut schedule = Schedule::of(setting, work, tasks, &plan);
    schedule.rows.retain(|row| !lost.contains(&row.task));
    let is_lost = |finals: &Vec<usize>| finals.iter().any(|at| lost.contains(at));
    let cannot: Vec<usize> = (0..).zip(&tasks.finals).filter(|(_, finals)| is_lost(finals)).map(|(at, _)| at).collect();
    let first = schedule.start;
    let of = |row: &Row| from_now.logged.get(row.task).copied().flatten();
    for row in &mut schedule.rows {
        // What is over did not go on until it was taken up.
        if let Some(end) = of(row).and_then(|logged| logged.end) {
            row.end = end - first;
            row.soonest_end = row.end;
        }
    }
    let states = schedule.rows.iter().map(|row| match of(row) {
        None => State::Ahead,
        Some(Logged { end: None, .. }) => State::Running,
        Some(_) => State::Done,
    });
    let states: Vec<State> = states.collect();
    let is_rest = |row: &Row| from_now.rests.contains(&row.task);
    let untold = schedule.rows.iter().enumerate().filter(|(_, row)| of(row).is_some_and(|one| one.said.is_none()));
    let (rests, assumed): (Vec<usize>, Vec<usize>) =
        untold.map(|(at, _)| at).partition(|at| schedule.rows.get(*at).is_some_and(is_rest));
    // What has been begun is not made ahead any more.
    let begun = |kept: &Kept| {
        let same = |row: &Row| {
            (&row.recipe, &row.part) == (&kept.recipe, &kept.part) && (kept.which.is_empty() || row.which == kept.which)
        };
        let mut rows = schedule.rows.iter().zip(&states).filter(|(row, _)| same(row));
        rows.any(|(_, state)| *state != State::Ahead)
    };
    let ahead: Vec<bool> = schedule.kept.iter().map(|kept| !begun(kept)).collect();
    let mut is_ahead = ahead.into_iter();
    schedule.kept.retain(|_| is_ahead.next().unwrap_or(true));
    let late = schedule.made.iter().enumerate().filter_map(|(order, made)| {
        let by = made.ready - made.due?;
        (by > 0 && !cannot.contains(&order)).then_some((order, by))
    });
    let late: Vec<(usize, Minute)> = late.collect();
    let row_of = |task: usize| schedule.rows.iter().position(|row| row.task == task);
    let near = kept.into_iter().filter(|(_, left)| *left <= NEAR).map(|(limit, _)| limit);
    let mut limits: Vec<NextLimit> = Vec::new();
    // What is broken is told, however much it is.
    let told = broken.into_iter().map(|limit| (limit, true)).chain(near.map(|limit| (limit, false)));
    for (limit, is_broken) in told {
        let (Some(from), Some(to)) = (row_of(limit.from), row_of(limit.to)) else { continue };
        let next = NextLimit { rule: limit.rule, from, to, by: limit.by - first };
        if (is_broken || limits.len() < MOST_LIMITS) && !limits.contains(&next) {
            limits.push(next);
        }
    }
    let taken_out = from_now.taken_out.iter().filter_map(|(out, other)| row_of(*out).zip(row_of(*other)));
    let taken_out: Vec<(usize, usize)> = taken_out.collect();
    let overdue: Vec<usize> = from_now.overdue.iter().filter_map(|task| row_of(*task)).collect();
    let overtime = overtime(&schedule, &hours, now - first, first);
    let minute = now - first;
    let otherwise = Vec::new();
    let now = Now {
        minute,
        states,
        leave_out,
        late,
        cannot,
        limits,
        assumed,
        rests,
        taken_out,
        overdue,
        overtime,
        otherwise,
    };
    (schedule, now)
}

/// By how many minutes what somebody has to be there for lasts beyond the hours in which anybody is.
fn overtime(schedule: &Schedule, open: &[Window], now: Minute, first: Minute) -> Minute {
    let attended =
        schedule.rows.iter().filter(|row| row.kind != StepKind::Wait && row.start >= now && row.start < row.end);
    let over = attended.map(|row| {
        let (start, end) = (row.start + first, row.end + first);
        let is_open = open.is_empty() || open.iter().any(|window| window.opens <= start && end <= window.closes);
        let closed = open.iter().map(|window| window.closes).filter(|closes| *closes <= end).max();
        closed.filter(|_| !is_open).map_or(0, |closed| end - closed)
    });
    over.max().unwrap_or(0)
}
