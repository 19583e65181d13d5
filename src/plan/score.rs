//! How good a plan is, measured exactly as [`Problem`](super::problem::Problem) says.

use super::dense::Dense;
use super::problem::Minute;
use super::standard_form::{StandardForm, Times};

/// The three measures of a plan, the more important first; less is better.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct Score {
    /// With due times, the minutes from the first start to the last due time; without, from zero to the last end.
    pub span: Minute,
    /// The weighted minutes that things stand about.
    pub standing: i64,
    /// The spells of hands-on work.
    pub spells: i64,
}

impl Score {
    /// Measures a plan.
    pub fn of(model: &StandardForm, times: &Times) -> Score {
        Score { span: span(times), standing: standing(model, times), spells: spells(model, times) }
    }
}

fn span(times: &Times) -> Minute {
    times.ends.iter().copied().max().unwrap_or(0)
}

fn standing(model: &StandardForm, times: &Times) -> i64 {
    let events = events(times);
    model.idle.iter().map(|idle| (events[idle.to] - events[idle.from] - idle.free).max(0) * idle.weight).sum()
}

/// Times as one table by event, the last of which is zero.
pub fn events(times: &Times) -> Dense<Minute> {
    let both = times.starts.iter().zip(times.ends.iter());
    both.flat_map(|(start, end)| [*start, *end]).chain([0]).collect()
}

fn spells(model: &StandardForm, times: &Times) -> i64 {
    let mut work: Vec<(Minute, Minute)> = (0..model.jobs.len())
        .filter(|task| model.jobs[*task].hands)
        .map(|task| (times.starts[task], times.ends[task]))
        .collect();
    work.sort_unstable();
    let mut spells = 0;
    let mut until = None;
    for (start, end) in work {
        if until.is_none_or(|until| start > until + model.pause) {
            spells += 1;
        }
        until = until.max(Some(end));
    }
    spells
}
