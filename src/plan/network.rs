//! Events and the least times between them: a simple temporal network.
//!
//! Every rule of a problem that is about two events has the form "this one comes at least so many minutes after that
//! one", where the number may be negative. Whether such rules can be met at all, and the earliest and latest each
//! event can come, is a matter of longest paths.

use super::dense::Dense;
use super::problem::Minute;

/// Longer ago than anything that is planned.
pub const LONG_AGO: Minute = Minute::MIN / 4;
/// Later than anything that is planned.
pub const FAR_OFF: Minute = Minute::MAX / 4;

/// Where an arc comes from, so that a cycle of arcs can be told in kitchen words.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Cause {
    /// How long a task takes, at least or at most.
    Duration(usize),
    /// A lag of the problem, by its number.
    Lag(usize),
    /// Loads of one step are taken in order: the earlier and the later load.
    Loads(usize, usize),
    /// A due time of the problem, by its number.
    Due(usize),
    /// Nothing starts before the problem's earliest minute.
    Earliest,
    /// Nothing lies outside the time that is planned.
    Edge,
}

/// `to` comes at least `by` minutes after `from`.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Arc {
    /// The event counted from.
    pub from: usize,
    /// The event that depends on it.
    pub to: usize,
    /// The least time between them; negative: `to` may come that much before `from`.
    pub by: Minute,
    /// Where it comes from.
    pub cause: Cause,
}

/// A cycle of arcs that asks an event to come after itself.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Cycle {
    /// The arcs, each starting where the one before it ends.
    pub arcs: Vec<Arc>,
}

impl Cycle {
    /// By how many minutes the cycle cannot close.
    pub fn excess(&self) -> Minute {
        self.arcs.iter().map(|arc| arc.by).sum()
    }
}

/// Events and the arcs between them.
#[derive(Debug, Clone)]
pub struct Network {
    arcs: Dense<Arc>,
    out: Dense<Vec<usize>>,
    into: Dense<Vec<usize>>,
}

impl Network {
    /// A network of so many events.
    pub fn new(events: usize, arcs: Vec<Arc>) -> Network {
        let mut out = Dense::filled(events, Vec::new());
        let mut into = Dense::filled(events, Vec::new());
        for (at, arc) in arcs.iter().enumerate() {
            out[arc.from].push(at);
            into[arc.to].push(at);
        }
        Network { arcs: arcs.into(), out, into }
    }

    /// How many events there are.
    pub fn events(&self) -> usize {
        self.out.len()
    }

    /// All arcs.
    pub fn arcs(&self) -> &[Arc] {
        self.arcs.as_slice()
    }

    /// The arcs that start at an event.
    pub fn out(&self, event: usize) -> impl Iterator<Item = Arc> + '_ {
        self.out[event].iter().map(|at| self.arcs[*at])
    }

    /// The arcs that lead to an event.
    pub fn leading_to(&self, event: usize) -> impl Iterator<Item = Arc> + '_ {
        self.into[event].iter().map(|at| self.arcs[*at])
    }

    /// Raises the earliest times until every arc is met, beginning with events whose time was just raised.
    /// Events at [`LONG_AGO`] bind nothing.
    ///
    /// # Errors
    /// When that never ends, with the cycle that makes it so.
    pub fn raise(&self, earliest: &mut Dense<Minute>, raised: &[usize]) -> Result<(), Cycle> {
        // Mostly nothing has to move, and then nothing is laid out for as many events as there are.
        let moves = |event: usize| {
            earliest[event] != LONG_AGO && self.out(event).any(|arc| earliest[event] + arc.by > earliest[arc.to])
        };
        if !raised.iter().any(|event| moves(*event)) {
            return Ok(());
        }
        let mut queue: std::collections::VecDeque<usize> = raised.iter().copied().collect();
        let mut queued = Dense::filled(self.events(), false);
        for event in raised {
            queued[*event] = true;
        }
        let mut reason: Dense<Option<usize>> = Dense::filled(self.events(), None);
        let mut times = Dense::filled(self.events(), 0_usize);
        while let Some(event) = queue.pop_front() {
            queued[event] = false;
            if earliest[event] == LONG_AGO {
                continue;
            }
            for at in &self.out[event] {
                let arc = self.arcs[*at];
                let then = earliest[event] + arc.by;
                if then <= earliest[arc.to] {
                    continue;
                }
                earliest[arc.to] = then;
                reason[arc.to] = Some(*at);
                times[arc.to] += 1;
                if times[arc.to] > self.events() {
                    return Err(self.cycle(&reason, arc.to));
                }
                if !queued[arc.to] {
                    queued[arc.to] = true;
                    queue.push_back(arc.to);
                }
            }
        }
        Ok(())
    }

    /// Lowers the latest times until every arc is met; the mirror image of [`Network::raise`]. Events at
    /// [`FAR_OFF`] bind nothing. Call it only on networks that are known to have no cycle.
    pub fn lower(&self, latest: &mut Dense<Minute>, lowered: &[usize]) {
        let moves = |event: usize| {
            latest[event] != FAR_OFF && self.leading_to(event).any(|arc| latest[event] - arc.by < latest[arc.from])
        };
        if !lowered.iter().any(|event| moves(*event)) {
            return;
        }
        let mut queue: std::collections::VecDeque<usize> = lowered.iter().copied().collect();
        let mut queued = Dense::filled(self.events(), false);
        for event in lowered {
            queued[*event] = true;
        }
        while let Some(event) = queue.pop_front() {
            queued[event] = false;
            if latest[event] == FAR_OFF {
                continue;
            }
            for at in &self.into[event] {
                let arc = self.arcs[*at];
                let by_then = latest[event] - arc.by;
                if by_then >= latest[arc.from] {
                    continue;
                }
                latest[arc.from] = by_then;
                if !queued[arc.from] {
                    queued[arc.from] = true;
                    queue.push_back(arc.from);
                }
            }
        }
    }

    /// The least time from one event to every other, [`LONG_AGO`] where nothing binds them.
    ///
    /// # Errors
    /// When the network has a cycle.
    pub fn least_from(&self, event: usize) -> Result<Dense<Minute>, Cycle> {
        let mut earliest = Dense::filled(self.events(), LONG_AGO);
        earliest[event] = 0;
        self.raise(&mut earliest, &[event])?;
        Ok(earliest)
    }

    /// Follows reasons back from an event on, or fed by, a cycle.
    fn cycle(&self, reason: &Dense<Option<usize>>, event: usize) -> Cycle {
        // As many steps back as there are events certainly end on the cycle itself.
        let mut on_cycle = event;
        for _ in 0..self.events() {
            let Some(at) = reason[on_cycle] else { break };
            on_cycle = self.arcs[at].from;
        }
        let mut arcs = Vec::new();
        let mut event = on_cycle;
        while let Some(at) = reason[event] {
            arcs.push(self.arcs[at]);
            event = self.arcs[at].from;
            if event == on_cycle {
                break;
            }
        }
        arcs.reverse();
        Cycle { arcs }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn arc(from: usize, to: usize, by: Minute) -> Arc {
        Arc { from, to, by, cause: Cause::Edge }
    }

    #[test]
    fn longest_paths_decide() {
        let network = Network::new(4, vec![arc(0, 1, 5), arc(1, 3, 5), arc(0, 2, 7), arc(2, 3, 1), arc(3, 0, -12)]);
        let least = network.least_from(0).unwrap();
        assert_eq!(least.as_slice(), [0, 5, 7, 10]);
        let mut latest = Dense::filled(4, FAR_OFF);
        latest[3] = 20;
        network.lower(&mut latest, &[3]);
        assert_eq!(latest.as_slice(), [10, 15, 19, 20]);
    }

    #[test]
    fn a_ring_is_found_whole() {
        let network = Network::new(4, vec![arc(0, 1, 5), arc(1, 2, 5), arc(2, 1, -4), arc(0, 3, 1)]);
        let cycle = network.least_from(0).unwrap_err();
        assert_eq!(cycle.arcs.len(), 2);
        assert_eq!(cycle.excess(), 1);
    }
}
