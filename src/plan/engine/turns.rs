//! Tasks that take turns: no two of them at the same time.
//!
//! Three rules are applied to the times that the solver leaves open (P. Vilím, Global constraints in scheduling, thesis,
//! Prague 2007, describes all of them; from memory). *Overload*: tasks that must lie within some time do not fit into
//! it. *Edge*: a task that would overload such a set of tasks unless it came after all of them does come after all
//! of them. *Order*: of two tasks the one that cannot come second comes first. Written plainly, in the square of the
//! number of tasks and for few dozens of them, with reasons loosened as far as they still hold. The solver's own
//! constraint of this kind gives up on some conflicts with a panic (pumpkin-propagators 0.5.0, edge finding
//! when the set alone is overloaded), which a planner cannot have.

use pumpkin_core::Solver;
use pumpkin_core::declare_inference_label;
use pumpkin_core::predicate;
use pumpkin_core::predicates::{Predicate, PropositionalConjunction};
use pumpkin_core::proof::{ConstraintTag, InferenceCode};
use pumpkin_core::propagation::{
    DomainEvents, EventsToRegister, LocalId, Priority, PropagationContext, Propagator, PropagatorConstructor,
    PropagatorConstructorContext, PropagatorSpec, ReadDomains, RuntimeCheckers,
};
use pumpkin_core::state::{PropagationStatusCP, propagator_conflict};
use pumpkin_core::variables::TransformableVariable;

use super::events::View;

declare_inference_label!(Overload);

/// Tells the solver that tasks, given by their start and length, take turns.
pub fn take_turns(solver: &mut Solver, tag: ConstraintTag, tasks: Vec<(View, i32)>) {
    if tasks.len() < 2 {
        return;
    }
    // The rules raise starts; in the mirror they lower ends.
    let mirrored = tasks.iter().map(|(start, length)| (start.offset(*length).scaled(-1), *length)).collect();
    let _ = solver.add_propagator(TakeTurns { tasks, tag });
    let _ = solver.add_propagator(TakeTurns { tasks: mirrored, tag });
}

struct TakeTurns {
    tasks: Vec<(View, i32)>,
    tag: ConstraintTag,
}

impl PropagatorConstructor for TakeTurns {
    type PropagatorImpl = Turns;

    fn create(self, _: PropagatorConstructorContext) -> PropagatorSpec<Turns> {
        let mut registration = EventsToRegister::builder();
        for (at, (start, _)) in (0..).zip(&self.tasks) {
            registration = registration.add(start, DomainEvents::BOUNDS, LocalId::from(at));
        }
        let code = InferenceCode::new(self.tag, Overload);
        let propagator = Turns { tasks: self.tasks, code };
        PropagatorSpec { registration: registration.build(), checkers: RuntimeCheckers::empty(), propagator }
    }
}

/// The running constraint.
#[derive(Debug, Clone)]
struct Turns {
    tasks: Vec<(View, i32)>,
    code: InferenceCode,
}

/// A task as the solver leaves it: between when it lies, and how long it takes.
#[derive(Debug, Clone, Copy)]
struct Span {
    start: View,
    first: i32,
    last: i32,
    length: i32,
}

impl Span {
    /// The latest it can end.
    fn end(&self) -> i32 {
        self.last + self.length
    }
}

/// Why a task starts no sooner than an event.
struct Raise {
    start: View,
    to: i32,
    reason: Vec<Predicate>,
}

impl Propagator for Turns {
    fn name(&self) -> &str {
        "TakeTurns"
    }

    fn priority(&self) -> Priority {
        Priority::Low
    }

    fn propagate_from_scratch(&self, mut context: PropagationContext) -> PropagationStatusCP {
        let mut spans: Vec<Span> = Vec::with_capacity(self.tasks.len());
        for (start, length) in &self.tasks {
            let (first, last) = (context.lower_bound(start), context.upper_bound(start));
            spans.push(Span { start: *start, first, last, length: *length });
        }
        // Later starts first: sets of tasks that start no sooner than an event grow from the front.
        spans.sort_by_key(|span| std::cmp::Reverse(span.first));
        let mut raises = Vec::new();
        for span in &spans {
            if let Err(reason) = edges(&spans, span.end(), &mut raises) {
                return propagator_conflict(PropositionalConjunction::from(reason), &self.code);
            }
        }
        for span in &spans {
            raises.extend(order(&spans, span));
        }
        for raise in raises {
            let (start, to) = (raise.start, raise.to);
            if to > context.lower_bound(&start) {
                let reason = PropositionalConjunction::from(raise.reason);
                context.post(predicate!(start >= to), (reason, &self.code))?;
            }
        }
        Ok(())
    }
}

/// Sets of tasks that must end by an event: whether they fit, and which other tasks come after them.
fn edges(spans: &[Span], ends: i32, raises: &mut Vec<Raise>) -> Result<(), Vec<Predicate>> {
    let outside = spans.iter().filter(|span| span.end() > ends);
    let longest = outside.clone().map(|span| span.length).max().unwrap_or(0);
    let mut total = 0;
    // The set so far, and the latest that it is over at the soonest, with the start of the tasks that make it so.
    let (mut over, mut since) = (i32::MIN, i32::MIN);
    for (at, span) in spans.iter().enumerate().filter(|(_, span)| span.end() <= ends) {
        total += span.length;
        if span.first + total > over {
            (over, since) = (span.first + total, span.first);
        }
        // Of tasks with the same start only the whole set counts.
        let more = spans.iter().skip(at + 1).take_while(|other| other.first == span.first);
        if more.clone().any(|other| other.end() <= ends) {
            continue;
        }
        if span.first + total > ends {
            return Err(overload(spans, span.first, ends));
        }
        if span.first + total + longest <= ends {
            continue;
        }
        for other in outside.clone() {
            let from = other.first.min(span.first);
            if from + total + other.length > ends && over > other.first {
                let set = Set { from: span.first, ends, since };
                raises.push(Raise { start: other.start, to: over, reason: after_set(spans, other, &set, from, total) });
            }
        }
    }
    Ok(())
}

/// Tasks that start no sooner than `from` and end by `ends`; of them, those from `since` on decide when all are over.
struct Set {
    from: i32,
    ends: i32,
    since: i32,
}

impl Set {
    fn members<'a>(&'a self, spans: &'a [Span]) -> impl Iterator<Item = &'a Span> {
        spans.iter().filter(|span| span.first >= self.from && span.end() <= self.ends)
    }
}

/// Why tasks that start from an event on do not fit in before another.
fn overload(spans: &[Span], from: i32, ends: i32) -> Vec<Predicate> {
    let set = Set { from, ends, since: from };
    let mut members: Vec<Span> = set.members(spans).copied().collect();
    let mut spare = members.iter().map(|span| span.length).sum::<i32>() - (ends - from) - 1;
    // Short tasks that are not needed to fill the time are no reason.
    members.sort_by_key(|span| span.length);
    members.retain(|span| {
        let needed = span.length > spare;
        spare -= if needed { 0 } else { span.length };
        needed
    });
    let (sooner, later) = (from - spare / 2, ends + (spare - spare / 2));
    members
        .iter()
        .flat_map(|span| {
            let (start, last) = (span.start, later - span.length);
            [predicate!(start >= sooner), predicate!(start <= last)]
        })
        .collect()
}

/// Why a task comes after a set of tasks: from `from` on they and it do not fit in before the set must have ended.
fn after_set(spans: &[Span], task: &Span, set: &Set, from: i32, total: i32) -> Vec<Predicate> {
    let latest = from + total + task.length - 1;
    let start = task.start;
    let mut reason = vec![predicate!(start >= from)];
    for span in set.members(spans) {
        let (start, last) = (span.start, latest - span.length);
        let first = if span.first >= set.since { set.since } else { from };
        reason.extend([predicate!(start >= first), predicate!(start <= last)]);
    }
    reason
}

/// Tasks that can only come before another, and when they are over.
fn order(spans: &[Span], task: &Span) -> Option<Raise> {
    let ends = task.first + task.length;
    let before = |span: &&Span| span.start != task.start && span.last < ends;
    let mut total = 0;
    let (mut over, mut since) = (i32::MIN, i32::MIN);
    for span in spans.iter().filter(before) {
        total += span.length;
        if span.first + total > over {
            (over, since) = (span.first + total, span.first);
        }
    }
    if over <= task.first {
        return None;
    }
    let members = || spans.iter().filter(before).filter(|span| span.first >= since);
    let last = members().map(|span| span.last).max()?;
    let (start, first) = (task.start, last - task.length + 1);
    let mut reason = vec![predicate!(start >= first)];
    for span in members() {
        let start = span.start;
        reason.extend([predicate!(start >= since), predicate!(start <= last)]);
    }
    Some(Raise { start, to: over, reason })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plan::engine::search::Guide;
    use pumpkin_conflict_resolvers::resolvers::{AnalysisMode, ResolutionResolver};
    use pumpkin_core::results::SatisfactionResult;
    use pumpkin_core::termination::Indefinite;
    use std::rc::Rc;

    /// Whether tasks (first start, last start, length) can take turns, by trying every order.
    fn can(tasks: &[(i32, i32, i32)], from: i32) -> bool {
        tasks.is_empty()
            || (0..tasks.len()).any(|next| {
                let mut rest = tasks.to_vec();
                let (first, last, length) = rest.remove(next);
                let start = first.max(from);
                start <= last && can(&rest, start + length)
            })
    }

    #[test]
    fn tasks_take_turns_exactly_when_they_can() {
        let mut seed = 1_u32;
        let mut next = |below: u32| {
            seed = seed.wrapping_mul(1_664_525).wrapping_add(1_013_904_223);
            i32::try_from((seed >> 8) % below).unwrap()
        };
        let mut seen = [0, 0];
        for _ in 0..400 {
            let count = 3 + next(4);
            let tasks: Vec<(i32, i32, i32)> = (0..count)
                .map(|_| {
                    let first = next(16);
                    (first, first + next(14), 1 + next(6))
                })
                .collect();
            let mut solver = Solver::default();
            let tag = solver.new_constraint_tag();
            let starts: Vec<_> =
                tasks.iter().map(|(first, last, _)| solver.new_bounded_integer(*first, *last)).collect();
            let turns = starts.iter().zip(&tasks).map(|(start, (_, _, length))| (start.scaled(1), *length));
            take_turns(&mut solver, tag, turns.collect());
            let mut guide = Guide::new(starts, Vec::new(), Rc::default());
            let mut resolver = ResolutionResolver::new(AnalysisMode::OneUIP, true, false);
            let found = solver.satisfy(&mut guide, &mut Indefinite, &mut resolver);
            let found = matches!(found, SatisfactionResult::Satisfiable(_));
            assert_eq!(found, can(&tasks, 0), "{tasks:?}");
            seen[usize::from(found)] += 1;
        }
        assert!(seen.iter().all(|count| *count > 50), "{seen:?}");
    }
}
