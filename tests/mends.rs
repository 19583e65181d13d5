//! `miche check --fix`: what it changes, what it leaves, and that the formula stays the one that was meant.

#![allow(clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use miche::check::{check_file, work_out};
use miche::edge::loader::Loader;
use miche::language::mend::{Mended, mend};
use miche::language::parse::parse;
use miche::model::recipe::Selection;
use miche::solve::formula::Formula;
use miche::text::diagnostic::Diagnostic;
use miche::text::source::SourceId;
use proptest::prelude::*;
use std::fs;
use std::path::Path;
use std::process::{Command, Output};

fn check(text: &str, place: &Path) -> (SourceId, Vec<Diagnostic>) {
    let mut loader = Loader::new();
    let source = loader.take_text("rolls.miche", text.to_owned(), place);
    (source, check_file(&loader.into_project(), source))
}

fn mended(text: &str) -> Option<Mended> {
    mend(text, |text| check(text, Path::new("./rolls.miche")))
}

fn formula(text: &str) -> Formula {
    let mut loader = Loader::new();
    let source = loader.take_text("rolls.miche", text.to_owned(), Path::new("./rolls.miche"));
    let (_, mut formula) =
        work_out(&loader.into_project(), source, &Selection::new(), &mut Vec::new()).expect("a recipe");
    // Places in the text move with a mend; the amounts must not.
    for part in &mut formula.parts {
        part.draws.clear();
    }
    formula
}

fn run(folder: &Path, args: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_miche")).arg("check").args(args).current_dir(folder).output().expect("it runs")
}

/// Every wrong file with a certain mend: afterwards that check finds nothing there that it could mend, and the text reads
/// no worse.
#[test]
fn after_the_mends_the_file_is_clean_of_them() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/wrong");
    let mut mended_files = 0;
    for path in miche::edge::loader::find_files(&folder).expect("files") {
        let text = fs::read_to_string(&path).expect("UTF-8");
        let (_, before) = check(&text, &path);
        let Some(after) = mend(&text, |text| check(text, &path)) else { continue };
        mended_files += 1;
        let (_, left) = check(&after.text, &path);
        let certain = |problem: &&Diagnostic| problem.mend.as_ref().is_some_and(|mend| mend.certain);
        assert_eq!(left.iter().find(certain), None, "{}", path.display());
        let kinds: Vec<&str> = before.iter().filter(certain).map(|problem| problem.check).collect();
        for kind in kinds {
            let count = |problems: &[Diagnostic]| problems.iter().filter(|problem| problem.check == kind).count();
            assert!(count(&left) < count(&before), "{}: {kind} is still there", path.display());
        }
        let misread = |text: &str| parse(SourceId(0), text).1.len();
        assert!(misread(&after.text) <= misread(&text), "{}", path.display());
    }
    assert!(mended_files >= 15, "only {mended_files} wrong files have a certain mend");
}

/// The mended text computes what the same recipe, written rightly, computes.
#[test]
fn the_formula_is_the_one_that_was_meant() {
    let right = "recipe Rolls\nmakes 10 rolls\nflour .... 500 g\nwater .... 62.5 %\nsalt .... 2 %, fine\ndivide 10 x 81 g, loss 1.5 %\n\
                 mix: hands 10-12 min\n    Mix {flour}, {water} and {salt}.\n    until smooth\n";
    let slips = [
        ("500 g", "500 grams"),
        ("500 g", "500 gr"),
        ("62.5 %", "62,5 %"),
        ("2 %, fine", "2 % fine"),
        ("10-12 min", "12-10 min"),
        ("10-12 min", "10-12 minutes"),
        ("water ....", "wat\u{435}r ...."),
        ("salt ....", "salt\u{200B} ...."),
        ("salt ....", "# allow odd-percent: it was more once\nsalt ...."),
    ];
    for (from, to) in slips {
        let text = right.replacen(from, to, 1);
        assert_ne!(text, right);
        let mended = mended(&text).unwrap_or_else(|| panic!("{to}: nothing was mended"));
        assert_eq!(mended.text, right, "{to}");
    }
    // All slips of different places together.
    let text = slips.iter().step_by(2).fold(right.to_owned(), |text, (from, to)| text.replacen(from, to, 1));
    let mended = mended(&text).expect("mends");
    assert_eq!(formula(&mended.text), formula(right));
}

/// `1,500 g` may be fifteen hundred or one and a half: nobody but the writer knows.
#[test]
fn what_is_not_certain_is_left_alone() {
    for text in [
        "recipe Rolls\nflour .... 1,500 g\n",
        "recipe Rolls\nflour .... 500 g\nmix: hands 5 min\n    Mix {flur}.\n",
        "recipe Rolls\nflour .... 500 g = 1 lb\n",
    ] {
        assert_eq!(mended(text), None, "{text}");
    }
}

#[test]
fn files_are_written_whole_and_only_where_something_was_mended() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = |name: &str| folder.path().join(name);
    fs::write(path("a.miche"), "recipe A\nflour .... 500 grams\nweigh: hands 1 min\n    Weigh {flour}.\n")
        .expect("a file");
    fs::write(path("b.miche"), "recipe B\nflour .... 1,500 g\n").expect("a file");
    let untouched = fs::metadata(path("b.miche")).and_then(|metadata| metadata.modified()).expect("a time");

    let dry = run(folder.path(), &[".", "--fix", "--dry-run"]);
    let diff = String::from_utf8_lossy(&dry.stdout).into_owned();
    assert!(diff.contains("--- ./a.miche\n+++ ./a.miche\n"), "{diff}");
    assert!(diff.contains("-flour .... 500 grams\n+flour .... 500 g\n"), "{diff}");
    assert!(fs::read_to_string(path("a.miche")).expect("readable").contains("grams"), "a dry run writes nothing");

    let wet = run(folder.path(), &[".", "--fix", "--format", "short"]);
    assert!(String::from_utf8_lossy(&wet.stderr).contains("mended 1 problem in 1 file"));
    assert_eq!(
        fs::read_to_string(path("a.miche")).expect("readable"),
        "recipe A\nflour .... 500 g\nweigh: hands 1 min\n    Weigh {flour}.\n"
    );
    assert_eq!(fs::metadata(path("b.miche")).and_then(|metadata| metadata.modified()).expect("a time"), untouched);
    let said = String::from_utf8_lossy(&wet.stdout).into_owned();
    assert!(said.contains("b.miche:2:12: error[decimal-comma]") && !said.contains("a.miche"), "{said}");
    let names: Vec<_> = fs::read_dir(folder.path())
        .expect("a folder")
        .filter_map(|entry| entry.ok()?.file_name().into_string().ok())
        .collect();
    assert_eq!(names.len(), 2, "nothing is left behind: {names:?}");
}

#[test]
fn standard_input_has_no_file_to_mend() {
    let folder = tempfile::tempdir().expect("a folder");
    let output = run(folder.path(), &["-", "--fix"]);
    assert_eq!(output.status.code(), Some(2));
}

proptest! {
    /// Whatever is done to a recipe: mending ends, and the text reads no worse than before.
    #[test]
    fn mending_ends_and_never_makes_a_text_read_worse(at in 0..400_usize, junk in "[ -~½\u{200B}\u{435}]{0,6}") {
        let text = include_str!("../examples/harbour-rolls.miche");
        let mut at = at.min(text.len());
        while !text.is_char_boundary(at) {
            at -= 1;
        }
        let broken = format!("{}{junk}{}", &text[..at], &text[at..]);
        let misread = |text: &str| parse(SourceId(0), text).1.len();
        if let Some(after) = mended(&broken) {
            prop_assert!(misread(&after.text) <= misread(&broken));
            prop_assert_eq!(mended(&after.text), None);
        }
    }
}
