//! The one layout of `tidy` for a whole text or some of its lines.

use super::view::View;
use crate::language::tidy::{LineRange, tidy};
use crate::text::diagnostic::Edit;
use crate::text::line_break;
use crate::text::source::Span;
use similar::{Algorithm, DiffOp, capture_diff_slices};

/// The lines that a stretch of the text touches. One that ends before the first letter of a line does not touch it.
pub(super) fn lines(view: &View, from: usize, to: usize) -> LineRange {
    let breaks = |end: usize| line_break::count_before(view.text(), end);
    let first = breaks(from) + 1;
    let ends_before = to > from && !line_break::before(view.text(), to).is_empty();
    let last = breaks(to) + usize::from(!ends_before);
    LineRange { first, last: last.max(first) }
}

/// The edits that tidy a text, line by line, so that the cursor stays where it is.
pub(super) fn edits(view: &View, range: Option<LineRange>) -> Vec<Edit> {
    // A fault leaves the text alone; `miche tidy` tells it.
    let Ok(tidied) = tidy(view.text(), range) else { return Vec::new() };
    if tidied == view.text() {
        return Vec::new();
    }
    let old: Vec<&str> = line_break::lines(view.text()).collect();
    let new: Vec<&str> = line_break::lines(&tidied).collect();
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
