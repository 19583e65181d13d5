//! Links: the files of `use`, `make`, `store`, `bakes of` and `page`.

use super::view::View;
use crate::text::source::{SourceId, Span};

/// The place of each path that leads somewhere, without its quotation marks, and where it leads.
pub(super) fn links(view: &View) -> Vec<(Span, SourceId)> {
    let paths = view.tree().lines.iter().filter_map(|line| line.content.path()).map(|path| path.span);
    paths.filter_map(|span| Some((unquoted(view, span), view.project.target(span)?))).collect()
}

fn unquoted(view: &View, span: Span) -> Span {
    let words = view.slice(span);
    if words.len() >= 2 && words.starts_with('"') && words.ends_with('"') {
        return Span { start: span.start + 1, end: span.end - 1, ..span };
    }
    span
}
