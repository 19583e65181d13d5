//! `no-title`: a file that does not say in its first line what it is.

use super::{Check, Family, Run};
use crate::text::diagnostic::Severity;

/// The check and its explanation; its problems are found while a file is read and bound.
pub(super) const CHECK: Check = Check {
    name: "no-title",
    severity: Severity::Error,
    family: Family::Writing,
    looks_for: "a file that does not say in its first line what it is",
    why: "Cards, plans and buying lists are headed with the name of the recipe, and a kitchen is read \
        differently from a recipe. The first line is `recipe NAME`, `kitchen NAME`, `ingredient NAME` or \
        `day NAME`.",
    bad: r#"flour .... 500 g
"#,
    good: r#"recipe Flour and nothing else
flour .... 500 g

weigh: hands 1 min
    Weigh {flour}.
"#,
    sources: &[],
    run: Run::Elsewhere,
};
