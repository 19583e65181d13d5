//! `more-out-than-in`: a bake of which more came out than went in.

use super::{Check, Family, Run};
use crate::text::diagnostic::Severity;

/// The check and its explanation; its problems are found while a log is held against its recipe.
pub(super) const CHECK: Check = Check {
    name: "more-out-than-in",
    severity: Severity::Error,
    family: Family::Formula,
    looks_for: "a bake of which more came out than went in",
    why: "What a step comes to is part of what went into it: a loss is below 100 %, and never below nothing. More came out than \
          the recipe says for a batch of that size when another size was made, when something else went in, or when a scale was \
          read wrongly. Say the size behind the date and what went in on lines of its own, or mend the weight. A hundredth over is \
          let pass: scales show no less.",
    bad: r#"bakes of "rolls.miche"

bake 2026-03-02 05:30, 10 rolls
shape: 06:41-07:10, came to 10 x 190 g
=== rolls.miche ===
recipe Rolls
makes 10 rolls
strong white flour .... 600 g
water ................. 65 %
salt .................. 2 %
divide 10 x 98 g, loss 2.2 %
shape: hands 1 min, each
    Work {strong white flour}, {water} and {salt} into rolls.
"#,
    good: r#"bakes of "rolls.miche"

bake 2026-03-02 05:30, 10 rolls
shape: 06:41-07:10, came to 10 x 98 g
=== rolls.miche ===
recipe Rolls
makes 10 rolls
strong white flour .... 600 g
water ................. 65 %
salt .................. 2 %
divide 10 x 98 g, loss 2.2 %
shape: hands 1 min, each
    Work {strong white flour}, {water} and {salt} into rolls.
"#,
    sources: &["conservation of mass"],
    run: Run::Elsewhere,
};
