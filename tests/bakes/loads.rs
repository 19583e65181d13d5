//! A bake in two loads: what a load loses is of what went in of that load, and what cannot be of it is told.

use super::*;

/// 12 rolls of 100 g in two loads of six, without a loss but that of the oven: 1200 g go in. Invented.
const ROLLS: &str = "recipe Skerrow rolls\nmakes 12 rolls, bake loss 10 %\nstrong white flour .... 700 g\nwater .... 478 g, at 20 C\nsalt .... 14 g\ninstant yeast .... 8 g\n\
                     divide 12 x 100 g, loss 0 %\nmix: hands 10 min\n    Mix {strong white flour}, {water}, {salt} and {instant yeast}.\n    until smooth\nshape: hands 30 s, \
                     each\nprove: wait 1 h, at 26 C\nbake: tend 15 min, using oven at 220 C, 6 at a time\n    until gold\n";

/// The rolls beside a log of three such bakes.
fn with_log(lines: &str, test: impl FnOnce(&Path)) {
    with_log_of(ROLLS, lines, test);
}

/// As [`with_log`], of another formula.
fn with_log_of(formula: &str, lines: &str, test: impl FnOnce(&Path)) {
    let folder = tempfile::tempdir().expect("a folder");
    fs::write(folder.path().join("rolls.miche"), formula).expect("written");
    let bakes = (2..5).map(|day| format!("\nbake 2026-11-0{day} 08:00, 12 rolls\n{lines}"));
    let log = format!("bakes of \"rolls.miche\"\n{}", bakes.collect::<String>());
    fs::write(folder.path().join("rolls.bakes"), log).expect("written");
    test(folder.path());
}

fn told(folder: &Path) -> Value {
    json(folder, &["bakes", "rolls.miche", "--format", "json"])
}

fn checked(folder: &Path) -> String {
    said(&miche(folder, &["check", "rolls.bakes", "--format", "short"]))
}

/// By hand: (100 - 90) / 100 and (100 - 88) / 100, mean 11 %; not 1 - 88 / 90.
#[test]
fn a_load_loses_of_what_went_in_of_it_and_not_of_the_load_before() {
    with_log("bake: load 1, came to 90 g each\nbake: load 2, came to 88 g each\n", |folder| {
        is(&figure(&told(folder), "loss", "bake", "%")["mean"], 11.0);
        assert!(!checked(folder).contains("error"), "{}", checked(folder));
    });
}

/// By hand: half of 1200 g goes into a load, so 540 g of it are 10 %, and 528 g 12 %; both make 1068 g of the batch, and the formula
/// says 1080.
#[test]
fn the_weight_of_a_load_is_held_against_its_share_of_the_batch() {
    with_log("bake: load 1, came to 540 g\nbake: load 2, came to 528 g\n", |folder| {
        let told = told(folder);
        is(&figure(&told, "loss", "bake", "%")["mean"], 11.0);
        let all = figure(&told, "came-to", "bake", "g");
        is(&all["mean"], 1068.0);
        let measured = told["bakes"][0]["measured"].as_array().expect("what was measured");
        let load = measured.iter().find(|one| one["figure"] == "came-to").expect("a weight");
        is(&load["expected"], 540.0);
        let label = said(&miche(folder, &["label", "rolls.miche", "--as-baked"]));
        assert!(label.contains("89 g"), "{label}");
    });
}

/// The rolls were weighed when they were shaped: 98 g each, so 88.2 g are 10 % less, load by load.
#[test]
fn what_was_weighed_before_counts_for_every_load() {
    let lines = "bake: load 2, came to 88.2 g each\nbake: load 1, came to 88.2 g each\nshape: came to 12 x 98 g\n";
    with_log(lines, |folder| is(&figure(&told(folder), "loss", "bake", "%")["mean"], 10.0));
}

/// What is weighed of a day's figures, `came-to` and `loss`.
fn weighed(told: &Value) -> Vec<Value> {
    let figures = told["figures"].as_array().expect("figures").iter();
    figures.filter(|one| one["figure"] == "came-to" || one["figure"] == "loss").cloned().collect()
}

/// Where the formula says nothing of loads, nobody knows how much of the batch one was: 540 g of 1200 g are no loss of 55 %. What a
/// piece weighs is known; by hand, (100 - 90) / 100 and (100 - 88) / 100.
#[test]
fn a_load_that_the_formula_does_not_have_is_no_whole_batch() {
    let at_once = ROLLS.replace(", 6 at a time", "");
    for lines in [
        "bake: load 1, came to 540 g\nbake: load 2, came to 528 g\n",
        "bake: load 1, came to 540 g\n",
        "bake: load 2, came to 6\n",
    ] {
        with_log_of(&at_once, lines, |folder| {
            assert!(weighed(&told(folder)).is_empty(), "{lines}: {}", told(folder));
            assert!(checked(folder).contains("counts for no figure"), "{}", checked(folder));
            let label = said(&miche(folder, &["label", "rolls.miche", "--as-baked"]));
            assert!(label.contains("90 g a piece"), "{label}");
        });
    }
    with_log_of(&at_once, "bake: load 1, came to 90 g each\nbake: load 2, came to 88 g each\n", |folder| {
        is(&figure(&told(folder), "loss", "bake", "%")["mean"], 11.0);
        assert!(!checked(folder).contains("impossible-number"), "{}", checked(folder));
    });
    // Two loads there are; a fifth is told and counts for nothing.
    with_log("bake: load 5, came to 540 g\n", |folder| assert!(weighed(&told(folder)).is_empty(), "{}", told(folder)));
}

/// By hand, whichever way the 12 rolls are weighed: 1176 g are 98 g each, 1058.4 g are 88.2 g each, which is 10 % less.
#[test]
fn a_loss_is_of_what_was_weighed_in_whatever_way() {
    for shaped in ["1176 g", "98 g each", "12 x 98 g"] {
        for baked in ["1058.4 g", "88.2 g each", "12 x 88.2 g"] {
            with_log(&format!("shape: came to {shaped}\nbake: came to {baked}\n"), |folder| {
                is(&figure(&told(folder), "loss", "bake", "%")["mean"], 10.0);
            });
        }
    }
    with_log("shape: came to 98 g each\nbake: load 1, came to 529.2 g\n", |folder| {
        is(&figure(&told(folder), "loss", "bake", "%")["mean"], 10.0);
    });
}

/// A dough at 260 °C is a slip of which is told; it moves no mean.
#[test]
fn a_temperature_that_no_dough_has_counts_for_nothing() {
    with_log("mix: 10 min, left at 26 C\n", |folder| is(&figure(&told(folder), "left-at", "mix", "°C")["mean"], 26.0));
    with_log("mix: 10 min, left at 260 F\n", |folder| {
        let told = told(folder);
        assert!(told["figures"].as_array().expect("figures").iter().all(|one| one["figure"] != "left-at"), "{told}");
    });
}

/// `grammar/LANGUAGE.md`: a line without `load` is divided by the turns of its step, whether it says a time of the day or a length.
#[test]
fn a_length_without_a_load_is_of_all_loads() {
    for line in ["bake: 32 min\n", "bake: 08:00-08:32\n"] {
        with_log(line, |folder| is(&figure(&told(folder), "time", "bake", "min")["mean"], 16.0));
    }
    with_log("bake: 16 min, load 1\n", |folder| is(&figure(&told(folder), "time", "bake", "min")["mean"], 16.0));
    // 16 min of two loads of 15 min: of one of them, or 8 min each; nobody can tell, so it counts for neither and is asked about.
    with_log("bake: 16 min\n", |folder| {
        assert!(told(folder)["figures"].as_array().expect("figures").is_empty());
        assert!(checked(folder).contains("`bake` takes 2 turns"), "{}", checked(folder));
    });
}

/// Each of these was quiet, and moved what the bakes say together.
#[test]
fn what_cannot_be_of_a_bake_is_told() {
    for (line, check) in [
        ("bake: came to 108\n", "more-out-than-in"),
        ("bake: load 1, came to 900 g\n", "more-out-than-in"),
        ("bake: load 3, came to 90 g each\n", "impossible-number"),
        ("salt .... 21\n", "no-unit"),
        ("salt .... 140 g\n", "odd-amount"),
        ("mix: 140 min\n", "log-out-of-time"),
        ("bake: load 1, 1 min\n", "stray-line"),
        ("bake: 1 min, load 1\n", "log-out-of-time"),
        ("mix: 10 min, left at 260 C\n", "odd-temperature"),
        ("room 70 C\n", "odd-temperature"),
        ("flour at 200 C\n", "odd-temperature"),
    ] {
        with_log(line, |folder| assert!(checked(folder).contains(check), "{line}: {}", checked(folder)));
    }
    let fine = "room 27 C\nflour at 25 C\nsalt .... 16 g\nmix: 13 min, left at 25.5 C\nshape: 7 min, came to 13 x 91 g\nprove: 80 min\n\
                bake: 17 min, load 1, came to 80 g each\nbake: 14 min, load 2\n";
    with_log(fine, |folder| {
        assert!(!checked(folder).contains("error") && !checked(folder).contains("warning"), "{}", checked(folder));
    });
}

/// How many hands rounded the pieces, no clock says: a step that two may share has no seconds of a piece in the log.
#[test]
fn a_step_that_may_be_shared_has_no_time_of_a_piece() {
    let shared = ROLLS.replace("shape: hands 30 s, each", "shape: hands 30 s, each, shared by 2");
    for line in ["shape: 3 min\n", "shape: 6 min\n", "shape: 08:10-08:14\n"] {
        with_log_of(&shared, line, |folder| {
            let told = told(folder);
            assert!(told["figures"].as_array().expect("figures").iter().all(|one| one["figure"] != "time"), "{told}");
            assert!(!checked(folder).contains("log-out-of-time"), "{}", checked(folder));
        });
    }
    with_log("shape: 6 min\n", |folder| is(&figure(&told(folder), "time", "shape", "min")["mean"], 0.5));
}
