//! Everything that follows from bonds alone, worked out before the solver starts.
//!
//! The solver sees only how early and how late each moment can come. That two moments lie at least so far apart is not
//! in these bounds, however clear it is from the bonds between them. What follows from the bonds is therefore worked
//! out here: moments that hang together rigidly become one variable, bonds that follow from others are left out,
//! and the least time between any two moments is known.

use super::super::dense::Dense;
use super::super::model::{Model, end, start};
use super::super::network::FAR_OFF;
use super::super::network::{Bond, Cause, LONG_AGO, Network};
use super::super::occupancy::{within_hours, within_hours_before};
use super::super::problem::Minute;

/// The least times between all moments of a model, for plans that are over by a given time.
#[derive(Debug, Clone)]
pub struct Closure {
    least: Dense<Dense<Minute>>,
    zero: usize,
}

impl Closure {
    /// Works out all least times; `None` if no plan can be over by `horizon`.
    pub fn new(model: &Model, horizon: Minute) -> Option<Closure> {
        let mut bonds = model.network.bonds().to_vec();
        for task in 0..model.jobs.len() {
            bonds.push(Bond { from: end(task), to: model.zero(), by: -horizon, cause: Cause::Edge });
        }
        let moments = model.network.moments();
        let network = Network::new(moments, bonds.clone());
        let (lower, upper) = bounds(model, &network)?;
        for moment in 0..moments {
            bonds.push(Bond { from: model.zero(), to: moment, by: lower[moment], cause: Cause::Edge });
            bonds.push(Bond { from: moment, to: model.zero(), by: -upper[moment], cause: Cause::Edge });
        }
        let network = Network::new(moments, bonds);
        let least = (0..moments).map(|moment| network.least_from(moment).ok()).collect::<Option<Dense<_>>>()?;
        Some(Closure { least, zero: model.zero() })
    }

    /// The least time from one moment to another.
    pub fn least(&self, from: usize, to: usize) -> Minute {
        self.least[from][to]
    }

    /// The most time from one moment to another.
    pub fn most(&self, from: usize, to: usize) -> Minute {
        -self.least[to][from]
    }

    /// The earliest a moment can come.
    pub fn earliest(&self, moment: usize) -> Minute {
        self.least(self.zero, moment)
    }

    /// The latest a moment can come.
    pub fn latest(&self, moment: usize) -> Minute {
        self.most(self.zero, moment)
    }

    /// For each moment, the first moment that it hangs on rigidly, and how much later it comes.
    pub fn rigid(&self) -> Dense<(usize, Minute)> {
        let moments = self.least.len();
        (0..moments)
            .map(|moment| {
                let fixed = |other: &usize| {
                    let there = self.least(*other, moment);
                    there != LONG_AGO && there == self.most(*other, moment)
                };
                let first = [self.zero].into_iter().chain(0..moments).find(fixed).unwrap_or(moment);
                (first, self.least(first, moment))
            })
            .collect()
    }
}

/// The earliest and latest each moment can come, by bonds and opening hours together; `None` if it cannot come.
pub fn bounds(model: &Model, network: &Network) -> Option<(Dense<Minute>, Dense<Minute>)> {
    let zero = model.zero();
    let mut lower = network.least_from(zero).ok()?;
    let mut upper = Dense::filled(network.moments(), FAR_OFF);
    upper[zero] = 0;
    network.lower(&mut upper, &[zero]);
    loop {
        let mut raised = Vec::new();
        let mut lowered = Vec::new();
        for task in 0..model.jobs.len() {
            let job = &model.jobs[task];
            if !job.attended {
                continue;
            }
            let first = within_hours(model, lower[start(task)], job.shortest);
            if first > lower[start(task)] {
                lower[start(task)] = first;
                raised.push(start(task));
            }
            let last = within_hours_before(model, upper[end(task)] - job.shortest, job.shortest);
            if last + job.shortest < upper[end(task)] {
                upper[end(task)] = last + job.shortest;
                lowered.push(end(task));
            }
            if lower[start(task)] > upper[start(task)] || lower[end(task)] > upper[end(task)] {
                return None;
            }
        }
        if raised.is_empty() && lowered.is_empty() {
            break;
        }
        network.raise(&mut lower, &raised).ok()?;
        network.lower(&mut upper, &lowered);
        if lower[zero] > 0 || upper[zero] < 0 {
            return None;
        }
    }
    (0..network.moments()).all(|moment| lower[moment] <= upper[moment]).then_some((lower, upper))
}
