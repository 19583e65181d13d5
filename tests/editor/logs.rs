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

/// What `check` says of a file: check and line.
fn checked(folder: &std::path::Path, file: &str) -> Vec<(String, u64)> {
    let output = std::process::Command::new(env!("CARGO_BIN_EXE_miche"))
        .args(["check", "--format", "json", file])
        .current_dir(folder)
        .output()
        .expect("it runs");
    let all: Vec<serde_json::Value> = serde_json::from_slice(&output.stdout).expect("JSON");
    let of = |problem: &serde_json::Value| {
        let is_here = problem["file"].as_str()? == file;
        is_here.then(|| (problem["check"].as_str().unwrap_or("").to_owned(), problem["line"].as_u64().unwrap_or(0)))
    };
    all.iter().filter_map(of).collect()
}

fn shown(problems: &[lsp::Diagnostic]) -> Vec<(String, u64)> {
    let code = |problem: &lsp::Diagnostic| match &problem.code {
        Some(lsp::Code::String(code)) => code.clone(),
        other => panic!("{other:?}"),
    };
    problems.iter().map(|problem| (code(problem), u64::from(problem.range.start.line) + 1)).collect()
}

fn git(folder: &std::path::Path, arguments: &[&str]) {
    let who = ["-c", "user.name=Mara", "-c", "user.email=mara@skerrow.example"];
    let run = std::process::Command::new("git").arg("-C").arg(folder).args(who).args(arguments).output();
    assert!(run.expect("git").status.success(), "{arguments:?}");
}

/// `check` and an editor say the same of a log in a repository: no such revision, a step that only the formula of the day had, and of the
/// recipe what its bakes say otherwise; from the text on the screen, and again once something was committed.
#[test]
fn an_editor_says_of_a_log_in_a_repository_what_check_says() {
    let folder = tempfile::tempdir().expect("a folder");
    let root = folder.path();
    let recipe = "recipe Rolls\nmakes 10 rolls\nstrong white flour .... 500 g\nwater .... 310 g\nsalt .... 10 g\ninstant yeast .... 5 g\n\
                  divide 10 x 81 g, loss 2 %\nmix: hands 12 min\n    Mix {strong white flour}, {water}, {salt} and {instant yeast}.\n    \
                  until smooth\nrise: wait 60 min, at 25 C\n    until doubled\nbake: tend 15 min, using oven at 220 C\n    until gold\n";
    std::fs::write(root.join("rolls.miche"), recipe.replace("rise:", "prove:")).expect("written");
    git(root, &["init", "-q"]);
    git(root, &["add", "rolls.miche"]);
    git(root, &["commit", "-q", "-m", "Rolls", "--date", "2026-03-01T05:00:00"]);
    std::fs::write(root.join("rolls.miche"), recipe).expect("written");
    git(root, &["commit", "-q", "-am", "A rise", "--date", "2026-03-03T05:00:00"]);
    let log = "bakes of \"rolls.miche\"\n\nbake 2026-03-02 05:30\nmix: 15 min\nprove: 60 min\n\nbake 2026-03-04 05:30\nmix: 15 min\n\n\
               bake 2026-03-05 05:30\nmix: 16 min\n";
    let broken = log.replace("2026-03-05 05:30", "2026-03-05 05:30, from 0000000");
    std::fs::write(root.join("rolls-bakes.miche"), &broken).expect("written");
    let of = |file: &str| super::client::uri(&root.join(file));
    let (log_uri, recipe_uri) = (of("rolls-bakes.miche"), of("rolls.miche"));
    let mut editor = Editor::start(root, false);

    let problems = editor.open(&log_uri, &broken);
    assert_eq!(shown(&problems), checked(root, "rolls-bakes.miche"), "as it is on the disk");
    assert_eq!(shown(&problems), [("unknown-revision".to_owned(), 10)]);

    // Mended on the screen alone: nothing is wrong with it, and `prove` was a step on its day.
    editor.change(&log_uri, 2, json!([{ "text": log }]));
    assert!(editor.problems_of(&log_uri, 2).is_empty());
    let of_recipe = editor.open(&recipe_uri, recipe);
    std::fs::write(root.join("rolls-bakes.miche"), log).expect("written");
    assert_eq!(shown(&of_recipe), checked(root, "rolls.miche"));
    assert_eq!(shown(&of_recipe), [("bakes-say-otherwise".to_owned(), 8)]);

    // What somebody writes instead is held against the bakes at once.
    let mended = recipe.replace("hands 12 min", "hands 15 min");
    editor.change(&recipe_uri, 2, json!([{ "text": mended }]));
    assert!(editor.problems_of(&recipe_uri, 2).is_empty());
    // Another commit: the third bake is of a formula without that step now.
    std::fs::write(root.join("rolls.miche"), recipe.replace("mix:", "knead:")).expect("written");
    git(root, &["commit", "-q", "-am", "Kneaded", "--date", "2026-03-04T12:00:00"]);
    editor.change(&log_uri, 3, json!([{ "text": format!("{log}note Kneaded.\n") }]));
    assert_eq!(shown(&editor.problems_of(&log_uri, 3)), [("unknown-step".to_owned(), 11)]);
    assert_eq!(editor.end(), Some(0));
}
