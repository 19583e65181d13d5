//! `size-not-made`: a page of a book at a size in which its recipe cannot be made.

use super::{Check, Family, Run};
use crate::text::diagnostic::Severity;

/// The check and its explanation; its problems are found where a book is looked at.
pub(super) const CHECK: Check = Check {
    name: "size-not-made",
    severity: Severity::Error,
    family: Family::Names,
    looks_for: "a page of a book at a size in which its recipe cannot be made",
    why: "A recipe that makes no pieces cannot be made for twenty, and pieces stay whole: of what is divided in several parts, or of \
          several sorts, not every number comes out. The page would have no amounts to print.",
    bad: r#"book From the harbour ovens
page "crumble.miche", sizes 10 and 20
=== crumble.miche ===
recipe Crumble
flour .... 500 g
butter .... 250 g
rub: hands 5 min
    Rub {butter} into {flour}.
    until it looks like gravel
"#,
    good: r#"book From the harbour ovens
page "crumble.miche", sizes x 1 and x 2
=== crumble.miche ===
recipe Crumble
flour .... 500 g
butter .... 250 g
rub: hands 5 min
    Rub {butter} into {flour}.
    until it looks like gravel
"#,
    sources: &[],
    run: Run::Elsewhere,
};
