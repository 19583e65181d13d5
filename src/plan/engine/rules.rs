//! Opening hours, and equipment whose units need not be told apart.

use super::super::occupancy::told_apart;
use super::super::standard_form::{StandardForm, end, start};
use super::events::{Events, View, small};
use super::pairs::Pairs;
use super::turns::take_turns;
use pumpkin_constraints::cumulative;
use pumpkin_core::Solver;
use pumpkin_core::predicate;
use pumpkin_core::proof::ConstraintTag;

/// Tells the solver that work lies within opening hours.
pub fn hours(model: &StandardForm, events: &Events, solver: &mut Solver, tag: ConstraintTag) {
    for (task, job) in model.jobs.iter().enumerate().filter(|(_, job)| job.attended) {
        let (first, last) = (events.closure.earliest(start(task)), events.closure.latest(end(task)));
        for pair in model.open.windows(2) {
            let [before, after] = pair else { continue };
            let (closes, opens) = (before.closes - job.around.1, after.opens + job.around.0);
            if first + job.shortest > closes || last - job.shortest < opens {
                continue;
            }
            let (starts, ends) = (events.view(start(task)), events.view(end(task)));
            let (closes, opens) = (small(closes), small(opens));
            solver.add_clause([predicate!(ends <= closes), predicate!(starts >= opens)], tag);
        }
    }
}

/// Tells the solver what equipment there is. Gives what it needs to know which unit a load is in, for each kind of
/// equipment whose units are told apart.
pub fn equipment(model: &StandardForm, events: &mut Events, solver: &mut Solver, tag: ConstraintTag) -> Vec<Pairs> {
    let mut pairs = Vec::new();
    for (kind, equipment) in model.equipment.iter().enumerate() {
        let holding = |task: &usize| {
            let job = &model.jobs[*task];
            job.longest > 0 && job.holds.is_some_and(|holds| holds.equipment == kind)
        };
        let tasks: Vec<usize> = (0..model.jobs.len()).filter(holding).collect();
        let ones: Vec<(usize, i64)> = tasks.iter().map(|task| (*task, 1)).collect();
        let drawn_out = tasks.iter().any(|task| !model.jobs[*task].fixed());
        let count = i64::from(equipment.count).min(i64::try_from(tasks.len()).unwrap_or(i64::MAX));
        match equipment.shared {
            None => together(model, events, solver, tag, &ones, count),
            Some(takes) => {
                let sizes = |task: &usize| model.jobs[*task].holds.map_or(0, |holds| holds.size);
                let sizes: Vec<(usize, i64)> = tasks.iter().map(|task| (*task, sizes(task))).collect();
                together(model, events, solver, tag, &sizes, takes.saturating_mul(count));
            }
        }
        if told_apart(equipment) || drawn_out {
            pairs.push(Pairs::new(model, events, solver, tag, kind, &tasks));
        }
    }
    pairs
}

/// Tells the solver that tasks together never demand more than there is, taking each at its shortest.
pub fn together(
    model: &StandardForm,
    events: &Events,
    solver: &mut Solver,
    tag: ConstraintTag,
    demands: &[(usize, i64)],
    capacity: i64,
) {
    let demands: Vec<(usize, i64)> =
        demands.iter().copied().filter(|(task, demand)| model.jobs[*task].shortest > 0 && *demand > 0).collect();
    let all: i64 = demands.iter().map(|(_, demand)| demand).sum();
    // So large a capacity can only be that of several shared units, which are told apart elsewhere.
    if demands.len() < 2 || all <= capacity || capacity > i64::from(i32::MAX / 4) {
        return;
    }
    let taken = demands.iter().map(|(task, demand)| {
        let length = small(model.jobs[*task].shortest);
        Taken { start: events.view(start(*task)), length, demand: small(*demand) }
    });
    no_more_than(solver, tag, &taken.collect::<Vec<Taken>>(), small(capacity));
}

/// Something that takes of what there is.
#[derive(Debug, Clone, Copy)]
pub struct Taken {
    /// When it starts.
    pub start: View,
    /// How long it lasts.
    pub length: i32,
    /// How much it takes.
    pub demand: i32,
}

/// Tells the solver that together they never take more than there is.
pub fn no_more_than(solver: &mut Solver, tag: ConstraintTag, taken: &[Taken], capacity: i32) {
    let mut least: Vec<i32> = taken.iter().map(|taken| taken.demand).collect();
    least.sort_unstable();
    if least.len() < 2 {
        return;
    }
    if least.iter().take(2).sum::<i32>() > capacity {
        take_turns(solver, tag, taken.iter().map(|taken| (taken.start, taken.length)).collect());
        return;
    }
    let starts: Vec<View> = taken.iter().map(|taken| taken.start).collect();
    let lengths: Vec<i32> = taken.iter().map(|taken| taken.length).collect();
    let demands: Vec<i32> = taken.iter().map(|taken| taken.demand).collect();
    solver.add_constraint(cumulative(starts, lengths, demands, capacity, tag)).post();
}
