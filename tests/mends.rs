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

/// What a hidden character stood for, where that is certain: nothing beside words and blanks, a line end where lines are seen
/// apart.
#[test]
fn hidden_characters_go_where_nothing_can_have_been_meant() {
    let cases = [
        ("recipe Rolls\nsalt\u{200B} .... 9 g\n", "recipe Rolls\nsalt .... 9 g\n"),
        ("recipe Rolls\nsa\u{200C}lt .... 9\u{2060} g\u{7}\n", "recipe Rolls\nsalt .... 9 g\n"),
        ("recipe Rolls\nsalt .... 9 g\u{2028}water .... 300 g\n", "recipe Rolls\nsalt .... 9 g\nwater .... 300 g\n"),
        (
            "recipe Rolls\r\nsalt .... 9 g\u{85}water .... 300 g\r\n",
            "recipe Rolls\r\nsalt .... 9 g\r\nwater .... 300 g\r\n",
        ),
        ("recipe Rolls\nsalt .... 9 g # dry\u{2028}or wet\n", "recipe Rolls\nsalt .... 9 g # dry\n# or wet\n"),
        (
            "recipe Rolls\nmix: hands 5 min\n    Mix well.\u{2028}Rest 5 min.\n",
            "recipe Rolls\nmix: hands 5 min\n    Mix well.\n    Rest 5 min.\n",
        ),
        (
            "recipe Rolls\nmix: hands 5 min\n    Mix well.\n \u{2028}    until smooth\n",
            "recipe Rolls\nmix: hands 5 min\n    Mix well.\n \n     until smooth\n",
        ),
        ("recipe Rolls\n\u{85}\u{2028}salt .... 9 g\n", "recipe Rolls\n\n\nsalt .... 9 g\n"),
        ("recipe Rolls\rsalt .... 9 g\rwater .... 300 g\r", "recipe Rolls\nsalt .... 9 g\nwater .... 300 g\n"),
    ];
    for (text, right) in cases {
        assert_eq!(mended(text).unwrap_or_else(|| panic!("{text:?}: nothing was mended")).text, right, "{text:?}");
    }
}

/// A number is never joined out of what stands apart, nor words; what belongs to a script stays; and no order of signs is chosen
/// where the direction of writing was turned.
#[test]
fn hidden_characters_stay_where_something_may_have_been_meant() {
    for text in [
        "recipe Rolls\nsalt .... 1\u{85}50 g\n",
        "recipe Rolls\nsalt .... 1\u{200B}50 g\n",
        "recipe Rolls\nsalt .... 1\u{200B}\u{7}\u{2060}.5 g\n",
        "recipe Rolls\nsalt .... 1\u{2028}50 g\n",
        "recipe Rolls\nsalt .... 1\u{200D}½ g\n",
        "recipe Rolls\nsalt .... 1\u{200B}e3 g\n",
        "recipe Rolls\nsalt .... \u{202E}21 g\n",
        "recipe Rolls\nnote A\u{7}B.\nsalt .... 9 g\n",
        "recipe Rolls\nnote \u{E02}\u{200B}\u{E02}.\nsalt .... 9 g\n",
        "recipe Rolls\nnote \u{5D0}!\u{200F}\nsalt .... 9 g\n",
    ] {
        let (_, problems) = check(text, Path::new("./rolls.miche"));
        assert!(problems.iter().any(|problem| problem.check == "hidden-character"), "{text:?}");
        assert_eq!(mended(text), None, "{text:?}");
    }
    // A carriage return ends a line wherever it stands; the figures behind it do not join those before it.
    let after = mended("recipe Rolls\nsalt .... 2\r0 g\n").map_or(String::new(), |after| after.text);
    assert!(!after.contains("20 g"), "{after}");
    // Persian and Malayalam words, and a cook, are written with joiners: nothing is wrong with them.
    let right = "recipe 👩\u{200D}🍳\nآرد\u{200C}گندم .... 500 g\nനന്\u{200D} .... 20 g\n\
                 mix: hands 5 min\n    Mix {آرد\u{200C}گندم} and {നന്\u{200D}}.\n    until smooth\n";
    let (_, problems) = check(right, Path::new("./rolls.miche"));
    assert!(!problems.iter().any(|problem| problem.check == "hidden-character"), "{problems:?}");
    let card = Command::new(env!("CARGO_BIN_EXE_miche"))
        .args(["card", "-", "--format", "markdown"])
        .stdin(std::process::Stdio::piped())
        .stdout(std::process::Stdio::piped())
        .spawn()
        .and_then(|mut child| {
            std::io::Write::write_all(child.stdin.as_mut().expect("a pipe"), right.as_bytes())?;
            child.wait_with_output()
        })
        .expect("it runs");
    let card = String::from_utf8_lossy(&card.stdout).into_owned();
    for word in ["👩\u{200D}🍳", "آرد\u{200C}گندم", "നന്\u{200D}"] {
        assert!(card.contains(word), "{word}: {card}");
    }
}

/// However its lines end, a recipe is the same recipe: the same problems at the same places, and the same card.
#[test]
fn a_recipe_is_the_same_with_all_line_ends() {
    let folder = tempfile::tempdir().expect("a folder");
    for name in ["harbour-rolls", "panettone"] {
        let path = Path::new(env!("CARGO_MANIFEST_DIR")).join(format!("examples/{name}.miche"));
        let Ok(text) = fs::read_to_string(path) else { continue };
        let text = format!("{text}\nflur: hand 5 min\n");
        let places = |text: &str| -> Vec<(&'static str, usize, usize)> {
            let mut loader = Loader::new();
            let source = loader.take_text("rolls.miche", text.to_owned(), &folder.path().join("rolls.miche"));
            let project = loader.into_project();
            let problems = check_file(&project, source);
            let place = |problem: &Diagnostic| {
                let position = project.sources.get(source).expect("it was read").position(problem.span.start);
                (problem.check, position.line, position.column)
            };
            problems.iter().filter(|problem| problem.check != "carriage-return").map(place).collect()
        };
        for line_break in ["\r", "\r\n"] {
            let other = text.replace('\n', line_break);
            assert_eq!(places(&other), places(&text), "{line_break:?}");
            let tidied = miche::language::tidy::tidy(&other, None).expect("the same is said");
            assert_eq!(
                tidied.replace(line_break, "\n"),
                miche::language::tidy::tidy(&text, None).expect("the same is said")
            );
        }
        let (_, problems) = check(&text.replace('\n', "\r"), Path::new("./rolls.miche"));
        let told = problems.iter().filter(|problem| problem.check == "carriage-return").count();
        assert_eq!(told, 1, "one problem for the whole file");
    }
}

/// `00 flour` is a name: what stands behind the figure is no unit, and the step takes what is listed.
#[test]
fn a_name_may_begin_with_figures() {
    let place = Path::new("rolls.miche");
    for name in ["00 flour", "5 spice", "405 flour"] {
        let text = format!(
            "recipe Rolls\n{name} .... 500 g\nmix: hands 5 min\n    Mix {{{name}}} to a paste.\n    until smooth\n"
        );
        let told = check(&text, place).1;
        let wrong = |problem: &&Diagnostic| {
            ["unknown-unit", "leading-zero", "never-used", "unknown-name"].contains(&problem.check)
        };
        assert_eq!(told.iter().find(wrong), None, "{text}");
    }
    // A unit that is misspelt stays one, and a share without its `of` says what is missing.
    let said = |brace: &str| {
        let text = format!("recipe Rolls\nwater .... 500 g\nboil: hands 5 min\n    Boil {brace}.\n");
        format!("{:?}", check(&text, place).1)
    };
    assert!(said("{30 mins} {water}").contains("did you mean"), "{}", said("{30 mins} {water}"));
    for (brace, meant) in [
        ("{half water}", "{half of water}"),
        ("{300 g water}", "{300 g of water}"),
        ("{1/3 water}", "{1/3 of water}"),
        ("{remaining water}", "{rest of water}"),
        ("{50 % water}", "{50 % of water}"),
    ] {
        assert!(said(brace).contains(meant), "{brace}: {}", said(brace));
    }
}

/// `1,500 g` may be fifteen hundred or one and a half: nobody but the writer knows.
#[test]
fn what_is_not_certain_is_left_alone() {
    for text in [
        "recipe Rolls\nflour .... 1,500 g\n",
        "recipe Rolls\nflour .... 500 g\nmix: hands 5 min\n    Mix {flur}.\n",
        "recipe Rolls\nflour .... 500 g = 1 lb\n",
        "recipe Rolls\nflour .... 1_000 g\n",
        // A comma would make words of the second figure, and 50 g would be lost in silence.
        "recipe Rolls\nwater .... 200 g plus 50 g\n",
        "recipe Rolls\nwater .... 200 g x 2\n",
        "recipe Rolls\nwater .... 100 g to 120 g\n",
        "recipe Rolls\nflour .... 500 g\n# allow never-used: so     Mix {flour} for {4 min}.\nsalt .... 9 g\n",
        "recipe Rolls\nflour .... 500 g\nmix: hands 20 min 1_000\n    Mix {flour}.\n",
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

/// The rows of figures of a text, points and commas left out, each as often as it stands there.
fn figures(text: &str) -> std::collections::BTreeMap<String, usize> {
    let mut all = std::collections::BTreeMap::new();
    let numbers = text.split(|c: char| !(c.is_numeric() || matches!(c, '.' | ',')));
    for row in numbers.map(|number| number.replace(['.', ','], "")).filter(|row| !row.is_empty()) {
        *all.entry(row).or_default() += 1;
    }
    all
}

proptest! {
    /// Whatever stands in a recipe, every number of it is still there after its mends, and none is put together from two; so
    /// it is with every line.
    #[test]
    fn mending_keeps_every_number(
        at in prop::collection::vec(0..700_usize, 1..4),
        junk in "[\\x00-\\x1f\\x7f\u{80}-\u{9f}\u{200B}-\u{200F}\u{2028}-\u{202E}\u{2060}-\u{206F}\u{FEFF}0-9.,½ ]{1,3}",
    ) {
        let mut broken = include_str!("../examples/harbour-rolls.miche").to_owned();
        for at in at {
            let mut at = at.min(broken.len());
            while !broken.is_char_boundary(at) {
                at -= 1;
            }
            broken.insert_str(at, &junk);
        }
        if let Some(after) = mended(&broken) {
            prop_assert!(after.text.len() < broken.len() + 200, "{broken:?} grows to {} bytes", after.text.len());
            prop_assert_eq!(mended(&after.text), None, "mended twice: {:?}", broken);
            let (before, now) = (figures(&broken), figures(&after.text));
            for (row, times) in &before {
                prop_assert!(now.get(row).is_some_and(|now| now >= times), "{row} in {broken:?}, then {:?}", after.text);
            }
            let lines = |text: &str| text.split(['\n', '\r', '\u{85}', '\u{2028}', '\u{2029}', '\u{b}', '\u{c}']).filter(|line| line.contains(char::is_alphanumeric)).count();
            prop_assert!(lines(&after.text) >= lines(&broken), "{broken:?}, then {:?}", after.text);
        }
    }

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
