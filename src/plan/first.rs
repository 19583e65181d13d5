//! A good plan at once: the builder tried with several orders of preference, forward and backward by turns.

use super::builder::Builder;
use super::dense::Dense;
use super::model::{Model, Times};
use super::problem::{Due, Minute, Problem};
use super::score::Score;

/// Work that one first plan may cost, in tasks put; it decides how many orders are tried.
const EFFORT: usize = 60_000;

/// The best plan found quickly, with its score; `None` if none of the orders led to one, which does not prove that
/// there is none.
pub fn plan(problem: &Problem, model: &Model) -> Option<(Score, Times)> {
    let builder = Builder::new(model)?;
    let count = model.jobs.len();
    let rounds = (EFFORT / count.max(1)).clamp(3, 60);
    let mut best: Option<(Score, Times)> = None;
    let mut consider = |times: Option<Times>| -> bool {
        let Some(times) = times else { return false };
        let score = Score::of(model, &times);
        let better = best.as_ref().is_none_or(|(least, _)| score < *least);
        if better {
            best = Some((score, times));
        }
        better
    };
    let rules = rules(model, &builder);
    for keys in &rules {
        consider(builder.build(keys));
    }
    let mut noise = Noise(0x9E37_79B9_7F4A_7C15);
    for round in 0..rounds {
        let Some((score, times)) = best.clone() else {
            // Nothing yet: shake the rules until one leads to a plan.
            let Some(keys) = rules.get(round % rules.len().max(1)) else { break };
            let times = builder.build(&noise.shaken(keys, model.horizon() / 8));
            consider_into(&mut best, model, times);
            continue;
        };
        let there = turned(problem, model, score.span, &times);
        let keys = match (&there, round % 3) {
            (Some(times), 0) => times.starts.clone(),
            (Some(times), _) => noise.shaken(&times.starts, 1 + score.span / 10),
            (None, _) => noise.shaken(&times.starts, 1 + score.span / 10),
        };
        consider_into(&mut best, model, there);
        consider_into(&mut best, model, builder.build(&keys));
    }
    best
}

fn consider_into(best: &mut Option<(Score, Times)>, model: &Model, times: Option<Times>) {
    if let Some(times) = times {
        let score = Score::of(model, &times);
        if best.as_ref().is_none_or(|(least, _)| score < *least) {
            *best = Some((score, times));
        }
    }
}

/// Orders of preference.
fn rules(model: &Model, builder: &Builder) -> Vec<Dense<i64>> {
    let tails = builder.tails();
    let heads = builder.heads();
    let tasks = 0..model.jobs.len();
    let by = |key: &dyn Fn(usize) -> i64| tasks.clone().map(key).collect::<Dense<i64>>();
    let mut longest_of_group: Dense<Minute> = Dense::filled(model.jobs.len(), 0);
    for task in tasks.clone() {
        let group = builder.group_of(task);
        longest_of_group[group] = longest_of_group[group].max(tails[task]);
    }
    let wide = model.horizon() + 1;
    vec![
        // What most hangs on goes first.
        by(&|task| -tails[task]),
        // What can start first goes first.
        by(&|task| heads[task]),
        // What must be over first, as seen from its group's end.
        by(&|task| heads[task] + model.jobs[task].shortest - tails[task]),
        // One group after the other, the longest first.
        by(&|task| {
            let group = builder.group_of(task);
            -longest_of_group[group] * wide - tails[task]
        }),
        // One group after the other, the one that can start first goes first.
        by(&|task| i64::try_from(builder.group_of(task)).unwrap_or(0) * wide + heads[task]),
    ]
}

/// The plan built the other way round: from the other end, in the order in which the tasks end in this one, and within
/// its span. What floats is pressed against what needs it, and sometimes the whole becomes shorter.
fn turned(problem: &Problem, model: &Model, span: Minute, times: &Times) -> Option<Times> {
    let mut other = problem.clone();
    let far_end = model.outward(span);
    if model.mirrored {
        other.earliest = Some(far_end);
    } else {
        other.earliest = Some(model.outward(0));
        other.dues.push(Due { tasks: (0..problem.tasks.len()).collect(), minute: far_end });
    }
    let back = Model::seen_from(&other, !model.mirrored, far_end);
    let builder = Builder::new(&back)?;
    let keys: Dense<i64> = times.ends.iter().map(|end| -end).collect();
    let turned = builder.build(&keys)?;
    let across = |minute: &Minute| model.inward(back.outward(*minute));
    Some(Times {
        starts: turned.ends.iter().map(across).collect(),
        ends: turned.starts.iter().map(across).collect(),
        units: turned.units,
    })
}

/// Numbers that look random and are the same every time.
struct Noise(u64);

impl Noise {
    fn next(&mut self, below: i64) -> i64 {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        i64::try_from(self.0 >> 2).unwrap_or(0) % below.max(1)
    }

    fn shaken(&mut self, keys: &Dense<i64>, by: Minute) -> Dense<i64> {
        keys.iter().map(|key| key + self.next(2 * by + 1) - by).collect()
    }
}
