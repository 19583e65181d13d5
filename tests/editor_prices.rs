//! Prices in the language server: what is offered while one is typed, and its date's colour.

// Helpers outside a test function fail a test by panicking, as the tests do.
#![allow(clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

#[path = "editor/client.rs"]
#[allow(dead_code)]
mod client;

use client::{Editor, at, uri};
use serde_json::{Value, json};

#[test]
fn the_words_of_a_price_are_offered_as_it_is_typed() {
    let folder = tempfile::tempdir().expect("a folder");
    let uri = uri(&folder.path().join("prices.miche"));
    let mut editor = Editor::start(folder.path(), false);
    let above = "ingredient pier flour\ncosts 1.35 CROWN per kg, on 2026-11-02\ningredient quay flour\ncosts 1.40 CROWN per kg, on 2026-03-01\n\
                 ingredient jetty flour\n";
    editor.open(&uri, above);
    for (version, (typed, label, text)) in (2..).zip([
        ("cos", "costs", "costs "),
        ("costs 1.20 ", "CROWN per", "CROWN per "),
        ("costs 1.20 CR", "CROWN per", "CROWN per "),
        ("costs 1.20 CROWN p", "per", "per "),
        ("costs 1.20 EUR p", "per", "per "),
        ("costs 1.20 per ", "kg", "kg"),
        ("costs 1.20 CROWN per 500 ", "g", "g"),
        ("costs 1.20 CROWN per kg, ", "on 2026-11-02", "on 2026-11-02"),
        ("costs 1.20 CROWN per kg, o", "on", "on "),
        ("costs 1.20 CROWN per kg, on 2026-0", "on 2026-03-01", "on 2026-03-01"),
    ]) {
        editor.change(&uri, version, json!([{ "text": format!("{above}{typed}") }]));
        let list: Value =
            editor.ask("textDocument/completion", at(&uri, 5, u32::try_from(typed.len()).expect("short")));
        let items = list["items"].as_array().expect("a list");
        let offer = items.iter().find(|item| item["label"] == label);
        let offer = offer.unwrap_or_else(|| panic!("{label} is not offered behind `{typed}`: {items:?}"));
        let edit = &offer["textEdit"];
        assert_eq!(edit["newText"], text, "behind `{typed}`");
        let start = usize::try_from(edit["range"]["start"]["character"].as_u64().expect("a column")).expect("short");
        let whole = format!("{}{text}", &typed[..start]);
        assert!(whole.starts_with("costs ") && !whole.contains("per per") && !whole.contains("on on"), "{whole}");
    }
    // A date is one number, and the colours of a larder say so.
    editor.change(&uri, 40, json!([{ "text": above }]));
    let tokens: Value = editor.ask("textDocument/semanticTokens/full", json!({ "textDocument": { "uri": uri } }));
    let data: Vec<u64> = tokens["data"].as_array().expect("numbers").iter().filter_map(Value::as_u64).collect();
    assert_eq!(data.chunks(5).filter(|token| token[2..4] == [10, 5]).count(), 2, "{data:?}");
    assert_eq!(editor.end(), Some(0));
}
