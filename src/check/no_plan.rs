//! `no-plan`: a recipe or a day that no plan can be made of.

use super::{Check, Family, Run};
use crate::text::diagnostic::Severity;

/// The check and its explanation; its problems are found when a plan is made.
pub(super) const CHECK: Check = Check {
    name: "no-plan",
    severity: Severity::Error,
    family: Family::Steps,
    looks_for: "steps that cannot all be done with the kitchen's equipment, people and hours by the time they are wanted",
    why: "A plan that cannot be kept is found out at the oven. The message says what is needed and what there is, and what would \
          make room: opening earlier, another oven or person, or making a part the day before. `miche plan` says it; `miche \
          check` does not plan.",
    bad: "recipe Long work\nflour .... 500 g\n\nknead: hands 16 h\n    Knead {flour}.\n    until the kitchen closes\n",
    good: "recipe Rolls\nflour .... 500 g\n\nweigh: hands 1 min\n    Weigh {flour}.\n",
    sources: &[],
    run: Run::Command("miche plan example.miche --ready \"2027-01-10 18:00\""),
};
