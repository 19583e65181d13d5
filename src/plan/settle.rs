//! The last touches to a plan: choices that no measure sees, made as a baker would make them.

use super::model::{Model, Times, end, start};
use super::network::{FAR_OFF, LONG_AGO};
use super::score::{self, Score};

/// Lets rests that may be drawn out last until what they wait for, instead of ending with nothing happening, wherever
/// that makes the plan no worse.
pub fn settle(model: &Model, times: &mut Times) {
    for task in 0..model.jobs.len() {
        let job = &model.jobs[task];
        if job.fixed() || job.holds.is_some() {
            continue;
        }
        // In the mirror a rest is drawn out by starting sooner.
        let moment = if model.mirrored { start(task) } else { end(task) };
        let moments = score::moments(times);
        let lower = model.network.leading_to(moment).map(|bond| moments[bond.from] + bond.by).fold(LONG_AGO, i64::max);
        let upper = model.network.out(moment).map(|bond| moments[bond.to] - bond.by).fold(FAR_OFF, i64::min);
        let drawn_out = if model.mirrored { lower } else { upper };
        if drawn_out == LONG_AGO || drawn_out == FAR_OFF {
            continue;
        }
        let mut other = times.clone();
        if model.mirrored {
            other.starts[task] = drawn_out;
        } else {
            other.ends[task] = drawn_out;
        }
        if Score::of(model, &other) <= Score::of(model, times) {
            *times = other;
        }
    }
}
