//! What the editor shows of options that are not the default, and what it offers for every problem.

use super::client::{Editor, at, place, uri, words};
use super::examples;
use gen_lsp_types as lsp;
use serde_json::json;
use std::fs;

/// Lines and steps that the default leaves out have the figures of their option; every problem can be allowed; two amounts that disagree have
/// a mend.
#[test]
fn other_options_have_their_own_figures_and_every_problem_can_be_allowed() {
    let folder = examples();
    let text = "recipe Buns\nmakes 20 buns\nchoose rest: warm or cold overnight\n\nstrong white flour .... 1 kg\nwater .... 520 g\n\
                butter .... 100 g = 4.5 oz\nsalt .... 2 %\ninstant yeast .... 1.2 %    [warm]\ninstant yeast .... 0.6 %    [cold overnight]\n\n\
                mix: hands 12 min\n    Mix {strong white flour}, {water}, {butter}, {salt} and {instant yeast}.\n\
                rise: wait 70 min, at 26 C    [warm]\n    until doubled\nrise: wait 11 h, at 5 C, up to 16 h    [cold overnight]\n    until doubled\n\
                bake: tend 15 min, using oven at 210 C\n    until gold\n";
    let path = folder.path().join("buns-of-two-ways.miche");
    fs::write(&path, text).expect("written");
    let uri = uri(&path);
    let mut editor = Editor::start(folder.path(), false);
    let problems = editor.open(&uri, text);
    let all = json!({ "start": { "line": 0, "character": 0 }, "end": { "line": 9999, "character": 0 } });
    let hints: Vec<lsp::InlayHint> =
        editor.ask("textDocument/inlayHint", json!({ "textDocument": { "uri": uri }, "range": all }));
    let beside = |words: &str| {
        let (line, _) = place(text, words, 0, 0);
        hints.iter().find(|hint| hint.position.line == line).map(|hint| match &hint.label {
            lsp::Label::String(label) => label.clone(),
            other => panic!("{other:?}"),
        })
    };
    assert_eq!(beside("instant yeast .... 1.2").as_deref(), Some("12 g"));
    assert_eq!(beside("instant yeast .... 0.6").as_deref(), Some("6 g"));
    // The mix takes 12 min; the long rise begins when it ends.
    assert_eq!(beside("rise: wait 11 h").as_deref(), Some("0:12 – 11:12"));
    let (line, column) = place(text, "instant yeast .... 0.6", 0, 2);
    let hover: lsp::Hover = editor.ask("textDocument/hover", at(&uri, line, column));
    assert!(words(&hover).contains("6 g") && words(&hover).contains("with cold overnight"), "{}", words(&hover));

    let of = |problem: &lsp::Diagnostic| match &problem.code {
        Some(lsp::Code::String(code)) => code.clone(),
        _ => String::new(),
    };
    assert!(problems.iter().any(|problem| of(problem) == "two-amounts-disagree"), "{problems:?}");
    for problem in &problems {
        let context =
            json!({ "textDocument": { "uri": uri }, "range": problem.range, "context": { "diagnostics": [] } });
        let actions: Vec<lsp::CodeAction> = editor.ask("textDocument/codeAction", context);
        let allow = format!("# allow {}: \n", of(problem));
        let edits = |action: &lsp::CodeAction| serde_json::to_string(&action.edit).expect("JSON");
        let quoted = serde_json::to_string(&allow).expect("JSON");
        assert!(actions.iter().any(|action| edits(action).contains(&quoted)), "{allow} is not in {actions:?}");
        if of(problem) == "two-amounts-disagree" {
            // 100 g are 3.527 oz.
            assert!(actions.iter().any(|action| edits(action).contains("3.53 oz")), "{actions:?}");
            // And 4.5 oz are 127.57 g.
            assert!(actions.iter().any(|action| edits(action).contains("\"128 g\"")), "{actions:?}");
        }
    }
    assert_eq!(editor.end(), Some(0));
}
