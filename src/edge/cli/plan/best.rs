//! The best plan of what was asked, in a kitchen, of what the logs leave to be done.

use super::super::orders::Asked;
use super::{Watch, rest};
use crate::edge::loader::ReadLog;
use crate::figures::run_sheet::Now;
use crate::language::syntax::Name;
use crate::model::kitchen::Kitchen;
use crate::plan::ask::Hours;
use crate::plan::catch_up::catch_up;
use crate::plan::explain::{self, Case, Early};
use crate::plan::limit::Limit;
use crate::plan::logged::{Logged, sizes};
use crate::plan::not_overdone::{self, Overdone};
use crate::plan::problem::{Lag, Minute, Problem};
use crate::plan::running::FromNow;
use crate::plan::schedule::{Schedule, Setting};
use crate::plan::shorter::{self, Otherwise, Shorter};
use crate::plan::solve::{self, Infeasible, Plan};
use crate::plan::tasks::{self, Tasks};
use crate::plan::{ahead, ask, fresh, put_away, short_visits};
use crate::text::diagnostic::Diagnostic;
use std::borrow::Cow;
use std::cell::Cell;

/// By so many minutes work may begin sooner, and each order be ready sooner, so that what is free of gluten goes into a machine first;
/// beyond that the machine is washed between. Common practice, no source.
const SOONER: Minute = 240;

/// So many minutes later work begins, beyond all by which rests can be shorter, where they are for its sake. Common practice, no source.
const WORTH_A_SHORTER_REST: Minute = 180;

/// By so many minutes what is late while a day runs may be so, where it is only asked whether there is a plan.
const A_DAY: Minute = 1440;

/// Steps of search in which sorts that are baked side by side must have a plan.
const SIDE_BY_SIDE: u64 = 20_000;

/// How often trying what would help asks whether to go on, at most; and so many times the limit it may take at all.
const EXPLAINED: u64 = 1_000_000;
const EXPLAINED_IN: u32 = 3;

/// A plan, and how the day stands where some of it is done.
pub(super) struct LaidOut {
    pub(super) schedule: Schedule,
    pub(super) now: Option<Now>,
    /// What of the logs is odd.
    pub(super) warnings: Vec<Diagnostic>,
    /// What is ready on a day before it is wanted, and not because that was asked for.
    pub(super) early: Vec<Early>,
    /// Rests that are planned at the shorter end of their range, since with the longer there is no plan, or none of the day.
    pub(super) shorter: Vec<Shorter>,
}

/// The best plan in a kitchen, of what the logs leave to be done.
///
/// # Errors
/// Why there is none.
pub(super) fn best(
    asked: &Asked,
    kitchen: &Kitchen,
    logs: &[ReadLog],
    watch: &Watch<'_>,
) -> Result<LaidOut, Vec<Diagnostic>> {
    let mut tasks = tasks::of(&asked.work, kitchen).map_err(|_| vec![explain::too_large(&asked.work)])?;
    let told = asked.now.map(|now| rest::logged(asked, &tasks, logs, now)).transpose()?;
    let is_left = |at: usize| !told.as_ref().is_some_and(|(logged, _)| logged.get(at).is_some_and(Option::is_some));
    let missing = explain::missing_equipment(&asked.work, &tasks, kitchen, is_left);
    // While the day runs what cannot be done any more is no reason to say nothing of the rest.
    let has_begun = told.as_ref().is_some_and(|(logged, _)| logged.iter().any(Option::is_some));
    if !missing.is_empty() && !has_begun {
        return Err(missing);
    }
    let hours = asked.hours(&tasks, kitchen);
    let mut problem = ask::problem(&tasks, kitchen, &hours);
    // Sorts that cannot be baked side by side, since they are not ready at once, are baked one after the other.
    let is_planned = |problem: &Problem, tasks: &Tasks| {
        let left = match asked.now.zip(told.as_ref()) {
            None => Cow::Borrowed(problem),
            // Where one went in before the other, they are apart.
            Some((_, (logged, _))) if tasks.are_in_one_by_one(|at| logged.get(*at).is_some_and(Option::is_some)) => {
                return false;
            }
            Some((now, (logged, _))) => Cow::Owned(FromNow::of(problem, tasks, logged, now).later(|_| A_DAY).problem),
        };
        solve::possible(&left, &Limit::steps(SIDE_BY_SIDE)) == Some(true)
    };
    if tasks.are_side_by_side() && !is_planned(&problem, &tasks) {
        tasks = tasks.each_by_itself();
        problem = ask::problem(&tasks, kitchen, &hours);
    }
    let planning = Planning {
        asked,
        kitchen,
        logs,
        watch,
        tasks,
        hours,
        taken: Cell::new(0),
        asked_so_far: Cell::new(0),
        is_cut_off: Cell::new(false),
        clock_ended: Cell::new(false),
    };
    let (problem, is_lightest) = planning.lightened(problem);
    match asked.now.zip(told) {
        None => planning.whole(problem, is_lightest),
        Some((now, (logged, warnings))) => planning.left(&problem, now, &logged, warnings),
    }
}

/// What is planned, with what, and how much was asked so far.
struct Planning<'a> {
    asked: &'a Asked,
    kitchen: &'a Kitchen,
    logs: &'a [ReadLog],
    watch: &'a Watch<'a>,
    tasks: Tasks,
    hours: Hours,
    /// The steps that plans took so far.
    taken: Cell<u64>,
    /// Saying why is a matter of work that is counted, so that a busy machine says the same; the clock only ends what would take far
    /// too long.
    asked_so_far: Cell<u64>,
    is_cut_off: Cell<bool>,
    /// Whether the clock ended a search before its steps were over.
    clock_ended: Cell<bool>,
}

impl Planning<'_> {
    /// Whether enough was tried to say why there is no plan, or what would help.
    fn enough(&self) -> bool {
        self.asked_so_far.set(self.asked_so_far.get().saturating_add(1));
        self.is_cut_off.set(self.is_cut_off.get() || self.watch.is_over(EXPLAINED_IN, 1));
        self.is_cut_off.get() || self.asked_so_far.get() > EXPLAINED
    }

    /// What is done within the limit that was asked for; where there is no plan, a third of the time is left to say why.
    fn within_limit<T>(&self, steps: u64, run: impl FnOnce(&Limit<'_>) -> T) -> T {
        let is_over = |parts: u32, of: u32| {
            let over = self.watch.is_over(parts, of);
            self.clock_ended.set(self.clock_ended.get() || over);
            over
        };
        let stop = || is_over(1, 1);
        let stop_without_plan = || is_over(2, 3);
        run(&Limit { steps, stop: &stop, stop_without_plan: &stop_without_plan })
    }

    /// What is planned anew, since something is asked for besides, has the steps that are left, and a quarter of all at least.
    fn plan(&self, problem: &Problem) -> Result<Plan, Infeasible> {
        let all = self.watch.search.steps_for(problem.tasks.len());
        let steps = all.saturating_sub(self.taken.get()).max(all / 4);
        let found = self.within_limit(steps, |limit| solve::plan(problem, limit));
        if let Ok(plan) = &found {
            self.taken.set(self.taken.get().saturating_add(plan.steps));
        }
        found
    }

    fn setting(&self) -> Setting<'_> {
        let Planning { asked, kitchen, hours, .. } = self;
        Setting { title: &asked.title, kitchen, hours, clock: asked.clock.clone(), units: asked.units }
    }

    fn schedule(&self, solved: &Plan) -> Schedule {
        let schedule = Schedule::of(self.setting(), &self.asked.work, &self.tasks, solved);
        Schedule { cut_by_clock: self.clock_ended.get(), ..schedule }
    }

    /// The problem with what may be done on earlier days done there, if that was asked for, and whether no more can be.
    fn lightened(&self, problem: Problem) -> (Problem, bool) {
        let Some(begins) = self.asked.last_day(&self.hours).filter(|_| self.watch.ahead) else {
            return (problem, true);
        };
        // Half of the time goes into trying what can be done before.
        let stop = || self.watch.is_over(1, 2);
        let limit = Limit { steps: ahead::STEPS, stop: &stop, stop_without_plan: &stop };
        let (fresh, rests) = self.tasks.fresh(&self.asked.work, &self.hours.dues);
        let ahead = ahead::Ahead { tasks: &self.tasks, begins, fresh: &fresh, rests: &rests };
        let lightened = ahead.lighten(problem, &limit);
        (lightened.problem, lightened.is_least)
    }

    /// Why there is no plan of a problem.
    fn explained(&self, problem: &Problem, why: &Infeasible) -> Vec<Diagnostic> {
        let (asked, kitchen) = (self.asked, self.kitchen);
        let rest = |tasks: &Tasks, whole: &Problem| {
            let now = asked.now?;
            let (logged, _) = rest::logged(asked, tasks, self.logs, now).ok()?;
            Some(FromNow::of(whole, tasks, &logged, now).at_shortest().problem)
        };
        let rest: Option<&explain::Rest<'_>> = if asked.now.is_some() { Some(&rest) } else { None };
        let stop = || self.enough();
        let (work, clock, tasks, hours) = (&asked.work, asked.clock.as_ref(), &self.tasks, &self.hours);
        // Rests at the shorter end of their range were tried already: what is too much then is too much.
        let shortest = if rest.is_none() { shorter::at_shortest(problem, tasks) } else { None };
        let problem = shortest.as_ref().unwrap_or(problem);
        let told = Case { work, tasks, kitchen, hours, problem, clock, rest, stop: &stop, fresh: true, hot: true }
            .explain(why);
        if self.is_cut_off.get() { with_no_end(told) } else { told }
    }

    /// The plan of a whole day.
    fn whole(&self, mut problem: Problem, is_lightest: bool) -> Result<LaidOut, Vec<Diagnostic>> {
        let work = &self.asked.work;
        // What is made ahead is often left alone at closing: a plan that is found at once shows where, so that it is looked for once.
        let quick = if self.watch.ahead { solve::quickly(&problem).ok() } else { None };
        let asks = quick.and_then(|plan| {
            let asks = put_away::with_somebody(&problem, &self.tasks, work, &plan)?;
            let span = solve::quickly(&asks).ok()?.score.span;
            (span <= plan.score.span + SOONER).then_some(asks)
        });
        if let Some(asks) = asks {
            problem = asks;
        }
        let (mut solved, shorter) = self.with_short_rests(&mut problem)?;
        if let Some((asks, other)) = self.not_overdone(&problem, &solved) {
            (problem, solved) = (asks, other);
        }
        // Where what cools would be left alone, somebody is there for it if that can be.
        if let Some(asks) = put_away::with_somebody(&problem, &self.tasks, work, &solved)
            && let Ok(other) = self.plan(&asks)
            && other.score.span <= solved.score.span + SOONER
        {
            (problem, solved) = (asks, other);
        }
        // Nobody comes for some minutes that the others can do as well.
        let visited = short_visits::without(&problem, &solved).and_then(|asks| {
            let other = self.within_limit(short_visits::STEPS, |limit| solve::plan(&asks, limit)).ok()?;
            (other.score.span <= solved.score.span + short_visits::SOONER).then_some((asks, other))
        });
        let is_for_a_visit = visited.is_some();
        if let Some(other) = visited {
            (problem, solved) = other;
        }
        let schedule = self.schedule(&solved);
        let schedule = Schedule { shortest: schedule.shortest && !is_for_a_visit, ..schedule };
        // What is free of gluten goes into a machine first where that can be.
        let first = explain::without_gluten_first(&schedule, work);
        let kept_apart = (!first.is_empty()).then(|| {
            problem.lags.extend(first.iter().map(|(without, with)| Lag::after(*without, *with)));
            self.plan(&problem).ok().filter(|other| other.score.span <= solved.score.span + SOONER)
        });
        let kept_apart = kept_apart.flatten().map(|solved| self.schedule(&solved));
        let mut schedule = kept_apart.filter(|other| !is_much_sooner(other, &schedule)).unwrap_or(schedule);
        if !is_lightest {
            schedule.given_up.insert(0, ahead::MEASURE);
        }
        let early = self.ready_days_early(&schedule, &problem);
        Ok(LaidOut { schedule, now: None, warnings: Vec::new(), early, shorter })
    }

    /// A plan in which what is ready hours too soon anyway neither goes on in the warm nor stands for it, and nothing more is of another day.
    fn not_overdone(&self, problem: &Problem, solved: &Plan) -> Option<(Problem, Plan)> {
        let (tasks, hours) = (&self.tasks, &self.hours);
        let clock = self.asked.clock.as_ref().filter(|_| !self.watch.ahead)?;
        // What is of another day is nothing to anybody who wants it fresh.
        let is_of_its_day = |plan: &Plan| fresh::of_another_day(tasks, hours, clock, plan).is_empty();
        if !is_of_its_day(solved) {
            return None;
        }
        let overdone = Overdone::of(problem, tasks, &self.asked.work, hours, solved)?;
        not_overdone::AT_MOST.into_iter().find_map(|most| {
            let asks = overdone.within(problem, most);
            if solve::quickly(&asks).is_err() {
                return None;
            }
            let other = self.plan(&asks).ok()?;
            is_of_its_day(&other).then_some((asks, other))
        })
    }

    /// What is ready on a day before it is wanted; what is made ahead is so because that was asked for.
    fn ready_days_early(&self, schedule: &Schedule, problem: &Problem) -> Vec<Early> {
        if self.watch.ahead {
            return Vec::new();
        }
        let (work, kitchen, tasks, hours) = (&self.asked.work, self.kitchen, &self.tasks, &self.hours);
        let soonest = |order: usize, early: &[usize]| {
            let clock = self.asked.clock.as_ref();
            let stop = || self.enough();
            let case =
                Case { work, tasks, kitchen, hours, problem, clock, rest: None, stop: &stop, fresh: true, hot: true };
            case.ready_on_the_day(order, early)
        };
        explain::ready_days_early(schedule, &work.orders, (tasks, kitchen), soonest)
    }

    /// A plan of a problem. Before there is none at all, or what does not keep is of the day before, rests take the shorter time that their
    /// formula allows, which the problem then says.
    fn with_short_rests(&self, problem: &mut Problem) -> Result<(Plan, Vec<Shorter>), Vec<Diagnostic>> {
        let stop = || self.enough();
        let (tasks, hours, clock) = (&self.tasks, &self.hours, self.asked.clock.as_ref());
        // Which orders, that do not keep, a plan has ready on a day before.
        let early =
            |plan: &Plan| clock.map(|clock| fresh::of_another_day(tasks, hours, clock, plan)).unwrap_or_default();
        let short = |problem: &Problem, is_meant: &dyn Fn(usize) -> bool| {
            let fresh = |problem: &Problem| match clock {
                Some(clock) => fresh::on_the_day(problem, tasks, hours, clock, is_meant),
                None => problem.clone(),
            };
            shorter::rests(problem, tasks, &fresh, &stop)
        };
        match self.plan(problem) {
            Ok(solved) => {
                let late: Vec<usize> = if self.watch.ahead { Vec::new() } else { early(&solved) };
                // All of them, and else the first of which that can be, beside those that are of their day anyhow.
                let mut tried = Vec::new();
                if !late.is_empty() {
                    tried.push(late.clone());
                }
                if late.len() > 1 {
                    tried.extend(late.iter().map(|one| vec![*one]));
                }
                for some in tried {
                    let is_meant = |order: usize| !late.contains(&order) || some.contains(&order);
                    let Some((asks, rests)) = short(problem, &is_meant) else { continue };
                    if rests.is_empty() {
                        continue;
                    }
                    if let Ok(other) = self.plan(&asks)
                        && early(&other).len() < late.len()
                    {
                        *problem = asks;
                        let rests = rests.into_iter().map(|rest| Shorter { otherwise: Otherwise::DayBefore, ..rest });
                        return Ok((other, rests.collect()));
                    }
                }
                if let Some((asks, other, rests)) = self.with_fewer_hours_before(problem, &solved, &late) {
                    *problem = asks;
                    return Ok((other, rests));
                }
                let later = if self.watch.ahead { None } else { self.with_a_later_start(problem, &solved) };
                let later = later.filter(|(_, other, _)| early(other).len() <= late.len());
                Ok(match later {
                    Some((asks, other, rests)) => {
                        *problem = asks;
                        (other, rests)
                    }
                    None => (solved, Vec::new()),
                })
            }
            Err(why) => {
                let found = match why {
                    Infeasible::Faults(_) => None,
                    _ => short(problem, &|_| true),
                };
                let Some((asks, rests)) = found else { return Err(self.explained(problem, &why)) };
                *problem = asks;
                Ok((self.plan(problem).map_err(|why| self.explained(problem, &why))?, rests))
            }
        }
    }

    /// A plan with shorter rests in which less of what does not keep is ready hours before it is wanted, all on its day: as many as can be of
    /// those that are so in another plan, or one of them.
    fn with_fewer_hours_before(
        &self,
        problem: &Problem,
        solved: &Plan,
        of_another_day: &[usize],
    ) -> Option<(Problem, Plan, Vec<Shorter>)> {
        let (tasks, hours) = (&self.tasks, &self.hours);
        self.asked.clock.as_ref().filter(|_| !self.watch.ahead)?;
        let too_soon = |plan: &Plan| fresh::too_soon(tasks, hours, plan);
        let all: Vec<usize> = too_soon(solved).into_iter().filter(|order| !of_another_day.contains(order)).collect();
        let before = |plan: &Plan| {
            let of = |order: &usize| {
                let due = hours.dues.get(*order).copied().flatten()?;
                Some(due - fresh::ready(plan, tasks, tasks.finals.get(*order)?, due)?)
            };
            all.iter().filter_map(of).max()
        };
        let stop = || self.enough();
        let each = if all.len() > 1 { all.iter().map(|one| vec![*one]).collect() } else { Vec::new() };
        let tried = std::iter::once(all.clone()).filter(|all| !all.is_empty()).chain(each);
        tried.into_iter().find_map(|some| {
            let later = |problem: &Problem| fresh::within_hours(problem, tasks, hours, |order| some.contains(&order));
            let (asks, rests) = shorter::rests(problem, tasks, &later, &stop).filter(|(_, rests)| !rests.is_empty())?;
            let other = self.plan(&asks).ok()?;
            let fewer = too_soon(&other).len() < too_soon(solved).len();
            let by = before(solved).filter(|_| fewer)?;
            let rests = rests.into_iter().map(|rest| Shorter { otherwise: Otherwise::Early(by), ..rest });
            Some((asks, other, rests.collect()))
        })
    }

    /// A plan that begins hours later than another, by much more than its rests are shorter in it: one that asks for a rest's last minute is not
    /// worth that somebody of another shift mixes.
    fn with_a_later_start(&self, problem: &Problem, solved: &Plan) -> Option<(Problem, Plan, Vec<Shorter>)> {
        let (tasks, dues) = (&self.tasks, self.hours.dues.iter().flatten());
        let due = dues.max().copied().filter(|_| self.asked.clock.is_some())?;
        let room = shorter::room(tasks);
        let most = solved.score.span - room - WORTH_A_SHORTER_REST;
        if room == 0 || most <= 0 {
            return None;
        }
        let quick = solve::quickly(&shorter::at_shortest(problem, tasks)?).ok()?;
        let span = quick.score.span.min(most);
        let stop = || self.enough();
        let later = |problem: &Problem| Problem { earliest: Some(due - span - room), ..problem.clone() };
        let (asks, rests) = if quick.score.span > most { None } else { shorter::rests(problem, tasks, &later, &stop) }?;
        let other = self.plan(&asks).ok().filter(|_| !rests.is_empty())?;
        let sooner = solved.score.span - other.score.span;
        let rests = rests.into_iter().map(|rest| Shorter { otherwise: Otherwise::Sooner(sooner), ..rest });
        (sooner >= WORTH_A_SHORTER_REST).then(|| (asks, other, rests.collect()))
    }

    /// The plan of what is left of a day. A rest that has had its time is over when what it is in breaks down; where that leaves no plan of all
    /// the others, what was in it is lost.
    fn left(
        &self,
        problem: &Problem,
        now: Minute,
        logged: &[Option<Logged>],
        warnings: Vec<Diagnostic>,
    ) -> Result<LaidOut, Vec<Diagnostic>> {
        let is_gone = |name: &Name| self.kitchen.find(name).is_none();
        let over = FromNow::of(problem, &self.tasks, logged, now).over_without(&self.tasks, is_gone);
        let mut known = logged.to_vec();
        for (at, rest) in &over {
            if let Some(slot) = known.get_mut(*at) {
                *slot = Some(*rest);
            }
        }
        let found = self.left_of(problem, now, &known);
        let found = if over.is_empty() { found } else { found.or_else(|_| self.left_of(problem, now, logged)) };
        match found {
            Ok(mut found) => {
                found.warnings.splice(0..0, warnings);
                Ok(found)
            }
            // What is at the shorter end of its range was tried already.
            Err(why) => Err(self.explained(&why.0.at_shortest().problem, &why.1)),
        }
    }

    /// The same with what is known of each task.
    ///
    /// # Errors
    /// What was asked, and why there is no plan of it.
    fn left_of(
        &self,
        problem: &Problem,
        now: Minute,
        known: &[Option<Logged>],
    ) -> Result<LaidOut, Box<(FromNow, Infeasible)>> {
        let (asked, tasks) = (self.asked, &self.tasks);
        let runs = |at: usize| known.get(at).is_some_and(Option::is_none);
        let warnings = explain::missing_equipment(&asked.work, tasks, self.kitchen, runs);
        let lost = explain::lost(tasks, self.kitchen, problem, &runs);
        let whole = FromNow::of(problem, tasks, known, now);
        let from_now = if lost.is_empty() { whole } else { whole.without(|task| lost.contains(&task)) };
        let wanted = rest::orders(asked, tasks);
        let steps = self.watch.search.steps_for(from_now.problem.tasks.len());
        let caught_up = self.within_limit(steps, |limit| catch_up(&from_now, now, &wanted, limit));
        let caught_up = caught_up.map_err(|why| Box::new((from_now.clone(), why)))?;
        let shorter = self.shorter(&caught_up.shorter);
        let minute = now;
        let (schedule, now) = rest::laid_out(self.setting(), &asked.work, tasks, (&from_now, &lost), caught_up, now);
        let otherwise = self.logs.iter().filter_map(|log| {
            let of = (&log.log, log.recipe?);
            sizes::otherwise((&asked.work, tasks), of, &from_now.logged, (asked.clock.as_ref()?, minute))
        });
        let now = Now { otherwise: otherwise.collect(), ..now };
        let schedule = Schedule { cut_by_clock: self.clock_ended.get(), ..schedule };
        Ok(LaidOut { schedule, now: Some(now), warnings, early: Vec::new(), shorter })
    }

    /// What is tended and planned at the shorter end of its range, step by step.
    fn shorter(&self, loads: &[(usize, Otherwise)]) -> Vec<Shorter> {
        let mut steps: Vec<Shorter> = Vec::new();
        for (at, otherwise) in loads {
            let Some(task) = self.tasks.list.get(*at) else { continue };
            let (batch, step) = (task.batch, task.step);
            if !steps.iter().any(|known| (known.batch, known.step) == (batch, step)) {
                let (minutes, longest) = (task.least_minutes, task.minutes);
                let otherwise = *otherwise;
                steps.push(Shorter { batch, step, minutes, longest, otherwise, beside_others: false });
            }
        }
        let beside_others = steps.len() > 1;
        steps.into_iter().map(|step| Shorter { beside_others, ..step }).collect()
    }
}

/// Problems of which the first says that not everything was tried.
fn with_no_end(mut problems: Vec<Diagnostic>) -> Vec<Diagnostic> {
    if let Some(first) = problems.first_mut() {
        let said = "the time was over before everything was tried: with a longer --limit less may be enough";
        first.help = Some(first.help.take().map_or_else(|| said.to_owned(), |help| format!("{help}; {said}")));
    }
    problems
}

/// Whether an order is ready much sooner in one plan than in another.
fn is_much_sooner(one: &Schedule, other: &Schedule) -> bool {
    let ready = |plan: &Schedule| plan.made.iter().map(|made| plan.start + made.ready).collect::<Vec<Minute>>();
    ready(one).into_iter().zip(ready(other)).any(|(one, other)| one + SOONER < other)
}
