//! What a recipe draws of another file belongs to its formula: what changes there is told of who draws on it, and nothing else is.

use super::miche;
use serde_json::Value;
use std::fs;
use std::path::Path;

const BRAID: &str = "recipe Braid\nmakes 4 braids\n\npart dough\nwheat flour ................... 1000 g\nwhole milk .................... 500 g\n\
salt .......................... 1.8 %\nfresh yeast ................... 3 %\n\nmix: hands 10 min\n    Mix {wheat flour}, {whole milk}, {salt} and \
{fresh yeast}.\nrise: wait 60 min, at 24 C\n    until doubled\n\npart braids\ndough ......................... all\negg ........................... 50 g\n\
divide 4 x 390 g\nbake: tend 25 min, using oven at 185 C\n    Brush {dough} with {egg}.\n    until gold\n";

const TURNOVERS: &str = "recipe Turnovers\nmakes 14 turnovers\nuse \"braid.miche\"\n\nper piece\ndough ......................... 75 g\n\
pear .......................... 60 g\n\nroll: hands 40 s, each\n    Roll {dough}; fill with {pear}.\nbake: tend 18 min, using oven at 185 C\n    until gold\n";

fn written(folder: &Path, name: &str, braid: &str) -> String {
    let side = folder.join(name);
    fs::create_dir(&side).expect("a folder");
    fs::write(side.join("braid.miche"), braid).expect("written");
    fs::write(side.join("turnovers.miche"), TURNOVERS).expect("written");
    side.join("turnovers.miche").display().to_string()
}

fn compared(braid: &str) -> (Value, String) {
    let folder = tempfile::tempdir().expect("a folder");
    let (old, new) = (written(folder.path(), "old", BRAID), written(folder.path(), "new", braid));
    let told = |format: &str| {
        let output = miche(&["diff", &old, &new, "--format", format]);
        assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
        String::from_utf8(output.stdout).expect("UTF-8")
    };
    (serde_json::from_str(&told("json")).expect("JSON"), told("text"))
}

#[test]
fn a_dough_of_another_file_that_changes_is_told() {
    for (from, to, said) in [
        ("1.8 %", "2.6 %", vec!["dough of Braid", "salt", "1.8 %", "2.6 %"]),
        ("wait 60 min", "wait 90 min", vec!["dough of Braid", "1 h 30 min"]),
        ("500 g\n", "540 g\n", vec!["dough of Braid", "whole milk", "500 g", "540 g"]),
        ("{fresh yeast}.", "{fresh yeast} well.", vec!["dough of Braid", "well"]),
    ] {
        let braid = BRAID.replacen(from, to, 1);
        assert_ne!(braid, BRAID, "{from}");
        let (json, text) = compared(&braid);
        assert_eq!(json["changed"], true, "{from}: {text}");
        for word in said {
            assert!(text.contains(word), "{word}: {text}");
        }
    }
}

/// How much of it is made there, what else is made of it, and the order of its files are no matter of who takes some of the dough.
#[test]
fn what_else_changes_there_is_no_change() {
    for (from, to) in [
        ("divide 4 x 390 g", "divide 3 x 520 g"),
        ("egg ........................... 50 g", "egg ........................... 70 g"),
        ("1000 g\nwhole milk .................... 500 g", "2000 g\nwhole milk .................... 1000 g"),
        ("tend 25 min", "tend 28 min"),
    ] {
        let braid = BRAID.replacen(from, to, 1);
        assert_ne!(braid, BRAID, "{from}");
        let (json, text) = compared(&braid);
        assert!(json["parts"].as_array().is_some_and(Vec::is_empty), "{from}: {text}");
    }
}

/// A day that changed is no recipe, and no silence either.
#[test]
fn a_day_at_a_revision_is_refused() {
    let folder = tempfile::tempdir().expect("a folder");
    let git = |arguments: &[&str]| {
        let run = std::process::Command::new("git").current_dir(folder.path()).args(arguments).output().expect("git");
        assert!(run.status.success(), "{}", String::from_utf8_lossy(&run.stderr));
    };
    fs::write(folder.path().join("braid.miche"), BRAID).expect("written");
    fs::write(folder.path().join("day.miche"), "day Saturday\nmake 4 of \"braid.miche\"\n").expect("written");
    git(&["init", "-q"]);
    git(&["add", "."]);
    git(&["-c", "user.name=a", "-c", "user.email=a@b", "commit", "-qm", "one"]);
    let diff = |path: &str| {
        let run = std::process::Command::new(env!("CARGO_BIN_EXE_miche"));
        let mut run = run;
        run.current_dir(folder.path()).args(["diff", "--from", "HEAD", path]).output().expect("it runs")
    };
    assert!(diff("day.miche").status.success());
    fs::write(folder.path().join("day.miche"), "day Saturday\nmake 8 of \"braid.miche\"\n").expect("written");
    let told = diff("day.miche");
    assert!(!told.status.success() && String::from_utf8_lossy(&told.stderr).contains("not two recipes"));
    assert!(diff(".").status.success());
}
