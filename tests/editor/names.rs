//! New names that would mean something else between braces.

use super::client::{Editor, at, place, uri};
use super::{example, examples};
use serde_json::json;

/// `{half of water}` is half of the water, `{84 g}` a measure: as a name neither is found again where a step takes it.
#[test]
fn a_name_that_would_mean_something_else_in_braces_is_refused() {
    let folder = examples();
    let (_, uri, text) = example(&folder, "harbour-rolls.miche");
    let mut editor = Editor::start(folder.path(), false);
    editor.open(&uri, &text);
    let (line, column) = place(&text, "salt ..", 0, 1);
    let mut ask = at(&uri, line, column);
    for name in ["half of water", "rest of water", "1/3 of water", "2 of egg", "84 g", "3", "20 %"] {
        ask["newName"] = json!(name);
        let id = editor.send_request("textDocument/rename", ask.clone());
        let refused = editor.answer(&id).expect_err(name).1;
        assert!(refused.contains("would read as something else"), "{name}: {refused}");
    }
    ask["newName"] = json!("skerrow salt");
    assert!(editor.ask::<serde_json::Value>("textDocument/rename", ask)["documentChanges"].is_array());
    assert_eq!(editor.end(), Some(0));
}

/// A book shows a recipe as it is, so that an option of the recipe has its new name there too.
#[test]
fn an_option_is_renamed_in_the_pages_of_a_book() {
    let folder = examples();
    let text = "recipe Buns\nchoose way: plain or jammy\nflour .... 500 g\nwater .... 300 g\njam .... 50 g    [jammy]\nmix: hands 10 min\n    \
                Mix {flour} and {water}.\n    until smooth\n";
    let (recipe, book) = (folder.path().join("buns-for-a-book.miche"), folder.path().join("small-book.miche"));
    std::fs::write(&recipe, text).expect("written");
    std::fs::write(&book, "book Buns\npage \"buns-for-a-book.miche\", choose jammy\n").expect("written");
    let uri = uri(&recipe);
    let mut editor = Editor::start(folder.path(), false);
    editor.open(&uri, text);
    let (line, column) = place(text, "or jammy", 0, 4);
    let mut ask = at(&uri, line, column);
    ask["newName"] = json!("filled");
    let edits = editor.ask::<serde_json::Value>("textDocument/rename", ask).to_string();
    assert!(edits.contains("small-book.miche") && edits.contains("buns-for-a-book.miche"), "{edits}");
    assert_eq!(editor.end(), Some(0));
}
