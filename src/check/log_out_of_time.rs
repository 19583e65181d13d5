//! `log-out-of-time`: a log of bakes whose times cannot be, or that is not of the day that is planned.

use super::{Check, Family, Run};
use crate::text::diagnostic::Severity;

/// The check and its explanation; its problems are found when the rest of a day is planned.
pub(super) const CHECK: Check = Check {
    name: "log-out-of-time",
    severity: Severity::Error,
    family: Family::Steps,
    looks_for: "a log of bakes that has a step end before it begins, a bake in the future, or one that is not of the day that is \
                planned",
    why: "What a bake says is measured, and the rest of a day is planned from what the log says is done. A time that is still to \
          come or a step that ends before it begins was written down wrongly. A step that ends before it began on the clock went on \
          through midnight, as far as that can be: more than 12 hours, and more than twice its time in the recipe, are a slip. \
          `miche plan --bakes` also says where a log is not of the day that is planned.",
    bad: r#"bakes of "rolls.miche"

bake 2026-03-02 05:30
weigh: 05:47-05:34
=== rolls.miche ===
recipe Rolls
flour .... 500 g
weigh: hands 10 min
    Weigh {flour}.
"#,
    good: r#"bakes of "rolls.miche"

bake 2026-03-02 05:30
weigh: 05:34-05:47
=== rolls.miche ===
recipe Rolls
flour .... 500 g
weigh: hands 10 min
    Weigh {flour}.
"#,
    sources: &[],
    run: Run::Elsewhere,
};
