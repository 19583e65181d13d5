//! A plan made better by moving parts, orders and all that is baked at one heat in the order in which things are put.

use super::builder::{Builder, Effort};
use super::dense::Dense;
use super::network::LONG_AGO;
use super::ovens::{self, Ordered};
use super::problem::{FURTHEST, Minute, Problem};
use super::score::{self, Score};
use super::standard_form::{StandardForm, Times};
use super::wish::Wish;
use std::cmp::Reverse;
use std::collections::{BTreeMap, BTreeSet};

/// Work that moving one set after the other may cost, in tasks put: some tenths of a second.
const EFFORT_IN_TURN: usize = 300_000;

/// Work that putting sets first may cost, in tasks put: at most, and for each step that the search after it may take.
const EFFORT_FIRST: usize = 900_000;
const EFFORT_FOR_A_STEP: usize = 5;

/// So many of the plans made oven by oven are gone on with.
const MOST_OVENS: usize = 6;

/// What has fewer tasks is left to the search, which is through with it sooner.
const FEWEST: usize = 40;

/// By how many minutes a set is moved in the order of preference; by the first and the last, before and after all others.
const MOVES: [Minute; 10] = [-FURTHEST, -360, -180, -90, -40, 40, 90, 180, 360, FURTHEST];

/// How long loads wait for a unit at their heat, by the time it takes to heat one: some two loads, or longer.
const WAITS: [Minute; 3] = [1, 2, 4];

/// A plan, how good it is, and what was wished of it beside the order in which things are put.
#[derive(Clone)]
struct Found {
    score: Score,
    /// The minutes by which all that is wanted is ready sooner.
    early: Minute,
    times: Times,
    wish: Wish,
}

impl Found {
    /// What is better is less: of two that are as good the one whose things are ready later. What keeps is not made hours too soon for
    /// nothing.
    fn rank(&self) -> (Score, Minute) {
        (self.score, self.early)
    }
}

/// Makes a plan better by giving one set of tasks after the other another place in the order in which the tasks are put: sooner or
/// later by some time, before all others, or after them. What is put first has the oven when it needs it most, so each bake
/// moves as close to when it is wanted as the others leave it.
///
/// Loads that take the unit that is free first are soon in all of them at one heat, and then in all of them at another. So the same is
/// tried when each waits some time for one that is at its heat, which gives each oven its own.
///
/// Two heats change places only when what is baked at both is moved, and after the first move alone the plan is worse. So where no
/// single move helps any more, what stands about longest is put before all others, whatever that does to the plan, and the rest is
/// moved until nothing helps; what comes of it is kept where it is better than before.
pub fn improve(
    problem: &Problem,
    model: &StandardForm,
    (score, times): (Score, Times),
    steps: u64,
    effort: &mut Effort,
) -> (Score, Times) {
    let Some(builder) = Builder::new(model) else { return (score, times) };
    let parts = parts(problem);
    let moves = Moves { model, builder, sets: sets(&parts, model), parts };
    let tasks = model.jobs.len().max(1);
    let mut builds = EFFORT_IN_TURN / tasks;
    let first = Found { score, early: early(model, &times), times, wish: Wish::nothing(model.jobs.len()) };
    let mut best = moves.in_turn(first.clone(), &mut builds, effort);
    let wishes = ovens::wishes(problem, model, &best.times);
    builds = 2 * EFFORT_IN_TURN / tasks;
    if wishes.is_empty() {
        best = moves.waiting(&first, best, effort);
    } else {
        best = moves.oven_by_oven(wishes, best, &mut builds, effort);
    }
    if tasks < FEWEST {
        return (best.score, best.times);
    }
    let puts = usize::try_from(steps).unwrap_or(usize::MAX).saturating_mul(EFFORT_FOR_A_STEP).min(EFFORT_FIRST);
    let mut builds = puts / tasks;
    best = moves.longest_first(best, &mut builds, effort);
    (best.score, best.times)
}

/// What can be moved, and what puts it together again.
struct Moves<'a> {
    model: &'a StandardForm,
    builder: Builder<'a>,
    sets: Vec<Vec<usize>>,
    parts: Vec<Vec<usize>>,
}

impl Moves<'_> {
    /// The plan that comes of it when a set is put sooner or later by so much.
    fn moved(&self, found: &Found, set: usize, by: Minute, effort: &mut Effort) -> Option<Found> {
        let mut keys: Dense<i64> = found.times.starts.clone();
        for task in self.sets.get(set).into_iter().flatten() {
            keys[*task] = keys[*task].saturating_add(by);
        }
        self.built(&keys, found.wish.clone(), effort)
    }

    /// The plan that comes of an order of preference.
    fn built(&self, keys: &Dense<i64>, wish: Wish, effort: &mut Effort) -> Option<Found> {
        let times = self.builder.build_wished(keys, &wish, effort)?;
        Some(Found { score: Score::of(self.model, &times), early: early(self.model, &times), times, wish })
    }

    /// Makes plans in which loads wait some time for a unit that is at their heat, and keeps what is better than before.
    fn waiting(&self, first: &Found, mut best: Found, effort: &mut Effort) -> Found {
        let tasks = self.model.jobs.len();
        let mut builds = EFFORT_IN_TURN / tasks.max(1);
        for waits in waits(self.model) {
            for order in [first, &best.clone()] {
                let wish = Wish::to_wait(tasks, waits);
                let Some(other) = self.built(&order.times.starts, wish, effort) else { continue };
                let other = self.in_turn(other, &mut builds, effort);
                if other.rank() < best.rank() {
                    best = other;
                }
            }
        }
        best
    }

    /// Makes plans in which the ovens are filled as is best for them alone, moves the rest of the better ones, and keeps what is better than
    /// before.
    fn oven_by_oven(&self, wishes: Vec<Ordered>, mut best: Found, builds: &mut usize, effort: &mut Effort) -> Found {
        let mut found = Vec::new();
        for (keys, wish) in wishes {
            // In the order in which all of it can be soonest, and in the order of before, each part moved as its loads are.
            let moved = self.with_their_loads(&best.times, &wish);
            let built = [keys, moved].into_iter().filter_map(|keys| self.built(&keys, wish.clone(), effort));
            found.extend(built.min_by_key(Found::rank));
        }
        found.sort_by_key(Found::rank);
        let mut most = *builds / 2;
        *builds -= most;
        let mut moved: Option<Found> = None;
        for (at, other) in found.into_iter().take(MOST_OVENS).enumerate() {
            let mut share = most / (MOST_OVENS - at);
            most -= share;
            let other = self.in_turn(other, &mut share, effort);
            most += share;
            if moved.as_ref().is_none_or(|moved| other.rank() < moved.rank()) {
                moved = Some(other);
            }
        }
        *builds += most;
        let moved = moved.map(|moved| self.longest_first(moved, builds, effort));
        if let Some(moved) = moved.filter(|moved| moved.rank() < best.rank()) {
            best = moved;
        }
        best
    }

    /// The order of a plan, with each part put as much sooner or later as a wish puts its loads.
    fn with_their_loads(&self, times: &Times, wish: &Wish) -> Dense<i64> {
        let mut keys = times.starts.clone();
        for part in &self.parts {
            let lifted = part.iter().filter(|task| wish.lifts[**task] > LONG_AGO);
            let by: Vec<Minute> = lifted.map(|task| wish.lifts[*task] - times.starts[*task]).collect();
            let mean = by.iter().sum::<Minute>() / i64::try_from(by.len()).unwrap_or(1).max(1);
            for task in part {
                keys[*task] += mean;
            }
        }
        keys
    }

    /// Puts what stands about longest before all others, whatever that does to the plan, and moves the rest until nothing helps; keeps what is
    /// better than before, and ends when nothing is.
    fn longest_first(&self, mut best: Found, builds: &mut usize, effort: &mut Effort) -> Found {
        let mut tried: BTreeSet<usize> = BTreeSet::new();
        while *builds > 0 && !(effort.stop)() {
            let Some(set) = self.stands_longest(&best.times, &tried) else { break };
            tried.insert(set);
            *builds -= 1;
            let Some(other) = self.moved(&best, set, -FURTHEST, effort) else { continue };
            let other = self.in_turn(other, builds, effort);
            if other.rank() < best.rank() {
                best = other;
                // In another plan others may stand longest.
                tried = BTreeSet::from([set]);
            }
        }
        best
    }

    /// Moves one set after the other and keeps what is better, until nothing can be moved for the better, or with the builds.
    fn in_turn(&self, mut best: Found, builds: &mut usize, effort: &mut Effort) -> Found {
        let (mut at, mut since) = (0, 0);
        let moves = self.sets.len() * MOVES.len();
        while *builds > 0 && since < moves && !(effort.stop)() {
            let by = MOVES.get(at % MOVES.len()).copied().unwrap_or(0);
            let other = self.moved(&best, at / MOVES.len(), by, effort);
            at = (at + 1) % moves;
            *builds -= 1;
            since += 1;
            if let Some(other) = other.filter(|other| other.rank() < best.rank()) {
                (best, since) = (other, 0);
            }
        }
        best
    }

    /// The set, besides those that were tried, whose tasks stand about longest, by what the minutes count.
    fn stands_longest(&self, times: &Times, tried: &BTreeSet<usize>) -> Option<usize> {
        let events = score::events(times);
        let mut stands: Dense<i64> = Dense::filled(self.model.jobs.len() + 1, 0);
        for idle in &self.model.idle {
            let minutes = (events[idle.to] - events[idle.from] - idle.free).max(0);
            // One end may be when it is wanted, which is no task.
            for task in BTreeSet::from([idle.from / 2, idle.to / 2]) {
                stands[task] += minutes * idle.weight;
            }
        }
        let of = |set: &usize| self.sets.get(*set).into_iter().flatten().map(|task| stands[*task]).sum::<i64>();
        let open = (0..self.sets.len()).filter(|set| !tried.contains(set));
        open.map(|set| (Reverse(of(&set)), set)).min().filter(|(Reverse(stands), _)| *stands > 0).map(|(_, set)| set)
    }
}

/// The minutes by which all that is wanted at a time is ready sooner, whatever of them counts.
pub fn early(model: &StandardForm, times: &Times) -> Minute {
    let events = score::events(times);
    let ready = model.idle.iter().filter(|idle| model.mirrored && idle.from == model.zero());
    ready.map(|idle| events[idle.to]).sum()
}

/// How long loads may wait for a unit at their heat, where there are several that must be heated.
fn waits(model: &StandardForm) -> Vec<Minute> {
    let several = model.equipment.iter().filter(|kind| kind.count > 1 && kind.heating > 0);
    let heating = several.map(|kind| kind.heating).max();
    heating.map(|heating| WAITS.iter().map(|times| heating * times).collect()).unwrap_or_default()
}

/// The tasks of each part, with what is lit or held for them.
fn parts(problem: &Problem) -> Vec<Vec<usize>> {
    let mut by_part: BTreeMap<usize, Vec<usize>> = BTreeMap::new();
    for (at, task) in problem.tasks.iter().enumerate() {
        let is_real = |task: usize| problem.tasks.get(task).is_some_and(|task| task.label.recipe == 0);
        // What is not a step of its own goes with the step that it is bound to.
        let of = problem.lags.iter().find_map(|lag| match (lag.from.task, lag.to.task) {
            (from, to) if to == at && is_real(from) => Some(from),
            (from, to) if from == at && is_real(to) => Some(to),
            _ => None,
        });
        let of = if is_real(at) { Some(task) } else { of.and_then(|of| problem.tasks.get(of)) };
        by_part.entry(of.unwrap_or(task).label.part).or_default().push(at);
    }
    by_part.into_values().collect()
}

/// What is moved together: the parts; all that hangs together; and the parts that want one kind of equipment at one heat.
fn sets(parts: &[Vec<usize>], model: &StandardForm) -> Vec<Vec<usize>> {
    let mut by_group: BTreeMap<usize, Vec<usize>> = BTreeMap::new();
    for (at, group) in model.groups().iter().enumerate() {
        by_group.entry(*group).or_default().push(at);
    }
    let mut sets: BTreeSet<Vec<usize>> = parts.iter().cloned().collect();
    let whole = model.jobs.len();
    sets.extend(by_group.into_values().filter(|group| group.len() < whole));
    sets.extend(at_one_heat(model, parts.to_vec()).into_iter().filter(|set| set.len() < whole));
    sets.into_iter().collect()
}

/// The parts that want equipment that takes time to heat, put together by the heats that agree.
fn at_one_heat(model: &StandardForm, parts: Vec<Vec<usize>>) -> Vec<Vec<usize>> {
    let mut heats: BTreeSet<(usize, i32)> = BTreeSet::new();
    let holds = |task: &usize| model.jobs[*task].holds.filter(|holds| model.equipment[holds.equipment].heating > 0);
    for holding in parts.iter().flatten().filter_map(holds) {
        heats.extend(holding.setting.map(|setting| (holding.equipment, setting)));
    }
    let wants = |part: &Vec<usize>, (equipment, setting): (usize, i32)| {
        part.iter().filter_map(holds).any(|holding| {
            holding.equipment == equipment && model.equipment[equipment].agree(holding.setting, Some(setting))
        })
    };
    let together = |heat: (usize, i32)| parts.iter().filter(|part| wants(part, heat)).flatten().copied().collect();
    heats.into_iter().map(together).collect()
}
