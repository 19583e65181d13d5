//! `miche new`: first files that pass every check, and notes of our own made into formulas.
//!
//! What is asked of notes: no stray line whatever they hold, and no figure lost.

// Helpers outside a test function fail a test by panicking, as the tests do.
#![allow(clippy::expect_used, clippy::panic)]

use miche::check::check_file;
use miche::edge::loader::Loader;
use miche::language::syntax::{Content, Key};
use miche::language::{parse::parse, tidy::tidy};
use miche::model::larder::Larder;
use miche::model::notes::{Draft, draft};
use miche::text::{diagnostic::Severity, source::SourceId};
use proptest::prelude::*;
use std::collections::{BTreeMap, BTreeSet};
use std::process::{Command, Output};
use std::{fs, path::Path};

#[path = "notes/bench.rs"]
mod bench;
#[path = "notes/dishes.rs"]
mod dishes;
#[path = "notes/in_prose.rs"]
mod in_prose;
#[path = "notes/in_rows.rs"]
mod in_rows;
#[path = "notes/no_units.rs"]
mod no_units;
#[path = "notes/people.rs"]
mod people;
#[path = "notes/read_off.rs"]
mod read_off;
#[path = "notes/told.rs"]
mod told;
#[path = "notes/typed.rs"]
mod typed;
#[path = "notes/whose.rs"]
mod whose;

/// How often each run of digits stands in a text.
fn counted(text: &str) -> BTreeMap<String, usize> {
    let mut counts = BTreeMap::new();
    for run in runs(text) {
        *counts.entry(run).or_insert(0) += 1;
    }
    counts
}

/// Lines of ingredients without a mark in which a figure stands where it counts for nothing: in the name or in words.
fn hidden_figures(draft: &Draft) -> Vec<String> {
    let larder = Larder::new();
    let hides = |line: &&str| {
        // What is told stands under a mark of its own.
        if !line.contains(" ..") || line.starts_with(['#', ' ']) || line.starts_with("note ") || line.contains("# look")
        {
            return false;
        }
        let (name, rest) = line.split_once(" ..").expect("a leader");
        let figure = |words: &str| words.split_whitespace().any(|word| word.starts_with(|c: char| c.is_ascii_digit()));
        let said = rest.trim_start_matches(['.', ' ']);
        let mut clauses = said.split(", ").skip(1).filter(|clause| !clause.starts_with("at "));
        // One of something weighs what the line says.
        let container = |clause: &str| matches!(clause.split(' ').next(), Some("1" | "1.0" | "1.00"));
        (figure(name) && larder.find(&Key::new(name)).is_none())
            || clauses.any(|clause| figure(clause) && !container(clause))
    };
    draft.text.lines().filter(hides).map(str::to_owned).collect()
}

/// Every run of digits; a fraction that is one character counts as its two figures.
fn figures(text: &str) -> BTreeSet<String> {
    runs(text).into_iter().collect()
}

fn runs(text: &str) -> Vec<String> {
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

/// What notes become, of which no line is stray, whether it is read alone or checked whole.
fn sound(notes: &str) -> Draft {
    let made = draft(notes, None, "x");
    no_line_is_stray(&made).expect("no stray line");
    let mut loader = Loader::new();
    let source = loader.take_text("x.miche", made.text.clone(), Path::new("x.miche"));
    let problems = check_file(&loader.into_project(), source);
    assert!(problems.iter().all(|problem| problem.check != "stray-line"), "{problems:?}\n{}", made.text);
    made
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
        if path.extension().is_none_or(|end| end != "txt") {
            continue;
        }
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

/// A line of the table: the notes, the ingredients that they say, whether something in it has to be looked at.
fn readings() -> Vec<(String, Vec<String>, bool)> {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/notes/lines.table");
    let table = fs::read_to_string(path).expect("readable");
    let rows = table.lines().filter(|line| !line.starts_with("#\t")).filter_map(|line| line.split_once(" => "));
    let rows = rows.filter(|(notes, _)| !notes.starts_with("  "));
    let read = rows.map(|(notes, reading)| {
        let (reading, marked) = reading.strip_suffix(" ?").map_or((reading, false), |reading| (reading, true));
        let wanted = reading.split(" & ").filter(|line| *line != "-").map(str::to_owned).collect();
        (notes.to_owned(), wanted, marked)
    });
    read.collect()
}

/// The ingredient lines of a text in the one layout, without comments.
fn ingredients(text: &str) -> Vec<String> {
    let laid_out = tidy(text, None).unwrap_or_else(|_| text.to_owned());
    let said = laid_out.lines().filter(|line| line.contains(" ..") && !line.starts_with(['#', ' ']));
    said.map(|line| line.split("  #").next().unwrap_or("").trim_end().to_owned()).collect()
}

#[test]
fn hundreds_of_lines_have_their_right_reading() {
    let rows = readings();
    assert!(rows.len() >= 300, "{} lines", rows.len());
    let mut wrong = Vec::new();
    for (notes, wanted, marked) in &rows {
        let draft = draft(&format!("Harbour plait\n\nIngredients\n{notes}\n"), None, "x");
        no_line_is_stray(&draft).expect("no stray line");
        let of_line = |line: &&str| !line.starts_with("measures ") && !line.contains("Made from notes");
        let has_mark = draft.text.lines().filter(of_line).any(|line| line.contains("# look"));
        let wanted = ingredients(&format!("recipe Harbour plait\nmeasures US\n\n{}\n", wanted.join("\n")));
        let got = ingredients(&draft.text);
        if got != wanted || has_mark != *marked {
            let mark = draft.text.lines().filter(of_line).find(|line| line.contains("# look")).unwrap_or("no mark");
            wrong.push(format!("{notes}\n  wanted {wanted:?} {marked}\n  got    {got:?} {has_mark}: {mark}"));
        }
    }
    assert!(wrong.is_empty(), "{} of {} lines:\n{}", wrong.len(), rows.len(), wrong.join("\n"));
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

/// What a teacher typed, and what of it was lost in silence: see the lines one by one in `notes/lines.table`.
#[test]
fn two_on_a_line_and_amounts_in_brackets_are_seen() {
    let notes = "Rye tart\nMakes 2 tarts\n\n300 g plain flour, 100 g dark rye flour\n1 heaped tsp cumin\n\
        3 g instant yeast (by hand: 1.5 g)\n200 g water\n25 g sugar + 10 g for the top\n180 g butter (160 g + 20 g)\n";
    let draft = draft(notes, None, "x");
    holds(
        &draft,
        &[
            "makes 2 tarts",
            "plain flour .. 300 g",
            "dark rye flour .. 100 g",
            "cumin .. 1 tsp, heaped",
            "instant yeast .. 3 g, by hand: 1.5 g",
            "sugar .. 25 g",
            "sugar for the top .. 10 g",
            "butter .. 180 g, 160 g + 20 g",
        ],
    );
    for marked in ["cumin ", "instant yeast ", "sugar for the top ", "butter "] {
        let line = draft.text.lines().find(|line| line.starts_with(marked)).expect("the line");
        assert!(line.contains("# look"), "{line}");
    }
    no_line_is_stray(&draft).expect("no stray line");
}

#[test]
fn what_it_makes_is_said_in_many_ways() {
    for (said, wanted, marked) in [
        ("Makes 12 buns", "makes 12 buns", false),
        ("makes 3 doz", "makes 36 pieces", true),
        ("Makes 3 dozen biscuits", "makes 36 biscuits", true),
        ("makes a dozen rolls", "makes 12 rolls", true),
        ("Makes half a dozen", "makes 6 pieces", true),
        ("16 buns", "makes 16 buns", true),
        ("3 dozen biscuits", "makes 36 biscuits", true),
        ("For 6 people", "makes 6 people", true),
        ("two loaves", "makes 2 loaves", true),
        ("Serves 4-6", "makes 4 portions", true),
        ("Serves: 6", "makes 6 portions", false),
        ("Yield: 2 loaves (900 g each)", "makes 2 loaves", true),
        ("Makes one 23 cm tart", "makes 1 tart", true),
        ("Makes 2 x 900 g loaves", "makes 2 loaves", true),
        ("makes about 1.2 kg", "makes 1.2 kg", true),
        ("Makes 24.", "makes 24 pieces", false),
        ("gives 40 crackers", "makes 40 crackers", false),
    ] {
        let draft = draft(&format!("Quay bake\n{said}\n\n500 g flour\n"), None, "x");
        no_line_is_stray(&draft).expect("no stray line");
        holds(&draft, &[wanted]);
        assert_eq!(draft.text.contains("# look"), marked, "{said}:\n{}", draft.text);
    }
}

#[test]
fn nothing_is_made_up_and_nothing_is_lost() {
    let notes = "Soup\nIngredients\n1 packet yeast\nmystery 7\nsalt\n3 g salt\nXX ?? 99 zz, , ,,\n400,5 g flour\n";
    let draft = draft(notes, None, "x");
    for line in ["1 packet yeast", "mystery 7", "3 g salt", "XX ?? 99 zz", "400,5 g flour"] {
        assert!(draft.text.contains(line), "{line} is lost in\n{}", draft.text);
    }
    holds(&draft, &["yeast .. as needed, 1 packet", "salt .. as needed", "flour .. 400.5 g"]);
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

/// Lines of the table in any order and number, as one list: two of them may be cut out of each other's words.
fn table_lines() -> impl Strategy<Value = Vec<String>> {
    let rows: Vec<String> = readings().into_iter().map(|(notes, ..)| notes).collect();
    prop::collection::vec((prop::sample::select(rows.clone()), prop::sample::select(rows), 0..6_usize), 1..8).prop_map(
        |lines| {
            let joined = lines.into_iter().map(|(one, other, way)| match way {
                0 => format!("{one}, {other}"),
                1 => format!("{one} + {other}"),
                2 => format!("{one} ({other})"),
                3 => format!("{one} and {other}"),
                _ => one,
            });
            joined.collect()
        },
    )
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 192, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn every_number_of_a_list_is_in_the_file_or_in_a_mark_as_often_as_in_the_notes(lines in table_lines()) {
        let notes = format!("Quay bake\n\nIngredients\n{}\n", lines.join("\n"));
        let draft = draft(&notes, None, "x");
        if let Err(why) = no_line_is_stray(&draft) { return Err(TestCaseError::fail(why)); }
        let (there, here) = (counted(&notes), counted(&draft.text));
        // The number of a list goes.
        let lists = lines.iter().filter(|line| line.starts_with("1. ") || line.starts_with("1) ")).count();
        let lost: Vec<String> = there.iter().filter_map(|(run, many)| {
            let many = if run == "1" { many.saturating_sub(lists) } else { *many };
            (here.get(run).copied().unwrap_or(0) < many).then(|| format!("{run}: {many}"))
        }).collect();
        prop_assert!(lost.is_empty(), "{lost:?} of\n{notes}\nis lost in\n{}", draft.text);
        let hidden = hidden_figures(&draft);
        prop_assert!(hidden.is_empty(), "{hidden:?} of\n{notes}\nis not marked in\n{}", draft.text);
    }
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
        let hidden = hidden_figures(&draft);
        prop_assert!(hidden.is_empty(), "{hidden:?} of\n{notes}\nis not marked in\n{}", draft.text);
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
