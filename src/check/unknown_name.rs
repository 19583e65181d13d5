//! `unknown-name`: a name in braces, after `percent of`, `from` before `all` or before `before STEP` that names nothing here.

use super::{Check, Family, Run};
use crate::text::diagnostic::Severity;

/// The check and its explanation; its problems are found while a file is read and bound.
pub(super) const CHECK: Check = Check {
    name: "unknown-name",
    severity: Severity::Error,
    family: Family::Names,
    looks_for: "a name in braces, after `percent of`, `from`, before `all` or with `before STEP` that names nothing here",
    why: "Steps take ingredients by the names they have in the list of the same part; a name that is not there \
        is misspelt or missing from the list, and would be missing from the weigh-out.",
    bad: r#"recipe Rolls
flour .... 500 g
mix: hands 10 min
    Mix {flour} and {water}.
"#,
    good: r#"recipe Rolls
flour .... 500 g
water .... 300 g
mix: hands 10 min
    Mix {flour} and {water}.
    until smooth
"#,
    sources: &["Virginia Cooperative Extension FST-155NP, How to Write a Recipe: everything used is listed (seen \
        through a copy)"],
    run: Run::Elsewhere,
};
