//! `idle-allowance`: an allowance that no longer suppresses anything.

use super::{Check, Family, Run};
use crate::text::diagnostic::Severity;

/// The check and its explanation; its problems are found when the allowances of a file are applied.
pub(super) const CHECK: Check = Check {
    name: "idle-allowance",
    severity: Severity::Warning,
    family: Family::Allowances,
    looks_for: "a comment `# allow CHECK: reason` above a line on which that check finds nothing",
    why: "An allowance that is no longer needed hides the next real problem on its line. Take it out when the recipe has been \
          mended; `check --fix` does it.",
    bad: "recipe Rolls\n# allow never-used: the salt is for the table\nflour .... 500 g\nmix: hands 10 min\n    Mix {flour}.\n    until smooth\n",
    good: "recipe Rolls\nflour .... 500 g\n# allow never-used: stands on the table\nsalt .... 10 g\nmix: hands 10 min\n    Mix {flour}.\n    until smooth\n",
    sources: &[],
    run: Run::Elsewhere,
};
