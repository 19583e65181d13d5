//! `unclear-allowance`: an allowance that names no check, gives no reason, or stands above what cannot be allowed.

use super::{Check, Family, Run};
use crate::text::diagnostic::Severity;

/// The check and its explanation; its problems are found when the allowances of a file are applied.
pub(super) const CHECK: Check = Check {
    name: "unclear-allowance",
    severity: Severity::Error,
    family: Family::Allowances,
    looks_for: "a comment `# allow CHECK: reason` that names no check, gives no reason, or stands above an error that leaves something out of the figures",
    why: "An allowance keeps one check quiet on the next line: `# allow odd-percent: a salt crust, not a dough`. Whoever reads \
          the recipe in a year must see which check, and why. Without both it allows nothing. Nor can it make up for a line that \
          is not read or an amount that nobody can work out: card, list and label would be made without it.",
    bad: "recipe Rolls\nflour .... 500 g\n# allow never-used\nsalt .... 10 g\nmix: hands 10 min\n    Mix {flour} and {salt}.\n    until smooth\n",
    good: "recipe Rolls\nflour .... 500 g\n# allow never-used: stands on the table\nsalt .... 10 g\nmix: hands 10 min\n    Mix {flour}.\n    until smooth\n",
    sources: &[],
    run: Run::Elsewhere,
};
