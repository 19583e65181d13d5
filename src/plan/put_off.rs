//! The last look at a plan: what was baked sooner than it need be is put off, so that no oven burns empty for it,
//! and work that was cut into shares goes on without a break.
//!
//! The search sees neither: a lit oven that stands empty is in no measure, and a short pause breaks no spell. So what is done here leaves every
//! measure as it is, or makes it better.

use super::close_up::Closing;
use super::heats::{AT_HOME, NOT_LEFT_LIT, closed_between};
use super::moves::early;
use super::problem::{Holding, Kind, Minute, Problem};
use super::score::{self, Score};
use super::standard_form::{StandardForm, Times, end, start};
use std::collections::{BTreeMap, BTreeSet};

/// So often everything is gone through.
const ROUNDS: usize = 3;

/// So many plans may turn out not to fit: each is shared out to people anew.
const MOST_TRIES: usize = 400;

/// In such steps something is put off at first: what fits seldom begins at one minute only.
const STEP: Minute = 5;

/// What a minute for which what is lit stands empty counts among what stands about: more than what rests on in the cold, and less than one of
/// heating it again. Common practice, no source.
const BURNS_EMPTY: i64 = 2;

/// From this heat on, in tenths of a degree, something is lit, whether or not a kitchen says how long that takes: no prover is so hot, nor what
/// keeps hot.
const OVEN_HEAT: i32 = 1200;

/// Behind so many others a load is put at most.
const MOST_BEHIND: usize = 6;

/// Of so many pieces of work a spell is that is brought to another as a whole.
const SHORT_SPELL: usize = 3;

/// How good a plan is beyond its measures, the more important first; less is better.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
struct Rank {
    weighed: i64,
    standing: i64,
    spells: i64,
    /// Into how many stretches the work falls that was cut into shares.
    stretches: usize,
    /// The minutes for which what is lit stands empty.
    empty: Minute,
    /// The minutes by which all that is wanted is ready sooner.
    early: Minute,
    /// What stands about, without what is lit and empty.
    stands: i64,
}

/// Puts off what can be, where that makes no measure worse; with `may_rest`, also where more rests on in the cold because fewer ovens burn empty.
pub fn put_off(problem: &Problem, model: &StandardForm, may_rest: bool, times: &mut Times) {
    let shared = shared(problem);
    let mut last =
        LastLook { problem, model, closing: Closing::of_tries(problem, model, MOST_TRIES), shared: &shared, counts: 0 };
    last.go(times);
    if may_rest {
        last.counts = BURNS_EMPTY;
        last.go(times);
    }
}

struct LastLook<'a> {
    problem: &'a Problem,
    model: &'a StandardForm,
    closing: Closing<'a>,
    /// The shares of each step that is cut into some.
    shared: &'a [Vec<usize>],
    /// What a minute for which what is lit stands empty counts.
    counts: i64,
}

impl LastLook<'_> {
    fn rank(&self, times: &Times) -> Rank {
        self.rank_of(Score::of(self.model, times), times)
    }

    fn rank_of(&self, score: Score, times: &Times) -> Rank {
        let empty = empty(self.model, times);
        Rank {
            weighed: score.weighed,
            standing: score.standing + self.counts * empty,
            spells: score.spells,
            stretches: stretches(self.shared, times),
            empty,
            early: early(self.model, times),
            stands: score.standing,
        }
    }

    /// How good moved times are, if that is better; most are seen to be worse by their measures alone.
    fn better(&self, moved: &Times, now: &Rank) -> Option<Rank> {
        let score = Score::of(self.model, moved);
        let is_worse = score.weighed > now.weighed
            || self.counts == 0 && (score.weighed, score.standing) > (now.weighed, now.standing);
        let mut found = (!is_worse).then(|| self.rank_of(score, moved))?;
        if self.counts > 0 {
            // A minute less in which it is ready is worth one more in which it rests: neither hurts what keeps. But nobody comes for it.
            let later = (now.early - found.early).max(0);
            found.standing -= later.min((found.stands - now.stands).max(0));
            if found.spells > now.spells {
                return None;
            }
        }
        Some(found).filter(|found| found < now)
    }

    fn go(&mut self, times: &mut Times) {
        for _ in 0..ROUNDS {
            let before = times.clone();
            // What is made towards no time is ready as soon as it can be.
            let loads = if self.model.mirrored { loads_with_room(self.model, times) } else { Vec::new() };
            for (load, room) in loads {
                self.later(load, room, times);
            }
            self.fewer_spells(times);
            self.without_break(times);
            if *times == before {
                break;
            }
        }
    }

    /// Puts off the loads of a step, with or without those that went into the same units before them, or else one load, with all that has to
    /// move with it, as far as it can be.
    fn later(&mut self, load: usize, room: Minute, times: &mut Times) {
        // The whole of the room first: then it goes right before what comes next.
        let tries =
            || std::iter::once(room).chain((1..=(room - 1) / STEP).rev().map(|steps| steps * STEP)).map(|by| -by);
        let step = self.same_step(load);
        let mut train: BTreeSet<usize> = step.iter().copied().collect();
        for unit in lit(self.model, times).values() {
            // In the mirror what went in before stands behind it.
            let behind = unit.iter().skip_while(|task| !step.contains(task));
            train.extend(behind.flat_map(|task| self.same_step(*task)));
        }
        if self.counts > 0 && self.behind_others(&step, room, times) {
            return;
        }
        let sets = BTreeSet::from([step, train.into_iter().collect(), vec![load]]);
        for set in sets.into_iter().rev() {
            let events: Vec<usize> = set.into_iter().map(end).collect();
            if self.move_to(&events, tries(), times) {
                return;
            }
        }
    }

    /// Puts the loads of a step behind what goes into their units later, as soon as that is out.
    fn behind_others(&mut self, step: &[usize], room: Minute, times: &mut Times) -> bool {
        let first = step.iter().map(|load| times.ends[*load]).max().unwrap_or(0);
        let units = lit(self.model, times);
        let here = units.values().filter(|unit| unit.iter().any(|load| step.contains(load))).flatten();
        let mut ways: Vec<Minute> = here.map(|other| times.starts[*other] - first).filter(|by| *by < -room).collect();
        ways.sort_unstable_by_key(|by| -by);
        ways.dedup();
        ways.truncate(MOST_BEHIND);
        let events: Vec<usize> = step.iter().copied().map(end).collect();
        self.move_to(&events, ways.into_iter(), times)
    }

    /// The loads of the same step.
    fn same_step(&self, load: usize) -> Vec<usize> {
        let label = |task: usize| self.problem.tasks.get(task).map(|task| task.label);
        let with = |task: &usize| label(*task).zip(label(load)).is_some_and(|(one, other)| one.same_step(other));
        (0..self.model.jobs.len()).filter(with).collect()
    }

    /// Brings short spells of work, with all that has to move with them, to others.
    fn fewer_spells(&mut self, times: &mut Times) {
        for spell in score::spells_of(self.model, times).into_iter().filter(|spell| spell.work.len() <= SHORT_SPELL) {
            let events = score::events(times);
            let others = self.model.work().filter(|work| !spell.work.contains(work));
            let ways = others.flat_map(|(from, to)| [events[to] - spell.start, events[from] - spell.end]);
            // The nearest first, and of two as near the one that is later.
            let mut ways: Vec<Minute> = ways.filter(|by| *by != 0).collect();
            ways.sort_unstable_by_key(|by| (by.abs(), *by));
            ways.dedup();
            let work: Vec<usize> = spell.work.iter().map(|(from, _)| *from).collect();
            self.move_to(&work, ways.into_iter(), times);
        }
    }

    /// Brings shares of one piece of work to each other, so that it goes on without a break.
    fn without_break(&mut self, times: &mut Times) {
        for shares in self.shared {
            for share in shares {
                let ways = |times: &Times| {
                    let of = |other: &usize| {
                        [times.ends[*other] - times.starts[*share], times.starts[*other] - times.ends[*share]]
                    };
                    let others = shares.iter().filter(|other| *other != share);
                    let mut ways: Vec<Minute> = others.flat_map(of).filter(|by| *by != 0).collect();
                    ways.sort_unstable_by_key(|by| (by.abs(), *by));
                    ways.dedup();
                    ways
                };
                let ways = ways(times);
                self.move_to(&[start(*share)], ways.into_iter(), times);
            }
        }
    }

    /// Moves some events, with all that has to move with them, by the first of some minutes that makes the plan better; whether there was one.
    fn move_to(&mut self, together: &[usize], by: impl Iterator<Item = Minute>, times: &mut Times) -> bool {
        let events = score::events(times);
        let now = self.rank(times);
        for by in by {
            let Some(moved) = self.closing.moved(times, &events, together, by, false) else { continue };
            // Nothing is made hours sooner for it.
            if self.better(&moved, &now).is_none_or(|found| found.early > now.early) {
                continue;
            }
            if let Some(moved) = self.closing.fits(times, moved) {
                *times = moved;
                return true;
            }
        }
        false
    }
}

/// The loads of what must be lit behind which nothing goes into their unit for some time, those that come last first, and for how long.
fn loads_with_room(model: &StandardForm, times: &Times) -> Vec<(usize, Minute)> {
    let mut all: Vec<(Minute, usize, Minute)> = Vec::new();
    for unit in lit(model, times).into_values() {
        // In the mirror what goes in next stands before it.
        let mut next: Option<usize> = None;
        for load in unit {
            let free = next.map_or(0, |next| times.ends[next] + heats(model, next, load));
            let room = times.starts[load] - free;
            if room > 0 {
                all.push((times.starts[load], load, room));
            }
            next = Some(load);
        }
    }
    all.sort_unstable();
    all.into_iter().map(|(_, load, room)| (load, room)).collect()
}

/// What it takes to heat a unit between two loads, in model time.
fn heats(model: &StandardForm, first: usize, then: usize) -> Minute {
    match (model.jobs[first].holds, model.jobs[then].holds) {
        (Some(first), Some(then)) => model.heating(first, then),
        _ => 0,
    }
}

/// The loads in each unit that must be lit, in model time.
fn lit(model: &StandardForm, times: &Times) -> BTreeMap<(usize, usize), Vec<usize>> {
    let mut units: BTreeMap<(usize, usize), Vec<usize>> = BTreeMap::new();
    for (task, job) in model.jobs.iter().enumerate() {
        let Some(holds) = job.holds.filter(|holds| is_lit(model, holds)) else { continue };
        if times.starts[task] < times.ends[task] {
            units.entry((holds.equipment, times.units[task])).or_default().push(task);
        }
    }
    for unit in units.values_mut() {
        unit.sort_unstable_by_key(|task| (times.starts[*task], *task));
    }
    units
}

/// Whether a load needs what is lit for it: as its kitchen says, or since nothing else is as hot.
fn is_lit(model: &StandardForm, holds: &Holding) -> bool {
    let heat = holds.setting.max(holds.leaves);
    model.equipment[holds.equipment].heating > 0 || heat.is_some_and(|heat| heat >= OVEN_HEAT)
}

/// For how long what is lit stands empty, between its first load of a day and its last. What is put out meanwhile is no better than if it
/// had burned until then: it is lit again.
fn empty(model: &StandardForm, times: &Times) -> Minute {
    let mut empty = 0;
    for ((kind, _), unit) in lit(model, times) {
        let heating = match model.equipment[kind].heating {
            0 => AT_HOME,
            said => said,
        };
        let mut last: Option<usize> = None;
        for load in unit {
            if let Some(last) = last.filter(|last| times.ends[*last] < times.starts[load])
                && !closed_between(model, times, last, load)
            {
                let gap = times.starts[load] - times.ends[last];
                empty += gap.min(heating + NOT_LEFT_LIT);
            }
            // An oven may hold several at once.
            last = last.filter(|last| times.ends[*last] >= times.ends[load]).or(Some(load));
        }
    }
    empty
}

/// The shares of each step that is work of hands and has several.
fn shared(problem: &Problem) -> Vec<Vec<usize>> {
    let mut steps: BTreeMap<(usize, usize, usize), Vec<usize>> = BTreeMap::new();
    for (at, task) in problem.tasks.iter().enumerate() {
        if task.kind == Kind::Hands && task.longest > 0 {
            steps.entry((task.label.recipe, task.label.part, task.label.step)).or_default().push(at);
        }
    }
    steps.into_values().filter(|tasks| tasks.len() > 1).collect()
}

/// Into how many stretches the work falls that was cut into shares.
fn stretches(shared: &[Vec<usize>], times: &Times) -> usize {
    let of = |shares: &Vec<usize>| {
        let mut work: Vec<(Minute, Minute)> =
            shares.iter().map(|task| (times.starts[*task], times.ends[*task])).collect();
        work.sort_unstable();
        let (mut stretches, mut until) = (0, None);
        for (start, end) in work {
            stretches += usize::from(until.is_none_or(|until| until < start));
            until = until.max(Some(end));
        }
        stretches
    };
    shared.iter().map(of).sum()
}
