//! What a plan is wished to have beside the order in which things are put.

use super::dense::Dense;
use super::network::LONG_AGO;
use super::problem::Minute;

/// What is asked of a plan beside the order in which things are put.
#[derive(Debug, Clone)]
pub struct Wish {
    /// How long each load waits at most so that a unit need not be heated once more.
    pub waits: Dense<Minute>,
    /// The unit that a load is to be in.
    pub units: Dense<Option<usize>>,
    /// The moment before which a task is not to begin.
    pub lifts: Dense<Minute>,
}

impl Wish {
    /// Nothing, for so many tasks.
    pub fn nothing(tasks: usize) -> Wish {
        Wish {
            waits: Dense::filled(tasks, 0),
            units: Dense::filled(tasks, None),
            lifts: Dense::filled(tasks, LONG_AGO),
        }
    }

    /// That each load waits so long for each heating that is spared by it.
    pub fn to_wait(tasks: usize, minutes: Minute) -> Wish {
        Wish { waits: Dense::filled(tasks, minutes), ..Wish::nothing(tasks) }
    }

    /// Whether nothing is wished.
    pub fn is_nothing(&self) -> bool {
        let is_lifted = self.lifts.iter().any(|lift| *lift > LONG_AGO);
        !is_lifted && self.waits.iter().all(|minutes| *minutes == 0) && self.units.iter().all(Option::is_none)
    }
}
