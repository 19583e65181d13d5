//! The one layout of `tidy` for a whole text or some of its lines.

use super::view::View;
use crate::diagnostic::Edit;
use crate::source::Span;
use crate::tidy::{LineRange, tidy};
use similar::{Algorithm, DiffOp, capture_diff_slices};

/// The edits that tidy a text, line by line, so that the cursor stays where it is.
pub(super) fn edits(view: &View, range: Option<LineRange>) -> Vec<Edit> {
    // A fault leaves the text alone; `miche tidy` tells it.
    let Ok(tidied) = tidy(view.text(), range) else { return Vec::new() };
    if tidied == view.text() {
        return Vec::new();
    }
    let old: Vec<&str> = view.text().split_inclusive('\n').collect();
    let new: Vec<&str> = tidied.split_inclusive('\n').collect();
    let starts: Vec<usize> = std::iter::once(0)
        .chain(old.iter().scan(0, |at, line| {
            *at += line.len();
            Some(*at)
        }))
        .collect();
    let place = |index: usize| starts.get(index).copied().unwrap_or(view.text().len());
    let ops = capture_diff_slices(Algorithm::Myers, &old, &new);
    ops.iter()
        .filter(|op| !matches!(op, DiffOp::Equal { .. }))
        .map(|op| Edit {
            span: Span::new(view.source, place(op.old_range().start), place(op.old_range().end)),
            text: new.get(op.new_range()).unwrap_or_default().concat(),
        })
        .collect()
}
