//! Labels, costs and stocks from outside: figures worked out by hand, and properties that hold at any size.

// Helpers outside a test function fail a test by panicking, as the tests do.
#![allow(clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use serde_json::Value;
use std::fs;
use std::process::Command;

const LARDER: &str = "\
ingredient strong white flour
costs 1.20 CROWN per kg, on 2026-11-02

ingredient salt
costs 0.50 CROWN per kg

ingredient butter
costs 8 CROWN per kg

ingredient plum
costs 3 CROWN per kg, on 2026-03-02
";

const BUNS: &str = "\
recipe Plum buns
makes 20 buns
use \"larder.miche\"

part dough
strong white flour ............ 1 kg
water ......................... 60 %
butter ........................ 10 %
salt .......................... 2 %
divide 20 x 86 g

part jam
percent of plums
plums ......................... 500 g, yield 80 %
caster sugar .................. 50 %
makes 600 g, loss 20 %

part buns
per piece
dough ......................... 1 piece
jam ........................... 30 g
";

fn said(recipe: &str, arguments: &[&str]) -> (bool, String) {
    let folder = tempfile::tempdir().expect("a folder");
    fs::write(folder.path().join("larder.miche"), LARDER).expect("a file");
    fs::write(folder.path().join("buns.miche"), recipe).expect("a file");
    let output =
        Command::new(env!("CARGO_BIN_EXE_miche")).args(arguments).current_dir(folder.path()).output().expect("it runs");
    let fine = output.status.success();
    let text = if fine { output.stdout } else { output.stderr };
    (fine, String::from_utf8(text).expect("UTF-8"))
}

fn json(arguments: &[&str]) -> Value {
    let (fine, text) = said(BUNS, &[arguments, &["--format", "json"]].concat());
    assert!(fine, "{text}");
    serde_json::from_str(&text).expect("JSON")
}

fn near(value: &Value, wanted: f64) -> bool {
    value.as_f64().is_some_and(|value| (value - wanted).abs() < 1e-6)
}

fn names(label: &Value) -> Vec<String> {
    let list = label["labels"][0]["ingredients"].as_array().expect("a list");
    list.iter().map(|item| item["ingredient"].as_str().expect("a name").to_owned()).collect()
}

/// 1 kg flour at 1.20, 100 g butter at 8, 20 g salt at 0.50: 1.20 + 0.80 + 0.01. Plums 500 g of which 80 % are edible:
/// 625 g at 3: 1.875. Together 3.885; the sugar has no price.
#[test]
fn costs_add_up_exactly() {
    let cost = &json(&["cost", "buns.miche"])["costs"][0];
    assert!(near(&cost["total"], 3.885), "{cost}");
    assert!(near(&cost["each"], 3.885 / 20.0), "{cost}");
    assert_eq!(cost["currency"], "CROWN");
    assert_eq!(cost["missing"], serde_json::json!(["caster sugar"]));
    assert_eq!(cost["is_lower_bound"], true);
    let sum = |key: &str| -> f64 {
        cost[key].as_array().expect("a list").iter().filter_map(|one| one["cost"].as_f64()).sum()
    };
    assert!((sum("ingredients") - 3.885).abs() < 1e-9);
    assert!((sum("parts") - 3.885).abs() < 1e-9);
}

/// The order of a label is that of the weights, so it does not change with the size of the batch.
#[test]
fn the_order_of_a_label_is_the_same_at_any_size() {
    for law in ["eu", "us"] {
        let once = names(&json(&["label", "buns.miche", "--law", law]));
        for times in ["1/2", "3", "20"] {
            assert_eq!(names(&json(&["label", "buns.miche", "--law", law, "--times", times])), once);
        }
        assert_eq!(once, ["strong white flour", "water", "jam", "butter", "salt"]);
    }
}

/// Regulation (EU) 1169/2011, Annex VII, Part A, 1 (by the Dutch authority NVWA, page on added water, seen): water is what is left of it in what is sold, and up to
/// 5 % may go unsaid. 2320 g of buns hold 1720 g of others and 600 g of water; a loss of 24 % leaves 43.2 g in 1763.2 g.
#[test]
fn water_that_has_left_is_not_on_the_label() {
    assert!(names(&json(&["label", "buns.miche", "--bake-loss", "20 %"])).contains(&"water".to_owned()));
    assert!(!names(&json(&["label", "buns.miche", "--bake-loss", "24 %"])).contains(&"water".to_owned()));
    assert!(names(&json(&["label", "buns.miche", "--bake-loss", "24 %", "--law", "us"])).contains(&"water".to_owned()));
}

/// Regulation (EU) 1169/2011, Article 22 and Annex VIII, 3 (as article R112-17 of the French Code de la consommation has it, seen): the weight as used on the weight as sold. Plums:
/// 500 g in 20 buns of 116 g, less a bake loss of 10 %.
#[test]
fn what_the_name_names_has_its_quantity() {
    let label = json(&["label", "buns.miche", "--bake-loss", "10 %"]);
    let quantities = label["labels"][0]["quantities"].as_array().expect("a list");
    let plums = quantities.iter().find(|one| one["ingredient"] == "plums").expect("plums are in the name");
    // 600 g of jam are made and 20 x 30 g used: all of it.
    assert!(near(&plums["percent"], 500.0 / (20.0 * 116.0 * 0.9) * 100.0), "{plums}");
    assert!(near(&label["labels"][0]["each_g"], 116.0 * 0.9));
}

/// Salt is 96.895 % of table salt in USDA SR26 ABBREV 02047, nearly nothing in flour (0.005 %), butter (0.0275 %), plums and
/// sugar: 20 g x 0.96895 + 1000 g x 0.00005 + 100 g x 0.000275, and at most 0.01 g from the rest.
#[test]
fn nutrients_are_the_larders() {
    let label = json(&["label", "buns.miche"]);
    let sums = label["labels"][0]["nutrition_batch"].as_array().expect("a list");
    let salt = sums.iter().find(|one| one["nutrient"] == "salt").and_then(|one| one["amount"].as_f64()).expect("salt");
    assert!((salt - (19.379 + 0.05 + 0.0275)).abs() < 0.01, "{salt}");
}

#[test]
fn allergens_stand_out_by_each_law() {
    let (_, eu) = said(BUNS, &["label", "buns.miche", "--format", "markdown"]);
    assert!(eu.contains("strong white flour (**wheat**)"), "{eu}");
    assert!(eu.contains("butter (**milk**)"), "{eu}");
    assert!(eu.contains("not analysed") && eu.contains("saturates"), "{eu}");
    let (_, us) = said(BUNS, &["label", "buns.miche", "--law", "us", "--format", "text"]);
    assert!(us.contains("CONTAINS: milk, wheat."), "{us}");
}

#[test]
fn what_is_used_and_what_remains_is_what_was_had() {
    let arguments = ["stock", "buns.miche", "--have", "strong white flour=2.3 kg", "--have", "butter=1 kg"];
    let stock = &json(&arguments)["stocks"][0];
    assert_eq!(stock["limit"], "strong white flour");
    // Whole buns: 46 of 50 g of flour each.
    assert!(near(&stock["pieces"], 46.0), "{stock}");
    for one in stock["remains"].as_array().expect("a list") {
        let figure = |key: &str| one[key].as_f64().expect("a figure");
        assert!((figure("used_g") + figure("left_g") - figure("had_g")).abs() < 1e-9);
        assert!(figure("left_g") >= 0.0);
    }
}

#[test]
fn wrong_asking_is_said() {
    for (arguments, word) in [
        (&["label", "buns.miche", "--bake-loss", "100 %"][..], "--bake-loss"),
        (&["label", "buns.miche", "--quantity", "plumbs"], "did you mean"),
        (&["stock", "buns.miche"], "--have"),
    ] {
        let (fine, text) = said(BUNS, arguments);
        assert!(!fine && text.contains(word), "{arguments:?}: {text}");
    }
}

/// A hostile name reaches no output raw.
#[test]
fn names_are_escaped() {
    let recipe = BUNS.replace("Plum buns", "Plum <b>buns</b>");
    for command in ["label", "cost"] {
        let (fine, page) = said(&recipe, &[command, "buns.miche", "--format", "html"]);
        assert!(fine && !page.contains("<b>"), "{page}");
    }
}

/// The recipe says what the oven takes; the command line goes before it; without either it is the weight of the dough.
#[test]
fn bake_loss_is_the_recipes_own_or_said_to_be_missing() {
    let baked = BUNS.replace("makes 20 buns", "makes 20 buns, bake loss 10 %");
    let each = |recipe: &str, arguments: &[&str]| {
        let (fine, text) = said(recipe, &[&["label", "buns.miche", "--format", "json"], arguments].concat());
        assert!(fine, "{text}");
        let label: Value = serde_json::from_str(&text).expect("JSON");
        (label["labels"][0]["each_g"].clone(), label["labels"][0]["bake_loss_percent"].clone())
    };
    let (weight, loss) = each(&baked, &[]);
    assert!(near(&weight, 116.0 * 0.9) && near(&loss, 10.0), "{weight} {loss}");
    let (weight, loss) = each(&baked, &["--bake-loss", "12 %"]);
    assert!(near(&weight, 116.0 * 0.88) && near(&loss, 12.0), "{weight} {loss}");
    let (weight, loss) = each(BUNS, &[]);
    assert!(near(&weight, 116.0) && loss.is_null(), "{weight} {loss}");
    let page = |recipe: &str| said(recipe, &["label", "buns.miche", "--format", "text"]).1;
    assert!(page(&baked).contains("after a bake loss of 10 %"), "{}", page(&baked));
    assert!(page(BUNS).contains("the weight of the dough"), "{}", page(BUNS));
}

/// 2026-03-02 to 2026-09-01 are 29 + 30 + 31 + 30 + 31 + 31 + 1 = 183 days; half a year, 180 days, is over on 2026-08-29.
#[test]
fn old_prices_are_named() {
    let old = |arguments: &[&str]| {
        let cost = json(&[&["cost", "buns.miche"], arguments].concat());
        cost["costs"][0]["old_prices"].as_array().expect("a list").iter().map(ToString::to_string).collect::<String>()
    };
    assert_eq!(old(&["--on", "2026-08-29"]), "");
    assert_eq!(old(&["--on", "2026-08-30"]), "\"plums\"");
    assert_eq!(old(&["--on", "2026-09-01", "--older-than", "183 days"]), "");
    assert_eq!(old(&["--on", "2026-11-04", "--older-than", "1 day"]), "\"plums\"\"strong white flour\"");
    let (_, page) = said(BUNS, &["cost", "buns.miche", "--on", "2026-09-01", "--format", "text"]);
    assert!(page.contains("plums (2026-03-02, 183 days ago)"), "{page}");
}

#[test]
fn a_change_of_price_is_a_change() {
    let folder = tempfile::tempdir().expect("a folder");
    // Without sugar all has a price, so the cost of a piece is known.
    let recipe =
        BUNS.replace("caster sugar .................. 50 %\n", "").replace("makes 600 g, loss 20 %", "makes 400 g");
    let recipe = recipe.replace("jam ........................... 30 g", "jam ........................... 20 g");
    for (name, larder) in [("old", LARDER.to_owned()), ("new", LARDER.replace("costs 8 CROWN", "costs 9.50 CROWN"))] {
        fs::create_dir(folder.path().join(name)).expect("a folder");
        fs::write(folder.path().join(name).join("larder.miche"), larder).expect("a file");
        fs::write(folder.path().join(name).join("buns.miche"), &recipe).expect("a file");
    }
    let output = Command::new(env!("CARGO_BIN_EXE_miche"))
        .args(["diff", "old/buns.miche", "new/buns.miche"])
        .current_dir(folder.path())
        .output()
        .expect("it runs");
    let text = String::from_utf8(output.stdout).expect("UTF-8") + &String::from_utf8_lossy(&output.stderr);
    assert!(text.contains("8.00 CROWN") && text.contains("9.50 CROWN"), "{text}");
    // 3.885 over 20 buns, and 100 g of butter at 1.50 more: 0.19425 and 0.20175.
    assert!(text.contains("0.194 CROWN") && text.contains("0.202 CROWN"), "{text}");
}

/// As in a larder: capitals and the other number are the same ingredient.
#[test]
fn what_there_is_may_be_called_as_in_a_larder() {
    let stock = |name: &str| {
        let text = json(&["stock", "buns.miche", "--have", &format!("{name}=5 kg")]).to_string();
        text.replace(&format!("\"{name}\""), "\"plums\"")
    };
    let plums = stock("plums");
    assert!(plums.contains("\"plums\""), "{plums}");
    for name in ["plum", "PLUM", "Plums"] {
        assert_eq!(stock(name), plums, "{name}");
    }
    let (fine, text) = said(BUNS, &["stock", "buns.miche", "--have", "plmus=5 kg"]);
    assert!(!fine && text.contains("did you mean `plums`?"), "{text}");
}

#[test]
fn a_stock_file_is_read_as_the_language_writes() {
    let folder = tempfile::tempdir().expect("a folder");
    fs::write(folder.path().join("larder.miche"), LARDER).expect("a file");
    fs::write(folder.path().join("buns.miche"), BUNS).expect("a file");
    let stock = |text: &str, more: &[&str]| {
        fs::write(folder.path().join("store.txt"), text).expect("a file");
        let arguments = [&["stock", "buns.miche", "--from", "store.txt", "--format", "json"], more].concat();
        let output = Command::new(env!("CARGO_BIN_EXE_miche"))
            .args(arguments)
            .current_dir(folder.path())
            .output()
            .expect("runs");
        let text = if output.status.success() { output.stdout } else { output.stderr };
        (output.status.success(), String::from_utf8(text).expect("UTF-8"))
    };
    let store = "# the store on a Monday\n\nstrong white flour .... 2.3 kg\nbutter .... 600 g\nbutter .... 400 g\noats .... 5 kg\n";
    let (fine, text) = stock(store, &[]);
    assert!(fine, "{text}");
    let answer: Value = serde_json::from_str(&text).expect("JSON");
    let stock_of = &answer["stocks"][0];
    assert!(near(&stock_of["pieces"], 46.0), "{stock_of}");
    let remains = stock_of["remains"].as_array().expect("a list");
    let of = |name: &str| remains.iter().find(|one| one["ingredient"] == name).expect("it was there");
    assert!(near(&of("butter")["had_g"], 1000.0) && near(&of("butter")["left_g"], 770.0), "{text}");
    assert!(near(&of("oats")["used_g"], 0.0) && near(&of("oats")["left_g"], 5000.0), "{text}");
    // What is said on the command line goes before the file.
    let (_, text) = stock(store, &["--have", "butter=100 g"]);
    assert!(text.contains("\"pieces\": 20.0"), "{text}");
    for (text, words) in [
        ("strong white flour .... 2 kg\nbutter .... some\n", "line 2"),
        ("note buy more\n", "line 1"),
        ("rope oil .... 2 l\n", "density is not known"),
        ("", "say what there is"),
        ("oats .... 2 kg\n", "oats"),
    ] {
        let (fine, said) = stock(text, &[]);
        assert!(!fine && said.contains(words), "{text}: {said}");
    }
    let (fine, said) = stock(store, &["--times", "2"]);
    assert!(!fine && said.contains("itself"), "{said}");
}

/// An ingredient that weighs much and has no figures leaves a table that says nothing, and it says so.
#[test]
fn what_is_not_known_is_not_counted_as_nothing() {
    let dusty = BUNS.replace("butter ........................ 10 %", "moon meal ..................... 10 %");
    let (fine, page) = said(&dusty, &["label", "buns.miche", "--format", "text"]);
    assert!(fine && page.contains("not known") && page.contains("moon meal"), "{page}");
    // 5 % of the flour are 50 g in 2320 g of buns, 2.2 %; 1 % are 0.4 %, within the tolerances of all but salt.
    for (butter, moon, protein, salt) in [("5 %", "5 %", true, true), ("9 %", "1 %", false, true)] {
        let lines = format!("butter ........................ {butter}\nmoon meal ..................... {moon}");
        let little = BUNS.replace("butter ........................ 10 %", &lines);
        let (fine, page) = said(&little, &["label", "buns.miche", "--format", "text"]);
        assert!(fine && page.contains("moon meal"), "{page}");
        let is_least = |name: &str| {
            let row = page.lines().find(|line| line.trim_start().starts_with(name)).expect("a row");
            row.contains("at least")
        };
        assert_eq!((is_least("protein"), is_least("salt")), (protein, salt), "{page}");
    }
}

#[test]
fn each_of_them_is_explained() {
    for (topic, words) in [
        ("label", ["1169/2011", "101.9(c)", "net weight"]),
        ("cost", ["edible share", "of a piece", "Arithmetic"]),
        ("stock", ["left = there is", "the least of", "Arithmetic"]),
    ] {
        let (fine, text) = said(BUNS, &["explain", topic]);
        assert!(fine && words.iter().all(|word| text.contains(word)), "{text}");
    }
}

/// 5 kg of water in which something is dipped are neither its first ingredient nor the water that left its dough.
#[test]
fn what_is_set_aside_stands_last_and_takes_no_water_away() {
    let recipe = "\
recipe Anchor pretzels
makes 50 pretzels

part dough
strong white flour ............ 2.8 kg
water ......................... 50 %
salt .......................... 2 %
instant yeast ................. 1 %
divide 50 x 84 g, loss 2 %

part bath
water ......................... 5 kg
malt syrup .................... 100 g

part pretzels
per piece
dough ......................... 1 piece
bath .......................... 100 g, aside
coarse salt ................... 1.5 g
";
    for law in ["eu", "us"] {
        let (_, text) = said(recipe, &["label", "buns.miche", "--law", law]);
        let place = |word: &str| text.find(word).unwrap_or_else(|| panic!("no {word} in {text}"));
        assert!(place("flour") < place("water, "), "{law}: {text}");
        assert!(place("water, ") < place("bath"), "{law}: {text}");
        assert!(place("coarse salt") < place("bath"), "{law}: {text}");
    }
}

/// Two sizes of one dough: 6 small of 100 g, filled with 50 g of jam each, and 2 large of 300 g. The dough is 800 g of flour at 1.20
/// and 400 g of water for 1200 g: 0.96; the jam 500 g of plums of which 80 % are edible: 625 g at 3, 1.875, all of it for the small.
/// So a small one costs 0.08 and 0.3125, a large one 0.24.
#[test]
fn a_piece_of_each_size_has_its_cost() {
    let recipe = "\
recipe Plum and plain
makes 8 buns
use \"larder.miche\"

part dough
strong white flour ............ 800 g
water ......................... 400 g
divide 6 x 100 g small and 2 x 300 g large

part jam
plums ......................... 500 g, yield 80 %
makes 300 g, loss 40 %

part small buns
per small
dough ......................... 1 piece
jam ........................... 50 g

part large buns
per large
dough ......................... 1 piece
";
    let costs = |arguments: &[&str]| -> Value {
        let (fine, text) = said(recipe, &[&["cost", "buns.miche"], arguments, &["--format", "json"]].concat());
        assert!(fine, "{text}");
        serde_json::from_str::<Value>(&text).expect("JSON")["costs"][0].clone()
    };
    for arguments in [&[][..], &["--times", "3"]] {
        let cost = costs(arguments);
        let each = |at: usize| cost["sorts"][at]["each"].clone();
        assert!(near(&each(0), 0.3925) && near(&each(1), 0.24), "{cost}");
        assert!(cost["each"].is_null(), "{cost}");
        let sorts = cost["sorts"].as_array().expect("a list");
        let all: f64 =
            sorts.iter().map(|one| one["each"].as_f64().unwrap_or(0.0) * one["pieces"].as_f64().unwrap_or(0.0)).sum();
        assert!(near(&cost["total"], all), "{cost}");
    }
    let (_, text) = said(recipe, &["cost", "buns.miche"]);
    assert!(text.contains("one of 6 small") && text.contains("0.393 CROWN"), "{text}");
    assert!(!costs(&[]).to_string().contains("one of 8"), "one piece of two sizes has no cost");
}

/// What is unknown is named, so that it can be looked up; the trace of water in dried yeast moves no figure and is not.
#[test]
fn what_the_larder_does_not_know_is_named_in_the_sums() {
    let sums = |more: &str| {
        let text = format!(
            "recipe Loaf\nbread flour .... 1 kg\nwater .... 65 %\ninstant yeast .... 1 %\n{more}mix: hands 5 min\n"
        );
        let (fine, text) = said(&text, &["sums", "buns.miche"]);
        assert!(fine, "{text}");
        text
    };
    assert!(sums("zellok .... 5 %\n").contains("does not know what is in zellok:"), "{}", sums("zellok .... 5 %\n"));
    assert!(!sums("").contains("does not know what is in"), "{}", sums(""));
}

/// A part that is only put together of others has no ingredients of its own, and 0.00 looked as if it had some for nothing.
#[test]
fn a_part_without_ingredients_of_its_own_shows_no_sum() {
    let put_together = BUNS.replace(
        "dough ......................... 1 piece\njam ........................... 30 g\n",
        "dough .... 1 piece\njam .... 30 g\n",
    );
    let (fine, text) = said(&put_together, &["cost", "buns.miche"]);
    assert!(fine && text.contains("| buns | none of its own |"), "{text}");
    assert!(!text.contains("0.00"), "{text}");
    // Water costs nothing, and that is told in its own word, of a part as of a line.
    let free = format!("{BUNS}\npart rinse\nwater .... 100 g\n");
    let (_, text) = said(
        &free.replace("jam ........................... 30 g\n", "jam .... 30 g\nrinse .... 5 g\n"),
        &["cost", "buns.miche"],
    );
    assert!(text.contains("| rinse | free |"), "{text}");
    let one = "recipe Dome\nmakes 1 domes\nuse \"larder.miche\"\nstrong white flour .... 1 kg\nsalt .... 20 g\n";
    let (_, text) = said(one, &["cost", "buns.miche"]);
    assert!(text.contains("the one dome") || text.contains("the one piece"), "{text}");
}

/// What comes from the store was paid for when it came there, of an ingredient as of a part; and what is made of a preferment besides what its
/// dough takes is told as that.
#[test]
fn what_comes_from_the_store_is_not_paid_for_again() {
    let plain = "recipe Foam\nuse \"larder.miche\"\nstrong white flour .... 1 kg\nsalt .... 20 g\n";
    let stored = plain.replace("20 g", "20 g, from store");
    let total = |recipe: &str| {
        let (fine, text) = said(recipe, &["cost", "buns.miche", "--format", "json"]);
        assert!(fine, "{text}");
        let all: Value = serde_json::from_str(&text).expect("JSON");
        all["costs"][0].clone()
    };
    let (bought, taken) = (total(plain), total(&stored));
    assert_eq!(taken["elsewhere"], serde_json::json!(["salt"]), "{taken}");
    assert!(taken["is_lower_bound"] == true && !taken["ingredients"].to_string().contains("salt"), "{taken}");
    assert!(taken["total"].as_f64() <= bought["total"].as_f64(), "{taken}");
    let sour = "recipe Loaf\nuse \"larder.miche\"\npart sour, from dough\nspare 50 g\nstrong white flour .... 30 %\nwater .... 30 %\n\n\
                part dough\nstrong white flour .... 1 kg\nwater .... 60 %\nsalt .... 2 %\n";
    let (_, text) = said(sour, &["cost", "buns.miche"]);
    assert!(text.contains("| sour, beyond what dough takes |"), "{text}");
    assert_eq!(total(sour)["parts"][0]["beyond"], "dough");
}

/// A spoon in a list of what there is has no country that says how much it holds.
#[test]
fn spoons_in_a_list_of_what_there_is_are_of_some_country() {
    let folder = tempfile::tempdir().expect("a folder");
    fs::write(folder.path().join("buns.miche"), "recipe Dough\nflour .... 1 kg\ninstant yeast .... 10 g\n")
        .expect("a file");
    fs::write(folder.path().join("stock.txt"), "flour .... 2 kg\ninstant yeast .... 2 tsp\n").expect("a file");
    let output = Command::new(env!("CARGO_BIN_EXE_miche"))
        .args(["stock", "buns.miche", "--from", "stock.txt"])
        .current_dir(folder.path())
        .output()
        .expect("it runs");
    let text = String::from_utf8(output.stderr).expect("UTF-8");
    assert!(text.contains("is not the same everywhere: write `instant yeast .... 9.86 ml` (US)"), "{text}");
}
