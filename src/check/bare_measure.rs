//! `bare-measure`: a temperature or a length in prose that stands in no braces.

use super::{Check, Family, Run};
use crate::text::diagnostic::Severity;

/// The check and its explanation; its problems are found while a file is read.
pub(super) const CHECK: Check = Check {
    name: "bare-measure",
    severity: Severity::Advice,
    family: Family::Writing,
    looks_for: "a temperature or a length in prose without braces, such as `94 C` or `2 cm`",
    why: "What stands in braces is printed in the reader's units: `{94 C}` is 201 \u{b0}F on an American card. Without them the \
          words stay as they are, and somebody turns an oven in Fahrenheit to a figure in Celsius, or cuts dice of two centimetres with a ruler in inches. `miche check --fix` sets the \
          braces.",
    bad: "recipe Rolls\nflour .... 500 g\nwater .... 300 g\nmix: hands 10 min\n    Mix {flour} and {water}.\n    until smooth\n\
          bake: tend 20 min, using oven at 230 C\n    until 94 C in the middle\n",
    good: "recipe Rolls\nflour .... 500 g\nwater .... 300 g\nmix: hands 10 min\n    Mix {flour} and {water}.\n    until smooth\n\
           bake: tend 20 min, using oven at 230 C\n    until {94 C} in the middle\n",
    sources: &["common practice, no source"],
    run: Run::Elsewhere,
};
