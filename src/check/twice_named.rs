//! `twice-named`: the same thing said or named twice: an ingredient of one part, a part, a step, a key line.

use super::{Check, Family, Run};
use crate::text::diagnostic::Severity;

/// The check and its explanation; its problems are found while a file is read and bound.
pub(super) const CHECK: Check = Check {
    name: "twice-named",
    severity: Severity::Error,
    family: Family::Names,
    looks_for: "the same thing said or named twice: an ingredient of one part, a part, a step, a key line; an order of a day that is word for word another",
    why: "With two lines of one name nobody knows which is meant, and `{butter}` in a step could be either. \
        Add them up and share them out in the steps, or give what is for the tin a name of its own, `butter \
        for the tins`.",
    bad: r#"recipe Rolls
flour .... 500 g
water .... 300 g
flour .... 50 g
"#,
    good: r#"recipe Rolls
flour .... 550 g
water .... 300 g
mix: hands 10 min
    Mix {500 g of flour} and {water}; dust with {rest of flour}.
    until smooth
"#,
    sources: &[],
    run: Run::Elsewhere,
};
