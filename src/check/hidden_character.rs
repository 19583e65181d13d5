//! `hidden-character`: control characters and marks that change the direction of writing without being seen.

use super::{Check, Family, Run};
use crate::text::diagnostic::Severity;

/// The check and its explanation; its problems are found while a file is read and bound.
pub(super) const CHECK: Check = Check {
    name: "hidden-character",
    severity: Severity::Error,
    family: Family::Writing,
    looks_for: "control characters and marks that change the direction of writing without being seen",
    why: "A line must be computed as it reads. Invisible characters come in by copying from web pages and \
        documents, and they can make a line look other than it is.",
    bad: "recipe Rolls\nnote Best\u{200B} warm.\nflour .... 500 g\nweigh: hands 1 min\n    Weigh {flour}.\n",
    good: r#"recipe Rolls
flour .... 500 g

weigh: hands 1 min
    Weigh {flour}.
"#,
    sources: &["Unicode Technical Report 36, Unicode Security Considerations (from memory)"],
    run: Run::Elsewhere,
};
