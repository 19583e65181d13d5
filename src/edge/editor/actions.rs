//! Mends of the problems at a place.

use super::problems;
use crate::text::diagnostic::{Diagnostic, Mend};
use crate::text::source::SourceId;

/// The problems that touch a stretch and have a mend in the same file; those that are certain first.
pub(super) fn mends(problems: &[Diagnostic], source: SourceId, from: usize, to: usize) -> Vec<(&Diagnostic, &Mend)> {
    let mut found: Vec<(&Diagnostic, &Mend)> = problems::touching(problems, from, to)
        .filter_map(|problem| Some((problem, problem.mend.as_ref()?)))
        .filter(|(_, mend)| mend.edits.iter().all(|edit| edit.span.source == source))
        .collect();
    found.sort_by_key(|(_, mend)| !mend.certain);
    found
}
