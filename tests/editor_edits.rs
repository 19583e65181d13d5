//! What holds in the language server whatever is typed: random edits, random places, every request.

// Helpers outside a test function fail a test by panicking, as the tests do.
#![allow(clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

#[path = "editor/long.rs"]
mod long;

use lsp_server::{Notification, Request, RequestId, Response};
use miche::edge::editor::{Encoding, LineStarts, Server};
use miche::language::parse::Reading;
use miche::text::source::SourceId;
use proptest::prelude::*;
use proptest::sample::Index;
use serde_json::{Value, json};
use std::fs;
use std::path::{Path, PathBuf};
use std::time::{Duration, Instant};

const SOURCE: SourceId = SourceId(0);

fn folder() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("examples")
}

/// The examples and the files that are wrong on purpose.
fn texts() -> Vec<String> {
    let mut texts = Vec::new();
    for folder in
        [folder(), folder().with_file_name("tests").join("wrong"), folder().with_file_name("tests").join("right")]
    {
        let mut paths: Vec<PathBuf> =
            fs::read_dir(folder).expect("readable").map(|entry| entry.expect("readable").path()).collect();
        paths.sort();
        texts.extend(paths.iter().filter_map(|path| fs::read_to_string(path).ok()));
    }
    texts
}

/// What is typed or pasted.
const TYPED: &[&str] = &[
    "",
    "\n",
    "\r\n",
    " ",
    "    ",
    "e",
    "{",
    "}",
    "[hand]",
    ":",
    "..",
    ",",
    "# ",
    "1 kg",
    "½",
    "🥐",
    "e\u{301}",
    "until ",
    "\nmix: hands 4 min\n    ",
    "\nsalt ....... 2 %\n",
    "part x\n",
    "recipe R\n",
    "kitchen K\n",
    "\u{202E}",
    "\t",
    "\"",
    "use \"larder.miche\"\n",
    "%",
    "rest of ",
    "=",
    "\r",
];

/// One edit: where, how many characters go, what comes.
type Typing = (Index, usize, &'static str);

fn typing() -> impl Strategy<Value = Vec<Typing>> {
    prop::collection::vec(
        (any::<Index>(), prop_oneof![6 => 0_usize..3, 1 => 0_usize..200], prop::sample::select(TYPED)),
        1..12,
    )
}

/// Where an edit goes: its bytes.
fn reach(text: &str, edit: &Typing) -> (usize, usize) {
    // No position of the protocol lies inside the line break `\r\n`.
    let is_a_place = |at: &usize| !(text[..*at].ends_with('\r') && text[*at..].starts_with('\n'));
    let places: Vec<usize> = text.char_indices().map(|(at, _)| at).chain([text.len()]).filter(is_a_place).collect();
    let first = edit.0.index(places.len());
    (places[first], places[(first + edit.1).min(places.len() - 1)])
}

fn note(method: &str, params: Value) -> Notification {
    Notification::new(method.to_owned(), params)
}

/// A server with one text open.
struct Typist {
    server: Server,
    uri: String,
    version: i32,
    encoding: Encoding,
    text: String,
}

impl Typist {
    fn open(text: &str, encoding: Encoding) -> Typist {
        let encodings = if encoding == Encoding::Utf8 { json!(["utf-8"]) } else { json!(["utf-16"]) };
        let uri = format!("file://{}", folder().join("typed here.miche").display()).replace(' ', "%20");
        let client = json!({ "capabilities": { "general": { "positionEncodings": encodings } } });
        let (mut server, _) = Server::start(&client);
        let document = json!({ "uri": uri, "languageId": "miche", "version": 0, "text": text });
        server.tell(note("textDocument/didOpen", json!({ "textDocument": document })));
        Typist { server, uri, version: 0, encoding, text: text.to_owned() }
    }

    fn place(&self, offset: usize) -> Value {
        let point = LineStarts::of(&self.text).point(&self.text, offset, self.encoding);
        json!({ "line": point.line, "character": point.column })
    }

    fn edit(&mut self, edit: &Typing) {
        let (start, end) = reach(&self.text, edit);
        let change = json!({ "range": { "start": self.place(start), "end": self.place(end) }, "text": edit.2 });
        self.version += 1;
        let document = json!({ "uri": self.uri, "version": self.version });
        self.server
            .tell(note("textDocument/didChange", json!({ "textDocument": document, "contentChanges": [change] })));
        self.text.replace_range(start..end, edit.2);
    }

    fn problems(&mut self) -> Value {
        self.server.tell_problems().map_or(Value::Null, |note| note.params["diagnostics"].clone())
    }

    fn ask(&mut self, method: &str, mut params: Value) -> Result<Value, i32> {
        params["textDocument"] = json!({ "uri": self.uri });
        let Response { response_result, .. } =
            self.server.answer(Request::new(RequestId::from(1), method.to_owned(), params));
        response_result.map_err(|refusal| refusal.code)
    }

    /// Every request about a place and about the whole text.
    fn ask_everything(&mut self, offset: usize) -> Vec<(&'static str, Result<Value, i32>)> {
        let position = json!({ "position": self.place(offset) });
        let range = json!({ "start": self.place(offset / 2), "end": self.place(offset) });
        let options = json!({ "tabSize": 4, "insertSpaces": true });
        let mut renamed = position.clone();
        renamed["newName"] = json!("quite another name");
        let mut references = position.clone();
        references["context"] = json!({ "includeDeclaration": true });
        let requests = [
            ("textDocument/hover", position.clone()),
            ("textDocument/completion", position.clone()),
            ("textDocument/definition", position.clone()),
            ("textDocument/documentHighlight", position.clone()),
            ("textDocument/prepareRename", position),
            ("textDocument/references", references),
            ("textDocument/rename", renamed),
            ("textDocument/inlayHint", json!({ "range": range })),
            ("textDocument/documentSymbol", json!({})),
            ("textDocument/foldingRange", json!({})),
            ("textDocument/semanticTokens/full", json!({})),
            ("textDocument/semanticTokens/range", json!({ "range": range })),
            ("textDocument/formatting", json!({ "options": options })),
            ("textDocument/rangeFormatting", json!({ "range": range, "options": options })),
            ("textDocument/codeLens", json!({})),
            ("textDocument/documentLink", json!({})),
            ("textDocument/codeAction", json!({ "range": range, "context": { "diagnostics": [] } })),
        ];
        requests.into_iter().map(|(method, params)| (method, self.ask(method, params))).collect()
    }
}

/// Every range in an answer lies in the text, begins before it ends, and splits no character.
fn ranges_are_in_the_text(text: &str, encoding: Encoding, answer: &Value) -> Result<(), TestCaseError> {
    let pages = LineStarts::of(text);
    let place = |position: &Value| -> Option<(u64, u64)> {
        Some((position.get("line")?.as_u64()?, position.get("character")?.as_u64()?))
    };
    match answer {
        Value::Array(list) => list.iter().try_for_each(|item| ranges_are_in_the_text(text, encoding, item)),
        Value::Object(fields) => {
            if let (Some(start), Some(end)) = (fields.get("start").and_then(&place), fields.get("end").and_then(&place))
            {
                prop_assert!(start <= end, "{start:?} to {end:?}");
                for (line, column) in [start, end] {
                    let narrow = |value: u64| u32::try_from(value).unwrap_or(u32::MAX);
                    let point = miche::edge::editor::Point { line: narrow(line), column: narrow(column) };
                    let offset = pages.offset(text, point, encoding);
                    prop_assert_eq!(pages.point(text, offset, encoding), point, "no place of the text");
                }
            }
            fields.values().try_for_each(|value| ranges_are_in_the_text(text, encoding, value))
        }
        _ => Ok(()),
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 192, ..ProptestConfig::default() })]

    /// Reading what changed gives what reading everything gives.
    #[test]
    fn reading_again_is_reading_anew(text in prop::sample::select(texts()), edits in typing()) {
        let mut reading = Reading::of(SOURCE, &text);
        let mut text = text;
        for edit in &edits {
            let mut next = text.clone();
            let (start, end) = reach(&text, edit);
            next.replace_range(start..end, edit.2);
            reading = reading.again(&text, &next);
            let anew = Reading::of(SOURCE, &next);
            prop_assert_eq!(&*reading.tree, &*anew.tree);
            prop_assert_eq!(&reading.problems, &anew.problems);
            text = next;
        }
    }
}

/// Every line of every file that is open is kept: rare figures stand behind a pointer.
#[test]
fn what_reading_gives_takes_little_room() {
    let bytes = size_of::<miche::language::syntax::Line>();
    assert!(bytes <= 272, "a line takes {bytes} bytes");
}

/// A long text is read on all cores, stretch by stretch: that gives what reading it line after line gives, as reading it again
/// from its first lines does. Steps, notes and blank lines stand where a stretch could begin.
#[test]
fn reading_in_stretches_is_reading_line_after_line() {
    for name in ["rhubarb-crumb-buns", "harbour-rolls-bakes", "larder", "market-day"] {
        let text = fs::read_to_string(folder().join(name).with_extension("miche")).expect("an example");
        let long = format!("{text}\n").repeat(3_000 / text.lines().count());
        let begin: String = long.split_inclusive('\n').take(12).collect();
        let first = Reading::of(SOURCE, &begin);
        let (whole, again) = (Reading::of(SOURCE, &long), first.again(&begin, &long));
        assert!(whole.tree.lines.len() > 2_500, "{name}");
        assert_eq!(whole.tree, again.tree);
        assert_eq!(whole.problems, again.problems);
        // What is open before each line, and how many problems there are, are no worse known: an edit far down is read on them.
        let at = long.char_indices().map(|(at, _)| at).nth(long.chars().count() * 3 / 4).unwrap_or(0);
        let edited = format!("{}\n    x\n{}", &long[..at], &long[at..]);
        let (one, other) = (whole.again(&long, &edited), again.again(&long, &edited));
        assert_eq!(one.tree, other.tree);
        assert_eq!(one.problems, other.problems);
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 20, ..ProptestConfig::default() })]

    /// Whatever is typed, every request has an answer, all its places are in the text, and the problems are those of a
    /// server that sees the text for the first time.
    #[test]
    fn whatever_is_typed_is_answered(
        text in prop::sample::select(texts()), edits in typing(), at in any::<Index>(), utf8 in any::<bool>(),
    ) {
        let encoding = if utf8 { Encoding::Utf8 } else { Encoding::Utf16 };
        let mut typist = Typist::open(&text, encoding);
        let mut problems = typist.problems();
        for edit in &edits {
            typist.edit(edit);
            problems = typist.problems();
        }
        let mut fresh = Typist::open(&typist.text, encoding);
        prop_assert_eq!(&problems, &fresh.problems());
        let own: Vec<Value> = problems.as_array().expect("a list").iter().map(|problem| problem["range"].clone()).collect();
        ranges_are_in_the_text(&typist.text, encoding, &Value::Array(own))?;
        let places: Vec<usize> = typist.text.char_indices().map(|(at, _)| at).chain([typist.text.len()]).collect();
        let offset = places[at.index(places.len())];
        let again = fresh.ask_everything(offset);
        for ((method, answer), (_, anew)) in typist.ask_everything(offset).into_iter().zip(again) {
            match &answer {
                Ok(value) => {
                    // Places in other files are places of other texts.
                    if !matches!(method, "textDocument/definition" | "textDocument/references" | "textDocument/rename" | "textDocument/codeAction") {
                        ranges_are_in_the_text(&typist.text, encoding, value)?;
                    }
                }
                // Only a name can be refused.
                Err(code) => prop_assert!(method == "textDocument/rename", "{} gave {}", method, code),
            }
            prop_assert_eq!(answer, anew, "{} depends on how the text came about", method);
        }
    }
}

#[test]
fn every_place_of_a_text_with_wide_letters_is_answered() {
    let text = "recipe Crème 🥐 buns\nnote Café e\u{301}clair 👩‍🍳\npart dough 🍞\nwheat flour 🌾 ....... 1 kg\nwater ....... 60 %\n\n\
                mix: hands 5 min\n    Mix {wheat flour 🌾} e\u{301} and {water} 🥣.\n    until even 👍\n";
    for encoding in [Encoding::Utf8, Encoding::Utf16] {
        let mut typist = Typist::open(text, encoding);
        let problems = typist.problems();
        ranges_are_in_the_text(text, encoding, &problems).expect("the problems' places");
        for (offset, _) in text.char_indices() {
            for (method, answer) in typist.ask_everything(offset) {
                if let Ok(answer) = answer
                    && method != "textDocument/rename"
                {
                    ranges_are_in_the_text(text, encoding, &answer).unwrap_or_else(|why| panic!("{method}: {why}"));
                }
            }
        }
        // The name in braces, behind and before letters of two UTF-16 units.
        let inside = text.find("{wheat").expect("it is there") + 3;
        let position = json!({ "position": typist.place(inside) });
        let range = typist.ask("textDocument/prepareRename", position).expect("it has a name");
        let start = text.find("wheat flour 🌾}").expect("it is there");
        assert_eq!(range, json!({ "start": typist.place(start), "end": typist.place(start + "wheat flour 🌾".len()) }));
    }
}

/// A key press in a file of twice the length takes not much more than twice the work: nothing is quadratic in it.
#[test]
fn work_grows_with_the_length_of_the_text_and_not_faster() {
    let open = |lines: usize| {
        let mut typist = Typist::open(&long::long_recipe(lines), Encoding::Utf16);
        typist.problems();
        typist
    };
    let press = |typist: &mut Typist| -> Duration {
        let middle = typist.text.len() / 2;
        let change = json!({ "range": { "start": typist.place(middle), "end": typist.place(middle) }, "text": " " });
        typist.version += 1;
        let document = json!({ "uri": typist.uri, "version": typist.version });
        let start = Instant::now();
        typist
            .server
            .tell(note("textDocument/didChange", json!({ "textDocument": document, "contentChanges": [change] })));
        typist.server.tell_problems().expect("problems of a new version");
        start.elapsed()
    };
    let (mut small, mut large) = (open(500), open(2000));
    // In turns, so that what else the machine does meets both.
    let (mut short, mut long) = (Duration::MAX, Duration::MAX);
    for _ in 0..7 {
        short = short.min(press(&mut small));
        long = long.min(press(&mut large));
    }
    assert!(long < short * 12, "500 lines: {short:?}, 2000 lines: {long:?}");
}
