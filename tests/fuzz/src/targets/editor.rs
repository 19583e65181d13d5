//! A text that is typed into a language server line by line, out of order: after every edit the server answers, and at the end
//! it finds what one finds that is given the whole text at once.

use lsp_server::{Notification, Request, RequestId};
use miche::edge::editor::{Encoding, LineStarts, Server};
use serde_json::{Value, json};

const URI: &str = "file:///nowhere/typed.miche";

/// Edits of one text.
const MOST_EDITS: usize = 8;

fn open(text: &str) -> Server {
    let (mut server, _) = Server::start(&json!({ "capabilities": {} }));
    let document = json!({ "uri": URI, "languageId": "miche", "version": 0, "text": text });
    server.tell(Notification::new("textDocument/didOpen".to_owned(), json!({ "textDocument": document })));
    server
}

fn problems(server: &mut Server) -> Value {
    server.tell_problems().map_or(Value::Null, |note| note.params["diagnostics"].clone())
}

fn place(text: &str, offset: usize) -> Value {
    let point = LineStarts::of(text).point(text, offset, Encoding::Utf16);
    json!({ "line": point.line, "character": point.column })
}

/// A place between two characters that an edit of that number goes to.
fn somewhere(text: &str, number: usize) -> usize {
    let mut at = (number * 7919 + text.len() / 3) % (text.len() + 1);
    while !can_be_named(text, at) {
        at -= 1;
    }
    at
}

/// Whether an editor has a line and a column for a place: none lies within a character or between CR and LF.
fn can_be_named(text: &str, at: usize) -> bool {
    text.is_char_boundary(at) && !(text[..at].ends_with('\r') && text[at..].starts_with('\n'))
}

/// One text.
pub fn run(whole: &str) {
    let lines: Vec<&str> = whole.split_inclusive('\n').collect();
    let first = lines.len() - lines.len().min(MOST_EDITS);
    let mut text = lines[..first].concat();
    let mut server = open(&text);
    for (number, typed) in lines[first..].iter().enumerate() {
        let start = somewhere(&text, number);
        // Every third edit takes something away.
        let mut end = if number % 3 == 2 { (start + typed.len()).min(text.len()) } else { start };
        while !can_be_named(&text, end) {
            end += 1;
        }
        let change = json!({ "range": { "start": place(&text, start), "end": place(&text, end) }, "text": typed });
        let document = json!({ "uri": URI, "version": number + 1 });
        let params = json!({ "textDocument": document, "contentChanges": [change] });
        server.tell(Notification::new("textDocument/didChange".to_owned(), params));
        text.replace_range(start..end, typed);
        let method = [
            "textDocument/hover",
            "textDocument/completion",
            "textDocument/definition",
            "textDocument/documentSymbol",
            "textDocument/semanticTokens/full",
            "textDocument/foldingRange",
            "textDocument/codeLens",
            "textDocument/prepareRename",
        ][number % 8];
        let params = json!({ "textDocument": { "uri": URI }, "position": place(&text, start) });
        server.answer(Request::new(RequestId::from(1), method.to_owned(), params));
    }
    if first < lines.len() {
        assert_eq!(problems(&mut server), problems(&mut open(&text)), "{text:?}");
    }
}
