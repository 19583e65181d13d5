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

/// Figures below nothing, of nothing and of no name are told by what they are for, and no option is called `-1`.
#[test]
fn figures_that_are_none_are_told_with_their_option() {
    let bench = Bench::with("rolls.miche", ROLLS);
    for (args, words) in [
        (&["card", "rolls.miche", "--total", "-1 kg"][..], "--total -1 kg: nothing is less than nothing"),
        (&["card", "rolls.miche", "--base", "-1 kg"], "--base -1 kg: nothing is less than nothing"),
        (&["card", "rolls.miche", "--pieces", "-1"], "--pieces -1: nothing is less than nothing"),
        (&["card", "rolls.miche", "--total", "1 000 g"], "--total 1 000 g: digits are not grouped: write `1000`"),
        (&["card", "rolls.miche", "--times", "1.000,5"], "--times 1.000,5: digits are not grouped: write `1000.5`"),
        (&["card", "rolls.miche", "--total", "0 kg"], "--total 0 kg: a batch is more than nothing"),
        (&["card", "rolls.miche", "--have", "salt=0 kg"], "--have salt=0 kg: of nothing nothing is made"),
        (&["card", "rolls.miche", "--have", "=1 kg"], "--have =1 kg: this is not a name and how much there is"),
        (&["plan", "rolls.miche", "--limit", "-1s"], "--limit -1s: this is no time"),
        (&["plan", "rolls.miche", "--limit", "0s"], "--limit 0s: this is no time"),
        (&["history", "rolls.miche", "--last", "0"], "--last 0: that is none"),
        (&["sums", "rolls.miche", "--seed", "20 g", "--feeds", "1.5"], "--feeds 1.5: this is not a whole number"),
        (&["label", "rolls.miche", "--made", "foo"], "--made foo: this is not a date"),
        (&["sums", "rolls.miche", "--tin", "-1"], "--tin -1: this is not a tin; write `tin 23 cm"),
        (&["plan", "rolls.miche", "--ready", "-1"], "--ready -1: this is no time; write day and time"),
        (&["plan", "rolls.miche", "--ready", "-0:30"], "--ready -0:30: this is no time; write day and time"),
        (&["card", "rolls.miche", "--have", "-1"], "--have -1: nothing is less than nothing"),
        (&["label", "rolls.miche", "--pack", "-1"], "--pack -1: this is not a whole number"),
        (&["label", "rolls.miche", "--sheet", "-.5"], "--sheet -.5: the columns and rows cannot be read"),
        (&["card", "rolls.miche", "--choose", "-1"], "--choose -1: the recipe offers no choice"),
        (
            &["card", "rolls.miche", "--units", "-1"],
            "--units -1: there is none of that name; write one of metric, us and both",
        ),
        (
            &["plan", "rolls.miche", "--by", "oven"],
            "--by oven: there is none of that name; write one of person and equipment",
        ),
        (&["preview", "rolls.miche", "--port", "-1"], "--port -1: this is not a port from 0 to 65535"),
    ] {
        let answer = bench.refuses(TROUBLE, args);
        assert!(answer.err.starts_with(&format!("miche: {words}")), "{args:?}: {}", answer.err);
    }
}

/// Two options of one choice, and an option of a choice that there is not.
#[test]
fn one_option_is_taken_of_each_choice() {
    let text = ROLLS.replacen("makes 4 rolls\n", "makes 4 rolls\nchoose mixing: machine or hand\n", 1);
    let bench = Bench::with("rolls.miche", text.replacen("hands 10 min", "hands 10 min [machine]", 1).replacen(
        "    until smooth\n",
        "    until smooth\nmix: hands 15 min [hand]\n    Mix {strong white flour}, {water}, {salt} and {instant yeast}.\n    until smooth\n",
        1,
    ));
    bench.accepts(&["card", "rolls.miche", "--choose", "hand", "--choose", "mixing=hand"]);
    bench
        .refuses(TROUBLE, &["card", "rolls.miche", "--choose", "hand", "--choose", "machine"])
        .says(&["--choose machine: of `mixing` another option was taken before"]);
    bench.refuses(TROUBLE, &["card", "rolls.miche", "--choose", "mix=hand"]).says(&["did you mean `mixing=hand`?"]);
}

/// A file whose name begins with a dash is no option.
#[test]
fn a_file_with_a_dash_is_named_as_one() {
    let bench = Bench::with("-dash.miche", ROLLS);
    bench.refuses(TROUBLE, &["check", "-dash.miche"]).says(&["write `./-dash.miche`"]);
    bench.accepts(&["check", "./-dash.miche"]);
}

/// Of nothing no formula is made, and no file is written.
#[test]
fn nothing_is_no_notes() {
    let bench = Bench::with("empty.txt", "\u{feff} \n\n");
    bench.refuses(TROUBLE, &["new", "--from", "empty.txt"]).says(&["empty.txt: there is nothing in it"]);
    bench.refuses(TROUBLE, &["new", "--from", "-"]).says(&["there is nothing in it"]);
}
