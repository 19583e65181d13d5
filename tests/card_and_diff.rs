//! Two versions whose cards differ in anything but order are never 'the recipe did not change', under any choice.
//!
//! The examples and the right files are changed at one place, by chance, and both are compared in one process.
//! `MICHE_CHANGES=20000 cargo test --test card_and_diff` tries so many instead of the few of a normal run.

// Helpers outside a test function fail a test by panicking, as the tests do.
#![allow(clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

mod dice;
#[allow(dead_code)] // what the attacks need and this does not
#[path = "attack/mutate.rs"]
mod mutate;

use dice::Dice;
use miche::edge::loader::{Loader, find_files};
use miche::figures::card::card;
use miche::figures::compare::{FileVersion, versions};
use miche::measure::number::Number;
use miche::measure::show::Units;
use miche::model::recipe::Selection;
use miche::out;
use miche::solve::resolve::selections;
use miche::text::diagnostic::Severity;
use mutate::{another_number, other_lines, other_words};
use serde_json::Value;
use std::fs;
use std::path::{Path, PathBuf};

fn version(text: &str, path: &Path) -> FileVersion {
    let mut loader = Loader::new();
    let source = loader.take_text("changed.miche", text.to_owned(), path);
    FileVersion::of(loader.into_project(), source)
}

fn is_right(version: &FileVersion) -> bool {
    version.problems.iter().all(|problem| problem.severity != Severity::Error)
}

fn card_of(version: &FileVersion, selection: &Selection) -> Option<Value> {
    let (recipe, formula) = version.worked(selection)?;
    let card = card(&recipe, &formula, Number::ONE, None, Units::Metric).ok()?;
    serde_json::from_str(&out::json::render(&card).ok()?).ok()
}

/// Lists in one order, without what the order of lines alone decides: running sums, and which line a scale's step goes to.
fn without_order(value: &Value) -> Value {
    match value {
        Value::Array(list) => {
            let mut all: Vec<Value> = list.iter().map(without_order).collect();
            all.sort_by_key(Value::to_string);
            Value::Array(all)
        }
        Value::Object(fields) => {
            let decided = |key: &str| matches!(key, "running_shown" | "shown" | "final_mix_shown");
            let kept = fields.iter().filter(|(key, _)| !decided(key));
            Value::Object(kept.map(|(key, value)| (key.clone(), without_order(value))).collect())
        }
        // A tab is white space like any other, says the reference.
        Value::String(text) => Value::String(text.split_whitespace().collect::<Vec<&str>>().join(" ")),
        other => other.clone(),
    }
}

#[test]
fn cards_that_differ_are_told() {
    let number = |name: &str| std::env::var(name).ok().and_then(|text| text.parse::<u64>().ok());
    let count = number("MICHE_CHANGES").unwrap_or(250);
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let folders = ["examples", "tests/right"].map(|folder| find_files(&root.join(folder)).expect("files"));
    let seeds: Vec<(PathBuf, String)> = folders
        .into_iter()
        .flatten()
        .map(|path| (path.clone(), fs::read_to_string(&path).expect("UTF-8")))
        .filter(|(_, text)| text.lines().any(|line| line.starts_with("recipe ")) && text.len() < 4000)
        .collect();
    let (mut compared, mut silent) = (0, Vec::new());
    for seed in 0..count {
        let mut dice = Dice(seed + number("MICHE_CHANGES_FROM").unwrap_or(0));
        let (path, text) = dice.one(&seeds).clone();
        let new = match dice.below(5) {
            0 => other_lines(&text, "", &mut dice),
            1 | 2 => other_words(&text, &mut dice),
            _ => another_number(&text, &mut dice),
        };
        let (was, is) = (version(&text, &path), version(&new, &path));
        if !is.is_recipe() || !is_right(&was) || !is_right(&is) {
            continue;
        }
        compared += 1;
        let told = versions(&was, &is).is_some_and(|comparison| !comparison.is_empty());
        let itself = versions(&is, &is).is_none_or(|comparison| comparison.is_empty());
        let differ = selections(&is.choices()).iter().any(|selection| {
            let cards =
                [card_of(&was, selection), card_of(&is, selection)].map(|card| card.as_ref().map(without_order));
            cards[0] != cards[1]
        });
        if differ && !told || !itself {
            let lines = text.lines().zip(new.lines()).find(|(was, is)| was != is);
            silent.push(format!("seed {seed}, {}: {lines:?}, of itself {itself}", path.display()));
        }
    }
    println!("{compared} of {count} compared");
    assert!(compared > 20, "{compared}");
    assert!(silent.is_empty(), "{} silent:\n{}", silent.len(), silent.join("\n"));
}

/// A step prints what has no weight in the measure of its line, as the line does: spoons as spoons, and for who reads US units litres as cups.
#[test]
fn a_step_prints_a_measure_as_its_line_does() {
    let folder = tempfile::tempdir().expect("a folder");
    let recipe = "recipe Knots\nmeasures metric\nplain flour .... 500 g\nwater .... 300 g\nsea campion juice .... 2 tsp\nkelp lye .... 1 l, aside\nmix: \
                  hands 10 min\n    Mix {plain flour}, {water} and {sea campion juice}; dip in {kelp lye}.\n    until smooth\n";
    std::fs::write(folder.path().join("a.miche"), recipe).expect("a file");
    let card = |units: &str| {
        let arguments = ["card", "a.miche", "--units", units, "--format", "text"];
        let run =
            std::process::Command::new(env!("CARGO_BIN_EXE_miche")).args(arguments).current_dir(folder.path()).output();
        String::from_utf8(run.expect("it runs").stdout).expect("UTF-8")
    };
    let (us, metric) = (card("us"), card("metric"));
    assert!(us.contains("dip in 4¼ cups kelp") && us.contains("2 tsp sea campion juice;"), "{us}");
    assert!(metric.contains("dip in 1 l kelp lye") && metric.contains("2 tsp sea campion juice;"), "{metric}");
}

/// A stage of a sour that the next stage takes up is told to be taken out of that, and not out of the dough.
#[test]
fn a_stage_that_another_takes_is_told_where_it_belongs() {
    let folder = tempfile::tempdir().expect("a folder");
    let recipe = "recipe Cliff rye\n\npart freshening, from dough\nwhole rye flour .... 4 %\nwater .... 6 %\nstir: hands 3 min\n    Stir {whole rye \
                  flour} and {water}.\n\npart sour, from dough\nwhole rye flour .... 16 %\nwater .... 10 %\nstir: hands 4 min\n    Stir \
                  {freshening}, {whole rye flour} and {water}.\n\npart dough\nwhole rye flour .... 2 kg\nwater .... 74 %\n";
    std::fs::write(folder.path().join("a.miche"), recipe).expect("a file");
    let run = std::process::Command::new(env!("CARGO_BIN_EXE_miche"))
        .args(["check", "a.miche"])
        .current_dir(folder.path())
        .output();
    let text = String::from_utf8(run.expect("it runs").stdout).expect("UTF-8");
    let words: Vec<&str> = text.split_whitespace().collect();
    assert!(
        words.join(" ").contains("write `part freshening, from sour`, and list in `sour` what `freshening` takes, too"),
        "{text}"
    );
}

/// Where a dough is mixed in several loads, the scale begins anew with each: text, Markdown, HTML and JSON say what it shows of one load.
#[test]
fn the_scale_of_a_load_is_in_every_format() {
    let folder = tempfile::tempdir().expect("a folder");
    let recipe = "recipe Rolls\nuse \"k.miche\"\nplain flour .... 10 kg\nwater .... 6 kg\nsalt .... 200 g\nmix: hands 10 min, using mixer\n    Mix \
                  {plain flour}, {water} and {salt}.\n    until smooth\n";
    std::fs::write(folder.path().join("k.miche"), "kitchen Quay\nmixer x 1, holds 9 kg\n").expect("a file");
    std::fs::write(folder.path().join("a.miche"), recipe).expect("a file");
    let card = |format: &str| {
        let arguments = ["card", "a.miche", "--format", format];
        let run =
            std::process::Command::new(env!("CARGO_BIN_EXE_miche")).args(arguments).current_dir(folder.path()).output();
        String::from_utf8(run.expect("it runs").stdout).expect("UTF-8")
    };
    // 5000 g of flour and 3000 g of water are 8000 g, with 100 g of salt 8100 g.
    for format in ["text", "markdown", "json"] {
        let shown = card(format);
        assert!(shown.contains("8.000 kg") && shown.contains("8.100 kg"), "{format}: {shown}");
        assert!(!shown.contains("16.000 kg"), "{format}: {shown}");
    }
    let words = card("html").replace("<span", " <span");
    assert!(words.contains("8.000") && words.contains("8.100"), "{words}");
}

/// Squares cut of one sheet are not each on a sheet: 63 g on 1200 cm² lay thinner than a millimetre (a gram to the cubic centimetre); 24 of
/// them are 1.26 g on each.
#[test]
fn squares_of_one_sheet_are_told() {
    let folder = tempfile::tempdir().expect("a folder");
    let cake = "recipe Ginger squares\nmakes 24 squares, sheet 40 cm x 30 cm\nplain flour .... 800 g\nwhole milk .... 712 g\ndivide 24 x 63 g\n";
    let check = |text: &str| {
        std::fs::write(folder.path().join("a.miche"), text).expect("a file");
        let run = std::process::Command::new(env!("CARGO_BIN_EXE_miche"))
            .args(["check", "a.miche"])
            .current_dir(folder.path())
            .output();
        String::from_utf8(run.expect("it runs").stdout).expect("UTF-8")
    };
    let told = check(cake);
    assert!(told.contains("tin-fill") && told.contains("all 24 on one sheet are 1.26 g"), "{told}");
    let one = check(&cake.replace("24 squares", "1 cake").replace("24 x 63", "1 x 1512"));
    assert!(!one.contains("tin-fill"), "{one}");
}

/// What hands fold into what came out of the mixer in loads goes into each of its bowls: 3 kg of flour into two bowls are 1500 g each, in
/// every format and on the run sheet; what is worked in after a rest goes into all of it.
#[test]
fn what_is_folded_into_loads_is_told_by_the_load() {
    let folder = tempfile::tempdir().expect("a folder");
    let recipe = "recipe Sponge\nmakes 9 cakes\nuse \"k.miche\"\nbutter .... 2 kg\nbrown sugar .... 2 kg\negg .... 1 kg\nself-raising flour .... 3 kg\nwalnuts .... 900 g\n\
                  icing sugar .... 100 g\ncream: hands 8 min, using mixer\n    Cream {butter} and {brown sugar}; beat in {egg}.\n    until light\nfold: hands 3 \
                  min\n    Fold in {self-raising flour}.\nREST    Work in {walnuts}.\nbake: tend 30 min, using oven at 175 C\n    until firm\ncool: \
                  wait 1 h\ndust: hands 2 min\n    Dust with {icing sugar}.\n";
    std::fs::write(folder.path().join("k.miche"), "kitchen Quay\nmixer x 1, holds 4 kg\noven x 1\nscale 1 g\n")
        .expect("a file");
    let run = |arguments: &[&str]| {
        let run =
            std::process::Command::new(env!("CARGO_BIN_EXE_miche")).args(arguments).current_dir(folder.path()).output();
        String::from_utf8(run.expect("it runs").stdout).expect("UTF-8")
    };
    let write =
        |between: &str| std::fs::write(folder.path().join("a.miche"), recipe.replace("REST", between)).expect("a file");
    write("nuts: hands 2 min\n");
    let json: serde_json::Value = serde_json::from_str(&run(&["card", "a.miche", "--format", "json"])).expect("JSON");
    let part = &json["parts"][0];
    let step = |name: &str| {
        part["steps"].as_array().expect("steps").iter().find(|step| step["name"] == name).expect("a step").clone()
    };
    for name in ["cream", "fold", "nuts"] {
        assert_eq!(step(name)["loads"], 2, "{name}");
    }
    assert_eq!((&step("bake")["loads"], &step("dust")["loads"]), (&serde_json::json!(1), &serde_json::json!(1)));
    assert!(step("fold")["text"].as_str().is_some_and(|text| text.contains("Fold in 1500 g")), "{part:#}");
    assert!(step("dust")["text"].as_str().is_some_and(|text| text.contains("100 g")), "{part:#}");
    let line = |name: &str| {
        part["lines"].as_array().expect("lines").iter().find(|line| line["ingredient"] == name).expect("a line").clone()
    };
    assert_eq!(line("self-raising flour")["load_shown"], "1500 g");
    assert_eq!(line("walnuts")["load_shown"], "450 g");
    assert!(line("icing sugar")["load_shown"].as_str().is_none_or(str::is_empty));
    for format in ["text", "markdown"] {
        let card = run(&["card", "a.miche", "--format", format]);
        assert!(card.contains("Fold in 1500 g self-raising flour") && card.contains("Work in 450 g walnuts"), "{card}");
    }
    let page = run(&["card", "a.miche", "--format", "html"]);
    let plain = page
        .split('<')
        .filter_map(|piece| piece.split_once('>'))
        .map(|(_, text)| text)
        .collect::<String>()
        .replace('\u{a0}', " ");
    assert!(plain.contains("1500 g") && plain.contains("450 g"), "{plain}");
    let plan = run(&["plan", "a.miche", "--ready", "2027-03-05 12:00"]);
    assert!(plan.contains("1500 g self-raising flour") && !plan.contains("3000 g self-raising flour"), "{plan}");
    // All of it stands together, and takes all that is worked in.
    write("rest: wait 20 min\nnuts: hands 2 min\n");
    let card = run(&["card", "a.miche", "--format", "text"]);
    assert!(card.contains("Fold in 1500 g self-raising flour") && card.contains("Work in 900 g walnuts"), "{card}");
}

/// What is soaked in one tub and boiled in six pots is weighed out once: no column of loads stands empty, with a total of nothing.
#[test]
fn a_load_of_which_nothing_is_weighed_has_no_column() {
    let file = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("examples/yellow-pea-pot.miche");
    for format in ["text", "markdown", "html", "json"] {
        let run = std::process::Command::new(env!("CARGO_BIN_EXE_miche"))
            .args(["card", "--times", "7.3", "--format", format])
            .arg(&file)
            .output()
            .expect("it runs");
        let card = String::from_utf8(run.stdout).expect("UTF-8").replace('\u{a0}', " ");
        assert!(card.contains("peas"), "{format}: {card}");
        assert!(!card.contains("0.000 kg"), "{format}: {card}");
    }
}

/// What `card` or `label` prints of a recipe by itself.
fn printed(recipe: &str, arguments: &[&str]) -> String {
    let folder = tempfile::tempdir().expect("a folder");
    std::fs::write(folder.path().join("a.miche"), recipe).expect("a file");
    let (command, options) = arguments.split_first().expect("a command");
    let run = std::process::Command::new(env!("CARGO_BIN_EXE_miche"))
        .args([command, "a.miche"])
        .args(options)
        .current_dir(folder.path())
        .output()
        .expect("it runs");
    String::from_utf8(run.stdout).expect("UTF-8").replace('\u{a0}', " ")
}

/// 370 g are 13.05 oz, of which 340 g (12 oz) are used and 30 g (1.06 oz) left: 12 and 1.05 are no 13.
#[test]
fn used_and_left_make_up_what_is_made_in_ounces() {
    let onions = "recipe Flats\nmakes 4 flats\n\npart pink onions\nred onion .... 230 g\nvinegar .... 155 g\nmakes 370 g, loss 3.9 %\nboil: tend 4 min, using hob\n    Boil {vinegar}; pour over \
                  {red onion}.\n    until clear\n\npart flats\nper piece\npink onions .... 85 g\nwhite bread .... 60 g\ntop: hands 20 s, each\n    Top {white bread} with {pink onions}.\n";
    let card = printed(onions, &["card", "--units", "us"]);
    assert!(card.contains("makes 13.05 oz") && card.contains("12 oz used, 1.05 oz left"), "{card}");
    assert!(printed(onions, &["card"]).contains("makes 370 g"), "in grams it adds up as it was said");
    // 366.7 g are 12.93 oz and 12.95 on the scale; 12 3/4 oz used and 0.24 left would be 12.99, more than went in.
    let cheese = "recipe Flats\nmakes 24 flats\n\npart topping\ncheddar .... 900 g\ncream cheese .... 200 g\nmakes 1100 g\nmix: hands 4 min\n    Mix {cheddar} and {cream cheese}.\n    until even\n\n\
                  part flats\nper piece\ntopping .... 45 g\nwhite bread .... 60 g\ntop: hands 20 s, each\n    Top {white bread} with {topping}.\n";
    let card = printed(cheese, &["card", "--units", "us", "--times", "1/3"]);
    assert!(card.contains("makes 12.95 oz"), "{card}");
}

/// 40 g of semolina among 882 g are no base; 100 g of flour among 300 g are.
#[test]
fn what_only_thickens_is_no_base() {
    let filling = "recipe Filling\nmakes 10 jars\npoppy seeds .... 300 g\nwhole milk .... 300 g\ncaster sugar .... 240 g\nsemolina .... 42 g\ncook: tend 10 min, using hob\n    Cook {poppy seeds}, \
                   {caster sugar} and {semolina} in {whole milk}.\n    until thick\n";
    assert!(!printed(filling, &["card"]).contains("| % |"), "{}", printed(filling, &["card"]));
    let batter = filling.replace("300 g\nwhole", "100 g\nwhole").replace("42 g", "100 g");
    assert!(printed(&batter, &["card"]).contains("| % |"), "{}", printed(&batter, &["card"]));
    let asked = filling.replace("poppy seeds ....", "percent of flour\npoppy seeds ....");
    assert!(printed(&asked, &["card"]).contains("| % |"), "who asks for it has it");
}

/// A filled roll is sold in no liquid, though its cucumber was drained of one (Regulation (EU) 1169/2011, Annex IX, 5).
#[test]
fn a_roll_with_drained_pickle_is_sold_in_no_liquid() {
    let rolls = "recipe Pickle rolls\nmakes 4 rolls\npart pickled cucumber\ncucumber .... 500 g\nwhite wine vinegar .... 300 g\nwater .... 200 g\nsalt .... 15 g\nmakes 1010 g\npour: hands 3 min\n    Pour {white wine \
                 vinegar}, {water} and {salt} over {cucumber}.\npart rolls\nper piece\nwhite bread .... 60 g\npickled cucumber .... 100 g, drained\nfill: hands 30 s, each\n    Fill {white bread} with {pickled cucumber}.\n";
    let label = printed(rolls, &["label"]);
    assert!(
        label.contains("Ingredients:") && !label.contains("sieve") && !label.contains("with its liquid"),
        "{label}"
    );
    // The jar itself is.
    let jar = rolls
        .split("part rolls")
        .next()
        .expect("the jar")
        .replace("makes 4 rolls\npart pickled cucumber\n", "")
        .replace("Pickle rolls", "Pickled cucumber");
    assert!(printed(&jar, &["label"]).contains("sieve"), "{}", printed(&jar, &["label"]));
}
