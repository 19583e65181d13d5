//! What a card tells the hands at the bowl and the bench: the ice of one load, what a piece weighs now, what goes in warm or cold.

use super::*;

const KITCHEN: &str = "kitchen Quay\nspiral mixer x 1, holds 30 kg, friction 12 C\noven x 1\nhob x 1\nscale 5 g\n";

/// A dough of 100 kg in a mixer of 30 kg is mixed in four loads. By hand: 3 × 26 - 30 - 30 - 12 = 6 °C, so that of 36 600 g of water from
/// a tap of 22 °C 36 600 × (22 - 6) / (22 + 80) = 5741 g are ice: 1435 g of each load.
#[test]
fn the_ice_is_that_of_one_load() {
    let white = "recipe White\nmakes 120 loaves\nuse \"kitchen.miche\"\nstrong white flour .. 60 kg\nwater .. 61 %\nsalt .. 2 %\nlard .. 2 %\n\
        fresh yeast .. 2.2 %\ndivide 120 x 820 g, loss 1.9 %\ndesired temperature 26 C\nmix: hands 10 min, using spiral mixer\n    \
        Mix {strong white flour}, {water}, {salt}, {fresh yeast} and {lard}.\n    until smooth\n";
    let bench = Bench::of(&[("kitchen.miche", KITCHEN), ("white.miche", white)]);
    let (_, card, _) = bench.run(&["card", "white.miche", "--room", "30", "--tap", "22", "--format", "text"]);
    let card: String = card.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(card.contains("1435 g of the water of each load as ice"), "{card}");
    // A quarter of it is mixed at once.
    let (_, card, _) =
        bench.run(&["card", "white.miche", "--room", "30", "--tap", "22", "--pieces", "30", "--format", "text"]);
    let card: String = card.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(card.contains("1435 g of the water as ice"), "{card}");
}

/// 5 kg of 8 kg of flour are 11.25 of 18 loaves, so 11 of 1080 × 11.25 / 11 = 1104.5 g, printed in whole grams from a kilogram on: the step says so
/// too, and leaves alone what is no piece.
#[test]
fn a_step_says_what_a_piece_weighs_now() {
    let loaf = "recipe Loaf\nmakes 18 loaves\nstrong white flour .. 8 kg\nwater .. 9.6 kg\nsalt .. 1.84 kg\ndivide 18 x 1080 g, loss 0 %\n\
        shape: hands 40 s, each\n    Scale at {1080 g} and flour with {5 g} each of two flours.\n";
    let bench = Bench::of(&[("loaf.miche", loaf)]);
    let (_, card, _) = bench.run(&["card", "loaf.miche", "--use-up", "strong white flour=5 kg", "--format", "text"]);
    let card: String = card.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(card.contains("Scale at 1105 g and flour with 5 g"), "{card}");
    let (_, card, _) = bench.run(&["card", "loaf.miche", "--pieces", "36", "--format", "text"]);
    assert!(card.contains("Scale at 1080 g"), "{card}");
}

/// 2.9 oz on a scale of 1/4 oz are no 3 oz: that would be 3.4 % more in each piece.
#[test]
fn a_piece_weight_in_ounces_is_the_one_written() {
    let kitchen = "kitchen Usk\nscale 1/4 oz\noven x 1\n";
    let muffins = "recipe Muffins\nmakes 24 muffins\nmeasures US\nuse \"kitchen.miche\"\nplain flour .. 2 lb\nbuttermilk .. 2 lb\negg .. 12 oz\n\
        divide 24 x 2.9 oz, loss 8.4 %\nmix: hands 10 min\n    Mix {plain flour}, {buttermilk} and {egg}.\n    until just wet\n";
    let bench = Bench::of(&[("kitchen.miche", kitchen), ("muffins.miche", muffins)]);
    let (_, card, problems) = bench.run(&["card", "muffins.miche", "--units", "us", "--format", "text"]);
    assert!(card.contains("divide 24 × 2.9 oz"), "{card}{problems}");
}

/// 12 g of instant yeast raise 1.8 kg of flour and the 600 g that the sponge brings along: 0.5 %, not 0.67 %.
#[test]
fn yeast_is_on_all_the_flour_that_it_raises() {
    let loaf = "recipe Sponge loaf\nmakes 8 loaves\npart sponge\nstrong white flour .. 600 g\nwater .. 600 g\ninstant yeast .. 1 g\n\
        mix: hands 5 min\n    Mix {strong white flour}, {water} and {instant yeast}.\n    until even\nripen: wait 12 h, at 20 C\n    until domed\n\
        part dough\nstrong white flour .. 1.8 kg\nsponge .. all\nwater .. 800 g\nsalt .. 44 g\ninstant yeast .. 12 g\n\
        mix: hands 10 min\n    Mix {sponge}, {strong white flour}, {water}, {salt} and {instant yeast}.\n    until smooth\n\
        rise: wait 80 min, at 26 C\n    until doubled\nbake: tend 40 min, using oven at 230 C\n    until brown\n";
    let bench = Bench::of(&[("loaf.miche", loaf)]);
    let sums = bench.json(&["sums", "loaf.miche"]);
    let sections = sums["sections"].as_array().unwrap().iter();
    let mut rows = sections.flat_map(|section| section["rows"].as_array().unwrap());
    let row = rows.find(|row| row["what"].as_str().unwrap().starts_with("instant yeast on flour")).unwrap();
    assert_eq!(row["figure"].as_f64(), Some(0.5), "{row}");
}

/// A cold porridge that goes into the sum has its row, and is what is let warm before the flour is.
#[test]
fn a_part_with_a_warmth_of_its_own_has_its_row() {
    let plait = "recipe Plait\nmakes 12 plaits\nuse \"kitchen.miche\"\npart porridge\nrolled oats .. 300 g\nwhole milk .. 1.1 kg\n\
        makes 1.19 kg, loss 15 %\ncook: tend 10 min, using hob\n    Simmer {rolled oats} in {whole milk}.\n    until thick\n\
        cool: wait 1 h, at 4 C, up to 1 day\npart dough\nstrong white flour .. 2.4 kg\nporridge .. all\nwater .. 24 %\nsalt .. 2 %\n\
        instant yeast .. 1.2 %\ndesired temperature 26 C\nmix: hands 12 min, using spiral mixer\n    \
        Mix {strong white flour}, {porridge}, {water}, {salt} and {instant yeast}.\n    until smooth\n";
    let bench = Bench::of(&[("kitchen.miche", KITCHEN), ("plait.miche", plait)]);
    let (_, sums, _) = bench.run(&["sums", "plait.miche", "--room", "22"]);
    assert!(sums.contains("| porridge | 4 °C |"), "{sums}");
    assert!(sums.contains("yeast dies: let porridge come to the room, warm the flour"), "{sums}");
    let (_, sums, _) = bench.run(&["sums", "plait.miche"]);
    assert!(sums.contains("Reckoned with porridge at 4 °C."), "{sums}");
    let (_, card, _) = bench.run(&["card", "plait.miche", "--room", "22", "--format", "text"]);
    let card: String = card.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(card.contains("(room 22 °C, flour 22 °C, porridge 4 °C)"), "{card}");
}

/// A poolish of 600 g is in the bowl when salt and butter go in later: the scale shows 400, 750, then 1350 g with it, and 1366 with the salt.
#[test]
fn a_preferment_stands_where_it_goes_in() {
    let loaf = "recipe Loaf\npart poolish, from dough\nstrong white flour .... 300 g\nwater .... 300 g\nripen: wait 14 h, at 20 C\npart dough\nstrong white flour .... 700 g\n\
                water .... 650 g\nsalt .... 16 g\nmix: hands 5 min\n    Mix {strong white flour}, {water} and {poolish}.\n    until smooth\nadd: hands 3 min\n    Add {salt}.\n    until smooth\n";
    let bench = Bench::of(&[("loaf.miche", loaf)]);
    let (_, text, problem) = bench.run(&["card", "loaf.miche"]);
    let rows: Vec<&str> = text.lines().filter(|line| line.starts_with("| ") && line.contains(" g |")).collect();
    let of = |name: &str| {
        rows.iter()
            .rposition(|line| line.starts_with(&format!("| {name}")))
            .unwrap_or_else(|| panic!("{text}{problem}"))
    };
    assert!(of("water") < of("*poolish*") && of("*poolish*") < of("salt"), "{text}");
    assert!(rows[of("*poolish*")].trim_end().ends_with("| 1350 g |"), "{text}");
    assert!(rows[of("salt")].trim_end().ends_with("| 1366 g |"), "{text}");
}

/// The author's own weights for who reads ounces: 1 lb of `450 g = 1 lb`, 2 oz of 50 g, and three times as many of three times the batch.
#[test]
fn each_reader_weighs_what_the_author_wrote_for_them() {
    let cake = "recipe Cake\nplain flour .... 450 g = 1 lb\nbutter .... 225 g = 8 oz\nground almonds .... 50 g = 2 oz\nmix: hands 5 min\n    Rub {butter} into {half of plain flour}; add {rest of plain flour} \
                and {ground almonds}.\n    until even\n";
    let bench = Bench::of(&[("cake.miche", cake)]);
    let shown = |more: &[&str], name: &str| {
        let card = bench.json(&[&["card", "cake.miche"], more].concat());
        line(part(&card, "Cake"), name)["shown"].as_str().unwrap().to_owned()
    };
    let us = |name: &str| shown(&["--units", "us"], name);
    assert_eq!(["plain flour", "butter", "ground almonds"].map(us), ["1 lb", "8 oz", "2 oz"]);
    assert_eq!(shown(&["--units", "us", "--times", "3"], "ground almonds"), "6 oz");
    assert_eq!(shown(&["--units", "both"], "butter"), "225 g (8 oz)");
    assert_eq!(shown(&[], "ground almonds"), "50 g");
    let (_, text, _) = bench.run(&["card", "cake.miche", "--units", "us"]);
    assert!(
        text.contains("Rub 8 oz butter into 8 oz of the plain flour; add the remaining 8 oz plain flour"),
        "{text}"
    );
}

/// A piece of 82 g (2.89 oz) has one weight on a card, where it is divided and where the step says how it is scaled.
#[test]
fn a_piece_has_one_weight() {
    let rolls = "recipe Rolls\nmakes 10 rolls\nstrong white flour .... 500 g\nwater .... 320 g\nsalt .... 9 g\ninstant yeast .... 5 g\ndivide 10 x 82 g, loss 1.7 %\nscale: hands 6 min\n    \
                 Scale at {82 g}.\n";
    let bench = Bench::of(&[("rolls.miche", rolls)]);
    let (_, text, _) = bench.run(&["card", "rolls.miche", "--units", "us"]);
    assert!(text.contains("divide 10 × 2.9 oz") && text.contains("Scale at 2.9 oz"), "{text}");
}
