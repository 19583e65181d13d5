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

/// Sweeps to and fro after which an event that still moves is taken to stand on a cycle, which is then looked for.
const MOST_SWEEPS: usize = 32;

/// Events whose arcs are still to be looked at. They are taken in sweeps to and fro over their numbers: whichever way a chain of
/// steps is numbered, one sweep settles it, where a queue takes the square of its length if that is the wrong way.
struct Waiting {
    waits: Dense<bool>,
    count: usize,
    /// No event before this one waits.
    first: usize,
    /// No event behind this one waits.
    last: usize,
    is_upward: bool,
}

impl Waiting {
    fn of(events: usize, all: &[usize]) -> Waiting {
        let waits = Dense::filled(events, false);
        let mut waiting = Waiting { waits, count: 0, first: usize::MAX, last: 0, is_upward: true };
        for event in all {
            waiting.add(*event);
        }
        waiting
    }

    fn add(&mut self, event: usize) {
        if !self.waits[event] {
            self.waits[event] = true;
            self.count += 1;
            self.first = self.first.min(event);
            self.last = self.last.max(event);
        }
    }

    /// Takes each event that waits, and those that come to wait further on the way; the next sweep goes the other way.
    fn sweep(&mut self, mut look: impl FnMut(usize, &mut Waiting)) {
        let (mut first, mut last) = (self.first, self.last);
        (self.first, self.last) = (usize::MAX, 0);
        while self.count > 0 && first <= last {
            let event = if self.is_upward { first } else { last };
            if self.waits[event] {
                self.waits[event] = false;
                self.count -= 1;
                look(event, self);
            }
            if self.is_upward {
                first = event + 1;
                last = last.max(self.last);
            } else {
                let Some(before) = event.checked_sub(1) else { break };
                last = before;
                first = first.min(self.first);
            }
        }
        self.is_upward = !self.is_upward;
    }
}

/// Events and the arcs between them.
#[derive(Debug, Clone)]
pub struct Network {
    arcs: Dense<Arc>,
    out: Dense<Vec<usize>>,
    into: Dense<Vec<usize>>,
    ahead: Links,
    behind: Links,
}

/// The other ends of the arcs of each event, side by side, of several between the same two the longest: nearly all of planning is to go
/// along them.
#[derive(Debug, Clone)]
struct Links {
    ends: Vec<(usize, Minute)>,
    /// Where those of an event begin and end.
    of: Dense<(usize, usize)>,
}

impl Links {
    fn new(arcs: &Dense<Arc>, of_events: &Dense<Vec<usize>>, end: impl Fn(&Arc) -> usize) -> Links {
        let mut links = Links { ends: Vec::with_capacity(arcs.len()), of: Dense::filled(of_events.len(), (0, 0)) };
        let mut here: Vec<(usize, Minute)> = Vec::new();
        for (event, of_event) in of_events.iter().enumerate() {
            here.clear();
            here.extend(of_event.iter().map(|at| (end(&arcs[*at]), arcs[*at].by)));
            here.sort_unstable_by_key(|(end, by)| (*end, -by));
            here.dedup_by_key(|(end, _)| *end);
            links.of[event] = (links.ends.len(), links.ends.len() + here.len());
            links.ends.extend_from_slice(&here);
        }
        links
    }

    fn of(&self, event: usize) -> &[(usize, Minute)] {
        let (from, until) = self.of[event];
        self.ends.get(from..until).unwrap_or_default()
    }
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
        let arcs: Dense<Arc> = arcs.into();
        let (ahead, behind) = (Links::new(&arcs, &out, |arc| arc.to), Links::new(&arcs, &into, |arc| arc.from));
        Network { arcs, out, into, ahead, behind }
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
            earliest[event] != LONG_AGO
                && self.ahead.of(event).iter().any(|(to, by)| earliest[event] + by > earliest[*to])
        };
        if !raised.iter().any(|event| moves(*event)) {
            return Ok(());
        }
        let before = earliest.clone();
        let mut waiting = Waiting::of(self.events(), raised);
        for _ in 0..MOST_SWEEPS {
            waiting.sweep(|event, waiting| {
                if earliest[event] == LONG_AGO {
                    return;
                }
                for (to, by) in self.ahead.of(event) {
                    let then = earliest[event] + by;
                    if then > earliest[*to] {
                        earliest[*to] = then;
                        waiting.add(*to);
                    }
                }
            });
            if waiting.count == 0 {
                return Ok(());
            }
        }
        *earliest = before;
        self.raise_in_turn(earliest, raised)
    }

    /// As [`Network::raise`], one event after the other as they were raised, and each with the arc that raised it last.
    fn raise_in_turn(&self, earliest: &mut Dense<Minute>, raised: &[usize]) -> Result<(), Cycle> {
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
            latest[event] != FAR_OFF
                && self.behind.of(event).iter().any(|(from, by)| latest[event] - by < latest[*from])
        };
        if !lowered.iter().any(|event| moves(*event)) {
            return;
        }
        let mut waiting = Waiting::of(self.events(), lowered);
        while waiting.count > 0 {
            waiting.sweep(|event, waiting| {
                if latest[event] == FAR_OFF {
                    return;
                }
                for (from, by) in self.behind.of(event) {
                    let by_then = latest[event] - by;
                    if by_then < latest[*from] {
                        latest[*from] = by_then;
                        waiting.add(*from);
                    }
                }
            });
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

    /// Whichever way a chain is numbered, and wherever its raise begins, sweeps settle what a queue settles; a long chain in no time.
    #[test]
    fn sweeps_settle_what_a_queue_settles() {
        let mut seed = 7_u64;
        let mut below = |most: u64| {
            seed = seed.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
            ((seed >> 33) % most) as usize
        };
        for _ in 0..400 {
            let events = 2 + below(30);
            let arcs =
                (0..below(90)).map(|_| arc(below(events as u64), below(events as u64), below(20) as Minute - 12));
            let network = Network::new(events, arcs.collect());
            let from = below(events as u64);
            let mut in_turn = Dense::filled(events, LONG_AGO);
            in_turn[from] = 0;
            let queued = network.raise_in_turn(&mut in_turn, &[from]).map(|()| in_turn);
            let is_settled = queued.is_ok();
            assert_eq!(network.least_from(from), queued);
            let whole = (0..events).all(|event| network.least_from(event).is_ok());
            if is_settled && whole {
                let mut latest = Dense::filled(events, FAR_OFF);
                latest[from] = 0;
                network.lower(&mut latest, &[from]);
                for at in network.arcs() {
                    assert!(latest[at.to] == FAR_OFF || latest[at.from] <= latest[at.to] - at.by);
                }
            }
        }
        let count = 40_000;
        let chains = [
            (0..count).map(|at| arc(at + 1, at, 5)).collect::<Vec<Arc>>(),
            (0..count).map(|at| arc(at, at + 1, 5)).collect(),
        ];
        for chain in chains {
            let network = Network::new(count + 1, chain);
            let clock = std::time::Instant::now();
            let mut earliest = Dense::filled(count + 1, 0);
            let all: Vec<usize> = (0..=count).collect();
            network.raise(&mut earliest, &all).unwrap();
            assert_eq!(earliest.iter().max(), Some(&(5 * count as Minute)));
            let mut latest = Dense::filled(count + 1, 0);
            network.lower(&mut latest, &all);
            assert_eq!(latest.iter().min(), Some(&(-5 * count as Minute)));
            assert!(clock.elapsed() < std::time::Duration::from_secs(5), "{:?}", clock.elapsed());
        }
    }

    #[test]
    fn a_ring_is_found_whole() {
        let network = Network::new(4, vec![arc(0, 1, 5), arc(1, 2, 5), arc(2, 1, -4), arc(0, 3, 1)]);
        let cycle = network.least_from(0).unwrap_err();
        assert_eq!(cycle.arcs.len(), 2);
        assert_eq!(cycle.excess(), 1);
    }
}
