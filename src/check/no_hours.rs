//! `no-hours`: a cook is named without hours.

use super::{Check, Family, Run};
use crate::text::diagnostic::Severity;

/// The check and its explanation; its problems are found when a kitchen is read.
pub(super) const CHECK: Check = Check {
    name: "no-hours",
    severity: Severity::Warning,
    family: Family::Kitchen,
    looks_for: "somebody who is named in a kitchen without the hours in which they work",
    why: "A plan gives work to people by name. Of one whose hours are not said it knows only when the kitchen is open and how long \
        a day may be: 10 hours from the first piece of work to the end of the last, or what `longest` says. It may ask for \
        them at four in the morning. Say from when to when; hours may pass midnight.",
    bad: "kitchen Pier bakehouse\noven x 1\ncook Mara, rests 30 min\n",
    good: "kitchen Pier bakehouse\noven x 1\ncook Mara 22:00-06:00, rests 30 min\n",
    sources: &["common practice, no source"],
    run: Run::Elsewhere,
};
