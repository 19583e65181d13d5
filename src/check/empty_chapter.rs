//! `empty-chapter`: a chapter of a book in which no page stands, or a book without any.

use super::{Check, Family, Run};
use crate::text::diagnostic::Severity;

/// The check and its explanation; its problems are found where a book is looked at.
pub(super) const CHECK: Check = Check {
    name: "empty-chapter",
    severity: Severity::Warning,
    family: Family::Names,
    looks_for: "a chapter of a book in which no page stands, or a book without any page, which is an error",
    why: "A chapter is what stands below it up to the next. One without pages is a title on an empty sheet: its pages were moved \
          and it was forgotten, or they are still to come. Of a book without pages nothing can be made.",
    bad: r#"book From the harbour ovens
chapter Bread
chapter Sweet
page "rolls.miche"
=== rolls.miche ===
recipe Rolls
flour .... 500 g
weigh: hands 1 min
    Weigh {flour}.
"#,
    good: r#"book From the harbour ovens
chapter Sweet
page "rolls.miche"
=== rolls.miche ===
recipe Rolls
flour .... 500 g
weigh: hands 1 min
    Weigh {flour}.
"#,
    sources: &["common practice, no source"],
    run: Run::Elsewhere,
};
