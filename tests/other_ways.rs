//! Another way of a recipe on a reader's page: what it brings that the way in full has not, above all what can hurt somebody. Who must not
//! eat hazelnuts reads the box of allergens (Regulation (EU) No 1169/2011, article 9(1)(c)), and the way that brings them stands below it.

#![allow(clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use serde_json::Value;
use std::fs;
use std::path::Path;
use std::process::Command;

const FINGERS: &str = "recipe Plain or nutty fingers\nmakes 24 fingers\nchoose kind: plain or nutty\ncaution Nuts: ask who eats it. [nutty]\n\
                       note Toast the nuts the day before. [nutty]\nplain flour .... 300 g\nbutter .... 200 g, cold\ncaster sugar .... 100 g\nsalt .... 3 g\n\
                       hazelnuts .... 80 g, chopped [nutty]\nrub: hands 8 min [plain]\n    Rub {butter} into {plain flour}, {caster sugar} and {salt}.\n    until \
                       like crumbs\nrub: hands 8 min [nutty]\n    Rub {butter} into {plain flour}, {caster sugar} and {salt}; add {hazelnuts}.\n    until like \
                       crumbs\nbake: tend 30 min, using oven at 160 C\n    until pale gold\n";

fn run(folder: &Path, arguments: &[&str]) -> String {
    let output =
        Command::new(env!("CARGO_BIN_EXE_miche")).current_dir(folder).args(arguments).output().expect("it runs");
    assert!(output.status.success(), "{arguments:?}: {}", String::from_utf8_lossy(&output.stderr));
    String::from_utf8(output.stdout).expect("UTF-8")
}

fn folder() -> tempfile::TempDir {
    let folder = tempfile::tempdir().expect("a folder");
    fs::write(folder.path().join("fingers.miche"), FINGERS).expect("a file");
    fs::write(folder.path().join("book.miche"), "book Fingers\npage \"fingers.miche\"\n").expect("a file");
    folder
}

#[test]
fn its_allergens_cautions_and_notes_stand_with_it() {
    let folder = folder();
    for format in ["text", "html", "json", "markdown"] {
        let page = run(folder.path(), &["card", "fingers.miche", "--for", "reader", "--format", format]);
        let lower = page.to_lowercase();
        assert!(lower.contains("hazelnut") && lower.contains("tree nuts"), "{format}: {page}");
        assert!(page.contains("ask who eats it") && page.contains("Toast the nuts"), "{format}: {page}");
    }
    let page: Value =
        serde_json::from_str(&run(folder.path(), &["card", "fingers.miche", "--for", "reader", "--format", "json"]))
            .expect("JSON");
    let other = &page["other_ways"][0];
    assert_eq!(other["option"], "nutty");
    let brought: Vec<&str> = other["allergens"].as_array().expect("a list").iter().filter_map(Value::as_str).collect();
    assert!(!brought.contains(&"milk") && brought.iter().any(|name| name.contains("nut")), "{brought:?}");
    // The way in full has them not.
    assert!(!page["allergens"].to_string().contains("nut"), "{}", page["allergens"]);
    // And where it is the one in full, the other brings nothing.
    let nutty =
        run(folder.path(), &["card", "fingers.miche", "--for", "reader", "--choose", "nutty", "--format", "text"]);
    assert!(!nutty.contains("This way contains too"), "{nutty}");
}

/// Who looks through a book for what they may eat must not find a recipe that has a way with nuts.
#[test]
fn a_book_counts_every_way() {
    let folder = folder();
    run(folder.path(), &["book", "book.miche", "-o", "site"]);
    let names = walk(&folder.path().join("site"));
    assert!(names.iter().any(|name| name.contains("allergens") && name.contains("nut")), "{names:?}");
}

fn walk(folder: &Path) -> Vec<String> {
    let mut all = Vec::new();
    for entry in fs::read_dir(folder).expect("a folder") {
        let path = entry.expect("an entry").path();
        match path.is_dir() {
            true => all.extend(walk(&path)),
            false => all.push(path.display().to_string()),
        }
    }
    all
}

/// A part that weighs otherwise by another option says so.
#[test]
fn a_weight_that_differs_stands_there() {
    let folder = tempfile::tempdir().expect("a folder");
    let text = "recipe Buns\nmakes 16 buns\nchoose flour: white or brown\npart dough\nstrong white flour .... 1 kg [white]\nwholemeal flour .... 1 kg [brown]\n\
                water .... 600 g\nsalt .... 18 g\ninstant yeast .... 10 g\nmakes 1600 g, loss 1.7 %\nmix: hands 10 min [white]\n    Mix {strong white flour}, {water}, {salt} and \
                {instant yeast}.\n    until smooth\nmix: hands 10 min [brown]\n    Mix {wholemeal flour}, {water}, {salt} and {instant yeast}.\n    until smooth\n\
                part buns\ndough .... 1584 g [white]\ndough .... 1600 g [brown]\ndivide 16 x 99 g [white]\ndivide 16 x 100 g [brown]\nshape: hands 30 s, each\n    \
                Shape {dough}.\nbake: tend 15 min, using oven at 220 C\n    until gold\n";
    fs::write(folder.path().join("buns.miche"), text).expect("a file");
    let page = run(folder.path(), &["card", "buns.miche", "--for", "reader", "--format", "text"]);
    let (_, other) = page.split_once("Otherwise: brown").unwrap_or_else(|| panic!("{page}"));
    assert!(other.contains("1600 g dough"), "{page}");
}

/// Eight waffles in one iron, five minutes each, are forty minutes after five of mixing; both commands say so.
#[test]
fn a_home_kitchen_has_one_of_what_is_worked_with() {
    let folder = tempfile::tempdir().expect("a folder");
    let text = "recipe Waffles\nmakes 8 waffles\nplain flour .... 300 g\nmilk .... 400 g\negg .... 2\nmix: hands 5 min\n    Whisk {plain flour}, {milk} and \
                {egg}.\n    until smooth\nrest: wait 20 min, using fridge\nbake: tend 5 min, using waffle iron, 1 at a time\n    until crisp and brown\n";
    fs::write(folder.path().join("waffles.miche"), text).expect("a file");
    let page: Value =
        serde_json::from_str(&run(folder.path(), &["card", "waffles.miche", "--for", "reader", "--format", "json"]))
            .expect("JSON");
    assert_eq!(page["total_minutes"], 65, "{page}");
    let plan: Value =
        serde_json::from_str(&run(folder.path(), &["plan", "waffles.miche", "--format", "json"])).expect("JSON");
    assert_eq!(plan["span_minutes"], 65, "{plan}");
}
