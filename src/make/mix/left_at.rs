//! How warm a raw dough can be when it leaves a step.

use crate::measure::number::Number;
use crate::measure::temperature::Temperature;
use crate::model::cooking::COOKING;
use crate::model::kind::Kind;
use crate::model::recipe::Part;
use crate::model::step::Step;

/// No raw dough is measured colder or warmer, °C. Common practice, no source: from a freezer's to where yeast is long dead.
pub const RAW_DOUGH: (i64, i64) = (-10, 50);

/// Whether a temperature lies between two, °C.
pub fn fits(at: Temperature, (low, high): (i64, i64)) -> bool {
    (Number::whole(low)..=Number::whole(high)).contains(&at.celsius())
}

/// Whether what a step of a part makes is a dough or batter that nothing has cooked.
pub fn is_raw_dough(part: &Part, step_at: usize) -> bool {
    let cooks = |step: &Step| step.temperature.is_some_and(|(low, _)| low.celsius() >= COOKING);
    let heated = part.steps.iter().take(step_at + 1).any(cooks);
    let rises = part.lines.iter().any(|line| matches!(line.kind, Kind::Yeast(_)));
    !heated && (rises || part.desired_temperature.is_some())
}

/// Whether a temperature cannot be that of what leaves the step: a slip, which counts for nothing.
pub fn is_slip(part: &Part, step_at: usize, at: Temperature) -> bool {
    is_raw_dough(part, step_at) && !fits(at, RAW_DOUGH)
}
