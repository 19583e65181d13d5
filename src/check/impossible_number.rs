//! `impossible-number`: a number that cannot be computed with: divided by nothing, with more digits than can be kept, a range that runs backward.

use super::{Check, Family, Run};
use crate::text::diagnostic::Severity;

/// The check and its explanation; its problems are found while a file is read and bound.
pub(super) const CHECK: Check = Check {
    name: "impossible-number",
    severity: Severity::Error,
    family: Family::Writing,
    looks_for: "a number that cannot be computed with: divided by nothing, with more digits than can be kept, a \
        range that runs backward",
    why: "Sums are exact, so a number must be one that can be kept exactly, and a range must run from the \
        smaller to the larger end.",
    bad: r#"recipe Rolls
flour .... 1/0 kg
"#,
    good: r#"recipe Rolls
flour .... 1/2 kg

weigh: hands 1 min
    Weigh {flour}.
"#,
    sources: &[],
    run: Run::Elsewhere,
};
