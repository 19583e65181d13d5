//! `missing-use`: a `use` or `make` line whose file is not there, cannot be read, or is of the wrong kind.

use super::{Check, Family, Run};
use crate::text::diagnostic::Severity;

/// The check and its explanation; its problems are found while a file is read and bound.
pub(super) const CHECK: Check = Check {
    name: "missing-use",
    severity: Severity::Error,
    family: Family::Names,
    looks_for: "a `use` or `make` line whose file is not there, cannot be read, or is of the wrong kind",
    why: "Paths are relative to the file they stand in. Without the file, its kitchen, its larder or its parts \
        are not known, and sums that need them cannot be done.",
    bad: r#"recipe Rolls
use "not-there.miche"
flour .... 500 g
"#,
    good: r#"recipe Rolls
flour .... 500 g

weigh: hands 1 min
    Weigh {flour}.
"#,
    sources: &[],
    run: Run::Elsewhere,
};
