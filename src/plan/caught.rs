//! Moments at which something that is tended goes in, changes or comes out while all who are there are in the middle of other work.
//!
//! Whoever stirs at the hob cannot take a cake out of the oven. Between two steps, or two pieces, there is a moment for it.

use super::dense::Dense;
use super::problem::{Minute, Person, Unbroken};
use super::standard_form::{StandardForm, Times, start};
use std::collections::BTreeMap;

/// Somebody is needed, and nobody could turn away.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Caught {
    /// The event: where several come at once, one of them.
    pub event: usize,
    /// The tasks of those who are there.
    pub at: Vec<usize>,
    /// What it weighs.
    pub weight: i64,
}

/// The moments of a plan, one for each minute.
pub fn caught(model: &StandardForm, times: &Times) -> Vec<Caught> {
    if model.unbroken.is_empty() {
        return Vec::new();
    }
    let mut minutes: BTreeMap<Minute, usize> = BTreeMap::new();
    for event in &model.seen_to {
        minutes.entry(at(times, *event)).or_insert(*event);
    }
    let mut work: Vec<(Minute, Minute, Unbroken)> = Vec::with_capacity(model.unbroken.len());
    for one in &model.unbroken {
        let (start, end) = (times.starts[one.task], times.ends[one.task]);
        if end - start > 1 {
            work.push((start, end, *one));
        }
    }
    let mut all = Vec::new();
    for (minute, event) in minutes {
        let inside = work.iter().filter(|(start, end, _)| *start < minute && minute < *end).map(|(_, _, one)| *one);
        let inside: Vec<Unbroken> = inside.collect();
        let busy: i64 = inside.iter().map(|one| i64::from(model.jobs[one.task].cooks)).sum();
        let Some(weight) = inside.iter().map(|one| one.weight).min() else { continue };
        if busy >= people_at(model, minute) {
            all.push(Caught { event, at: inside.iter().map(|one| one.task).collect(), weight });
        }
    }
    all
}

/// What all of them weigh.
pub fn weighs(model: &StandardForm, times: &Times) -> i64 {
    caught(model, times).iter().map(|caught| caught.weight).sum()
}

/// How many people are there at a moment.
pub fn people_at(model: &StandardForm, minute: Minute) -> i64 {
    if model.people.is_empty() {
        return model.cooks;
    }
    let is_there = |person: &&Person| {
        let mut shifts = person.shifts.iter().map(|shift| shift.window);
        person.shifts.is_empty() || shifts.any(|window| window.opens <= minute && minute <= window.closes)
    };
    i64::try_from(model.people.iter().filter(is_there).count()).unwrap_or(i64::MAX)
}

/// The stretch around a moment in which no more people are there than then: its first and its last minute, where it has them.
pub fn no_more_people(model: &StandardForm, minute: Minute) -> (Option<Minute>, Option<Minute>) {
    let people = people_at(model, minute);
    let mut changes: Vec<Minute> = Vec::new();
    for shift in model.people.iter().flat_map(|person| &person.shifts) {
        changes.extend([shift.window.opens, shift.window.closes]);
    }
    changes.sort_unstable();
    changes.dedup();
    let more = |at: &&Minute| people_at(model, **at) > people;
    // At the moment at which one comes both are there.
    let before = changes.iter().rev().filter(|at| **at < minute).find(more).map(|at| at + 1);
    let after = changes.iter().filter(|at| **at > minute).find(more).map(|at| at - 1);
    (before, after)
}

/// When an event comes.
pub fn at(times: &Times, event: usize) -> Minute {
    let task = event / 2;
    let of: &Dense<Minute> = if event == start(task) { &times.starts } else { &times.ends };
    of[task]
}
