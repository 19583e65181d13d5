//! `log-out-of-time`: a log of bakes whose times cannot be, or that is not of the day that is planned.

use super::{Check, Family, Run};
use crate::text::diagnostic::Severity;

/// The check and its explanation; its problems are found when the rest of a day is planned.
pub(super) const CHECK: Check = Check {
    name: "log-out-of-time",
    severity: Severity::Error,
    family: Family::Steps,
    looks_for: "a log of bakes that has a step end before it begins or after now, or that is not of the day that is planned",
    why: "The rest of a day is planned from what the log says is done. A time that is still to come, a step that ends before it \
          begins, or a bake of another day would plan something that nobody can do. `miche plan --bakes` says it; `miche check` \
          does not plan.",
    bad: "bakes of \"rolls.miche\"\n\nbake 2027-03-02 05:30\nmix: 05:47-05:34\n",
    good: "recipe Rolls\nflour .... 500 g\n\nweigh: hands 1 min\n    Weigh {flour}.\n",
    sources: &[],
    run: Run::Planning,
};
