//! `past-keeps`: a store that is past its `keeps` on the day on which it would be used.

use super::{Check, Family, Run};
use crate::text::diagnostic::Severity;

/// The check and its explanation; its problems are found when a day is read.
pub(super) const CHECK: Check = Check {
    name: "past-keeps",
    severity: Severity::Warning,
    family: Family::Safety,
    looks_for: "a `store` line of a day whose part keeps no longer on that day, or that is made only after it; a live dough that was made more \
                than a day before, and what is moist more than a week before, of which nothing says how long they keep",
    why: "What is in the store is taken before anything is made, but never past what its part says it `keeps`, or its label: counted in whole \
          days from the day on which it was made to the day for which it is wanted. It is then made anew, and what is past its time \
          belongs in the bin.",
    bad: "day Market\nready 2027-04-20 09:00\nmake 12 of \"doughnuts.miche\"\n\
          store 400 g of jam of \"doughnuts.miche\", made 2027-04-10\n=== doughnuts.miche ===\nrecipe Doughnuts\nmakes 12 doughnuts\n\
          part jam\nkeeps 7 days, chilled\nplum .... 400 g\nsugar .... 200 g\nmakes 480 g, loss 20 %\nboil: tend 30 min\n    \
          Boil {plum} and {sugar}.\n    until it sets\npart doughnuts\nper piece\njam .... 40 g\nplain flour .... 60 g\nwater .... 35 g\n\
          fry: tend 5 min\n    Fry a dough of {plain flour} and {water}; fill with {jam}.\n    until gold\n",
    good: "day Market\nready 2027-04-15 09:00\nmake 12 of \"doughnuts.miche\"\n\
          store 400 g of jam of \"doughnuts.miche\", made 2027-04-10\n=== doughnuts.miche ===\nrecipe Doughnuts\nmakes 12 doughnuts\n\
          part jam\nkeeps 7 days, chilled\nplum .... 400 g\nsugar .... 200 g\nmakes 480 g, loss 20 %\nboil: tend 30 min\n    \
          Boil {plum} and {sugar}.\n    until it sets\npart doughnuts\nper piece\njam .... 40 g\nplain flour .... 60 g\nwater .... 35 g\n\
          fry: tend 5 min\n    Fry a dough of {plain flour} and {water}; fill with {jam}.\n    until gold\n",
    sources: &["common practice, no source"],
    run: Run::Elsewhere,
};
