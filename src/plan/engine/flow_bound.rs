//! Keeps the solver informed of the least that can stand about, given all that it has decided.
//!
//! The solver adds up the least that each wait can be by itself. Waits depend on each other: when one event comes later,
//! one wait shrinks and another grows. [`Flow`] sees them together. From it the solver learns a bound for all of
//! them, and as the reason only the decisions that matter, each loosened as far as the bound still holds.

use super::super::dense::Dense;
use super::flow::{Flow, FlowArc, NO_ARC};
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

/// Whether an arc holds.
#[derive(Debug, Clone, Copy)]
enum When {
    Always,
    /// The event behind the node comes no sooner than the solver knows.
    NoSooner(DomainId),
    /// The event behind the node comes no later than the solver knows.
    NoLater(DomainId),
    /// The decision was taken; then it has this length.
    If(Literal, i64),
}

/// What is told to the solver: the sum of `counts` over events, and what is added to it, is at most `sum`.
#[derive(Debug, Clone)]
pub struct Standing {
    /// The variables of the events; the first node, which has none, is the fixed event zero.
    pub events: Vec<DomainId>,
    /// What each event counts for a minute, in the order of `events`.
    pub counts: Vec<i64>,
    /// What is added.
    pub added: i64,
    /// Pairs of events, by their place in `events`, the least time between them, and the decision it depends on.
    pub arcs: Vec<(usize, usize, i64, Option<Literal>)>,
    /// Waits that may be nothing: for each, the events between which it is counted beyond a time, and its weight. An event
    /// may be missing: then it is zero.
    pub open_waits: Vec<(Option<usize>, Option<usize>, i64, i64)>,
    /// The variable that is at least the sum.
    pub sum: DomainId,
    /// For the solver's records.
    pub tag: ConstraintTag,
}

/// The running constraint.
#[derive(Debug, Clone)]
pub struct FlowBound {
    flow: Flow,
    /// When each arc of the flow holds, in the same order.
    when: Vec<When>,
    added: i64,
    sum: DomainId,
    code: InferenceCode,
}

impl PropagatorConstructor for Standing {
    type PropagatorImpl = FlowBound;

    fn create(self, _: PropagatorConstructorContext) -> PropagatorSpec<FlowBound> {
        let mut registration = EventsToRegister::builder();
        let mut local = 0;
        let mut next = || {
            local += 1;
            LocalId::from(local - 1)
        };
        for event in &self.events {
            registration = registration.add(event, DomainEvents::BOUNDS, next());
        }
        for literal in self.arcs.iter().filter_map(|(_, _, _, literal)| *literal) {
            registration = registration.add(&literal, DomainEvents::LOWER_BOUND, next());
        }
        registration = registration.add(&self.sum, DomainEvents::UPPER_BOUND, next());
        let (flow, when) = self.flow();
        let code = InferenceCode::new(self.tag, LeastStanding);
        let drift = FlowBound { flow, when, added: self.added, sum: self.sum, code };
        PropagatorSpec { registration: registration.build(), checkers: RuntimeCheckers::empty(), propagator: drift }
    }
}

impl Standing {
    fn flow(&self) -> (Flow, Vec<When>) {
        let nodes = 1 + self.events.len() + self.open_waits.len();
        let mut counts: Dense<i64> = Dense::filled(nodes, 0);
        let (mut arcs, mut when) = (Vec::new(), Vec::new());
        let mut add = |from, to, length, holds| {
            arcs.push(FlowArc { from, to, length, carried: 0 });
            when.push(holds);
            arcs.len() - 1
        };
        let node = |event: Option<usize>| event.map_or(0, |event| event + 1);
        let mut hooks: Vec<Option<usize>> = vec![None; nodes];
        for (from, to, length, literal) in &self.arcs {
            match literal {
                Some(literal) => add(from + 1, to + 1, NO_ARC, When::If(*literal, *length)),
                None => add(from + 1, to + 1, *length, When::Always),
            };
        }
        for (at, count) in self.counts.iter().enumerate() {
            counts[at + 1] = *count;
        }
        // A wait that may be nothing ends at an event of its own, which comes after both.
        for (at, (from, to, free, weight)) in self.open_waits.iter().enumerate() {
            let own = 1 + self.events.len() + at;
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
        for (at, event) in self.events.iter().enumerate() {
            let sooner = add(0, at + 1, NO_ARC, When::NoSooner(*event));
            let later = add(at + 1, 0, NO_ARC, When::NoLater(*event));
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

impl FlowBound {
    /// The least that the sum can be as things stand; `None` if that cannot be told.
    fn least(&mut self, context: &PropagationContext) -> Option<i64> {
        for (arc, holds) in self.when.iter().enumerate() {
            let length = match holds {
                When::Always => continue,
                When::NoSooner(event) => i64::from(context.lower_bound(event)),
                When::NoLater(event) => -i64::from(context.upper_bound(event)),
                When::If(literal, length) if context.evaluate_literal(*literal) == Some(true) => *length,
                When::If(..) => NO_ARC,
            };
            self.flow.set_length(arc, length);
        }
        Some(self.flow.settle()? + self.added)
    }

    /// Why the sum is no less than what [`FlowBound::least`] said, less what is `spare`.
    fn reason(&self, context: &PropagationContext, mut spare: i64) -> Vec<Predicate> {
        let mut reason = Vec::new();
        let mut bounds = Vec::new();
        for (arc, holds) in self.flow.arcs().iter().zip(&self.when).filter(|(arc, _)| arc.carried > 0) {
            match holds {
                When::Always => {}
                When::If(literal, _) => reason.push(literal.get_true_predicate()),
                When::NoSooner(event) => {
                    let way = context.lower_bound(event) - context.initial_lower_bound(*event);
                    bounds.push((*event, arc.carried, i64::from(way), true));
                }
                When::NoLater(event) => {
                    let way = context.initial_upper_bound(*event) - context.upper_bound(event);
                    bounds.push((*event, arc.carried, i64::from(way), false));
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
        for (event, carried, way, sooner) in bounds {
            let loosened = (spare / carried).min(way);
            spare -= loosened * carried;
            let loosened = i32::try_from(loosened).unwrap_or(0);
            let (first, last) = (context.lower_bound(&event) - loosened, context.upper_bound(&event) + loosened);
            reason.push(if sooner { predicate!(event >= first) } else { predicate!(event <= last) });
        }
        reason
    }
}

impl Propagator for FlowBound {
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
