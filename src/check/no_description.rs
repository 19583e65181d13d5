//! `no-description`: a picture without words for those who do not see it.

use super::{Check, Family, Run};
use crate::text::diagnostic::Severity;

/// The check and its explanation; its problems are found while a line is read.
pub(super) const CHECK: Check = Check {
    name: "no-description",
    severity: Severity::Error,
    family: Family::Writing,
    looks_for: "a `picture` line that does not say what is seen on the picture",
    why: "Whoever does not see the picture, or reads it in the text, has only the words. They stand behind the file: \
          `picture \"buns.jpg\", Twelve buns on a blue tray`.",
    bad: r#"recipe Rolls
flour .... 500 g

weigh: hands 1 min
    Weigh {flour}.
    picture "scale.jpg"
"#,
    good: r#"recipe Rolls
flour .... 500 g

weigh: hands 1 min
    Weigh {flour}.
"#,
    sources: &["W3C, Web Content Accessibility Guidelines 2.2, success criterion 1.1.1, Non-text Content"],
    run: Run::Elsewhere,
};
