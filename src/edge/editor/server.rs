//! Requests and notifications of the protocol, each handed to the feature that answers it.

use self::capabilities::capabilities;
use super::convert::{self, Converter};
use super::position::Encoding;
use super::uri;
use super::workspace::{Change, Workspace};
use gen_lsp_types as lsp;
use lsp_server::{ErrorCode, Notification, Request, Response};
use serde_json::Value;
use std::collections::{BTreeSet, HashMap};
use std::path::PathBuf;

mod answers;
mod capabilities;

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
