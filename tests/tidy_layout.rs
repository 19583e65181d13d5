//! `miche tidy`: what the layout looks like, and that it never changes what a file says.

// Helpers outside a test function fail a test by panicking, as the tests do.
#![allow(clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

#[path = "examples/copy.rs"]
mod copy;
#[path = "tidy_layout/generate.rs"]
mod generate;
#[path = "tidy_layout/ugly.rs"]
mod ugly;

use generate::{messy_file, spoil};
use miche::language::parse::parse;
use miche::language::syntax::{Amount, Content, Tree};
use miche::language::tidy::{LineRange, equal_meaning, tidy};
use miche::text::source::SourceId;
use proptest::prelude::*;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Output, Stdio};

fn read(text: &str) -> Tree {
    parse(SourceId(0), text).0
}

fn tidied(text: &str) -> String {
    tidy(text, None).unwrap_or_else(|fault| panic!("{fault}\n{text}"))
}

/// Every `.miche` file of the examples, of the published formulas and of the larder, with its text.
fn all_files() -> Vec<(PathBuf, String)> {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let mut files = Vec::new();
    for folder in ["examples", "tests/published", "src/model/larder"] {
        for entry in fs::read_dir(root.join(folder)).expect("a folder") {
            let path = entry.expect("an entry").path();
            if path.extension().is_some_and(|ending| ending == "miche") {
                files.push((path.clone(), fs::read_to_string(&path).expect("a text")));
            }
        }
    }
    files.sort();
    assert!(files.len() > 20, "only {} files were found", files.len());
    files
}

fn examples() -> Vec<(PathBuf, String)> {
    all_files()
        .into_iter()
        .filter(|(path, _)| path.parent().is_some_and(|folder| folder.ends_with("examples")))
        .collect()
}

/// Makes what cannot be seen visible.
fn visible(text: &str) -> String {
    let mut out = String::new();
    for line in text.split_inclusive('\n') {
        let words = line.trim_end_matches(['\n', '\r']);
        let shown = words.trim_end_matches(' ');
        out.push_str(&shown.replace('\t', "→").replace('\u{FEFF}', "<BOM>"));
        out.push_str(&"·".repeat(words.len() - shown.len()));
        if line.ends_with("\r\n") {
            out.push('␍');
        }
        out.push('\n');
    }
    out
}

#[test]
fn ugly_texts_become_tidy() {
    for (name, text) in ugly::UGLY {
        let result = tidied(text);
        let together = format!("{}── tidied ──\n{}", visible(text), visible(&result));
        insta::assert_snapshot!(*name, together);
        assert_eq!(tidied(&result), result, "{name} is not tidy after tidying");
    }
}

#[test]
fn the_examples_are_tidy() {
    for (path, text) in examples() {
        assert_eq!(tidied(&text), text, "{} is not tidy", path.display());
    }
}

#[test]
fn tidying_twice_is_tidying_once_and_nothing_is_lost() {
    for (path, text) in all_files() {
        holds_for(&text).unwrap_or_else(|why| panic!("{}: {why}", path.display()));
    }
}

/// What must hold for every text whatever.
fn holds_for(text: &str) -> Result<(), String> {
    let once = tidy(text, None).map_err(|fault| format!("{fault}\n{text}"))?;
    let twice = tidy(&once, None).map_err(|fault| format!("second time: {fault}\n{once}"))?;
    if twice != once {
        return Err(format!("not idempotent:\n{text}\n── once ──\n{once}\n── twice ──\n{twice}"));
    }
    let (before, after) = (read(text), read(&once));
    if !equal_meaning((&before, text), (&after, &once)) {
        return Err(format!("another tree:\n{text}\n── tidied ──\n{once}"));
    }
    for (what, of) in [("comments", comments as fn(&Tree, &str) -> Vec<String>), ("strays", strays)] {
        let (old, new) = (of(&before, text), of(&after, &once));
        if old != new {
            return Err(format!("{what} changed from {old:#?} to {new:#?}\n{text}\n── tidied ──\n{once}"));
        }
    }
    Ok(())
}

fn comments(tree: &Tree, text: &str) -> Vec<String> {
    let spans = tree.lines.iter().filter_map(|line| line.comment);
    spans.map(|span| text[span.range()].trim_end().to_owned()).collect()
}

fn strays(tree: &Tree, text: &str) -> Vec<String> {
    let lines = tree.lines.iter().filter(|line| matches!(line.content, Content::Stray));
    lines.map(|line| text[line.span.range()].to_owned()).collect()
}

/// Found by the generated texts below.
#[test]
fn texts_that_once_went_wrong() {
    for text in ["\r\r", "", "\u{FEFF}", "\n", "note....5 g", "day…1g", "a\r", "\r\n{\r", "note a\n  b\n c {\nuntil x"]
    {
        holds_for(text).unwrap_or_else(|why| panic!("{text:?}: {why}"));
    }
}

/// What the comparison must see, or it could not guard anything.
#[test]
fn a_change_of_meaning_is_seen() {
    let text = "recipe A\nmakes 4 rolls\nflour .. 0.50 kg, at 4 C, cut, small [x]\nwhat is this\n# why\n\
                mix: hands 4 min, each\n  Mix {half of flour}.\n    - more\n  until done\n";
    let same = |other: &str| equal_meaning((&read(text), text), (&read(other), other));
    let unseen = [
        ("0.50 kg", "0.50KG"),
        (" .. ", " ........ "),
        ("at 4 C, cut, small", "cut, small, at 4 C"),
        ("\n  Mix {half of flour}.\n    - more\n  until", "\n   Mix { half  of flour}.\n     - more\n   until"),
        ("\nwhat", "\n\nwhat"),
    ];
    for (old, new) in unseen {
        assert!(text.contains(old) && same(&text.replacen(old, new, 1)), "{old:?} -> {new:?} says the same");
    }
    let seen = [
        ("0.50 kg", "0.5 kg"),
        ("0.50 kg", "500 g"),
        ("flour ..", "Flour .."),
        ("cut, small", "small, cut"),
        (", at 4 C", ""),
        (" [x]", ""),
        ("what is this", "what is  this"),
        ("# why", "# who"),
        ("# why\n", ""),
        ("each", "2 at a time"),
        ("half of", "1/3 of"),
        ("    - more", "  - more"),
        ("    - more", "\n    - more"),
        ("  until", "until"),
        ("recipe A", "day A"),
        ("makes 4 rolls\n", ""),
    ];
    for (old, new) in seen {
        assert!(text.contains(old) && !same(&text.replacen(old, new, 1)), "{old:?} -> {new:?} says something else");
    }
}

/// A change of one amount is a change of one line, however long the new amount is.
#[test]
fn a_changed_ingredient_is_one_changed_line() {
    let mut changed = 0;
    for (path, text) in examples() {
        let tree = read(&text);
        for line in &tree.lines {
            let Content::Ingredient(ingredient) = &line.content else { continue };
            if !matches!(ingredient.amount, Amount::Chain(_)) {
                continue;
            }
            for amount in ["3.21 g", "123456.75 g = 4354.9 oz"] {
                let mut edited = text.clone();
                edited.replace_range(ingredient.amount.span().range(), amount);
                let result = tidied(&edited);
                let different = text.lines().zip(result.lines()).filter(|(old, new)| old != new).count();
                assert_eq!(text.lines().count(), result.lines().count(), "{}", path.display());
                assert_eq!(different, 1, "{}: {}", path.display(), ingredient.name);
                changed += 1;
            }
        }
    }
    assert!(changed > 100, "only {changed} amounts were changed");
}

/// Nor does a new ingredient with a long name move the others.
#[test]
fn a_long_name_moves_no_other_line() {
    let short = "recipe Pier rolls\n\nflour ......................... 1 kg\nwater ......................... 62 %\n";
    let long = format!("{short}a very long name for an ingredient that nobody has ever seen .. 5 g\n");
    assert_eq!(tidied(short), short);
    assert_eq!(tidied(&long), long);
}

#[test]
fn cards_are_the_same_before_and_after() {
    let mut compared = 0;
    for (path, text) in examples() {
        if !text.contains("recipe ") {
            continue;
        }
        let folder = tempfile::tempdir().expect("a folder");
        copy::into(folder.path());
        let copy = folder.path().join(path.file_name().expect("a name"));
        let card = |text: &str| {
            fs::write(&copy, text).expect("a copy");
            let path = copy.to_str().expect("a plain path");
            let answer = miche(&["card", path, "--format", "json"], "");
            (answer.status.code(), String::from_utf8(answer.stdout).expect("a text"))
        };
        let spoilt = spoil(&text, 7);
        assert_ne!(spoilt, text);
        let (before, after) = (card(&spoilt), card(&tidied(&spoilt)));
        assert_eq!(before, after, "{}", path.display());
        compared += usize::from(before.0 == Some(0));
    }
    assert!(compared > 5, "only {compared} cards were compared");
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 400, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn tidying_never_changes_a_generated_file(text in messy_file()) {
        if let Err(why) = holds_for(&text) {
            prop_assert!(false, "{}", why);
        }
    }

    #[test]
    fn tidying_never_changes_any_text(text in "(?s)[ \\t\\n\\r#.…:,{}\\[\\]=a-c0-9½°%\\\\\u{3000}\u{2028}\u{200B}é-]{0,120}") {
        if let Err(why) = holds_for(&text) {
            prop_assert!(false, "{}", why);
        }
    }

    /// However an example was spoilt, there is one tidy form of it.
    #[test]
    fn a_spoilt_example_is_restored(seed in 1_u64.., which in any::<prop::sample::Index>()) {
        let all = examples();
        let (path, text) = which.get(&all);
        let spoilt = spoil(text, seed);
        // Between two digits a comma may be one of a number: `bake 2027-03-02 05:30,100 rolls` is left as it stands.
        let digits = |line: &str| line.as_bytes().windows(3).any(|three| matches!(three, [a, b',', b] if a.is_ascii_digit() && b.is_ascii_digit()));
        prop_assume!(!spoilt.lines().any(|line| line.starts_with("bake ") && digits(line)));
        prop_assert_eq!(&tidied(&spoilt), text, "{}", path.display());
    }

    /// Lines outside a range stay to the byte, and the file still says the same.
    #[test]
    fn a_range_leaves_the_rest_alone(text in messy_file(), first in 1_usize..40, length in 0_usize..12) {
        let range = LineRange { first, last: first + length };
        let result = tidy(&text, Some(range)).map_err(|fault| TestCaseError::fail(format!("{fault}\n{text}")))?;
        let (before, after) = (read(&text), read(&result));
        prop_assert!(equal_meaning((&before, &text), (&after, &result)));
        // A range is widened to whole blocks: never further than to the next lines that continue nothing.
        let begins = before.lines.iter().take(first).rposition(|line| !line.continues && !line.said.range().is_empty());
        let begins = begins.unwrap_or(0).min(first - 1);
        let head: String = text.split_inclusive('\n').take(begins).collect();
        prop_assert!(result.starts_with(head.trim_start_matches('\u{FEFF}').trim_end()), "{:?}\n{}\n──\n{}", range, text, result);
        let ends = before.lines.iter().enumerate().skip(first + length).find(|(_, line)| !line.continues && !line.said.range().is_empty());
        if let Some((at, _)) = ends {
            let tail: String = text.split_inclusive('\n').skip(at).collect();
            prop_assert!(result.ends_with(&tail), "{:?}\n{}\n──\n{}", range, text, result);
        }
    }
}

// ── the command ──────────────────────────────────────────────────────────────────────────────────────────────────────

const UNTIDY: &str = "recipe Pier rolls\nflour..1 kg\nsalt..20 g\n";
const TIDY: &str = "recipe Pier rolls\nflour ......................... 1 kg\nsalt .......................... 20 g\n";

fn miche(arguments: &[&str], input: &str) -> Output {
    use std::io::Write;
    let mut child = Command::new(env!("CARGO_BIN_EXE_miche"))
        .args(arguments)
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .expect("the program starts");
    child.stdin.take().expect("its input").write_all(input.as_bytes()).expect("it reads");
    child.wait_with_output().expect("it ends")
}

fn out(answer: &Output) -> &str {
    std::str::from_utf8(&answer.stdout).expect("a text")
}

#[test]
fn standard_input_goes_to_standard_output() {
    let answer = miche(&["tidy", "-"], UNTIDY);
    assert_eq!((answer.status.code(), out(&answer)), (Some(0), TIDY));
    let answer = miche(&["tidy", "-", "--check"], UNTIDY);
    assert_eq!((answer.status.code(), out(&answer)), (Some(1), "standard input:2: not tidy from this line on\n"));
    let answer = miche(&["tidy", "-", "--range", "3-3"], UNTIDY);
    let wanted = "recipe Pier rolls\nflour..1 kg\nsalt .......................... 20 g\n";
    assert_eq!((answer.status.code(), out(&answer)), (Some(0), wanted));
}

#[test]
fn a_folder_is_tidied_whole_and_only_what_changes_is_written() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = |name: &str| folder.path().join(name);
    fs::create_dir(path("inner")).expect("a folder");
    fs::write(path("a.miche"), UNTIDY).expect("a file");
    fs::write(path("inner/b.miche"), TIDY).expect("a file");
    fs::write(path("notes.txt"), UNTIDY).expect("a file");
    let written = fs::metadata(path("inner/b.miche")).and_then(|data| data.modified()).expect("a time");
    let root = folder.path().to_str().expect("a plain path");

    let answer = miche(&["tidy", root, "--check"], "");
    assert_eq!(answer.status.code(), Some(1));
    assert_eq!(out(&answer), format!("{root}/a.miche:2: not tidy from this line on\n"));
    assert_eq!(fs::read_to_string(path("a.miche")).expect("a file"), UNTIDY);

    let answer = miche(&["tidy", root], "");
    assert_eq!((answer.status.code(), out(&answer)), (Some(0), &*format!("tidied {root}/a.miche\n")));
    assert_eq!(fs::read_to_string(path("a.miche")).expect("a file"), TIDY);
    assert_eq!(fs::read_to_string(path("notes.txt")).expect("a file"), UNTIDY);
    let now = fs::metadata(path("inner/b.miche")).and_then(|data| data.modified()).expect("a time");
    assert_eq!(now, written);

    let answer = miche(&["tidy", root, "--check"], "");
    assert_eq!((answer.status.code(), out(&answer)), (Some(0), ""));
}

#[test]
fn wrong_use_is_trouble() {
    let folder = tempfile::tempdir().expect("a folder");
    fs::write(folder.path().join("a.miche"), TIDY).expect("a file");
    fs::write(folder.path().join("b.miche"), b"recipe \xff\n").expect("a file");
    let root = folder.path().to_str().expect("a plain path");
    for arguments in [
        &["tidy"][..],
        &["tidy", "nowhere.miche"],
        &["tidy", root],
        &["tidy", root, "--range", "1-2"],
        &["tidy", "-", "--range", "0-2"],
        &["tidy", "-", "--range", "5-2"],
        &["tidy", "-", "--range", "a-b"],
    ] {
        let answer = miche(arguments, "");
        assert_eq!(answer.status.code(), Some(2), "{arguments:?}");
        assert!(!answer.stderr.is_empty(), "{arguments:?}");
    }
}
