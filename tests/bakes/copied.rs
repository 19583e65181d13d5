//! A log that was copied: its bakes are counted once.

use super::*;

/// Invented.
const ROLLS: &str = "recipe Skerrow rolls\nmakes 12 rolls, bake loss 10 %\nstrong white flour .... 700 g\nwater .... 478 g, at 20 C\nsalt .... 14 g\ninstant yeast .... 8 g\n\
                     divide 12 x 100 g, loss 0 %\nmix: hands 10 min\n    Mix {strong white flour}, {water}, {salt} and {instant yeast}.\n    until smooth\nshape: hands 30 s, \
                     each\nprove: wait 1 h, at 26 C\nbake: tend 15 min, using oven at 220 C\n    until gold\n";

const LOG: &str = "bakes of \"rolls.miche\"\n\nbake 2026-11-02 08:00\nbake: came to 89 g each\n\nbake 2026-11-03 08:00\nbake: came to 90 g each\n";

fn bakes_told(folder: &Path) -> usize {
    json(folder, &["bakes", "rolls.miche", "--format", "json"])["bakes"].as_array().map_or(0, Vec::len)
}

#[test]
fn the_bakes_of_a_copied_log_are_counted_once() {
    let folder = tempfile::tempdir().expect("a folder");
    fs::write(folder.path().join("rolls.miche"), ROLLS).expect("written");
    fs::write(folder.path().join("rolls.bakes"), LOG).expect("written");
    fs::write(folder.path().join("rolls copy.bakes"), LOG).expect("written");
    assert_eq!(bakes_told(folder.path()), 2);
    let told = said(&miche(folder.path(), &["bakes", "rolls.miche"]));
    assert!(told.contains("counted once"), "{told}");
}

/// What another house measured at the same time is a bake of its own, and so is what was corrected in one of two logs.
#[test]
fn bakes_of_one_time_that_say_otherwise_are_two() {
    let folder = tempfile::tempdir().expect("a folder");
    fs::write(folder.path().join("rolls.miche"), ROLLS).expect("written");
    fs::write(folder.path().join("rolls.bakes"), LOG).expect("written");
    fs::write(folder.path().join("other.bakes"), LOG.replace("89 g", "88 g")).expect("written");
    assert_eq!(bakes_told(folder.path()), 3);
}
