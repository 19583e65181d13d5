//! Answers to requests: what each feature finds, in the protocol's words.

use super::{Refusal, Server};
use crate::edge::editor::view::View;
use crate::edge::editor::{
    actions, completion, convert, definition, folding, formatting, hints, hover, lens, links, outline, references,
    rename, tokens,
};
use crate::text::diagnostic::{Diagnostic, Edit, Mend};
use crate::text::source::SourceId;
use gen_lsp_types as lsp;
use lsp_server::ErrorCode;
use serde::Serialize;
use serde::de::DeserializeOwned;
use serde_json::Value;
use std::collections::BTreeMap;

impl Server {
    /// The answer to a request of that name.
    pub(super) fn result(&mut self, method: &str, params: Value) -> Result<Value, Refusal> {
        match method {
            "shutdown" => {
                self.ending = true;
                Ok(Value::Null)
            }
            "textDocument/hover" => self.hover(params),
            "textDocument/completion" => self.completion(params),
            "textDocument/definition" => self.definition(params),
            "textDocument/documentHighlight" => self.highlights(params),
            "textDocument/references" => self.references(params),
            "textDocument/prepareRename" => self.prepare_rename(params),
            "textDocument/rename" => self.rename(params),
            "textDocument/inlayHint" => self.inlay_hints(params),
            "textDocument/documentSymbol" => self.symbols(params),
            "textDocument/foldingRange" => self.folding(params),
            "textDocument/semanticTokens/full" => self.all_tokens(params),
            "textDocument/semanticTokens/range" => self.tokens_between(params),
            "textDocument/formatting" => self.formatting(params),
            "textDocument/rangeFormatting" => self.formatting_between(params),
            "textDocument/codeLens" => self.lenses(params),
            "textDocument/documentLink" => self.file_links(params),
            "textDocument/codeAction" => {
                self.with(params, |server, view, params: lsp::CodeActionParams| server.actions(view, &params))
            }
            _ => Err((ErrorCode::MethodNotFound as i32, format!("`{method}` is not known here"))),
        }
    }

    /// What is under the pointer.
    fn hover(&mut self, params: Value) -> Result<Value, Refusal> {
        self.at(params, |server, view, offset| {
            let problems = server.workspace.problems(view);
            let (text, span) = hover::hover(view, &problems, offset)?;
            let contents = lsp::MarkupContent { kind: lsp::MarkupKind::Markdown, value: text }.into();
            Some(lsp::Hover { contents, range: Some(server.converter().range(view, span)) })
        })
    }

    /// What may be written here.
    fn completion(&mut self, params: Value) -> Result<Value, Refusal> {
        self.at(params, |server, view, offset| {
            let files = server.paths_beside(view);
            let offers = completion::offers(view, offset, &files);
            let convert = server.converter();
            let items: Vec<lsp::CompletionItem> =
                offers.into_iter().enumerate().map(|(at, offer)| convert.offer(view, at, offer)).collect();
            Some(lsp::CompletionList { is_incomplete: true, items, ..lsp::CompletionList::default() })
        })
    }

    /// Where a name was given.
    fn definition(&mut self, params: Value) -> Result<Value, Refusal> {
        self.at(params, |server, view, offset| {
            let convert = server.converter();
            let places = definition::definition(view, offset);
            Some(places.into_iter().filter_map(|span| convert.location(&view.project, span)).collect::<Vec<_>>())
        })
    }

    /// Where the same thing is named in this file.
    fn highlights(&mut self, params: Value) -> Result<Value, Refusal> {
        self.at(params, |server, view, offset| {
            let convert = server.converter();
            let found = references::here(view, offset).into_iter();
            let mark = |span| lsp::DocumentHighlight { range: convert.range(view, span), kind: None };
            Some(found.map(|mention| mark(mention.span)).collect::<Vec<_>>())
        })
    }

    /// The name here, if it can be changed.
    fn prepare_rename(&mut self, params: Value) -> Result<Value, Refusal> {
        self.at(params, |server, view, offset| {
            rename::renamable(view, offset).map(|span| server.converter().range(view, span))
        })
    }

    /// What stands in grey behind amounts.
    fn inlay_hints(&mut self, params: Value) -> Result<Value, Refusal> {
        self.with(params, |server, view, params: lsp::InlayHintParams| {
            let (from, to) = server.offsets(view, params.range);
            let convert = server.converter();
            hints::hints(view, from, to).into_iter().map(|hint| convert.hint(view, hint)).collect::<Vec<_>>()
        })
    }

    /// The outline of the file.
    fn symbols(&mut self, params: Value) -> Result<Value, Refusal> {
        self.with(params, |server, view, _: lsp::DocumentSymbolParams| {
            let convert = server.converter();
            outline::outline(view).into_iter().map(|entry| convert.entry(view, entry)).collect::<Vec<_>>()
        })
    }

    /// What can be folded away.
    fn folding(&mut self, params: Value) -> Result<Value, Refusal> {
        self.with(params, |server, view, _: lsp::FoldingRangeParams| {
            let convert = server.converter();
            folding::folds(view).into_iter().filter_map(|fold| convert.fold(view, fold)).collect::<Vec<_>>()
        })
    }

    /// What each word is, for its colour.
    fn all_tokens(&mut self, params: Value) -> Result<Value, Refusal> {
        self.with(params, |server, view, _: lsp::SemanticTokensParams| {
            let data = server.converter().tokens(view, &tokens::tokens(view));
            lsp::SemanticTokens { result_id: None, data }
        })
    }

    /// As [`Server::all_tokens`], of the lines that are seen.
    fn tokens_between(&mut self, params: Value) -> Result<Value, Refusal> {
        self.with(params, |server, view, params: lsp::SemanticTokensRangeParams| {
            let (from, to) = server.offsets(view, params.range);
            let mut found = tokens::tokens(view);
            found.retain(|(span, _)| span.range().start <= to && from <= span.range().end);
            lsp::SemanticTokens { result_id: None, data: server.converter().tokens(view, &found) }
        })
    }

    /// What `tidy` would write.
    fn formatting(&mut self, params: Value) -> Result<Value, Refusal> {
        self.with(params, |server, view, _: lsp::DocumentFormattingParams| {
            server.text_edits(view, formatting::edits(view, None))
        })
    }

    /// As [`Server::formatting`], of some lines.
    fn formatting_between(&mut self, params: Value) -> Result<Value, Refusal> {
        self.with(params, |server, view, params: lsp::DocumentRangeFormattingParams| {
            let (from, to) = server.offsets(view, params.range);
            server.text_edits(view, formatting::edits(view, Some(formatting::lines(view, from, to))))
        })
    }

    /// What stands above parts and recipes.
    fn lenses(&mut self, params: Value) -> Result<Value, Refusal> {
        self.with(params, |server, view, _: lsp::CodeLensParams| {
            let convert = server.converter();
            let lens = |(span, title)| lsp::CodeLens {
                range: convert.range(view, span),
                command: Some(lsp::Command { title, command: String::new(), tooltip: None, arguments: None }),
                data: None,
            };
            lens::lenses(view).into_iter().map(lens).collect::<Vec<_>>()
        })
    }

    /// The files that are named.
    fn file_links(&mut self, params: Value) -> Result<Value, Refusal> {
        self.with(params, |server, view, _: lsp::DocumentLinkParams| {
            let convert = server.converter();
            let link = |(span, target): (_, SourceId)| lsp::DocumentLink {
                range: convert.range(view, span),
                target: convert.workspace.uri(target).map(Into::into),
                tooltip: None,
                data: None,
            };
            links::links(view).into_iter().map(link).collect::<Vec<_>>()
        })
    }

    /// Answers a request about a place.
    fn at<R: Serialize>(
        &mut self,
        params: Value,
        feature: impl Fn(&mut Server, &View, usize) -> Option<R>,
    ) -> Result<Value, Refusal> {
        self.with(params, |server, view, params: lsp::TextDocumentPositionParams| {
            let offset = server.offset(view, params.position);
            feature(server, view, offset)
        })
    }

    /// Answers a request about a text. A text that cannot be read has no answer.
    fn with<P: DeserializeOwned, R: Serialize>(
        &mut self,
        params: Value,
        feature: impl FnOnce(&mut Server, &View, P) -> R,
    ) -> Result<Value, Refusal> {
        let uri = params.pointer("/textDocument/uri").and_then(Value::as_str).unwrap_or("").to_owned();
        let params: P = read(params)?;
        let Some(view) = self.workspace.view(&uri) else { return Ok(Value::Null) };
        write(feature(self, &view, params))
    }

    fn offset(&self, view: &View, position: lsp::Position) -> usize {
        view.line_starts().offset(view.text(), convert::point(position), self.encoding)
    }

    fn offsets(&self, view: &View, range: lsp::Range) -> (usize, usize) {
        (self.offset(view, range.start), self.offset(view, range.end))
    }

    fn text_edits(&self, view: &View, edits: Vec<Edit>) -> Vec<lsp::TextEdit> {
        let convert = self.converter();
        edits
            .into_iter()
            .map(|edit| lsp::TextEdit { range: convert.range(view, edit.span), new_text: edit.text })
            .collect()
    }

    fn references(&mut self, params: Value) -> Result<Value, Refusal> {
        let with_definition = params.pointer("/context/includeDeclaration") != Some(&Value::Bool(false));
        let folder = self.workspace.folder();
        self.at(params, |server, view, offset| {
            let convert = server.converter();
            let found = references::references(view, &folder, offset).into_iter();
            let project = &folder.views.first()?.project;
            let kept = found.filter(|mention| with_definition || !mention.defines);
            Some(kept.filter_map(|mention| convert.location(project, mention.span)).collect::<Vec<_>>())
        })
    }

    fn rename(&mut self, params: Value) -> Result<Value, Refusal> {
        let params: lsp::RenameParams = read(params)?;
        let folder = self.workspace.folder();
        let place = params.text_document_position_params;
        let Some(view) = self.workspace.view(&place.text_document.uri.0) else { return Ok(Value::Null) };
        let offset = self.offset(&view, place.position);
        let edits = rename::rename(&view, &folder, offset, &params.new_name)
            .map_err(|why| (ErrorCode::RequestFailed as i32, why))?;
        let mut by_file: BTreeMap<SourceId, Vec<Edit>> = BTreeMap::new();
        for edit in edits {
            by_file.entry(edit.span.source).or_default().push(edit);
        }
        let mut changes = Vec::new();
        for (source, edits) in by_file {
            let Some(view) = folder.views.iter().find(|view| view.source == source) else { continue };
            let Some(uri) = self.workspace.uri(source) else { continue };
            changes.push((uri.clone(), self.workspace.version(&uri), self.text_edits(view, edits)));
        }
        write(convert::workspace_edit(changes, self.versioned))
    }

    fn actions(&mut self, view: &View, params: &lsp::CodeActionParams) -> Vec<lsp::CodeAction> {
        let wanted = |only: &Option<Vec<lsp::CodeActionKind>>| {
            only.as_ref().is_none_or(|only| {
                only.iter().any(|kind| {
                    String::from(kind.clone()).starts_with("quickfix") || String::from(kind.clone()).is_empty()
                })
            })
        };
        if !wanted(&params.context.only) {
            return Vec::new();
        }
        let (from, to) = self.offsets(view, params.range);
        let problems = self.workspace.problems(view);
        let Some(uri) = self.workspace.uri(view.source) else { return Vec::new() };
        let version = self.workspace.version(&uri);
        let convert = self.converter();
        let allowances = actions::allowances(view, &problems, from, to);
        let mut found = actions::mends(&problems, view.source, from, to);
        found.extend(allowances.iter().map(|(problem, mend)| (*problem, mend)));
        let action = |(problem, mend): (&Diagnostic, &Mend)| {
            let edits = self.text_edits(view, mend.edits.clone());
            lsp::CodeAction {
                title: mend.title.clone(),
                kind: Some(lsp::CodeActionKind::QuickFix),
                diagnostics: Some(vec![convert.problem(view, problem)]),
                is_preferred: Some(mend.certain),
                edit: Some(convert::workspace_edit(vec![(uri.clone(), version, edits)], self.versioned)),
                ..lsp::CodeAction::default()
            }
        };
        found.into_iter().map(action).collect()
    }

    /// The files that a text may use, by their paths from its folder.
    fn paths_beside(&self, view: &View) -> Vec<String> {
        self.workspace.paths_from(view.source)
    }
}

fn read<P: DeserializeOwned>(params: Value) -> Result<P, Refusal> {
    serde_json::from_value(params).map_err(|error| (ErrorCode::InvalidParams as i32, error.to_string()))
}

fn write(answer: impl Serialize) -> Result<Value, Refusal> {
    serde_json::to_value(answer).map_err(|error| (ErrorCode::InternalError as i32, error.to_string()))
}
