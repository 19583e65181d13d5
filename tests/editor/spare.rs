//! Figures of a preferment of which some is kept.

use super::client::{Editor, at, place, uri, words};
use super::examples;
use gen_lsp_types as lsp;
use serde_json::json;
use std::fs;

/// 200 + 200 g go into the dough and 100 g are kept: 250 g of flour are weighed into the sour, as its card has it.
#[test]
fn what_is_kept_of_a_preferment_is_in_its_figures() {
    let folder = examples();
    let text = "recipe Loaf\nmakes 2 loaves\n\npart sour, from dough\nrye flour .... 20 %\nwater .... 20 %\nspare 100 g\nstir: hands 5 min\n    \
                Stir {rye flour} into {water}.\nripen: wait 12 h, at 24 C\n    until domed\n\npart dough\nstrong white flour .... 800 g\nrye flour .... 200 g\n\
                water .... 700 g\nsalt .... 20 g\ndivide 2 x 850 g, loss 1.2 %\nmix: hands 10 min\n    \
                Mix {sour}, {strong white flour}, {water} and {salt}.\n    until smooth\nbake: tend 40 min, using oven at 230 C\n    until brown\n";
    let path = folder.path().join("loaf-of-a-kept-sour.miche");
    fs::write(&path, text).expect("written");
    let uri = uri(&path);
    let mut editor = Editor::start(folder.path(), false);
    editor.open(&uri, text);
    let (line, column) = place(text, "rye flour .... 20 %", 0, 2);
    let hover: lsp::Hover = editor.ask("textDocument/hover", at(&uri, line, column));
    assert!(words(&hover).contains("250 g") && words(&hover).contains("stir (250 g)"), "{}", words(&hover));
    let all = json!({ "start": { "line": 0, "character": 0 }, "end": { "line": 9999, "character": 0 } });
    let hints: Vec<lsp::InlayHint> =
        editor.ask("textDocument/inlayHint", json!({ "textDocument": { "uri": uri }, "range": all }));
    let hint = hints.iter().find(|hint| hint.position.line == line).expect("a figure beside the flour");
    assert!(matches!(&hint.label, lsp::Label::String(label) if label == "250 g"), "{hint:?}");
}
