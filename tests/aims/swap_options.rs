//! `miche swap` in a recipe that lets choose: every option is swapped, or the one that is named, and steps that are shared once.

use super::command::{miche, text, with};
use std::fs;

/// Under all options it is swapped in the line of each and, once, in the step that they share; under one alone the step of the
/// others would lack it, and what to do is said.
#[test]
fn a_step_that_options_share_is_swapped_with_all_of_them() {
    let (folder, file) = with(
        "recipe Buns\nchoose way: hand or machine\nwheat flour .... 500 g\nbutter .... 50 g [hand]\nbutter .... 60 g [machine]\n\
         water .... 300 g\nsalt .... 10 g\nmix: hands 10 min\n    Mix {wheat flour}, {butter}, {water} and {salt}.\n    until smooth\n",
    );
    let before = fs::read_to_string(&file).expect("there");
    let swap = ["swap", "recipe.miche", "butter", "for", "lard", "--write"];
    let output = miche(folder.path(), &[&swap[..], &["--choose", "hand"]].concat());
    assert_eq!(output.status.code(), Some(2), "{}", text(&output));
    assert!(text(&output).contains("leave --choose out"), "{}", text(&output));
    assert_eq!(fs::read_to_string(&file).expect("there"), before);
    let output = miche(folder.path(), &swap);
    assert_eq!(output.status.code(), Some(0), "{}", text(&output));
    let now = fs::read_to_string(&file).expect("there");
    assert!(!now.contains("butter"), "{now}");
    assert!(now.contains("    Mix {wheat flour}, {lard}, {water} and {salt}.\n"), "{now}");
    for option in ["hand", "machine"] {
        assert_eq!(now.matches(&format!("[{option}]")).count(), 1, "{now}");
        assert!(text(&output).replace('\\', "").contains(&format!("Buns [{option}]: for")), "{}", text(&output));
    }
    let check = miche(folder.path(), &["check", "recipe.miche"]);
    assert_ne!(check.status.code(), Some(2), "{now}\n{}", text(&check));
}

/// What only one option has is found without naming the option; where two options would have one line be two things, that is said.
#[test]
fn a_swap_finds_what_only_another_option_has() {
    let (folder, file) = with(
        "recipe Buns\nchoose way: hand or machine\nwheat flour .... 500 g\nbutter .... 60 g [machine]\n\
         water .... 300 g\nsalt .... 10 g\nmix: hands 10 min [hand]\n    Mix {wheat flour}, {water} and {salt}.\n    until smooth\n\
         spin: hands 10 min [machine]\n    Mix {wheat flour}, {butter}, {water} and {salt}.\n    until smooth\n",
    );
    let output = miche(folder.path(), &["swap", "recipe.miche", "butter", "for", "lard", "--write"]);
    assert_eq!(output.status.code(), Some(0), "{}", text(&output));
    let now = fs::read_to_string(&file).expect("there");
    assert!(now.contains("{lard}") && now.contains("[machine]") && !now.contains("butter"), "{now}");
    let (folder, file) = with(
        "recipe Buns\nchoose way: hand or machine\nwheat flour .... 500 g\nwhole milk .... 150 g [hand]\nwhole milk .... 250 g [machine]\n\
         water .... 100 g\nsalt .... 10 g\nmix: hands 10 min\n    Mix {wheat flour}, {whole milk}, {water} and {salt}.\n    until smooth\n",
    );
    let before = fs::read_to_string(&file).expect("there");
    let swap = ["swap", "recipe.miche", "whole milk", "for", "skim milk powder, water, butter", "--write"];
    let output = miche(folder.path(), &swap);
    assert_eq!(output.status.code(), Some(2), "{}", text(&output));
    assert!(text(&output).contains("under one option `100 g` would become"), "{}", text(&output));
    assert_eq!(fs::read_to_string(&file).expect("there"), before);
}

/// One line, and a step for each option: the braces of both follow, and what another line brings is not said to be gone. Fresh yeast
/// × 0.33 is instant (J. Hamelman, Bread, 2004).
#[test]
fn the_steps_of_every_option_follow_and_no_allergen_is_gone_that_another_line_brings() {
    let (folder, file) = with(
        "recipe Buns\nchoose way: hand or machine\nwheat flour .... 500 g\nbutter .... 50 g\nwhole milk .... 300 g\nsalt .... 10 g\n\
         fresh yeast .... 3.5 %\nmix: hands 20 min [hand]\n    Work {wheat flour}, {butter}, {whole milk}, {fresh yeast} and {salt}.\n    until smooth\n\
         spin: hands 10 min [machine]\n    Mix {wheat flour}, {butter}, {whole milk}, {fresh yeast} and {salt}.\n    until smooth\n",
    );
    let output = miche(folder.path(), &["swap", "recipe.miche", "butter", "for", "sunflower oil, water", "--write"]);
    assert_eq!(output.status.code(), Some(0), "{}", text(&output));
    let said = text(&output).replace('\\', "");
    assert!(said.contains("`whole milk` still brings milk") && !said.contains("any more"), "{said}");
    let now = fs::read_to_string(&file).expect("there");
    assert_eq!(now.matches("{sunflower oil}").count(), 2, "{now}");
    assert!(!now.contains("{butter}"), "{now}");
    let output = miche(folder.path(), &["swap", "recipe.miche", "whole milk", "for", "oat milk", "--write"]);
    assert_eq!(output.status.code(), Some(0), "{}", text(&output));
    assert!(text(&output).contains("brings no milk any more"), "{}", text(&output));
    // 3.5 % times 0.33 are 1.155 %, and no 1.2.
    let output = miche(folder.path(), &["swap", "recipe.miche", "fresh yeast", "for", "instant yeast", "--write"]);
    assert_eq!(output.status.code(), Some(0), "{}", text(&output));
    let now = fs::read_to_string(&file).expect("there");
    let line = now.lines().find(|line| line.starts_with("instant yeast")).expect("a line");
    assert!(line.ends_with("1.16 %"), "{line}");
}
