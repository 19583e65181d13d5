//! Ways in which the rest of a day can go when it does not go as it should: later, longer, in a hurry, or without something.

use super::super::logged::Logged;
use super::super::problem::{Edge, Lag, Minute, Point, Problem, Rule, Stand, Standing, Window};
use super::super::solve::Plan;
use super::super::tasks::Tasks;
use super::{FromNow, OfARange, RunningLimit, nothing};
use crate::language::syntax::Name;
use crate::model::step::StepKind;

/// What a minute counts by which something goes on beyond a limit that cannot be kept any more: more than any oven, and than any order that
/// is ready too soon. Common practice, no source.
const BEYOND_ITS_LIMIT: u32 = 20;

/// Who comes within so many minutes comes on the same day.
const A_DAY_ON: Minute = 720;

impl RunningLimit {
    /// Whether what is past it is gone on with at once: what is alive, or was to be done while it is good.
    fn hurries(&self) -> bool {
        use Rule::{Alive, AtOnce, FirstPiece, Keeps, StraightAfter, UpTo, Within};
        matches!(self.rule, Alive | AtOnce | FirstPiece | Keeps | StraightAfter | UpTo | Within)
    }
}

/// What counts when something begins after a limit, which comes so many minutes after now.
pub(super) fn beyond(problem: &Problem, limit: &RunningLimit, left: Minute) -> Option<Standing> {
    let lag = problem.lags.get(limit.lag).filter(|lag| lag.to.edge == Edge::Start && limit.hurries())?;
    let rest = if lag.from.edge == Edge::Start { problem.tasks.get(lag.from.task)?.shortest } else { 0 };
    let stand = Stand::Between { made: lag.from.task, used: lag.to.task };
    Some(Standing { stand, weight: BEYOND_ITS_LIMIT, free: (left - rest).max(0) })
}

impl FromNow {
    /// The same with the shorter ends of the times of some rests; `None` where none of them has a range.
    #[must_use]
    pub fn with_short_rests(&self, is_meant: impl Fn(usize) -> bool) -> Option<FromNow> {
        let mut other = self.clone();
        let mut any = false;
        for range in self.rests_of_a_range.iter().filter(|range| is_meant(range.task)) {
            any |= other.shorten(*range);
        }
        // Asked again they are as short as they may be.
        other.rests_of_a_range.retain(|range| !is_meant(range.task));
        any.then_some(other)
    }

    /// The same of what is tended: it comes out by its sign, as soon as its time allows.
    #[must_use]
    pub fn with_short_bakes(&self, is_meant: impl Fn(usize) -> bool) -> Option<FromNow> {
        let mut other = self.clone();
        let mut any = false;
        for range in self.bakes_of_a_range.iter().filter(|range| is_meant(range.task)) {
            any |= other.shorten(*range);
            // Nobody draws out what is in the heat.
            if let Some(task) = other.problem.tasks.get_mut(range.task) {
                task.longest = task.longest.min(task.shortest.max(0));
            }
        }
        other.bakes_of_a_range.retain(|range| !is_meant(range.task));
        any.then_some(other)
    }

    /// The same with all that has a range of times at its shorter end.
    #[must_use]
    pub fn at_shortest(&self) -> FromNow {
        let rests = self.with_short_rests(|_| true);
        let rests = rests.unwrap_or_else(|| self.clone());
        rests.with_short_bakes(|_| true).unwrap_or(rests)
    }

    /// What is tended, has a range of times, and is planned with its longer end here.
    pub fn long_bakes(&self) -> impl Iterator<Item = usize> {
        self.bakes_of_a_range.iter().map(|range| range.task)
    }

    fn shorten(&mut self, range: OfARange) -> bool {
        let mut any = false;
        for at in if range.task == range.holder { vec![range.task] } else { vec![range.task, range.holder] } {
            if let Some(task) = self.problem.tasks.get_mut(at) {
                any |= task.shortest > 0;
                task.shortest = (task.shortest - range.sooner).max(0);
            }
        }
        any
    }

    /// The rests that run in what is not there any more and have had the shorter end of their time: each over at this moment.
    pub fn over_without(&self, tasks: &Tasks, is_gone: impl Fn(&Name) -> bool) -> Vec<(usize, Logged)> {
        let over = tasks.list.iter().zip(&self.logged).enumerate().filter_map(|(at, (task, logged))| {
            let rest = (*logged).filter(|rest| rest.end.is_none() && task.kind == StepKind::Wait)?;
            let has_had_it = self.now - rest.start >= task.least_minutes;
            let is_in_it = task.equipment.as_ref().is_some_and(&is_gone);
            (has_had_it && is_in_it).then_some((at, Logged { end: Some(self.now), ..rest }))
        });
        over.collect()
    }

    /// The same with everything wanted so much later.
    #[must_use]
    pub fn later(&self, by: impl Fn(usize) -> Minute) -> FromNow {
        let mut other = self.clone();
        // The last of them holds what is done.
        let orders = other.problem.dues.len().saturating_sub(1);
        for (number, due) in other.problem.dues.iter_mut().take(orders).enumerate() {
            due.minute += by(number);
        }
        other
    }

    /// Whether a limit is broken that something hurries for.
    pub fn is_over(&self) -> bool {
        self.limits.iter().any(|limit| self.is_broken(limit) && limit.hurries())
    }

    /// Whether a limit cannot be kept any more.
    fn is_broken(&self, limit: &RunningLimit) -> bool {
        self.problem.lags.get(limit.lag).is_some_and(|lag| lag.most.is_none())
    }

    /// The same when what is past its limit waits no longer than so many minutes from now.
    #[must_use]
    pub fn in_a_hurry(&self, most: Minute) -> FromNow {
        let mut other = self.clone();
        for limit in self.limits.iter().filter(|limit| self.is_broken(limit) && limit.hurries()) {
            if let Some(lag) = other.problem.lags.get_mut(limit.lag) {
                lag.most = Some(lag.least.max(0) + most);
            }
        }
        other
    }

    /// The same when the limits that run are so many minutes longer, from now on if they are over; `None`: when there are none of them.
    #[must_use]
    pub fn with_longer_limits(&self, by: Option<Minute>) -> FromNow {
        let mut other = self.clone();
        for limit in &self.limits {
            if let Some(lag) = other.problem.lags.get_mut(limit.lag) {
                lag.most = by.filter(|_| limit.hurries()).map(|by| (limit.by - self.now).max(lag.least).max(0) + by);
            }
        }
        other.problem.standing.extend(self.limits.iter().filter_map(|limit| {
            // What was broken already counts so from the beginning.
            if self.is_broken(limit) { None } else { beyond(&self.problem, limit, limit.by - self.now) }
        }));
        // What begins late because it waits for room may go on for as much longer itself: it is not put off so that it fits its time.
        if let Some(by) = by {
            let mut after = self.limits_after();
            after.retain(|limit| !self.after.iter().any(|known| known.lag == limit.lag));
            for limit in &after {
                if let Some(lag) = other.problem.lags.get_mut(limit.lag) {
                    lag.most = Some(limit.by + by);
                }
            }
            // What lies about shaped is worse off than what is where it belongs.
            let over = after.iter().filter_map(|limit| beyond(&self.problem, limit, limit.by));
            let over: Vec<Standing> = over.map(|over| Standing { weight: over.weight / 2, ..over }).collect();
            other.problem.standing.extend(over);
            other.after.extend(after);
        }
        // What runs cannot be begun anew so that somebody is there when it ends.
        let runs = |task: usize| self.logged.get(task).is_some_and(Option::is_some);
        for lag in other.problem.lags.iter_mut().filter(|lag| lag.rule == Rule::Attended && runs(lag.from.task)) {
            lag.most = None;
        }
        other
    }

    /// The limits of what is still to come: how long something will stand, or go on, when it has begun.
    pub fn limits_to_come(&self) -> Vec<RunningLimit> {
        let is_open = |task: usize| self.logged.get(task).is_some_and(Option::is_none);
        let lags = self.problem.lags.iter().enumerate().filter(|(_, lag)| {
            let is_meant = matches!(lag.rule, Rule::Alive | Rule::FirstPiece | Rule::UpTo | Rule::Within);
            is_meant && lag.to.edge == Edge::Start && is_open(lag.from.task) && is_open(lag.to.task)
        });
        let limit = |(at, lag): (usize, &Lag)| {
            Some(RunningLimit { rule: lag.rule, from: lag.from.task, to: lag.to.task, by: lag.most?, lag: at })
        };
        lags.filter_map(limit).collect()
    }

    /// The same when some limits of what is still to come are so many minutes longer.
    #[must_use]
    pub fn breaking(&self, limits: &[RunningLimit], by: Minute) -> FromNow {
        let mut other = self.clone();
        for limit in limits {
            if let Some(lag) = other.problem.lags.get_mut(limit.lag) {
                lag.most = Some(limit.by + by);
            }
        }
        other.problem.standing.extend(limits.iter().filter_map(|limit| beyond(&self.problem, limit, limit.by)));
        other.after.extend(limits.iter().copied());
        other
    }

    /// The moment in a plan from which a limit of what was still to come counts.
    pub fn counts_from(&self, limit: &RunningLimit, plan: &Plan) -> Option<Minute> {
        match self.problem.lags.get(limit.lag)?.from.edge {
            Edge::Start => plan.starts.get(limit.from).copied(),
            Edge::End => plan.ends.get(limit.from).copied(),
        }
    }

    /// How long the rests may go on that are to begin before a limit that runs is over.
    fn limits_after(&self) -> Vec<RunningLimit> {
        let is_next = |task: usize| self.limits.iter().any(|limit| limit.hurries() && limit.to == task);
        let is_open = |task: usize| self.logged.get(task).is_some_and(Option::is_none);
        let lags = self.problem.lags.iter().enumerate().filter(|(_, lag)| {
            lag.rule == Rule::UpTo && lag.from.edge == Edge::Start && is_open(lag.from.task) && is_next(lag.from.task)
        });
        let limit = |(at, lag): (usize, &Lag)| {
            Some(RunningLimit { rule: lag.rule, from: lag.from.task, to: lag.to.task, by: lag.most?, lag: at })
        };
        lags.filter_map(limit).collect()
    }

    /// The same when whoever is there at a moment, or comes on that day, stays so much longer.
    #[must_use]
    pub fn with_overtime(&self, now: Minute, by: Minute) -> FromNow {
        let mut other = self.clone();
        let longer = |window: &mut Window| {
            if window.closes >= now && window.opens < now + A_DAY_ON {
                window.closes += by;
            }
        };
        for window in &mut other.problem.open {
            longer(window);
        }
        // What then touches is one.
        let mut joined: Vec<Window> = Vec::with_capacity(other.problem.open.len());
        for window in other.problem.open.drain(..) {
            match joined.last_mut().filter(|before| before.closes >= window.opens) {
                Some(before) => before.closes = before.closes.max(window.closes),
                None => joined.push(window),
            }
        }
        other.problem.open = joined;
        for person in &mut other.problem.people {
            person.longest += by;
            for shift in &mut person.shifts {
                longer(&mut shift.window);
            }
            // Nobody has two shifts at once.
            let mut until = Minute::MIN;
            for shift in &mut person.shifts {
                shift.window.opens = shift.window.opens.max(until);
                shift.window.closes = shift.window.closes.max(shift.window.opens);
                until = shift.window.closes;
            }
        }
        other
    }

    /// The same without tasks that need not be done any more.
    #[must_use]
    pub fn without(&self, out: impl Fn(usize) -> bool) -> FromNow {
        let mut other = self.clone();
        let is_out = |point: Point| self.logged.get(point.task).is_some_and(Option::is_none) && out(point.task);
        for at in (0..self.logged.len()).filter(|at| is_out(Point::start(*at))) {
            if let Some(task) = other.problem.tasks.get_mut(at) {
                nothing(task);
            }
        }
        other.problem.lags.retain(|lag| !is_out(lag.from) && !is_out(lag.to));
        let stands = |stand: Stand| match stand {
            Stand::Between { made, used } => !is_out(Point::start(made)) && !is_out(Point::start(used)),
            Stand::DrawnOut { rest } => !is_out(Point::start(rest)),
            Stand::Ready { made, .. } => !is_out(Point::start(made)),
        };
        other.problem.standing.retain(|standing| stands(standing.stand));
        other.problem.long.retain(|stand| stands(*stand));
        other.problem.stale.retain(|stand| stands(*stand));
        other.limits.clear();
        other.after.clear();
        other
    }
}
