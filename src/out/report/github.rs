//! Problems as workflow commands, which GitHub shows beside the changed lines of a pull request.

use super::clean;
use crate::text::diagnostic::{Diagnostic, Severity};
use crate::text::source::Sources;

/// Renders one problem, ending in a line break.
pub fn render(sources: &Sources, diagnostic: &Diagnostic) -> String {
    let command = match diagnostic.severity {
        Severity::Error => "error",
        Severity::Warning => "warning",
        Severity::Advice => "notice",
    };
    let mut place = String::new();
    if let Some(source) = sources.get(diagnostic.span.source) {
        let (start, end) = (source.position(diagnostic.span.start), source.position(diagnostic.span.end));
        place = format!("file={},line={},endLine={},", property(&source.name), start.line, end.line);
        // Columns are only understood where the problem lies within one line.
        if start.line == end.line {
            place.push_str(&format!("col={},endColumn={},", start.column, end.column));
        }
    }
    let mut message = diagnostic.said().into_owned();
    if let Some(help) = &diagnostic.help {
        message.push_str("\nHelp: ");
        message.push_str(help);
    }
    format!("::{command} {place}title={}::{}\n", property(diagnostic.check), data(&message))
}

/// A message: what would end the command or the line is written as `%` and two digits.
fn data(text: &str) -> String {
    clean(text).replace('%', "%25").replace('\r', "%0D").replace('\n', "%0A")
}

/// A property, in which a comma and a colon end it too.
fn property(text: &str) -> String {
    data(text).replace(':', "%3A").replace(',', "%2C")
}
