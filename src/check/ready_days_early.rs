//! `ready-days-early`: what a plan has ready on a day before the one on which it is wanted.

use super::{Check, Family, Run};
use crate::text::diagnostic::Severity;

/// The check and its explanation; its problems are found when a plan is made.
pub(super) const CHECK: Check = Check {
    name: "ready-days-early",
    severity: Severity::Warning,
    family: Family::Steps,
    looks_for: "an order that a plan has ready on a day before the one on which it is wanted",
    why: "Between the kitchen's opening and the time at which it is wanted there is too little time for the work, so the plan \
          does it the day before. For some things that is right; fresh bread is then yesterday's. Open earlier, want it later, \
          or give the kitchen what it runs short of: `--what-if \"open 03:00-17:30\"` tries one out. What would be past its \
          `best before` or `use by` by then cannot be handed over: that is an error. `miche plan` says it; \
          `miche check` does not plan.",
    bad: "recipe Early loaf\nflour .... 500 g\n\nbake: tend 3 h\n    Bake {flour}.\n    until dark\n",
    good: "recipe Early loaf\nflour .... 500 g\n\nbake: tend 40 min\n    Bake {flour}.\n    until dark\n",
    sources: &[],
    run: Run::Command("miche plan example.miche --ready \"2027-01-10 09:30\""),
};
