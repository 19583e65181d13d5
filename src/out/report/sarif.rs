//! Problems as SARIF 2.1.0 (OASIS, Static Analysis Results Interchange Format), for code-scanning services.
//!
//! The structs are the wire format and nothing else.

use crate::check::{self, Check};
use crate::text::diagnostic::{Diagnostic, Severity};
use crate::text::source::{Source, Sources, Span};
use serde::Serialize;

#[derive(Serialize)]
struct Log {
    #[serde(rename = "$schema")]
    schema: &'static str,
    version: &'static str,
    runs: [Run; 1],
}

#[derive(Serialize)]
#[serde(rename_all = "camelCase")]
struct Run {
    tool: Tool,
    invocations: [Invocation; 1],
    column_kind: &'static str,
    results: Vec<SarifResult>,
}

#[derive(Serialize)]
#[serde(rename_all = "camelCase")]
struct Invocation {
    execution_successful: bool,
}

#[derive(Serialize)]
struct Tool {
    driver: Driver,
}

#[derive(Serialize)]
struct Driver {
    name: &'static str,
    version: &'static str,
    rules: Vec<Rule>,
}

#[derive(Serialize)]
#[serde(rename_all = "camelCase")]
struct Rule {
    id: &'static str,
    short_description: Text,
    full_description: Text,
    help: Text,
    default_configuration: Configuration,
    properties: Properties,
}

#[derive(Serialize)]
struct Configuration {
    level: &'static str,
}

#[derive(Serialize)]
struct Properties {
    category: &'static str,
}

#[derive(Serialize)]
struct Text {
    text: String,
}

#[derive(Serialize)]
#[serde(rename_all = "camelCase")]
struct SarifResult {
    rule_id: &'static str,
    #[serde(skip_serializing_if = "Option::is_none")]
    rule_index: Option<usize>,
    level: &'static str,
    message: Text,
    locations: Vec<Location>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    related_locations: Vec<Location>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    fixes: Vec<Fix>,
}

#[derive(Serialize)]
#[serde(rename_all = "camelCase")]
struct Location {
    #[serde(skip_serializing_if = "Option::is_none")]
    id: Option<usize>,
    physical_location: PhysicalLocation,
    #[serde(skip_serializing_if = "Option::is_none")]
    message: Option<Text>,
}

#[derive(Serialize)]
#[serde(rename_all = "camelCase")]
struct PhysicalLocation {
    artifact_location: ArtifactLocation,
    region: Region,
}

#[derive(Serialize)]
struct ArtifactLocation {
    uri: String,
}

#[derive(Serialize)]
#[serde(rename_all = "camelCase")]
struct Region {
    start_line: usize,
    start_column: usize,
    end_line: usize,
    end_column: usize,
}

#[derive(Serialize)]
#[serde(rename_all = "camelCase")]
struct Fix {
    description: Text,
    artifact_changes: Vec<ArtifactChange>,
}

#[derive(Serialize)]
#[serde(rename_all = "camelCase")]
struct ArtifactChange {
    artifact_location: ArtifactLocation,
    replacements: Vec<Replacement>,
}

#[derive(Serialize)]
#[serde(rename_all = "camelCase")]
struct Replacement {
    deleted_region: Region,
    inserted_content: Text,
}

/// All problems as one log. `all_read` says whether every file that was named could be read.
///
/// # Errors
/// Only what the serializer reports, which these types never cause.
pub fn render(sources: &Sources, diagnostics: &[Diagnostic], all_read: bool) -> serde_json::Result<String> {
    let driver = Driver {
        name: env!("CARGO_PKG_NAME"),
        version: env!("CARGO_PKG_VERSION"),
        rules: check::ALL.iter().map(|check| rule(check)).collect(),
    };
    let log = Log {
        schema: "https://json.schemastore.org/sarif-2.1.0-rtm.5.json",
        version: "2.1.0",
        runs: [Run {
            tool: Tool { driver },
            invocations: [Invocation { execution_successful: all_read }],
            // Columns are counted in characters, as everywhere in this program.
            column_kind: "unicodeCodePoints",
            results: diagnostics.iter().map(|diagnostic| result(sources, diagnostic)).collect(),
        }],
    };
    crate::out::report::to_json(&log)
}

fn level(severity: Severity) -> &'static str {
    match severity {
        Severity::Error => "error",
        Severity::Warning => "warning",
        Severity::Advice => "note",
    }
}

fn rule(check: &Check) -> Rule {
    Rule {
        id: check.name,
        short_description: text(format!("Looks for {}.", check.looks_for)),
        full_description: text(check.why),
        help: text(format!("{} `miche explain {}` shows examples.", check.why, check.name)),
        default_configuration: Configuration { level: level(check.severity) },
        properties: Properties { category: check.family.title() },
    }
}

fn text(text: impl Into<String>) -> Text {
    Text { text: text.into() }
}

fn result(sources: &Sources, diagnostic: &Diagnostic) -> SarifResult {
    let mut message = diagnostic.said().into_owned();
    if let Some(help) = &diagnostic.help {
        message.push_str(". Help: ");
        message.push_str(help);
    }
    let related = diagnostic.also.iter().enumerate();
    SarifResult {
        rule_id: diagnostic.check,
        rule_index: check::ALL.iter().position(|check| check.name == diagnostic.check),
        level: level(diagnostic.severity),
        message: text(message),
        locations: location(sources, diagnostic.span, None, &diagnostic.label).into_iter().collect(),
        related_locations: related
            .filter_map(|(at, label)| location(sources, label.span, Some(at), &label.text))
            .collect(),
        fixes: fix(sources, diagnostic).into_iter().collect(),
    }
}

fn location(sources: &Sources, span: Span, id: Option<usize>, words: &str) -> Option<Location> {
    let source = sources.get(span.source)?;
    let message = (!words.is_empty()).then(|| text(words));
    let physical_location = PhysicalLocation { artifact_location: artifact(source), region: region(source, span) };
    Some(Location { id, physical_location, message })
}

fn region(source: &Source, span: Span) -> Region {
    let (start, end) = (source.position(span.start), source.position(span.end));
    Region { start_line: start.line, start_column: start.column, end_line: end.line, end_column: end.column }
}

/// The mend of a problem as a fix, when all its edits are in one file.
fn fix(sources: &Sources, diagnostic: &Diagnostic) -> Option<Fix> {
    let mend = diagnostic.mend.as_ref()?;
    let source_id = mend.edits.first()?.span.source;
    let source = sources.get(source_id).filter(|_| mend.edits.iter().all(|edit| edit.span.source == source_id))?;
    let replacements = mend
        .edits
        .iter()
        .map(|edit| Replacement {
            deleted_region: region(source, edit.span),
            inserted_content: text(edit.text.as_str()),
        })
        .collect();
    let change = ArtifactChange { artifact_location: artifact(source), replacements };
    Some(Fix { description: text(mend.title.as_str()), artifact_changes: vec![change] })
}

fn artifact(source: &Source) -> ArtifactLocation {
    ArtifactLocation { uri: uri(&source.name) }
}

/// A path as a URI reference (RFC 3986): relative as it was given, or `file://` when it is absolute.
fn uri(path: &str) -> String {
    let scheme = if path.starts_with('/') { "file://" } else { "" };
    let path = path.strip_prefix("./").unwrap_or(path).replace('\\', "/");
    format!("{scheme}{}", super::path_in_address(&path))
}

#[cfg(test)]
mod tests {
    use super::uri;

    /// RFC 3986, section 2.1: everything but unreserved characters is percent-encoded.
    #[test]
    fn paths_become_uri_references() {
        assert_eq!(uri("./buns/fête 1.miche"), "buns/f%C3%AAte%201.miche");
        assert_eq!(uri("/tmp/a.miche"), "file:///tmp/a.miche");
    }
}
