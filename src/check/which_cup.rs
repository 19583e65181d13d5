//! `which-cup`: cups, spoons, pints and gallons in a file that does not say which country's.

use super::{Check, Family, Run};
use crate::text::diagnostic::Severity;

/// The check and its explanation; its problems are found while a file is read and bound.
pub(super) const CHECK: Check = Check {
    name: "which-cup",
    severity: Severity::Error,
    family: Family::Writing,
    looks_for: "cups, spoons, pints and gallons in a file that does not say which country's",
    why: "A US cup holds 237 ml, a metric cup 250 ml, an imperial one 284 ml: a fifth more flour in the same \
        recipe. Say `measures US`, `measures metric` or `measures imperial` in the head.",
    bad: r#"recipe Rolls
water .... 1 cup
"#,
    good: r#"recipe Rolls
measures US
water .... 1 cup

pour: hands 1 min
    Pour {water}.
"#,
    sources: &["NIST Special Publication 811 as carried by GNU units 2.22"],
    run: Run::Elsewhere,
};
