//! `bakes-say-otherwise`: what at least three bakes measured and the formula does not say.

use super::{Check, Family, Run};
use crate::text::diagnostic::Severity;

/// The check and its explanation; its problems are found when a recipe's logs are read, in [`crate::figures::bakes::otherwise`].
pub(super) const CHECK: Check = Check {
    name: "bakes-say-otherwise",
    severity: Severity::Advice,
    family: Family::Steps,
    looks_for: "a time, a loss, a friction or a dough temperature that at least three bakes measured otherwise than the formula says",
    why: "A formula is a claim, a bake a measurement. What is said is outside the interval in which the true mean of the \
          measurements lies in 95 of 100 such logs (Student): write what was measured, so that plans, sums and costs count with it, \
          or find out what is done otherwise than it is written. Bakes of older versions count while no change since touches the \
          figure. `miche check` looks for logs in the folder of the recipe, or among the files that it is given; `miche bakes` \
          shows all that was measured.",
    bad: "bakes of \"rolls.miche\"\n\nbake 2026-03-02 05:30\nmix: 15 min\n\nbake 2026-03-03 05:30\nmix: 15 min\n\nbake 2026-03-04 05:30\nmix: 16 min\n=== rolls.miche ===\nrecipe Rolls\nflour .... 500 g\nmix: hands 12 min\n    Mix {flour}.\n",
    good: "bakes of \"rolls.miche\"\n\nbake 2026-03-02 05:30\nmix: 12 min\n\nbake 2026-03-03 05:30\nmix: 11 min\n\nbake 2026-03-04 05:30\nmix: 13 min\n=== rolls.miche ===\nrecipe Rolls\nflour .... 500 g\nmix: hands 12 min\n    Mix {flour}.\n",
    sources: &["Student (W. S. Gosset), Biometrika 6 (1908) 1, from memory"],
    run: Run::Command("miche check example.miche"),
};
