//! How long a key press takes in the language server: `cargo bench --bench editor`.
//!
//! A recipe of 2 000 lines is open; a letter is typed or deleted at one place after the other. Counted is the work from
//! the change to the problems of the new text: reading, formula, all checks, everything as the editor gets it. How long
//! the plain reading of the whole text takes stands beside it, as a measure of the machine and of what else it does.

// A benchmark that cannot start has nothing better to do than to fall.
#![allow(clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

#[path = "../editor/long.rs"]
mod long;

use lsp_server::Notification;
use miche::edge::editor::Server;
use miche::language::parse::Reading;
use miche::text::source::SourceId;
use serde_json::json;
use std::path::Path;
use std::time::{Duration, Instant};

/// The allocator of the program itself.
#[global_allocator]
static PIECES: mimalloc::MiMalloc = mimalloc::MiMalloc;

const PRESSES: usize = 400;

fn main() {
    // `cargo bench --bench editor -- 2000` measures that size alone; cargo itself adds `--bench`.
    let asked: Vec<usize> = std::env::args().filter_map(|argument| argument.parse().ok()).collect();
    let sizes = if asked.is_empty() { vec![250, 500, 1000, 2000, 4000] } else { asked };
    for lines in sizes {
        let times = key_presses(&long::long_recipe(lines));
        let at = |share: usize| times[times.len() * share / 100];
        println!("{lines:5} lines: median {:?}, p90 {:?}, p99 {:?}", at(50), at(90), at(99));
        let text = long::long_recipe(lines);
        let mut whole: Vec<Duration> = (0..20)
            .map(|_| {
                let start = Instant::now();
                let reading = Reading::of(SourceId(0), &text);
                assert!(reading.problems.is_empty());
                start.elapsed()
            })
            .collect();
        whole.sort();
        println!("            beside it, reading the whole text once: median {:?}", whole[10]);
    }
}

/// How long each of some key presses took, the shortest first.
fn key_presses(text: &str) -> Vec<Duration> {
    let place = Path::new(env!("CARGO_MANIFEST_DIR")).join("examples/typed-here.miche");
    let uri = format!("file://{}", place.display());
    let (mut server, _) = Server::start(&json!({ "capabilities": {} }));
    let open = json!({ "textDocument": { "uri": uri, "languageId": "miche", "version": 0, "text": text } });
    server.tell(Notification::new("textDocument/didOpen".to_owned(), open));
    server.tell_problems().expect("problems of an open text");
    let lines: Vec<&str> = text.lines().collect();
    let mut times = Vec::with_capacity(PRESSES);
    for press in 0..PRESSES {
        // A letter goes in at the end of some line, and out again at the next press.
        let line = (press / 2 * 37 + 5) % lines.len();
        let end = lines[line].encode_utf16().count();
        let (range, typed) = if press % 2 == 0 {
            (json!({ "start": { "line": line, "character": end }, "end": { "line": line, "character": end } }), "e")
        } else {
            (json!({ "start": { "line": line, "character": end }, "end": { "line": line, "character": end + 1 } }), "")
        };
        let change = json!({
            "textDocument": { "uri": uri, "version": press + 1 },
            "contentChanges": [{ "range": range, "text": typed }],
        });
        let note = Notification::new("textDocument/didChange".to_owned(), change);
        let start = Instant::now();
        server.tell(note);
        let told = server.tell_problems();
        times.push(start.elapsed());
        assert!(told.is_some(), "a new version is told of");
    }
    times.sort();
    times
}
