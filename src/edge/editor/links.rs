//! Links: the files of `use` and `make`.

use super::view::View;
use crate::language::syntax::Content;
use crate::text::source::{SourceId, Span};

/// The place of each path that leads somewhere, without its quotation marks, and where it leads.
pub(super) fn links(view: &View) -> Vec<(Span, SourceId)> {
    let paths = view.tree().lines.iter().filter_map(|line| match &line.content {
        Content::Use(path) | Content::Make { path, .. } | Content::Store { path, .. } => Some(path.span),
        _ => None,
    });
    paths.filter_map(|span| Some((unquoted(view, span), view.project.target(span)?))).collect()
}

fn unquoted(view: &View, span: Span) -> Span {
    let words = view.slice(span);
    if words.len() >= 2 && words.starts_with('"') && words.ends_with('"') {
        return Span { start: span.start + 1, end: span.end - 1, ..span };
    }
    span
}
