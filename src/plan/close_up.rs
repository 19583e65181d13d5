//! What stands about for nothing is closed up: moved to what it waits for, with all that hangs on it.
//!
//! The search leaves such minutes where it is not through with them.

use super::assign;
use super::caught::{self, Caught};
use super::dense::Dense;
use super::occupancy::{Occupancy, within_hours_for};
use super::problem::{Minute, Problem};
use super::score::{self, Score};
use super::standard_form::{Idle, StandardForm, Times, end, start};

/// So often everything is gone through.
const ROUNDS: usize = 4;

/// So many events that have to move at once are tried, and so many times without success.
const MOST_EVENTS: usize = 60;
const MOST_MISSES: usize = 400;

/// Closes up what can be, where that makes the plan better.
pub fn close_up(problem: &Problem, model: &StandardForm, times: &mut Times) {
    let mut closing = Closing::new(problem, model);
    // What is made, or begun, and waits for the next step; not what rests or is ready before it is wanted.
    let between: Vec<Idle> = model.idle.iter().copied().filter(|idle| is_between(model, idle)).collect();
    for _ in 0..ROUNDS {
        let mut any = false;
        let mut stands = between.clone();
        let events = score::events(times);
        // The last ones first: what comes before them then moves up to them.
        stands.sort_by_key(|idle| std::cmp::Reverse((events[idle.to], events[idle.from])));
        for idle in &stands {
            any |= closing.close(idle, times);
        }
        stands.reverse();
        for idle in &stands {
            any |= closing.close(idle, times);
        }
        if !any {
            break;
        }
    }
    turn_away(&mut closing, times);
    rest_less(&mut closing, times);
    at_their_moments(problem, model, times);
}

/// Moves work, or what is tended, so that somebody can turn to it when it begins or ends, where that makes the plan no worse.
fn turn_away(closing: &mut Closing<'_>, times: &mut Times) {
    for _ in 0..ROUNDS {
        let before = times.clone();
        for caught in caught::caught(closing.model, times) {
            closing.turn_away(&caught, times);
        }
        if *times == before {
            break;
        }
    }
}

/// Lets what rests in the warm go on less, where the plan is as good: what is taken out of it sooner stands elsewhere instead.
fn rest_less(closing: &mut Closing<'_>, times: &mut Times) {
    let model = closing.model;
    let warm = |idle: &&Idle| {
        let made = if model.mirrored { idle.to / 2 } else { idle.from / 2 };
        is_between(model, idle) && closing.problem.warm.contains(&made)
    };
    let warm: Vec<Idle> = model.idle.iter().filter(warm).copied().collect();
    for idle in &warm {
        closing.bring(idle, times, &warm);
    }
}

/// For how long some of what stands does so.
fn lasts(idle: &[Idle], times: &Times) -> Minute {
    let events = score::events(times);
    idle.iter().map(|idle| (events[idle.to] - events[idle.from] - idle.free).max(0)).sum()
}

/// Does what is done at a moment of something else at that moment, or as soon after it as it can be.
pub fn at_their_moments(problem: &Problem, model: &StandardForm, times: &mut Times) {
    // What goes into the cold goes there young: as soon as somebody is there.
    let moments: Vec<Idle> = model.moments(problem).into_iter().chain(model.until_in_the_cold(problem)).collect();
    for _ in 0..ROUNDS {
        let before = times.clone();
        let mut closing = Closing::new(problem, model);
        for idle in &moments {
            closing.at_its_moment(idle, times);
        }
        // What moved may have made room for another.
        if *times == before {
            break;
        }
    }
}

/// Whether it is what stands between two tasks.
fn is_between(model: &StandardForm, idle: &Idle) -> bool {
    idle.from / 2 != idle.to / 2 && idle.from != model.zero() && idle.to != model.zero()
}

/// What moves parts of a plan that is made already.
pub struct Closing<'a> {
    /// What is planned.
    pub problem: &'a Problem,
    /// The same in the planner's form.
    pub model: &'a StandardForm,
    /// So many more plans that do not fit are looked at.
    left: usize,
}

impl<'a> Closing<'a> {
    /// Nothing was tried yet.
    pub fn new(problem: &'a Problem, model: &'a StandardForm) -> Closing<'a> {
        Closing::of_tries(problem, model, MOST_MISSES)
    }

    /// The same, until so many plans did not fit.
    pub fn of_tries(problem: &'a Problem, model: &'a StandardForm, left: usize) -> Closing<'a> {
        Closing { problem, model, left }
    }

    /// Brings the ends of what stands about nearer to each other, where that makes the plan better.
    fn close(&mut self, idle: &Idle, times: &mut Times) -> bool {
        self.bring(idle, times, &[])
    }

    /// The same; also where the plan is as good, and less of some of what stands does so.
    fn bring(&mut self, idle: &Idle, times: &mut Times, less: &[Idle]) -> bool {
        let events = score::events(times);
        let over = events[idle.to] - events[idle.from] - idle.free;
        if over <= 0 || idle.weight == 0 {
            return false;
        }
        let now = (Score::of(self.model, times), lasts(less, times));
        let of = |times: &Times| (Score::of(self.model, times), lasts(less, times));
        for by in steps(over) {
            for (event, by) in [(idle.to, -by), (idle.from, by)] {
                for with_more in [false, true] {
                    let moved = self.moved(times, &events, &[event], by, with_more);
                    let better = moved.filter(|moved| of(moved) < now);
                    if let Some(moved) = better.and_then(|moved| self.fits(times, moved)) {
                        *times = moved;
                        return true;
                    }
                }
            }
        }
        false
    }

    /// Brings a moment at which nobody could turn away and the work of those who are there apart, where that makes the plan better, or no worse
    /// and there are fewer of them.
    fn turn_away(&mut self, caught: &Caught, times: &mut Times) {
        let events = score::events(times);
        let of = |times: &Times| (Score::of(self.model, times), caught::caught(self.model, times).len());
        let now = of(times);
        let moment = events[caught.event];
        let mut ways: Vec<(usize, Minute)> = Vec::new();
        for task in &caught.at {
            for edge in [start(*task), end(*task)] {
                // The moment to the edge of the work, or that edge to the moment.
                ways.extend([(caught.event, events[edge] - moment), (edge, moment - events[edge])]);
            }
        }
        ways.sort_by_key(|(event, by)| (by.abs(), *event));
        let mut best: Option<((Score, usize), Times)> = None;
        for (event, by) in ways {
            for with_more in [false, true] {
                let Some(moved) = self.moved(times, &events, &[event], by, with_more) else { continue };
                let found = of(&moved);
                if found >= best.as_ref().map_or(now, |(found, _)| *found) {
                    continue;
                }
                if let Some(moved) = self.fits(times, moved) {
                    best = Some((found, moved));
                }
            }
        }
        if let Some((_, moved)) = best {
            *times = moved;
        }
    }

    /// Does what is done at a moment as soon after it as it can be, where that makes the plan no worse.
    fn at_its_moment(&mut self, idle: &Idle, times: &mut Times) {
        let events = score::events(times);
        let over = events[idle.to] - events[idle.from] - idle.free;
        let now = Score::of(self.model, times);
        let (event, sign) = if self.model.mirrored { (idle.from, 1) } else { (idle.to, -1) };
        for by in (1..=over).rev() {
            let moved = self.moved(times, &events, &[event], sign * by, false);
            let no_worse = moved.filter(|moved| Score::of(self.model, moved) <= now);
            if let Some(moved) = no_worse.and_then(|moved| self.fits(times, moved)) {
                *times = moved;
                return;
            }
        }
    }

    /// The times when some events come so much later, or sooner, with all that the arcs then ask to move as well; `with_more`, also with
    /// what would else begin to stand. `None` if everything would have to move.
    pub fn moved(
        &self,
        times: &Times,
        events: &Dense<Minute>,
        together: &[usize],
        by: Minute,
        with_more: bool,
    ) -> Option<Times> {
        let mut moves = together.to_vec();
        let mut at = 0;
        while let Some(event) = moves.get(at).copied() {
            at += 1;
            if event == self.model.zero() || moves.len() > MOST_EVENTS {
                return None;
            }
            let asks = |from: usize, to: usize, least: Minute| {
                // Both move alike, or the one that stays is far enough.
                let gap = events[to] - events[from] + if event == to { by } else { -by };
                gap < least
            };
            let leading = self.model.network.leading_to(event).filter(|arc| asks(arc.from, event, arc.by));
            let out = self.model.network.out(event).filter(|arc| asks(event, arc.to, arc.by));
            let mut more: Vec<usize> = leading.map(|arc| arc.from).chain(out.map(|arc| arc.to)).collect();
            if with_more {
                let tight = self.model.idle.iter().filter(|idle| events[idle.to] - events[idle.from] <= idle.free);
                more.extend(tight.filter_map(|idle| match by < 0 {
                    true => (idle.from == event).then_some(idle.to),
                    false => (idle.to == event).then_some(idle.from),
                }));
            }
            for other in more {
                if !moves.contains(&other) {
                    moves.push(other);
                }
            }
        }
        let mut other = times.clone();
        for event in moves {
            let task = event / 2;
            if event == start(task) {
                other.starts[task] += by;
            } else {
                other.ends[task] += by;
            }
        }
        Some(other)
    }

    /// The moved times, if the hours, the equipment and the people allow them.
    pub fn fits(&mut self, times: &Times, mut moved: Times) -> Option<Times> {
        self.left = self.left.checked_sub(1)?;
        // Where it matters who works, all of them are shared out anew below.
        let is_number = self.problem.people.is_empty();
        let tasks = 0..self.model.jobs.len();
        let is_moved =
            |task: &usize| times.starts[*task] != moved.starts[*task] || times.ends[*task] != moved.ends[*task];
        let mut taken = Occupancy::new(self.model);
        for task in tasks.clone().filter(|task| !is_moved(task)) {
            taken.take(self.model, task, moved.units[task], moved.starts[task], moved.ends[task]);
        }
        for task in tasks.filter(is_moved) {
            let (start, end) = (moved.starts[task], moved.ends[task]);
            let job = &self.model.jobs[task];
            let is_open = !job.attended || within_hours_for(self.model, job, start, end - start) == start;
            let has_room =
                job.holds.is_none_or(|holds| start == end || taken.can_hold_on(holds, moved.units[task], start, end));
            let has_hands = !is_number || taken.has_hands(self.model, task, start, end);
            if start < 0 || !is_open || !has_room || !has_hands {
                return None;
            }
            taken.take(self.model, task, moved.units[task], start, end);
        }
        let out =
            |minutes: &Dense<Minute>| minutes.iter().map(|minute| self.model.outward(*minute)).collect::<Vec<_>>();
        let (one, other) = (out(&moved.starts), out(&moved.ends));
        let (starts, ends) = if self.model.mirrored { (other, one) } else { (one, other) };
        if !is_number {
            moved.people = assign::who(self.problem, &starts, &ends)?.into();
        }
        self.left += 1;
        Some(moved)
    }
}

/// How far something is moved: all the way, or part of it.
fn steps(over: Minute) -> Vec<Minute> {
    let mut steps = vec![over, over / 2, over / 4, 1];
    steps.retain(|by| *by > 0);
    steps.dedup();
    steps
}
