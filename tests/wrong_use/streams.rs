//! `-` in the place of a file: standard input and output, the same for every command.

use super::bench::{Bench, FINE, ROLLS, TROUBLE};

/// A log says the same from standard input as from its file.
#[test]
fn a_log_is_read_from_standard_input() {
    let bench = Bench::with("rolls.miche", ROLLS);
    let log = "bakes of \"rolls.miche\"\n\nbake 2026-04-17 05:30\nwater .... 250 g\n";
    let piped = bench.run_on(&["bakes", "-"], log.as_bytes());
    bench.write("rolls-bakes.miche", log);
    let of_file = bench.run(&["bakes", "rolls-bakes.miche"]);
    assert_eq!((piped.code, of_file.code), (Some(FINE), Some(FINE)), "{}{}", piped.told(), of_file.told());
    assert!(of_file.out.contains("1 bake"), "{}", of_file.out);
    assert_eq!(piped.out, of_file.out);
    let recipe = bench.run_on(&["bakes", "-"], ROLLS.as_bytes());
    assert_eq!(recipe.code, Some(TROUBLE), "{}", recipe.told());
    recipe.says(&["no log is of a recipe from standard input"]);
}

/// What can be read once is not named twice.
#[test]
fn standard_input_is_named_once() {
    let bench = Bench::with("rolls.miche", ROLLS);
    let twice: &[&[&str]] = &[
        &["diff", "-", "-"],
        &["plan", "-", "-"],
        &["plan", "-", "--bakes", "-"],
        &["list", "-", "-"],
        &["list", "-", "--from", "-"],
        &["stock", "-", "--from", "-"],
        &["check", "-", "-"],
        &["tidy", "-", "-"],
    ];
    for args in twice {
        let answer = bench.run_on(args, ROLLS.as_bytes());
        assert_eq!((answer.code, answer.out.as_str()), (Some(TROUBLE), ""), "{args:?}\n{}", answer.told());
        answer.says(&["`-` is standard input, which can be read only once"]);
    }
    for args in [&["diff", "rolls.miche", "-"][..], &["list", "-", "rolls.miche"], &["tidy", "-"]] {
        assert_eq!(bench.run_on(args, ROLLS.as_bytes()).code, Some(FINE), "{args:?}");
    }
}

/// A command that takes no standard input says so, and no file called `-` is looked for.
#[test]
fn what_takes_no_standard_input_says_so() {
    let bench = Bench::new();
    for (args, words) in [
        (&["book", "-", "-o", "book.pdf"][..], "a book names its recipes by their files"),
        (&["preview", "-"], "a page follows files as they are saved"),
        (&["history", "-"], "standard input has no history"),
        (&["bakes", "new", "-"], "a bake is written into a file"),
        (&["merge", "-", "ours.miche", "theirs.miche"], "a merge is written into the file of our version"),
        (&["book", ".", "-o", "-"], "a book is made into a folder"),
        (&["setup", "man", "--to", "-"], "the pages are written into a folder"),
    ] {
        bench.refuses(TROUBLE, args).says(&[words]);
    }
}

/// `-o -` prints what is printed without it, and leaves no file of that name.
#[test]
fn standard_output_is_named_the_same_everywhere() {
    let bench = Bench::with("rolls.miche", ROLLS);
    bench.write("there.txt", "flour .... 2 kg\nwater .... 2 kg\nsalt .... 1 kg\ninstant yeast .... 1 kg\n");
    for command in [
        &["card", "rolls.miche"][..],
        &["card", "rolls.miche", "--for", "reader"],
        &["list", "rolls.miche"],
        &["label", "rolls.miche"],
        &["cost", "rolls.miche"],
        &["sums", "rolls.miche"],
        &["plan", "rolls.miche"],
        &["stock", "rolls.miche", "--from", "there.txt"],
        &["diff", "rolls.miche", "rolls.miche"],
    ] {
        for format in [&[][..], &["--format", "text"], &["--format", "json"]] {
            let printed = bench.run(&[command, format].concat());
            let before = bench.contents();
            let named = bench.run(&[command, format, &["-o", "-"]].concat());
            assert_eq!((named.code, &named.out), (printed.code, &printed.out), "{command:?}\n{}", named.told());
            assert_eq!(printed.code, Some(FINE), "{command:?} {format:?}\n{}", printed.told());
            assert_eq!(bench.contents(), before, "{command:?}");
        }
    }
}
