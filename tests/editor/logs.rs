//! A log of bakes in an editor: its problems while it is typed, what can be named in it, and what was measured beside what was meant.

use super::client::{Editor, at, place};
use super::{example, examples};
use gen_lsp_types as lsp;
use serde_json::json;

#[test]
fn a_log_is_completed_checked_and_has_its_losses_beside_it() {
    let folder = examples();
    let (_, uri, text) = example(&folder, "harbour-rolls-bakes.miche");
    let mut editor = Editor::start(folder.path(), false);
    let problems = editor.open(&uri, &text);
    assert!(problems.is_empty(), "{problems:?}");

    // 88.1 g of dough came to 74.8 g: 15.1 % lost, where the recipe says 13 %.
    let all = json!({ "start": { "line": 0, "character": 0 }, "end": { "line": 9999, "character": 0 } });
    let hints: Vec<lsp::InlayHint> =
        editor.ask("textDocument/inlayHint", json!({ "textDocument": { "uri": uri }, "range": all }));
    let (line, _) = place(&text, "came to 74.8 g each", 0, 0);
    let beside = hints.iter().find(|hint| hint.position.line == line).map(|hint| match &hint.label {
        lsp::Label::String(label) => label.clone(),
        other => panic!("{other:?}"),
    });
    assert!(beside.as_deref().is_some_and(|label| label.contains("lost 15.1 % (13 %)")), "{beside:?}");

    // Steps, ingredients and what was judged before are offered where a line begins.
    let begun = format!("{text}\nbake 2026-11-20 05:30, 50 rolls\npr");
    editor.change(&uri, 2, json!([{ "text": begun }]));
    editor.problems_of(&uri, 2);
    let line = u32::try_from(begun.lines().count() - 1).expect("small");
    let list: lsp::CompletionList = editor.ask("textDocument/completion", at(&uri, line, 2));
    assert!(list.items.iter().any(|item| item.label.starts_with("prove")), "{:?}", list.items);
    for (typed, wanted) in [("cr", "crumb"), ("wat", "water"), ("ver", "verdict"), ("ro", "room")] {
        let begun = format!("{text}\nbake 2026-11-20 05:30, 50 rolls\n{typed}");
        editor.change(&uri, 3, json!([{ "text": begun }]));
        let list: lsp::CompletionList =
            editor.ask("textDocument/completion", at(&uri, line, u32::try_from(typed.len()).expect("small")));
        assert!(list.items.iter().any(|item| item.label.starts_with(wanted)), "{typed}: {:?}", list.items);
    }

    // What is wrong is told while it is typed: no such step, an end before its beginning, a day that is still to come.
    let wrong = format!("{text}\nbake 2999-11-20 05:30, 50 rolls\nprov: 07:09-08:04\nrise: 06:30-05:30\n");
    editor.change(&uri, 4, json!([{ "text": wrong }]));
    let problems = editor.problems_of(&uri, 4);
    let codes: Vec<String> = problems
        .iter()
        .map(|problem| match &problem.code {
            Some(lsp::Code::String(code)) => code.clone(),
            other => panic!("{other:?}"),
        })
        .collect();
    assert!(codes.iter().any(|code| code == "unknown-step"), "{codes:?}");
    assert!(codes.iter().any(|code| code == "log-out-of-time"), "{codes:?}");
    let words = serde_json::to_string(&problems).expect("JSON");
    assert!(words.contains("2999-11-20 is still to come"), "{words}");
    assert_eq!(editor.end(), Some(0));
}
