//! What makes one plan better than another, as variables of the solver.

use super::super::network::LONG_AGO;
use super::super::problem::{HEATED_AGAIN, Minute, SPAN_WEIGHS};
use super::super::standard_form::{StandardForm, end};
use super::events::{Events, View, small};
use super::flow_bound::Standing;
use pumpkin_constraints::less_than_or_equals;
use pumpkin_core::Solver;
use pumpkin_core::proof::ConstraintTag;
use pumpkin_core::variables::{DomainId, Literal, TransformableVariable};
use std::collections::BTreeMap;

/// The largest value of a goal that the solver can count to.
const MOST: i64 = 1 << 29;

/// A variable that is at least when everything is over.
pub fn span(model: &StandardForm, events: &Events, solver: &mut Solver, tag: ConstraintTag, most: Minute) -> DomainId {
    let closure = &events.closure;
    let ends: Vec<usize> = (0..model.jobs.len()).map(end).collect();
    let least = ends.iter().map(|end| closure.earliest(*end)).max().unwrap_or(0);
    let span = solver.new_bounded_integer(small(least), small(most.max(least)));
    for event in &ends {
        // The last of a chain speaks for the chain.
        let spoken_for = ends.iter().any(|other| {
            let there = closure.least(*event, *other);
            let back = closure.least(*other, *event);
            other != event && there != LONG_AGO && there >= 0 && (there > 0 || back != 0 || other > event)
        });
        if !spoken_for {
            let terms = [events.view(*event).scaled(1), span.scaled(-1).offset(0)];
            solver.add_constraint(less_than_or_equals(terms.to_vec(), 0, tag)).post();
        }
    }
    span
}

/// What something stands beyond what it may, of all that should not stand long.
pub fn long(model: &StandardForm, events: &Events, solver: &mut Solver, tag: ConstraintTag) -> Vec<View> {
    let mut terms = Vec::new();
    for idle in &model.long {
        let low = (events.closure.least(idle.from, idle.to) - idle.free).max(0);
        let high = (events.closure.most(idle.from, idle.to) - idle.free).max(low);
        if high == 0 {
            continue;
        }
        let variable = solver.new_bounded_integer(small(low), small(high));
        let between = vec![events.view(idle.to).scaled(1), events.view(idle.from).scaled(-1), variable.scaled(-1)];
        solver.add_constraint(less_than_or_equals(between, small(idle.free), tag)).post();
        terms.push(variable.scaled(1));
    }
    terms
}

/// A variable that is at least the span and what weighs against it; `None` if that is more than the solver can count to.
pub fn weighed(solver: &mut Solver, tag: ConstraintTag, span: Goal, terms: Vec<View>) -> Option<Goal> {
    let scale = small(SPAN_WEIGHS);
    let mut all = vec![span.variable.scaled(scale)];
    all.extend(terms);
    let least: i64 = all.iter().map(|term| i64::from(solver.lower_bound(term))).sum();
    let most: i64 = all.iter().map(|term| i64::from(solver.upper_bound(term))).sum();
    if most > MOST {
        return None;
    }
    let variable = solver.new_bounded_integer(small(least), small(most));
    all.push(variable.scaled(-1));
    solver.add_constraint(less_than_or_equals(all, 0, tag)).post();
    Some(Goal { variable, fixed: span.fixed * SPAN_WEIGHS })
}

/// One wait between two events, as it counts towards standing.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
struct Wait {
    from: usize,
    to: usize,
    free: Minute,
    weight: i64,
}

/// Waits with those between the same events put together, chains of waits made one, and rigid ones left out. Gives
/// also what the rigid ones come to.
fn waits(model: &StandardForm, events: &Events) -> (Vec<Wait>, i64) {
    let closure = &events.closure;
    let mut fixed = 0;
    let mut sums: BTreeMap<(usize, usize), Vec<Wait>> = BTreeMap::new();
    for idle in &model.idle {
        let (from, to) = (events.root(idle.from), events.root(idle.to));
        let shift = closure.least(to, idle.to) - closure.least(from, idle.from);
        let wait = Wait { from, to, free: idle.free - shift, weight: idle.weight };
        if from == to {
            fixed += (closure.least(idle.from, idle.to) - idle.free).max(0) * idle.weight;
        } else if wait.weight > 0 {
            sums.entry((from, to)).or_default().push(wait);
        }
    }
    let mut waits: Vec<Wait> = Vec::new();
    for same in sums.into_values() {
        for wait in same {
            match waits.last_mut() {
                Some(last) if (last.from, last.to, last.free) == (wait.from, wait.to, wait.free) => {
                    last.weight += wait.weight;
                }
                _ => waits.push(wait),
            }
        }
    }
    // A wait that always follows another of the same weight, its middle used by no third, is one wait with it.
    let zero = events.root(model.zero());
    loop {
        let used =
            |event: usize, waits: &[Wait]| waits.iter().filter(|wait| wait.from == event || wait.to == event).count();
        let certain = |wait: &Wait| closure.least(wait.from, wait.to) >= wait.free;
        let joint = waits.iter().enumerate().find_map(|(at, one)| {
            let (behind, two) = waits.iter().enumerate().find(|(_, two)| two.from == one.to && one.to != zero)?;
            let joins = one.weight == two.weight && certain(one) && certain(two) && used(one.to, &waits) == 2;
            joins.then_some((at, behind, *one, *two))
        });
        let Some((at, behind, one, two)) = joint else { break };
        let (first, last) = (at.min(behind), at.max(behind));
        waits.remove(last);
        waits.remove(first);
        let joined = Wait { from: one.from, to: two.to, free: one.free + two.free, weight: one.weight };
        if joined.from == joined.to {
            fixed -= joined.free * joined.weight;
        } else {
            waits.push(joined);
        }
    }
    (waits, fixed)
}

/// A goal: a variable to make small, and what must be added to it to have the measure of the plan.
#[derive(Debug, Clone, Copy)]
pub struct Goal {
    /// The variable.
    pub variable: DomainId,
    /// What is added.
    pub fixed: i64,
}

/// A variable that is at least what stands about; `None` if that is more than the solver can count to.
///
/// `again` is what is heated again, in minutes.
pub fn standing(
    model: &StandardForm,
    events: &Events,
    solver: &mut Solver,
    tag: ConstraintTag,
    again: Vec<View>,
) -> Option<Goal> {
    let (waits, fixed) = waits(model, events);
    let closure = &events.closure;
    let mut terms: Vec<View> = again.iter().map(|term| term.scaled(small(HEATED_AGAIN))).collect();
    let bounds = terms.iter().map(|term| (i64::from(solver.lower_bound(term)), i64::from(solver.upper_bound(term))));
    let (mut least, mut most) = bounds.fold((0_i64, 0_i64), |(least, most), (low, high)| (least + low, most + high));
    let zero = events.root(model.zero());
    for wait in waits {
        let low = (closure.least(wait.from, wait.to) - wait.free).max(0);
        let high = (closure.most(wait.from, wait.to) - wait.free).max(low);
        if high == low {
            least += low * wait.weight;
            most += high * wait.weight;
            terms.push(constant(solver, low * wait.weight)?);
            continue;
        }
        least += low * wait.weight;
        most += high * wait.weight;
        if most > MOST {
            return None;
        }
        let (from, to) = (events.view(wait.from), events.view(wait.to));
        let certain = closure.least(wait.from, wait.to) >= wait.free;
        let variable: View = if wait.from == zero && certain {
            // Counted from a fixed event, the wait is the event itself.
            to.offset(small(-wait.free - closure.earliest(wait.from)))
        } else if wait.to == zero && certain {
            from.scaled(-1).offset(small(closure.earliest(wait.to) - wait.free))
        } else {
            let variable = solver.new_bounded_integer(small(low), small(high));
            let terms = vec![to.scaled(1), from.scaled(-1), variable.scaled(-1)];
            solver.add_constraint(less_than_or_equals(terms, small(wait.free), tag)).post();
            variable.scaled(1)
        };
        terms.push(variable.scaled(small(wait.weight)));
    }
    if most > MOST {
        return None;
    }
    let sum = solver.new_bounded_integer(small(least), small(most));
    let mut all: Vec<View> = terms.iter().map(|term| term.scaled(1)).collect();
    all.push(sum.scaled(-1));
    solver.add_constraint(less_than_or_equals(all, 0, tag)).post();
    Some(Goal { variable: sum, fixed })
}

fn constant(solver: &mut Solver, value: i64) -> Option<View> {
    (value <= MOST).then(|| solver.new_bounded_integer(small(value), small(value)).scaled(1))
}

/// Tells the solver what waits come to together, as far as the decisions that it knows of by now reach.
pub fn flow_bound(model: &StandardForm, events: &Events, solver: &mut Solver, tag: ConstraintTag, goal: Goal) {
    let free = events.free();
    let closure = &events.closure;
    let place = |event: usize| free.iter().position(|(free, _)| *free == event);
    let mut counts = vec![0; free.len()];
    let mut added = 0;
    let mut open_waits = Vec::new();
    for wait in waits(model, events).0 {
        // What can no longer change is counted from zero.
        let fixed = |event: usize| if place(event).is_some() { 0 } else { closure.earliest(event) };
        let free_time = wait.free + fixed(wait.from) - fixed(wait.to);
        if closure.least(wait.from, wait.to) < wait.free {
            open_waits.push((place(wait.from), place(wait.to), free_time, wait.weight));
            added -= free_time * wait.weight;
            continue;
        }
        added -= free_time * wait.weight;
        for (event, sign) in [(wait.from, -1), (wait.to, 1)] {
            if let Some(count) = place(event).and_then(|at| counts.get_mut(at)) {
                *count += sign * wait.weight;
            }
        }
    }
    let arcs = events.told().iter();
    let arcs = arcs.filter_map(|(from, to, by, then)| Some((place(*from)?, place(*to)?, *by, *then)));
    let standing = Standing {
        events: free.iter().map(|(_, variable)| *variable).collect(),
        counts,
        added,
        arcs: arcs.collect(),
        open_waits,
        sum: goal.variable,
        tag,
    };
    if !standing.events.is_empty() {
        let _ = solver.add_propagator(standing);
    }
}

/// The moments from which and until which something is work.
type Stretch = (usize, usize);

/// A variable that is at least the number of spells of work.
///
/// A task begins a spell unless another stands before it that reaches it: that starts sooner (or at the same event and
/// has the smaller number) and ends no earlier than the longest pause before it. In every largest set of tasks that hang
/// together, exactly the first begins a spell.
pub fn spells(model: &StandardForm, events: &mut Events, solver: &mut Solver, tag: ConstraintTag) -> Goal {
    let work: Vec<Stretch> = model.work().collect();
    let mut firsts: Vec<View> = Vec::new();
    let mut known: BTreeMap<(Stretch, Stretch), Literal> = BTreeMap::new();
    let mut fixed = 0;
    for task in &work {
        let mut reached: Vec<Literal> = Vec::new();
        let mut always = false;
        for other in work.iter().filter(|other| *other != task) {
            let sooner = i64::from(other > task);
            // other starts at least `sooner` before task ...
            let order = (other.0, task.0, sooner);
            // ... and its end comes at most the pause before task starts.
            let reach = (task.0, other.1, -model.pause);
            let rules = [order, reach];
            let closure = &events.closure;
            let holds = |(from, to, by): &(usize, usize, Minute)| closure.least(*from, *to) >= *by;
            let fails = |(from, to, by): &(usize, usize, Minute)| closure.most(*from, *to) < *by;
            if rules.iter().any(fails) {
                continue;
            }
            let open: Vec<_> = rules.iter().filter(|rule| !holds(rule)).copied().collect();
            if open.is_empty() {
                always = true;
                break;
            }
            let literal = solver.new_literal();
            for rule in open {
                events.apart(solver, tag, (rule.0, rule.1), rule.2, Some(literal));
            }
            // Of two tasks only one starts sooner: told outright, since two bounds that push each other would find out only
            // minute by minute.
            if let Some(other_way) = known.get(&(*task, *other)) {
                let never_both = [!literal, !*other_way].map(|literal| literal.get_true_predicate());
                solver.add_clause(never_both, tag);
            }
            known.insert((*other, *task), literal);
            reached.push(literal);
        }
        if always {
            continue;
        }
        if reached.is_empty() {
            fixed += 1;
            continue;
        }
        let first = solver.new_literal();
        let clause = reached.iter().chain([&first]).map(|literal| literal.get_true_predicate());
        solver.add_clause(clause.collect::<Vec<_>>(), tag);
        firsts.push(first.get_integer_variable().scaled(1));
    }
    let count = i32::try_from(firsts.len()).unwrap_or(0);
    // There is a first spell whenever there is work.
    let least = i32::from(fixed == 0 && !work.is_empty());
    let sum = solver.new_bounded_integer(least.min(count), count);
    let mut all: Vec<View> = firsts.iter().map(|first| first.scaled(1)).collect();
    all.push(sum.scaled(-1));
    solver.add_constraint(less_than_or_equals(all, 0, tag)).post();
    Goal { variable: sum, fixed }
}
