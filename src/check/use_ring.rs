//! `use-ring`: files that use each other in a ring.

use super::{Check, Family, Run};
use crate::text::diagnostic::Severity;

/// The check and its explanation; its problems are found while a file is read and bound.
pub(super) const CHECK: Check = Check {
    name: "use-ring",
    severity: Severity::Error,
    family: Family::Names,
    looks_for: "files that use each other in a ring",
    why: "If each of two files needs the other first, neither can be read. Move what both need into a third \
        file.",
    bad: "recipe Rolls\nuse \"dough.miche\"\nflour .... 500 g\nweigh: hands 1 min\n    Weigh {flour}.\n=== dough.miche ===\nrecipe Dough\nuse \"example.miche\"\nflour .... 500 g\n",
    good: r#"recipe Rolls
flour .... 500 g

weigh: hands 1 min
    Weigh {flour}.
"#,
    sources: &[],
    run: Run::Elsewhere,
};
