//! Rests at the shorter end of their range, where with the longer one there is no plan: `10-12 h` allows ten.

use super::limit::Limit;
use super::problem::{Minute, Problem};
use super::solve;
use super::tasks::Tasks;
use crate::model::cold::is_cold;
use crate::model::step::{StepKind, StepRef};

/// Steps of search that trying one length may cost.
const EFFORT: u64 = 30_000;

/// A rest that is planned shorter than the longer end of its range.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Shorter {
    /// Which batch of the work it is of.
    pub batch: usize,
    /// Which step of that batch's recipe.
    pub step: StepRef,
    /// How long it takes then, in minutes.
    pub minutes: Minute,
    /// The longer end of its range.
    pub longest: Minute,
    /// What is with that.
    pub otherwise: Otherwise,
    /// Whether that is so only with the other rests as long as they are here.
    pub beside_others: bool,
}

/// What is where a rest is planned with the longer end of its range.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Otherwise {
    /// There is no plan.
    NoPlan,
    /// Bread is of the day before.
    DayBefore,
    /// What does not keep is ready so many minutes before it is wanted.
    Early(Minute),
    /// Work begins so many minutes sooner.
    Sooner(Minute),
    /// Orders are so many minutes later, in all.
    Later(Minute),
}

/// The loads of a rest of which a range is said, and what holds its unit.
struct Range {
    shorter: Shorter,
    least: Minute,
    /// Whether it rests in the cold, where some minutes more or less are nothing to it.
    is_cold: bool,
    /// For each load, the task, and the one that holds its unit.
    loads: Vec<(usize, usize)>,
}

/// The problem with some rests as much shorter as has to be, each as long as goes, and which those are; `None` where that does not help
/// either. `fresh` makes of it what has to be possible.
pub fn rests(
    problem: &Problem,
    tasks: &Tasks,
    fresh: &dyn Fn(&Problem) -> Problem,
    stop: &dyn Fn() -> bool,
) -> Option<(Problem, Vec<Shorter>)> {
    let mut ranges = ranges(tasks);
    let possible = |ranges: &[Range]| {
        let limit = Limit { stop, ..Limit::steps(EFFORT) };
        !stop() && solve::possible(&fresh(&with(problem, ranges)), &limit) == Some(true)
    };
    for range in &mut ranges {
        range.shorter.minutes = range.least;
    }
    if ranges.is_empty() || !possible(&ranges) {
        return None;
    }
    // What rests in the warm keeps its time, and of hours in the cold some minutes give way for it.
    let mut in_turn: Vec<usize> = (0..ranges.len()).collect();
    in_turn.sort_by_key(|at| ranges.get(*at).is_some_and(|range| range.is_cold));
    for at in in_turn {
        let Some((least, longest)) = ranges.get(at).map(|range| (range.least, range.shorter.longest)) else { continue };
        let set = |ranges: &mut Vec<Range>, minutes: Minute| {
            if let Some(range) = ranges.get_mut(at) {
                range.shorter.minutes = minutes;
            }
        };
        set(&mut ranges, longest);
        if possible(&ranges) {
            continue;
        }
        let (mut low, mut high) = (least, longest);
        while high - low > 1 {
            let middle = low + (high - low) / 2;
            set(&mut ranges, middle);
            if possible(&ranges) { low = middle } else { high = middle }
        }
        set(&mut ranges, low);
    }
    let found = with(problem, &ranges);
    let shorter: Vec<Shorter> =
        ranges.iter().map(|range| range.shorter).filter(|one| one.minutes < one.longest).collect();
    // That a longer one would not do is said only where it would not with the others as short as they may be.
    let mut alone_too_long = |one: &Shorter| {
        for range in &mut ranges {
            let is_it = (range.shorter.batch, range.shorter.step) == (one.batch, one.step);
            range.shorter.minutes = if is_it { one.longest } else { range.least };
        }
        !possible(&ranges)
    };
    let several = shorter.len() > 1;
    let shorter = shorter.into_iter().map(|one| Shorter { beside_others: several && !alone_too_long(&one), ..one });
    Some((found, shorter.collect()))
}

/// The problem with all rests at the shorter end of their range; `None` where none has one.
pub fn at_shortest(problem: &Problem, tasks: &Tasks) -> Option<Problem> {
    let mut ranges = ranges(tasks);
    for range in &mut ranges {
        range.shorter.minutes = range.least;
    }
    (!ranges.is_empty()).then(|| with(problem, &ranges))
}

/// By how much all rests can be shorter, one after the other.
pub fn room(tasks: &Tasks) -> Minute {
    ranges(tasks).iter().map(|range| range.shorter.longest - range.least).sum()
}

/// The rests of which a range is said.
fn ranges(tasks: &Tasks) -> Vec<Range> {
    let mut ranges: Vec<Range> = Vec::new();
    for (at, task) in tasks.list.iter().enumerate() {
        if task.kind != StepKind::Wait || task.least_minutes >= task.minutes {
            continue;
        }
        let load = (at, tasks.holder(at).unwrap_or(at));
        let of = |range: &&mut Range| (range.shorter.batch, range.shorter.step) == (task.batch, task.step);
        match ranges.iter_mut().find(of) {
            Some(range) => range.loads.push(load),
            None => ranges.push(Range {
                shorter: Shorter {
                    batch: task.batch,
                    step: task.step,
                    minutes: task.minutes,
                    longest: task.minutes,
                    otherwise: Otherwise::NoPlan,
                    beside_others: false,
                },
                least: task.least_minutes,
                is_cold: task.temperature.is_some_and(is_cold),
                loads: vec![load],
            }),
        }
    }
    ranges
}

/// A problem with rests of these lengths.
fn with(problem: &Problem, ranges: &[Range]) -> Problem {
    let mut problem = problem.clone();
    for range in ranges {
        let sooner = range.shorter.longest - range.shorter.minutes;
        for (rest, holder) in &range.loads {
            for at in if rest == holder { vec![*rest] } else { vec![*rest, *holder] } {
                if let Some(task) = problem.tasks.get_mut(at) {
                    task.shortest = (task.shortest - sooner).max(0);
                    task.longest = task.longest.max(task.shortest);
                }
            }
        }
    }
    problem
}
