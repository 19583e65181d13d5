//! What raises a dough is not taken out of it for the sake of a figure.

use super::command::{miche, text, with};
use std::fs;

const TWO_WAYS: &str = "recipe Two ways
makes 4 loaves
choose leaven: yeast or sour

part dough
aim salt 2 %
strong white flour ............ 2 kg
water ......................... 65 %
salt .......................... 1.3 %
rye starter ................... 15 %        [sour]
instant yeast ................. 1 %         [yeast]
";

/// The flour of the starter counts under one way only, so that 2 % in both at once exactly is only without any leaven; within its digits it is
/// met by more salt alone.
#[test]
fn a_value_is_met_within_its_digits_before_a_leaven_is_touched() {
    let (folder, file) = with(TWO_WAYS);
    let aimed = miche(folder.path(), &["aim", "recipe.miche", "--write"]);
    assert_eq!(aimed.status.code(), Some(0), "{}", text(&aimed));
    let written = fs::read_to_string(&file).expect("read");
    for line in ["rye starter ................... 15 %", "instant yeast ................. 1 %"] {
        assert!(written.contains(line), "{written}");
    }
    assert!(!text(&miche(folder.path(), &["check", "recipe.miche"])).contains("aim-missed"), "{written}");
    // The cheapest takes none out either.
    let (folder, file) = with(TWO_WAYS);
    miche(folder.path(), &["aim", "recipe.miche", "--cheapest", "--write"]);
    let written = fs::read_to_string(&file).expect("read");
    assert!(!written.contains(" 0 %"), "{written}");
}

/// Where the aims are of the yeast itself, they are met all the same.
#[test]
fn an_aim_of_the_yeast_is_met() {
    let (folder, file) = with(
        "recipe Rolls\nmakes 20 rolls\n\npart dough\naim yeast 0.4 %\nstrong white flour ............ 1 kg\nwater ......................... 650 g\n\
        salt .......................... 20 g\ninstant yeast ................. 20 g\n",
    );
    let aimed = miche(folder.path(), &["aim", "recipe.miche", "--write"]);
    let written = fs::read_to_string(&file).expect("read");
    assert!(aimed.status.success() && written.contains("instant yeast ................. 4 g"), "{}", text(&aimed));
}
