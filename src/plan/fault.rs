//! What is wrong with a problem before anything is planned.

use super::problem::{FURTHEST, Kind, LARGEST, Minute, Person, Problem, Shift, Stand, Window};

/// A demand that no plan can meet, seen from one task or rule alone.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Fault {
    /// A number points at a task, a piece of equipment or a due time that is not there: a mistake of the caller.
    Dangling,
    /// A time is negative, runs backward, or is beyond what is planned with.
    BadTime {
        /// The task, if it is one task's time.
        task: Option<usize>,
    },
    /// A unit takes less than nothing, or more than is planned with.
    BadCapacity {
        /// The equipment.
        equipment: usize,
    },
    /// Opening hours that are empty, overlap or are out of order.
    BadHours,
    /// Hands-on work that would be drawn out.
    DrawnOutWork {
        /// The task.
        task: usize,
    },
    /// A task needs more people than work here.
    TooFewCooks {
        /// The task.
        task: usize,
        /// How many it needs.
        needs: u32,
        /// How many there are.
        has: u32,
    },
    /// A task uses equipment of which there is none.
    NoUnit {
        /// The task.
        task: usize,
        /// The equipment.
        equipment: usize,
    },
    /// A load does not fit into one unit.
    TooLarge {
        /// The task.
        task: usize,
        /// The equipment.
        equipment: usize,
        /// How large the load is.
        size: i64,
        /// How much a unit takes.
        takes: i64,
    },
    /// A task of work or tending is longer than any opening hours.
    LongerThanOpen {
        /// The task.
        task: usize,
        /// How long it takes.
        minutes: Minute,
        /// The longest the kitchen is open at a stretch.
        open: Minute,
    },
    /// Hands-on work is longer than anybody's shift.
    LongerThanShift {
        /// The task.
        task: usize,
        /// How long it takes.
        minutes: Minute,
        /// The longest that anybody who is needed for it works at a stretch.
        longest: Minute,
    },
}

impl Problem {
    /// Everything that is wrong with a problem in itself; empty when it can be planned.
    pub fn faults(&self) -> Vec<Fault> {
        let mut faults = Vec::new();
        let in_reach = |minute: Minute| (-FURTHEST..=FURTHEST).contains(&minute);
        self.dangling(&mut faults);
        self.hours(&mut faults);
        let times = self.lags.iter().flat_map(|lag| [Some(lag.least), lag.most]).flatten();
        let times = times.chain(self.dues.iter().map(|due| due.minute)).chain(self.earliest);
        if !times.chain([self.pause]).all(in_reach) || self.pause < 0 {
            faults.push(Fault::BadTime { task: None });
        }
        for (at, equipment) in self.equipment.iter().enumerate() {
            if equipment.shared.is_some_and(|takes| !(0..=LARGEST).contains(&takes)) {
                faults.push(Fault::BadCapacity { equipment: at });
            }
            if !(0..=FURTHEST).contains(&equipment.heating) {
                faults.push(Fault::BadTime { task: None });
            }
        }
        let longest_open = self.open.iter().map(|window| window.closes - window.opens).max();
        for (at, task) in self.tasks.iter().enumerate() {
            if !(0..=FURTHEST).contains(&task.shortest) || !(task.shortest..=FURTHEST).contains(&task.longest) {
                faults.push(Fault::BadTime { task: Some(at) });
            }
            if task.longest > task.shortest && (task.cooks > 0 || task.kind == Kind::Hands) {
                faults.push(Fault::DrawnOutWork { task: at });
            }
            if task.cooks > self.cooks {
                faults.push(Fault::TooFewCooks { task: at, needs: task.cooks, has: self.cooks });
            }
            if let Some(open) = longest_open.filter(|open| task.kind != Kind::Wait && task.shortest > *open) {
                faults.push(Fault::LongerThanOpen { task: at, minutes: task.shortest, open });
            }
            let longest = self.longest_stretch(task.cooks);
            if let Some(longest) = longest.filter(|longest| task.cooks > 0 && task.shortest > *longest) {
                faults.push(Fault::LongerThanShift { task: at, minutes: task.shortest, longest });
            }
            let Some(holds) = task.holds else { continue };
            let Some(equipment) = self.equipment.get(holds.equipment) else { continue };
            if equipment.count == 0 {
                faults.push(Fault::NoUnit { task: at, equipment: holds.equipment });
            }
            if let Some(takes) = equipment.shared.filter(|takes| !(0..=*takes).contains(&holds.size)) {
                faults.push(Fault::TooLarge { task: at, equipment: holds.equipment, size: holds.size, takes });
            }
        }
        faults
    }

    /// The longest that so many people can work at one thing; `None` where only their number counts.
    fn longest_stretch(&self, cooks: u32) -> Option<Minute> {
        let stretch = |person: &Person| {
            let shifts = person.shifts.iter().map(|shift| shift.window.closes - shift.window.opens);
            let longest = if person.shifts.is_empty() { Some(person.longest) } else { shifts.max() };
            longest.unwrap_or(0).min(person.longest)
        };
        let mut stretches: Vec<Minute> = self.people.iter().map(stretch).collect();
        stretches.sort_unstable_by_key(|stretch| -stretch);
        let last = usize::try_from(cooks).ok()?.saturating_sub(1);
        stretches.get(last).copied()
    }

    fn dangling(&self, faults: &mut Vec<Fault>) {
        let task = |at: usize| at < self.tasks.len();
        let stands = |stand: &Stand| match *stand {
            Stand::Between { made, used } => task(made) && task(used),
            Stand::DrawnOut { rest } => task(rest),
            Stand::Ready { made, due } => task(made) && due < self.dues.len(),
        };
        let sound = self.lags.iter().all(|lag| task(lag.from.task) && task(lag.to.task))
            && self.dues.iter().flat_map(|due| &due.tasks).all(|at| task(*at))
            && self.standing.iter().map(|standing| &standing.stand).chain(&self.long).chain(&self.stale).all(stands)
            && self.tasks.iter().filter_map(|task| task.holds).all(|holds| holds.equipment < self.equipment.len());
        if !sound {
            faults.push(Fault::Dangling);
        }
    }

    fn hours(&self, faults: &mut Vec<Fault>) {
        let apart = self.open.windows(2).all(|pair| match pair {
            [before, after] => before.closes < after.opens,
            _ => true,
        });
        let real = |minute: Minute| (-FURTHEST..=FURTHEST).contains(&minute);
        let sound = self.open.iter().all(|open| open.opens < open.closes && real(open.opens) && real(open.closes));
        let shift = |shift: &Shift| {
            let Window { opens, closes } = shift.window;
            opens < closes && real(opens) && real(closes) && (0..closes - opens).contains(&shift.rest)
        };
        let in_turn = |person: &Person| {
            person.shifts.windows(2).all(|pair| match pair {
                [before, after] => before.window.closes <= after.window.opens,
                _ => true,
            })
        };
        let length = |minutes: Minute| (0..=FURTHEST).contains(&minutes);
        let people = self.people.iter().all(|person| {
            person.shifts.iter().all(shift) && in_turn(person) && length(person.longest) && length(person.away)
        });
        let counted = self.people.is_empty() || u32::try_from(self.people.len()) == Ok(self.cooks);
        if !apart || !sound || !people || !counted {
            faults.push(Fault::BadHours);
        }
    }
}
