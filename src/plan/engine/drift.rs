//! Keeps the solver informed of the least that can stand about, given all that it has decided.
//!
//! The solver adds up the least that each wait can be by itself. Waits depend on each other: when one moment comes later,
//! one wait shrinks and another grows. [`Flow`] sees them together. From it the solver learns a bound for all of
//! them, and as the reason only the decisions that matter, each loosened as far as the bound still holds.

use super::super::dense::Dense;
use super::flow::{Arc, Flow, NO_BOND};
use pumpkin_core::declare_inference_label;
use pumpkin_core::predicate;
use pumpkin_core::predicates::{Predicate, PropositionalConjunction};
use pumpkin_core::proof::{ConstraintTag, InferenceCode};
use pumpkin_core::propagation::{
    DomainEvents, EventsToRegister, LocalId, Priority, PropagationContext, Propagator, PropagatorConstructor,
    PropagatorConstructorContext, PropagatorSpec, ReadDomains, RuntimeCheckers,
};
use pumpkin_core::state::{PropagationStatusCP, propagator_conflict};
use pumpkin_core::variables::{DomainId, Literal};

declare_inference_label!(LeastStanding);

/// Whether a bond holds.
#[derive(Debug, Clone, Copy)]
enum When {
    Always,
    /// The moment behind the node comes no sooner than the solver knows.
    NoSooner(DomainId),
    /// The moment behind the node comes no later than the solver knows.
    NoLater(DomainId),
    /// The decision was taken; then it has this length.
    If(Literal, i64),
}

/// What is told to the solver: the sum of `counts` over moments, and what is added to it, is at most `sum`.
#[derive(Debug, Clone)]
pub struct Standing {
    /// The variables of the moments; the first node, which has none, is the fixed moment zero.
    pub moments: Vec<DomainId>,
    /// What each moment counts for a minute, in the order of `moments`.
    pub counts: Vec<i64>,
    /// What is added.
    pub added: i64,
    /// Pairs of moments, by their place in `moments`, the least time between them, and the decision it depends on.
    pub bonds: Vec<(usize, usize, i64, Option<Literal>)>,
    /// Waits that may be nothing: for each, the moments between which it is counted beyond a time, and its weight. A moment
    /// may be missing: then it is zero.
    pub open_waits: Vec<(Option<usize>, Option<usize>, i64, i64)>,
    /// The variable that is at least the sum.
    pub sum: DomainId,
    /// For the solver's records.
    pub tag: ConstraintTag,
}

/// The running constraint.
#[derive(Debug, Clone)]
pub struct Drift {
    flow: Flow,
    /// When each arc of the flow holds, in the same order.
    when: Vec<When>,
    added: i64,
    sum: DomainId,
    code: InferenceCode,
}

impl PropagatorConstructor for Standing {
    type PropagatorImpl = Drift;

    fn create(self, _: PropagatorConstructorContext) -> PropagatorSpec<Drift> {
        let mut registration = EventsToRegister::builder();
        let mut local = 0;
        let mut next = || {
            local += 1;
            LocalId::from(local - 1)
        };
        for moment in &self.moments {
            registration = registration.add(moment, DomainEvents::BOUNDS, next());
        }
        for literal in self.bonds.iter().filter_map(|(_, _, _, literal)| *literal) {
            registration = registration.add(&literal, DomainEvents::LOWER_BOUND, next());
        }
        registration = registration.add(&self.sum, DomainEvents::UPPER_BOUND, next());
        let (flow, when) = self.flow();
        let code = InferenceCode::new(self.tag, LeastStanding);
        let drift = Drift { flow, when, added: self.added, sum: self.sum, code };
        PropagatorSpec { registration: registration.build(), checkers: RuntimeCheckers::empty(), propagator: drift }
    }
}

impl Standing {
    fn flow(&self) -> (Flow, Vec<When>) {
        let nodes = 1 + self.moments.len() + self.open_waits.len();
        let mut counts: Dense<i64> = Dense::filled(nodes, 0);
        let (mut arcs, mut when) = (Vec::new(), Vec::new());
        let mut add = |from, to, length, holds| {
            arcs.push(Arc { from, to, length, carried: 0 });
            when.push(holds);
            arcs.len() - 1
        };
        let node = |moment: Option<usize>| moment.map_or(0, |moment| moment + 1);
        let mut hooks: Vec<Option<usize>> = vec![None; nodes];
        for (from, to, length, literal) in &self.bonds {
            match literal {
                Some(literal) => add(from + 1, to + 1, NO_BOND, When::If(*literal, *length)),
                None => add(from + 1, to + 1, *length, When::Always),
            };
        }
        for (at, count) in self.counts.iter().enumerate() {
            counts[at + 1] = *count;
        }
        // A wait that may be nothing ends at a moment of its own, which comes after both.
        for (at, (from, to, free, weight)) in self.open_waits.iter().enumerate() {
            let own = 1 + self.moments.len() + at;
            counts[own] += weight;
            counts[node(*from)] -= weight;
            let hook = add(node(*to), own, 0, When::Always);
            add(node(*from), own, *free, When::Always);
            if let Some(slot) = hooks.get_mut(own) {
                *slot = Some(hook);
            }
        }
        let mut needs = counts.clone();
        for (_, to, _, weight) in &self.open_waits {
            needs[node(*to)] += weight;
        }
        for (at, moment) in self.moments.iter().enumerate() {
            let sooner = add(0, at + 1, NO_BOND, When::NoSooner(*moment));
            let later = add(at + 1, 0, NO_BOND, When::NoLater(*moment));
            // Towards the root unless it must carry something the other way: so the tree is strongly feasible.
            if let Some(slot) = hooks.get_mut(at + 1) {
                *slot = Some(if needs[at + 1] > 0 { sooner } else { later });
            }
        }
        counts[0] = -counts.iter().skip(1).sum::<i64>();
        let order = (0..nodes).collect();
        (Flow::new(&counts, arcs, hooks, order), when)
    }
}

impl Drift {
    /// The least that the sum can be as things stand; `None` if that cannot be told.
    fn least(&mut self, context: &PropagationContext) -> Option<i64> {
        for (arc, holds) in self.when.iter().enumerate() {
            let length = match holds {
                When::Always => continue,
                When::NoSooner(moment) => i64::from(context.lower_bound(moment)),
                When::NoLater(moment) => -i64::from(context.upper_bound(moment)),
                When::If(literal, length) if context.evaluate_literal(*literal) == Some(true) => *length,
                When::If(..) => NO_BOND,
            };
            self.flow.set_length(arc, length);
        }
        Some(self.flow.settle()? + self.added)
    }

    /// Why the sum is no less than what [`Drift::least`] said, less what is `spare`.
    fn reason(&self, context: &PropagationContext, mut spare: i64) -> Vec<Predicate> {
        let mut reason = Vec::new();
        let mut bounds = Vec::new();
        for (arc, holds) in self.flow.arcs().iter().zip(&self.when).filter(|(arc, _)| arc.carried > 0) {
            match holds {
                When::Always => {}
                When::If(literal, _) => reason.push(literal.get_true_predicate()),
                When::NoSooner(moment) => {
                    let way = context.lower_bound(moment) - context.initial_lower_bound(*moment);
                    bounds.push((*moment, arc.carried, i64::from(way), true));
                }
                When::NoLater(moment) => {
                    let way = context.initial_upper_bound(*moment) - context.upper_bound(moment);
                    bounds.push((*moment, arc.carried, i64::from(way), false));
                }
            }
        }
        // Bounds that the spare can pay for whole are no reason at all; the others are loosened in turn.
        bounds.retain(|(_, carried, way, _)| {
            let price = carried * way;
            let paid = price <= spare;
            spare -= if paid { price } else { 0 };
            !paid
        });
        for (moment, carried, way, sooner) in bounds {
            let loosened = (spare / carried).min(way);
            spare -= loosened * carried;
            let loosened = i32::try_from(loosened).unwrap_or(0);
            let (first, last) = (context.lower_bound(&moment) - loosened, context.upper_bound(&moment) + loosened);
            reason.push(if sooner { predicate!(moment >= first) } else { predicate!(moment <= last) });
        }
        reason
    }
}

impl Propagator for Drift {
    fn name(&self) -> &str {
        "LeastStanding"
    }

    fn priority(&self) -> Priority {
        Priority::VeryLow
    }

    fn propagate(&mut self, mut context: PropagationContext) -> PropagationStatusCP {
        let Some(least) = self.least(&context) else { return Ok(()) };
        let sum = self.sum;
        let most = i64::from(context.upper_bound(&sum));
        if least > most {
            let mut reason = self.reason(&context, least - most - 1);
            let most = context.upper_bound(&sum);
            reason.push(predicate!(sum <= most));
            return propagator_conflict(PropositionalConjunction::from(reason), &self.code);
        }
        match i32::try_from(least) {
            Ok(least) if least > context.lower_bound(&sum) => {
                let reason = self.reason(&context, 0);
                context.post(predicate!(sum >= least), (PropositionalConjunction::from(reason), &self.code))?;
                Ok(())
            }
            _ => Ok(()),
        }
    }

    fn propagate_from_scratch(&self, context: PropagationContext) -> PropagationStatusCP {
        self.clone().propagate(context)
    }
}
