//! What a label promises beside a weight: what is left without its liquid, a volume, the strength of a drink; and what it does not know.
//!
//! Regulation (EU) 1169/2011, Annex IX, 5 with its list of liquid media, Article 23(1)(a), Article 32(2), Article 9(1)(k) (as prenku.de prints
//! the Regulation, seen); FDA, A Food Labeling Guide, on net content (seen); 21 CFR 101.9(b)(9) (from memory).

#![allow(clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use serde_json::Value;
use std::fs;
use std::process::Command;

/// What `miche label` prints of a file of that text, as somebody reads it.
fn label(text: &str, arguments: &[&str]) -> Result<String, String> {
    written(text, &[&["--format", "text"], arguments].concat())
}

fn written(text: &str, arguments: &[&str]) -> Result<String, String> {
    let folder = tempfile::tempdir().expect("a folder");
    fs::write(folder.path().join("x.miche"), text).expect("it is written");
    let output = Command::new(env!("CARGO_BIN_EXE_miche"))
        .args(["label", "x.miche"])
        .args(arguments)
        .current_dir(folder.path())
        .output()
        .expect("it runs");
    let text = |bytes: &[u8]| String::from_utf8_lossy(bytes).into_owned();
    if output.status.success() { Ok(text(&output.stdout)) } else { Err(text(&output.stderr)) }
}

fn json(text: &str, arguments: &[&str]) -> Value {
    let arguments = [&["--format", "json"], arguments].concat();
    let found = written(text, &arguments).expect("a label");
    serde_json::from_str::<Value>(&found).expect("JSON")["labels"][0].clone()
}

const PEARS: &str = "recipe Pears in syrup\nmakes 4 jars\nbest before 90 days\n\npear .... 1000 g\nwater .... 800 g\nsugar .... 400 g\nlemon juice .... 20 g\n\
    boil: tend 20 min, using hob\n    Boil {water}, {sugar} and {lemon juice}; pour over {pear}.\n    until clear\n";

const TURNIPS: &str = "recipe Turnips in brine\nmakes 4 jars\nbest before 30 days\n\npart brine\nwater .... 1000 g\nsalt .... 50 g\ngarlic .... 10 g\n\
    mix: hands 5 min\n    Stir {salt} and {garlic} into {water}.\n    until it is gone\n\npart jars\nper piece\nturnip .... 260 g\nbrine .... 240 g\n\
    pack: hands 5 min\n    Pack {turnip}; pour over {brine}.\n";

/// What went in solid is known, and what is left of it is not: the label says the one and asks for the other.
#[test]
fn fruit_in_syrup_asks_what_is_left_of_it() {
    let page = label(PEARS, &[]).expect("a label");
    assert!(page.contains("what is left of it on a sieve") && page.contains("Annex IX, 5"), "{page}");
    // 1000 of 2220 g are pears, and a jar holds 555 g.
    assert!(page.contains("250 g went in solid"), "{page}");
    assert!(page.contains("The table is of all that is in the pack, with its liquid."), "{page}");
}

/// 320 of 550 g are 58.18 %, of a jar of 555 g 322.9 g, of two jars 645.8.
#[test]
fn what_is_drained_holds_at_every_size() {
    let said = PEARS.replace("best before", "drained 320 g of 550 g\nbest before");
    let page = label(&said, &[]).expect("a label");
    assert!(page.contains("Net weight: 555 g (drained 322.9 g) a piece"), "{page}");
    assert!(!page.contains("sieve"), "{page}");
    let page = label(&said, &["--pack", "2"]).expect("a label");
    assert!(page.contains("1110 g (drained 645.8 g) the pack of 2"), "{page}");
    let found = json(&said, &[]);
    let drained = found["drained_percent"].as_f64().expect("a share");
    assert!((drained - 100.0 * 320.0 / 550.0).abs() < 1e-9, "{drained}");
    let solid = found["solid_percent"].as_f64().expect("a share");
    assert!((solid - 100.0 * 1000.0 / 2220.0).abs() < 1e-9, "{solid}");
    let by_share = label(&PEARS.replace("best before", "drained 58 %\nbest before"), &[]).expect("a label");
    assert!(by_share.contains("(drained 321.9 g)"), "{by_share}");
}

/// As packed it is what went in solid: turnips, and none of the garlic that flavours the brine.
#[test]
fn as_packed_is_what_went_in_solid() {
    let page = label(&TURNIPS.replace("best before", "drained as packed\nbest before"), &[]).expect("a label");
    assert!(page.contains("Net weight: 500 g (drained 260 g) a piece"), "{page}");
}

/// In the United States what lies in brine has the weight of what is left, and a table that only an analysis gives; syrup is eaten.
#[test]
fn in_the_united_states_brine_is_no_part_of_it() {
    let page = label(TURNIPS, &["--law", "us"]).expect("a label");
    assert!(page.contains("what is left of it on a sieve") && page.contains("101.9(b)(9)"), "{page}");
    let rows: Vec<&str> = page.lines().filter(|line| line.trim_start().starts_with("sodium")).collect();
    assert!(rows.len() == 1 && rows[0].contains("not known"), "{rows:?}");
    let said = label(&TURNIPS.replace("best before", "drained 250 g of 500 g\nbest before"), &["--law", "us"])
        .expect("a label");
    assert!(said.contains("Net weight: 250 g (8.8 oz) drained a piece"), "{said}");
    let pears = label(PEARS, &["--law", "us"]).expect("a label");
    assert!(!pears.contains("sieve") && pears.contains("Net weight: 555 g (1 lb 3 1/2 oz) a piece"), "{pears}");
}

/// Neither a sauce, a cake in a tin nor oil round something is a liquid medium.
#[test]
fn what_is_eaten_with_its_liquid_is_not_asked() {
    for text in [
        "recipe Cod in watercress sauce\nmakes 4 portions\ncod .... 600 g\nwater .... 100 g\nwatercress .... 100 g\n",
        "recipe Baba in syrup\nmakes 4 babas\nplain flour .... 200 g\negg .... 100 g\nwater .... 100 g\nsugar .... 100 g\n",
        "recipe Tomatoes in oil\nmakes 4 jars\ntomato .... 600 g\nolive oil .... 400 g\n",
        "recipe Pea soup\nmakes 1 kg\npeas .... 400 g\nwater .... 600 g\n",
    ] {
        let page = label(text, &[]).expect("a label");
        assert!(!page.contains("sieve"), "{page}");
    }
}

const CORDIAL: &str = "recipe Lemon cordial\nmakes 4 bottles\nbest before 30 days\n\nwater .... 1 kg\nsugar .... 1 kg\nlemon juice .... 200 g\n\
    stir: hands 5 min\n    Stir {sugar} and {lemon juice} into {water}.\n    until it is gone\n";

/// 550 g a bottle; at 1.2 kg per l that is 458.33 ml. 100 ml weigh 120 g, and 120 of 2200 g hold 54.5 g of the kilogram of sugar.
#[test]
fn a_drink_is_sold_by_volume_where_somebody_weighed_a_litre() {
    let open = label(CORDIAL, &[]).expect("a label");
    assert!(
        open.contains("its volume, for a drink is sold by volume (Article 23(1)(a))") && open.contains("per 100 g"),
        "{open}"
    );
    let said = CORDIAL.replace("best before", "weighs 1.2 kg per l\nbest before");
    let page = label(&said, &[]).expect("a label");
    assert!(page.contains("Net quantity: 458 ml a piece, 1.833 l the batch"), "{page}");
    assert!(page.contains("per 100 ml") && !page.contains("per 100 g"), "{page}");
    assert!(page.contains("Volumes are those of what weighs 1200 g a litre, as the file says."), "{page}");
    let sugars = page.lines().find(|line| line.contains("of which sugars")).expect("a row");
    assert!(sugars.contains("55 g"), "{sugars}");
    let found = json(&said, &[]);
    let each = found["each_ml"].as_f64().expect("a volume");
    assert!((each - 550.0 / 1.2).abs() < 1e-9, "{each}");
    // The same said by a bottle that was weighed.
    let bottle = CORDIAL.replace("best before", "weighs 600 g per 500 ml\nbest before");
    assert_eq!(page, label(&bottle, &[]).expect("a label"));
}

/// 30 ml are 36 g of it, of 2200 g; there are 458.33 / 30 = 15.3 of them in a bottle. 458.33 ml are 15.498 US fluid ounces.
#[test]
fn a_serving_may_be_a_volume() {
    let said = CORDIAL.replace("best before", "weighs 1.2 kg per l\nserving 30 ml, 2 tbsp\nbest before");
    let page = label(&said, &["--law", "us"]).expect("a label");
    assert!(page.contains("about 15 servings per container. Serving size: 2 tbsp (30 mL)."), "{page}");
    assert!(page.contains("Net quantity: 458 ml (15.4 fl oz) a piece"), "{page}");
    let none = CORDIAL.replace("best before", "serving 30 ml, 2 tbsp\nbest before");
    let why = label(&none, &["--law", "us"]).expect_err("nobody says what a litre weighs");
    assert!(why.contains("weigh a litre of it"), "{why}");
    let asked = label(
        &CORDIAL.replace("best before", "weighs 1.2 kg per l\nbest before"),
        &["--law", "us", "--serving", "30 ml, 2 tbsp"],
    );
    assert!(asked.expect("a label").contains("Serving size: 2 tbsp (30 mL)"));
}

/// Spirits of 80 US proof are 33.4 % alcohol by weight (USDA SR26, 14037, what the parts leave of 100). 1000 g hold 334 g, at 789.24 g a litre
/// 423.2 ml; 1500 g at 1.04 kg per l are 1442.3 ml: 29.3 % by volume.
#[test]
fn a_drink_says_how_strong_it_is_where_that_is_known() {
    let liqueur = "recipe Orange liqueur\nmakes 2 bottles\nweighs 1.04 kg per l\nvodka .... 1 kg\nsugar .... 300 g\nwater .... 200 g\n\
        stir: hands 5 min\n    Stir {sugar} and {water} into {vodka}.\n    until it is gone\n";
    let page = label(liqueur, &[]).expect("a label");
    let strength = page.lines().find(|line| line.contains("% vol")).expect("it is said");
    assert!(strength.contains("29.3 % vol"), "{strength}");
    // What stays on the funnel is a share of everything.
    let bottled = liqueur.replace("stir: hands", "divide 2 x 735 g, loss 2 %\nstir: hands");
    assert!(label(&bottled, &[]).expect("a label").contains("29.3 % vol"));
    let steeped = label(
        &liqueur
            .replace("water .... 200 g", "orange .... 200 g, strained out\nwater .... 200 g")
            .replace("and {water}", "{orange} and {water}"),
        &[],
    );
    let steeped = steeped.expect("a label");
    assert!(!steeped.contains("% vol\n") && steeped.contains("how strong it is"), "{steeped}");
}

/// What ferments eats sugar: a figure of what went in is no lower bound.
#[test]
fn sugar_that_a_ferment_eats_is_not_known() {
    let fizz = "recipe Ginger beer\nmakes 4 bottles\nweighs 1.03 kg per l\nwater .... 2 kg\nsugar .... 300 g\ninstant yeast .... 1 g\n\
        ferment: wait 2 days, at 20 C\n    Stir {sugar} and {instant yeast} into {water}.\n    until it fizzes\n";
    let page = label(fizz, &[]).expect("a label");
    let sugars = page.lines().find(|line| line.contains("of which sugars")).expect("a row");
    assert!(sugars.contains("not known"), "{sugars}");
    assert!(page.contains("A ferment lives on sugar") && page.contains("how strong it is"), "{page}");
    // Milk that is soured is such a thing too, by whatever name.
    let yogurt = "recipe Yogurt\nmakes 1 kg\nwhole milk .... 950 g\nyogurt .... 50 g\nculture: wait 6 h, at 43 C\n    until set\n";
    assert!(label(yogurt, &[]).expect("a label").contains("A ferment lives on sugar"));
    let loaf = "recipe Loaf\nmakes 2 loaves, bake loss 12 %\nstrong white flour .... 1 kg\nwater .... 650 g\nsalt .... 20 g\ninstant yeast .... 5 g\n\
        ferment: wait 2 h, at 24 C\nbake: tend 40 min, using oven at 230 C\n";
    assert!(!label(loaf, &[]).expect("a label").contains("A ferment"));
}

/// Milk has 5.05 g of sugars and 4.80 g of carbohydrate in 100 g (USDA SR26, 01077), and sugars are carbohydrate: 21 CFR 101.9(c)(6).
#[test]
fn sugars_are_no_more_than_carbohydrate() {
    let milk = "recipe Milk ice\nmakes 10 ices\nwhole milk .... 4 kg\nsugar .... 500 g\n";
    for law in ["eu", "us"] {
        let page = label(milk, &["--law", law]).expect("a label");
        let grams = |row: &str| {
            let line = page.lines().find(|line| line.trim_start().starts_with(row)).expect("a row");
            let figure =
                line.split(row).nth(1).expect("a figure").trim_start().split(' ').next().expect("grams").to_owned();
            figure.parse::<f64>().expect("a number")
        };
        let (all, sugars) = match law {
            "us" => (grams("total carbohydrate"), grams("total sugars")),
            _ => (grams("carbohydrate"), grams("of which sugars")),
        };
        assert!(sugars <= all, "{law}: {sugars} of {all}");
    }
}

/// Isomalt gives 2.0 kcal a gram in the United States (IFIC Foundation 2008, as ttngmai.wordpress.com prints it, seen) and 2.4 in the European
/// Union (Annex XIV); its row is a must beside `sugar-free` (101.9(c)(6)(iv)), and its class stands with its own name (Annex VII, Part C).
#[test]
fn sweeteners_are_named_and_counted_by_each_law() {
    let drops = "recipe Sugar-free drops\nmakes 100 drops\nisomalt .... 1 kg\n";
    let us = label(drops, &["--law", "us"]).expect("a label");
    let row = |page: &str, name: &str| page.lines().find(|line| line.trim_start().starts_with(name)).map(str::to_owned);
    assert!(row(&us, "calories").expect("a row").contains("200"), "{us}");
    assert!(row(&us, "sugar alcohol").expect("a row").contains("100 g"), "{us}");
    assert!(us.contains("how many pieces of 10 g are one serving"), "{us}");
    let eu = label(drops, &[]).expect("a label");
    assert!(row(&eu, "energy").expect("a row").contains("240 kcal"), "{eu}");
    assert!(eu.contains("sweetener (isomalt)"), "{eu}");
}

/// A bath of fat is no ingredient by its weight; what was strained out of a drink that is called by it is one by what went in.
#[test]
fn a_bath_stands_where_what_stays_of_it_would_and_what_was_strained_out_has_its_quantity() {
    let rings = "recipe Rings\nmakes 20 rings\nplain flour .... 800 g\nwater .... 500 g\nsalt .... 15 g\nsunflower oil .... 3 kg, strained out\n\
        fry: tend 20 min, using fryer at 180 C\n    Mix {plain flour}, {water} and {salt}; fry in {sunflower oil}.\n    until gold\n";
    let page = label(rings, &[]).expect("a label");
    let list = page.lines().find(|line| line.starts_with("Ingredients:")).expect("a list");
    let (flour, oil) = (list.find("flour").expect("flour"), list.find("sunflower").expect("oil"));
    assert!(flour < oil, "{list}");
    assert!(page.contains("how much of sunflower oil stays in it, by which its place in the list hangs"), "{page}");
    let drink =
        "recipe Rhubarb drink\nmakes 1 kg\nrhubarb .... 400 g, strained out\nwater .... 800 g\nsugar .... 200 g\n";
    let page = label(drink, &[]).expect("a label");
    assert!(page.contains("Quantity: rhubarb 40 %"), "{page}");
}

/// What a label wants and a formula does not give is told where the file is written, with a mend for what is sold as it was packed.
#[test]
fn the_check_tells_what_a_label_will_lack() {
    let folder = tempfile::tempdir().expect("a folder");
    let check = |text: &str| {
        fs::write(folder.path().join("x.miche"), text).expect("it is written");
        let output =
            Command::new(env!("CARGO_BIN_EXE_miche")).args(["check", "x.miche"]).current_dir(folder.path()).output();
        let output = output.expect("it runs");
        String::from_utf8_lossy(&output.stdout).into_owned() + &String::from_utf8_lossy(&output.stderr)
    };
    assert!(check(PEARS).contains("no-net-quantity"));
    assert!(check(CORDIAL).contains("no-net-quantity"));
    assert!(!check(&PEARS.replace("best before", "drained 58 %\nbest before")).contains("no-net-quantity"));
    assert!(!check(&CORDIAL.replace("best before", "weighs 1.2 kg per l\nbest before")).contains("no-net-quantity"));
    // A slip of the unit: no litre that is poured weighs a gram.
    for weighs in ["weighs 1.02 g per l", "weighs 10.2 kg per l", "weighs 1000 kg per ml"] {
        assert!(
            check(&CORDIAL.replace("best before", &format!("{weighs}\nbest before"))).contains("impossible-number")
        );
    }
    // What nobody sells has no label.
    assert!(!check(&PEARS.replace("best before 90 days\n", "")).contains("no-net-quantity"));
    assert!(check(&PEARS.replace("best before", "drained 320 g of 310 g\nbest before")).contains("impossible-number"));
}

/// Dry figures say nothing of what goes in cooked: USDA has 378 kcal in 100 g of dry chickpeas and 164 in cooked ones (SR28 16056, 16057).
#[test]
fn cooked_pulses_have_no_dry_figures() {
    let dish = |line: &str| label(&format!("recipe Dish\nmakes 400 g\n{line}\n"), &[]).expect("a label");
    let energy =
        |page: &str| page.lines().find(|line| line.trim_start().starts_with("energy")).expect("a row").to_owned();
    for line in [
        "chickpeas .... 400 g, cooked and drained",
        "pasta .... 400 g, cooked",
        "long-grain white rice .... 400 g, boiled",
    ] {
        let page = dish(line);
        assert!(energy(&page).contains("not known"), "{line}: {page}");
        assert!(!page.contains("holds raw"), "{page}");
    }
    // Of the tin the larder has figures.
    assert!(energy(&dish("kidney beans .... 400 g, tinned, drained")).contains("kJ"), "tinned");
    assert!(energy(&dish("chickpeas .... 400 g")).contains("kJ"), "dry");
}

/// 85 of 100 g of milk run off as whey, with most of its sugar: no sum tells what is left. Milk that is boiled down loses water.
#[test]
fn whey_is_not_water() {
    let cheese = "recipe Fresh cheese\nmakes 1.2 kg, loss 85 %\nwhole milk .... 8 kg\nrennet .... 2 g\n\
        curdle: hands 10 min\n    Stir {rennet} into {whole milk}; cut, and drain in cloths.\n    until firm\n";
    let page = label(cheese, &[]).expect("a label");
    let sugars = page.lines().find(|line| line.contains("of which sugars")).expect("a row");
    assert!(sugars.contains("not known"), "{page}");
    assert!(page.contains("**milk**") || page.to_lowercase().contains("milk"), "{page}");
    let boiled = "recipe Thick milk\nmakes 400 g, loss 60 %\nwhole milk .... 1 kg\nboil: tend 1 h, using hob\n    Boil {whole milk}.\n    until thick\n";
    let page = label(boiled, &[]).expect("a label");
    assert!(!page.contains("not known"), "{page}");
}

/// Directive 2001/113/EC, Article 2(3): 500 g of plums in 600 g of jam are 83 g in 100 g. A cake with jam in it is none.
#[test]
fn a_jam_says_how_much_fruit_it_was_prepared_with() {
    let jam = "recipe Plum jam\nmakes 600 g, loss 35.48 %\nplums .... 500 g\nsugar .... 430 g\nboil: tend 30 min, using hob\n    Boil {plums} and {sugar}.\n    until it sets\n";
    assert!(label(jam, &[]).expect("a label").contains("PREPARED WITH: 83 g of fruit per 100 g"));
    let tart = "recipe Jam tart\nmakes 1 tart\nplain flour .... 200 g\nbutter .... 100 g\nplums .... 300 g\nsugar .... 200 g\n";
    assert!(!label(tart, &[]).expect("a label").contains("PREPARED WITH"));
}

/// Layers of parts that each go into two others: a label is there in a moment, and lists each ingredient.
#[test]
fn parts_in_parts_do_not_multiply() {
    let mut text = "recipe Tower\nmakes 100 g\n".to_owned();
    for layer in 0..16 {
        for side in ["left", "right"] {
            let below = |side: &str| format!("{side} {} .... 50 g\n", layer - 1);
            let lines = match layer {
                0 => format!("sugar .... {} g\nbutter .... 60 g\n", if side == "left" { 40 } else { 50 }),
                _ => below("left") + &below("right"),
            };
            text += &format!("part {side} {layer}\n{lines}");
        }
    }
    text += "part tower\nleft 15 .... 50 g\nright 15 .... 50 g\n";
    let begun = std::time::Instant::now();
    let page = label(&text, &[]).expect("a label");
    assert!(page.contains("sugar") && page.contains("butter"), "{page}");
    assert!(begun.elapsed().as_secs() < 20, "{:?}", begun.elapsed());
}

/// Article 22(1)(a) of Regulation (EU) 1169/2011 and notice 2017/C 393/05 (from memory): who names a category names all that is of it.
#[test]
fn a_category_in_the_name_asks_how_much_of_each_there_is() {
    for (name, food) in [
        ("Fish pie", "cod"),
        ("Nut bars", "walnuts"),
        ("Fruit loaf", "raisins"),
        ("Meat pies", "minced beef"),
        ("Seafood pies", "prawns"),
        ("Berry pies", "raspberries"),
        ("Poultry pies", "chicken breast"),
    ] {
        let text =
            format!("recipe {name}\nmakes 4 pieces\nplain flour .... 500 g\nwater .... 300 g\n{food} .... 200 g\n");
        let page = label(&text, &[]).expect("a label");
        assert!(
            page.lines().any(|line| line.to_lowercase().contains("quantit") && line.contains(&format!("{food} 20 %"))),
            "{page}"
        );
    }
    let plain = "recipe Tea loaf\nmakes 4 pieces\nplain flour .... 500 g\nwater .... 300 g\nraisins .... 200 g\n";
    assert!(!label(plain, &[]).expect("a label").contains("raisins 20 %"));
}

/// 1000 of 1550 g are 64.5: one rule rounds it and the other cuts it down. On one label they are one figure.
#[test]
fn a_jam_says_its_fruit_by_one_figure() {
    let jam = "recipe Plum jam\nmakes 1.55 kg, loss 24.02 %\nplums .... 1 kg\nsugar .... 1040 g\nboil: tend 30 min, using hob\n    Boil {plums} and {sugar}.\n    until it sets\n";
    let page = label(jam, &[]).expect("a label");
    assert!(page.contains("64 g of fruit per 100 g") && page.contains("plums 64 %"), "{page}");
}

/// 21 CFR 101.9(b)(9) (from memory): the serving is of what is left of 500 g when the brine is poured off, 250 g; 250 / 30 are about 8.
#[test]
fn in_the_united_states_a_serving_is_of_what_is_drained() {
    let said = TURNIPS.replace("best before", "drained 250 g of 500 g\nbest before");
    let page = label(&said, &["--law", "us"]).expect("a label");
    assert!(page.contains("(250 g)") && !page.contains("(500 g)") && page.contains("per serving, 250 g"), "{page}");
    assert!(!page.contains("nobody says what cooking takes"), "{page}");
    let by_spoon = label(&said, &["--law", "us", "--serving", "30 g, 2 slices"]).expect("a label");
    assert!(by_spoon.contains("about 8 servings"), "{by_spoon}");
}

/// 27 CFR 5 and 16 (from memory): a drink of 29.3 % by volume says so in the United States too, and is the TTB's.
#[test]
fn a_spirit_in_the_united_states_says_its_strength_and_whose_law_it_is() {
    let liqueur = "recipe Orange liqueur\nmakes 2 bottles\nweighs 1.04 kg per l\nvodka .... 1 kg\nsugar .... 300 g\nwater .... 200 g\n\
        stir: hands 5 min\n    Stir {sugar} and {water} into {vodka}.\n    until it is gone\n";
    let page = label(liqueur, &["--law", "us"]).expect("a label");
    assert!(page.contains("29.3 % alc/vol") && page.contains("TTB"), "{page}");
    assert!(!label(CORDIAL, &["--law", "us"]).expect("a label").contains("TTB"));
}
