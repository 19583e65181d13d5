//! `long-shift`: a shift is longer than anybody works in a day.

use super::{Check, Family, Run};
use crate::text::diagnostic::Severity;

/// The check and its explanation; its problems are found when a kitchen is read.
pub(super) const CHECK: Check = Check {
    name: "long-shift",
    severity: Severity::Warning,
    family: Family::Kitchen,
    looks_for: "a shift that is longer than what `longest` says, or than 10 hours where nothing is said",
    why: "Who is at the oven for twelve hours burns the bread and then the hand; law and contracts say how long a shift may be and \
        go before anything here. The plan gives nobody work for longer than `longest`, from the first piece to the end of the \
        last, whatever their hours are; of one person alone it says where what is baked or simmers keeps them longer. Shorten the shift, share it between two, or say `longest 12 h` where that is allowed.",
    bad: "kitchen Pier bakehouse\noven x 1\ncook Mara 20:00-08:00, rests 30 min\n",
    good: "kitchen Pier bakehouse\noven x 1\ncook Mara 20:00-04:00, rests 30 min\ncook Jon 00:00-08:00\n",
    sources: &["common practice, no source"],
    run: Run::Elsewhere,
};
