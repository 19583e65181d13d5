//! `broken-use`: a used file that has errors of its own.

use super::{Check, Family, Run};
use crate::text::diagnostic::Severity;

/// The check and its explanation; its problems are found in [`super::check_file`], which checks the used files.
pub(super) const CHECK: Check = Check {
    name: "broken-use",
    severity: Severity::Error,
    family: Family::Names,
    looks_for: "a `use` or `make` line whose file has errors",
    why: "A recipe is only as right as the mother dough it draws on: a line that could not be read there is missing here. \
          Check that file first; its problems are shown when it is checked.",
    bad: "recipe Rolls\nuse \"dough.miche\"\nflour .... 500 g\nweigh: hands 1 min\n    Weigh {flour}.\n=== dough.miche ===\nrecipe Dough\n\
          flour .... 500 grams\nweigh: hands 1 min\n    Weigh {flour}.\n",
    good: "recipe Rolls\nflour .... 500 g\n\nweigh: hands 1 min\n    Weigh {flour}.\n",
    sources: &[],
    run: Run::Elsewhere,
};
