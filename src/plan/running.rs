//! A plan from now on: what has ended is done, what has begun goes on, and the rest is planned after it.
//!
//! In the problem that is made here nothing lies before now: what is done takes no time and holds nothing, what runs has only
//! what is left of it, and what depends on either counts from when it really began or ended.

mod follows;
mod ways;

use super::anyway;
use super::logged::Logged;
use super::problem::{Due, Edge, Kind, Label, Lag, Minute, Point, Problem, Rule, Stand, Standing, Task, Window};
use super::tasks::Tasks;
use crate::model::step::StepKind;
use follows::Known;
use ways::beyond;

/// A limit on how long something may go on or stand that runs now.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct RunningLimit {
    /// Why there is a limit.
    pub rule: Rule,
    /// The task from which it counts.
    pub from: usize,
    /// The task that has to begin by then.
    pub to: usize,
    /// The moment.
    pub by: Minute,
    /// Which lag of the problem it is.
    lag: usize,
}

/// What takes a range of times and is not over.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
struct OfARange {
    task: usize,
    /// The task that holds its unit.
    holder: usize,
    /// How many minutes sooner it may end than it is planned.
    sooner: Minute,
}

/// A problem from now on.
#[derive(Debug, Clone)]
pub struct FromNow {
    /// The problem; its first tasks are those of the whole problem.
    pub problem: Problem,
    /// The limits that run, the first to end first.
    pub limits: Vec<RunningLimit>,
    /// The moment from which on is planned.
    now: Minute,
    /// What is known of each task, also of those that must be over because something after them has begun.
    pub logged: Vec<Option<Logged>>,
    /// The rests among them that no log names: they need nobody, and run from the end of what they come after.
    pub rests: Vec<usize>,
    /// What a log has running although its unit has taken something else since: the one, and the other.
    pub taken_out: Vec<(usize, usize)>,
    /// What the log has in the heat long after its time was up, and counts as out since then.
    pub overdue: Vec<usize>,
    /// Limits of what is still to come that are broken with one that runs, or because nothing else is left; `by` counts from
    /// [`FromNow::counts_from`].
    pub after: Vec<RunningLimit>,
    /// The rests of which a range of times is said, and what is tended.
    rests_of_a_range: Vec<OfARange>,
    bakes_of_a_range: Vec<OfARange>,
}

impl FromNow {
    /// What is left of a problem.
    pub fn of(whole: &Problem, tasks: &Tasks, logged: &[Option<Logged>], now: Minute) -> FromNow {
        let Known { logged, rests, taken_out, overdue } = Known::of(whole, tasks, logged, now);
        let mut left = Left { whole, tasks, logged: &logged, now, problem: whole.clone(), limits: Vec::new() };
        left.tasks();
        left.lags();
        left.holds();
        left.hours();
        let Left { mut problem, mut limits, .. } = left;
        let is_broken = |limit: &&RunningLimit| problem.lags.get(limit.lag).is_some_and(|lag| lag.most.is_none());
        let over: Vec<Standing> =
            limits.iter().filter(is_broken).filter_map(|limit| beyond(&problem, limit, 0)).collect();
        problem.standing.extend(over);
        in_their_order(&mut problem, tasks, &logged);
        pin(&mut problem, &logged, now);
        // What is ready too soon anyway from here on rests for as long as is written.
        anyway::rest_as_written(&mut problem, &tasks.warm);
        limits.sort_by_key(|limit| limit.by);
        let of_a_range = |kind: StepKind| {
            let ranges = tasks.list.iter().enumerate().filter_map(|(at, task)| {
                let sooner = task.minutes - task.least_minutes;
                let is_open = logged.get(at).is_none_or(|logged| logged.is_none_or(|logged| logged.end.is_none()));
                let range = OfARange { task: at, holder: tasks.holder(at).unwrap_or(at), sooner };
                (task.kind == kind && sooner > 0 && is_open).then_some(range)
            });
            ranges.collect()
        };
        let (rests_of_a_range, bakes_of_a_range) = (of_a_range(StepKind::Wait), of_a_range(StepKind::Tend));
        FromNow {
            problem,
            limits,
            now,
            logged,
            rests,
            taken_out,
            overdue,
            after: Vec::new(),
            rests_of_a_range,
            bakes_of_a_range,
        }
    }
}

/// Makes a task one that takes nothing and nobody.
fn nothing(task: &mut Task) {
    *task = Task { kind: Kind::Wait, shortest: 0, longest: 0, cooks: 0, holds: None, ..task.clone() };
}

/// When each task can start at the soonest, by what hangs on what and what is done: lighting what must be hot is left out of it.
fn soonest(whole: &Problem, logged: &[Option<Logged>], now: Minute) -> Vec<Minute> {
    let known = |task: usize| logged.get(task).copied().flatten();
    let mut times: Vec<(Minute, Minute)> = (0..whole.tasks.len())
        .map(|task| match known(task) {
            Some(logged) => (logged.start, logged.end.unwrap_or(now)),
            None => (now, now),
        })
        .collect();
    // As many rounds as there are tasks one after the other, of which there are mostly few.
    for _ in 0..=whole.tasks.len() {
        let before = times.clone();
        for (at, task) in whole.tasks.iter().enumerate() {
            if let Some((start, end)) = times.get_mut(at) {
                *end = (*end).max(*start + task.shortest);
                *start = if known(at).is_some() { *start } else { (*start).max(*end - task.longest) };
            }
        }
        for lag in whole.lags.iter().filter(|lag| lag.rule != Rule::Lit) {
            let Some((start, end)) = times.get(lag.from.task).copied() else { continue };
            let from = if lag.from.edge == Edge::Start { start } else { end };
            let is_known = known(lag.to.task);
            let Some((start, end)) = times.get_mut(lag.to.task) else { continue };
            match lag.to.edge {
                Edge::Start if is_known.is_none() => *start = (*start).max(from + lag.least),
                Edge::End if is_known.is_none_or(|one| one.end.is_none()) => *end = (*end).max(from + lag.least),
                _ => {}
            }
        }
        if times == before {
            break;
        }
    }
    times.into_iter().map(|(start, _)| start).collect()
}

/// What has to go in within so many minutes after it can had its oven lit in time; what may wait for longer waits for one that is cold. Common
/// practice, no source.
const NOT_FOR_LONG: Minute = 120;

/// When each task has to start at the latest, by the limits that count from what is known; `None` where there is none.
fn latest(whole: &Problem, logged: &[Option<Logged>]) -> Vec<Option<Minute>> {
    let known = |task: usize| logged.get(task).copied().flatten();
    let least = |one: Option<Minute>, other: Option<Minute>| one.into_iter().chain(other).min();
    let mut times: Vec<(Option<Minute>, Option<Minute>)> = (0..whole.tasks.len())
        .map(|task| known(task).map_or((None, None), |logged| (Some(logged.start), logged.end)))
        .collect();
    for _ in 0..=whole.tasks.len() {
        let before = times.clone();
        for (at, task) in whole.tasks.iter().enumerate() {
            if let Some((start, end)) = times.get_mut(at) {
                *end = least(*end, start.map(|start| start + task.longest));
                *start = if known(at).is_some() { *start } else { least(*start, end.map(|end| end - task.shortest)) };
            }
        }
        for lag in whole.lags.iter().filter(|lag| lag.rule != Rule::Lit && known(lag.to.task).is_none()) {
            let Some((start, end)) = times.get(lag.from.task).copied() else { continue };
            let from = if lag.from.edge == Edge::Start { start } else { end };
            let by = from.zip(lag.most).map(|(from, most)| from + most);
            let Some((start, end)) = times.get_mut(lag.to.task) else { continue };
            match lag.to.edge {
                Edge::Start => *start = least(*start, by),
                Edge::End => *end = least(*end, by),
            }
        }
        if times == before {
            break;
        }
    }
    times.into_iter().map(|(start, _)| start).collect()
}

struct Left<'a> {
    whole: &'a Problem,
    tasks: &'a Tasks,
    logged: &'a [Option<Logged>],
    now: Minute,
    problem: Problem,
    limits: Vec<RunningLimit>,
}

impl Left<'_> {
    fn logged(&self, task: usize) -> Option<Logged> {
        self.logged.get(task).copied().flatten()
    }

    /// When a moment was; `None` where it is still to come.
    fn was(&self, point: Point) -> Option<Minute> {
        let logged = self.logged(point.task)?;
        match point.edge {
            Edge::Start => Some(logged.start),
            Edge::End => logged.end,
        }
    }

    fn tasks(&mut self) {
        // An oven that was in use is hot: the last load in it stays as a moment, so that a change of heat takes its time.
        let mut last: Vec<(usize, usize, Minute)> = Vec::new();
        for (at, logged) in self.logged.iter().enumerate() {
            let holder = self.tasks.holder(at).unwrap_or(at);
            let holds = self.whole.tasks.get(holder).and_then(|task| task.holds);
            if let (Some(Logged { end: Some(end), .. }), Some(holds)) = (logged, holds)
                && holder == at
                && self.whole.equipment.get(holds.equipment).is_some_and(|equipment| equipment.heating > 0)
            {
                last.push((holds.equipment, at, *end));
            }
        }
        last.sort_by_key(|(equipment, at, end)| (*equipment, -*end, *at));
        let in_use = |equipment: usize| {
            let running =
                self.logged.iter().enumerate().filter(|(_, logged)| logged.is_some_and(|one| one.end.is_none()));
            let holds =
                |at: usize| self.whole.tasks.get(self.tasks.holder(at).unwrap_or(at)).and_then(|task| task.holds);
            running.filter(|(at, _)| holds(*at).is_some_and(|holds| holds.equipment == equipment)).count()
        };
        let mut kept: Vec<usize> = Vec::new();
        for of_one in last.chunk_by(|one, other| one.0 == other.0) {
            let Some((equipment, ..)) = of_one.first() else { continue };
            let count = self.whole.equipment.get(*equipment).map_or(0, |equipment| equipment.count);
            let free = usize::try_from(count).unwrap_or(0).saturating_sub(in_use(*equipment));
            kept.extend(of_one.iter().take(free).map(|(_, at, _)| *at));
        }
        let now = self.now;
        for (at, logged) in self.logged.iter().enumerate() {
            let (Some(logged), Some(task)) = (logged, self.problem.tasks.get_mut(at)) else { continue };
            if logged.end.is_some() {
                let holds = task.holds.filter(|_| kept.contains(&at));
                nothing(task);
                task.holds = holds.map(|holds| super::problem::Holding { setting: holds.leaves, ..holds });
            } else {
                let passed = now - logged.start;
                task.shortest = (task.shortest - passed).max(0);
                task.longest = (task.longest - passed).max(task.shortest);
            }
        }
    }

    fn lags(&mut self) {
        let used: Vec<usize> = (0..self.logged.len())
            .filter(|at| self.logged(*at).is_some())
            .filter_map(|at| self.whole.tasks.get(self.tasks.holder(at).unwrap_or(at))?.holds)
            .map(|holds| holds.equipment)
            .collect();
        let is_step = |point: Point| point.task < self.logged.len();
        // While the day runs, what is to be hot soon was lit in time unless it is needed later than it takes to heat it.
        let begun = self.logged.iter().any(Option::is_some);
        let soonest = if begun { soonest(self.whole, self.logged, self.now) } else { Vec::new() };
        let latest = if begun { latest(self.whole, self.logged) } else { Vec::new() };
        // What can wait in the cold, or keeps, is no reason to believe it.
        let (tasks, logged, now) = (self.tasks, self.logged, self.now);
        let is_ready = |task: usize| {
            tasks.long.iter().any(|stand| match stand {
                Stand::Between { made, used } => *used == task && logged.get(*made).is_some_and(Option::is_some),
                _ => false,
            })
        };
        let waits_for_it = |task: usize, start: Minute| {
            is_ready(task) || latest.get(task).copied().flatten().is_some_and(|latest| latest <= start + NOT_FOR_LONG)
        };
        let is_lit = |lag: &Lag| {
            let start = soonest.get(lag.to.task).filter(|start| **start < now + lag.least);
            start.is_some_and(|start| waits_for_it(lag.to.task, *start))
        };
        let mut lags = Vec::with_capacity(self.problem.lags.len());
        for lag in &self.whole.lags {
            let (from, to) = (self.was(lag.from), self.was(lag.to));
            let kept = match (is_step(lag.from), is_step(lag.to)) {
                // Both were: nothing is left to decide.
                _ if from.is_some() && to.is_some() => None,
                // Somebody was there, and the oven was lit.
                (true, false) if from.is_some() => None,
                (false, true) if to.is_some() => None,
                (false, true) if lag.rule == Rule::Lit => {
                    let holder = self.tasks.holder(lag.to.task).unwrap_or(lag.to.task);
                    let holds = self.whole.tasks.get(holder).and_then(|task| task.holds);
                    let is_hot = holds.is_some_and(|holds| used.contains(&holds.equipment)) || is_lit(lag);
                    Some(*lag).filter(|_| !is_hot)
                }
                _ => Some(*lag),
            };
            let Some(mut lag) = kept else { continue };
            match (from, to) {
                (Some(was), None) => {
                    let most = lag.most.map(|most| was + most);
                    lag.least = (was + lag.least - self.now).max(0);
                    lag.most = most.map(|by| by - self.now);
                    if let Some(by) = most {
                        self.limits.push(RunningLimit {
                            rule: lag.rule,
                            from: lag.from.task,
                            to: lag.to.task,
                            by,
                            lag: lags.len(),
                        });
                        // What is over is over; the plan comes as near as it can.
                        lag.most = lag.most.filter(|most| *most >= lag.least);
                    }
                }
                // It will be over at once: what it should have preceded has been.
                (None, Some(_)) => continue,
                _ => {}
            }
            lags.push(lag);
        }
        self.problem.lags = lags;
    }

    /// What something is in is held from now on, and what all is taken out of is free.
    fn holds(&mut self) {
        for (number, hold) in self.tasks.holds.iter().enumerate() {
            let at = self.tasks.list.len() + number;
            let began = hold.tasks.first().is_some_and(|first| self.logged(*first).is_some());
            if !began {
                continue;
            }
            let over = hold.until.iter().all(|until| self.was(*until).is_some());
            let now = Point::start(self.problem.tasks.len());
            let Some(task) = self.problem.tasks.get_mut(at) else { continue };
            if over {
                nothing(task);
            } else {
                task.shortest = 0;
                // What is held takes a minute at least, and what is over may be taken out now.
                let is_its_end = |lag: &&mut Lag| lag.rule == Rule::Held && lag.to == Point::end(at);
                for lag in self.problem.lags.iter_mut().filter(is_its_end) {
                    lag.most = lag.most.map(|most| most.max(1));
                }
            }
            self.problem.lags.push(Lag { from: now, to: Point::start(at), least: 0, most: Some(0), rule: Rule::Held });
        }
    }

    /// Whoever works at something now is there now; whoever is late in their shift has rested.
    fn hours(&mut self) {
        // What is hot by now was heated before.
        let heating = self.whole.heated.iter().map(|(_, minutes)| *minutes).max().unwrap_or(0);
        let mut closed = Minute::MIN;
        for window in &mut self.problem.open {
            if window.opens <= self.now && self.now < window.closes {
                window.opens = window.opens.min((self.now - heating).max(closed + 1));
            }
            closed = window.closes;
        }
        for shift in self.problem.people.iter_mut().flat_map(|person| &mut person.shifts) {
            if shift.window.opens < self.now && self.now < shift.window.closes {
                if self.now > shift.rests_between().1 {
                    shift.rest = 0;
                }
                shift.window.opens = self.now;
            }
        }
        let mut until = self.now;
        for (at, logged) in self.logged.iter().enumerate() {
            let Some(task) = self.problem.tasks.get_mut(at).filter(|_| logged.is_some_and(|one| one.end.is_none()))
            else {
                continue;
            };
            if task.kind == Kind::Hands {
                until = until.max(self.now + task.shortest);
            }
        }
        let is_there = |windows: &[Window]| {
            windows.is_empty() || windows.iter().any(|window| window.opens <= self.now && until <= window.closes)
        };
        let people = self.problem.people.iter();
        let here = people.filter(|person| {
            let windows: Vec<Window> = person.shifts.iter().map(|shift| shift.window).collect();
            is_there(&windows)
        });
        let have =
            if self.problem.people.is_empty() { self.problem.cooks } else { u32::try_from(here.count()).unwrap_or(0) };
        let runs = |logged: &Option<Logged>| logged.is_some_and(|one| one.end.is_none());
        let running = self.problem.tasks.iter().zip(self.logged).filter(|(_, logged)| runs(logged));
        let needed: u32 = running.map(|(task, _)| task.cooks).fold(0, u32::saturating_add);
        if needed <= have && is_there(&self.problem.open) {
            return;
        }
        // The log says that they work; who it is, the kitchen does not know.
        for (task, logged) in self.problem.tasks.iter_mut().zip(self.logged) {
            if runs(logged) && task.kind != Kind::Wait {
                *task = Task { kind: Kind::Wait, cooks: 0, longest: task.shortest, ..task.clone() };
            }
        }
    }
}

/// Loads of a step are taken in the order of their numbers; of those that have begun that is the order in which they did, whichever numbers
/// the log gives them, and so it is of what follows each of them.
fn in_their_order(problem: &mut Problem, tasks: &Tasks, logged: &[Option<Logged>]) {
    let mut all: Vec<usize> = (0..tasks.list.len()).collect();
    let step = |at: &usize| tasks.list.get(*at).map(|task| (task.batch, task.step.part, task.step.step, task.turn));
    all.sort_by_key(|at| (step(at), *at));
    let begun = |at: &usize| logged.get(*at).copied().flatten().map(|one| one.start);
    let is_later =
        |one: &usize, other: &usize| (begun(one).is_none(), begun(one)) > (begun(other).is_none(), begun(other));
    let out_of_order = all.windows(2).any(|pair| match pair {
        [one, other] => step(one) == step(other) && is_later(one, other),
        _ => false,
    });
    if !out_of_order {
        return;
    }
    let mut before: Vec<Vec<usize>> = vec![Vec::new(); tasks.list.len()];
    for lag in tasks.lags.iter().filter(|lag| lag.from.edge == Edge::End && lag.least >= 0) {
        if let Some(before) = before.get_mut(lag.to.task) {
            before.push(lag.from.task);
        }
    }
    for loads in all.chunk_by(|one, other| step(one) == step(other)) {
        let follows = |at: &usize| {
            let before = before.get(*at).map_or(&[][..], Vec::as_slice).iter();
            before.filter_map(|before| problem.tasks.get(*before)).map(|task| task.label.load).max()
        };
        let mut order: Vec<usize> = loads.to_vec();
        order.sort_by_key(|at| (begun(at).is_none(), begun(at), follows(at), *at));
        let mut labels: Vec<Label> =
            loads.iter().filter_map(|at| problem.tasks.get(*at)).map(|task| task.label).collect();
        labels.sort_unstable();
        for (at, label) in order.into_iter().zip(labels) {
            if let Some(task) = problem.tasks.get_mut(at) {
                task.label = label;
            }
        }
    }
}

/// Puts what is done, and the start of what runs, at now.
fn pin(problem: &mut Problem, logged: &[Option<Logged>], now: Minute) {
    let number = problem.tasks.len();
    let label = Label { recipe: 4, part: number, step: 0, load: 0 };
    problem.tasks.push(Task { label, kind: Kind::Wait, shortest: 0, longest: 0, cooks: 0, holds: None });
    problem.earliest = Some(now);
    for due in &mut problem.dues {
        let is_done = |at: &usize| logged.get(*at).is_some_and(|one| one.is_some_and(|one| one.end.is_some()));
        // What is ready is ready, also after its time.
        if due.tasks.iter().all(is_done) {
            due.minute = due.minute.max(now);
        }
    }
    let begun = (0..logged.len()).filter(|at| logged.get(*at).is_some_and(Option::is_some));
    let at_now = begun.map(|at| Lag {
        from: Point::start(number),
        to: Point::start(at),
        least: 0,
        most: Some(0),
        rule: Rule::After,
    });
    problem.lags.extend(at_now);
    problem.dues.push(Due { tasks: vec![number], minute: now });
}
