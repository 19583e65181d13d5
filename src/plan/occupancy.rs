//! Who and what is taken when, while a plan is being put together.

use super::dense::Dense;
use super::diary::Diary;
use super::network::FAR_OFF;
use super::problem::{Equipment, Holding, Minute};
use super::standard_form::{Job, StandardForm};

/// How much of something countable is taken over time.
#[derive(Debug, Clone)]
pub struct Profile {
    /// From each moment to the next, so much is taken. Begins long ago with nothing taken.
    steps: Vec<(Minute, i64)>,
    capacity: i64,
}

impl Profile {
    /// Nothing taken of so much.
    pub fn new(capacity: i64) -> Profile {
        Profile { steps: vec![(Minute::MIN, 0)], capacity }
    }

    fn step_at(&self, minute: Minute) -> usize {
        self.steps.partition_point(|(from, _)| *from <= minute).saturating_sub(1)
    }

    /// Makes a step begin at a moment and gives its number.
    fn cut(&mut self, minute: Minute) -> usize {
        let at = self.step_at(minute);
        match self.steps.get(at) {
            Some((from, taken)) if *from != minute => {
                let taken = *taken;
                self.steps.insert(at + 1, (minute, taken));
                at + 1
            }
            _ => at,
        }
    }

    /// Takes (or with a negative amount gives back) some from one moment to another.
    pub fn take(&mut self, from: Minute, until: Minute, amount: i64) {
        if from >= until || amount == 0 {
            return;
        }
        let first = self.cut(from);
        let last = self.cut(until);
        for (_, taken) in self.steps.iter_mut().take(last).skip(first) {
            *taken += amount;
        }
        // Steps that no longer differ are joined, so that taking and giving back leaves no trace.
        let low = first.saturating_sub(1);
        let mut at = low;
        while at <= (last + 1).min(self.steps.len().saturating_sub(2)) {
            let same = matches!((self.steps.get(at), self.steps.get(at + 1)), (Some(a), Some(b)) if a.1 == b.1);
            if same {
                self.steps.remove(at + 1);
            } else {
                at += 1;
            }
        }
    }

    /// The first moment from `from` on at which `amount` is free for so many minutes.
    pub fn fit(&self, from: Minute, minutes: Minute, amount: i64) -> Minute {
        if minutes == 0 || amount == 0 {
            return from;
        }
        if amount > self.capacity {
            return FAR_OFF;
        }
        let mut start = from;
        for (at, (begin, taken)) in self.steps.iter().enumerate().skip(self.step_at(from)) {
            if *begin >= start + minutes {
                break;
            }
            if taken + amount > self.capacity {
                start = self.steps.get(at + 1).map_or(FAR_OFF, |(next, _)| *next);
            }
        }
        start
    }
}

/// A load in a unit.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
struct Held {
    start: Minute,
    end: Minute,
    task: usize,
    holding: Holding,
}

/// How long a load waits at most so that a unit need not be heated once more, and the unit that it is to be in, if that is said.
pub type Place = (Minute, Option<usize>);

/// One kind of equipment whose units must be told apart, because loads share them or they must be heated.
#[derive(Debug, Clone)]
pub struct Units {
    equipment: Equipment,
    units: Dense<Vec<Held>>,
    longest: Minute,
}

impl Units {
    /// Nothing in any unit.
    pub fn new(equipment: &Equipment, most: usize) -> Units {
        // More units than there are loads are never needed.
        let count = usize::try_from(equipment.count).unwrap_or(usize::MAX).min(most);
        Units { equipment: equipment.clone(), units: Dense::filled(count, Vec::new()), longest: 0 }
    }

    /// A moment from `from` on at which a load fits for so many minutes, and the unit: the first one, but that it waits up to so many
    /// minutes for each heating that a unit is spared by it; in one unit alone, if that is said.
    pub fn fit(&self, from: Minute, minutes: Minute, holding: Holding, (waits, only): Place) -> (Minute, usize) {
        let mut best = (FAR_OFF, FAR_OFF, 0);
        for unit in (0..self.units.len()).filter(|unit| only.is_none_or(|only| only == *unit)) {
            let start = self.fit_in(unit, from, minutes, holding);
            if start < FAR_OFF {
                let heatings = if waits > 0 { self.heatings(unit, start, holding) } else { 0 };
                best = best.min((start + waits * heatings, start, unit));
            }
            if best.0 == from && waits == 0 {
                break;
            }
        }
        (best.1, best.2)
    }

    /// How many heatings more a unit needs when a load is put into it: none where it is at that heat anyhow.
    fn heatings(&self, unit: usize, start: Minute, holding: Holding) -> i64 {
        let held = &self.units[unit];
        let at = held.partition_point(|other| other.start <= start);
        let before = at.checked_sub(1).and_then(|before| held.get(before)).map(|other| other.holding);
        let behind = held.get(at).map(|other| other.holding);
        let unlike = |one: Option<Holding>, other: Option<Holding>| match (one, other) {
            (Some(one), Some(other)) => i64::from(!self.equipment.agree(one.leaves, other.setting)),
            _ => 0,
        };
        let cold = i64::from(held.is_empty() && holding.setting.is_some());
        cold + unlike(before, Some(holding)) + unlike(Some(holding), behind) - unlike(before, behind)
    }

    /// The first moment from `from` on at which a load fits into one unit.
    pub fn fit_in(&self, unit: usize, from: Minute, minutes: Minute, holding: Holding) -> Minute {
        let held = &self.units[unit];
        let mut start = from;
        loop {
            let reach = self.equipment.heating;
            // Nothing that begins longer ago than the longest load can still be in the way.
            let first = held.partition_point(|other| other.start < start - self.longest - reach);
            let near = || held.iter().skip(first).take_while(|other| other.start < start + minutes + reach);
            let heat = |first: Holding, then: Holding| {
                if self.equipment.agree(first.leaves, then.setting) { 0 } else { reach }
            };
            let unlike = near()
                .filter(|other| {
                    let (behind, before) = (heat(other.holding, holding), heat(holding, other.holding));
                    !self.equipment.alike(holding, other.holding)
                        && start < other.end + behind
                        && other.start < start + minutes + before
                })
                .map(|other| other.end + heat(other.holding, holding))
                .max();
            if let Some(next) = unlike {
                start = next;
                continue;
            }
            let overlapping = near().filter(|other| start < other.end && other.start < start + minutes);
            let Some(takes) = self.equipment.shared else {
                match overlapping.map(|other| other.end).max() {
                    Some(next) => start = next,
                    None => return start,
                }
                continue;
            };
            let inside: Vec<&Held> = overlapping.collect();
            // The unit is fullest at the start of one of the loads in it.
            let full = inside.iter().map(|other| other.start.max(start)).any(|moment| {
                let sum: i64 = inside
                    .iter()
                    .filter(|other| other.start <= moment && moment < other.end)
                    .map(|other| other.holding.size)
                    .sum();
                sum + holding.size > takes
            });
            match inside.iter().map(|other| other.end).min() {
                Some(next) if full => start = next,
                _ => return start,
            }
        }
    }

    /// Puts a load into a unit.
    pub fn put(&mut self, unit: usize, task: usize, start: Minute, end: Minute, holding: Holding) {
        if end > start {
            let held = &mut self.units[unit];
            let at = held.partition_point(|other| other.start <= start);
            held.insert(at, Held { start, end, task, holding });
            self.longest = self.longest.max(end - start);
        }
    }

    /// Takes a load out of a unit.
    pub fn take_out(&mut self, unit: usize, task: usize) {
        self.units[unit].retain(|held| held.task != task);
    }
}

/// Everything that is taken.
#[derive(Debug, Clone)]
pub struct Occupancy {
    cooks: Cooks,
    equipment: Dense<Taken>,
}

/// The hands that are taken.
#[derive(Debug, Clone)]
enum Cooks {
    /// Only the number counts.
    Alike(Profile),
    /// It matters who works when, and who does what.
    Named { diaries: Dense<Diary>, at_work: Dense<Vec<usize>> },
}

impl Cooks {
    fn fit(&self, model: &StandardForm, from: Minute, minutes: Minute, cooks: i64) -> Minute {
        let diaries = match self {
            Cooks::Alike(profile) => return profile.fit(from, minutes, cooks),
            Cooks::Named { .. } if minutes == 0 || cooks == 0 => return from,
            Cooks::Named { diaries, .. } => diaries,
        };
        let Some(last) = usize::try_from(cooks - 1).ok().filter(|last| *last < diaries.len()) else { return FAR_OFF };
        let mut start = from;
        while start < FAR_OFF {
            let free = diaries.iter().zip(model.people.iter());
            let mut free: Vec<Minute> = free.map(|(diary, person)| diary.next(person, start, minutes)).collect();
            free.sort_unstable();
            match free.get(last) {
                Some(then) if *then > start => start = *then,
                _ => break,
            }
        }
        start
    }

    fn take(&mut self, model: &StandardForm, task: usize, start: Minute, end: Minute) {
        let cooks = model.jobs[task].cooks;
        match self {
            Cooks::Alike(profile) => profile.take(start, end, i64::from(cooks)),
            Cooks::Named { diaries, at_work } => {
                let free = (0..diaries.len()).filter(|who| diaries[*who].fits(&model.people[*who], start, end));
                let who: Vec<usize> = free.take(usize::try_from(cooks).unwrap_or(0)).collect();
                for who in &who {
                    diaries[*who].take(start, end);
                }
                at_work[task] = who;
            }
        }
    }

    fn give_back(&mut self, model: &StandardForm, task: usize, start: Minute, end: Minute) {
        match self {
            Cooks::Alike(profile) => profile.take(start, end, -i64::from(model.jobs[task].cooks)),
            Cooks::Named { diaries, at_work } => {
                for who in std::mem::take(&mut at_work[task]) {
                    diaries[who].give_back(start, end);
                }
            }
        }
    }
}

#[derive(Debug, Clone)]
enum Taken {
    /// Only the number counts.
    Alike(Profile),
    /// It matters which.
    Apart(Units),
}

/// Whether it matters which unit of some equipment a load is in.
pub fn told_apart(equipment: &Equipment) -> bool {
    equipment.shared.is_some() || equipment.heating > 0
}

impl Occupancy {
    /// Nothing taken.
    pub fn new(model: &StandardForm) -> Occupancy {
        let taken = |equipment: &Equipment| {
            if told_apart(equipment) {
                Taken::Apart(Units::new(equipment, model.jobs.len()))
            } else {
                Taken::Alike(Profile::new(i64::from(equipment.count)))
            }
        };
        let cooks = if model.people.is_empty() {
            Cooks::Alike(Profile::new(model.cooks))
        } else {
            Cooks::Named {
                diaries: Dense::filled(model.people.len(), Diary::default()),
                at_work: Dense::filled(model.jobs.len(), Vec::new()),
            }
        };
        Occupancy { cooks, equipment: model.equipment.iter().map(taken).collect() }
    }

    /// Who works at each task; empty where nobody does or where only their number counts.
    pub fn people(&self, tasks: usize) -> Dense<Vec<usize>> {
        match &self.cooks {
            Cooks::Alike(_) => Dense::filled(tasks, Vec::new()),
            Cooks::Named { at_work, .. } => at_work.clone(),
        }
    }

    /// The first moment from `from` on at which a task of so many minutes finds the kitchen open, cooks and equipment,
    /// and the unit it would hold; [`FAR_OFF`] if there is none.
    pub fn fit(
        &self,
        model: &StandardForm,
        task: usize,
        (from, minutes): (Minute, Minute),
        place: Place,
    ) -> (Minute, usize) {
        let job = &model.jobs[task];
        let mut start = from;
        loop {
            let before = start;
            if job.attended {
                start = within_hours_for(model, job, start, minutes);
            }
            if start < FAR_OFF {
                start = self.cooks.fit(model, start, minutes, i64::from(job.cooks));
            }
            let mut unit = 0;
            if let Some(holding) = job.holds.filter(|_| start < FAR_OFF) {
                (start, unit) = self.fit_equipment(start, minutes, holding, place);
            }
            if start == before || start >= FAR_OFF {
                return (start, unit);
            }
        }
    }

    fn fit_equipment(&self, start: Minute, minutes: Minute, holding: Holding, place: Place) -> (Minute, usize) {
        match &self.equipment[holding.equipment] {
            Taken::Alike(profile) => (profile.fit(start, minutes, 1), 0),
            Taken::Apart(_) if minutes == 0 => (start, 0),
            Taken::Apart(units) => units.fit(start, minutes, holding, place),
        }
    }

    /// Whether the equipment of a task that is held until `end` can be held until `longer` as well.
    pub fn can_hold_on(&self, holding: Holding, unit: usize, end: Minute, longer: Minute) -> bool {
        match &self.equipment[holding.equipment] {
            Taken::Alike(profile) => profile.fit(end, longer - end, 1) == end,
            Taken::Apart(units) => units.fit_in(unit, end, longer - end, holding) == end,
        }
    }

    /// Whether there are the people for a task at a time.
    pub fn has_hands(&self, model: &StandardForm, task: usize, start: Minute, end: Minute) -> bool {
        self.cooks.fit(model, start, end - start, i64::from(model.jobs[task].cooks)) == start
    }

    /// Takes what a task needs.
    pub fn take(&mut self, model: &StandardForm, task: usize, unit: usize, start: Minute, end: Minute) {
        let job = &model.jobs[task];
        self.cooks.take(model, task, start, end);
        if let Some(holding) = job.holds {
            match &mut self.equipment[holding.equipment] {
                Taken::Alike(profile) => profile.take(start, end, 1),
                Taken::Apart(units) => units.put(unit, task, start, end, holding),
            }
        }
    }

    /// Gives back what a task took.
    pub fn give_back(&mut self, model: &StandardForm, task: usize, unit: usize, start: Minute, end: Minute) {
        let job = &model.jobs[task];
        self.cooks.give_back(model, task, start, end);
        if let Some(holding) = job.holds {
            match &mut self.equipment[holding.equipment] {
                Taken::Alike(profile) => profile.take(start, end, -1),
                Taken::Apart(units) => units.take_out(unit, task),
            }
        }
    }
}

/// The first moment from `from` on at which the kitchen stays open for so many minutes; [`FAR_OFF`] if there is none.
pub fn within_hours(model: &StandardForm, from: Minute, minutes: Minute) -> Minute {
    if model.open.is_empty() {
        return from;
    }
    let first = model.open.partition_point(|window| window.closes < from + minutes);
    model
        .open
        .iter()
        .skip(first)
        .map(|window| (window.opens.max(from), window.closes))
        .find(|(start, closes)| start + minutes <= *closes)
        .map_or(FAR_OFF, |(start, _)| start)
}

/// The first moment from `from` on at which a job of so many minutes lies within opening hours, with what it asks of them around it.
pub fn within_hours_for(model: &StandardForm, job: &Job, from: Minute, minutes: Minute) -> Minute {
    let (before, after) = job.around;
    match within_hours(model, from - before, before + minutes + after) {
        FAR_OFF => FAR_OFF,
        start => start + before,
    }
}

/// The last moment up to `until` by which a job that is as short as can be starts within opening hours, the same way.
pub fn within_hours_before_for(model: &StandardForm, job: &Job, until: Minute) -> Minute {
    let (before, after) = job.around;
    match within_hours_before(model, until - before, before + job.shortest + after) {
        super::network::LONG_AGO => super::network::LONG_AGO,
        start => start + before,
    }
}

/// The last moment up to `until` by which a task of so many minutes can start and lie within opening hours;
/// [`LONG_AGO`](super::network::LONG_AGO) if there is none.
fn within_hours_before(model: &StandardForm, until: Minute, minutes: Minute) -> Minute {
    if model.open.is_empty() {
        return until;
    }
    let windows = model.open.iter().rev().filter(|window| window.opens <= until);
    windows
        .map(|window| (window.opens, until.min(window.closes - minutes)))
        .find(|(opens, start)| start >= opens)
        .map_or(super::network::LONG_AGO, |(_, start)| start)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_profile_finds_gaps() {
        let mut profile = Profile::new(2);
        profile.take(0, 10, 1);
        profile.take(5, 20, 1);
        assert_eq!(profile.fit(0, 5, 1), 0);
        assert_eq!(profile.fit(0, 6, 1), 10);
        assert_eq!(profile.fit(0, 5, 2), 20);
        assert_eq!(profile.fit(0, 5, 3), FAR_OFF);
        profile.take(5, 20, -1);
        profile.take(0, 10, -1);
        assert_eq!(profile.steps, [(Minute::MIN, 0)]);
    }

    #[test]
    fn an_oven_is_shared_only_at_one_heat() {
        let oven = Equipment { count: 1, shared: Some(24), tolerance: 50, heating: 15 };
        let mut units = Units::new(&oven, 9);
        let load =
            |setting, size| Holding { equipment: 0, setting: Some(setting), leaves: Some(setting), size, dish: None };
        units.put(0, 0, 100, 130, load(1900, 12));
        assert_eq!(units.fit(90, 20, load(1930, 12), (0, None)).0, 90);
        assert_eq!(units.fit(90, 20, load(1930, 13), (0, None)).0, 130);
        assert_eq!(units.fit(90, 20, load(2200, 12), (0, None)).0, 145);
        assert_eq!(units.fit(60, 20, load(2200, 12), (0, None)).0, 60);
    }
}
