//! Leavens that are bought or kept: their water and their flour, together or not at all; and what is in the mix whose water is asked for.

use super::{KITCHEN, figure, near, printed, run, sums};

fn loaf(starter: &str, grams: i64, flour: i64, water: i64) -> String {
    format!(
        "recipe Loaf\nuse \"kitchen.miche\"\nuse \"larder.miche\"\nstrong white flour .... {flour} g\n{starter} .... {grams} g\nwater .... {water} g\nsalt .... {} g\n\
         mix: hands 5 min, using mixer\n    Mix {{strong white flour}}, {{{starter}}}, {{water}} and {{salt}}.\n    until smooth\nrise: wait 4 h, at 26 C\n",
        flour / 50
    )
}

/// Fed with as much flour as water, a starter holds 50 + 0.134 × 50 = 56.7 % of water (flour 13.4 %: USDA SR26 20083): of 30 g in 60 of flour
/// and 60 of water every baker reads 75 on 75. One of 40 % has 60 / 0.866 = 69.3 % of flour: (500 + 122.9) / (1000 + 277.1) = 48.8 %.
#[test]
fn the_flour_of_a_starter_counts_where_its_water_does() {
    let larder = |water: &str| {
        format!("ingredient kept starter\nwater {water}\nis leaven\nconsists of wheat flour, water\ncontains wheat\n")
    };
    let read = |water: &str, text: &str| {
        let larder = larder(water);
        sums(&[("loaf.miche", text), KITCHEN, ("larder.miche", &larder)], &[])
    };
    near(figure(&read("56.7 %", &loaf("kept starter", 30, 60, 60)), "water on flour"), 100.0, 0.05);
    near(figure(&read("40 %", &loaf("kept starter", 400, 1000, 500)), "water on flour"), 48.8, 0.05);
}

/// Of a starter of which nobody says how it was fed half counts as flour, as a label takes it: 200 g in 300 of flour and 500 of water are
/// 600 on 400, 150 %, and not at least 500 on 300, 166.7 %. Salt: 6 g on 400 are 1.5 %.
#[test]
fn of_a_starter_that_nobody_describes_half_is_flour() {
    let text = loaf("rye starter", 200, 300, 500);
    let files = [("loaf.miche", &*text), KITCHEN, ("larder.miche", "ingredient bran\nwater 9 %\n")];
    let found = sums(&files, &[]);
    near(figure(&found, "water on flour"), 150.0, 0.05);
    near(figure(&found, "salt on flour"), 1.5, 0.01);
    let card = printed(&files, &["card", "loaf.miche"]);
    assert!(card.contains("hydration about 150 %, a leaven counted as half flour, half water"), "{card}");
    assert!(found.to_string().contains("Half of rye starter is counted as flour"), "{found:#}");
}

/// 14 g of salt in crackers of 400 g of flour and 500 g of starter are 14 / 650 = 2.2 %: nothing to be told.
#[test]
fn salt_beside_much_starter_is_not_told() {
    let text = "recipe Crackers\nsourdough starter .... 500 g\nplain flour .... 400 g\nbutter .... 140 g\nsalt .... 14 g\nmix: hands 6 min\n    Mix {sourdough starter}, \
                {plain flour}, {butter} and {salt}.\n    until it holds together\nbake: tend 22 min, using oven at 175 C\n    until dry\n";
    let told = printed(&[("crackers.miche", text)], &["check", "crackers.miche"]);
    assert!(!told.contains("odd-percent"), "{told}");
}

/// Crackers of a discard have little other flour: 12 g of salt on 100 g of flour and half of 1000 g of starter are 12 / 600 = 2 %, and 20 g of soda
/// 3.3 % (120 g of salt, 20 %, are in tests/wrong).
#[test]
fn what_no_dough_can_hold_is_a_share_of_all_flour() {
    let told = |salt: &str| {
        let text = format!(
            "recipe Crackers\nsourdough starter .... 1000 g\nplain flour .... 100 g\nbutter .... 140 g\nsalt .... {salt}\nbaking soda .... 20 g\nmix: hands 6 min\n    Mix \
             {{sourdough starter}}, {{plain flour}}, {{butter}}, {{salt}} and {{baking soda}}.\n    until it holds together\nbake: tend 22 min, using oven at 175 C\n    until dry\n"
        );
        printed(&[("crackers.miche", &text)], &["check", "crackers.miche"])
    };
    assert!(!told("12 g").contains("extreme-percent"), "{}", told("12 g"));
}

/// Labels of starters say rye, spelt or atta where they mean the flour: of 400 g at 56.7 % half is flour, (600 + 200) / (1000 + 200) = 66.7 %. Of
/// a culture that lives in milk nothing is: its water alone counts, (600 + 226.8) / 1000.
#[test]
fn a_leaven_of_any_grain_counts_with_its_flour() {
    let hydration = |consists: &str| {
        let larder =
            format!("ingredient kept starter\nwater 56.7 %\nis leaven\nconsists of {consists}\ncontains wheat\n");
        let files = [("loaf.miche", &*loaf("kept starter", 400, 1000, 600)), KITCHEN, ("larder.miche", &larder)];
        figure(&sums(&files, &[]), "water on flour")
    };
    for consists in
        ["wholemeal rye, water", "spelt, water", "atta, water", "wheat, water", "whole rice, water", "buckwheat, water"]
    {
        near(hydration(consists), 66.67, 0.05);
    }
    near(hydration("milk, cultures"), 82.68, 0.05);
}

/// What is called a culture or was dried is no paste of flour and water, half of each: (300 + 100) / (500 + 100) = 66.7 % is said of a starter, and
/// of the others that 300 g on 500, 60 %, are the least.
#[test]
fn what_is_dried_or_lives_in_milk_is_not_half_flour() {
    let hydration = |name: &str| {
        let text = loaf(name, 200, 500, 300);
        printed(
            &[("loaf.miche", &text), KITCHEN, ("larder.miche", "ingredient bran\nwater 9 %\n")],
            &["card", "loaf.miche"],
        )
    };
    assert!(hydration("sourdough starter").contains("hydration about 66.7 %"), "{}", hydration("sourdough starter"));
    for name in ["dried sourdough", "mesophilic culture", "sour cream culture", "koji starter", "ginger bug starter"] {
        let card = hydration(name);
        assert!(card.contains("hydration at least 60 %"), "{name}: {card}");
    }
}

const BUNS: &str = "recipe Buns\nuse \"kitchen.miche\"\nstrong white flour .... 1 kg\nwhole milk .... 580 g\nsalt .... 16 g\nfresh yeast .... 40 g\n";
const MIX: &str = "desired temperature 26 C\nmix: hands 14 min, using mixer\n    Mix {strong white flour}, {whole milk}, {salt} and {fresh yeast}.\n    until silky\n\
                   rise: wait 50 min, at 26 C\nshape: hands 20 s, each\nprove: wait 45 min, at 28 C\n";

/// The water of a dough is that of what is in the bowl when the mix ends: 3 l of oil that it is fried in, and butter that is folded in after
/// the rise, have no part in it.
#[test]
fn what_goes_in_after_the_mix_leaves_its_water_alone() {
    let asked = ["--room", "18 C", "--friction", "12 C"];
    let water = |line: &str, divide: &str, step: &str| {
        let text = format!("{BUNS}{line}{divide}\n{MIX}{step}");
        let found = sums(&[("buns.miche", &text), KITCHEN], &asked);
        assert!(found.to_string().contains("Use the handbook"), "{found:#}");
        figure(&found, "by the balance of heat")
    };
    let plain = water("", "divide 20 x 80 g, loss 2.2 %", "");
    let fried = water(
        "sunflower oil .... 3 l, strained out\n",
        "divide 20 x 80 g, loss 2.2 %",
        "fry: tend 6 min, using hob at 170 C\n    Fry in {sunflower oil}.\n",
    );
    let folded = water(
        "cold butter .... 500 g\n",
        "divide 25 x 80 g, loss 6.3 %",
        "turn in: hands 15 min\n    Fold in {cold butter}.\n",
    );
    near(fried, plain, 1e-9);
    near(folded, plain, 1e-9);
}

/// Milk at 30 °C leaves it to a little water to cool 500 g of flour of 29 °C: the handbook wants -50 °C and the balance -16.5, and both ask for
/// ice. That they lie more than 10 °C apart decides, as the guide says, though no water is that cold.
#[test]
fn where_both_want_ice_and_lie_far_apart_the_balance_is_used() {
    let rolls = "recipe Milk rolls\nbread flour .... 500 g\nwhole milk .... 200 g, at 30 C\nwater .... 120 g\nsalt .... 9 g\ninstant yeast .... 5 g\ndesired temperature 24 C\n\
                 mix: hands 10 min, using mixer\n    Mix {bread flour}, {whole milk}, {water}, {salt} and {instant yeast}.\n    until smooth\n";
    let found = sums(&[("rolls.miche", rolls)], &["--room", "29 C", "--friction", "14 C", "--tap", "22 C"]);
    near(figure(&found, "water, by the handbook"), -50.0, 0.001);
    assert!(found.to_string().contains("Use the balance of heat"), "{found:#}");
}

/// The mix that ends before the rise is the same, to the gram, whether the pieces are brushed, painted or dusted later; and where it is kneaded on
/// after a rest, whatever that is called, the butter that is kneaded in is of the mix: 300 g from the refrigerator ask for warmer milk.
#[test]
fn a_glaze_says_nothing_of_the_mix_and_kneading_on_ends_it() {
    let asked = ["--room", "18 C", "--friction", "12 C"];
    let water = |line: &str, steps: &str| {
        let text = format!(
            "{BUNS}cold butter .... 500 g\n{line}desired temperature 26 C\nmix: hands 14 min, using mixer\n    Mix {{strong white flour}}, {{whole milk}}, {{salt}} and {{fresh yeast}}.\n    \
             until silky\nrise: wait 50 min, at 26 C\n{steps}"
        );
        figure(&sums(&[("buns.miche", &text), KITCHEN], &asked), "by the balance of heat")
    };
    let fold = "turn in: hands 15 min\n    Fold in {cold butter}.\n";
    let plain = water("", fold);
    for (line, step) in [
        ("milk .... 40 g\n", "brush: hands 5 min\n    Brush with {milk}.\n"),
        ("milk .... 40 g\n", "paint: hands 5 min\n    Paint with {milk}.\n"),
        ("rye flour .... 40 g\n", "dust: hands 5 min\n    Dust with {rye flour}.\n"),
    ] {
        near(water(line, &format!("{fold}{step}")), plain, 1e-9);
    }
    let rested = |rest: &str| {
        let text = format!(
            "{BUNS}cold butter .... 300 g, at 4 C\ndesired temperature 24 C\nmix: hands 5 min, using mixer\n    Mix {{strong white flour}}, {{whole milk}}, {{salt}} and {{fresh yeast}}.\n\
             {rest}: wait 30 min, at 24 C\nknead: hands 14 min, using mixer\n    Add {{cold butter}} and knead.\n    until silky\nrise: wait 50 min, at 26 C\n"
        );
        figure(&sums(&[("buns.miche", &text), KITCHEN], &asked), "by the balance of heat")
    };
    near(rested("fermentolyse"), rested("autolyse"), 1e-9);
}

/// 24 g of salt on 1000 g of flour and half of 400 g of starter are 24 / 1200 = 2 %, in `history` as in `sums`. Its card has the 1000 g of flour
/// that a formula sheet prints (tests/published/c9-levain: 'the starter's not in it'), and 800 g of water (and 0.2 % of the salt, USDA SR28 02047).
#[test]
fn salt_and_flour_are_of_the_same_flour_everywhere() {
    let text = loaf("sourdough starter", 400, 1000, 600).replace("salt .... 20 g", "salt .... 24 g");
    let files = [("loaf.miche", &*text), KITCHEN, ("larder.miche", "ingredient bran\nwater 9 %\n")];
    let found = sums(&files, &[]);
    near(figure(&found, "salt on flour"), 2.0, 0.01);
    assert!(!found.to_string().contains("2.4 %"), "{found:#}");
    let card: serde_json::Value =
        serde_json::from_str(&printed(&files, &["card", "loaf.miche", "--format", "json"])).unwrap();
    let part = &card["parts"][0];
    near(part["flour_g"].as_f64().unwrap(), 1000.0, 0.001);
    near(part["water_g"].as_f64().unwrap(), 800.048, 0.001);
    near(part["hydration_percent"].as_f64().unwrap(), 66.671, 0.001);
}

/// What a command says on both outputs, whether it finds errors or not.
fn said(files: &[(&str, &str)], arguments: &[&str]) -> String {
    let output = run(files, arguments);
    format!("{}{}", String::from_utf8_lossy(&output.stdout), String::from_utf8_lossy(&output.stderr))
}

/// 400 g of a starter that nobody describes may be two thirds flour or one third: (600 + 133) / (1000 + 267) = 57.9 %, or (600 + 267) / (1000 + 133) =
/// 76.5 %. An aim of 66.5 to 66.8 % is not met for certain, nor one of 75 % missed; one from 55 to 80 % is met.
#[test]
fn an_aim_is_met_only_however_the_leaven_was_fed() {
    let told = |aim: &str| {
        let text = loaf("sourdough starter", 400, 1000, 600)
            .replace("use \"larder.miche\"\n", &format!("use \"larder.miche\"\naim hydration {aim}\n"));
        said(
            &[("loaf.miche", &text), KITCHEN, ("larder.miche", "ingredient bran\nwater 9 %\n")],
            &["check", "loaf.miche"],
        )
    };
    for open in ["66.5-66.8 %", "75 %"] {
        let text = told(open);
        assert!(
            text.contains("aim-unknown") && text.contains("about 66.67 %") && text.contains("sourdough starter"),
            "{text}"
        );
    }
    assert!(!told("55-80 %").contains("aim-"), "{}", told("55-80 %"));
    assert!(told("40-50 %").contains("aim-missed"), "{}", told("40-50 %"));
}

/// A block with flour that is laminated in, and a crumb that is strewn on, are in no mix: the handbook's sum has three terms with them as without,
/// 24 × 3 − 20 − 20 − 12 = 20 °C.
#[test]
fn what_goes_in_after_the_rise_is_no_preferment() {
    let asked = ["--room", "20 C", "--friction", "12 C"];
    let water = |part: &str, line: &str, step: &str| {
        let text = format!(
            "{}{part}part dough\n{}{line}desired temperature 24 C\nmix: hands 8 min, using mixer\n    Mix {{strong white flour}}, {{whole milk}}, {{salt}} and {{fresh yeast}}.\n    \
             until silky\nrise: wait 50 min, at 24 C\n{step}shape: hands 20 min\n",
            "recipe Croissants\nuse \"kitchen.miche\"\n",
            "strong white flour .... 1 kg\nwhole milk .... 580 g\nsalt .... 18 g\nfresh yeast .... 40 g\n"
        );
        figure(&sums(&[("buns.miche", &text), KITCHEN], &asked), "by the handbook")
    };
    let block = "part block\nbutter .... 500 g, cold\nstrong white flour .... 50 g\nbeat: hands 5 min\n    Beat {butter} with {strong white flour} to a slab.\n\
                 chill: wait 1 h, at 4 C\n";
    near(water("", "", ""), 20.0, 1e-9);
    near(water(block, "block .... all\n", "laminate: hands 15 min\n    Enclose {block} and fold.\n"), 20.0, 1e-9);
    near(water(block, "block .... all\n", "strew: hands 5 min\n    Strew {block} on.\n"), 20.0, 1e-9);
}

/// A kept starter is a preferment, as the same leaven is where it is written as a part: 26 × 4 − 22 − 22 − 22 − 12 = 26 °C, and from the
/// refrigerator, 5 °C, 43 °C. By the balance 500 g of it that are 17 °C colder want more of the water too.
#[test]
fn a_kept_starter_is_a_preferment() {
    let text = loaf("sourdough starter", 500, 1000, 350).replace("mix:", "desired temperature 26 C\nmix:");
    let files = [("loaf.miche", &*text), KITCHEN, ("larder.miche", "ingredient bran\nwater 9 %\n")];
    let at = |degrees: &str, method: &str| {
        let asked = ["--room", "22 C", "--friction", "12 C", "--preferment-at", degrees];
        figure(&sums(&files, &asked), method)
    };
    near(at("22 C", "by the handbook"), 26.0, 1e-9);
    near(at("5 C", "by the handbook"), 43.0, 1e-9);
    assert!(at("5 C", "by the balance of heat") > at("22 C", "by the balance of heat") + 10.0);
}
