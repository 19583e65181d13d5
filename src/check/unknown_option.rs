//! `unknown-option`: an option in brackets that no `choose` line offers, or a line that can never hold.

use super::{Check, Family, Run};
use crate::text::diagnostic::Severity;

/// The check and its explanation; its problems are found while a file is read and bound.
pub(super) const CHECK: Check = Check {
    name: "unknown-option",
    severity: Severity::Error,
    family: Family::Names,
    looks_for: "an option in brackets that no `choose` line offers, or a line that can never hold",
    why: "A line marked with an option that does not exist is never used: it would silently drop out of every \
        card.",
    bad: r#"recipe Rolls
choose mixing: machine or hand
flour .... 500 g
yeast .... 5 g [machin]
"#,
    good: r#"recipe Rolls
choose mixing: machine or hand
flour .... 500 g
yeast .... 5 g [machine]
yeast .... 3 g [hand]
mix: hands 10 min
    Mix {flour} and {yeast}.
    until smooth
"#,
    sources: &[],
    run: Run::Elsewhere,
};
