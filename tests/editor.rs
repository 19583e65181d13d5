//! The language server as an editor meets it: the program, started, spoken to over pipes.

// Helpers outside a test function fail a test by panicking, as the tests do.
#![allow(clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

#[path = "editor/client.rs"]
mod client;
#[path = "examples/copy.rs"]
mod copy;
#[path = "editor/logs.rs"]
mod logs;
#[path = "editor/names.rs"]
mod names;
#[path = "editor/options.rs"]
mod options;
#[path = "editor/spare.rs"]
mod spare;

use client::{Editor, at, place, uri, words};
use gen_lsp_types as lsp;
use miche::check::check_file;
use miche::edge::loader::Loader;
use serde_json::{Value, json};
use std::fs;
use std::path::{Path, PathBuf};

/// A copy of the examples.
fn examples() -> tempfile::TempDir {
    let folder = tempfile::tempdir().expect("a folder");
    copy::into(folder.path());
    folder
}

/// Path, URI and text of an example.
fn example(folder: &tempfile::TempDir, name: &str) -> (PathBuf, String, String) {
    let path = folder.path().join(name);
    let text = fs::read_to_string(&path).expect("readable");
    (path.clone(), uri(&path), text)
}

/// What `check` finds: check and line from 0.
fn checked(path: &Path, text: &str) -> Vec<(String, u32)> {
    let mut loader = Loader::new();
    let source = loader.take_text("text", text.to_owned(), path);
    let project = loader.into_project();
    let sources = &project.sources;
    let line = |offset| u32::try_from(sources.get(source).expect("there").position(offset).line - 1).expect("small");
    let mut found: Vec<(String, u32)> = check_file(&project, source)
        .iter()
        .map(|problem| (problem.check.to_owned(), line(problem.span.start)))
        .collect();
    found.sort();
    found
}

/// The same of what the server told.
fn told(problems: &[lsp::Diagnostic]) -> Vec<(String, u32)> {
    let mut found: Vec<(String, u32)> = problems
        .iter()
        .map(|problem| match &problem.code {
            Some(lsp::Code::String(name)) => (name.clone(), problem.range.start.line),
            other => panic!("no name of a check: {other:?}"),
        })
        .collect();
    found.sort();
    found
}

#[test]
fn problems_hover_completion_and_layout_of_an_unsaved_text() {
    let folder = examples();
    let (path, uri, text) = example(&folder, "rhubarb-crumb-buns.miche");
    let mut editor = Editor::start(folder.path(), false);
    assert_eq!(told(&editor.open(&uri, &text)), checked(&path, &text));

    let (line, column) = place(&text, "butter ....", 0, 2);
    let hover: lsp::Hover = editor.ask("textDocument/hover", at(&uri, line, column));
    // 14 % of 1.35 kg of flour.
    assert!(words(&hover).contains("189 g"), "{}", words(&hover));
    assert!(words(&hover).contains("14 % of the base"), "{}", words(&hover));
    assert!(words(&hover).contains("Source: "), "{}", words(&hover));
    assert!(words(&hover).contains("kcal in 100 g · EU: milk · US: milk"), "{}", words(&hover));

    // A mistake is told while it is typed, and its mend offered.
    let (line, column) = place(&text, "14 %", 0, 0);
    let range =
        json!({ "start": { "line": line, "character": column }, "end": { "line": line, "character": column + 2 } });
    editor.change(&uri, 2, json!([{ "range": range, "text": "1,4" }]));
    let problems = editor.problems_of(&uri, 2);
    let comma = problems.iter().find(|problem| problem.range.start.line == line).expect("a decimal comma is told");
    assert_eq!(comma.code, Some(lsp::Code::String("decimal-comma".to_owned())));
    let context = json!({ "textDocument": { "uri": uri }, "range": range, "context": { "diagnostics": [] } });
    let actions: Vec<lsp::CodeAction> = editor.ask("textDocument/codeAction", context);
    assert!(actions.iter().any(|action| action.is_preferred == Some(true)), "{actions:?}");

    // Completion in braces: what is listed in this part.
    editor.change(&uri, 3, json!([{ "text": text.replace("{caster sugar}", "{cas") }]));
    let typed = text.replace("{caster sugar}", "{cas");
    let (line, column) = place(&typed, "{cas", 0, 4);
    let list: lsp::CompletionList = editor.ask("textDocument/completion", at(&uri, line, column));
    assert_eq!(list.items.first().map(|item| item.label.as_str()), Some("caster sugar"));

    // Layout of the text as it stands.
    let untidy = text.replace("salt .......................... 1.8 %", "salt .. 1.8 %");
    editor.change(&uri, 4, json!([{ "text": untidy }]));
    let options = json!({ "textDocument": { "uri": uri }, "options": { "tabSize": 4, "insertSpaces": true } });
    let edits: Vec<lsp::TextEdit> = editor.ask("textDocument/formatting", options);
    assert_eq!(edits.len(), 1, "{edits:?}");
    assert_eq!(edits[0].new_text, "salt .......................... 1.8 %\n");
    assert_eq!(editor.end(), Some(0));
}

#[test]
fn an_empty_text_and_a_half_typed_one_are_answered() {
    let folder = examples();
    let uri = uri(&folder.path().join("new.miche"));
    let mut editor = Editor::start(folder.path(), false);
    editor.open(&uri, "");
    let list: lsp::CompletionList = editor.ask("textDocument/completion", at(&uri, 0, 0));
    assert!(list.items.iter().any(|item| item.label == "recipe"), "{list:?}");
    editor.change(&uri, 2, json!([{ "text": "recipe R\nbut" }]));
    let list: lsp::CompletionList = editor.ask("textDocument/completion", at(&uri, 1, 3));
    assert!(list.items.iter().any(|item| item.label == "butter"), "{list:?}");
    assert_eq!(editor.end(), Some(0));
}

#[test]
fn nobody_gets_an_answer_about_an_old_text() {
    let folder = examples();
    let (_, uri, text) = example(&folder, "quay-baguettes.miche");
    let mut editor = Editor::start(folder.path(), true);
    editor.open(&uri, &text);
    // All at once, so that the change waits behind the first request.
    let mut ids = Vec::new();
    for version in 2..40 {
        ids.push(editor.send_request("textDocument/documentSymbol", json!({ "textDocument": { "uri": uri } })));
        editor.change(&uri, version, json!([{ "text": format!("{text}# {version}\n") }]));
    }
    for id in &ids {
        match editor.answer(id) {
            Ok(_) => {}
            Err((code, _)) => assert_eq!(code, lsp_server::ErrorCode::ContentModified as i32),
        }
    }
    editor.problems_of(&uri, 39);
    assert_eq!(editor.end(), Some(0));
}

#[test]
fn the_editor_may_leave_without_a_word() {
    let folder = examples();
    let mut editor = Editor::start(folder.path(), false);
    let id = editor.send_request("textDocument/unheard-of", Value::Null);
    assert!(editor.answer(&id).is_err());
    drop(editor);
}

/// Where something is asked about, and what comes back as file name, line and column.
fn places(found: &[lsp::Location]) -> Vec<(String, u32, u32)> {
    let name = |uri: &lsp::Uri| uri.0.rsplit('/').next().unwrap_or("").to_owned();
    let mut places: Vec<(String, u32, u32)> =
        found.iter().map(|place| (name(&place.uri), place.range.start.line, place.range.start.character)).collect();
    places.sort();
    places
}

fn document(uri: &str) -> Value {
    json!({ "textDocument": { "uri": uri } })
}

#[test]
fn figures_stand_beside_amounts_and_the_clock_beside_steps() {
    let folder = examples();
    let (_, uri, text) = example(&folder, "rhubarb-crumb-buns.miche");
    let mut editor = Editor::start(folder.path(), false);
    editor.open(&uri, &text);
    let all = json!({ "start": { "line": 0, "character": 0 }, "end": { "line": 9999, "character": 0 } });
    let hints: Vec<lsp::InlayHint> =
        editor.ask("textDocument/inlayHint", json!({ "textDocument": { "uri": uri }, "range": all }));
    let beside = |words: &str| {
        let (line, _) = place(&text, words, 0, 0);
        hints.iter().find(|hint| hint.position.line == line).map(|hint| match &hint.label {
            lsp::Label::String(label) => label.clone(),
            other => panic!("{other:?}"),
        })
    };
    // Of 1.35 kg of flour: 48 % is 648 g, and the flour itself 100 %.
    assert_eq!(beside("whole milk ...").as_deref(), Some("648 g"));
    assert_eq!(beside("strong white flour ...").as_deref(), Some("100 %"));
    assert_eq!(beside("mix: hands 15 min").map(|clock| clock.contains(" – ")), Some(true));
    assert_eq!(editor.end(), Some(0));
}

#[test]
fn names_lead_to_their_definitions_over_files() {
    let folder = examples();
    let (_, uri, text) = example(&folder, "harbour-rolls.miche");
    let (_, _, mother) = example(&folder, "mother-dough.miche");
    let (_, _, larder) = example(&folder, "larder.miche");
    let (_, _, kitchen) = example(&folder, "bakehouse.miche");
    let mut editor = Editor::start(folder.path(), false);
    editor.open(&uri, &text);
    let mut go = |words: &str, nth: usize, skip: usize| -> Vec<(String, u32, u32)> {
        let (line, column) = place(&text, words, nth, skip);
        places(&editor.ask::<Vec<lsp::Location>>("textDocument/definition", at(&uri, line, column)))
    };
    let expected = |file: &str, text: &str, words: &str, skip: usize| {
        let (line, column) = place(text, words, 0, skip);
        vec![(file.to_owned(), line, column)]
    };
    // A part of another recipe, from its line and from braces.
    let part = expected("mother-dough.miche", &mother, "recipe Mother dough", 7);
    assert_eq!(go("mother dough ....", 0, 3), part);
    assert_eq!(go("{mother dough}", 0, 3), part);
    assert_eq!(go("butter ....", 0, 0), expected("larder.miche", &larder, "ingredient butter", 11));
    assert_eq!(go("using prover", 0, 8), expected("bakehouse.miche", &kitchen, "prover x 2", 0));
    assert_eq!(go("\"larder.miche\"", 0, 3), vec![("larder.miche".to_owned(), 0, 0)]);
    // What no larder of ours describes is defined by its line.
    assert_eq!(go("{water}", 0, 3), expected("harbour-rolls.miche", &text, "water ....", 0));
    let links: Vec<lsp::DocumentLink> = editor.ask("textDocument/documentLink", document(&uri));
    assert_eq!(links.len(), 3);
    assert!(links.iter().all(|link| link.target.as_ref().is_some_and(|target| target.0.ends_with(".miche"))));
    assert_eq!(editor.end(), Some(0));
}

#[test]
fn a_step_is_found_with_all_that_order_by_it() {
    let folder = examples();
    let (_, uri, text) = example(&folder, "harbour-croissants.miche");
    let mut editor = Editor::start(folder.path(), false);
    editor.open(&uri, &text);
    let (line, column) = place(&text, "during chill of dough", 0, 7);
    let ask = json!({
        "textDocument": { "uri": uri }, "position": { "line": line, "character": column },
        "context": { "includeDeclaration": true },
    });
    let found: Vec<lsp::Location> = editor.ask("textDocument/references", ask);
    let (head, _) = place(&text, "chill: wait", 0, 0);
    let name = "harbour-croissants.miche".to_owned();
    assert_eq!(places(&found), vec![(name.clone(), head, 0), (name, line, column)]);
    assert_eq!(editor.end(), Some(0));
}

/// Makes the changes of a rename on the files of a folder.
fn apply(edit: &lsp::WorkspaceEdit) {
    for change in edit.document_changes.as_ref().expect("with versions") {
        let lsp::DocumentChange::TextDocumentEdit(change) = change else { panic!("{change:?}") };
        let uri = &change.text_document.text_document_identifier.uri.0;
        let path = uri.strip_prefix("file://").expect("a file");
        let mut text = fs::read_to_string(path).expect("readable");
        let mut edits: Vec<&lsp::TextEdit> = change
            .edits
            .iter()
            .map(|edit| match edit {
                lsp::Edit::TextEdit(edit) => edit,
                other => panic!("{other:?}"),
            })
            .collect();
        edits.sort_by_key(|edit| std::cmp::Reverse((edit.range.start.line, edit.range.start.character)));
        for edit in edits {
            let offset = |position: &lsp::Position| {
                let line: usize = text.split_inclusive('\n').take(position.line as usize).map(str::len).sum();
                let mut units = 0;
                let rest = text[line..].char_indices().find(|(_, c)| {
                    let here = units == position.character as usize;
                    units += c.len_utf16();
                    here
                });
                line + rest.map_or(text.len() - line, |(at, _)| at)
            };
            let (start, end) = (offset(&edit.range.start), offset(&edit.range.end));
            text.replace_range(start..end, &edit.new_text);
        }
        fs::write(path, text).expect("written");
    }
}

/// Everything that `check` finds in a folder, without places.
fn checks(folder: &Path) -> Vec<String> {
    let output = std::process::Command::new(env!("CARGO_BIN_EXE_miche"))
        .args(["check", "--format", "json"])
        .arg(folder)
        .output()
        .expect("the program starts");
    let found: Vec<Value> = serde_json::from_slice(&output.stdout).expect("JSON");
    let mut found: Vec<String> =
        found.iter().map(|problem| problem["check"].as_str().unwrap_or("").to_owned()).collect();
    found.sort();
    found
}

#[test]
fn a_new_name_goes_everywhere_and_nothing_is_wrong_afterwards() {
    // File, words, how far into them, the new name, and in how many files something changes.
    let renames = [
        ("mother-dough.miche", "recipe Mother dough", 8, "Old 🥖 dough", 3),
        // Of butter the program knows more than the example's larder: another name of it would be known less well.
        ("larder.miche", "ingredient island brown meal", 12, "isle meal", 2),
        ("rhubarb-crumb-buns.miche", "part dough", 6, "bun dough", 1),
        ("harbour-croissants.miche", "chill: wait", 1, "cold rest", 1),
        ("rhubarb-crumb-buns.miche", "machine or hand", 1, "mixer", 1),
        ("bakehouse.miche", "prover x 2", 2, "warm cupboard", 3),
        ("harbour-levain-loaf.miche", "part seed", 6, "mother seed", 1),
    ];
    for (file, wanted, skip, name, files) in renames {
        let folder = examples();
        let before = checks(folder.path());
        let (_, uri, text) = example(&folder, file);
        let mut editor = Editor::start(folder.path(), false);
        editor.open(&uri, &text);
        let (line, column) = place(&text, wanted, 0, skip);
        let range: Option<lsp::Range> = editor.ask("textDocument/prepareRename", at(&uri, line, column));
        assert!(range.is_some(), "{wanted} can be renamed");
        let mut ask = at(&uri, line, column);
        ask["newName"] = json!(name);
        let edit: lsp::WorkspaceEdit = editor.ask("textDocument/rename", ask);
        let touched = edit.document_changes.as_ref().map_or(0, Vec::len);
        assert!(touched >= files, "{wanted}: {touched} files");
        apply(&edit);
        assert_eq!(checks(folder.path()), before, "after {wanted} became {name}");
        assert_eq!(editor.end(), Some(0));
    }
}

#[test]
fn a_larder_name_is_renamed_with_its_plurals() {
    let folder = examples();
    let larder = folder.path().join("orchard.miche");
    std::fs::write(&larder, "ingredient skerrow plum\n    1 piece = 60 g\n").expect("written");
    let jam = folder.path().join("stewed.miche");
    let words = "recipe Stewed\nuse \"orchard.miche\"\n\nskerrow plums .... 300 g\n\nstew: hands 5 min\n    Stew {skerrow plums}.\n";
    std::fs::write(&jam, words).expect("written");
    let (_, uri, text) = example(&folder, "orchard.miche");
    let mut editor = Editor::start(folder.path(), false);
    editor.open(&uri, &text);
    let (line, column) = place(&text, "skerrow plum", 0, 2);
    let mut ask = at(&uri, line, column);
    ask["newName"] = json!("skerrow damson");
    let edit: lsp::WorkspaceEdit = editor.ask("textDocument/rename", ask);
    apply(&edit);
    assert_eq!(std::fs::read_to_string(&jam).expect("there"), words.replace("plum", "damson"));
    assert_eq!(editor.end(), Some(0));
}

#[test]
fn a_name_that_would_read_as_something_else_is_refused() {
    let folder = examples();
    let (_, uri, text) = example(&folder, "rhubarb-crumb-buns.miche");
    let mut editor = Editor::start(folder.path(), false);
    editor.open(&uri, &text);
    let (line, column) = place(&text, "ground cardamom ....", 0, 2);
    for name in ["", "salt", "note of spice", "a, b", "so .. dotted", "{braced}"] {
        let mut ask = at(&uri, line, column);
        ask["newName"] = json!(name);
        let id = editor.send_request("textDocument/rename", ask);
        assert!(editor.answer(&id).is_err(), "`{name}` is taken");
    }
    assert_eq!(editor.end(), Some(0));
}

#[test]
fn outline_folds_lenses_and_colours_follow_the_text() {
    let folder = examples();
    let (_, uri, text) = example(&folder, "harbour-levain-loaf.miche");
    let mut editor = Editor::start(folder.path(), false);
    editor.open(&uri, &text);
    let outline: Vec<lsp::DocumentSymbol> = editor.ask("textDocument/documentSymbol", document(&uri));
    let names: Vec<&str> = outline.iter().map(|entry| entry.name.as_str()).collect();
    assert_eq!(names, ["Harbour levain loaf", "seed", "levain", "dough"]);
    let inside: Vec<&str> = outline[1].children.iter().flatten().map(|entry| entry.name.as_str()).collect();
    assert_eq!(inside, ["ripe starter", "water", "island brown meal", "feed", "ripen"]);

    let folds: Vec<lsp::FoldingRange> = editor.ask("textDocument/foldingRange", document(&uri));
    let (part, _) = place(&text, "part seed", 0, 0);
    let (last, _) = place(&text, "until domed", 0, 0);
    assert!(folds.iter().any(|fold| (fold.start_line, fold.end_line) == (part, last)), "{folds:?}");

    let lenses: Vec<lsp::CodeLens> = editor.ask("textDocument/codeLens", document(&uri));
    let titles: Vec<String> = lenses.iter().filter_map(|lens| lens.command.clone()).map(|told| told.title).collect();
    assert_eq!(titles.len(), 3);
    assert!(titles[2].contains("12 pieces of 940 g") && titles[2].contains("hydration"), "{titles:?}");

    let tokens: lsp::SemanticTokens = editor.ask("textDocument/semanticTokens/full", document(&uri));
    let lines: Vec<Vec<u16>> = text.split('\n').map(|line| line.encode_utf16().collect()).collect();
    let (mut line, mut column, mut end) = (0_usize, 0_usize, 0_usize);
    let mut coloured = Vec::new();
    for token in &tokens.data {
        if token.delta_line > 0 {
            (line, column, end) = (line + token.delta_line as usize, 0, 0);
        }
        column += token.delta_start as usize;
        assert!(column >= end, "two colours on line {line}");
        end = column + token.length as usize;
        let words = String::from_utf16(&lines[line][column..end]).expect("whole letters");
        coloured.push((words, token.token_type));
    }
    for (words, kind) in
        [("seed", 1), ("feed", 2), ("island brown meal", 8), ("hands", 0), ("overnight", 4), ("5.2", 5)]
    {
        assert!(coloured.iter().any(|(found, token)| found == words && *token == kind), "{words} is no {kind}");
    }
    assert_eq!(editor.end(), Some(0));
}

#[test]
fn other_files_of_the_folder_are_told_of_when_what_they_use_breaks() {
    let folder = examples();
    let (path, mother_uri, mother) = example(&folder, "mother-dough.miche");
    let rolls = uri(&folder.path().join("harbour-rolls.miche"));
    let mut editor = Editor::start(folder.path(), false);
    editor.open(&mother_uri, &mother);
    editor.change(&mother_uri, 2, json!([{ "text": mother.replace("65 %", "65 gramms") }]));
    editor.wait_for(&rolls, |problems| told(problems).iter().any(|(check, _)| check == "broken-use"));
    editor.change(&mother_uri, 3, json!([{ "text": mother }]));
    editor.wait_for(&rolls, |problems| !told(problems).iter().any(|(check, _)| check == "broken-use"));
    // Nothing was written.
    assert_eq!(fs::read_to_string(path).expect("readable"), mother);
    assert_eq!(editor.end(), Some(0));
}

#[test]
fn what_was_told_of_a_text_that_is_closed_unsaved_is_taken_back() {
    let folder = examples();
    let (_, saved, text) = example(&folder, "mother-dough.miche");
    let unsaved = "untitled:Untitled-1".to_owned();
    let mut editor = Editor::start(folder.path(), false);
    for uri in [saved, unsaved] {
        let wrong = text.replace("65 %", "65 gramms");
        assert!(told(&editor.open(&uri, &wrong)).iter().any(|(check, _)| check == "unknown-unit"), "{uri}");
        editor.tell("textDocument/didClose", document(&uri));
        editor.wait_for(&uri, |problems| !told(problems).iter().any(|(check, _)| check == "unknown-unit"));
    }
    assert_eq!(editor.end(), Some(0));
}

#[test]
fn some_lines_are_brought_into_the_layout_and_the_others_left() {
    let folder = examples();
    let (_, uri, text) = example(&folder, "harbour-rolls.miche");
    let untidy = text
        .replace("salt .......................... 2 %", "salt .. 2 %")
        .replace("butter ........................ 4 %", "butter .. 4 %");
    let mut editor = Editor::start(folder.path(), false);
    editor.open(&uri, &untidy);
    let (line, _) = place(&untidy, "salt ..", 0, 0);
    let range = json!({ "start": { "line": line, "character": 0 }, "end": { "line": line + 1, "character": 0 } });
    let options = json!({ "tabSize": 4, "insertSpaces": true });
    let ask = json!({ "textDocument": { "uri": uri }, "range": range, "options": options });
    let edits: Vec<lsp::TextEdit> = editor.ask("textDocument/rangeFormatting", ask);
    assert_eq!(edits.len(), 1, "{edits:?}");
    assert_eq!(edits[0].new_text, "salt .......................... 2 %\n");
    assert_eq!(editor.end(), Some(0));
}

#[test]
fn a_recipe_typed_letter_by_letter_ends_where_check_does() {
    let folder = examples();
    let (path, uri, text) = example(&folder, "milk-honey-tin-loaf.miche");
    let mut editor = Editor::start(folder.path(), false);
    editor.open(&uri, "");
    let mut version = 1;
    let (mut line, mut column) = (0_u32, 0_u32);
    for letter in text.chars() {
        version += 1;
        let here = json!({ "line": line, "character": column });
        editor.change(&uri, version, json!([{ "range": { "start": here, "end": here }, "text": letter.to_string() }]));
        if letter == '\n' {
            (line, column) = (line + 1, 0);
        } else {
            column += u32::try_from(letter.len_utf16()).expect("small");
        }
        if version % 50 == 0 {
            let _: Option<lsp::CompletionList> = editor.ask("textDocument/completion", at(&uri, line, column));
        }
    }
    assert_eq!(told(&editor.problems_of(&uri, version)), checked(&path, &text));
    assert_eq!(editor.end(), Some(0));
}

#[test]
fn a_problem_under_one_option_says_so_beside_the_text() {
    let folder = examples();
    let mut editor = Editor::start(folder.path(), false);
    let (_, uri, _) = example(&folder, "rhubarb-crumb-buns.miche");
    let text = "recipe Mole rolls\nchoose kneading: by hand or machine\nstrong white flour .... 1 kg\nwater .... 600 g\nlard .... 40 g\n\
                mix: hands 12 min [by hand]\n    Knead {strong white flour} and {water}.\n    until smooth\n\
                mix: hands 9 min [machine]\n    Mix {strong white flour}, {water} and {lard}.\n    until smooth\n";
    let words: Vec<String> =
        editor.open(&uri, text).iter().map(|problem| serde_json::to_string(&problem.message).expect("text")).collect();
    assert_eq!(editor.end(), Some(0));
    assert!(words.iter().any(|words| words.contains("lard") && words.contains("(with by hand)")), "{words:?}");
}
