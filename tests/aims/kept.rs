//! What neither a lower price nor a swap may take from a dough: its leaven, its salt, and how warm it is begun.

use super::command::{miche, text, with};
use std::fs;

const BUNS: &str = "\
recipe Quay buns
makes 50 buns
use \"larder.miche\"

part dough
aim salt at most 1.1 % of total
aim hydration 63-64 %
aim butter 8-10 %
strong white flour ............ 2.4 kg
whole milk .................... 1.44 kg
egg ........................... 4
butter ........................ 150 g, soft
caster sugar .................. 140 g
salt .......................... 48 g
fresh yeast ................... 72 g

mix: hands 10 min
    Mix {strong white flour}, {whole milk}, {egg}, {caster sugar}, {salt} and {fresh yeast}; add {butter}.
    until smooth
";
/// Invented prices: yeast and egg are dear for what they weigh.
const PRICES: &str = "ingredient strong white flour\ncosts 1 per kg\n\ningredient whole milk\ncosts 1 per kg\n\ningredient egg\n\
    costs 6 per kg\n\ningredient butter\ncosts 9 per kg\n\ningredient caster sugar\ncosts 1.50 per kg\n\ningredient salt\n\
    costs 0.50 per kg\n\ningredient fresh yeast\ncosts 8 per kg\n";

#[test]
fn the_cheapest_dough_keeps_what_makes_it_one() {
    let (folder, file) = with(BUNS);
    fs::write(folder.path().join("larder.miche"), PRICES).expect("written");
    let output = miche(folder.path(), &["aim", "recipe.miche", "--cheapest", "--write"]);
    assert_eq!(output.status.code(), Some(0), "{}", text(&output));
    let written = fs::read_to_string(file).expect("there");
    let grams = |name: &str| {
        let line = written.lines().find(|line| line.starts_with(name)).expect("the line");
        let amount = line.split(".. ").last().expect("an amount").split([' ', ',']).next().expect("a figure");
        amount.parse::<f64>().expect("a number")
    };
    // Half of what is written; 0.3 for what a scale rounds off, in grams and in eggs.
    for (name, least) in [("fresh yeast", 36.0), ("egg", 2.0), ("salt", 24.0), ("caster sugar", 70.0)] {
        assert!(grams(name) >= least - 0.3, "{name}\n{written}");
    }
}

#[test]
fn what_is_poured_in_its_place_is_as_warm() {
    let sponge = "recipe Quay sponge\n\npart sponge\nstrong white flour .... 1 kg\nwhole milk .... 60 %, at 30 C\nfresh yeast .... 2 %\n\n\
        stir: hands 4 min\n    Stir {fresh yeast} into {whole milk}, then {strong white flour}.\n";
    for new in ["skim milk powder, water, butter", "water", "skimmed milk"] {
        let (folder, file) = with(sponge);
        let output = miche(folder.path(), &["swap", "recipe.miche", "whole milk", "for", new, "--write"]);
        assert_eq!(output.status.code(), Some(0), "{new}: {}", text(&output));
        let written = fs::read_to_string(file).expect("there");
        let warm: Vec<&str> = written.lines().filter(|line| line.contains("at 30 C")).collect();
        let poured = if new.contains("water") { "water ." } else { "skimmed milk ." };
        assert!(warm.len() == 1 && warm.iter().all(|line| line.starts_with(poured)), "{new}\n{written}");
    }
    // Of water that is there already it is asked.
    let (folder, _) = with(
        &sponge
            .replace("fresh yeast ....", "water .... 10 %\nfresh yeast ....")
            .replace("{whole milk}", "{whole milk} and {water}"),
    );
    let output =
        miche(folder.path(), &["swap", "recipe.miche", "whole milk", "for", "skim milk powder, water, butter"]);
    let words = text(&output).split_whitespace().collect::<Vec<_>>().join(" ").replace('\\', "");
    assert!(words.contains("say how warm `water` is to be"), "{words}");
}
