//! In which order what is baked goes into which oven: looked at by itself, before benches and hands are.
//!
//! What must be hot decides a night: an oven is at one heat at a time, and what is built task by task has each load where it can be soonest,
//! in all ovens at one heat and then in all of them at another. So here the loads alone are put into rows, one for each unit, with what each
//! costs by coming later than it could, and each heating; everything else is only how soon a load can be at all, and how far apart two may
//! be. Good rows are found by taking some steps' loads out and putting them back where they cost least (ruin and recreate, Schrimpf and others
//! 2000; from memory). The builder then makes plans of the best.

use super::dense::Dense;
use super::diary::Diary;
use super::network::{FAR_OFF, LONG_AGO};
use super::noise::Noise;
use super::occupancy::within_hours_for;
use super::problem::{HEATED_AGAIN, Minute, Problem};
use super::standard_form::{StandardForm, Times, end, start};
use super::wish::Wish;
use std::collections::{BTreeMap, BTreeSet};

/// With fewer loads all orders come up by themselves; with more nobody waits for it.
const FEWEST: usize = 4;
const MOST: usize = 60;

/// How often something is taken out and put back, by the square of the loads: what one time costs goes with that.
const EFFORT: usize = 100_000;

/// So many rows are handed on.
const BEST: usize = 8;

/// What a minute costs by which a load comes too late for another, or for the whole to be as short as it is.
const IMPOSSIBLE: i64 = 100;

/// In how many parts what a row costs is counted, so that what costs nothing decides between two that cost the same.
const EXACT: i64 = 100_000;

/// How often the loads are gone through to see how soon each can be after the others.
const ROUNDS: usize = 3;

/// A load that wants a unit at a heat.
struct Load {
    task: usize,
    /// How soon and how late it can begin by the times and hours alone.
    soonest: Minute,
    latest: Minute,
    minutes: Minute,
    /// What each minute costs by which it comes later, and how many are for nothing.
    weight: i64,
    free: Minute,
}

/// The loads of one kind of equipment.
struct Ovens<'a> {
    model: &'a StandardForm,
    units: usize,
    loads: Dense<Load>,
    /// The loads of each step.
    steps: Vec<Vec<usize>>,
    /// How long the second of two loads begins after the first at least, below nothing: before it at most.
    bonds: Vec<(usize, usize, Minute)>,
    /// The minutes of heating between two loads, the first one first.
    heats: Dense<Dense<Minute>>,
}

/// The loads in each unit, one after the other.
type Rows = Vec<Vec<usize>>;

/// An order of preference, and what is wished beside it.
pub type Ordered = (Dense<i64>, Wish);

/// Wishes for plans in which the loads of what must be hot come in a good order, the best one first. None where there is nothing to be put
/// in order, or where loads are in a unit together.
pub fn wishes(problem: &Problem, model: &StandardForm, now: &Times) -> Vec<Ordered> {
    let heated = |kind: &usize| model.equipment[*kind].heating > 0 && model.equipment[*kind].count > 0;
    // Kitchens have one kind that takes long to heat; of several the one that takes longest.
    let kind = (0..model.equipment.len()).filter(heated).max_by_key(|kind| model.equipment[*kind].heating);
    let ovens = kind.and_then(|kind| Ovens::of(problem, model, kind, now));
    ovens.map(|ovens| ovens.best(now)).unwrap_or_default()
}

impl<'a> Ovens<'a> {
    fn of(problem: &Problem, model: &'a StandardForm, kind: usize, now: &Times) -> Option<Ovens<'a>> {
        let holds = |task: usize| model.jobs[task].holds.filter(|holds| holds.equipment == kind);
        let is_load = |task: &usize| holds(*task).is_some_and(|holds| holds.setting.is_some());
        let tasks: Vec<usize> = (0..model.jobs.len()).filter(is_load).collect();
        let share = |one: usize, other: usize| holds(one).zip(holds(other)).is_some_and(|(a, b)| model.share(a, b));
        let is_shared = tasks.iter().any(|one| tasks.iter().any(|other| one < other && share(*one, *other)));
        // What is wanted at no time is begun at once, whatever the ovens do.
        if !(FEWEST..=MOST).contains(&tasks.len()) || is_shared || !model.mirrored {
            return None;
        }
        let soonest = soonest(model, &Dense::filled(model.jobs.len(), LONG_AGO))?;
        let latest = latest(model, now);
        let label = |task: usize| problem.tasks.get(task).map(|task| task.label).unwrap_or_default();
        let mut by_step: BTreeMap<(usize, usize, usize), Vec<usize>> = BTreeMap::new();
        for (at, task) in tasks.iter().enumerate() {
            let label = label(*task);
            by_step.entry((label.recipe, label.part, label.step)).or_default().push(at);
        }
        let steps: Vec<Vec<usize>> = by_step.into_values().collect();
        let mut weights: Dense<(i64, Minute)> = Dense::filled(tasks.len(), (1, 0));
        for step in &steps {
            let of_step: Vec<usize> = step.iter().filter_map(|at| tasks.get(*at).copied()).collect();
            let (weight, free) = grows_stale(model, &of_step, &soonest);
            let each = (weight / i64::try_from(step.len()).unwrap_or(1).max(1)).max(1);
            for at in step {
                weights[*at] = (each, free);
            }
        }
        let mut bonds = Vec::new();
        for (one, task) in tasks.iter().enumerate() {
            let reach = model.network.least_from(start(*task)).ok()?;
            let bound = tasks.iter().enumerate().map(|(other, task)| (other, reach[start(*task)]));
            bonds.extend(
                bound.filter(|(other, by)| *other != one && *by > LONG_AGO).map(|(other, by)| (one, other, by)),
            );
        }
        // What is far apart anyway is no bond.
        bonds.retain(|(_, _, by)| *by > -1440);
        let heating = |one: usize, then: usize| match holds(one).zip(holds(then)) {
            Some((one, then)) => model.heating(one, then),
            None => 0,
        };
        let heats = tasks.iter().map(|one| tasks.iter().map(|then| heating(*one, *then)).collect()).collect();
        let loads = tasks.iter().enumerate().map(|(at, task)| Load {
            task: *task,
            soonest: soonest[start(*task)],
            latest: latest[start(*task)],
            minutes: model.jobs[*task].shortest,
            weight: weights[at].0,
            free: weights[at].1,
        });
        let units = usize::try_from(model.equipment[kind].count).unwrap_or(usize::MAX).min(tasks.len());
        Some(Ovens { model, units, loads: loads.collect(), steps, bonds, heats })
    }

    /// When each load begins if each comes as soon as those before it in its row leave it; those that are not in a row when they can.
    fn begins(&self, rows: &Rows) -> Dense<Minute> {
        let mut begins: Dense<Minute> = self.loads.iter().map(|load| load.soonest).collect();
        for round in 0..ROUNDS {
            let mut changed = false;
            if round > 0 {
                for (one, other, by) in &self.bonds {
                    let least = begins[*one] + by;
                    changed |= begins[*other] < least;
                    begins[*other] = begins[*other].max(least);
                }
            }
            for row in rows {
                let mut before: Option<usize> = None;
                for at in row.iter().copied() {
                    let free =
                        before.map(|before| begins[before] + self.loads[before].minutes + self.heats[before][at]);
                    let soonest = begins[at].max(free.unwrap_or(LONG_AGO));
                    let load = &self.loads[at];
                    let then = within_hours_for(self.model, &self.model.jobs[load.task], soonest, load.minutes);
                    let then = then.min(FAR_OFF / 2);
                    changed |= then > begins[at];
                    begins[at] = begins[at].max(then);
                    before = Some(at);
                }
            }
            if round > 0 && !changed {
                break;
            }
        }
        begins
    }

    /// What rows cost: what comes later than it could, what is heated again, and above all what cannot be so.
    fn cost(&self, rows: &Rows) -> i64 {
        let begins = self.begins(rows);
        // What finds no hour at all begins so far off that its cost is no number any more.
        let (mut cost, mut late) = (0_i64, 0_i64);
        let times = |weight: i64, minutes: Minute| weight.saturating_mul(minutes.max(0));
        for (load, begins) in self.loads.iter().zip(begins.iter()) {
            let later = begins - load.soonest;
            cost = cost.saturating_add(times(load.weight, later - load.free));
            cost = cost.saturating_add(times(IMPOSSIBLE, begins - load.latest));
            // Of two that cost as much the one in which things are ready later.
            late = late.saturating_add(later);
        }
        for (one, other, by) in &self.bonds {
            cost = cost.saturating_add(times(IMPOSSIBLE, begins[*one] + by - begins[*other]));
        }
        for row in rows {
            let pairs = row.windows(2);
            let again = pairs.map(|pair| match pair {
                [one, then] => self.heats[*one][*then],
                _ => 0,
            });
            cost = cost.saturating_add(times(HEATED_AGAIN, again.sum::<Minute>()));
            // One that is not needed is not lit.
            late = late.saturating_add(i64::from(!row.is_empty()));
        }
        cost.saturating_mul(EXACT).saturating_add(late)
    }

    /// The rows of a plan.
    fn rows(&self, times: &Times) -> Rows {
        let mut rows: Rows = vec![Vec::new(); self.units];
        let mut loads: Vec<usize> = (0..self.loads.len()).collect();
        loads.sort_by_key(|at| (times.starts[self.loads[*at].task], *at));
        for at in loads {
            if let Some(row) = rows.get_mut(times.units[self.loads[at].task]) {
                row.push(at);
            }
        }
        rows
    }

    /// The rows that cost least when some loads are put in, all of them one after the other or each by itself.
    fn put_back(&self, rows: &Rows, loads: &[usize]) -> Rows {
        let together = self.best_place(rows, loads);
        let mut apart = rows.clone();
        for load in loads {
            apart = self.best_place(&apart, &[*load]);
        }
        if self.cost(&apart) < self.cost(&together) { apart } else { together }
    }

    /// The same for loads that stay one after the other.
    fn best_place(&self, rows: &Rows, loads: &[usize]) -> Rows {
        let mut best: Option<(i64, Rows)> = None;
        for unit in 0..self.units {
            let long = rows.get(unit).map_or(0, Vec::len);
            // Units that are empty are all alike.
            let is_second_empty = long == 0 && rows.iter().take(unit).any(Vec::is_empty);
            for place in (0..=long).filter(|_| !is_second_empty) {
                let mut tried = rows.clone();
                if let Some(row) = tried.get_mut(unit) {
                    row.splice(place..place, loads.iter().copied());
                }
                let cost = self.cost(&tried);
                if best.as_ref().is_none_or(|(least, _)| cost < *least) {
                    best = Some((cost, tried));
                }
            }
        }
        best.map_or_else(|| rows.clone(), |(_, rows)| rows)
    }

    /// The best rows found, as wishes.
    fn best(&self, now: &Times) -> Vec<Ordered> {
        let mut noise = Noise::new();
        let mut current = self.rows(now);
        let mut cost = self.cost(&current);
        let mut known: BTreeMap<i64, Rows> = BTreeMap::from([(cost, current.clone())]);
        let heating = self.heats.iter().flat_map(|heats| heats.iter()).max().copied().unwrap_or(0);
        for _ in 0..EFFORT / (self.loads.len() * self.loads.len()).max(1) {
            let many = 1 + noise.below(4);
            let mut taken: BTreeSet<usize> = BTreeSet::new();
            for _ in 0..many {
                taken.insert(usize::try_from(noise.below(i64::try_from(self.steps.len()).unwrap_or(1))).unwrap_or(0));
            }
            let mut order: Vec<usize> = taken.into_iter().collect();
            if noise.below(2) == 0 {
                order.reverse();
            }
            let is_taken =
                |at: &usize| order.iter().filter_map(|step| self.steps.get(*step)).any(|step| step.contains(at));
            let mut rows: Rows =
                current.iter().map(|row| row.iter().copied().filter(|at| !is_taken(at)).collect()).collect();
            for step in order.iter().filter_map(|step| self.steps.get(*step)) {
                let mut loads = step.clone();
                // As they come in time.
                loads.sort_by_key(|at| (self.loads[*at].soonest, *at));
                rows = self.put_back(&rows, &loads);
            }
            let after = self.cost(&rows);
            let least = known.keys().next().copied().unwrap_or(after);
            if after <= least + EXACT * HEATED_AGAIN * heating / 2 || after < cost {
                (current, cost) = (rows.clone(), after);
            }
            known.entry(after).or_insert(rows);
            while known.len() > BEST {
                known.pop_last();
            }
        }
        known.into_values().filter_map(|rows| self.wish(&rows)).collect()
    }

    /// What the builder is asked for.
    fn wish(&self, rows: &Rows) -> Option<Ordered> {
        let begins = self.begins(rows);
        let tasks = self.model.jobs.len();
        let mut wish = Wish::nothing(tasks);
        for (unit, row) in rows.iter().enumerate() {
            for at in row {
                wish.units[self.loads[*at].task] = Some(unit);
                wish.lifts[self.loads[*at].task] = begins[*at];
            }
        }
        let soonest = soonest(self.model, &wish.lifts)?;
        Some(((0..tasks).map(|task| soonest[start(task)]).collect(), wish))
    }
}

/// How soon each moment can be by the times between them and the hours, if some tasks come no sooner than they are said to; `None` if it
/// cannot be.
fn soonest(model: &StandardForm, lifts: &Dense<Minute>) -> Option<Dense<Minute>> {
    let mut soonest = model.network.least_from(model.zero()).ok()?;
    let nothing = Diary::default();
    for _ in 0..20 {
        let mut raised = Vec::new();
        for (task, job) in model.jobs.iter().enumerate() {
            let mut begins = soonest[start(task)].max(lifts[task]);
            if job.attended {
                begins = within_hours_for(model, job, begins, job.shortest);
                if job.cooks > 0 && job.shortest > 0 {
                    let next = model.people.iter().map(|person| nothing.next(person, begins, job.shortest));
                    begins = begins.max(next.min().unwrap_or(begins));
                }
            }
            if begins >= FAR_OFF {
                return None;
            }
            if begins > soonest[start(task)] {
                soonest[start(task)] = begins;
                raised.push(start(task));
            }
        }
        if raised.is_empty() {
            break;
        }
        model.network.raise(&mut soonest, &raised).ok()?;
    }
    Some(soonest)
}

/// How late each moment can be if all of it takes no longer than it does.
fn latest(model: &StandardForm, now: &Times) -> Dense<Minute> {
    let span = now.ends.iter().copied().max().unwrap_or(0);
    let mut latest: Dense<Minute> = Dense::filled(model.network.events(), FAR_OFF);
    let mut lowered = Vec::new();
    for task in 0..model.jobs.len() {
        latest[end(task)] = span;
        lowered.push(end(task));
    }
    model.network.lower(&mut latest, &lowered);
    latest
}

/// What it costs by the minute that all loads of a step come later in the mirror, and how many minutes are for nothing: what is ready sooner
/// than it is wanted because of them.
fn grows_stale(model: &StandardForm, loads: &[usize], soonest: &Dense<Minute>) -> (i64, Minute) {
    let mut before: BTreeSet<usize> = loads.iter().copied().collect();
    let mut open: Vec<usize> = loads.to_vec();
    while let Some(task) = open.pop() {
        for arc in model.network.leading_to(start(task)) {
            let from = arc.from / 2;
            if arc.by >= 0 && from < model.jobs.len() && before.insert(from) {
                open.push(from);
            }
        }
    }
    let is_its = |event: usize| event != model.zero() && before.contains(&(event / 2));
    let ready = model.idle.iter().filter(|idle| idle.from == model.zero() && is_its(idle.to));
    let ready: Vec<(i64, Minute)> = ready.map(|idle| (idle.weight, (idle.free - soonest[idle.to]).max(0))).collect();
    (ready.iter().map(|one| one.0).sum(), ready.iter().map(|one| one.1).min().unwrap_or(0))
}
