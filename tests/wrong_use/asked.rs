//! What is asked for that cannot be meant, and what is written that nobody reads.

use super::bench::{Bench, FINE, ROLLS, TROUBLE};

/// A size, a choice or what there is is of one recipe: of two it would be counted twice.
#[test]
fn a_size_is_of_one_recipe() {
    let bench = Bench::with("rolls.miche", ROLLS);
    bench.write("buns.miche", ROLLS.replacen("Pier rolls", "Quay buns", 1));
    for command in ["plan", "list"] {
        for option in [["--pieces", "8"], ["--total", "2 kg"], ["--base", "1 kg"], ["--use-up", "salt=20 g"]] {
            let args = [&[command, "rolls.miche", "buns.miche"][..], &option].concat();
            bench.refuses(TROUBLE, &args).says(&["are about one recipe"]);
        }
        assert_eq!(bench.run(&[command, "rolls.miche", "buns.miche"]).code, Some(FINE));
    }
    bench
        .refuses(TROUBLE, &["plan", "rolls.miche", "buns.miche", "--have", "salt=20 g"])
        .says(&["are about one recipe"]);
    // What a list is lacking is counted once, over all of it.
    assert_eq!(bench.run(&["list", "rolls.miche", "buns.miche", "--have", "salt=20 g"]).code, Some(FINE));
}

/// A day says when it is ready; one that does not takes the option.
#[test]
fn a_day_that_is_ready_by_itself_takes_no_other_time() {
    let bench = Bench::with("rolls.miche", ROLLS);
    bench.write("day.miche", "day Saturday\nready 2027-04-17 09:00\nmake 4 of \"rolls.miche\"\n");
    bench.write("any.miche", "day Any\nmake 4 of \"rolls.miche\"\n");
    let ready = ["--ready", "2026-12-05 15:00", "--zone", "UTC"];
    for files in [&["day.miche"][..], &["day.miche", "rolls.miche"]] {
        let args = [&["plan"], files, &ready].concat();
        bench.refuses(TROUBLE, &args).says(&["a day says itself when it is ready"]);
    }
    let any = bench.run(&[&["plan", "any.miche"][..], &ready].concat());
    assert_eq!(any.code, Some(FINE), "{}", any.told());
    assert!(any.out.contains("5 December 2026"), "{}", any.out);
}

/// Lists in lists without end are told in every format, and no memory runs out.
#[test]
fn lists_in_lists_end() {
    let deep = |mark: &str| format!("{ROLLS}note {}the end\n", mark.repeat(20_000));
    for mark in ["- ", "> ", "1. - > "] {
        let bench = Bench::with("rolls.miche", deep(mark));
        for format in ["text", "markdown", "html", "pdf", "json"] {
            for more in [&[][..], &["--for", "reader"]] {
                let args = [&["card", "rolls.miche", "--format", format, "-o", "out"][..], more].concat();
                let answer = bench.run(&args);
                assert_eq!(answer.code, Some(FINE), "{mark}: {format} {more:?}\n{}", answer.err);
            }
        }
    }
}

/// The help of a command offers what the command takes.
#[test]
fn the_help_offers_what_is_taken() {
    let bench = Bench::new();
    let help = |command: &str| {
        let out = bench.run(&[command, "--help"]).out;
        out.split_whitespace().collect::<Vec<&str>>().join(" ")
    };
    let list = help("list");
    assert!(list.contains("only what is lacking is bought"), "{list}");
    let stock = help("stock");
    for option in ["--pieces", "--times", "--total", "--base", "--use-up"] {
        assert!(!stock.contains(option), "{option}: {stock}");
        assert!(list.contains(option) || option == "--use-up", "{option}: {list}");
    }
}
