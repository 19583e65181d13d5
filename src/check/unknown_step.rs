//! `unknown-step`: an order such as `after STEP` that names no step.

use super::{Check, Family, Run};
use crate::text::diagnostic::Severity;

/// The check and its explanation; its problems are found while a file is read and bound.
pub(super) const CHECK: Check = Check {
    name: "unknown-step",
    severity: Severity::Error,
    family: Family::Names,
    looks_for: "an order such as `after STEP` that names no step",
    why: "Steps are ordered by their names. `STEP` is a step of the same part, `STEP of PART` one of another.",
    bad: r#"recipe Rolls
flour .... 500 g
mix: hands 10 min, after weigh
    Mix {flour}.
"#,
    good: r#"recipe Rolls
flour .... 500 g
weigh: hands 1 min
    Weigh everything.
mix: hands 10 min, after weigh
    Mix {flour}.
    until smooth
"#,
    sources: &[],
    run: Run::Elsewhere,
};
