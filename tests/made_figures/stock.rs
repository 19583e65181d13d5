//! What there is, by every name and in every unit that somebody says it: a bare number, another name of the larder, two sorts.

use super::*;

/// Ten rolls of 1 kg of flour and 180 g of butter. Invented.
const BUTTERED: &str = "recipe Buttered rolls\nmakes 10 rolls\nstrong white flour .. 1 kg\nwater .. 600 g\nbutter .. 180 g\nsalt .. 20 g\negg .. 2\n\
                        instant yeast .. 8 g\n";

/// A bare number is a number of pieces, and nobody counts butter: 800 are no 800 sticks. As on a line of a recipe, it is `no-unit`.
#[test]
fn a_number_without_a_unit_is_no_stock_of_what_is_weighed() {
    let bench = Bench::of(&[("rolls.miche", BUTTERED), ("there.miche", "butter .. 200\n")]);
    for (arguments, mend) in [
        (&["stock", "rolls.miche", "--have", "butter=800"][..], "800 what? Write `butter=800 g`"),
        (&["card", "rolls.miche", "--have", "butter=1"], "1 what? Write `butter=1 g`"),
        (&["card", "rolls.miche", "--use-up", "butter=250"], "250 what? Write `butter=250 g`"),
        (&["list", "rolls.miche", "--have", "butter=200"], "200 what? Write `butter=200 g`"),
        (&["list", "rolls.miche", "--from", "there.miche"], "200 what? Write `butter=200 g`"),
        (&["stock", "rolls.miche", "--have", "salt=20"], "20 what? Write `salt=20 g`"),
    ] {
        let (code, _, why) = bench.run(arguments);
        assert!(code != 0 && why.contains(mend), "{arguments:?}: {code}: {why}");
    }
    // Eggs are counted, and pieces that are called pieces are believed.
    for have in ["egg=20", "butter=3 pieces"] {
        let (code, _, why) = bench.run(&["stock", "rolls.miche", "--have", have]);
        assert_eq!(code, 0, "{have}: {why}");
    }
}

/// Names of one larder entry are one ingredient: of 180 g nothing is to be bought where there is 1 kg of it by its other name, and half
/// of it by two names is all of it.
#[test]
fn what_is_in_stock_by_another_name_of_the_larder_is_not_bought() {
    let bench = Bench::of(&[("rolls.miche", BUTTERED), ("there.miche", "unsalted butter .. 1 kg\n")]);
    for there in [&["--from", "there.miche"][..], &["--have", "unsalted butter=1 kg"]] {
        let list = bench.json(&[&["list", "rolls.miche"], there].concat());
        let text = list["buy"].to_string();
        assert!(!text.contains("butter") && text.contains("strong white flour"), "{text}");
        assert!(list["stock"].to_string().contains("\"butter\""), "{list}");
    }
    let stock = bench.json(&["stock", "rolls.miche", "--have", "unsalted butter=90 g", "--have", "butter=90 g"]);
    assert!(stock.to_string().contains("\"pieces\":10"), "{stock}");
    // A larder of their own that tells them apart keeps them apart.
    let apart = BUTTERED.replace("makes 10 rolls\n", "makes 10 rolls\nuse \"larder.miche\"\n");
    let larder = "ingredient unsalted butter\nwater 16 %\nfat 82 %\ncontains milk\n\ningredient butter\nwater 16 %\nfat 81 %\ncontains milk\n";
    let bench = Bench::of(&[("rolls.miche", &apart), ("larder.miche", larder)]);
    let (code, _, why) = bench.run(&["list", "rolls.miche", "--have", "unsalted butter=1 kg"]);
    assert!(code == 2 && why.contains("nothing of that name is to be bought"), "{code}: {why}");
}

/// 20 pieces of 12 × 70 g and 8 × 250 g are 2840 g. With 1.3 times the flour they are as many again by fours and fives: 25 pieces, 15 and 10,
/// since 26 would leave no whole sorts; each weighs 1.3 / 1.25 of what is written: 72.8 g and 260 g.
#[test]
fn what_is_used_up_in_sorts_makes_whole_pieces_of_each() {
    let party = "recipe Party bread\nmakes 20 pieces\npart dough\nstrong white flour .. 60 %\nspelt flour .. 40 %\nwater .. 66 %\nsalt .. 2 %\n\
        fresh yeast .. 1.5 %\ndivide 12 x 70 g small and 8 x 250 g large, loss 2 %\nmix: hands 10 min\n    Mix {strong white flour}, {spelt flour}, {water}, \
        {salt} and {fresh yeast}.\n    until smooth\npart small rolls\nper small\ndough .. 1 piece\nsesame seeds .. 3 g\nroll: hands 20 s, each\n    \
        Roll {dough} in {sesame seeds}.\npart large loaves\nper large\ndough .. 1 piece\nbake: tend 30 min, using oven at 230 C\n    Bake {dough}.\n    until brown\n";
    let bench = Bench::of(&[("party.miche", party)]);
    let written = line(part(&bench.json(&["card", "party.miche"]), "dough"), "spelt flour")["grams"].as_f64().unwrap();
    let all = format!("spelt flour={} g", (written * 1.3).round());
    let card = bench.json(&["card", "party.miche", "--use-up", &all]);
    assert_eq!(card["makes"]["pieces"], 25);
    let sorts = part(&card, "dough")["divide"]["sorts"].as_array().unwrap().clone();
    for (sort, (pieces, each)) in sorts.iter().zip([(15, 72.8), (10, 260.0)]) {
        assert_eq!(sort["pieces"], pieces, "{sorts:?}");
        assert!((sort["each_g"].as_f64().unwrap() - each).abs() < 0.2, "{sorts:?}");
    }
    assert_eq!(sorts.len(), 2);
    let notes = part(&card, "dough")["notes"].to_string();
    assert!(notes.contains("A small piece weighs 72.8 g here and not 70 g as it is written"), "{notes}");
    assert!(notes.contains("A large piece weighs 260 g here and not 250 g as it is written"), "{notes}");
}

/// 1500 g of peeled apple of which 80 % are eaten are 1875 g as bought: 4 kg of them last for 4000 / 1875 of 30 buns, and not for 80.
/// A piece of 150 g is its edible part: 1500 g are ten of them, and who has ten buys none.
#[test]
fn what_is_in_stock_has_its_peel_and_its_stones() {
    let text =
        "recipe Apple buns\nmakes 30 buns\nuse \"larder.miche\"\napple .. 1.5 kg, diced\nstrong white flour .. 1 kg\n";
    let larder = "ingredient apple\nyield 80 %\none weighs 150 g\n";
    let bench = Bench::of(&[("buns.miche", text), ("larder.miche", larder)]);
    for (command, pieces) in [("stock", "64"), ("card", "64")] {
        let said = bench.json(&[command, "buns.miche", "--have", "apple=4 kg"]).to_string();
        assert!(said.contains(&format!("\"pieces\":{pieces}")), "{command}: {said}");
    }
    let stock = bench.json(&["stock", "buns.miche", "--have", "apple=4 kg"]);
    assert_eq!(stock["stocks"][0]["remains"][0]["used_g"], 4000.0, "{stock}");
    let pieces = bench.json(&["stock", "buns.miche", "--have", "apple=20"]).to_string();
    assert!(pieces.contains("\"pieces\":60"), "{pieces}");
    let used_up = bench.json(&["card", "buns.miche", "--use-up", "apple=1875 g"]).to_string();
    assert!(used_up.contains("\"pieces\":30"), "{used_up}");

    let buys = |have: &str| bench.json(&["list", "buns.miche", "--have", have])["buy"].to_string();
    assert!(!buys("apple=10").contains("apple") && !buys("apple=1875 g").contains("apple"), "{}", buys("apple=10"));
    // Half of them, by number and by weight.
    for half in ["apple=5", "apple=937.5 g"] {
        assert!(buys(half).contains("937.5") && buys(half).contains("\"pieces\":5"), "{half}: {}", buys(half));
    }
}

/// One recipe has a block of its own on strong white flour, the other knows it by the larder below: it is one flour. 2 kg and 2 kg are 4 kg.
#[test]
fn one_name_is_one_thing_whatever_larder_knows_it() {
    let loaf = |name: &str, pantry: &str| {
        format!("recipe {name}\nmakes 4 loaves\n{pantry}strong white flour .. 2 kg\nwater .. 1.3 kg\nsalt .. 40 g\n")
    };
    let files = [
        ("a.miche", loaf("Alpha loaf", "")),
        ("b.miche", loaf("Beta loaf", "use \"prices.miche\"\n")),
        ("prices.miche", "ingredient strong white flour\ncosts 0.92 EUR per kg\n".to_owned()),
    ];
    let files: Vec<(&str, &str)> = files.iter().map(|(name, text)| (*name, text.as_str())).collect();
    let bench = Bench::of(&files);
    for order in [["a.miche", "b.miche"], ["b.miche", "a.miche"]] {
        let list = bench.json(&[&["list"][..], &order].concat());
        assert_eq!(list["buy"].to_string().matches("strong white flour").count(), 1, "{}", list["buy"]);
        let there = bench.json(&[&["list"][..], &order, &["--have", "strong white flour=10 kg"]].concat());
        assert!(!there["buy"].to_string().contains("strong white flour"), "{}", there["buy"]);
        assert!(there["stock"].to_string().contains("6000"), "{}", there["stock"]);
    }
}

/// A piece is its edible part of 150 g, of 187.5 g bought: 1500 g of peeled apple are ten pieces at 0.20, whatever is peeled off.
#[test]
fn a_piece_is_paid_for_with_its_peel() {
    let text = "recipe Apple buns\nmakes 30 buns\nuse \"larder.miche\"\napple .. 1.5 kg, diced\n";
    let larder = "ingredient apple\ncosts 0.20 EUR per piece\nyield 80 %\none weighs 150 g\n";
    let bench = Bench::of(&[("buns.miche", text), ("larder.miche", larder)]);
    let cost = bench.json(&["cost", "buns.miche"]).to_string();
    assert!(cost.contains("\"total\":2.0") || cost.contains("\"total\":2,"), "{cost}");
}
