//! Puts a plan together task by task in a given order of preference.
//!
//! Each task takes the first moment that its arcs, the opening hours, the cooks and the equipment leave. Where an upper
//! limit (`within`, `keeps`, `straight after`) leaves none, the tasks that set the limit are taken out again and put
//! later by what was missing. The procedure is known from project scheduling with minimum and maximum time lags
//! (Neumann and Zimmermann 1999, serial generation with unscheduling; from memory).

use super::dense::Dense;
use super::network::{Arc, FAR_OFF, LONG_AGO, Network};
use super::occupancy::Occupancy;
use super::problem::Minute;
use super::standard_form::{StandardForm, Times, end, start};
use super::wish::Wish;
use std::collections::BTreeSet;
use std::rc::Rc;

/// Tasks that are bound to each other, usually one recipe, with a network of their own.
#[derive(Debug, Clone)]
struct Group {
    tasks: Rc<Dense<usize>>,
    /// Events of the group: start and end of its tasks by their place in `tasks`, and zero. One for all drafts.
    network: Rc<Network>,
    lower: Dense<Minute>,
    upper: Dense<Minute>,
}

/// Where a task was put.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
struct Put {
    start: Minute,
    end: Minute,
    unit: usize,
}

/// A model cut into groups, ready for plans to be built.
#[derive(Debug, Clone)]
pub struct Builder<'a> {
    model: &'a StandardForm,
    groups: Dense<Group>,
    /// The group of each task and its place there.
    place: Dense<(usize, usize)>,
    /// The tasks that must be put before each task.
    before: Dense<Vec<usize>>,
    /// The tasks that wait for each task.
    behind: Dense<Vec<usize>>,
}

/// How often others make room for a task that waits for a unit at its heat.
const MOST_PUSHES: usize = 3;

/// A plan in the making.
struct Draft {
    groups: Dense<Group>,
    lifts: Dense<Minute>,
    puts: Dense<Option<Put>>,
    waiting: Dense<usize>,
    ready: BTreeSet<(i64, usize)>,
    occupancy: Occupancy,
    /// How long each load waits at most so that a unit need not be heated once more.
    waits: Dense<Minute>,
    /// The unit that a load is to be in.
    units: Dense<Option<usize>>,
    /// How often each task came too late.
    pushes: Dense<usize>,
    setbacks: usize,
    /// What is left of the effort, in events.
    effort: usize,
}

/// What building plans may cost, in events looked at. It bounds the time, and unlike a clock it gives the same plan on
/// every machine; the clock only ends what would take too long on this one.
#[derive(Clone, Copy)]
pub struct Effort<'a> {
    /// So many events.
    pub events: usize,
    /// Says when it is enough.
    pub stop: &'a dyn Fn() -> bool,
}

impl<'a> Builder<'a> {
    /// Cuts a model into groups; `None` if its arcs contradict each other.
    pub fn new(model: &'a StandardForm) -> Option<Builder<'a>> {
        let count = model.jobs.len();
        let (groups, place) = groups(model);
        let mut groups: Dense<Group> = groups;
        for group in groups.iter_mut() {
            let zero = 2 * group.tasks.len();
            group.lower = group.network.least_from(zero).ok()?;
            group.upper = Dense::filled(zero + 1, FAR_OFF);
            group.upper[zero] = 0;
            group.network.lower(&mut group.upper, &[zero]);
        }
        let mut before = Dense::filled(count, Vec::new());
        let mut behind = Dense::filled(count, Vec::new());
        for arc in model.network.arcs() {
            let (from, to) = (arc.from / 2, arc.to / 2);
            let binds = arc.by >= 0 && arc.to % 2 == 0 && from < count && to < count && from != to;
            if binds && !before[to].contains(&from) {
                before[to].push(from);
                behind[from].push(to);
            }
        }
        Some(Builder { model, groups, place, before, behind })
    }

    /// The least time from the start of each task to the last event bound to it: how much hangs on it.
    pub fn tails(&self) -> Dense<Minute> {
        let mut tails = Dense::filled(self.model.jobs.len(), 0);
        for group in self.groups.iter() {
            // Backward from an imagined event after everything.
            let zero = 2 * group.tasks.len();
            let mut latest = Dense::filled(zero + 1, 0);
            let all: Vec<usize> = (0..zero).collect();
            group.network.lower(&mut latest, &all);
            for (at, task) in group.tasks.iter().enumerate() {
                tails[*task] = -latest[start(at)];
            }
        }
        tails
    }

    /// The earliest start of each task by arcs alone.
    pub fn heads(&self) -> Dense<Minute> {
        self.place.iter().map(|(group, at)| self.groups[*group].lower[start(*at)]).collect()
    }

    /// The number of the group each task is in.
    pub fn group_of(&self, task: usize) -> usize {
        self.place[task].0
    }

    /// Builds a plan, giving precedence to tasks with the smaller key; `None` if that does not come to an end, or not
    /// within the effort, from which it takes what it costs.
    pub fn build(&self, keys: &Dense<i64>, effort: &mut Effort) -> Option<Times> {
        let mut draft = self.draft(effort.events);
        let built = self.complete(&mut draft, keys, effort.stop);
        effort.events = draft.effort;
        built.ok().map(|()| self.times(&draft))
    }

    /// The same when each load waits up to so many minutes for each heating that a unit is spared by it, and those before it with it, goes
    /// into the unit and comes no sooner than is wished. One that cannot wait, since what must begin together would be in one unit, is put
    /// without waiting.
    pub fn build_wished(&self, keys: &Dense<i64>, wish: &Wish, effort: &mut Effort) -> Option<Times> {
        if wish.is_nothing() {
            return self.build(keys, effort);
        }
        let keys = self.load_by_load(keys);
        let mut waits = wish.waits.clone();
        loop {
            let draft = self.draft(effort.events);
            let mut draft =
                Draft { waits: waits.clone(), units: wish.units.clone(), lifts: wish.lifts.clone(), ..draft };
            self.lift(&mut draft)?;
            let built = self.complete(&mut draft, &keys, effort.stop);
            effort.events = draft.effort;
            match built {
                Ok(()) => return Some(self.times(&draft)),
                // Once more, without that one waiting.
                Err(Some(task)) => waits[task] = 0,
                Err(None) => return None,
            }
        }
    }

    /// An order of preference in which the loads of each step come one after the other, as they will be.
    fn load_by_load(&self, keys: &Dense<i64>) -> Dense<i64> {
        let mut keys = keys.clone();
        let pairs = self.model.loads.iter().copied();
        let in_order: Vec<(usize, usize)> = match self.model.mirrored {
            true => pairs.rev().map(|(first, then)| (then, first)).collect(),
            false => pairs.collect(),
        };
        for (first, then) in in_order {
            keys[then] = keys[then].max(keys[first].saturating_add(1));
        }
        keys
    }

    /// Puts the bounds of all groups where what is not to begin sooner leaves them.
    fn lift(&self, draft: &mut Draft) -> Option<()> {
        for group in draft.groups.iter_mut() {
            let mut lifted = Vec::new();
            for (at, task) in group.tasks.iter().enumerate() {
                if draft.lifts[*task] > group.lower[start(at)] {
                    group.lower[start(at)] = draft.lifts[*task];
                    lifted.push(start(at));
                }
            }
            if !lifted.is_empty() {
                group.network.raise(&mut group.lower, &lifted).ok()?;
            }
        }
        Some(())
    }

    fn draft(&self, effort: usize) -> Draft {
        let count = self.model.jobs.len();
        Draft {
            groups: self.groups.clone(),
            lifts: Dense::filled(count, LONG_AGO),
            puts: Dense::filled(count, None),
            waiting: self.before.iter().map(Vec::len).collect(),
            ready: BTreeSet::new(),
            occupancy: Occupancy::new(self.model),
            waits: Dense::filled(count, 0),
            units: Dense::filled(count, None),
            pushes: Dense::filled(count, 0),
            setbacks: 200 + 100 * count,
            effort,
        }
    }

    /// Puts everything; where that does not come to an end, the task that ought not to have waited, if it was that.
    fn complete(&self, draft: &mut Draft, keys: &Dense<i64>, stop: &dyn Fn() -> bool) -> Result<(), Option<usize>> {
        let count = self.model.jobs.len();
        draft.ready.extend((0..count).filter(|task| draft.waiting[*task] == 0).map(|task| (keys[task], task)));
        let mut left = count;
        while left > 0 {
            if stop() {
                return Err(None);
            }
            let next = draft.ready.pop_first().map(|(_, task)| task);
            // Tasks that start together wait for each other; any of them may begin.
            let task = next.or_else(|| {
                (0..count).filter(|task| draft.puts[*task].is_none()).min_by_key(|task| (keys[*task], *task))
            });
            let task = task.ok_or(None)?;
            draft.effort = draft.effort.checked_sub(self.events_beside(task)).ok_or(None)?;
            match self.put(draft, task) {
                Ok(()) => {
                    left -= 1;
                    for then in &self.behind[task] {
                        draft.waiting[*then] = draft.waiting[*then].saturating_sub(1);
                        if draft.waiting[*then] == 0 && draft.puts[*then].is_none() {
                            draft.ready.insert((keys[*then], *then));
                        }
                    }
                }
                Err(setback) => {
                    draft.setbacks = draft.setbacks.checked_sub(1).ok_or(None)?;
                    draft.effort = draft.effort.checked_sub(self.events_beside(task)).ok_or(None)?;
                    let waited = draft.waits[task] > 0;
                    draft.pushes[task] += 1;
                    match self.take_back(draft, keys, task, &setback) {
                        Some(taken) if !waited || draft.pushes[task] < MOST_PUSHES => left += taken,
                        // What comes too late however often the others make room for it ought not to have waited.
                        _ if waited => return Err(Some(task)),
                        Some(_) | None => return Err(None),
                    }
                }
            }
        }
        Ok(())
    }

    /// How many events are in a task's group: what putting it, or taking it out, looks at.
    fn events_beside(&self, task: usize) -> usize {
        self.groups[self.place[task].0].network.events()
    }

    fn times(&self, draft: &Draft) -> Times {
        let put = |task: usize| draft.puts[task].unwrap_or(Put { start: 0, end: 0, unit: 0 });
        let tasks = 0..self.model.jobs.len();
        let end_of = |task: usize| {
            let (group, at) = self.place[task];
            draft.groups[group].lower[end(at)]
        };
        Times {
            starts: tasks.clone().map(|task| put(task).start).collect(),
            ends: tasks.clone().map(end_of).collect(),
            units: tasks.map(|task| put(task).unit).collect(),
            people: draft.occupancy.people(self.model.jobs.len()),
        }
    }

    fn put(&self, draft: &mut Draft, task: usize) -> Result<(), Setback> {
        let (group_at, at) = self.place[task];
        let job = &self.model.jobs[task];
        let group = &draft.groups[group_at];
        let (soonest, latest) = (group.lower[start(at)].max(draft.lifts[task]), group.upper[start(at)]);
        let must_reach = group.lower[end(at)];
        let mut from = soonest;
        let (put, minutes) = loop {
            let minutes = job.shortest.max(must_reach - from);
            let (begin, unit) =
                draft.occupancy.fit(self.model, task, (from, minutes), (draft.waits[task], draft.units[task]));
            if begin > latest || begin >= FAR_OFF {
                return Err(Setback::TooLate { needs: begin, has: latest });
            }
            if begin == from || job.fixed() {
                break (Put { start: begin, end: begin + minutes, unit }, minutes);
            }
            from = begin;
        };
        draft.occupancy.take(self.model, task, put.unit, put.start, put.start + minutes);
        draft.puts[task] = Some(put);
        let group = &mut draft.groups[group_at];
        let fixed_end = if job.fixed() { Some(end(at)) } else { None };
        fix(group, start(at), put.start);
        if let Some(event) = fixed_end {
            fix(group, event, put.end);
        }
        let settled = match group.network.raise(&mut group.lower, &[start(at), end(at)]) {
            Ok(()) => {
                group.network.lower(&mut group.upper, &[start(at), end(at)]);
                self.hold_on(draft, group_at)
            }
            Err(_) => Err(Setback::Hopeless),
        };
        if settled.is_err()
            && let Some(put) = draft.puts[task].take()
        {
            // It may have been drawn out before another task could not hold on.
            draft.occupancy.give_back(self.model, task, put.unit, put.start, put.end);
        }
        settled
    }

    /// Rests that had to become longer keep their equipment longer, if they can.
    fn hold_on(&self, draft: &mut Draft, group_at: usize) -> Result<(), Setback> {
        for at in 0..draft.groups[group_at].tasks.len() {
            let group = &draft.groups[group_at];
            let task = group.tasks[at];
            let longer = group.lower[end(at)];
            let Some(put) = draft.puts[task].filter(|put| put.end < longer) else { continue };
            // Work and what has its time do not last longer for what comes after them: they come later.
            if self.model.jobs[task].fixed() {
                return Err(Setback::CannotHoldOn { rest: task, until: longer });
            }
            if let Some(holding) = self.model.jobs[task].holds {
                if !draft.occupancy.can_hold_on(holding, put.unit, put.end, longer) {
                    return Err(Setback::CannotHoldOn { rest: task, until: longer });
                }
                draft.occupancy.give_back(self.model, task, put.unit, put.start, put.end);
                draft.occupancy.take(self.model, task, put.unit, put.start, longer);
            }
            draft.puts[task] = Some(Put { end: longer, ..put });
        }
        Ok(())
    }

    /// Takes out what stands in the way of a task and makes it come later. Gives the number of tasks that are to be
    /// put again; `None` if nothing that was put stands in the way.
    fn take_back(&self, draft: &mut Draft, keys: &Dense<i64>, task: usize, setback: &Setback) -> Option<usize> {
        let (group_at, at) = self.place[task];
        let group = &draft.groups[group_at];
        let mut from_here = Minute::MAX;
        match *setback {
            Setback::Hopeless => return None,
            Setback::CannotHoldOn { rest, until } => {
                let put = draft.puts[rest]?;
                let later = (until - self.model.jobs[rest].shortest).max(put.start + 1);
                draft.lifts[rest] = draft.lifts[rest].max(later);
                from_here = put.start;
            }
            Setback::TooLate { needs, has } => {
                if needs >= FAR_OFF {
                    return None;
                }
                let reach = group.network.least_from(start(at)).ok()?;
                for (other_at, other) in group.tasks.iter().enumerate() {
                    let Some(put) = draft.puts[*other] else { continue };
                    let by_start = reach[start(other_at)] != LONG_AGO && put.start - reach[start(other_at)] <= has;
                    let by_end = self.model.jobs[*other].fixed()
                        && reach[end(other_at)] != LONG_AGO
                        && put.end - reach[end(other_at)] <= has;
                    if by_start || by_end {
                        draft.lifts[*other] = draft.lifts[*other].max(put.start + needs - has);
                        from_here = from_here.min(put.start);
                    }
                }
            }
        }
        if from_here == Minute::MAX {
            return None;
        }
        let mut taken = 0;
        for other in group.tasks.iter() {
            if let Some(put) = draft.puts[*other].filter(|put| put.start >= from_here) {
                draft.occupancy.give_back(self.model, *other, put.unit, put.start, put.end);
                draft.puts[*other] = None;
                taken += 1;
            }
        }
        self.start_group_again(draft, group_at, keys)?;
        Some(taken)
    }

    /// Works out a group's bounds and what can be put next, after tasks were taken out.
    fn start_group_again(&self, draft: &mut Draft, group_at: usize, keys: &Dense<i64>) -> Option<()> {
        let group = &mut draft.groups[group_at];
        group.lower = self.groups[group_at].lower.clone();
        group.upper = self.groups[group_at].upper.clone();
        let mut changed = Vec::new();
        for at in 0..group.tasks.len() {
            let task = group.tasks[at];
            if let Some(put) = draft.puts[task] {
                fix(group, start(at), put.start);
                changed.push(start(at));
                if self.model.jobs[task].fixed() {
                    fix(group, end(at), put.end);
                    changed.push(end(at));
                }
            } else if draft.lifts[task] > group.lower[start(at)] {
                group.lower[start(at)] = draft.lifts[task];
                changed.push(start(at));
            }
        }
        group.network.raise(&mut group.lower, &changed).ok()?;
        group.network.lower(&mut group.upper, &changed);
        for at in 0..group.tasks.len() {
            let task = group.tasks[at];
            if let Some(put) = draft.puts[task] {
                // A rest that was drawn out for a task now gone may end sooner again. Whether one that has to end later can hold on is
                // asked when the next task is put.
                let sooner = group.lower[end(at)];
                if sooner < put.end {
                    draft.occupancy.give_back(self.model, task, put.unit, put.start, put.end);
                    draft.occupancy.take(self.model, task, put.unit, put.start, sooner);
                    draft.puts[task] = Some(Put { end: sooner, ..put });
                }
            }
            draft.waiting[task] = self.before[task].iter().filter(|other| draft.puts[**other].is_none()).count();
            draft.ready.remove(&(keys[task], task));
            if draft.waiting[task] == 0 && draft.puts[task].is_none() {
                draft.ready.insert((keys[task], task));
            }
        }
        Some(())
    }
}

/// Why a task could not be put.
enum Setback {
    /// It would have to start later than others allow.
    TooLate { needs: Minute, has: Minute },
    /// A rest would have to hold its equipment while others need it.
    CannotHoldOn { rest: usize, until: Minute },
    /// The arcs contradict each other.
    Hopeless,
}

fn fix(group: &mut Group, event: usize, at: Minute) {
    group.lower[event] = group.lower[event].max(at);
    group.upper[event] = group.upper[event].min(at);
}

/// Cuts the tasks into groups that are not bound to each other.
fn groups(model: &StandardForm) -> (Dense<Group>, Dense<(usize, usize)>) {
    let count = model.jobs.len();
    let mut tasks: Dense<Vec<usize>> = Dense::default();
    let mut place: Dense<(usize, usize)> = Dense::default();
    for (task, group) in model.groups().iter().copied().enumerate() {
        while tasks.len() <= group {
            tasks.add(Vec::new());
        }
        place.add((group, tasks[group].len()));
        tasks[group].push(task);
    }
    let mut arcs: Dense<Vec<Arc>> = Dense::filled(tasks.len(), Vec::new());
    for arc in model.network.arcs() {
        let inside = [arc.from / 2, arc.to / 2].into_iter().find(|task| *task < count);
        let Some(group) = inside.map(|task| place[task].0) else { continue };
        let zero = 2 * tasks[group].len();
        let local = |event: usize| if event / 2 < count { 2 * place[event / 2].1 + event % 2 } else { zero };
        arcs[group].push(Arc { from: local(arc.from), to: local(arc.to), ..*arc });
    }
    let groups = tasks
        .iter()
        .zip(arcs.iter())
        .map(|(tasks, arcs)| Group {
            tasks: Rc::new(tasks.clone().into()),
            network: Rc::new(Network::new(2 * tasks.len() + 1, arcs.clone())),
            lower: Dense::default(),
            upper: Dense::default(),
        })
        .collect();
    (groups, place)
}
