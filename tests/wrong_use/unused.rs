//! Options that change nothing in the format or beside the option they are given with.

use super::bench::{Bench, FINE, ROLLS, TROUBLE};

/// Each is told of on standard error in one line that names it, and what is printed is what is printed without it.
#[test]
fn what_changes_nothing_is_told() {
    let bench = Bench::with("rolls.miche", ROLLS);
    let cases: &[(&[&str], &[&str], &str)] = &[
        (&["card", "rolls.miche", "--format", "text"], &["--paper", "a5"], "--paper is for html and pdf"),
        (&["card", "rolls.miche", "--format", "json"], &["--compact"], "--compact is for html and pdf"),
        (&["card", "rolls.miche", "--format", "markdown"], &["--orientation", "landscape"], "--orientation is for"),
        (&["card", "rolls.miche", "--format", "text"], &["--date", "2027-04-17"], "--date is for html and pdf"),
        (&["card", "rolls.miche", "--format", "text"], &["--by", "station"], "--by is for html and pdf"),
        (&["card", "rolls.miche", "--for", "reader"], &["--by", "part"], "--by changes nothing beside --for reader"),
        (&["list", "rolls.miche"], &["--by", "part"], "--by changes nothing of a list"),
        (&["cost", "rolls.miche", "--format", "html"], &["--paper", "a5"], "--paper is for pdf"),
        (&["plan", "rolls.miche", "--format", "json"], &["--by", "person"], "--by is for text, markdown, html and pdf"),
        (&["label", "rolls.miche", "--format", "json"], &["--report"], "--report is for"),
        (
            &["label", "rolls.miche"],
            &["--serving", "50 g"],
            "--serving changes nothing here: a label of the European Union",
        ),
        (&["cost", "rolls.miche"], &["--on", "2027-04-17"], "--on changes nothing here: no price says of which day"),
        (&["plan", "rolls.miche"], &["--zone", "Europe/Oslo"], "--zone changes nothing here: no time of day is said"),
    ];
    for (args, more, words) in cases {
        let without = bench.run(args);
        let with = bench.run(&[*args, *more].concat());
        assert_eq!((with.code, &with.out), (Some(FINE), &without.out), "{args:?} {more:?}\n{}", with.err);
        let new: Vec<&str> = with.err.lines().filter(|line| !without.err.contains(line)).collect();
        assert!(matches!(new.as_slice(), [one] if one.contains(words)), "`{words}` is not alone in {new:?}");
    }
}

/// Where they do change something nothing is told.
#[test]
fn what_is_used_is_not_told() {
    let bench = Bench::with("rolls.miche", ROLLS);
    for args in [
        &["card", "rolls.miche", "--format", "html", "--paper", "a5", "--by", "station", "--compact"][..],
        &["cost", "rolls.miche", "--paper", "a5", "-o", "cost.pdf"],
        &["plan", "rolls.miche", "--by", "person", "--what-if", "oven x 2"],
        &["plan", "rolls.miche", "--zone", "Europe/Oslo", "--ready", "2027-04-17 15:00"],
        &["label", "rolls.miche", "--law", "us", "--serving", "50 g"],
        &["card", "rolls.miche", "-o", "card.md"],
        &["card", "rolls.miche", "-o", "card.txt", "--format", "markdown"],
    ] {
        let answer = bench.run(args);
        assert_eq!(answer.code, Some(FINE), "{args:?}\n{}", answer.told());
        assert!(!answer.err.contains("miche:"), "{args:?}: {}", answer.err);
    }
    let other = bench.run(&["card", "rolls.miche", "-o", "card.pdf", "--format", "html"]);
    assert_eq!(other.code, Some(FINE), "{}", other.told());
    other.says(&["card.pdf: what is written is html, as --format says"]);
}

/// A date that cannot be read is refused in every format.
#[test]
fn a_date_is_read_whatever_the_format() {
    let bench = Bench::with("rolls.miche", ROLLS);
    for format in ["text", "markdown", "html", "pdf", "json"] {
        let args = ["card", "rolls.miche", "--date", "foo", "--format", format];
        bench.refuses(TROUBLE, &args).says(&["--date foo: this is not a date"]);
    }
}

/// More labels than are printed at once are refused, and not cut down in silence; a list of stock is told of what it is.
#[test]
fn nothing_is_cut_down_in_silence() {
    let bench = Bench::with("rolls.miche", ROLLS);
    for file in ["l.pdf", "l.html"] {
        let args = ["label", "rolls.miche", "--sheet", "3 x 8", "--copies", "30000", "-o", file];
        bench.refuses(TROUBLE, &args).says(&["30000 labels are more than the 20000 that are printed at once"]);
    }
    bench.write("st.txt", "strong white flour .... 1 kg\nwat\nbutter 300 g\n");
    let told = bench.refuses(TROUBLE, &["list", "rolls.miche", "--from", "st.txt"]).err;
    assert!(
        told.contains("line 2: this is no ingredient with its weight") && !told.contains("recipe can say"),
        "{told}"
    );
    assert_eq!(told.lines().count(), 1, "{told}");
}
