//! `stray-line`: a line, a clause or a brace that fits nothing the language can say.

use super::{Check, Family, Run};
use crate::text::diagnostic::Severity;

/// The check and its explanation; its problems are found while a file is read and bound.
pub(super) const CHECK: Check = Check {
    name: "stray-line",
    severity: Severity::Error,
    family: Family::Writing,
    looks_for: "a line, a clause or a brace that fits nothing the language can say",
    why: "A line that is not understood is not weighed, not checked and not printed. Nothing is silently \
        skipped: either it is an ingredient (`NAME .... AMOUNT`), a step (`NAME: hands TIME`), a line that \
        begins with a known word, prose indented below a step, or a comment after `# `.",
    bad: r#"recipe Rolls
flour .... 500 g
water, 300 g
"#,
    good: r#"recipe Rolls
flour .... 500 g
water .... 300 g

mix: hands 10 min
    Mix {flour} and {water}.
    until smooth
"#,
    sources: &[],
    run: Run::Elsewhere,
};
