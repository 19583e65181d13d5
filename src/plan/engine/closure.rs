//! Everything that follows from arcs alone, worked out before the solver starts.
//!
//! The solver sees only how early and how late each event can come. That two events lie at least so far apart is not
//! in these bounds, however clear it is from the arcs between them. What follows from the arcs is therefore worked
//! out here: events that hang together rigidly become one variable, arcs that follow from others are left out,
//! and the least time between any two events is known.

use super::super::dense::Dense;
use super::super::network::FAR_OFF;
use super::super::network::{Arc, Cause, LONG_AGO, Network};
use super::super::occupancy::{within_hours_before_for, within_hours_for};
use super::super::problem::Minute;
use super::super::standard_form::{StandardForm, end, start};

/// The least times between all events of a model, for plans that are over by a given time.
#[derive(Debug, Clone)]
pub struct Closure {
    least: Dense<Dense<Minute>>,
    zero: usize,
}

impl Closure {
    /// Works out all least times; `None` if no plan can be over by `horizon`.
    pub fn new(model: &StandardForm, horizon: Minute) -> Option<Closure> {
        let mut arcs = model.network.arcs().to_vec();
        for task in 0..model.jobs.len() {
            arcs.push(Arc { from: end(task), to: model.zero(), by: -horizon, cause: Cause::Edge });
        }
        let events = model.network.events();
        let network = Network::new(events, arcs.clone());
        let (lower, upper) = bounds(model, &network)?;
        for event in 0..events {
            arcs.push(Arc { from: model.zero(), to: event, by: lower[event], cause: Cause::Edge });
            arcs.push(Arc { from: event, to: model.zero(), by: -upper[event], cause: Cause::Edge });
        }
        let network = Network::new(events, arcs);
        let least = (0..events).map(|event| network.least_from(event).ok()).collect::<Option<Dense<_>>>()?;
        Some(Closure { least, zero: model.zero() })
    }

    /// The least time from one event to another.
    pub fn least(&self, from: usize, to: usize) -> Minute {
        self.least[from][to]
    }

    /// The most time from one event to another.
    pub fn most(&self, from: usize, to: usize) -> Minute {
        -self.least[to][from]
    }

    /// The earliest an event can come.
    pub fn earliest(&self, event: usize) -> Minute {
        self.least(self.zero, event)
    }

    /// The latest an event can come.
    pub fn latest(&self, event: usize) -> Minute {
        self.most(self.zero, event)
    }

    /// For each event, the first event that it hangs on rigidly, and how much later it comes.
    pub fn rigid(&self) -> Dense<(usize, Minute)> {
        let events = self.least.len();
        (0..events)
            .map(|event| {
                let fixed = |other: &usize| {
                    let there = self.least(*other, event);
                    there != LONG_AGO && there == self.most(*other, event)
                };
                let first = [self.zero].into_iter().chain(0..events).find(fixed).unwrap_or(event);
                (first, self.least(first, event))
            })
            .collect()
    }
}

/// The earliest and latest each event can come, by arcs and opening hours together; `None` if it cannot come.
pub fn bounds(model: &StandardForm, network: &Network) -> Option<(Dense<Minute>, Dense<Minute>)> {
    let zero = model.zero();
    let mut lower = network.least_from(zero).ok()?;
    let mut upper = Dense::filled(network.events(), FAR_OFF);
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
            let first = within_hours_for(model, job, lower[start(task)], job.shortest);
            if first > lower[start(task)] {
                lower[start(task)] = first;
                raised.push(start(task));
            }
            let last = within_hours_before_for(model, job, upper[end(task)] - job.shortest);
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
    (0..network.events()).all(|event| lower[event] <= upper[event]).then_some((lower, upper))
}
