//! `unknown-revision`: a bake that names a revision which git does not have.

use super::{Check, Family, Run};
use crate::text::diagnostic::Severity;

/// The check and its explanation; its problems are found when the formula of the day is read out of git.
pub(super) const CHECK: Check = Check {
    name: "unknown-revision",
    severity: Severity::Error,
    family: Family::Names,
    looks_for: "a bake `from` a revision that git does not have, or in which the recipe is not",
    why: "A bake is held against the formula as it stood that day: the revision that it names, else the last one committed before \
          it. `git log` lists the revisions. `miche check` and `miche bakes` say it where they can ask git.",
    bad: "bakes of \"rolls.miche\"\n\nbake 2026-03-02 05:30, from 0000000\n=== rolls.miche ===\nrecipe Rolls\nflour .... 500 g\nmix: hands 12 min\n    Mix {flour}.\n",
    good: "bakes of \"rolls.miche\"\n\nbake 2026-03-02 05:30\n=== rolls.miche ===\nrecipe Rolls\nflour .... 500 g\nmix: hands 12 min\n    Mix {flour}.\n",
    sources: &[],
    run: Run::Command("miche check example.miche"),
};
