//! An editor for the tests: starts the program and speaks the protocol with it over pipes, in the protocol's own types.

use gen_lsp_types as lsp;
use lsp_server::{Message, Notification, Request, RequestId};
use serde::Serialize;
use serde::de::DeserializeOwned;
use serde_json::{Value, json};
use std::collections::HashMap;
use std::io::BufReader;
use std::path::Path;
use std::process::{Child, ChildStdin, Command, Stdio};
use std::sync::mpsc::{Receiver, channel};
use std::time::Duration;

/// How long an answer may take on a busy machine.
const PATIENCE: Duration = Duration::from_secs(60);

pub struct Editor {
    child: Child,
    input: Option<ChildStdin>,
    output: Receiver<Message>,
    next: i32,
    /// The problems that were told last, by URI, with their version.
    pub problems: HashMap<String, (Option<i32>, Vec<lsp::Diagnostic>)>,
    /// What the server says it can do.
    pub capabilities: lsp::ServerCapabilities,
}

impl Editor {
    /// Starts the server in a folder. `utf8` offers to count columns in bytes.
    pub fn start(folder: &Path, utf8: bool) -> Editor {
        let mut child = Command::new(env!("CARGO_BIN_EXE_miche"))
            .arg("editor")
            .stdin(Stdio::piped())
            .stdout(Stdio::piped())
            .spawn()
            .expect("the program starts");
        let input = child.stdin.take();
        let mut pipe = BufReader::new(child.stdout.take().expect("a pipe"));
        let (sender, output) = channel();
        std::thread::spawn(move || {
            while let Ok(Some(message)) = Message::read(&mut pipe) {
                if sender.send(message).is_err() {
                    break;
                }
            }
        });
        let mut editor = Editor {
            child,
            input,
            output,
            next: 0,
            problems: HashMap::new(),
            capabilities: lsp::ServerCapabilities::default(),
        };
        let encodings = if utf8 { json!(["utf-8", "utf-16"]) } else { json!(["utf-16"]) };
        let result: lsp::InitializeResult = editor.ask(
            "initialize",
            json!({
                "processId": null,
                "rootUri": null,
                "capabilities": {
                    "general": { "positionEncodings": encodings },
                    "workspace": { "workspaceEdit": { "documentChanges": true } },
                },
                "workspaceFolders": [{ "uri": uri(folder), "name": "folder" }],
            }),
        );
        editor.capabilities = result.capabilities;
        editor.tell("initialized", json!({}));
        editor
    }

    /// Sends a notification.
    pub fn tell(&mut self, method: &str, params: impl Serialize) {
        self.send(Message::Notification(Notification::new(method.to_owned(), params)));
    }

    /// Sends a request and gives its number.
    pub fn send_request(&mut self, method: &str, params: impl Serialize) -> RequestId {
        self.next += 1;
        let id = RequestId::from(self.next);
        self.send(Message::Request(Request::new(id.clone(), method.to_owned(), params)));
        id
    }

    fn send(&mut self, message: Message) {
        let input = self.input.as_mut().expect("not ended yet");
        message.write(input).expect("the server listens");
    }

    /// The answer to a request: its result, or the code and the words of its refusal.
    pub fn answer(&mut self, id: &RequestId) -> Result<Value, (i32, String)> {
        loop {
            match self.receive() {
                Message::Response(response) if response.id == *id => {
                    return response.response_result.map_err(|refusal| (refusal.code, refusal.message));
                }
                other => self.take_in(other),
            }
        }
    }

    fn receive(&mut self) -> Message {
        self.output.recv_timeout(PATIENCE).expect("the server answers")
    }

    fn take_in(&mut self, message: Message) {
        if let Message::Notification(note) = message
            && note.method == "textDocument/publishDiagnostics"
        {
            let told: lsp::PublishDiagnosticsParams =
                serde_json::from_value(note.params).expect("as the protocol has it");
            let before = self.problems.get(&told.uri.0).and_then(|(version, _)| *version);
            assert!(told.version >= before || told.version.is_none(), "problems of an old version");
            self.problems.insert(told.uri.0, (told.version, told.diagnostics));
        }
    }

    /// Asks and reads the answer as a type of the protocol.
    pub fn ask<R: DeserializeOwned>(&mut self, method: &str, params: impl Serialize) -> R {
        let id = self.send_request(method, params);
        let value = self.answer(&id).unwrap_or_else(|why| panic!("{method}: {why:?}"));
        serde_json::from_value(value.clone()).unwrap_or_else(|why| panic!("{method}: {why}: {value}"))
    }

    /// Opens a text and waits for its problems.
    pub fn open(&mut self, uri: &str, text: &str) -> Vec<lsp::Diagnostic> {
        self.tell(
            "textDocument/didOpen",
            json!({ "textDocument": { "uri": uri, "languageId": "miche", "version": 1, "text": text } }),
        );
        self.problems_of(uri, 1)
    }

    /// Replaces a stretch of a text.
    pub fn change(&mut self, uri: &str, version: i32, changes: Value) {
        let params = json!({ "textDocument": { "uri": uri, "version": version }, "contentChanges": changes });
        self.tell("textDocument/didChange", params);
    }

    /// Waits for the problems of a version.
    pub fn problems_of(&mut self, uri: &str, version: i32) -> Vec<lsp::Diagnostic> {
        loop {
            if let Some((told, problems)) = self.problems.get(uri)
                && *told == Some(version)
            {
                return problems.clone();
            }
            let message = self.receive();
            self.take_in(message);
        }
    }

    /// Waits for the problems of a file that is not open, until they are as wanted.
    pub fn wait_for(&mut self, uri: &str, wanted: impl Fn(&[lsp::Diagnostic]) -> bool) {
        loop {
            if self.problems.get(uri).is_some_and(|(_, problems)| wanted(problems)) {
                return;
            }
            let message = self.receive();
            self.take_in(message);
        }
    }

    /// Ends the conversation as the protocol asks; gives the exit code.
    pub fn end(mut self) -> Option<i32> {
        let _: Value = self.ask("shutdown", Value::Null);
        self.tell("exit", Value::Null);
        self.input.take();
        self.child.wait().expect("it ends").code()
    }
}

/// The URI of a path of the tests, which holds nothing to escape.
pub fn uri(path: &Path) -> String {
    format!("file://{}", path.canonicalize().unwrap_or_else(|_| path.to_owned()).display())
}

/// A request about a place.
pub fn at(uri: &str, line: u32, character: u32) -> Value {
    json!({ "textDocument": { "uri": uri }, "position": { "line": line, "character": character } })
}

/// Line and column (in UTF-16) of the `nth` place where some words stand, `skip` letters into them.
pub fn place(text: &str, words: &str, nth: usize, skip: usize) -> (u32, u32) {
    let (at, _) = text.match_indices(words).nth(nth).unwrap_or_else(|| panic!("`{words}` stands {nth} times"));
    let before = &text[..at + skip];
    let line = before.matches('\n').count();
    let column = before.rsplit('\n').next().unwrap_or("").encode_utf16().count();
    (u32::try_from(line).expect("small"), u32::try_from(column).expect("small"))
}

/// The words of a hover.
pub fn words(hover: &lsp::Hover) -> &str {
    match &hover.contents {
        lsp::Contents::MarkupContent(content) => &content.value,
        other => panic!("not Markdown: {other:?}"),
    }
}
