//! The least that waits between events come to, while arcs hold.
//!
//! Minutes of waiting, each with its weight, are a sum over events: each event counts so much for every minute it comes
//! later, less than nothing for some. Making that sum small while every event comes at least so long after others is a
//! linear program whose dual is a flow: what every event counts for is carried off along arcs, and the sum can be no
//! less than all that is carried times the length of the arcs it is carried along. Every flow is a proof of a bound;
//! the best flow proves the best bound, and the arcs that it uses are the reason for it.
//!
//! The best flow is found with the simplex method for networks, on trees kept strongly feasible so that it ends
//! (W. H. Cunningham, A network simplex method, Mathematical Programming 11, 1976; from memory). What the
//! events count for never changes, so a flow stays a flow when the lengths of arcs change, and the search goes on
//! from the last one.

use super::super::dense::Dense;

/// The length of an arc that does not hold: nothing is carried along it if there is any other way.
pub const NO_ARC: i64 = -(1 << 44);

/// An arc: `to` comes at least `length` after `from`.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct FlowArc {
    /// The event counted from.
    pub from: usize,
    /// The event that depends on it.
    pub to: usize,
    /// The least time between them.
    pub length: i64,
    /// How much is carried along it.
    pub carried: i64,
}

/// A flow and the tree of arcs it stands on.
#[derive(Debug, Clone)]
pub struct Flow {
    arcs: Dense<FlowArc>,
    /// The arc by which each node hangs in the tree; the root, node 0, by none.
    hangs: Dense<Option<usize>>,
    depth: Dense<usize>,
    /// When each node comes if every arc of the tree is just met.
    when: Dense<i64>,
    /// The nodes, each after the one it hangs on.
    order: Vec<usize>,
}

impl Flow {
    /// A first flow. `counts` says what each node counts for a minute, together nothing; node 0 is the fixed event from
    /// which all are counted. The arcs must include, for every other node, one that it can hang on: `hooks` gives for each
    /// its arc, which joins it to a node that comes earlier in `from_root`.
    pub fn new(counts: &Dense<i64>, arcs: Vec<FlowArc>, hooks: Vec<Option<usize>>, from_root: Vec<usize>) -> Flow {
        let nodes = counts.len();
        let mut flow = Flow {
            arcs: arcs.into(),
            hangs: hooks.into(),
            depth: Dense::filled(nodes, 0),
            when: Dense::filled(nodes, 0),
            order: from_root,
        };
        // What a node does not use up itself goes on to the node it hangs on.
        let mut needs = counts.clone();
        for at in (1..nodes).rev() {
            let Some(node) = flow.order.get(at).copied() else { continue };
            let Some(arc) = flow.hangs[node] else { continue };
            let above = flow.other(arc, node);
            flow.arcs[arc].carried = if flow.arcs[arc].to == node { needs[node] } else { -needs[node] };
            needs[above] += needs[node];
        }
        flow.hang();
        flow
    }

    /// Changes the length of an arc.
    pub fn set_length(&mut self, arc: usize, length: i64) {
        self.arcs[arc].length = length;
    }

    /// The arcs as they are.
    pub fn arcs(&self) -> &[FlowArc] {
        self.arcs.as_slice()
    }

    /// Makes the flow the best one and gives the bound that it proves; `None` if arcs contradict each other.
    pub fn settle(&mut self) -> Option<i64> {
        self.set_times();
        while let Some(entering) = self.most_broken() {
            self.pivot(entering)?;
            self.set_times();
        }
        Some(self.arcs.iter().map(|arc| arc.carried * arc.length).sum())
    }

    fn other(&self, arc: usize, node: usize) -> usize {
        let arc = self.arcs[arc];
        if arc.to == node { arc.from } else { arc.to }
    }

    fn set_times(&mut self) {
        for at in 1..self.order.len() {
            let Some(node) = self.order.get(at).copied() else { continue };
            let Some(hangs) = self.hangs[node] else { continue };
            let arc = self.arcs[hangs];
            self.when[node] =
                if arc.to == node { self.when[arc.from] + arc.length } else { self.when[arc.to] - arc.length };
        }
    }

    fn most_broken(&self) -> Option<usize> {
        let mut worst = (0, None);
        for (at, arc) in self.arcs.iter().enumerate() {
            let broken = self.when[arc.from] + arc.length - self.when[arc.to];
            if broken > worst.0 {
                worst = (broken, Some(at));
            }
        }
        worst.1
    }

    /// Brings an arc into the tree and puts another out.
    fn pivot(&mut self, entering: usize) -> Option<()> {
        let (tail, head) = (self.arcs[entering].from, self.arcs[entering].to);
        // The cycle runs from the apex down to the tail, along the entering arc, and from the head up to the apex.
        let (mut down, mut up) = (Vec::new(), Vec::new());
        let (mut low, mut high) = (tail, head);
        while low != high {
            if self.depth[low] >= self.depth[high] {
                down.push(low);
                low = self.other(self.hangs[low]?, low);
            } else {
                up.push(high);
                high = self.other(self.hangs[high]?, high);
            }
        }
        // Nodes of the cycle whose arc runs against it, in the order of the cycle.
        let against_down = down.iter().rev().filter(|node| self.points_up(**node));
        let against_up = up.iter().filter(|node| !self.points_up(**node));
        let against: Vec<usize> = against_down.chain(against_up).copied().collect();
        let carried = |node: &usize| self.hangs[*node].map_or(0, |arc| self.arcs[arc].carried);
        // Of several that block, the last: that keeps the tree strongly feasible.
        let leaving = against.iter().copied().rev().min_by_key(carried)?;
        let amount = carried(&leaving);
        let cycle = down.iter().map(|node| (*node, false)).chain(up.iter().map(|node| (*node, true)));
        let changes: Vec<(usize, i64)> = cycle
            .filter_map(|(node, with)| {
                let change = if self.points_up(node) == with { amount } else { -amount };
                self.hangs[node].map(|arc| (arc, change))
            })
            .collect();
        for (arc, change) in changes {
            self.arcs[arc].carried += change;
        }
        self.arcs[entering].carried += amount;
        // The part of the tree below the leaving arc now hangs on the entering one.
        let path = if down.contains(&leaving) { &down } else { &up };
        let mut hang_on = entering;
        for node in path {
            let before = self.hangs[*node]?;
            self.hangs[*node] = Some(hang_on);
            hang_on = before;
            if *node == leaving {
                break;
            }
        }
        self.hang();
        Some(())
    }

    /// Whether the arc by which a node hangs runs towards the root.
    fn points_up(&self, node: usize) -> bool {
        self.hangs[node].is_some_and(|arc| self.arcs[arc].from == node)
    }

    /// Puts the nodes in order and notes how deep they hang.
    fn hang(&mut self) {
        let nodes = self.hangs.len();
        let mut below: Dense<Vec<usize>> = Dense::filled(nodes, Vec::new());
        for node in 0..nodes {
            if let Some(arc) = self.hangs[node] {
                let above = self.other(arc, node);
                below[above].push(node);
            }
        }
        self.order.clear();
        self.order.push(0);
        self.depth[0] = 0;
        let mut at = 0;
        while let Some(node) = self.order.get(at).copied() {
            at += 1;
            for child in &below[node] {
                self.depth[*child] = self.depth[node] + 1;
                self.order.push(*child);
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn arc(from: usize, to: usize, length: i64) -> FlowArc {
        FlowArc { from, to, length, carried: 0 }
    }

    #[test]
    fn the_best_flow_proves_the_least_waiting() {
        // Node 1 at least 10, node 2 at most 30, node 3 at least 5 after both; waiting 1 -> 3 and 2 -> 3 counts 1 and 2.
        let counts: Dense<i64> = vec![0, -1, -2, 3].into();
        let arcs = vec![
            arc(0, 1, 10),
            arc(1, 0, -100),
            arc(0, 2, 0),
            arc(2, 0, -30),
            arc(0, 3, 0),
            arc(3, 0, -100),
            arc(1, 3, 5),
            arc(2, 3, 5),
            arc(0, 3, 50),
        ];
        let mut flow = Flow::new(&counts, arcs, vec![None, Some(1), Some(3), Some(4)], vec![0, 1, 2, 3]);
        // Node 3 at 50: node 1 can come at 45, node 2 at 30, so 5 + 2 * 20.
        assert_eq!(flow.settle(), Some(45));
        flow.set_length(8, NO_ARC);
        // Now node 3 can come right after both.
        assert_eq!(flow.settle(), Some(15));
        flow.set_length(8, 60);
        flow.set_length(3, -20);
        assert_eq!(flow.settle(), Some(5 + 2 * 40));
        assert!(flow.arcs().iter().all(|arc| arc.carried >= 0));
    }
}
