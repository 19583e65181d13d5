//! Bad input and wrong use, from outside: what the program is given, what it answers, and that it leaves nothing behind.
//!
//! Exit codes are those of the language's design: 0 fine, 1 errors in the recipe, 2 wrong use or a file that cannot be read.

// Helpers outside a test function fail a test by panicking, as the tests do.
#![allow(clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

#[path = "wrong_use/asked.rs"]
mod asked;
#[path = "wrong_use/bench.rs"]
mod bench;
#[path = "wrong_use/files.rs"]
mod files;
#[path = "wrong_use/streams.rs"]
mod streams;
#[path = "wrong_use/unused.rs"]
mod unused;

use bench::{Bench, ERRORS, FINE, ROLLS, TROUBLE, check_finds, rolls_with};
use std::ffi::OsStr;
use std::fs;
use std::process::{Command, Stdio};
use std::time::Duration;

#[test]
fn the_recipe_of_these_tests_is_good() {
    let bench = Bench::with("rolls.miche", ROLLS);
    for args in [&["check", "rolls.miche"][..], &["card", "rolls.miche"], &["card", "rolls.miche", "--format", "json"]]
    {
        bench.accepts(args);
    }
}

/// What is near to a line of the language and is none is told where it belongs; so is a slip that no name gives away.
#[test]
fn what_stands_in_the_wrong_place_is_told_where_it_belongs() {
    for (text, words) in [
        (
            "recipe Loaf\nmakes 2 loaves\nbake loss 12 %\n\nstrong white flour .... 1 kg\nwater ................. 600 g\nsalt .................. 20 g\ninstant yeast ......... 10 g\ndivide 2 x 800 g, loss 2 %\n",
            "behind what is made: `makes 12 loaves, bake loss 12 %`",
        ),
        (
            "recipe Plum jam\n\npart jam\nplums ......... 1 kg\nsugar ......... 600 g\nloss: 8 %\n",
            "a loss is said behind what comes out of it",
        ),
        ("ingredient gull's sorrel\nprice 2 per kg\n", "it is written `costs 1.10 per kg`"),
        (
            "recipe Quay rolls\n\npart dough\nstrong white flour .... 1 kg\nwater ................. 600 g\nsalt .................. 20 g\ninstant yeast ......... 10 g\nmix: hands 10 min\n    Mix {strong white flour}, {water}, {salt} and {instant yeast}.\n    until smooth\n\npart rolls\ndough ................. all\ndough of Quay rolls ... 40 g, for the tins\nshape: hands 1 min, each\n    Shape {dough} and {dough of Quay rolls}.\n",
            "`Quay rolls` has a part `dough`",
        ),
        (
            "recipe Quay flatbread\n\nstrong white flour .... 5 kg\nwater ................. 3 kg\nsalt .................. 100 kg\nmix: hands 10 min\n    Mix {strong white flour}, {water} and {salt}.\n    until smooth\n",
            "error[extreme-percent]",
        ),
    ] {
        Bench::with("rolls.miche", text).run(&["check", "rolls.miche"]).says(&[words]);
    }
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
    check_finds(&rolls_with("makes 4 rolls\n", "makes 4 rolls\nkeeps 0 days\n"), "impossible-number", 3);
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

/// `24 g, each` looked like a preparation, and twelve pieces got 24 g together.
#[test]
fn an_amount_for_one_piece_is_no_preparation() {
    for words in ["each", "Each", "per piece", "apiece", "per bun", "for each one", "each piece"] {
        check_finds(&rolls_with("400 g", &format!("400 g, {words}")), "stray-line", 4);
    }
    let bench = Bench::with("rolls.miche", rolls_with("400 g", "400 g, a little for each of the tins"));
    bench.accepts(&["check", "rolls.miche"]);
}
