//! What a diff says of amounts that are written for one piece, and of two ways of which one has no plan.

use super::miche;
use std::fs;

/// Worked by hand: fifteen rolls at a time stand 17 min while the first are in, and what is alive stands 10 min; thirty go in at once.
#[test]
fn that_one_of_two_ways_has_no_plan_is_told() {
    let text = "recipe Rolls\nmakes 30 rolls\nchoose oven: large or small\nstrong white flour .... 1.5 kg\nwater .... 63 %\nsalt .... 2 %\n\
        instant yeast .... 1 %\ndivide 30 x 80 g, loss 3.6 %\nmix: hands 12 min\n    Mix {strong white flour}, {water}, {salt} and {instant yeast}.\n    \
        until smooth\nrise: wait 60 min, at 25 C\nprove: wait 45-55 min, at 27 C\nbake: tend 17 min, using oven at 220 C  [large]\n    until gold\n\
        bake: tend 17 min, using oven at 220 C, 15 at a time  [small]\n    until gold\n";
    let folder = tempfile::tempdir().expect("a folder");
    let file = folder.path().join("rolls.miche");
    fs::write(&file, text).expect("written");
    let file = file.display().to_string();
    let told = |one: &str, other: &str| {
        let output = miche(&["diff", &file, "--choose", one, "--against", other]);
        String::from_utf8_lossy(&output.stdout).split_whitespace().collect::<Vec<&str>>().join(" ")
    };
    let there = told("large", "small");
    assert!(there.contains("from the first step to the last") && there.contains("no plan"), "{there}");
    assert!(told("small", "large").contains("no plan"), "{there}");
    assert!(!told("large", "large").contains("no plan"), "{there}");
}

/// Arithmetic: ten buns with 45 g of cream each, then with 44 g.
#[test]
fn an_amount_for_one_piece_is_told_for_one() {
    let text = "recipe Buns\nmakes 10 buns\npart cream\nbutter .... 455 g\nbeat: hands 5 min\n    Beat {butter}.\n    until light\npart buns\nper piece\n\
                cream .... 45 g\nfill: hands 20 s, each\n    Fill with {cream}.\n";
    let folder = tempfile::tempdir().expect("a folder");
    let files = [text.to_owned(), text.replace("45 g", "44 g")].map(|text| {
        let path = folder.path().join(format!("{}.miche", text.len() + text.matches("44").count()));
        fs::write(&path, text).expect("written");
        path.display().to_string()
    });
    let output = miche(&["diff", &files[0], &files[1]]);
    let told = String::from_utf8_lossy(&output.stdout).split_whitespace().collect::<Vec<&str>>().join(" ");
    assert!(told.contains("450 g") && told.contains("for each piece") && told.contains("44 g"), "{told}");
}
