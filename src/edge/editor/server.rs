//! Requests and notifications of the protocol, each handed to the feature that answers it.

use super::convert::{self, Converter};
use super::position::Encoding;
use super::tokens::KINDS;
use super::view::View;
use super::workspace::{Change, Workspace};
use super::{actions, completion, definition, folding, formatting, hints, hover, lens, links, outline, references};
use super::{rename, tokens, uri};
use crate::text::diagnostic::Edit;
use crate::text::source::SourceId;
use gen_lsp_types as lsp;
use lsp_server::{ErrorCode, Notification, Request, Response};
use serde::Serialize;
use serde::de::DeserializeOwned;
use serde_json::Value;
use std::collections::{BTreeMap, BTreeSet, HashMap};
use std::path::PathBuf;

/// Why a request has no answer: the protocol's code, and words.
type Refusal = (i32, String);

/// What is known of the editor, and its workspace.
#[derive(Debug)]
pub struct Server {
    workspace: Workspace,
    encoding: Encoding,
    /// Whether edits may name the version they are for.
    versioned: bool,
    /// Texts whose problems were not told yet since they changed.
    changed: BTreeSet<String>,
    /// Files of the folders that may have other problems since something changed.
    waiting: Vec<PathBuf>,
    /// What was told of each text, so that nothing is told twice.
    told: HashMap<String, (Option<i32>, Vec<lsp::Diagnostic>)>,
    /// Whether the editor asked to end.
    pub(super) ending: bool,
}

impl Server {
    /// A server that agrees with what an editor says of itself. Gives what the server can do.
    pub fn start(params: &Value) -> (Server, Value) {
        let said = |path: &str| params.pointer(path);
        let encodings = said("/capabilities/general/positionEncodings").and_then(Value::as_array);
        let utf8 = encodings.is_some_and(|list| list.iter().any(|name| name == "utf-8"));
        let versioned = said("/capabilities/workspace/workspaceEdit/documentChanges") == Some(&Value::Bool(true));
        let mut folders: Vec<PathBuf> = said("/workspaceFolders").map(folder_paths).unwrap_or_default();
        if folders.is_empty() {
            folders.extend(said("/rootUri").and_then(Value::as_str).and_then(uri::path));
        }
        let mut server = Server {
            workspace: Workspace::default(),
            encoding: if utf8 { Encoding::Utf8 } else { Encoding::Utf16 },
            versioned,
            changed: BTreeSet::new(),
            waiting: Vec::new(),
            told: HashMap::new(),
            ending: false,
        };
        server.workspace.set_folders(folders, &[]);
        server.waiting = server.workspace.files();
        let result = lsp::InitializeResult {
            capabilities: capabilities(server.encoding),
            server_info: Some(lsp::ServerInfo {
                name: "miche".to_owned(),
                version: Some(env!("CARGO_PKG_VERSION").to_owned()),
            }),
        };
        (server, serde_json::to_value(result).unwrap_or_default())
    }

    /// Answers a request.
    pub fn answer(&mut self, request: Request) -> Response {
        let Request { id, method, params, .. } = request;
        if self.ending {
            return Response::new_err(id, ErrorCode::InvalidRequest as i32, "the server is ending".to_owned());
        }
        match self.result(&method, params) {
            Ok(value) => Response::new_ok(id, value),
            Err((code, why)) => Response::new_err(id, code, why),
        }
    }

    fn result(&mut self, method: &str, params: Value) -> Result<Value, Refusal> {
        match method {
            "shutdown" => {
                self.ending = true;
                Ok(Value::Null)
            }
            "textDocument/hover" => self.at(params, |server, view, offset| {
                let problems = server.workspace.problems(view);
                let (text, span) = hover::hover(view, &problems, offset)?;
                let contents = lsp::MarkupContent { kind: lsp::MarkupKind::Markdown, value: text }.into();
                Some(lsp::Hover { contents, range: Some(server.converter().range(view, span)) })
            }),
            "textDocument/completion" => self.at(params, |server, view, offset| {
                let files = server.paths_beside(view);
                let offers = completion::offers(view, offset, &files);
                let convert = server.converter();
                let items: Vec<lsp::CompletionItem> =
                    offers.into_iter().enumerate().map(|(at, offer)| convert.offer(view, at, offer)).collect();
                Some(lsp::CompletionList { is_incomplete: true, items, ..lsp::CompletionList::default() })
            }),
            "textDocument/definition" => self.at(params, |server, view, offset| {
                let convert = server.converter();
                let places = definition::definition(view, offset);
                Some(places.into_iter().filter_map(|span| convert.location(&view.project, span)).collect::<Vec<_>>())
            }),
            "textDocument/documentHighlight" => self.at(params, |server, view, offset| {
                let convert = server.converter();
                let found = references::here(view, offset).into_iter();
                let mark = |span| lsp::DocumentHighlight { range: convert.range(view, span), kind: None };
                Some(found.map(|mention| mark(mention.span)).collect::<Vec<_>>())
            }),
            "textDocument/references" => self.references(params),
            "textDocument/prepareRename" => self.at(params, |server, view, offset| {
                rename::renamable(view, offset).map(|span| server.converter().range(view, span))
            }),
            "textDocument/rename" => self.rename(params),
            "textDocument/inlayHint" => self.with(params, |server, view, params: lsp::InlayHintParams| {
                let (from, to) = server.offsets(view, params.range);
                let convert = server.converter();
                hints::hints(view, from, to).into_iter().map(|hint| convert.hint(view, hint)).collect::<Vec<_>>()
            }),
            "textDocument/documentSymbol" => self.with(params, |server, view, _: lsp::DocumentSymbolParams| {
                let convert = server.converter();
                outline::outline(view).into_iter().map(|entry| convert.entry(view, entry)).collect::<Vec<_>>()
            }),
            "textDocument/foldingRange" => self.with(params, |server, view, _: lsp::FoldingRangeParams| {
                let convert = server.converter();
                folding::folds(view).into_iter().filter_map(|fold| convert.fold(view, fold)).collect::<Vec<_>>()
            }),
            "textDocument/semanticTokens/full" => self.with(params, |server, view, _: lsp::SemanticTokensParams| {
                let data = server.converter().tokens(view, &tokens::tokens(view));
                lsp::SemanticTokens { result_id: None, data }
            }),
            "textDocument/semanticTokens/range" => {
                self.with(params, |server, view, params: lsp::SemanticTokensRangeParams| {
                    let (from, to) = server.offsets(view, params.range);
                    let mut found = tokens::tokens(view);
                    found.retain(|(span, _)| span.range().start <= to && from <= span.range().end);
                    lsp::SemanticTokens { result_id: None, data: server.converter().tokens(view, &found) }
                })
            }
            "textDocument/formatting" => self.with(params, |server, view, _: lsp::DocumentFormattingParams| {
                server.text_edits(view, formatting::edits(view, None))
            }),
            "textDocument/rangeFormatting" => {
                self.with(params, |server, view, params: lsp::DocumentRangeFormattingParams| {
                    let (from, to) = server.offsets(view, params.range);
                    server.text_edits(view, formatting::edits(view, Some(formatting::lines(view, from, to))))
                })
            }
            "textDocument/codeLens" => self.with(params, |server, view, _: lsp::CodeLensParams| {
                let convert = server.converter();
                let lens = |(span, title)| lsp::CodeLens {
                    range: convert.range(view, span),
                    command: Some(lsp::Command { title, command: String::new(), tooltip: None, arguments: None }),
                    data: None,
                };
                lens::lenses(view).into_iter().map(lens).collect::<Vec<_>>()
            }),
            "textDocument/documentLink" => self.with(params, |server, view, _: lsp::DocumentLinkParams| {
                let convert = server.converter();
                let link = |(span, target): (_, SourceId)| lsp::DocumentLink {
                    range: convert.range(view, span),
                    target: convert.workspace.uri(target).map(Into::into),
                    tooltip: None,
                    data: None,
                };
                links::links(view).into_iter().map(link).collect::<Vec<_>>()
            }),
            "textDocument/codeAction" => {
                self.with(params, |server, view, params: lsp::CodeActionParams| server.actions(view, &params))
            }
            _ => Err((ErrorCode::MethodNotFound as i32, format!("`{method}` is not known here"))),
        }
    }

    /// Takes in what the editor tells.
    pub fn tell(&mut self, note: Notification) {
        match note.method.as_str() {
            "textDocument/didOpen" => {
                let Ok(params) = serde_json::from_value::<lsp::DidOpenTextDocumentParams>(note.params) else { return };
                let document = params.text_document;
                self.workspace.open(&document.uri.0, document.version, document.text);
                self.touch(document.uri.0);
            }
            "textDocument/didChange" => {
                let Ok(params) = serde_json::from_value::<lsp::DidChangeTextDocumentParams>(note.params) else {
                    return;
                };
                let document = params.text_document;
                let uri = document.text_document_identifier.uri.0;
                let changes: Vec<Change> = params.content_changes.into_iter().map(change).collect();
                self.workspace.change(&uri, document.version, &changes, self.encoding);
                self.touch(uri);
            }
            "textDocument/didClose" => {
                let Ok(params) = serde_json::from_value::<lsp::DidCloseTextDocumentParams>(note.params) else { return };
                let uri = params.text_document.uri.0;
                self.workspace.close(&uri);
                // What was told of the text as it was on the screen is told again of the file as it is on disk.
                self.touch(uri);
            }
            "textDocument/didSave" | "workspace/didChangeWatchedFiles" => {
                self.workspace.disk_changed();
                self.waiting = self.workspace.files();
            }
            "workspace/didChangeWorkspaceFolders" => {
                let added = note.params.pointer("/event/added").map(folder_paths).unwrap_or_default();
                let removed = note.params.pointer("/event/removed").map(folder_paths).unwrap_or_default();
                self.workspace.set_folders(added, &removed);
                self.waiting = self.workspace.files();
            }
            _ => {}
        }
    }

    fn touch(&mut self, uri: String) {
        self.changed.insert(uri);
        self.waiting.clear();
    }

    /// Whether there are changed texts whose problems were not told.
    pub(super) fn has_changed(&self) -> Option<String> {
        self.changed.first().cloned()
    }

    /// The problems of one text that has changed.
    pub fn tell_problems(&mut self) -> Option<Notification> {
        let uri = self.changed.pop_first()?;
        if self.changed.is_empty() && self.waiting.is_empty() {
            // Other files may use this one; they are looked at when the typing pauses.
            self.waiting = vec![PathBuf::new()];
        }
        self.publish(&uri)
    }

    /// The problems of one more file of the folders; `None` when all were looked at or this one has no news.
    pub(super) fn tell_more(&mut self) -> Option<Notification> {
        let path = self.waiting.pop()?;
        if path.as_os_str().is_empty() {
            self.waiting = self.workspace.files();
            return None;
        }
        let uri = self.workspace.uri_of(&path);
        self.publish(&uri)
    }

    /// Whether files of the folders wait to be looked at.
    pub(super) fn has_more(&self) -> bool {
        !self.waiting.is_empty()
    }

    fn publish(&mut self, uri: &str) -> Option<Notification> {
        let version = self.workspace.version(uri);
        let diagnostics = match self.workspace.view(uri) {
            Some(view) => {
                let problems = self.workspace.problems(&view);
                let convert = self.converter();
                problems.iter().map(|problem| convert.problem(&view, problem)).collect()
            }
            None => Vec::new(),
        };
        let news = match self.told.get(uri) {
            Some((told_version, told)) => *told_version != version || *told != diagnostics,
            // A file that nobody has open and that is in order is not worth a word.
            None => version.is_some() || !diagnostics.is_empty(),
        };
        if !news {
            return None;
        }
        self.told.insert(uri.to_owned(), (version, diagnostics.clone()));
        let params = lsp::PublishDiagnosticsParams { uri: uri.into(), version, diagnostics };
        Some(Notification::new("textDocument/publishDiagnostics".to_owned(), params))
    }

    fn converter(&self) -> Converter<'_> {
        Converter { encoding: self.encoding, workspace: &self.workspace }
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
        let action = |(problem, mend): (&crate::text::diagnostic::Diagnostic, &crate::text::diagnostic::Mend)| {
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

fn folder_paths(list: &Value) -> Vec<PathBuf> {
    let folders = list.as_array().map(Vec::as_slice).unwrap_or_default();
    folders.iter().filter_map(|folder| uri::path(folder.get("uri")?.as_str()?)).collect()
}

fn change(event: lsp::TextDocumentContentChangeEvent) -> Change {
    match event {
        lsp::TextDocumentContentChangeEvent::TextDocumentContentChangePartial(part) => {
            Change { range: Some((convert::point(part.range.start), convert::point(part.range.end))), text: part.text }
        }
        lsp::TextDocumentContentChangeEvent::TextDocumentContentChangeWholeDocument(whole) => {
            Change { range: None, text: whole.text }
        }
    }
}

fn capabilities(encoding: Encoding) -> lsp::ServerCapabilities {
    let triggers = ["{", "[", "\"", ".", " ", ",", ":"];
    let sync = lsp::TextDocumentSyncOptions {
        open_close: Some(true),
        change: Some(lsp::TextDocumentSyncKind::Incremental),
        save: Some(true.into()),
        ..lsp::TextDocumentSyncOptions::default()
    };
    let words = |list: &[&str]| list.iter().map(|word| (*word).to_owned()).collect::<Vec<String>>();
    lsp::ServerCapabilities {
        position_encoding: Some(match encoding {
            Encoding::Utf8 => lsp::PositionEncodingKind::UTF8,
            Encoding::Utf16 => lsp::PositionEncodingKind::UTF16,
        }),
        text_document_sync: Some(sync.into()),
        completion_provider: Some(lsp::CompletionOptions {
            trigger_characters: Some(words(&triggers)),
            ..lsp::CompletionOptions::default()
        }),
        hover_provider: Some(true.into()),
        definition_provider: Some(true.into()),
        references_provider: Some(true.into()),
        document_highlight_provider: Some(true.into()),
        document_symbol_provider: Some(true.into()),
        code_action_provider: Some(
            lsp::CodeActionOptions {
                code_action_kinds: Some(vec![lsp::CodeActionKind::QuickFix]),
                ..lsp::CodeActionOptions::default()
            }
            .into(),
        ),
        code_lens_provider: Some(lsp::CodeLensOptions::default()),
        document_link_provider: Some(lsp::DocumentLinkOptions::default()),
        document_formatting_provider: Some(true.into()),
        document_range_formatting_provider: Some(true.into()),
        rename_provider: Some(
            lsp::RenameOptions { prepare_provider: Some(true), ..lsp::RenameOptions::default() }.into(),
        ),
        folding_range_provider: Some(true.into()),
        inlay_hint_provider: Some(true.into()),
        semantic_tokens_provider: Some(
            lsp::SemanticTokensOptions {
                legend: lsp::SemanticTokensLegend { token_types: words(KINDS), token_modifiers: Vec::new() },
                range: Some(true.into()),
                full: Some(true.into()),
                ..lsp::SemanticTokensOptions::default()
            }
            .into(),
        ),
        workspace: Some(lsp::WorkspaceOptions {
            workspace_folders: Some(lsp::WorkspaceFoldersServerCapabilities {
                supported: Some(true),
                change_notifications: Some(true.into()),
            }),
            ..lsp::WorkspaceOptions::default()
        }),
        ..lsp::ServerCapabilities::default()
    }
}
