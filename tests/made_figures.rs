//! Figures of what is made, as the program prints them: sizes, sums over preferments, stock, cost of a day, steps by reference.
//! Every expected figure is worked by hand from the file beside it.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

#[path = "made_figures/asked.rs"]
mod asked;
#[path = "made_figures/at_the_bowl.rs"]
mod at_the_bowl;
#[path = "made_figures/compared.rs"]
mod compared;
#[path = "made_figures/drained.rs"]
mod drained;
#[path = "made_figures/drawn_baked.rs"]
mod drawn_baked;
#[path = "made_figures/in_pieces.rs"]
mod in_pieces;
#[path = "made_figures/of_a_day.rs"]
mod of_a_day;
#[path = "made_figures/of_dishes.rs"]
mod of_dishes;
#[path = "made_figures/read_at_the_bench.rs"]
mod read_at_the_bench;
#[path = "made_figures/stock.rs"]
mod stock;
#[path = "made_figures/told_once.rs"]
mod told_once;

use serde_json::Value;
use std::path::Path;
use std::process::Command;

struct Bench(tempfile::TempDir);

impl Bench {
    fn of(files: &[(&str, &str)]) -> Bench {
        let folder = tempfile::tempdir().unwrap();
        for (name, text) in files {
            std::fs::write(folder.path().join(name), text).unwrap();
        }
        Bench(folder)
    }

    fn run(&self, arguments: &[&str]) -> (i32, String, String) {
        let output =
            Command::new(env!("CARGO_BIN_EXE_miche")).args(arguments).current_dir(self.0.path()).output().unwrap();
        let text = |bytes: Vec<u8>| String::from_utf8(bytes).unwrap();
        (output.status.code().unwrap(), text(output.stdout), text(output.stderr))
    }

    fn json(&self, arguments: &[&str]) -> Value {
        let (code, text, problems) = self.run(&[arguments, &["--format", "json"]].concat());
        assert_eq!(code, 0, "{problems}");
        serde_json::from_str(&text).unwrap()
    }
}

fn part<'a>(card: &'a Value, name: &str) -> &'a Value {
    card["parts"].as_array().unwrap().iter().find(|part| part["name"] == name).unwrap()
}

fn line<'a>(part: &'a Value, name: &str) -> &'a Value {
    part["lines"].as_array().unwrap().iter().find(|line| line["ingredient"] == name).unwrap()
}

/// 20 tarts of 115 g take half of the 4.6 kg: 1.5 l of 3 l, 10 eggs of 20; with `--times 1/2` a quarter.
#[test]
fn litres_and_pieces_of_another_recipe_are_those_of_the_batch() {
    let custard = "recipe Custard\npart custard\nwhole milk .. 3 l\negg .. 20\ncaster sugar .. 600 g\nmakes 4.6 kg, loss 2 %\n\
        boil: tend 12 min, using hob\n    Boil.\n    until thick\n";
    let tarts = "recipe Tarts\nmakes 20 tarts\nuse \"custard.miche\"\npart tarts\nper piece\ncustard .. 115 g\n";
    let bench = Bench::of(&[("custard.miche", custard), ("tarts.miche", tarts)]);
    let card = bench.json(&["card", "tarts.miche"]);
    let milk = line(part(&card, "custard"), "whole milk")["measure"].as_str().unwrap().replace('½', ".5");
    assert_eq!(milk, "1.5 l");
    assert_eq!(line(part(&card, "custard"), "egg")["measure"], "10");
    let card = bench.json(&["card", "tarts.miche", "--times", "1/2"]);
    assert_eq!(line(part(&card, "custard"), "egg")["measure"], "5");
}

const CHAIN: &str = "recipe Chain\nmakes 10 loaves\n\
    part first build, from levain\nstrong white flour .. 200 g\nwater .. 200 g\nstir: hands 2 min\n    Stir.\n    until even\n\
    part levain, from dough\nstrong white flour .. 1 kg\nwater .. 1 kg\nstir: hands 2 min\n    Stir {first build}, {strong white flour}.\n    until even\n\
    part dough\nstrong white flour .. 5 kg\nwater .. 3.5 kg\nsalt .. 2 %\ndivide 10 x 850 g, loss 1.2 %\n\
    mix: hands 8 min\n    Mix {levain}.\n    until even\n";

/// The dough lists 5 kg of flour, whatever is taken out of what is taken out of it.
#[test]
fn in_all_counts_what_is_taken_out_of_a_preferment() {
    let bench = Bench::of(&[("chain.miche", CHAIN)]);
    let card = bench.json(&["card", "chain.miche"]);
    let dough = part(&card, "dough");
    assert_eq!(line(dough, "strong white flour")["shown"], "5000 g");
    assert_eq!(line(dough, "strong white flour")["final_mix_shown"], "4000 g");
    assert_eq!(line(dough, "water")["shown"], "3500 g");
    assert_eq!(line(part(&card, "levain"), "strong white flour")["shown"], "1000 g");
    let (_, text, _) = bench.run(&["card", "chain.miche", "--format", "text"]);
    let row = text.lines().rev().find(|row| row.contains("strong white flour  100")).unwrap();
    assert!(row.contains("5000 g  1000 g"), "{row}");
}

/// A tenth of the batch: 500 g in all, 20 g, 80 g and 400 g; at any size the shares print to what the total prints.
#[test]
fn the_total_is_rounded_first_and_then_shared_out() {
    let bench = Bench::of(&[("chain.miche", CHAIN)]);
    for times in ["1/10", "3/10", "7/10", "1", "11/10"] {
        let card = bench.json(&["card", "chain.miche", "--times", times]);
        let dough = part(&card, "dough");
        let exact = line(dough, "strong white flour")["grams"].as_f64().unwrap();
        assert_eq!(line(dough, "strong white flour")["shown"], format!("{exact:.0} g"), "{times}");
    }
    // 1003 g shared out to three bowls at a scale of 1 g: 335, 334 and 334 g, and not three times 334 g.
    let thirds = "recipe Thirds\npart a, from dough\nrye flour .. 33.33 %\nwater .. 33.33 %\npart b, from dough\nrye flour .. 33.33 %\n\
        water .. 33.33 %\npart dough\nrye flour .. 1003 g\nwater .. 1003 g\n";
    let bench = Bench::of(&[("thirds.miche", thirds)]);
    let card = bench.json(&["card", "thirds.miche"]);
    assert_eq!(line(part(&card, "dough"), "rye flour")["shown"], "1003 g");
    let list = bench.json(&["list", "thirds.miche"]);
    let weighed = list["weigh"].as_array().unwrap().iter().find(|one| one["ingredient"] == "rye flour").unwrap();
    assert_eq!(weighed["shown"], "1003 g");
}

const FILLED: &str = "recipe Filled rolls\nmakes 10 rolls\npart dough\nbread flour .. 500 g\nwater .. 65 %\nsalt .. 2 %\n\
    instant yeast .. 1 %\ndivide 10 x 84 g\nmix: hands 10 min\n    Mix.\n    until smooth\npart filling\npercent of pears\npears .. 1 kg\n\
    sugar .. 10 %\ncook: tend 20 min\n    Cook.\n    until soft\npart rolls\nper piece\ndough .. 1 piece\nfilling .. 110 g\n\
    bake: tend 20 min, using oven at 200 C\n    Fill.\n    until brown\n";

/// 1 kg of flour is twice the 500 g, although there is more of the pears.
#[test]
fn the_base_is_flour_where_there_is_flour() {
    let bench = Bench::of(&[("filled.miche", FILLED)]);
    let card = bench.json(&["card", "filled.miche", "--base", "1 kg"]);
    assert_eq!(card["factor"], 2);
    assert_eq!(card["scaled_by"]["part"], "dough");
    assert_eq!(card["scaled_by"]["base"], "flour");
    let filling = "recipe Filling\npart filling\npercent of pears\npears .. 1 kg\nsugar .. 10 %\n";
    let bench = Bench::of(&[("filling.miche", filling)]);
    let card = bench.json(&["card", "filling.miche", "--base", "3 kg"]);
    assert_eq!((&card["factor"], &card["scaled_by"]["base"]), (&Value::from(3), &Value::from("pears")));
    for format in ["text", "markdown", "html"] {
        let (_, text, _) = bench.run(&["card", "filling.miche", "--base", "3 kg", "--format", format]);
        assert!(text.contains("scaled by the pears of filling"), "{format}: {text}");
    }
    assert!(bench.json(&["card", "filling.miche"]).get("scaled_by").is_none());
}

/// Two people for ten minutes are twenty minutes of work, on the card, in the cost and in the plan.
#[test]
fn two_pairs_of_hands_count_twice_everywhere() {
    let text = "recipe Pair\nflour .. 1 kg\nlift: hands 10 min, people 2\n    Lift.\n    until up\n";
    let kitchen = "kitchen K\ncooks 2\n";
    let bench = Bench::of(&[("pair.miche", &text.replace("flour", "use \"k.miche\"\nflour")), ("k.miche", kitchen)]);
    assert_eq!(bench.json(&["card", "pair.miche"])["timeline"]["hands_minutes"], 20);
    assert_eq!(bench.json(&["cost", "pair.miche"])["costs"][0]["hands_minutes"], 20);
    assert_eq!(bench.json(&["plan", "pair.miche"])["hands_minutes"], 20);
}

const ROLLS: &str =
    "recipe Rolls\nuse \"larder.miche\"\nmakes 4 rolls\nstrong white flour .. 400 g\negg .. 2\nolive oil .. 30 ml\n";
const LARDER: &str = "ingredient strong white flour\ncounts as flour\ncosts 2 per kg\ningredient egg\none weighs 50 g\n\
    costs 8 per kg\ningredient olive oil\nweighs 0.9 kg per l\ncosts 10 per kg\n";

/// 7 eggs at 50 g are three and a half batches of two, so fourteen rolls; 4 and 3 eggs are the same seven.
#[test]
fn what_there_is_may_be_counted_or_measured() {
    let bench = Bench::of(&[("rolls.miche", ROLLS), ("larder.miche", LARDER)]);
    for have in [&["egg=7"][..], &["egg=4", "egg=3"], &["eggs=350 g"], &["egg=7", "olive oil=1 l"]] {
        let said = have.iter().flat_map(|one| ["--have", *one]);
        let card = bench.json(&["card", "rolls.miche"].into_iter().chain(said).collect::<Vec<&str>>());
        assert_eq!(card["makes"]["pieces"], 14, "{have:?}");
    }
    let (code, _, why) = bench.run(&["card", "rolls.miche", "--have", "egg=7", "--have", "olive oil=much"]);
    assert!(code == 2 && why.contains("olive oil=much") && !why.contains("egg=7"), "{why}");
    let bare = ROLLS.replace("use \"larder.miche\"\n", "").replace("olive oil", "oil of the sea");
    let bench = Bench::of(&[("rolls.miche", &bare), ("there.txt", "egg .... 7\nstrong white flour .... 5 kg\n")]);
    let (code, _, why) = bench.run(&["card", "rolls.miche", "--have", "oil of the sea=1 l"]);
    assert!(code == 2 && why.contains("density is not known"), "{why}");
    let stock = bench.json(&["stock", "rolls.miche", "--from", "there.txt"]);
    assert_eq!(stock["stocks"][0]["pieces"].as_f64(), Some(14.0));
}

/// Worked by hand: 400 g at 2, 100 g at 8 and 27 g at 10 a kilogram are 1.87; twice and three times that are 9.35.
#[test]
fn the_cost_of_a_day_has_a_total() {
    let twice = ROLLS.replace("recipe Rolls", "recipe Other rolls");
    let day = "day D\nmake 8 of \"rolls.miche\"\nmake 12 of \"other.miche\"\n";
    let bench =
        Bench::of(&[("rolls.miche", ROLLS), ("other.miche", &twice), ("larder.miche", LARDER), ("day.miche", day)]);
    let costs = bench.json(&["cost", "day.miche"]);
    let total = costs["together"]["total"].as_f64().unwrap();
    assert!((total - 9.35).abs() < 1e-9, "{total}");
    let (_, text, _) = bench.run(&["cost", "day.miche", "--format", "text"]);
    assert!(text.contains("all batches") && text.contains("9.35"), "{text}");
    assert!(bench.json(&["cost", "rolls.miche"]).get("together").is_none());
}

/// Two parts of one name, one from each of two files, keep their own times and their own stations.
#[test]
fn parts_of_one_name_are_told_apart() {
    let glaze = |name: &str, minutes: i64| {
        format!(
            "recipe {name}\npart glaze\nsugar .. 100 g\nboil: hands {minutes} min\n    Boil.\n    until clear\npart {name}\nglaze .. 50 g\nwater .. 50 g\n\
            stir: hands 1 min\n    Stir {{glaze}} in.\n    until even\n"
        )
    };
    let cake = "recipe Cake\nuse \"red.miche\"\nuse \"white.miche\"\npart cake\nred .. 100 g\nwhite .. 100 g\nfill: hands 2 min\n    \
        Fill with {red} and {white}.\n    until full\n";
    let bench =
        Bench::of(&[("red.miche", &glaze("red", 7)), ("white.miche", &glaze("white", 20)), ("cake.miche", cake)]);
    let card = bench.json(&["card", "cake.miche"]);
    let glazes: Vec<&Value> =
        card["timeline"]["rows"].as_array().unwrap().iter().filter(|row| row["part"] == "glaze").collect();
    let times = |row: &&Value| (row["start_minute"].as_i64().unwrap(), row["end_minute"].as_i64().unwrap());
    let rows: Vec<(i64, i64)> = glazes.iter().map(times).collect();
    assert_eq!(rows.len(), 2);
    let file = Path::new("cake.miche");
    let mut loader = miche::edge::loader::Loader::new();
    let source = loader.load(&bench.0.path().join(file)).unwrap();
    let project = loader.into_project();
    let selection = miche::model::recipe::Selection::new();
    let (recipe, formula) = miche::check::work_out(&project, source, &selection, &mut Vec::new()).unwrap();
    let batch = miche::make::batch::Batch::of(&miche::make::order::Order::of(recipe, formula), 0);
    let card = miche::figures::card::of_batch(&batch, miche::measure::show::Units::Metric).unwrap();
    for part in card.parts.iter().filter(|part| part.name == "glaze") {
        let row = card.timeline.rows.iter().find(|row| row.at.part == part.id).unwrap();
        assert_eq!(part.steps[0].starts, Some(row.start));
        let minutes = part.steps[0].minutes.1.to_whole().unwrap();
        assert_eq!(row.end - row.start, minutes);
    }
    let stations = miche::figures::card::stations(&card);
    let glazing = stations.iter().flat_map(|station| &station.works).filter(|work| work.part.name == "glaze");
    let next: Vec<usize> = glazing.map(|work| work.goes_out.len()).collect();
    assert_eq!(next, [1, 1]);
}

/// 2 kg of levain go into the dough and 100 g stay for tomorrow: 1050 g of flour are mixed, of which the dough has 1000 g, and
/// 5050 g are bought. Worked by hand.
#[test]
fn what_is_spare_of_a_preferment_is_mixed_and_bought_too() {
    let kept = "recipe Kept back\nuse \"larder.miche\"\nmakes 10 loaves\npart levain, from dough\nstrong white flour .. 1 kg\nwater .. 1 kg\n\
        spare 100 g\nstir: hands 2 min\n    Stir {strong white flour}.\n    until even\npart dough\nstrong white flour .. 5 kg\n\
        water .. 3.4 kg\nsalt .. 2 %\ndivide 10 x 840 g, loss 1 %\nmix: hands 8 min\n    Mix {levain}.\n    until even\n";
    let bench = Bench::of(&[("kept.miche", kept), ("larder.miche", LARDER)]);
    let card = bench.json(&["card", "kept.miche"]);
    let levain = part(&card, "levain");
    assert_eq!(line(levain, "strong white flour")["shown"], "1050 g");
    assert_eq!((&levain["balance"]["makes_g"], &levain["balance"]["left_g"]), (&Value::from(2100), &Value::from(100)));
    let dough = part(&card, "dough");
    assert_eq!(line(dough, "strong white flour")["final_mix_shown"], "4000 g");
    assert_eq!(line(dough, "strong white flour")["shown"], "5000 g");
    assert_eq!(dough["total_g"], 8500);
    let list = bench.json(&["list", "kept.miche"]);
    let flour = list["weigh"].as_array().unwrap().iter().find(|one| one["ingredient"] == "strong white flour").unwrap();
    assert_eq!(flour["grams"].as_f64(), Some(5050.0));
    // Salt and water have no price here; flour is at 2 a kilogram.
    let cost = bench.json(&["cost", "kept.miche"]);
    let bought = cost["costs"][0]["ingredients"].as_array().unwrap();
    assert_eq!(
        bought.iter().find(|one| one["ingredient"] == "strong white flour").unwrap()["bought_g"].as_f64(),
        Some(5050.0)
    );
    // Half of the batch leaves half as much.
    let half = bench.json(&["card", "kept.miche", "--times", "1/2"]);
    assert_eq!(part(&half, "levain")["balance"]["left_g"], 50);
    let (_, text, _) = bench.run(&["card", "kept.miche", "--format", "text"]);
    assert!(text.contains("2000 g used, 100 g spare"), "{text}");
}

const DOZENS: &str = "recipe Rolls\nmakes 24 rolls\nstrong white flour .. 1.2 kg\nwater .. 62 %\nsalt .. 2 %\ninstant yeast .. 1 %\n\
    divide 24 x 81 g, loss 1.8 %\nmix: hands 10 min\n    Mix {strong white flour}, {water}, {salt} and {instant yeast}.\n    until smooth\n\
    bake: tend 20 min, using oven at 220 C\n    until brown\n";

/// 7.3 kg of flour are 6.0833 times the 1.2 kg, so 146 rolls; 146 rolls as written take 7.3 kg exactly. 7.31 kg are 146.2 rolls: 146 rolls of
/// 81 × 7310 / 7300 = 81.111 g, and no flour is left.
#[test]
fn all_of_an_ingredient_is_used_up() {
    let bench = Bench::of(&[("rolls.miche", DOZENS)]);
    let card = bench.json(&["card", "rolls.miche", "--use-up", "strong white flour=7.31 kg"]);
    assert_eq!(card["makes"]["pieces"], 146);
    let dough = part(&card, "Rolls");
    assert_eq!(line(dough, "strong white flour")["grams"], 7310.0);
    assert_eq!(dough["divide"]["pieces"], 146);
    let each = dough["divide"]["each_g"].as_f64().unwrap();
    assert!((each - 81.1110).abs() < 0.001, "{each}");
    let notes = dough["notes"].to_string();
    assert!(notes.contains("A piece weighs 81.1 g here and not 81 g as it is written"), "{notes}");
    let list = bench.json(&["list", "rolls.miche", "--use-up", "strong white flour=7.31 kg"]);
    let flour = list["weigh"].as_array().unwrap().iter().find(|one| one["ingredient"] == "strong white flour").unwrap();
    assert_eq!(flour["grams"], 7310.0);
    // As much as 20 of the 24: 1000 g for 20 rolls, exactly.
    let card = bench.json(&["card", "rolls.miche", "--use-up", "strong white flour=1 kg"]);
    assert_eq!((&card["makes"]["pieces"], &part(&card, "Rolls")["notes"]), (&Value::from(20), &serde_json::json!([])));
    let refused = |arguments: &[&str], words: &str| {
        let (code, _, why) = bench.run(arguments);
        assert_eq!(code, 2, "{why}");
        assert!(why.contains(words), "`{words}` is not in: {why}");
    };
    refused(&["card", "rolls.miche", "--use-up", "strong white flour"], "--use-up strong white flour: this is not");
    refused(
        &["card", "rolls.miche", "--use-up", "strong white flour=much"],
        "--use-up strong white flour=much: this is not",
    );
    // 50 g make a roll as it is written; of 10 g, or of 1.4 rolls' worth, a piece would be another thing.
    refused(&["card", "rolls.miche", "--use-up", "strong white flour=10 g"], "is used up by no number of pieces");
    refused(&["card", "rolls.miche", "--use-up", "strong white flour=70 g"], "nearest batches are 1 roll");
    refused(&["card", "rolls.miche", "--use-up", "butter=1 kg"], "takes no weighed `butter`");
    refused(&["card", "rolls.miche", "--use-up", "water=1 kg", "--pieces", "3"], "--use-up");
    refused(&["card", "rolls.miche", "--use-up", "water=1 kg", "--have", "salt=3 g"], "--use-up");
}

/// Pasties of a pastry that is divided and a filling by the piece: both grow alike, and the pieces of both stay whole together.
#[test]
fn what_is_used_up_grows_with_all_its_parts() {
    let pasties = "recipe Pasties\nmakes 12 pasties\npart pastry\nplain flour .. 600 g\nlard .. 45 %\nwater .. 28 %\ndivide 12 x 85 g, loss 1.7 %\n\
        part filling\npotato .. 1.2 kg\npart pasties\nper piece\npastry .. 1 piece\nfilling .. 100 g\n";
    let bench = Bench::of(&[("pasties.miche", pasties)]);
    let card = bench.json(&["card", "pasties.miche", "--use-up", "plain flour=1 kg"]);
    assert_eq!(card["makes"]["pieces"], 20);
    assert_eq!(part(&card, "pastry")["divide"]["pieces"], 20);
    assert_eq!(line(part(&card, "pasties"), "filling")["grams"], 2000.0);
    // 630 g: 12.6 pasties, so 13, each 12.6 / 13 of what is written.
    let card = bench.json(&["card", "pasties.miche", "--use-up", "plain flour=630 g"]);
    assert_eq!(card["makes"]["pieces"], 13);
    let each = line(part(&card, "pasties"), "filling")["each_g"].as_f64().unwrap();
    assert!((each - 96.923).abs() < 0.001, "{each}");
    let each = line(part(&card, "pasties"), "pastry")["each_g"].as_f64().unwrap();
    assert!((each - 82.3846).abs() < 0.001, "{each}");
}

/// What somebody wrote is printed as written, on a scale of 5 g too: the piece, what is made, what is spare, what is used of a part from another
/// file. 12 × 82 g are 984 g, and no scale makes 985 of them.
#[test]
fn what_somebody_wrote_is_printed_as_written() {
    let kitchen = ("k.miche", "kitchen K\nscale 5 g\n");
    let whites = "recipe Whites\nuse \"k.miche\"\npart poolish, from dough\nstrong white flour .. 20 %\nwater .. 20 %\nspare 40 g\n\
        part dough\nstrong white flour .. 100 %\nwater .. 66 %\nsalt .. 2 %\nmakes 8 kg, loss 1 %\n";
    let rolls = "recipe Filled\nmakes 12 rolls\nuse \"k.miche\"\nuse \"whites.miche\"\npart jam\nplums .. 478 g\nspare 22 g\npart rolls\nper piece\n\
        dough .. 82 g\njam .. 38 g\n";
    let bench = Bench::of(&[kitchen, ("whites.miche", whites), ("rolls.miche", rolls)]);
    let text = |arguments: &[&str]| {
        let text = bench.run(&[arguments, &["--format", "text"]].concat()).1;
        text.split_whitespace().collect::<Vec<_>>().join(" ")
    };
    let card = text(&["card", "whites.miche"]);
    assert!(card.contains("makes 8000 g, 1 % lost") && card.contains("40 g spare"), "{card}");
    assert!(text(&["card", "whites.miche", "--total", "16 kg"]).contains("makes 16 kg, 1 % lost"));
    let card = text(&["card", "rolls.miche"]);
    for words in ["82 g 984 g", "38 g 456 g", "456 g used, 22 g spare", "984 g used"] {
        assert!(card.contains(words), "`{words}` is not in: {card}");
    }
    assert!(!card.contains("985 g"), "{card}");
    let card = text(&["card", "rolls.miche", "--times", "1/3"]);
    assert!(card.contains("82 g 328 g") && card.contains("328 g used"), "{card}");
}

/// A small line does not make up for the sum of a bowl: 31.1 g of yeast stay 30 g on a scale of 5 g, with a preferment and without.
#[test]
fn rounding_does_not_fall_on_the_yeast() {
    let kitchen = ("k.miche", "kitchen K\nscale 5 g\n");
    let whites = "recipe Whites\nuse \"k.miche\"\npart poolish, from dough\nstrong white flour .. 20 %\nwater .. 20 %\ninstant yeast .. 0.05 %\n\
        part dough\nstrong white flour .. 100 %\nwater .. 66 %\nsalt .. 2 %\ninstant yeast .. 0.7 %\nmakes 8 kg, loss 1 %\n";
    let bench = Bench::of(&[kitchen, ("whites.miche", whites)]);
    let card = bench.json(&["card", "whites.miche"]);
    assert_eq!(line(part(&card, "dough"), "instant yeast")["final_mix_shown"], "30 g");
}

/// A heavy batch is in kilograms, but for what the fine scale carries, which is read in grams.
#[test]
fn the_fine_scale_is_read_in_grams() {
    let formula = "recipe Whites\nuse \"k.miche\"\nstrong white flour .. 10 kg\nwater .. 66 %\nsalt .. 2 %\nfresh yeast .. 0.65 %\n";
    let shown = |kitchen: &str| {
        let bench = Bench::of(&[("k.miche", kitchen), ("whites.miche", formula)]);
        let card = bench.json(&["card", "whites.miche"]);
        let of = |name: &str| line(part(&card, "Whites"), name)["shown"].as_str().unwrap().to_owned();
        [of("strong white flour"), of("salt"), of("fresh yeast")]
    };
    // bake magazine, 'French bread with poolish' (bakemag.com articles/10807, seen), prints 10.000, 0.200 and 0.110 kg in one column.
    assert_eq!(
        shown("kitchen K\nscale 1 g\n").map(|text| text.replace('\u{2009}', "")),
        ["10.000 kg", "0.200 kg", "0.065 kg"]
    );
    assert_eq!(shown("kitchen K\nscale 5 g\nfine scale 0.1 g, up to 100 g\n")[2], "65 g");
}

/// 600 g boil down to 360 g. As water: 500 − 240 + 200 = 460 g on 500 g of flour, 92 %; of everything: 500 × 0.6 + 200 = 500 g, 100 %. The same
/// change is told by `diff`.
#[test]
fn a_loss_of_everything_takes_water_and_sugar_alike() {
    let text = |loss: &str| {
        format!(
            "recipe Sweet loaf\npart syrup\ncaster sugar .. 100 g\nwater .. 500 g\nmakes 360 g, loss 40 %{loss}\nboil: tend 20 min, using hob\n    \
             Boil.\n    until thick\npart dough\nstrong white flour .. 500 g\nwater .. 200 g\nsyrup .. all\nmix: hands 10 min\n    Mix {{syrup}}.\n    until even\n"
        )
    };
    let (water, alike) = (text(""), text(" of everything"));
    let bench = Bench::of(&[("water.miche", &water), ("alike.miche", &alike)]);
    let hydration = |file: &str| part(&bench.json(&["card", file]), "dough")["hydration_percent"].as_f64().unwrap();
    assert!((hydration("water.miche") - 92.0).abs() < 0.1, "{}", hydration("water.miche"));
    assert!((hydration("alike.miche") - 100.0).abs() < 0.1, "{}", hydration("alike.miche"));
    let (_, changes, _) = bench.run(&["diff", "water.miche", "alike.miche"]);
    assert!(changes.contains("what is lost"), "{changes}");
    let (code, tidied, why) = bench.run(&["tidy", "--check", "alike.miche"]);
    assert!(code < 2, "{tidied}{why}");
    let (_, problems, _) = bench.run(&["check", "alike.miche", "--format", "short"]);
    assert!(!problems.contains("stray"), "{problems}");
}

const LARGE: &str = "recipe Quay dough\nmakes 40 loaves\nuse \"k.miche\"\nstrong white flour .. 14.375 kg\nwater .. 66 %\nsalt .. 1.93 %\n\
    instant yeast .. 0.55 %\ndivide 40 x 595 g, loss 1.5 %\nmix: hands 12 min, using mixer\n    Mix {strong white flour}, {water}, {salt}, {instant yeast}.\n    \
    until smooth\n";

/// 14.375 kg of flour with 66 % water, 1.93 % salt, 0.55 % yeast are 24.22 kg: three loads in a mixer for 12 kg. Salt is 277.44 g, 92.48 g a load,
/// which the fine scale shows as 92.5 g: three of them are 277.5 g, and nobody weighs 275 g on the coarse scale.
#[test]
fn what_is_weighed_by_the_load_is_in_all_so_many_times_that() {
    let kitchen = "kitchen K\nmixer x 1, holds 12 kg\noven x 1\nscale 5 g\nfine scale 0.1 g, up to 200 g\n";
    let bench = Bench::of(&[("k.miche", kitchen), ("large.miche", LARGE)]);
    let card = bench.json(&["card", "large.miche"]);
    let dough = part(&card, "Quay dough");
    let salt = line(dough, "salt");
    assert_eq!((&salt["shown"], &salt["load_shown"]), (&"277.5 g".into(), &"92.5 g".into()));
    let (_, text, _) = bench.run(&["card", "large.miche"]);
    assert!(!text.contains("salt is rounded"), "{text}");
}

/// A scale in steps of 1/4 oz (7.087 g) and a fine one of 1/100 oz: read in grams they are steps of 5 g and 0.2 g, and no figure has five decimals.
/// 3 lb 4 oz are 1474.2 g and so 1475 g; 8 of 24 rolls take a third of 1 tbsp of yeast, which is 1 tsp. A piece of 3.7 oz stays 3.7 oz.
#[test]
fn a_kitchen_that_weighs_in_ounces_prints_whole_steps_in_grams() {
    let kitchen = "kitchen K\noven x 1\nscale 0.25 oz\nfine scale 0.01 oz, up to 8 oz\n";
    let rolls = "recipe Rolls\nmakes 24 rolls\nmeasures US\nuse \"k.miche\"\nbread flour .. 3 lb 4 oz\nwater .. 2 lb 2 oz\nsalt .. 1.05 oz\n\
        instant yeast .. 1 tbsp\ndivide 24 x 3.5 oz, loss 4 %\n";
    let bench = Bench::of(&[("k.miche", kitchen), ("rolls.miche", rolls)]);
    let card = bench.json(&["card", "rolls.miche"]);
    assert_eq!(line(part(&card, "Rolls"), "bread flour")["shown"], "1475 g");
    assert_eq!(line(part(&card, "Rolls"), "salt")["shown"], "29.8 g");
    let both = bench.json(&["card", "rolls.miche", "--units", "both"]);
    assert_eq!(line(part(&both, "Rolls"), "bread flour")["shown"], "1475 g (3 lb 4 oz)");
    let (_, text, _) = bench.run(&["card", "rolls.miche", "--units", "both"]);
    assert!(text.contains("24 × 99.2 g (3 1/2 oz)"), "{text}");
    let third = bench.json(&["card", "rolls.miche", "--units", "us", "--pieces", "8"]);
    assert_eq!(line(part(&third, "Rolls"), "instant yeast")["measure"], "1 tsp");
    // Salt goes on the fine scale, and what stands in the bowl on the other is no sum of both.
    assert_eq!(line(part(&third, "Rolls"), "salt")["running_shown"], "");
}

/// 3.95 qt are 15.8 cups: three quarts, which are 12, and 3 3/4.
#[test]
fn much_milk_is_quarts_and_cups() {
    let milk = "recipe Milk\nmeasures US\nwhole milk .. 1 qt\nkelp cordial .. 1 cup\n";
    let bench = Bench::of(&[("milk.miche", milk)]);
    let milk = bench.json(&["card", "milk.miche", "--units", "us", "--times", "3.95"]);
    assert_eq!(line(part(&milk, "Milk"), "whole milk")["measure"], "3 qt 3¾ cups");
    assert_eq!(line(part(&milk, "Milk"), "kelp cordial")["shown"], "4 cups");
}

/// 1 cup is 236.588 ml in the United States, 250 ml by the metric cup, 284.13 ml in imperial measure.
#[test]
fn it_is_asked_whose_cup_is_meant() {
    let bench = Bench::of(&[(
        "loaf.miche",
        "recipe Loaf\nmakes 2 loaves\nwheat flour .. 1 kg\nwater .. 640 g\nsalt .. 20 g\ndivide 2 x 820 g, loss 1.2 %\n",
    )]);
    let (code, _, problem) = bench.run(&["stock", "loaf.miche", "--have", "salt=1 cup"]);
    let said = "`salt=236.6 ml` (US) or `salt=250 ml` (metric) or `salt=284.1 ml` (imperial)";
    assert!(code == 2 && problem.contains("is not the same everywhere") && problem.contains(said), "{problem}");
}

/// A cake of 300 g of flour with cream and fruit is no dough: 788 g of water on that flour is not the hydration of anything.
#[test]
fn what_is_put_together_of_a_baked_part_has_no_hydration() {
    let cake = "recipe Cake\nmakes 1 cake\npart sponge\negg .. 300 g\nbutter .. 300 g\ncaster sugar .. 300 g\nplain flour .. 300 g\n\
        beat: hands 8 min\n    Beat.\n    until light\nbake: tend 45 min, using oven at 170 C\n    until a skewer comes out clean\n\
        part cake\nsponge .. all\nheavy cream .. 500 g\nraspberries .. 250 g\nfill: hands 10 min\n    Fill {sponge}, {heavy cream}, {raspberries}.\n";
    let bench = Bench::of(&[("cake.miche", cake)]);
    let card = bench.json(&["card", "cake.miche"]);
    assert!(part(&card, "sponge")["hydration_percent"].is_number());
    assert!(part(&card, "cake")["hydration_percent"].is_null(), "{card:#}");
}

/// Eight at a time in one fryer: the fifth load would wait 16 minutes, and what is alive stands 10 at most, so there is no plan. Somebody works
/// all the same: 12 min at the mixer and 40 x 15 s at the bench are 22 min, and 5 x 4 min at the fryer.
#[test]
fn work_is_counted_where_there_is_no_plan() {
    let nuts = "recipe Doughnuts\nmakes 40 doughnuts\nuse \"k.miche\"\nstrong white flour .. 1.4 kg\nwhole milk .. 850 g\nsalt .. 20 g\nfresh yeast .. 60 g\n\
        divide 40 x 57 g, loss 2 %\nmix: hands 12 min, using mixer\n    Mix.\n    until smooth\nrise: wait 60 min, at 26 C\n    until doubled\n\
        shape: hands 15 s, each\nprove: wait 45 min, at 28 C\n    until light\nfry: tend 4 min, using fryer at 175 C, 8 at a time\n    until brown\n";
    let bench = Bench::of(&[("k.miche", "kitchen K\nmixer x 1\nfryer x 1\ncooks 1\n"), ("nuts.miche", nuts)]);
    let card = bench.json(&["card", "nuts.miche"]);
    let line = &card["timeline"];
    assert_eq!(
        (&line["rows"], &line["hands_minutes"], &line["tend_minutes"]),
        (&Value::Array(Vec::new()), &22.into(), &20.into())
    );
    assert_eq!(bench.json(&["cost", "nuts.miche"])["costs"][0]["hands_minutes"], 22);
}
