//! How good a plan is, measured exactly as [`Problem`](super::problem::Problem) says.

use super::caught;
use super::dense::Dense;
use super::heats;
use super::problem::{HEATED_AGAIN, Minute, SPAN_WEIGHS};
use super::standard_form::{Idle, StandardForm, Times};

/// The measures of a plan, the more important first; less is better.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct Score {
    /// The span, and what weighs against it: [`SPAN_WEIGHS`] for each minute of it, one for each minute that something
    /// stands long, and what it weighs that nobody could turn away when something went in, changed or came out.
    pub weighed: i64,
    /// The weighted minutes that things stand about or are heated again.
    pub standing: i64,
    /// The spells of work.
    pub spells: i64,
    /// With due times, the minutes from the first start to the last due time; without, from zero to the last end.
    pub span: Minute,
}

impl Score {
    /// Measures a plan.
    pub fn of(model: &StandardForm, times: &Times) -> Score {
        let span = span(times);
        let weighed = span * SPAN_WEIGHS + stands(&model.long, times) + caught::weighs(model, times);
        let standing = stands(&model.idle, times) + heats::again(model, times) * HEATED_AGAIN;
        Score { weighed, standing, spells: spells(model, times), span }
    }
}

fn span(times: &Times) -> Minute {
    times.ends.iter().copied().max().unwrap_or(0)
}

fn stands(idle: &[Idle], times: &Times) -> i64 {
    let events = events(times);
    idle.iter().map(|idle| (events[idle.to] - events[idle.from] - idle.free).max(0) * idle.weight).sum()
}

/// Times as one table by event, the last of which is zero.
pub fn events(times: &Times) -> Dense<Minute> {
    let both = times.starts.iter().zip(times.ends.iter());
    both.flat_map(|(start, end)| [*start, *end]).chain([0]).collect()
}

/// A spell of work.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Spell {
    /// When it begins.
    pub start: Minute,
    /// When it ends.
    pub end: Minute,
    /// The events from which and until which each piece of work in it is done.
    pub work: Vec<(usize, usize)>,
}

/// The spells of work of a plan.
pub fn spells_of(model: &StandardForm, times: &Times) -> Vec<Spell> {
    let events = events(times);
    let mut work: Vec<(usize, usize)> = model.work().collect();
    work.sort_unstable_by_key(|(from, to)| (events[*from], events[*to]));
    let mut spells: Vec<Spell> = Vec::new();
    for (from, to) in work {
        let (start, end) = (events[from], events[to]);
        match spells.last_mut().filter(|spell| !begins_one(model, Some(spell.end), start)) {
            Some(spell) => {
                spell.end = spell.end.max(end);
                spell.work.push((from, to));
            }
            None => spells.push(Spell { start, end, work: vec![(from, to)] }),
        }
    }
    spells
}

/// Whether work begins another spell, where that before it went on until some time: a short pause breaks none.
fn begins_one(model: &StandardForm, until: Option<Minute>, start: Minute) -> bool {
    until.is_none_or(|until| start > until + model.pause)
}

/// How many spells of work there are; asked of every plan that is looked at, so that none is made.
fn spells(model: &StandardForm, times: &Times) -> i64 {
    let events = events(times);
    let mut work: Vec<(Minute, Minute)> = model.work().map(|(from, to)| (events[from], events[to])).collect();
    work.sort_unstable();
    let mut spells = 0;
    let mut until = None;
    for (start, end) in work {
        spells += i64::from(begins_one(model, until, start));
        until = until.max(Some(end));
    }
    spells
}
