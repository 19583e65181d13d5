//! Takes out problems that only follow from another: one slip of the pen, one problem.

use crate::language::syntax::{Content, FileKind, Key, Tree};
use crate::text::diagnostic::Diagnostic;
use crate::text::source::{Source, Span};
use std::collections::HashSet;

/// Problems that say which lines hold under which option; while an option is unknown nobody knows.
const UNDER_OPTIONS: &[&str] = &["twice-named", "used-up", "never-used", "not-all-used", "unlike-choices"];

/// So many lines that cannot be read, and so many names that were meant, are looked at for what follows from them.
const MOST_CAUSES: usize = 200;

/// Drops the consequences among the problems of one file.
pub(super) fn drop_consequences(tree: &Tree, source: &Source, diagnostics: &mut Vec<Diagnostic>) {
    if diagnostics.len() < 2 {
        return;
    }
    let strays: Vec<String> = tree
        .lines
        .iter()
        .filter(|line| line.content == Content::Stray)
        .take(MOST_CAUSES)
        .map(|line| source.slice(line.said).to_lowercase())
        .collect();
    // A page of a book says nothing of the others.
    let unknown_option = tree.kind != FileKind::Book && has_unknown_option(diagnostics);
    // Of two lines of prose for two options each names what the other does not have.
    let for_options: HashSet<u32> = diagnostics
        .iter()
        .filter(|problem| problem.check == "unknown-option")
        .filter_map(|problem| tree.line_at(problem.span.start))
        .filter(|line| matches!(line.content, Content::Prose(_) | Content::Until(_)))
        .map(|line| line.span.start)
        .collect();
    let in_prose_under_options =
        |span: Span| tree.line_at(span.start).is_some_and(|line| for_options.contains(&line.span.start));
    // `{watr}` is unknown because `water` was meant, and `water` is never used for the same reason.
    let meant: HashSet<Key> = diagnostics
        .iter()
        .filter(|problem| problem.check == "unknown-name")
        .filter_map(|problem| problem.mend.as_ref()?.edits.first().map(|edit| Key::new(&edit.text)))
        .collect();
    let garbled: Vec<String> = diagnostics
        .iter()
        .filter(|problem| problem.check == "stray-line")
        .take(MOST_CAUSES)
        .map(|problem| line_at(tree, source, problem.span).to_lowercase())
        .collect();
    diagnostics.retain(|problem| {
        let named = || Key::new(source.slice(problem.span));
        match problem.check {
            // How many pieces there are stands on the line that cannot be read.
            "pieces-mismatch" => !garbled.iter().any(|line| begins_with(line, "makes") || begins_with(line, "divide")),
            "unknown-name" => {
                !in_prose_under_options(problem.span) && !strays.iter().any(|line| begins_with(line, named().as_str()))
            }
            _ if unknown_option && UNDER_OPTIONS.contains(&problem.check) => false,
            "never-used" => {
                let name = name_in(tree, problem.span).unwrap_or_else(named);
                !meant.contains(&name) && !garbled.iter().any(|line| line.contains(name.as_str()))
            }
            _ => true,
        }
    });
}

fn has_unknown_option(diagnostics: &[Diagnostic]) -> bool {
    diagnostics.iter().any(|problem| problem.check == "unknown-option")
}

fn begins_with(line: &str, name: &str) -> bool {
    line.strip_prefix(name).is_some_and(|rest| !rest.starts_with(char::is_alphanumeric))
}

/// The line in which a place lies.
fn line_at<'s>(tree: &Tree, source: &'s Source, span: Span) -> &'s str {
    tree.line_at(span.start).map_or("", |line| source.slice(line.span))
}

/// The name of the ingredient line that a problem underlines.
fn name_in(tree: &Tree, span: Span) -> Option<Key> {
    tree.line_at(span.start).filter(|line| line.said == span).and_then(|line| match &line.content {
        Content::Ingredient(ingredient) => Some(ingredient.name.key.clone()),
        _ => None,
    })
}
