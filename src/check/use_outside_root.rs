//! `use-outside-root`: a `use` or `make` line that leads out of the project.

use super::{Check, Family, Run};
use crate::text::diagnostic::Severity;

/// The check and its explanation; its problems are found while a file is read and bound.
pub(super) const CHECK: Check = Check {
    name: "use-outside-root",
    severity: Severity::Error,
    family: Family::Names,
    looks_for: "a `use` or `make` line that leads out of the project",
    why: "A recipe that is shared must not read files from elsewhere on the machine. Files are used from the \
        nearest folder above that holds a `.git` downward; without one, from the file's own folder.",
    bad: r#"recipe Rolls
use "/etc/hostname"
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
