//! `part-cycle`: parts that draw on each other in a ring.

use super::{Check, Family, Run};
use crate::text::diagnostic::Severity;

/// The check and its explanation; its problems are found while a file is read and bound.
pub(super) const CHECK: Check = Check {
    name: "part-cycle",
    severity: Severity::Error,
    family: Family::Names,
    looks_for: "parts that draw on each other in a ring",
    why: "A part can only be made of parts that can be made before it. A preferment is taken out of its dough \
        and must not be listed in it again.",
    bad: r#"recipe Rolls
part a
b .... 100 g
part b
a .... 100 g
"#,
    good: r#"recipe Rolls
part a
flour .... 100 g
mix: hands 1 min
    Stir {flour}.
part b
a .... 100 g
mix: hands 1 min
    Stir {a}.
"#,
    sources: &[],
    run: Run::Elsewhere,
};
