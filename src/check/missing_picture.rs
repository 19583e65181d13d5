//! `missing-picture`: a picture that is not there, is none, or is too large.

use super::{Check, Family, Run};
use crate::text::diagnostic::Severity;

/// The check and its explanation; its problems are found while a file is read.
pub(super) const CHECK: Check = Check {
    name: "missing-picture",
    severity: Severity::Error,
    family: Family::Names,
    looks_for: "a `picture` line whose file is not there, cannot be read, is neither a JPEG nor a PNG picture, or is too large",
    why: "Paths are relative to the file they stand in. A page for readers shows the picture, so that it is looked for when \
          the recipe is checked and not when it is published. 24 MiB and 50 million dots are the most.",
    bad: r#"recipe Rolls
picture "not-there.jpg", Six rolls on a rack
flour .... 500 g

weigh: hands 1 min
    Weigh {flour}.
"#,
    good: r#"recipe Rolls
flour .... 500 g

weigh: hands 1 min
    Weigh {flour}.
"#,
    sources: &[],
    run: Run::Elsewhere,
};
