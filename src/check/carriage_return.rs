//! `carriage-return`: lines that end in a carriage return alone.

use super::{Check, Family, Run};
use crate::text::diagnostic::Severity;

/// The check and its explanation; its problems are found while a file is cut into lines.
pub(super) const CHECK: Check = Check {
    name: "carriage-return",
    severity: Severity::Warning,
    family: Family::Writing,
    looks_for: "lines that end in a carriage return alone",
    why: "Some programs still end lines so, and they are read as lines. But git and many others see no line end there: every \
        change is a change of the whole file, and of two lines the second may be shown over the first. End lines in a line \
        feed, as `check --fix` does.",
    bad: "recipe Rolls\rflour .... 500 g\rweigh: hands 1 min\r    Weigh {flour}.\r",
    good: "recipe Rolls\nflour .... 500 g\n\nweigh: hands 1 min\n    Weigh {flour}.\n",
    sources: &["Unicode Standard, section 5.8, Newline Guidelines (from memory)"],
    run: Run::Elsewhere,
};
