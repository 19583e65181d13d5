//! `unknown-unit`: a word after a number that is no unit.

use super::{Check, Family, Run};
use crate::text::diagnostic::Severity;

/// The check and its explanation; its problems are found while a file is read and bound.
pub(super) const CHECK: Check = Check {
    name: "unknown-unit",
    severity: Severity::Error,
    family: Family::Writing,
    looks_for: "a word after a number that is no unit",
    why: "Weights are mg g kg oz lb; volumes ml cl dl l tsp tbsp cup fl oz pt qt gal; lengths mm cm m in; \
        times s min h days weeks; temperatures C and F; shares %. A bare number counts pieces. What \
        describes an ingredient follows after a comma: `egg .... 2, large`.",
    bad: r#"recipe Rolls
flour .... 500 grams
"#,
    good: r#"recipe Rolls
flour .... 500 g

weigh: hands 1 min
    Weigh {flour}.
"#,
    sources: &[],
    run: Run::Elsewhere,
};
