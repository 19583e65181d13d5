//! Problems for programs. The keys are fixed; the structs here are the wire format and nothing else.

use super::clean;
use crate::text::diagnostic::Diagnostic;
use crate::text::source::{Sources, Span};
use schemars::JsonSchema;
use serde::Serialize;
use std::borrow::Cow;

#[derive(Serialize, JsonSchema)]
pub(in crate::out) struct Problem<'a> {
    /// The name of the check.
    check: &'a str,
    /// error, warning or advice.
    severity: &'a str,
    /// The name of the file.
    file: Cow<'a, str>,
    /// From 1.
    line: usize,
    /// In characters, from 1.
    column: usize,
    /// The line in which it ends, from 1.
    end_line: usize,
    /// The column behind its end, from 1.
    end_column: usize,
    /// What is wrong, in a sentence.
    message: Cow<'a, str>,
    /// With which options of the recipe's choices it is so; null when it is with all.
    only: Option<Cow<'a, str>>,
    /// How to mend it.
    help: Option<Cow<'a, str>>,
    /// Other places that it is about.
    also: Vec<Also<'a>>,
}

#[derive(Serialize, JsonSchema)]
struct Also<'a> {
    /// The name of the file.
    file: Cow<'a, str>,
    /// From 1.
    line: usize,
    /// In characters, from 1.
    column: usize,
    /// What stands there.
    message: Cow<'a, str>,
}

/// All problems as one JSON array. Columns count characters from 1.
///
/// # Errors
/// Only what the serializer reports, which these types never cause.
pub fn render(sources: &Sources, diagnostics: &[Diagnostic]) -> serde_json::Result<String> {
    let problems: Vec<Problem<'_>> = diagnostics.iter().map(|diagnostic| problem(sources, diagnostic)).collect();
    crate::out::report::to_json(&problems)
}

fn problem<'a>(sources: &'a Sources, diagnostic: &'a Diagnostic) -> Problem<'a> {
    let (file, line, column) = place(sources, diagnostic.span);
    let (_, end_line, end_column) = place(sources, diagnostic.span.after());
    Problem {
        check: diagnostic.check,
        severity: diagnostic.severity.word(),
        file,
        line,
        column,
        end_line,
        end_column,
        message: clean(&diagnostic.message),
        only: (!diagnostic.only.is_empty()).then(|| clean(&diagnostic.only)),
        help: diagnostic.help.as_deref().map(clean),
        also: diagnostic
            .also
            .iter()
            .map(|label| {
                let (file, line, column) = place(sources, label.span);
                Also { file, line, column, message: clean(&label.text) }
            })
            .collect(),
    }
}

fn place(sources: &Sources, span: Span) -> (Cow<'_, str>, usize, usize) {
    match sources.get(span.source) {
        Some(source) => {
            let position = source.position(span.start);
            (clean(&source.name), position.line, position.column)
        }
        None => (Cow::Borrowed(""), 1, 1),
    }
}
