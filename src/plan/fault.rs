//! What is wrong with a problem before anything is planned.

use super::problem::{FURTHEST, Kind, LARGEST, Minute, Problem, Stand};

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

    fn dangling(&self, faults: &mut Vec<Fault>) {
        let task = |at: usize| at < self.tasks.len();
        let stands = |stand: &Stand| match *stand {
            Stand::Between { made, used } => task(made) && task(used),
            Stand::DrawnOut { rest } => task(rest),
            Stand::Ready { made, due } => task(made) && due < self.dues.len(),
        };
        let sound = self.lags.iter().all(|lag| task(lag.from.task) && task(lag.to.task))
            && self.dues.iter().flat_map(|due| &due.tasks).all(|at| task(*at))
            && self.standing.iter().all(|standing| stands(&standing.stand))
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
        if !apart || !sound {
            faults.push(Fault::BadHours);
        }
    }
}
