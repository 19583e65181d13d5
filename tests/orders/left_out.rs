//! A part that is used before its last steps draws what those steps would draw only as far as they are done: the same on the card,
//! the list, the costs, the label and the plan. Figures are worked by hand: 1750 g of the dough with everything, 1660 g of it
//! before it is shaped.

use crate::{files, json, line, one, part, said, steps};
use serde_json::Value;

/// Of 100 g of egg 60 g go into the dough; the rest, the sesame and the glaze come on top once it is shaped.
const DOUGH: &str = "part glaze\npercent of milk\nmilk .... 100 %\ncaster sugar .... 60 %\nstir: hands 2 min\n    Stir {milk} and {caster sugar}.\n    \
    until smooth\npart dough\nstrong white flour .... 1 kg\nwater .... 60 %\negg .... 10 %\nglaze .... 5 %\nsesame seed .... 40 g, aside\n\
    DIVIDE\nmix: hands 10 min\n    Mix {strong white flour}, {water} and {60 g of egg}.\n    until smooth\nshape: hands 5 min\n    Shape.\n    \
    until round\nbrush: hands 5 min\n    Brush with {rest of egg}, then {glaze}; strew {sesame seed}.\n    until covered\n";
const BUNS: &str = "part buns\nper piece\nTAKES\napple .... 20 g\nform: hands 10 min\n    Form {dough} round {apple}.\n    until closed\n\
    bake: tend 15 min, using oven at 220 C\n    until gold\n";

/// Buns whose dough is written and taken so.
fn buns(divide: &str, takes: &str) -> String {
    let dough = DOUGH.replace("DIVIDE\n", &if divide.is_empty() { String::new() } else { format!("{divide}\n") });
    format!("recipe Apple buns\nmakes 20 buns\n{dough}{}", BUNS.replace("TAKES", takes))
}

fn grams(card: &Value, of: &str, name: &str) -> f64 {
    line(card, of, name)["grams"].as_f64().unwrap()
}

fn names(list: &Value, key: &str) -> Vec<String> {
    list.as_array().unwrap().iter().map(|one| one[key].as_str().unwrap().to_owned()).collect()
}

#[test]
fn what_only_steps_that_are_left_out_draw_is_neither_bought_nor_told() {
    let by_pieces = buns("divide 20 x 87.5 g", "dough .... 1 piece, before shape");
    let by_weight = buns("", "dough .... 83 g, before shape");
    let by_share = by_weight
        .replace("strong white flour .... 1 kg", "strong white flour .... 100 %")
        .replace("{60 g of egg}", "{60 % of egg}");
    let whole = buns("", "").replace("per piece\n\napple .... 20 g", "dough .... all, before shape\napple .... 400 g");
    for text in [by_pieces, by_weight, by_share, whole] {
        let bench = files(&[("buns.miche", &text)]);
        let problems = said(&bench, &["check", "--all", "buns.miche"]);
        assert!(problems.contains("nothing to mend"), "{text}\n{problems}");
        for (times, arguments) in [(1.0, &["card", "buns.miche"][..]), (3.0, &["card", "buns.miche", "--times", "3"])] {
            let card = json(&bench, arguments);
            for (name, mass) in [("strong white flour", 1000.0), ("water", 600.0), ("egg", 60.0)] {
                assert_eq!(grams(&card, "dough", name), mass * times, "{text}");
            }
            assert_eq!(grams(&card, "buns", "dough"), 1660.0 * times, "{text}");
            assert_eq!(part(&card, "dough")["total_g"], 1660.0 * times);
            assert_eq!(names(&part(&card, "dough")["lines"], "ingredient"), ["strong white flour", "water", "egg"]);
            assert_eq!(names(&card["parts"], "name"), ["dough", "buns"], "no glaze is made");
            assert_eq!(
                card["allergens"],
                serde_json::json!(["egg", "gluten", "wheat"]),
                "neither milk nor sesame: {card}"
            );
        }
        let list = json(&bench, &["list", "buns.miche"]);
        assert_eq!(one(&list["buy"], "ingredient", "egg")["grams"], 60.0, "{list}");
        let bought = names(&list["buy"], "ingredient");
        assert!(
            ["milk", "caster sugar", "sesame seed"].iter().all(|name| !bought.contains(&(*name).to_owned())),
            "{list}"
        );
        let costs = json(&bench, &["cost", "buns.miche"]).to_string();
        let label = said(&bench, &["label", "buns.miche", "--law", "eu", "--format", "text"]).to_lowercase();
        for name in ["milk", "sesame"] {
            assert!(!costs.contains(name) && !label.contains(name), "{name}: {costs}\n{label}");
        }
        assert!(costs.contains("egg") && label.contains("egg"), "{costs}\n{label}");
        assert_eq!(steps(&json(&bench, &["plan", "buns.miche"])), ["mix", "form", "bake"]);
        let card = said(&bench, &["card", "buns.miche", "--format", "text"]);
        assert!(card.contains("60 g egg") && !card.contains("sesame") && !card.contains("glaze"), "{card}");
    }
}

/// Half of the dough is taken before it is shaped: of what comes on top half is drawn.
const PLATES: &str = "part slices\ndough .... 830 g, before shape\ncut: hands 5 min\n    Cut {dough}.\n    until even\npart plates\n\
    slices .... all\ndough .... 875 g\nput: hands 10 min\n    Put {slices} beside {dough}.\n    until full\n";

#[test]
fn what_is_drawn_for_some_of_it_is_drawn_by_its_share() {
    let own = format!("recipe Plates\nmakes 10 plates\n{}{PLATES}", DOUGH.replace("DIVIDE\n", ""));
    let by_share = own
        .replace("strong white flour .... 1 kg", "strong white flour .... 100 %")
        .replace("{60 g of egg}", "{60 % of egg}");
    let elsewhere = format!("recipe Base\n{}", DOUGH.replace("DIVIDE\n", ""));
    let other = format!("recipe Plates\nmakes 10 plates\nuse \"base.miche\"\n{PLATES}");
    let day = "day Market\nmake 10 of \"plates.miche\"\nstore 415 g of slices of \"plates.miche\"\n";
    for text in [own, by_share, other] {
        let bench = files(&[("plates.miche", &text), ("base.miche", &elsewhere), ("day.miche", day)]);
        let problems = said(&bench, &["check", "--all", "plates.miche"]);
        assert!(!problems.contains("part-") && !problems.contains("error"), "{text}\n{problems}");
        let card = json(&bench, &["card", "plates.miche"]);
        let drawn = [("strong white flour", 1000.0), ("egg", 80.0), ("glaze", 25.0), ("sesame seed", 20.0)];
        for (name, mass) in drawn {
            assert_eq!(grams(&card, "dough", name), mass, "{text}");
        }
        assert_eq!(part(&card, "dough")["total_g"], 1705.0, "{text}");
        assert_eq!(part(&card, "glaze")["total_g"], 25.0, "{text}");
        let text = said(&bench, &["card", "plates.miche", "--format", "markdown"]);
        assert!(text.contains("Brush with the remaining 20 g egg, then 25 g glaze"), "{text}");
        let list = json(&bench, &["list", "plates.miche"]);
        assert_eq!(one(&list["buy"], "ingredient", "milk")["grams"], 15.625, "{list}");
        // Half of the slices are there: of 1312.5 g, counted with everything, a third is taken early.
        let list = json(&bench, &["list", "day.miche"]);
        for (name, mass) in [("strong white flour", 750.0), ("egg", 65.0), ("sesame seed", 20.0), ("milk", 15.625)] {
            assert_eq!(one(&list["buy"], "ingredient", name)["grams"], mass, "{name}: {list}");
        }
    }
}

/// A preferment is taken out of its dough: a dough that is taken before the preferment goes in would have less flour than is written.
#[test]
fn a_preferment_is_in_before_the_dough_is_taken() {
    let recipe = |raise: &str, takes: &str| {
        format!(
            "recipe Slices\nmakes 10 slices\npart poolish, from dough\nstrong white flour .... 20 %\nwater .... 20 %\ninstant yeast .... all\n\
             stir: hands 4 min\n    Stir {{strong white flour}}, {{water}} and {{instant yeast}}.\nripen: wait 8 h, at 20 C\n    until bubbly\n\
             part dough\nstrong white flour .... 500 g\nwater .... 60 %\ninstant yeast .... 1 g\n\
             mix: hands 10 min\n    Mix {{strong white flour}} and {{water}}.\n    until even\nraise: hands 5 min\n    Work in {raise}.\n\
             shape: hands 5 min\n    Shape.\npart slices\nper piece\ndough .... 80 g, {takes}\nplum .... 50 g\nlay: hands 2 min\n    \
             Lay {{plum}} on {{dough}}.\n"
        )
    };
    for (takes, is_wrong) in [("before raise", true), ("before shape", false)] {
        let bench = files(&[("slices.miche", &recipe("{poolish}", takes))]);
        let problems = said(&bench, &["check", "slices.miche"]);
        assert_eq!(problems.contains("error[unknown-step]"), is_wrong, "{problems}");
        if is_wrong {
            let told = "`poolish` goes into `dough` with `raise`, so what is taken before `raise` would lack";
            assert!(problems.contains(told) && problems.contains("name a step after `raise`"), "{problems}");
        }
    }
}

/// A dough of another recipe that is taken before it is shaped was in no oven: by hand, 1000 g of flour and 658 g of the rest make 1658 g, and
/// 1658 g are taken. How far it ferments is told by the steps that are done: mix 10, rise 90, prove 130 min are 3.8 h, and not the other
/// recipe's shape 10 and prove 50.
#[test]
fn what_is_taken_raw_of_a_baked_dough_weighs_what_its_dough_weighs() {
    let house = "recipe House dough\nmakes 2 loaves, bake loss 12 %\npart dough\nkeeps 4 days, at 18 C\nstrong white flour .... 1000 g\nwater .... 650 g\n\
                 instant yeast .... 8 g\nmix: hands 10 min\n    Mix {strong white flour}, {water} and {instant yeast}.\n    until smooth\n\
                 rise: wait 90 min, at 25 C\nshape: hands 10 min\nprove: wait 50 min, at 25 C\n    until light\n\
                 bake: tend 40 min, using oven at 230 C\n    until hollow\n";
    let flat = "recipe Flat bread\nmakes 8 flat breads, bake loss 15 %\nuse \"house.miche\"\npart breads\ndough .... all, before shape\n\
                olive oil .... 40 g\nfold in: hands 5 min\n    Fold {olive oil} into {dough}.\nprove: wait 130 min, at 25 C\n    until light\n\
                bake: tend 18 min, using oven at 240 C\n    until brown\n";
    let bench = files(&[("house.miche", house), ("flat.miche", flat)]);
    let card = json(&bench, &["card", "flat.miche"]);
    assert_eq!(part(&card, "dough")["balance"]["makes_g"], 1658.0, "{card}");
    assert_eq!(part(&card, "dough")["balance"]["used_g"], 1658.0, "{card}");
    let text = said(&bench, &["card", "flat.miche", "--format", "text"]);
    assert!(!text.contains("out of the oven"), "{text}");
    // Its loaf keeps for days, and the raw dough does not.
    assert!(!text.contains("keeps 4 days"), "{text}");
    let sums = said(&bench, &["sums", "flat.miche", "--format", "text"]);
    let row = sums.lines().find(|line| line.contains("as long as at 25 °C")).unwrap_or_else(|| panic!("{sums}"));
    assert!(row.contains("3.8 h") || row.contains("3.9 h"), "{row}");
}

/// A day sells 24 rolls of 143 g and hands 1800 g of their dough to squares before it is shaped: by hand, 24 x 143 g + 1800 g = 5232 g are
/// mixed, 24 rolls are shaped, and 24 x 143 g x 0.9 = 3088.8 g of rolls are sold. What only the rolls are brushed with is bought for them.
#[test]
fn what_others_take_of_a_dough_is_no_pieces_of_it() {
    let roll = "recipe Roll\nmakes 12 buns, bake loss 10 %\npart dough\nstrong white flour .... 1 kg\nwhole milk .... 60 %\nbutter .... 10 %\n\
                salt .... 1.8 %\ninstant yeast .... 1 %\nEGGdivide 12 x EACH g, loss 1 %\nmix: hands 10 min\n    \
                Mix {strong white flour}, {whole milk}, {butter}, {salt} and {instant yeast}.\n    until smooth\nrise: wait 60 min, at 26 C\n    until doubled\n\
                shape: hands 20 s, each\nGLAZEbake: tend 15 min, using oven at 210 C\n    until gold\n";
    let squares = "recipe Squares\nmakes 20 squares, bake loss 14 %\nuse \"roll.miche\"\npart squares\nper piece\ndough .... 90 g, before STEP\n\
                   plum .... 80 g, halved\nlay: hands 30 s, each\n    Roll {dough}, lay on {plum}.\n    until even\n\
                   bake: tend 30 min, using oven at 190 C\n    until gold\n";
    let day = "day Three\nready 2026-12-05 12:00\nmake 24 of \"roll.miche\"\nmake 20 of \"squares.miche\"\n";
    let plain = roll.replace("EACH", "143").replace("EGG", "").replace("GLAZE", "");
    let brushed = roll.replace("EACH", "147").replace("EGG", "egg .... 48 g\n");
    let brushed = brushed.replace("GLAZE", "glaze: hands 10 s, each\n    Brush with {egg}.\n");
    for (roll, step, sold) in [(plain, "shape", 24.0 * 143.0 * 0.9), (brushed, "glaze", 24.0 * 147.0 * 0.9)] {
        let squares = squares.replace("STEP", step);
        let bench = files(&[("roll.miche", &roll), ("squares.miche", &squares), ("day.miche", day)]);
        let cards = json(&bench, &["card", "day.miche"]);
        let card = one(&cards, "recipe", "Roll");
        assert_eq!(card["makes"]["pieces"], 24.0, "{card}");
        // Who cuts them is told what one weighs.
        assert_eq!(part(card, "dough")["divide"]["pieces"], 24.0, "{card}");
        let label = json(&bench, &["label", "day.miche"]);
        let label = one(&label["labels"], "recipe", "Roll");
        let net = label["net_g"].as_f64().unwrap();
        assert!((net - sold).abs() < 0.1, "{net} and not {sold}: {label}");
        let plan = said(&bench, &["plan", "day.miche", "--format", "text"]);
        assert!(plan.contains("24 pieces") && !plan.contains("25.3"), "{plan}");
    }
}

/// Two orders that differ in a note alone are one batch, and both are sold: 36 x 134 g x 0.9 = 4341.6 g.
#[test]
fn what_is_sold_of_one_batch_is_of_all_orders_that_end_in_it() {
    let roll = "recipe Roll\nmakes 12 buns, bake loss 10 %\nchoose shop: north or south\nnote Packed by six. [north]\nnote Packed by four. [south]\n\
                part dough\nstrong white flour .... 1 kg\nwater .... 60 %\nsalt .... 1.8 %\ninstant yeast .... 1 %\ndivide 12 x 134 g, loss 1.2 %\n\
                mix: hands 10 min\n    Mix {strong white flour}, {water}, {salt} and {instant yeast}.\n    until smooth\n\
                rise: wait 60 min, at 26 C\n    until doubled\nshape: hands 20 s, each\nbake: tend 15 min, using oven at 210 C\n    until gold\n";
    let day = "day Two\nready 2026-12-05 12:00\nmake 24 of \"roll.miche\", choose north\nmake 12 of \"roll.miche\", choose south\n";
    let bench = files(&[("roll.miche", roll), ("day.miche", day)]);
    let label = json(&bench, &["label", "day.miche"]);
    assert_eq!(label["labels"].as_array().unwrap().len(), 1, "one batch: {label}");
    let net = one(&label["labels"], "recipe", "Roll")["net_g"].as_f64().unwrap();
    assert!((net - 4341.6).abs() < 0.1, "{net}");
}
