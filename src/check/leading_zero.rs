//! `leading-zero`: a number that begins with a zero, such as `04`.

use super::{Check, Family, Run};
use crate::text::diagnostic::Severity;

/// The check and its explanation; its problems are found while a file is read.
pub(super) const CHECK: Check = Check {
    name: "leading-zero",
    severity: Severity::Warning,
    family: Family::Writing,
    looks_for: "a number that begins with a zero and goes on with another digit",
    why: "Nobody writes 04 minutes. A point was lost from 0.4, or the digits of 40 were swapped. It is computed with as it \
          stands until it is corrected.",
    bad: "recipe Rolls\nflour .... 500 g\nmix: hands 04 min\n    Mix {flour}.\n    until smooth\n",
    good: "recipe Rolls\nflour .... 500 g\nmix: hands 4 min\n    Mix {flour}.\n    until smooth\n",
    sources: &[],
    run: Run::Elsewhere,
};
