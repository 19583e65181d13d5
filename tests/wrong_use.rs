//! Bad input and wrong use, from outside: what the program is given, what it answers, and that it leaves nothing behind.
//!
//! Exit codes are those of the language's design: 0 fine, 1 errors in the recipe, 2 wrong use or a file that cannot be read.

// Helpers outside a test function fail a test by panicking, as the tests do.
#![allow(clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

#[path = "wrong_use/bench.rs"]
mod bench;

use bench::{Bench, ROLLS, rolls_with};
use std::ffi::OsStr;
use std::fs::{self, File};
use std::process::{Command, Stdio};
use std::time::Duration;

const FINE: i32 = 0;
const ERRORS: i32 = 1;
const TROUBLE: i32 = 2;

/// Wherever the words stand, `miche check` gives an error of that name at that line.
fn check_finds(text: &str, check: &str, line: u64) {
    let bench = Bench::with("loaf.miche", text);
    let answer = bench.refuses(ERRORS, &["check", "loaf.miche", "--format", "json"]);
    let found: serde_json::Value = serde_json::from_str(&answer.out).expect("a list");
    let problems = found.as_array().expect("a list");
    let here = problems.iter().any(|problem| problem["check"] == check && problem["line"] == line);
    assert!(here, "no {check} at line {line}:\n{text}\n{found:#}");
    assert!(problems.iter().all(|problem| problem["severity"] != "error" || !problem["message"].is_null()));
    bench.refuses(ERRORS, &["check", "loaf.miche"]).says(&[check, "loaf.miche"]);
    let card = bench.refuses(ERRORS, &["card", "loaf.miche", "-o", "loaf.html"]);
    assert_eq!(card.out, "", "a card came out all the same");
    card.says(&[check]);
}

#[test]
fn the_recipe_of_these_tests_is_good() {
    let bench = Bench::with("rolls.miche", ROLLS);
    for args in [&["check", "rolls.miche"][..], &["card", "rolls.miche"], &["card", "rolls.miche", "--format", "json"]]
    {
        bench.accepts(args);
    }
}

#[test]
fn not_utf8() {
    let mut bytes = ROLLS.as_bytes().to_vec();
    bytes.extend(b"note caf\xe9\n");
    let bench = Bench::with("latin.miche", &bytes);
    for command in ["check", "card"] {
        bench.refuses(TROUBLE, &[command, "latin.miche"]).says(&["latin.miche", "UTF-8"]);
        let answer = bench.run_on(&[command, "-"], &bytes);
        assert_eq!(answer.code, Some(TROUBLE), "{}", answer.told());
        answer.says(&["UTF-8"]);
    }
    // The same file in UTF-16, as some editors save it.
    let wide: Vec<u8> = ROLLS.encode_utf16().flat_map(u16::to_le_bytes).collect();
    bench.write("wide.miche", [&b"\xff\xfe"[..], &wide].concat());
    bench.refuses(TROUBLE, &["card", "wide.miche"]).says(&["wide.miche", "UTF-8"]);
}

#[test]
fn an_empty_file() {
    for text in ["", "\n", "   \n\t\n", "# only a comment\n", "\u{feff}"] {
        let bench = Bench::with("empty.miche", text);
        bench.refuses(ERRORS, &["check", "empty.miche"]).says(&["empty.miche", "no-title"]);
        bench.refuses(ERRORS, &["card", "empty.miche", "-o", "empty.html"]).says(&["empty.miche"]);
    }
}

#[test]
fn a_folder_for_a_file() {
    let bench = Bench::new();
    fs::create_dir(bench.path("loaves")).expect("a folder");
    bench.refuses(TROUBLE, &["card", "loaves"]).says(&["loaves", "folder"]);
    bench.refuses(TROUBLE, &["card", "."]).says(&["folder"]);
    // `check` takes folders, but not one without a recipe.
    bench.refuses(TROUBLE, &["check", "loaves"]).says(&["loaves"]);
}

#[test]
fn no_such_file() {
    let bench = Bench::new();
    for command in ["check", "card"] {
        bench.refuses(TROUBLE, &[command, "rolls.miche"]).says(&["rolls.miche", "no such file"]);
    }
    // One good file does not make up for one that cannot be read.
    bench.write("rolls.miche", ROLLS);
    bench.refuses(TROUBLE, &["check", "rolls.miche", "rols.miche"]).says(&["rols.miche"]);
}

#[test]
fn a_hundred_megabytes() {
    let bench = Bench::new();
    let file = File::create(bench.path("large.miche")).expect("a file");
    file.set_len(100 * 1024 * 1024).expect("room");
    drop(file);
    bench.write("user.miche", ROLLS.replacen("makes 4 rolls\n", "makes 4 rolls\nuse \"large.miche\"\n", 1));
    for command in ["check", "card"] {
        let answer = bench.refuses(TROUBLE, &[command, "large.miche"]);
        answer.says(&["large.miche", "8 MiB"]);
        assert!(answer.took < Duration::from_secs(5), "{:?}", answer.took);
    }
    bench.refuses(ERRORS, &["check", "user.miche"]).says(&["missing-use", "large.miche", "8 MiB"]);
    // Standard input has no size to look at beforehand.
    let answer = bench.run_on(&["card", "-"], &vec![b'\n'; 9 * 1024 * 1024]);
    assert_eq!(answer.code, Some(TROUBLE), "{}", answer.told());
    answer.says(&["8 MiB"]);
}

#[test]
#[cfg(unix)]
fn an_endless_file_ends() {
    let bench = Bench::new();
    let answer = bench.refuses(TROUBLE, &["card", "/dev/zero"]);
    answer.says(&["8 MiB"]);
    assert!(answer.took < Duration::from_secs(10), "{:?}", answer.took);
}

#[test]
fn a_missing_use() {
    let text = rolls_with("makes 4 rolls\n", "makes 4 rolls\nuse \"bakehous.miche\"\n");
    check_finds(&text, "missing-use", 3);
    let bench = Bench::with("loaf.miche", &text);
    bench.write("bakehouse.miche", "kitchen Pier bakehouse\noven x 1\n");
    bench.refuses(ERRORS, &["check", "loaf.miche"]).says(&["bakehous.miche", "did you mean `bakehouse.miche`?"]);
    for path in ["", ".", "no/such/folder.miche", "loaf.miche/in/a/file"] {
        check_finds(&rolls_with("makes 4 rolls\n", &format!("makes 4 rolls\nuse \"{path}\"\n")), "missing-use", 3);
    }
}

#[test]
fn a_use_that_leaves_the_root() {
    let outer = tempfile::tempdir().expect("a folder");
    let inner = outer.path().join("project");
    fs::create_dir_all(inner.join(".git")).expect("a root");
    fs::create_dir_all(inner.join("loaves")).expect("a folder");
    let secret = "kitchen Elsewhere\noven x 1\n";
    fs::write(outer.path().join("secret.miche"), secret).expect("a file");
    fs::write(inner.join("shared.miche"), secret).expect("a file");
    let bench = Bench { folder: outer };
    let user = |path: &str| rolls_with("makes 4 rolls\n", &format!("makes 4 rolls\nuse \"{path}\"\n"));
    let absolute = bench.path("secret.miche").display().to_string();
    for path in ["../../secret.miche", "../../project/../secret.miche", absolute.as_str()] {
        bench.write("project/loaves/rolls.miche", user(path));
        let answer = bench.refuses(ERRORS, &["check", "project/loaves/rolls.miche"]);
        answer.says(&["use-outside-root", "rolls.miche"]);
        bench.refuses(ERRORS, &["card", "project/loaves/rolls.miche"]);
    }
    bench.write("project/loaves/rolls.miche", user("../shared.miche"));
    let answer = bench.run(&["check", "project/loaves/rolls.miche"]);
    assert_eq!(answer.code, Some(FINE), "up to the root is allowed\n{}", answer.told());
    // Without a project the file's own folder is the root.
    fs::remove_dir(bench.path("project/.git")).expect("gone");
    bench.refuses(ERRORS, &["check", "project/loaves/rolls.miche"]).says(&["use-outside-root"]);
}

#[test]
#[cfg(unix)]
fn a_link_that_leaves_the_root() {
    let outside = Bench::with("secret.miche", "kitchen Elsewhere\noven x 1\n");
    let bench = Bench::with("rolls.miche", rolls_with("makes 4 rolls\n", "makes 4 rolls\nuse \"link.miche\"\n"));
    std::os::unix::fs::symlink(outside.path("secret.miche"), bench.path("link.miche")).expect("a link");
    bench.refuses(ERRORS, &["check", "rolls.miche"]).says(&["use-outside-root"]);
}

#[test]
fn a_ring_of_uses() {
    let uses = |path: &str| rolls_with("makes 4 rolls\n", &format!("makes 4 rolls\nuse \"{path}\"\n"));
    let bench = Bench::with("one.miche", uses("two.miche"));
    bench.write("two.miche", uses("three.miche"));
    bench.write("three.miche", uses("one.miche"));
    bench.refuses(ERRORS, &["check", "one.miche"]).says(&["use-ring", "one.miche", "two.miche", "three.miche"]);
    bench.refuses(ERRORS, &["card", "one.miche"]).says(&["use-ring"]);
    bench.write("self.miche", uses("self.miche"));
    bench.refuses(ERRORS, &["check", "self.miche"]).says(&["use-ring", "self.miche"]);
}

#[test]
fn numbers_that_cannot_be() {
    let over_long = format!("{} g", "9".repeat(400));
    let tiny = format!("0.{}1 g", "0".repeat(400));
    let amounts = [
        "1/0 kg",
        "0/0 kg",
        "1 1/0 kg",
        "1e400 g",
        "1e-400 g",
        "99999999999999999999 kg",
        "170141183460469231731687303715884105728 g",
        "-400 g",
        "500-400 g",
        &over_long,
        &tiny,
    ];
    for amount in amounts {
        check_finds(&rolls_with("400 g", amount), "impossible-number", 4);
    }
    check_finds(&rolls_with("62 %", "1/0 %"), "impossible-number", 5);
    check_finds(&rolls_with("makes 4 rolls", "makes 1/0 rolls"), "impossible-number", 2);
    check_finds(&rolls_with("hands 10 min", "hands 1/0 min"), "impossible-number", 9);
    check_finds(&rolls_with("400 g", "0,4 kg"), "decimal-comma", 4);
    for amount in ["NaN g", "inf g", "0x10 g", "１２ g"] {
        let bench = Bench::with("loaf.miche", rolls_with("400 g", amount));
        bench.refuses(ERRORS, &["check", "loaf.miche"]).says(&["loaf.miche:4"]);
    }
}

/// Sums can leave the range although every number in them is in it.
#[test]
fn sums_that_cannot_be_kept() {
    let digits = "123456789.123456789";
    let mut text = String::from("recipe Overflow\n\n");
    for at in 1..=12 {
        text.push_str(&format!("flour number {at} .... {digits}{at}7 kg, counts as flour\n"));
        text.push_str(&format!("thing {at} .... 0.12345678{at}%\n"));
    }
    let bench = Bench::with("loaf.miche", &text);
    for args in
        [&["check", "loaf.miche"][..], &["card", "loaf.miche"], &["card", "loaf.miche", "--times", "0.000000001"]]
    {
        let answer = bench.run(args);
        assert!(matches!(answer.code, Some(FINE | ERRORS | TROUBLE)), "{args:?} {:?}\n{}", answer.code, answer.told());
    }
}

#[test]
fn control_characters_in_the_text() {
    let bad =
        ["\u{1b}[31m", "\u{7}", "\u{0}", "\u{8}", "\u{7f}", "\u{9b}31m", "\u{85}", "\u{b}", "\u{1b}]0;title\u{7}"];
    let places = [
        ("Pier rolls", 1),
        ("4 rolls", 2),
        ("strong white flour", 4),
        ("water .", 5),
        ("62 %", 5),
        ("mix:", 9),
        ("hands", 9),
        ("Mix {", 10),
        ("{water}", 10),
        ("smooth", 11),
    ];
    for bad in bad {
        for (place, line) in places {
            let (head, tail) = place.split_at(1);
            check_finds(&rolls_with(place, &format!("{head}{bad}{tail}")), "hidden-character", line);
        }
    }
    // A form feed or a carriage return in mid-line hides what stands before it.
    check_finds(&rolls_with("400 g", "400 g\r900 g"), "hidden-character", 4);
    // Windows line ends are no hidden characters.
    let bench = Bench::with("rolls.miche", ROLLS.replace('\n', "\r\n"));
    assert_eq!(bench.run(&["check", "rolls.miche"]).code, Some(FINE));
    // A tab may indent, but is not sent on.
    bench.write("tab.miche", ROLLS.replace("    ", "\t").replace("makes 4 rolls", "makes 4 rolls\nnote a\tb"));
    for format in ["text", "markdown", "html", "json"] {
        let answer = bench.run(&["card", "tab.miche", "--format", format]);
        assert_eq!(answer.code, Some(FINE), "{format}\n{}", answer.told());
    }
}

#[test]
fn every_format_refuses_hidden_characters() {
    let bench = Bench::with("loaf.miche", rolls_with("water .", "wa\u{1b}[2Jter ."));
    for format in ["text", "markdown", "html", "json"] {
        let answer = bench.refuses(ERRORS, &["card", "loaf.miche", "--format", format]);
        assert_eq!(answer.out, "", "{format}");
    }
}

#[test]
#[cfg(unix)]
fn control_characters_in_file_names_and_options() {
    use std::os::unix::ffi::OsStrExt;
    let bench = Bench::with("rolls.miche", ROLLS);
    bench.write(OsStr::from_bytes(b"a\x1b[31mb.miche"), rolls_with("400 g", "1/0 g"));
    bench.write(OsStr::from_bytes(b"not\xffutf8.miche"), rolls_with("400 g", "1/0 g"));
    for name in [&b"a\x1b[31mb.miche"[..], b"not\xffutf8.miche"] {
        bench.refuses(ERRORS, &[OsStr::new("check"), OsStr::from_bytes(name)]);
        bench.refuses(ERRORS, &[OsStr::new("card"), OsStr::from_bytes(name)]);
        bench.refuses(
            ERRORS,
            &[OsStr::new("check"), OsStr::from_bytes(name), OsStr::new("--format"), OsStr::new("json")],
        );
    }
    bench.refuses(TROUBLE, &[OsStr::new("card"), OsStr::from_bytes(b"no\x1b[2Jfile\x9b.miche")]);
    bench.refuses(TROUBLE, &["card", "rolls.miche", "--choose", "\u{1b}[31m"]);
    bench.refuses(TROUBLE, &["card", "rolls.miche", "--format", "\u{1b}[31m"]);
    bench.refuses(TROUBLE, &["card", "rolls.miche", "--pieces", "\u{1b}[31m"]);
    bench.refuses(TROUBLE, &["card", "rolls.miche", "--have", "\u{1b}[31m=1 kg"]);
    bench.refuses(TROUBLE, &["card", "rolls.miche", "--\u{1b}[31m"]);
    bench.refuses(TROUBLE, &["\u{9b}31m"]);
    bench.refuses(TROUBLE, &["explain", "\u{1b}[31m"]);
    bench.refuses(TROUBLE, &["card", "rolls.miche", "-o", "no\u{1b}[31m/card.html"]);
}

/// Where colour is wanted escape sequences are the program's own, never those it was given.
#[test]
fn colour_lets_nothing_through() {
    let bench = Bench::with("loaf.miche", rolls_with("water .", "wa\u{1b}[2J\u{9b}2Jter ."));
    bench.write("rolls.miche", ROLLS);
    let given: &[&[&str]] = &[
        &["--\u{1b}[2J\u{9b}2J"],
        &["\u{1b}[2J\u{9b}2J"],
        &["card", "rolls.miche", "--format", "\u{1b}[2J\u{9b}2J"],
        &["card", "rolls.miche", "--choose", "\u{1b}[2J\u{9b}2J"],
        &["explain", "\u{1b}[2J\u{9b}2J"],
        &["check", "loaf.miche", "--color", "always"],
        &["card", "loaf.miche", "--color", "always"],
    ];
    for args in given {
        let mut program = Command::new(env!("CARGO_BIN_EXE_miche"));
        program.args(*args).current_dir(bench.folder.path()).env("CLICOLOR_FORCE", "1").env_remove("NO_COLOR");
        let output = program.output().expect("the program starts");
        let told = String::from_utf8_lossy(&[output.stdout, output.stderr].concat()).into_owned();
        assert!(!told.trim().is_empty() && output.status.code() != Some(FINE), "{args:?}");
        assert!(
            !told.contains("\u{1b}[2J") && !told.contains('\u{9b}'),
            "{args:?} sends on what it was given\n{told:?}"
        );
    }
}

#[test]
fn unknown_options_and_formats() {
    let bench = Bench::with("rolls.miche", ROLLS);
    let wrong: &[&[&str]] = &[
        &[],
        &["bake"],
        &["card"],
        &["check"],
        &["card", "rolls.miche", "--nonsense"],
        &["check", "rolls.miche", "--nonsense"],
        &["card", "rolls.miche", "--format", "docx"],
        &["check", "rolls.miche", "--format", "docx"],
        &["card", "rolls.miche", "--format"],
        &["card", "rolls.miche", "--units", "stones"],
        &["card", "rolls.miche", "--color", "beige"],
        &["card", "rolls.miche", "-o", "card.docx"],
        &["card", "rolls.miche", "-o", "card"],
        &["card", "rolls.miche", "--choose", "by hand"],
        &["card", "rolls.miche", "--choose", "mixing=hand"],
        &["explain", "no-such-check"],
    ];
    for format in ["text", "markdown", "html", "json"] {
        bench.accepts(&["card", "rolls.miche", "--format", format, "--units", "us", "--color", "never"]);
    }
    bench.accepts(&["explain", "stray-line"]);
    for args in wrong {
        bench.refuses(TROUBLE, args);
    }
    bench.refuses(TROUBLE, &["card", "rolls.miche", "--format", "docx"]).says(&["docx", "html"]);
    bench.refuses(TROUBLE, &["card", "rolls.miche", "--peices", "4"]).says(&["--pieces"]);
}

#[test]
fn a_card_that_cannot_be_written() {
    let bench = Bench::with("rolls.miche", ROLLS);
    bench.refuses(TROUBLE, &["card", "rolls.miche", "-o", "missing/card.html"]).says(&["missing"]);
    fs::create_dir(bench.path("card.html")).expect("a folder");
    bench.refuses(TROUBLE, &["card", "rolls.miche", "-o", "card.html"]).says(&["card.html"]);
    // With errors in the recipe the old card stays as it is.
    bench.write("old.html", "the old card");
    bench.write("bad.miche", rolls_with("400 g", "1/0 g"));
    bench.refuses(ERRORS, &["card", "bad.miche", "-o", "old.html"]);
    bench.refuses(TROUBLE, &["card", "rolls.miche", "-o", "old.html", "--pieces", "0"]);
    assert_eq!(fs::read_to_string(bench.path("old.html")).ok().as_deref(), Some("the old card"));
    // And when all is well it is replaced, with nothing left beside it.
    let before = bench.contents().len();
    let answer = bench.run(&["card", "rolls.miche", "-o", "old.html"]);
    assert_eq!(answer.code, Some(FINE), "{}", answer.told());
    assert!(fs::read_to_string(bench.path("old.html")).expect("a card").contains("Pier rolls"));
    assert_eq!(bench.contents().len(), before);
}

#[test]
fn batches_that_cannot_be() {
    let bench = Bench::with("rolls.miche", ROLLS);
    let wrong: &[&[&str]] = &[
        &["--pieces", "0"],
        &["--pieces", "2.5"],
        &["--pieces", "-3"],
        &["--pieces", "many"],
        &["--pieces", "1/0"],
        &["--pieces", ""],
        &["--pieces", "99999999999999999999999999999999999999999"],
        &["--times", "0"],
        &["--times", "-1"],
        &["--times", "1e400"],
        &["--times", "1/0"],
        &["--times", "NaN"],
        &["--total", "0 g"],
        &["--total", "-1 kg"],
        &["--total", "1 l"],
        &["--total", "3"],
        &["--total", "1/0 kg"],
        &["--base", "0 g"],
        &["--base", "20 C"],
        &["--have", "water"],
        &["--have", "water=0 g"],
        &["--have", "saffron=1 kg"],
        &["--pieces", "8", "--times", "2"],
    ];
    for right in
        [["--pieces", "8"], ["--times", "2"], ["--total", "660 g"], ["--base", "1 kg"], ["--have", "water=992 g"]]
    {
        bench.accepts(&["card", "rolls.miche", right[0], right[1]]);
    }
    for args in wrong {
        let mut all = vec!["card", "rolls.miche", "-o", "card.html"];
        all.extend(*args);
        bench.refuses(TROUBLE, &all);
    }
}

#[test]
fn whole_pieces_stay_whole() {
    let bench = Bench::with("rolls.miche", ROLLS);
    // 4 x 1.3 = 5.2 rolls: 5 or 6 can be made.
    let answer = bench.refuses(TROUBLE, &["card", "rolls.miche", "--times", "1.3"]);
    assert!(answer.names_number("5") && answer.names_number("6"), "it names no batch that can be\n{}", answer.told());
    // 500 g of flour make exactly 5 rolls, 450 g do not.
    let answer = bench.refuses(TROUBLE, &["card", "rolls.miche", "--base", "450 g"]);
    assert!(answer.names_number("4") && answer.names_number("5"), "it names no batch that can be\n{}", answer.told());
    for args in [["--times", "1.25"], ["--base", "500 g"], ["--pieces", "5"]] {
        let answer = bench.run(&["card", "rolls.miche", "--format", "json", args[0], args[1]]);
        assert_eq!(answer.code, Some(FINE), "{args:?}\n{}", answer.told());
        let card: serde_json::Value = serde_json::from_str(&answer.out).expect("a card");
        assert_eq!(card["makes"]["pieces"].as_f64(), Some(5.0), "{args:?}");
        assert_eq!(card["parts"][0]["base_g"].as_f64(), Some(500.0), "{args:?}");
    }
    // Less than one roll cannot be made at all.
    let answer = bench.refuses(TROUBLE, &["card", "rolls.miche", "--times", "0.1"]);
    assert!(answer.names_number("1"), "{}", answer.told());
}

#[test]
fn standard_input() {
    let bench = Bench::new();
    let card = bench.run_on(&["card", "-", "--format", "json"], ROLLS.as_bytes());
    assert_eq!(card.code, Some(FINE), "{}", card.told());
    let card: serde_json::Value = serde_json::from_str(&card.out).expect("a card");
    assert_eq!(card["recipe"], "Pier rolls");
    assert_eq!(bench.run_on(&["check", "-"], ROLLS.as_bytes()).code, Some(FINE));
    for command in ["check", "card"] {
        let answer = bench.run_on(&[command, "-"], rolls_with("400 g", "1/0 g").as_bytes());
        assert_eq!(answer.code, Some(ERRORS), "{}", answer.told());
        answer.says(&["impossible-number", "standard input"]);
        assert_eq!(bench.run_on(&[command, "-"], b"").code, Some(ERRORS), "nothing at all");
    }
}

#[test]
fn a_reader_that_goes_away_is_no_crash() {
    let bench = Bench::with("rolls.miche", ROLLS);
    for args in [&["card", "rolls.miche", "--format", "html"][..], &["check", "rolls.miche"], &["explain"]] {
        let mut child = Command::new(env!("CARGO_BIN_EXE_miche"))
            .args(args)
            .current_dir(bench.folder.path())
            .stdout(Stdio::piped())
            .stderr(Stdio::piped())
            .spawn()
            .expect("the program starts");
        drop(child.stdout.take());
        let output = child.wait_with_output().expect("it ends");
        let told = String::from_utf8_lossy(&output.stderr);
        assert!(!told.contains("panicked"), "{args:?}\n{told}");
        assert_ne!(output.status.code(), Some(101), "{args:?}\n{told}");
    }
}

/// Text that looks like nothing, or like too much, still ends in an exit code of the design.
#[test]
fn nonsense_ends_in_an_answer() {
    let deep = format!("recipe Deep\nflour .... 1 kg\nmix: hands 1 min\n    {}\n", "{".repeat(4_000));
    let quoted = format!("recipe Quoted\nuse \"{}\"\n", "a/".repeat(5_000));
    let wide = format!("recipe Wide\n{} .... 1 kg\n", "flour ".repeat(20_000));
    let terms = format!("recipe Terms\nflour .... {}\n", "1 lb ".repeat(5_000));
    let chain = format!("recipe Chain\nflour .... 1 kg{}\n", " = 1 kg".repeat(5_000));
    let clauses = format!("recipe Clauses\nflour .... 1 kg{}\n", ", chopped".repeat(5_000));
    let dots = format!("recipe Dots\nflour {} 1 kg\n", ".".repeat(200_000));
    let options = format!("recipe Options\nchoose way: {}\n", vec!["a"; 300].join(" or "));
    let choices: String = (0..40).map(|at| format!("choose way {at}: left {at} or right {at}\n")).collect();
    let choices = format!("recipe Choices\n{choices}flour .... 1 kg\n");
    let parts: String = (0..400).map(|at| format!("part p{at}\np{} .... 1 kg\n", at + 1)).collect();
    let parts = format!("recipe Parts\n{parts}part p400\nflour .... 1 kg\n");
    let brackets = format!("recipe Brackets\nflour .... 1 kg {}\n", "[".repeat(20_000));
    for text in [deep, quoted, wide, terms, chain, clauses, dots, options, choices, parts, brackets] {
        let bench = Bench::with("loaf.miche", &text);
        let name = text.lines().next().unwrap_or_default();
        for command in ["check", "card"] {
            let answer = bench.run(&[command, "loaf.miche"]);
            assert!(matches!(answer.code, Some(FINE | ERRORS | TROUBLE)), "{name}: {:?}\n{}", answer.code, answer.err);
            assert!(answer.took < Duration::from_secs(20), "{name}: {command} took {:?}", answer.took);
        }
    }
}
