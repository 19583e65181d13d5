//! `no-unit`: a bare number of something that is weighed and not counted.

use super::{Check, Family, Run};
use crate::text::diagnostic::Severity;

/// The check and its explanation; its problems are found while a file is bound.
pub(super) const CHECK: Check = Check {
    name: "no-unit",
    severity: Severity::Error,
    family: Family::Writing,
    looks_for: "a number without a unit on the line of something that nobody counts: `fresh yeast .... 75`, `butter .... 800`",
    why: "A bare number is a number of pieces. 75 of yeast would be 75 cakes of 17 g. What is counted may go without a unit: eggs, \
          onions, vanilla pods, bay leaves, sheets of gelatine, and what has `one weighs` in a larder file of your own. Of what no larder \
          knows and of berries up to 100 are believed, of fruit and vegetables up to 150, up to 300 where one weighs no more than 50 g, up to 200 of shellfish, small \
          fish and pieces of birds, and up to 24 of what the larder knows and not by the piece. So is what is one or a few on each of the pieces that are made: \
          120 plums in 120 dumplings. Where pieces are meant, write `75 pieces`.",
    bad: "recipe Loaf\nflour .... 1 kg\nwater .... 650 g\nsalt .... 20\nmix: hands 10 min\n    Mix {flour}, {water} and {salt}.\n    until \
          smooth\n",
    good: "recipe Loaf\nflour .... 1 kg\nwater .... 650 g\nsalt .... 20 g\negg .... 2\nmix: hands 10 min\n    Mix {flour}, {water}, {egg} and \
           {salt}.\n    until smooth\n",
    sources: &["common practice, no source"],
    run: Run::Elsewhere,
};
