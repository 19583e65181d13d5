//! New amounts that would bring an error into a file are not written, and nothing is called met that nobody knows.

use super::command::{miche, text, with};
use std::fs;

const ROLLS: &str = "\
recipe Rolls
makes 24 rolls

part dough
aim salt 1.8 %
aim fat at most 7 %
strong white flour ............ 1 kg
whole milk .................... 60 %
butter ........................ 8 %
salt .......................... 25 g
instant yeast ................. 1.2 %
divide 24 x 71.5 g, loss 2 %

mix: hands 10 min
    Mix {strong white flour}, {whole milk}, {butter}, {salt} and {instant yeast}.
    until smooth
";

/// Less goes in than the pieces weigh: what was a warning would be an error, and no card came of the file.
#[test]
fn aims_that_leave_too_little_for_the_pieces_are_not_written() {
    let (folder, file) = with(ROLLS);
    let before = text(&miche(folder.path(), &["check", "recipe.miche"]));
    assert!(before.contains("warning[yield-does-not-add-up]"), "{before}");
    let output = miche(folder.path(), &["aim", "recipe.miche", "--write"]);
    assert_eq!(output.status.code(), Some(2), "{}", text(&output));
    assert!(text(&output).contains("stays as it is"), "{}", text(&output));
    assert_eq!(fs::read_to_string(&file).expect("there"), ROLLS);
    // Shown by itself it tells what would be wrong.
    let shown = text(&miche(folder.path(), &["aim", "recipe.miche"]));
    assert!(shown.contains("(yield-does-not-add-up)") && shown.contains(" short"), "{shown}");
}

const LOAF: &str = "\
recipe Milk loaf
makes 3 loaves
strong white flour ............ 1 kg
whole milk .................... 640 g
butter ........................ 60 g    [warm]
butter ........................ 60 g    [cold]
salt .......................... 20 g
instant yeast ................. 12 g
divide 3 x 562 g, loss 2.6 %
mix: hands 12 min
    Mix {strong white flour}, {400 g of whole milk} and {instant yeast}; add {half of butter}, {salt} and
    {rest of whole milk}; then {rest of butter}.
    until smooth
";

fn loaf() -> String {
    LOAF.replace("butter ........................ 60 g    [warm]\n", "").replace("    [cold]", "")
}

#[test]
fn a_swap_that_leaves_too_little_for_the_pieces_is_not_written() {
    let (folder, file) = with(&loaf());
    let before = text(&miche(folder.path(), &["check", "recipe.miche"]));
    assert!(!before.contains("error"), "{before}");
    let output = miche(folder.path(), &["swap", "recipe.miche", "whole milk", "for", "water", "--write"]);
    assert_eq!(output.status.code(), Some(2), "{}", text(&output));
    assert_eq!(fs::read_to_string(&file).expect("there"), loaf());
}

/// Half of 60 g of butter is 30 g of it, also when 25 g more are in the place of the milk.
#[test]
fn what_was_taken_of_something_is_taken_of_it_when_there_is_more() {
    let (folder, file) = with(&loaf());
    let new = "skim milk powder, water, butter";
    let output = miche(folder.path(), &["swap", "recipe.miche", "whole milk", "for", new, "--write"]);
    assert_eq!(output.status.code(), Some(0), "{}", text(&output));
    let now = fs::read_to_string(&file).expect("there");
    assert!(now.contains("{30.0 g of butter}") || now.contains("{30 g of butter}"), "{now}");
    assert!(now.contains("{rest of butter}") && !now.contains("{half of butter}"), "{now}");
}

/// A share is said of what comes in as it was said of what goes out, and the option stays in its column.
#[test]
fn a_share_stays_as_it_was_said() {
    let head = LOAF.replace("makes 3 loaves\n", "makes 3 loaves\nchoose way: warm or cold\n");
    let (folder, file) = with(&head);
    let output = miche(folder.path(), &["swap", "recipe.miche", "butter", "for", "margarine", "--write"]);
    assert_eq!(output.status.code(), Some(0), "{}", text(&output));
    let now = fs::read_to_string(&file).expect("there");
    assert!(now.contains("{half of margarine}"), "{now}");
    let columns: Vec<usize> = now.lines().filter_map(|line| line.find('[')).collect();
    let before: Vec<usize> = head.lines().filter_map(|line| line.find('[')).collect();
    assert_eq!(columns, before, "{now}");
}

/// 20 g of salt are 140 g of soy sauce, with 100 g of water: no amount of it alone keeps what the dough is made of.
#[test]
fn what_brings_hardly_any_of_it_comes_not_near() {
    let (folder, _) = with(&loaf());
    let said = text(&miche(folder.path(), &["swap", "recipe.miche", "salt", "for", "soy sauce"]));
    assert!(said.contains("none of these comes near `salt`") && !said.contains("option"), "{said}");
}

/// How a starter was fed stands nowhere: 100 % of hydration is about that, and nobody calls it met.
#[test]
fn an_aim_that_nobody_can_look_at_is_not_called_met() {
    let levain = "recipe Loaf\nmakes 6 loaves\n\npart levain, from dough\naim hydration 100 %\nrye flour ..... 15 %\nwater ..... 14 %\n\
                  sourdough starter ..... 1.5 %\n\npart dough\nrye flour ..... 30 %\nstrong white flour ..... 70 %\nwater ..... 70 %\n\
                  salt ..... 2 %\nsourdough starter ..... 1.5 %\ndivide 6 x 900 g\n";
    let (folder, file) = with(levain);
    let output = miche(folder.path(), &["aim", "recipe.miche"]);
    assert_eq!(output.status.code(), Some(1), "{}", text(&output));
    let said = text(&output);
    assert!(!said.contains("every aim is met.\n") || said.contains("is not known"), "{said}");
    assert!(said.contains("how sourdough starter is fed stands nowhere"), "{said}");
    let written = miche(folder.path(), &["aim", "recipe.miche", "--write"]);
    assert_eq!(written.status.code(), Some(2), "{}", text(&written));
    assert_eq!(fs::read_to_string(&file).expect("there"), levain);
}
