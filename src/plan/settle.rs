//! The last touches to a plan: choices that no measure sees, made as a baker would make them.

use super::network::{FAR_OFF, LONG_AGO};
use super::score::{self, Score};
use super::standard_form::{StandardForm, Times, end, start};

/// Lets rests that may be drawn out last until what they wait for, instead of ending with nothing happening, wherever
/// that makes the plan no worse.
pub fn settle(model: &StandardForm, times: &mut Times) {
    for task in 0..model.jobs.len() {
        let job = &model.jobs[task];
        if job.fixed() || job.holds.is_some() {
            continue;
        }
        // In the mirror a rest is drawn out by starting sooner.
        let event = if model.mirrored { start(task) } else { end(task) };
        let events = score::events(times);
        let lower = model.network.leading_to(event).map(|arc| events[arc.from] + arc.by).fold(LONG_AGO, i64::max);
        let upper = model.network.out(event).map(|arc| events[arc.to] - arc.by).fold(FAR_OFF, i64::min);
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
