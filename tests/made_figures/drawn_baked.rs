//! What is drawn from another recipe after the oven there had it: a weight of it is one of what was baked, and so more dough is made.

use super::{Bench, line, part};
use serde_json::Value;

/// Ten rolls of 80 g of dough that weigh 72 g when they are baked.
const ROLLS: &str = "recipe Rolls\nmakes 10 rolls, bake loss 10 %\n\npart rolls\nstrong white flour .. 500 g\nwater .. 290 g\nsalt .. 5 g\n\
    instant yeast .. 5 g\ndivide 10 x 80 g\nmix: hands 10 min\n    Mix.\n    until smooth\nshape: hands 30 s, each\n    Shape.\n\
    prove: wait 1 h, at 26 C\n    until light\nbake: tend 12 min, using oven at 220 C\n    until gold\n";

fn pudding(line: &str) -> String {
    format!(
        "recipe Pudding\nmakes 4 bowls\nuse \"rolls.miche\"\n\npart bowls\n{line}\nwhole milk .. 640 g\n\
         layer: hands 5 min\n    Tear {{rolls}}; pour on {{whole milk}}.\n"
    )
}

fn bench(line: &str) -> Bench {
    Bench::of(&[("rolls.miche", ROLLS), ("pudding.miche", &pudding(line))])
}

/// What goes into the rolls, in grams, and how much of them the pudding takes.
fn made(card: &Value) -> (f64, f64) {
    let dough: f64 =
        part(card, "rolls")["lines"].as_array().unwrap().iter().map(|line| line["grams"].as_f64().unwrap()).sum();
    (dough, line(part(card, "bowls"), "rolls")["grams"].as_f64().unwrap())
}

#[test]
fn a_weight_of_what_another_recipe_bakes_is_one_of_what_was_baked() {
    // 360 g of rolls are 400 g of dough, and so are five rolls of 72 g; all ten are 800 g. Before the oven a gram is a gram.
    let wanted = [
        ("rolls .. 360 g", (400.0, 360.0)),
        ("rolls .. 5 pieces", (400.0, 360.0)),
        ("rolls .. all", (800.0, 720.0)),
        ("rolls .. 400 g, before bake", (400.0, 400.0)),
    ];
    for (line, (dough, taken)) in wanted {
        let bench = bench(line);
        let card = bench.json(&["card", "pudding.miche"]);
        let (is, takes) = made(&card);
        assert!((is - dough).abs() < 0.05 && (takes - taken).abs() < 0.05, "{line}: {is} g of dough, {takes} g taken");
        let (code, told, _) = bench.run(&["check", "pudding.miche"]);
        assert!(code == 0 && !told.contains("part-"), "{line}: {told}");
    }
}

#[test]
fn what_the_oven_takes_is_water_on_the_label_and_in_the_list() {
    let bench = bench("rolls .. 360 g");
    // In 360 g of rolls are 250 g of flour as in 400 g of dough: bought, and on the label.
    let (_, list, _) = bench.run(&["list", "pudding.miche"]);
    assert!(list.contains("| strong white flour | 250 g |"), "{list}");
    // 1000 g are sold, and nothing is left open: 640 g of milk and 360 g of rolls, of whose 145 g of water 105 g are left.
    let label = bench.json(&["label", "pudding.miche"]);
    let label = &label["labels"][0];
    assert_eq!(label["net_g"], 1000.0, "{label:#}");
    let grams = |name: &str| {
        label["ingredients"].as_array().unwrap().iter().find(|one| one["ingredient"] == name).unwrap()["grams"].as_f64()
    };
    assert_eq!((grams("strong white flour"), grams("water")), (Some(250.0), Some(105.0)));
    // For the rolls by themselves and for a pudding of them one dough is made: 800 g and 400 g.
    let day = "day Friday\nmake 10 of \"rolls.miche\", ready 2026-12-04 08:00\nmake 4 of \"pudding.miche\", ready 2026-12-04 08:00\n";
    std::fs::write(bench.0.path().join("day.miche"), day).unwrap();
    let (_, list, problems) = bench.run(&["list", "day.miche"]);
    assert!(list.contains("| strong white flour | 750 g |"), "{list}{problems}");
}

/// What lies in the store came out of the oven: ten rolls, of which a pudding takes five by weight or by number, leave five for who sells rolls,
/// and 720 g of them are ten.
#[test]
fn a_roll_in_the_store_is_a_baked_one_for_all() {
    let flour = |line: &str, orders: &str| {
        let bench = bench(line);
        std::fs::write(bench.0.path().join("day.miche"), format!("day Friday\nready 2026-12-04 08:00\n{orders}"))
            .unwrap();
        let (_, list, problems) = bench.run(&["list", "--format", "markdown", "day.miche"]);
        assert!(!list.is_empty(), "{problems}");
        let row = list.lines().find(|row| row.contains("strong white flour |")).unwrap_or_default().to_owned();
        (row, list)
    };
    let both = "make 4 of \"pudding.miche\"\nmake 10 of \"rolls.miche\"\n";
    for line in ["rolls .. 360 g", "rolls .. 5 pieces"] {
        for store in
            ["store 10 of \"rolls.miche\", made 2026-12-03\n", "store 720 g of \"rolls.miche\", made 2026-12-03\n"]
        {
            let (row, list) = flour(line, &format!("{both}{store}"));
            assert!(row.contains("| 250 g |"), "{line}, {store}: {list}");
        }
        let (row, list) = flour(line, &format!("{both}store 15 of \"rolls.miche\", made 2026-12-03\n"));
        assert!(row.is_empty(), "{line}: {list}");
    }
    let (row, list) =
        flour("rolls .. 360 g", "make 10 of \"rolls.miche\"\nstore 720 g of \"rolls.miche\", made 2026-12-03\n");
    assert!(row.is_empty(), "{list}");
}
