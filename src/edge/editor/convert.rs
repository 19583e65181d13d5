//! Answers of the features in the types of the protocol.

use super::completion::{Kind, Offer};
use super::folding::Fold;
use super::hint::Hint;
use super::outline::{Entry, EntryKind};
use super::position::{Encoding, Point};
use super::problems;
use super::tokens::Token;
use super::view::View;
use super::workspace::Workspace;
use crate::model::project::Project;
use crate::text::diagnostic::{Diagnostic, Severity};
use crate::text::source::Span;
use gen_lsp_types as lsp;
use std::collections::HashMap;

/// Turns places of texts into those of the editor.
pub(super) struct Converter<'c> {
    /// In which units columns are counted.
    pub encoding: Encoding,
    /// Who knows the URI of each text.
    pub workspace: &'c Workspace,
}

impl Converter<'_> {
    /// A place of the view's own file.
    pub(super) fn range(&self, view: &View, span: Span) -> lsp::Range {
        let point = |offset: usize| position(view.line_starts().point(view.text(), offset, self.encoding));
        lsp::Range { start: point(span.range().start), end: point(span.range().end) }
    }

    fn offset(&self, view: &View, offset: usize) -> lsp::Position {
        position(view.line_starts().point(view.text(), offset, self.encoding))
    }

    /// A place of any file of a project.
    pub(super) fn location(&self, project: &Project, span: Span) -> Option<lsp::Location> {
        let text = &project.sources.get(span.source)?.text;
        let line_starts = super::position::LineStarts::of(text);
        let point = |offset: usize| position(line_starts.point(text, offset, self.encoding));
        let range = lsp::Range { start: point(span.range().start), end: point(span.range().end) };
        Some(lsp::Location { uri: self.workspace.uri(span.source)?.into(), range })
    }

    /// A problem, with its other places.
    pub(super) fn problem(&self, view: &View, problem: &Diagnostic) -> lsp::Diagnostic {
        let also: Vec<lsp::DiagnosticRelatedInformation> = problem
            .also
            .iter()
            .filter_map(|label| {
                let location = if label.span.source == view.source {
                    lsp::Location { uri: self.workspace.uri(view.source)?.into(), range: self.range(view, label.span) }
                } else {
                    self.location(&view.project, label.span)?
                };
                Some(lsp::DiagnosticRelatedInformation { location, message: label.text.clone() })
            })
            .collect();
        let severity = match problem.severity {
            Severity::Error => lsp::DiagnosticSeverity::Error,
            Severity::Warning => lsp::DiagnosticSeverity::Warning,
            Severity::Advice => lsp::DiagnosticSeverity::Information,
        };
        lsp::Diagnostic {
            range: self.range(view, problem.span),
            severity: Some(severity),
            code: Some(problem.check.to_owned().into()),
            source: Some("miche".to_owned()),
            message: problems::message(problem).into(),
            related_information: (!also.is_empty()).then_some(also),
            ..lsp::Diagnostic::default()
        }
    }

    /// Something to put in at the cursor.
    pub(super) fn offer(&self, view: &View, at: usize, offer: Offer) -> lsp::CompletionItem {
        let kind = match offer.kind {
            Kind::Keyword => lsp::CompletionItemKind::Keyword,
            Kind::Ingredient => lsp::CompletionItemKind::Variable,
            Kind::Part => lsp::CompletionItemKind::Class,
            Kind::Step => lsp::CompletionItemKind::Function,
            Kind::Choice => lsp::CompletionItemKind::EnumMember,
            Kind::Unit => lsp::CompletionItemKind::Unit,
            Kind::Equipment => lsp::CompletionItemKind::Property,
            Kind::File => lsp::CompletionItemKind::File,
        };
        let edit = lsp::TextEdit { range: self.range(view, offer.span), new_text: offer.text };
        lsp::CompletionItem {
            label: offer.label,
            kind: Some(kind),
            detail: (!offer.detail.is_empty()).then_some(offer.detail),
            sort_text: Some(format!("{at:04}")),
            text_edit: Some(edit.into()),
            ..lsp::CompletionItem::default()
        }
    }

    /// A figure beside the text.
    pub(super) fn hint(&self, view: &View, hint: Hint) -> lsp::InlayHint {
        lsp::InlayHint {
            position: self.offset(view, hint.at),
            label: hint.text.into(),
            kind: Some(lsp::InlayHintKind::Type),
            tooltip: Some(hint.about.clone().into()),
            padding_left: Some(true),
            text_edits: None,
            padding_right: None,
            data: None,
        }
    }

    /// An entry of the outline with what is in it.
    #[allow(deprecated)] // the type has a field that the protocol no longer wants
    pub(super) fn entry(&self, view: &View, entry: Entry) -> lsp::DocumentSymbol {
        let kind = match entry.kind {
            EntryKind::Title => lsp::SymbolKind::File,
            EntryKind::Part => lsp::SymbolKind::Class,
            EntryKind::Ingredient => lsp::SymbolKind::Variable,
            EntryKind::Step => lsp::SymbolKind::Function,
            EntryKind::Block => lsp::SymbolKind::Struct,
            EntryKind::Equipment => lsp::SymbolKind::Property,
            EntryKind::Order => lsp::SymbolKind::Event,
        };
        let inside: Vec<lsp::DocumentSymbol> = entry.inside.into_iter().map(|inner| self.entry(view, inner)).collect();
        lsp::DocumentSymbol {
            range: self.range(view, entry.span),
            selection_range: self.range(view, entry.name_span),
            name: entry.name,
            detail: (!entry.detail.is_empty()).then_some(entry.detail),
            kind,
            tags: None,
            deprecated: None,
            children: (!inside.is_empty()).then_some(inside),
        }
    }

    /// What can be folded. The lines of a tree end at LF, those of the editor also at a CR by itself.
    pub(super) fn fold(&self, view: &View, fold: Fold) -> Option<lsp::FoldingRange> {
        let start = view.tree().lines.get(fold.first)?.span.range().start;
        let end = view.tree().lines.get(fold.last)?.span.range().end;
        Some(lsp::FoldingRange {
            start_line: self.offset(view, start).line,
            end_line: self.offset(view, end).line,
            kind: fold.comments.then_some(lsp::FoldingRangeKind::Comment),
            ..lsp::FoldingRange::default()
        })
    }

    /// The words of a text and what they are, each counted from the one before.
    pub(super) fn tokens(&self, view: &View, tokens: &[(Span, Token)]) -> Vec<lsp::SemanticToken> {
        let mut last = Point { line: 0, column: 0 };
        let mut found = Vec::with_capacity(tokens.len());
        for (span, token) in tokens {
            let start = view.line_starts().point(view.text(), span.range().start, self.encoding);
            let end = view.line_starts().point(view.text(), span.range().end, self.encoding);
            if start.line != end.line || end.column <= start.column {
                continue;
            }
            let delta_line = start.line - last.line;
            found.push(lsp::SemanticToken {
                delta_line,
                delta_start: if delta_line == 0 { start.column - last.column } else { start.column },
                length: end.column - start.column,
                token_type: *token as u32,
                token_modifiers_bitset: 0,
            });
            last = start;
        }
        found
    }
}

/// A place.
fn position(point: Point) -> lsp::Position {
    lsp::Position { line: point.line, character: point.column }
}

/// A place that the editor named.
pub(super) fn point(position: lsp::Position) -> Point {
    Point { line: position.line, column: position.character }
}

/// Edits of some files as one change. Files that are open are named with the version that the edits are for.
pub(super) fn workspace_edit(
    changes: Vec<(String, Option<i32>, Vec<lsp::TextEdit>)>,
    versioned: bool,
) -> lsp::WorkspaceEdit {
    if !versioned {
        let changes: HashMap<lsp::Uri, Vec<lsp::TextEdit>> =
            changes.into_iter().map(|(uri, _, edits)| (uri.into(), edits)).collect();
        return lsp::WorkspaceEdit { changes: Some(changes), ..lsp::WorkspaceEdit::default() };
    }
    let documents = changes.into_iter().map(|(uri, version, edits)| {
        let text_document = lsp::OptionalVersionedTextDocumentIdentifier {
            version,
            text_document_identifier: lsp::TextDocumentIdentifier { uri: uri.into() },
        };
        let edits = edits.into_iter().map(Into::into).collect();
        lsp::DocumentChange::from(lsp::TextDocumentEdit { text_document, edits })
    });
    lsp::WorkspaceEdit { document_changes: Some(documents.collect()), ..lsp::WorkspaceEdit::default() }
}
