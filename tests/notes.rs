//! `miche new`: first files that pass every check, and notes of our own made into formulas.
//!
//! What is asked of notes: no stray line whatever they hold, and no figure lost.

// Helpers outside a test function fail a test by panicking, as the tests do.
#![allow(clippy::expect_used, clippy::panic)]

use miche::language::parse::parse;
use miche::language::syntax::Content;
use miche::model::notes::{Draft, draft};
use miche::text::diagnostic::Severity;
use miche::text::source::SourceId;
use proptest::prelude::*;
use std::collections::BTreeSet;
use std::fs;
use std::path::Path;
use std::process::{Command, Output};

/// Every run of digits; a fraction that is one character counts as its two figures.
fn figures(text: &str) -> BTreeSet<String> {
    let vulgar = [('½', " 1/2"), ('¼', " 1/4"), ('¾', " 3/4"), ('⅓', " 1/3"), ('⅔', " 2/3"), ('⅛', " 1/8")];
    let plain = vulgar.iter().fold(text.to_owned(), |text, (one, two)| text.replace(*one, two));
    plain.split(|c: char| !c.is_ascii_digit()).filter(|run| !run.is_empty()).map(str::to_owned).collect()
}

fn no_line_is_stray(draft: &Draft) -> Result<(), String> {
    let (tree, problems) = parse(SourceId(0), &draft.text);
    // Advice is for who reads the file; the line was read.
    if let Some(problem) = problems.iter().find(|problem| problem.severity != Severity::Advice) {
        return Err(format!("{}: {}\n{}", problem.check, problem.message, draft.text));
    }
    let stray = tree.lines.iter().any(|line| matches!(line.content, Content::Stray));
    if stray { Err(draft.text.clone()) } else { Ok(()) }
}

fn lines(draft: &Draft) -> Vec<String> {
    draft.text.lines().map(|line| line.split("  #").next().unwrap_or("").replace(['.', ' '], "")).collect()
}

fn holds(draft: &Draft, wanted: &[&str]) {
    let lines = lines(draft);
    for line in wanted {
        let bare = line.replace(['.', ' '], "");
        assert!(lines.contains(&bare), "no line `{line}` in\n{}", draft.text);
    }
}

#[test]
fn notes_of_our_own_become_formulas() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/notes");
    let mut count = 0;
    for entry in fs::read_dir(folder).expect("there are notes") {
        let path = entry.expect("readable").path();
        let notes = fs::read_to_string(&path).expect("readable");
        let draft = draft(&notes, None, "notes");
        no_line_is_stray(&draft).expect("no stray line");
        let missing: Vec<String> = figures(&notes).difference(&figures(&draft.text)).cloned().collect();
        // The numbers of a list that was understood are no figures.
        let missing: Vec<&String> = missing.iter().filter(|run| run.len() > 1).collect();
        assert!(missing.is_empty(), "{}: {missing:?} are lost in\n{}", path.display(), draft.text);
        insta::with_settings!({ snapshot_path => "snapshots/notes", prepend_module_to_snapshot => false, omit_expression => true }, {
            insta::assert_snapshot!(path.file_stem().expect("a name").to_string_lossy().into_owned(), draft.text);
        });
        count += 1;
    }
    assert!(count >= 3);
}

#[test]
fn amounts_are_read_as_people_write_them() {
    let notes = "Jetty buns\n\nIngredients\n500g bread flour\n1 1/2 tsp salt\n2 eggs\na pinch of cinnamon\n\
        350 ml water, warm\n½ cup sugar\n• butter: 75 g\n225 g / 8 oz plums\nan onion\n";
    let draft = draft(notes, None, "x");
    holds(
        &draft,
        &[
            "recipe Jetty buns",
            "bread flour .. 500 g",
            "salt .. 1 1/2 tsp",
            "eggs .. 2",
            "cinnamon .. to taste, pinch",
            "water .. 350 ml, warm",
            "sugar .. 1/2 cup",
            "butter .. 75 g",
            "plums .. 225 g = 8 oz",
            "onion .. 1",
        ],
    );
}

#[test]
fn headings_make_parts_and_prose_makes_steps() {
    let notes = "Plum buns\nMakes 12 buns\nFor the dough:\n500 g flour\n9 g salt\nFor the filling:\n300 g plums\n\
        50 g honey\nMethod\nMix flour and salt for 8 minutes.\nSimmer plums and honey for 20 min until thick.\n\
        Bake at 200 C for 15-18 min until golden.\n";
    let draft = draft(notes, None, "x");
    holds(
        &draft,
        &[
            "makes 12 buns",
            "part dough",
            "part filling",
            "mix: hands 8 min",
            "Mix {flour} and {salt} for 8 minutes.",
            "simmer: tend 20 min",
            "until thick",
            "dough .. all",
            "filling .. all",
            "bake: tend 15-18 min, using oven at 200 C",
        ],
    );
    let order = |line: &str| draft.text.find(line).unwrap_or_else(|| panic!("no {line} in\n{}", draft.text));
    assert!(order("mix: hands") < order("part filling"), "{}", draft.text);
    assert!(order("simmer: tend") > order("part filling"), "{}", draft.text);
}

#[test]
fn nothing_is_made_up_and_nothing_is_lost() {
    let notes = "Soup\nIngredients\n1 packet yeast\nmystery 7\nsalt\n3 g salt\nXX ?? 99 zz, , ,,\n400,5 g flour\n";
    let draft = draft(notes, None, "x");
    for line in ["1 packet yeast", "mystery 7", "3 g salt", "XX ?? 99 zz", "400,5 g flour"] {
        assert!(draft.text.contains(line), "{line} is lost in\n{}", draft.text);
    }
    holds(&draft, &["yeast .. as needed, packet", "salt .. as needed", "flour .. 400.5 g"]);
    assert!(draft.review.len() >= 5, "{:?}", draft.review);
    for (line, why) in &draft.review {
        let said = draft.text.lines().nth(line - 1).expect("the line is there");
        assert!(said.contains(why.as_str()), "{said} / {why}");
    }
}

fn note_line() -> impl Strategy<Value = String> {
    let amount = prop_oneof![
        "[1-9][0-9]{0,3}",
        "[1-9],[0-9]{1,3}",
        "[1-9] 1/[2-9]",
        "[1-9]?[½¼¾]",
        "[1-9]-[1-9][0-9]",
        "[0-9]\\.[0-9]{1,2}"
    ];
    let unit = prop::sample::select(vec![
        "g", " g", "kg", " ml", " cups", " tbsp", " tsp.", " packets", " cloves", "", " oz", "%", " °C", " min",
        " x 400 g",
    ]);
    let name = prop::sample::select(vec![
        "strong white flour",
        "salt",
        "eggs",
        "Butter (70 % fat)",
        "water, warm",
        "type 55 flour",
        "rye #1",
        "a [b] {c",
        "sugar = 5 oz",
        "milk: 3",
        "honey … 4",
        "plums; 6 or so",
        "yeast \"7\"",
    ]);
    let before =
        prop::sample::select(vec!["", "- ", "* ", "• ", "about ", "Oven ", "Bake for ", "For the ", "## ", "Makes "]);
    let after =
        prop::sample::select(vec!["", ".", ":", " until 9 of them are brown", ", (8 g", " / 5 oz", " for 2 h."]);
    (before, amount, unit, name, after)
        .prop_map(|(before, amount, unit, name, after)| format!("{before}{amount}{unit} {name}{after}"))
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 256, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn every_figure_of_the_notes_is_in_the_file(
        parts in prop::collection::vec(prop_oneof![
            6 => note_line(),
            1 => Just(String::new()),
            1 => prop::sample::select(vec!["Method", "Ingredients:", "For the top:", "NOTES", "Buns"]).prop_map(str::to_owned),
        ], 1..14)
    ) {
        let notes = parts.join("\n");
        let draft = draft(&notes, None, "x");
        if let Err(why) = no_line_is_stray(&draft) { return Err(TestCaseError::fail(why)); }
        let missing: Vec<String> = figures(&notes).difference(&figures(&draft.text)).cloned().collect();
        prop_assert!(missing.is_empty(), "{missing:?} of\n{notes}\nis lost in\n{}", draft.text);
    }

    #[test]
    fn any_text_gives_a_file_without_stray_lines(notes in "(?s).{0,400}", name in prop::option::of(".{0,40}")) {
        let draft = draft(&notes, name.as_deref(), &notes);
        if let Err(why) = no_line_is_stray(&draft) { return Err(TestCaseError::fail(why)); }
    }

    #[test]
    fn marks_of_the_language_give_no_stray_lines(
        notes in prop::collection::vec(
            prop::sample::select(vec![
                "recipe", "part", "..", "…", ":", ",", "{", "}", "[", "]", "# ", "#", "=", "\"", "\n", "\r", "\\", " ", "5", "g",
                "flour", "until", "note", "use", "1/0", "½", "hands 5 min", "makes", "For the", "-", "\u{202E}", "allow", "Method\n",
            ]),
            0..60,
        )
    ) {
        let notes = notes.concat();
        let draft = draft(&notes, None, "x");
        if let Err(why) = no_line_is_stray(&draft) { return Err(TestCaseError::fail(why)); }
    }
}

fn miche(folder: &Path, arguments: &[&str]) -> Output {
    let mut command = Command::new(env!("CARGO_BIN_EXE_miche"));
    command.args(arguments).current_dir(folder).stdin(std::process::Stdio::null()).output().expect("the program starts")
}

#[test]
fn first_files_pass_every_check() {
    let folder = tempfile::tempdir().expect("a folder");
    let cases: [&[&str]; 7] = [
        &["A loaf"],
        &[
            "B buns",
            "--pieces",
            "12",
            "--noun",
            "buns",
            "--mixing",
            "both",
            "--add",
            "butter=10",
            "--add",
            "caster sugar 8 %",
        ],
        &["C rolls", "--pieces", "100", "--noun", "rolls", "--each", "60 g", "--mixing", "machine"],
        &["D rye", "--flour-name", "dark rye flour", "--water", "85", "--yeast", "0.5", "--salt", "1.8"],
        &["E sticks", "--pieces", "80", "--noun", "sticks", "--flour", "1 kg"],
        &["F batard", "--flour", "2.5 kg", "--pieces", "5", "--water", "72 %"],
        &["G ring", "--pieces", "1", "--noun", "ring", "--flour", "2 lb"],
    ];
    for case in cases {
        let mut arguments = vec!["new", "--yes"];
        arguments.extend(case);
        let made = miche(folder.path(), &arguments);
        assert!(made.status.success(), "{case:?}: {}", String::from_utf8_lossy(&made.stderr));
    }
    let checked = miche(folder.path(), &["check", "--strict", "."]);
    let said = String::from_utf8_lossy(&checked.stdout).into_owned();
    assert!(checked.status.success() && said.contains("7 files: nothing to mend"), "{said}");
}

#[test]
fn a_file_that_is_there_stays() {
    let folder = tempfile::tempdir().expect("a folder");
    fs::write(folder.path().join("jetty-buns.miche"), "mine").expect("written");
    fs::write(folder.path().join("notes.txt"), "Jetty buns\n500 g flour\n").expect("written");
    for arguments in [&["new", "Jetty buns"][..], &["new", "--from", "notes.txt"]] {
        let made = miche(folder.path(), arguments);
        assert_eq!(made.status.code(), Some(2));
        assert!(String::from_utf8_lossy(&made.stderr).contains("there is a file of that name already"));
    }
    assert_eq!(fs::read_to_string(folder.path().join("jetty-buns.miche")).expect("readable"), "mine");
    assert_eq!(fs::read_dir(folder.path()).expect("readable").count(), 2, "nothing is left behind");
}

#[test]
fn figures_that_do_not_fit_write_nothing() {
    let folder = tempfile::tempdir().expect("a folder");
    let cases: [(&[&str], i32); 6] = [
        (&["new", "X", "--flour", "1 kg", "--each", "300 g", "--pieces", "2"], 1),
        (&["new", "X", "--pieces", "2.5"], 2),
        (&["new", "X", "--water", "lots"], 2),
        (&["new", "X: y"], 2),
        (&["new", "X", "--add", "salt=2"], 2),
        (&["new"], 2),
    ];
    for (arguments, code) in cases {
        let made = miche(folder.path(), arguments);
        assert_eq!(made.status.code(), Some(code), "{arguments:?}: {}", String::from_utf8_lossy(&made.stderr));
    }
    assert_eq!(fs::read_dir(folder.path()).expect("readable").count(), 0);
}
