//! Slips in a log of bakes that would be taken for measurements.

use super::*;

const RECIPE: &str = "recipe Loaf\nmakes 10 loaves\nflour .... 3000 g\nwater .... 2200 g\ndivide 10 x 513 g\nmix: hands 10 min\n    Mix {flour} and \
                      {water}.\n    until smooth\nrise: wait 90 min, at 24 C\nbake: tend 35 min, using oven at 230 C\n    until brown\n";

/// What `check` says of a log with one line below its bake.
fn told(line: &str) -> String {
    told_as(line, "short")
}

fn told_as(line: &str, format: &str) -> String {
    let folder = tempfile::tempdir().expect("a folder");
    fs::write(folder.path().join("loaf.miche"), RECIPE).expect("written");
    let log = format!("bakes of \"loaf.miche\"\n\nbake 2026-09-01\n{line}\n");
    fs::write(folder.path().join("loaf-bakes.miche"), log).expect("written");
    said(&miche(folder.path(), &["check", "loaf-bakes.miche", "--format", format]))
}

/// How far a dough rose is no number of pieces.
#[test]
fn litres_are_no_pieces() {
    let found = told("rise: 90 min, came to 5.1 l");
    assert!(found.contains("wrong-kind") && found.contains("`l` is a volume"), "{found}");
    assert!(!told("bake: 35 min, came to 10 loaves").contains("wrong-kind"));
}

/// 44 g for 440 g: a tenth is no loss of nine tenths.
#[test]
fn hardly_anything_out_is_a_slip() {
    let found = told("bake: 35 min, came to 44 g each");
    assert!(found.contains("odd-amount") && found.contains("440 g came out"), "{found}");
    assert!(!told("bake: 35 min, came to 440 g each").contains("odd-amount"));
}

#[test]
fn a_mark_written_as_a_fraction_is_told_as_one() {
    let found = told_as("crumb: 4/5", "json");
    assert!(found.contains("`4/5` is no time") && found.contains("a mark is written `4 of 5`"), "{found}");
}

/// 23 for 230; an oven that was ten degrees hotter is what a log is for.
#[test]
fn an_oven_as_cool_as_a_room_is_a_slip() {
    let found = told("bake: 35 min, at 23 C");
    assert!(found.contains("odd-temperature") && found.contains("230 °C"), "{found}");
    assert!(!told("bake: 35 min, at 240 C").contains("odd-temperature"));
}

/// What begins by the clock before the step above it began was written down wrongly, unless what lies between may take the night.
#[test]
fn a_step_that_begins_before_the_one_above_it_is_told() {
    let folder = tempfile::tempdir().expect("a folder");
    let recipe = "recipe Loaf\nmakes 1 loaf\nflour .... 600 g\nwater .... 400 g\nmix: hands 10 min\n    Mix {flour} and {water}.\n    until smooth\n\
                  rise: wait 90 min\n    until doubled\nchill: wait 12-16 h, at 4 C\nbake: tend 35 min, using oven at 230 C\n    until brown\n";
    fs::write(folder.path().join("loaf.miche"), recipe).expect("written");
    let log = |times: &str| format!("bakes of \"loaf.miche\"\n\nbake 2026-09-01 06:00, 1 loaf\n{times}\n");
    let checked = |times: &str| {
        fs::write(folder.path().join("loaf.bakes"), log(times)).expect("written");
        said(&miche(folder.path(), &["check", "loaf.bakes", "--format", "short"]))
    };
    let slip = checked("mix: 06:00-06:10\nrise: 05:10-06:40");
    assert!(slip.contains("`rise` begins at 05:10, before `mix` began at 06:00"), "{slip}");
    for right in [
        "mix: 06:00-06:10\nrise: 06:10-07:40",
        "mix: 23:50-00:00\nrise: 00:00-01:30",
        "rise: 18:00-19:30\nchill: 19:30-09:30\nbake: 09:30-10:05",
        "chill: 19:30-11:30\nbake: 11:30-12:05",
    ] {
        let said = checked(right);
        assert!(!said.contains("log-out-of-time"), "{right}: {said}");
    }
}
