//! `wrong-kind`: an amount of the wrong kind: a weight where a time is wanted, a range where one amount is computed with.

use super::{Check, Family, Run};
use crate::text::diagnostic::Severity;

/// The check and its explanation; its problems are found while a file is read and bound.
pub(super) const CHECK: Check = Check {
    name: "wrong-kind",
    severity: Severity::Error,
    family: Family::Writing,
    looks_for: "an amount of the wrong kind: a weight where a time is wanted, a range where one amount is computed \
        with",
    why: "A mass is not a time and a percentage is not a temperature. Where the language wants one kind of \
        amount, another is a slip of the pen.",
    bad: r#"recipe Rolls
flour .... 500 g
mix: hands 10 g
    Mix {flour}.
"#,
    good: r#"recipe Rolls
flour .... 500 g
mix: hands 10 min
    Mix {flour}.
"#,
    sources: &[],
    run: Run::Elsewhere,
};
