//! Problems one a line, for `grep` and for editors that read `file:line:column`.

use super::on_one_line;
use crate::text::diagnostic::Diagnostic;
use crate::text::source::Sources;

/// Renders one problem, ending in a line break.
pub fn render(sources: &Sources, diagnostic: &Diagnostic) -> String {
    let (name, line, column) = match sources.get(diagnostic.span.source) {
        Some(source) => {
            let position = source.position(diagnostic.span.start);
            (source.name.as_str(), position.line, position.column)
        }
        None => ("", 1, 1),
    };
    format!(
        "{}:{line}:{column}: {}[{}]: {}\n",
        on_one_line(name),
        diagnostic.severity.word(),
        diagnostic.check,
        on_one_line(&diagnostic.said())
    )
}
