//! Moments and the least times between them: a simple temporal network.
//!
//! Every rule of a problem that is about two moments has the form "this one comes at least so many minutes after that
//! one", where the number may be negative. Whether such rules can be met at all, and the earliest and latest each
//! moment can come, is a matter of longest paths.

use super::dense::Dense;
use super::problem::Minute;

/// Longer ago than anything that is planned.
pub const LONG_AGO: Minute = Minute::MIN / 4;
/// Later than anything that is planned.
pub const FAR_OFF: Minute = Minute::MAX / 4;

/// Where a bond comes from, so that a ring of bonds can be told in kitchen words.
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
pub struct Bond {
    /// The moment counted from.
    pub from: usize,
    /// The moment that depends on it.
    pub to: usize,
    /// The least time between them; negative: `to` may come that much before `from`.
    pub by: Minute,
    /// Where it comes from.
    pub cause: Cause,
}

/// A ring of bonds that asks a moment to come after itself.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Ring {
    /// The bonds, each starting where the one before it ends.
    pub bonds: Vec<Bond>,
}

impl Ring {
    /// By how many minutes the ring cannot close.
    pub fn excess(&self) -> Minute {
        self.bonds.iter().map(|bond| bond.by).sum()
    }
}

/// Moments and the bonds between them.
#[derive(Debug, Clone)]
pub struct Network {
    bonds: Dense<Bond>,
    out: Dense<Vec<usize>>,
    into: Dense<Vec<usize>>,
}

impl Network {
    /// A network of so many moments.
    pub fn new(moments: usize, bonds: Vec<Bond>) -> Network {
        let mut out = Dense::filled(moments, Vec::new());
        let mut into = Dense::filled(moments, Vec::new());
        for (at, bond) in bonds.iter().enumerate() {
            out[bond.from].push(at);
            into[bond.to].push(at);
        }
        Network { bonds: bonds.into(), out, into }
    }

    /// How many moments there are.
    pub fn moments(&self) -> usize {
        self.out.len()
    }

    /// All bonds.
    pub fn bonds(&self) -> &[Bond] {
        self.bonds.as_slice()
    }

    /// The bonds that start at a moment.
    pub fn out(&self, moment: usize) -> impl Iterator<Item = Bond> + '_ {
        self.out[moment].iter().map(|at| self.bonds[*at])
    }

    /// The bonds that lead to a moment.
    pub fn leading_to(&self, moment: usize) -> impl Iterator<Item = Bond> + '_ {
        self.into[moment].iter().map(|at| self.bonds[*at])
    }

    /// Raises the earliest times until every bond is met, beginning with moments whose time was just raised.
    /// Moments at [`LONG_AGO`] bind nothing.
    ///
    /// # Errors
    /// When that never ends, with the ring that makes it so.
    pub fn raise(&self, earliest: &mut Dense<Minute>, raised: &[usize]) -> Result<(), Ring> {
        let mut queue: std::collections::VecDeque<usize> = raised.iter().copied().collect();
        let mut queued = Dense::filled(self.moments(), false);
        for moment in raised {
            queued[*moment] = true;
        }
        let mut reason: Dense<Option<usize>> = Dense::filled(self.moments(), None);
        let mut times = Dense::filled(self.moments(), 0_usize);
        while let Some(moment) = queue.pop_front() {
            queued[moment] = false;
            if earliest[moment] == LONG_AGO {
                continue;
            }
            for at in &self.out[moment] {
                let bond = self.bonds[*at];
                let then = earliest[moment] + bond.by;
                if then <= earliest[bond.to] {
                    continue;
                }
                earliest[bond.to] = then;
                reason[bond.to] = Some(*at);
                times[bond.to] += 1;
                if times[bond.to] > self.moments() {
                    return Err(self.ring(&reason, bond.to));
                }
                if !queued[bond.to] {
                    queued[bond.to] = true;
                    queue.push_back(bond.to);
                }
            }
        }
        Ok(())
    }

    /// Lowers the latest times until every bond is met; the mirror image of [`Network::raise`]. Moments at
    /// [`FAR_OFF`] bind nothing. Call it only on networks that are known to have no ring.
    pub fn lower(&self, latest: &mut Dense<Minute>, lowered: &[usize]) {
        let mut queue: std::collections::VecDeque<usize> = lowered.iter().copied().collect();
        let mut queued = Dense::filled(self.moments(), false);
        for moment in lowered {
            queued[*moment] = true;
        }
        while let Some(moment) = queue.pop_front() {
            queued[moment] = false;
            if latest[moment] == FAR_OFF {
                continue;
            }
            for at in &self.into[moment] {
                let bond = self.bonds[*at];
                let by_then = latest[moment] - bond.by;
                if by_then >= latest[bond.from] {
                    continue;
                }
                latest[bond.from] = by_then;
                if !queued[bond.from] {
                    queued[bond.from] = true;
                    queue.push_back(bond.from);
                }
            }
        }
    }

    /// The least time from one moment to every other, [`LONG_AGO`] where nothing binds them.
    ///
    /// # Errors
    /// When the network has a ring.
    pub fn least_from(&self, moment: usize) -> Result<Dense<Minute>, Ring> {
        let mut earliest = Dense::filled(self.moments(), LONG_AGO);
        earliest[moment] = 0;
        self.raise(&mut earliest, &[moment])?;
        Ok(earliest)
    }

    /// Follows reasons back from a moment on, or fed by, a ring.
    fn ring(&self, reason: &Dense<Option<usize>>, moment: usize) -> Ring {
        // As many steps back as there are moments certainly end on the ring itself.
        let mut on_ring = moment;
        for _ in 0..self.moments() {
            let Some(at) = reason[on_ring] else { break };
            on_ring = self.bonds[at].from;
        }
        let mut bonds = Vec::new();
        let mut moment = on_ring;
        while let Some(at) = reason[moment] {
            bonds.push(self.bonds[at]);
            moment = self.bonds[at].from;
            if moment == on_ring {
                break;
            }
        }
        bonds.reverse();
        Ring { bonds }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn bond(from: usize, to: usize, by: Minute) -> Bond {
        Bond { from, to, by, cause: Cause::Edge }
    }

    #[test]
    fn longest_paths_decide() {
        let network =
            Network::new(4, vec![bond(0, 1, 5), bond(1, 3, 5), bond(0, 2, 7), bond(2, 3, 1), bond(3, 0, -12)]);
        let least = network.least_from(0).unwrap();
        assert_eq!(least.as_slice(), [0, 5, 7, 10]);
        let mut latest = Dense::filled(4, FAR_OFF);
        latest[3] = 20;
        network.lower(&mut latest, &[3]);
        assert_eq!(latest.as_slice(), [10, 15, 19, 20]);
    }

    #[test]
    fn a_ring_is_found_whole() {
        let network = Network::new(4, vec![bond(0, 1, 5), bond(1, 2, 5), bond(2, 1, -4), bond(0, 3, 1)]);
        let ring = network.least_from(0).unwrap_err();
        assert_eq!(ring.bonds.len(), 2);
        assert_eq!(ring.excess(), 1);
    }
}
