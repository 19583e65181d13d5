//! `decimal-comma`: a number written with a comma.

use super::{Check, Family, Run};
use crate::text::diagnostic::Severity;

/// The check and its explanation; its problems are found while a file is read and bound.
pub(super) const CHECK: Check = Check {
    name: "decimal-comma",
    severity: Severity::Error,
    family: Family::Writing,
    looks_for: "a number written with a comma",
    why: "A comma begins a new clause, so `1,5 kg` would be one kilogram and something else. Write the point; \
        write thousands without grouping.",
    bad: r#"recipe Rolls
flour .... 1,5 kg
"#,
    good: r#"recipe Rolls
flour .... 1.5 kg

weigh: hands 1 min
    Weigh {flour}.
"#,
    sources: &[],
    run: Run::Elsewhere,
};
