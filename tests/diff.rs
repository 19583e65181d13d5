//! `miche diff` from the outside: nothing changed is said to be nothing, and one edit is said to be that edit.

// Helpers outside a test function fail a test by panicking, as the tests do.
#![allow(clippy::expect_used, clippy::panic)]

use serde_json::Value;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Output};

const LOAF: &str = "recipe Skerrow tin loaf\nmakes 2 loaves, tin 23 cm x 13 cm x 7 cm, bake loss 11 %\n\n\
wheat flour ................... 1000 g\nwater ......................... 65 %\nsalt .......................... 2 %\n\
fresh yeast ................... 1.5 %\ndivide 2 x 842 g\n\nmix: hands 10 min\n    Mix {wheat flour}, {water}, {salt} and \
{fresh yeast}.\nrise: wait 60 min, at 24 C\n    until doubled\nbake: tend 40 min, using oven at 220 C\n    until brown\n";

fn miche(arguments: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_miche")).args(arguments).output().expect("it runs")
}

fn printed(old: &str, new: &str, format: &str) -> String {
    let folder = tempfile::tempdir().expect("a folder");
    let (a, b) = (folder.path().join("old.miche"), folder.path().join("new.miche"));
    fs::write(&a, old).expect("written");
    fs::write(&b, new).expect("written");
    let shown = |path: &Path| path.display().to_string();
    let output = miche(&["diff", &shown(&a), &shown(&b), "--format", format]);
    assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
    String::from_utf8(output.stdout).expect("UTF-8")
}

fn diff(old: &str, new: &str) -> Value {
    serde_json::from_str(&printed(old, new, "json")).expect("JSON")
}

/// `LOAF` with one piece of text replaced, which has to be there.
fn edited(from: &str, to: &str) -> String {
    assert!(LOAF.contains(from), "{from}");
    LOAF.replacen(from, to, 1)
}

fn formulas() -> Vec<PathBuf> {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let mut all = Vec::new();
    for folder in ["examples", "tests/right"] {
        for entry in fs::read_dir(root.join(folder)).expect("a folder") {
            let path = entry.expect("an entry").path();
            if path.extension().is_some_and(|ending| ending == "miche") {
                all.push(path);
            }
        }
    }
    all
}

#[test]
fn no_file_differs_from_itself() {
    let all = formulas();
    assert!(all.len() > 30, "{}", all.len());
    for path in all {
        let shown = path.display().to_string();
        let output = miche(&["diff", &shown, &shown, "--exit-code"]);
        assert_eq!(output.status.code(), Some(0), "{shown}: {}", String::from_utf8_lossy(&output.stdout));
    }
}

#[test]
fn exit_codes_tell_no_change_change_and_trouble() {
    let folder = tempfile::tempdir().expect("a folder");
    let (a, b) = (folder.path().join("a.miche"), folder.path().join("b.miche"));
    fs::write(&a, LOAF).expect("written");
    fs::write(&b, edited("65 %", "70 %")).expect("written");
    let (a, b) = (a.display().to_string(), b.display().to_string());
    assert_eq!(miche(&["diff", &a, &a, "--exit-code"]).status.code(), Some(0));
    assert_eq!(miche(&["diff", &a, &b, "--exit-code"]).status.code(), Some(1));
    assert_eq!(miche(&["diff", &a, &b]).status.code(), Some(0));
    let none = folder.path().join("none.miche").display().to_string();
    let other = folder.path().join("nor.miche").display().to_string();
    assert_eq!(miche(&["diff", &none, &other, "--exit-code"]).status.code(), Some(2));
}

#[test]
fn layout_and_comments_change_no_meaning() {
    let text = format!("# A word on it.\n{}", edited("salt ..........................", "salt ...."));
    let changes = diff(LOAF, &text);
    assert_eq!((&changes["changed"], &changes["text_changed"]), (&Value::Bool(false), &Value::Bool(true)));
    assert!(printed(LOAF, &text, "markdown").contains("The text changed, the recipe did not."));
}

/// The lines of the only part that changed: ingredient and what happened.
fn lines(changes: &Value) -> Vec<(String, String)> {
    facts(changes, "lines", "ingredient")
}

fn facts(changes: &Value, list: &str, name: &str) -> Vec<(String, String)> {
    let parts = changes["parts"].as_array().expect("parts");
    let all = parts.iter().flat_map(|part| part[list].as_array().expect("a list"));
    let text = |one: &Value, key: &str| one[key].as_str().expect("words").to_owned();
    all.map(|one| (text(one, name), text(one, "change"))).collect()
}

#[test]
fn one_edit_of_a_line_is_named_as_that_line() {
    for (from, to, name, change) in [
        ("65 %", "70 %", "water", "changed"),
        ("1.5 %", "3 %", "fresh yeast", "changed"),
        ("divide", "sunflower seeds ............... 50 g\ndivide", "sunflower seeds", "added"),
    ] {
        let changes = diff(LOAF, &edited(from, to));
        assert_eq!(lines(&changes), [(name.to_owned(), change.to_owned())], "{to}: {changes:#}");
    }
}

#[test]
fn one_edit_of_a_step_is_named_as_that_step() {
    for (from, to, name, change) in [
        ("wait 60 min", "wait 75 min", "rise", "changed"),
        ("220 C", "230 C", "bake", "changed"),
        ("at 24 C", "at 26 C", "rise", "changed"),
        ("until doubled", "until half as high again", "rise", "changed"),
        ("rise: wait 60 min, at 24 C\n    until doubled\n", "", "rise", "removed"),
        ("bake:", "rest: wait 20 min\nbake:", "rest", "added"),
    ] {
        let changes = diff(LOAF, &edited(from, to));
        assert_eq!(facts(&changes, "steps", "step"), [(name.to_owned(), change.to_owned())], "{to}: {changes:#}");
        assert_eq!(lines(&changes), [], "{to}: {changes:#}");
    }
}

#[test]
fn the_other_way_round_the_sides_are_exchanged() {
    let new = edited("65 %", "70 %").replace("wait 60 min", "wait 75 min").replace("salt ", "sea salt ");
    let (there, back) = (diff(LOAF, &new), diff(&new, LOAF));
    let figures = |changes: &Value, a: &str, b: &str| -> Vec<(Value, Value, Value)> {
        let all = changes["parts"][0]["figures"].as_array().expect("figures");
        all.iter().map(|one| (one["figure"].clone(), one[a].clone(), one[b].clone())).collect()
    };
    assert!(!figures(&there, "old", "new").is_empty());
    assert_eq!(figures(&there, "old", "new"), figures(&back, "new", "old"));
    assert_eq!(there["allergens"]["gained"], back["allergens"]["lost"]);
    assert_eq!(there["problems"]["raised"], back["problems"]["cleared"]);
    assert_eq!(there["problems"]["cleared"], back["problems"]["raised"]);
}

#[test]
fn tin_and_bake_loss_are_compared() {
    let head = |to: &str, from: &str| diff(LOAF, &edited(from, to))["head"].clone();
    let tin = head("x 8 cm", "x 7 cm");
    assert_eq!((tin[0]["figure"].as_str(), tin.as_array().map(Vec::len)), (Some("tin"), Some(1)), "{tin:#}");
    let loss = head("bake loss 12 %", "bake loss 11 %");
    assert_eq!(loss[0]["figure"], "bake loss", "{loss:#}");
    assert_eq!((&loss[0]["old_shown"], &loss[0]["new_shown"]), (&"11 %".into(), &"12 %".into()));
}

#[test]
fn an_option_that_only_the_old_version_had_is_compared() {
    let with = |options: &str, salt: &str| {
        let head = format!("choose crust: {options}\n\nwheat");
        edited("\nwheat", &head).replace("divide", &format!("{salt}divide"))
    };
    let seeded = "sesame seeds .................. 50 g                 [seeded]\n";
    let rye = "rye flakes .................... 40 g                 [flaked]\n";
    let old = with("plain or seeded or flaked", &format!("{seeded}{rye}"));
    let changes = diff(&old, &with("plain or seeded", seeded));
    assert!(lines(&changes).contains(&("rye flakes".to_owned(), "removed".to_owned())), "{changes:#}");
}

#[test]
fn an_allergen_gained_or_lost_is_said_in_every_format() {
    let with = edited("divide", "sesame seeds .................. 50 g\ndivide");
    for format in ["text", "markdown", "html"] {
        assert!(printed(LOAF, &with, format).to_lowercase().contains("sesame"), "{format}");
        let (gained, lost) = (printed(LOAF, &with, format), printed(&with, LOAF, format));
        assert!(gained.to_lowercase().contains("allergen gained"), "{format}: {gained}");
        assert!(lost.to_lowercase().contains("allergen no longer in it"), "{format}: {lost}");
    }
    assert_eq!(diff(LOAF, &with)["allergens"]["gained"].as_array().map(Vec::len), Some(1));
}
