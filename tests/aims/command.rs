//! `miche aim` and `miche swap` from outside: what they print, what they write, and what they make of wrong use.

#[path = "../examples/copy.rs"]
mod copy;

use serde_json::Value;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Output};

pub(super) fn miche(folder: &Path, arguments: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_miche")).current_dir(folder).args(arguments).output().expect("it runs")
}

pub(super) fn text(output: &Output) -> String {
    String::from_utf8(output.stdout.clone()).expect("UTF-8") + &String::from_utf8_lossy(&output.stderr)
}

/// A folder with one file.
pub(super) fn with(recipe: &str) -> (tempfile::TempDir, PathBuf) {
    let folder = tempfile::tempdir().expect("a folder");
    let file = folder.path().join("recipe.miche");
    fs::write(&file, recipe).expect("written");
    (folder, file)
}

fn json(folder: &Path, arguments: &[&str]) -> Value {
    let output = miche(folder, arguments);
    serde_json::from_slice(&output.stdout).unwrap_or_else(|_| panic!("no JSON: {}", text(&output)))
}

fn missed(folder: &Path) -> String {
    text(&miche(folder, &["check", "recipe.miche"]))
}

const DOUGH: &str = "\
recipe Skerry rolls
makes 20 rolls

part dough
aim hydration 66-68 %
aim salt 1.8-2.1 %
strong white flour ............ 1 kg        # sieved
water ......................... 600 g = 21 oz = 60 %, at 24 C   # from the well
salt .......................... 0.5 oz
instant yeast ................. 10 g
divide 20 x 81 g, loss 1.8 %

mix: hands 12 min
    Mix {strong white flour}, {water}, {salt} and {instant yeast}.
    until smooth
";

/// Comments, columns and units stay; of a line that is said three times all three are true again.
#[test]
fn writing_changes_amounts_and_nothing_else() {
    let (folder, file) = with(DOUGH);
    assert!(missed(folder.path()).contains("aim-missed"));
    let output = miche(folder.path(), &["aim", "recipe.miche", "--write"]);
    assert_eq!(output.status.code(), Some(0), "{}", text(&output));
    let now = fs::read_to_string(&file).expect("there");
    let check = missed(folder.path());
    assert!(!check.contains("aim-missed") && !check.contains("two-amounts-disagree"), "{now}\n{check}");
    for (old, new) in DOUGH.lines().zip(now.lines()) {
        let bare = |line: &str| line.replace(|c: char| c.is_ascii_digit() || c == '.', "");
        assert_eq!(bare(old), bare(new));
    }
    assert!(now.contains("water ......................... 660 g ="), "{now}");
    assert!(now.contains(" oz\n") && now.contains("# from the well"), "{now}");
}

#[test]
fn the_json_has_the_keys_that_are_fixed() {
    let (folder, _) = with(DOUGH);
    let answer = json(folder.path(), &["aim", "recipe.miche", "--format", "json"]);
    assert_eq!((answer["format"].as_i64(), answer["met"].as_bool()), (Some(1), Some(true)));
    assert_eq!(answer["recipe"], "Skerry rolls");
    let hydration = &answer["aims"][0];
    assert_eq!((hydration["part"].as_str(), hydration["figure"].as_str()), (Some("dough"), Some("hydration")));
    assert_eq!(
        (hydration["of"].as_str(), hydration["low"].as_f64(), hydration["high"].as_f64()),
        (Some("flour"), Some(66.0), Some(68.0))
    );
    // The salt of the larder is not quite dry.
    let near = |value: &Value, wanted: f64| (value.as_f64().expect("a figure") - wanted).abs() < 0.01;
    assert!(near(&hydration["was"], 60.0) && near(&hydration["is"], 66.0), "{hydration}");
    let water =
        answer["lines"].as_array().expect("lines").iter().find(|line| line["ingredient"] == "water").expect("water");
    assert_eq!((water["old_g"].as_f64(), water["new_g"].as_f64()), (Some(600.0), Some(660.0)));
    assert_eq!(water["may_change"], true);
    assert_eq!(answer["lines"][0]["may_change"], false, "the flour is the base");
}

#[test]
fn contradictions_are_named_with_how_far_they_are_apart() {
    let (folder, file) = with(
        "recipe Brine\npart brine\naim salt at least 10 % of total\naim water at least 95 % of total\naim weight 2 kg\n\
         water .... 1 kg\nsalt .... 50 g\n",
    );
    let before = fs::read_to_string(&file).expect("there");
    let output = miche(folder.path(), &["aim", "recipe.miche", "--write", "--format", "json"]);
    assert_eq!(output.status.code(), Some(1));
    let answer: Value = serde_json::from_slice(&output.stdout).expect("JSON");
    assert_eq!(answer["met"], false);
    let set: Vec<&str> =
        answer["contradiction"].as_array().expect("a set").iter().filter_map(|one| one["figure"].as_str()).collect();
    assert_eq!(set, ["salt", "water"], "the weight has no part in it: {answer}");
    // With 95 % of water there are 5 % of salt at most, and the water of table salt (0.2 %) adds a little.
    let nearest = answer["contradiction"][0]["nearest"].as_f64().expect("a figure");
    assert!((nearest - 5.0).abs() < 0.05, "{nearest}");
    assert_eq!(fs::read_to_string(&file).expect("there"), before, "nothing is written");
    assert!(text(&miche(folder.path(), &["aim", "recipe.miche"])).contains("points away"));
}

#[test]
fn only_what_is_named_changes() {
    let (folder, _) = with(&DOUGH.replace("0.5 oz", "19 g"));
    let flour = json(folder.path(), &["aim", "recipe.miche", "--change", "strong white flour", "--format", "json"]);
    let line = |answer: &Value, name: &str| {
        let lines = answer["lines"].as_array().expect("lines").clone();
        let line = lines.into_iter().find(|line| line["ingredient"] == name).expect("a line");
        (line["old_g"].as_f64().expect("old"), line["new_g"].as_f64().expect("new"))
    };
    // 60 % stands for the water and goes on to say the truth; what is computed with is the weight.
    let (old, new) = line(&flour, "strong white flour");
    assert!(new < old, "{old} {new}");
    let (old, new) = line(&flour, "water");
    assert_eq!(old, new);
    let output = miche(folder.path(), &["aim", "recipe.miche", "--keep", "water", "--format", "json"]);
    assert_eq!(output.status.code(), Some(1), "{}", text(&output));
    let wrong = miche(folder.path(), &["aim", "recipe.miche", "--change", "watre"]);
    assert_eq!(wrong.status.code(), Some(2));
    assert!(text(&wrong).contains("did you mean `water`?"), "{}", text(&wrong));
}

/// Of two that can give the fat the cheaper one gives it.
#[test]
fn the_cheapest_costs_no_more_than_the_least_change() {
    let (folder, _) = with(
        "recipe Spread\nuse \"larder.miche\"\npart spread\naim fat 60-62 % of total\naim weight 1000 g\naim protein at least 1 % of total\n\
         butter .... 400 g\nrapeseed oil .... 100 g\nwhole milk .... 500 g\n",
    );
    let prices = "ingredient butter\ncosts 9 per kg\n\ningredient rapeseed oil\ncosts 2 per kg\n\ningredient whole milk\ncosts 1 per kg\n";
    fs::write(folder.path().join("larder.miche"), prices).expect("written");
    let cost = |arguments: &[&str]| {
        let answer = json(folder.path(), arguments);
        assert_eq!(answer["met"], true, "{answer}");
        let price = |line: &Value| match line["ingredient"].as_str() {
            Some("butter") => 9.0,
            Some("rapeseed oil") => 2.0,
            _ => 1.0,
        };
        let lines = answer["lines"].as_array().expect("lines");
        lines.iter().map(|line| price(line) * line["new_g"].as_f64().expect("a weight")).sum::<f64>()
    };
    let least = cost(&["aim", "recipe.miche", "--format", "json"]);
    let cheapest = cost(&["aim", "recipe.miche", "--cheapest", "--format", "json"]);
    assert!(cheapest < least * 0.5, "{cheapest} against {least}");
}

/// A spoilt copy of each example with aims is refused by `check` with the figure, and mended by `aim` so that every aim is met and
/// no line is further from the example than a cook would think odd.
#[test]
fn spoilt_examples_are_refused_and_mended() {
    let cases = [
        (
            "lamp-room-ice-cream.miche",
            "heavy cream ................... 1290 g",
            "heavy cream ................... 1000 g",
        ),
        ("lamp-room-ice-cream.miche", "skimmed milk powder ........... 240 g", "skimmed milk powder ........... 100 g"),
        ("ferry-brioche.miche", "butter ........................ 800 g", "butter ........................ 500 g"),
        ("ferry-brioche.miche", "salt .......................... 29 g", "salt .......................... 20 g"),
        (
            "breakwater-gluten-free-loaf.miche",
            "water ......................... 105 %",
            "water ......................... 85 %",
        ),
        (
            "breakwater-gluten-free-loaf.miche",
            "psyllium husk ................. 5.5 %",
            "psyllium husk ................. 3 %",
        ),
    ];
    for (name, good, spoilt) in cases {
        let folder = tempfile::tempdir().expect("a folder");
        copy::into(folder.path());
        let file = folder.path().join(name);
        let text_of = fs::read_to_string(&file).expect("there");
        assert!(text_of.contains(good), "{name}: {good}");
        let example = json(folder.path(), &["aim", name, "--format", "json"]);
        fs::write(&file, text_of.replace(good, spoilt)).expect("written");
        let check = miche(folder.path(), &["check", name]);
        assert_eq!(check.status.code(), Some(1), "{name}: {}", text(&check));
        assert!(text(&check).contains("aim-missed"), "{name}: {}", text(&check));
        let answer = json(folder.path(), &["aim", name, "--write", "--format", "json"]);
        assert_eq!(answer["met"], true, "{name}: {answer}");
        let check = miche(folder.path(), &["check", name]);
        assert_eq!(
            check.status.code(),
            Some(0),
            "{name}: {}\n{}",
            text(&check),
            fs::read_to_string(&file).expect("there")
        );
        let lines = answer["lines"].as_array().expect("lines").iter();
        for (line, of) in lines.zip(example["lines"].as_array().expect("lines")) {
            let (good, new) = (of["old_g"].as_f64().expect("old"), line["new_g"].as_f64().expect("new"));
            assert!(new > good * 0.7 && new < good * 1.4, "{name}: {line} against {good}");
        }
    }
}

/// What a piece weighs and holds hangs on several parts at once, under two choices: no linear form holds everywhere.
#[test]
fn pieces_of_several_parts_meet_their_aims() {
    let (folder, file) = with(
        "recipe Pasties\nmakes 24 pasties\nchoose filling: lean or rich\naim weight 210-215 g each\naim fat at most 15 % of total\n\n\
         part pastry\nplain flour .... 1.2 kg\nlard .... 45 %\nwater .... 28 %\nsalt .... 1.5 %\ndivide 24 x 85 g, loss 2.5 %\n\n\
         part filling\npotato .... 1.5 kg\nonion .... 500 g\nswede .... 500 g\nbutter .... 200 g [rich]\ncarrot .... 200 g [lean]\nsalt .... 25 g\n\n\
         part pasties\nper piece\npastry .... 1 piece\nfilling .... 104 g\negg .... 4 g\n",
    );
    let output = miche(folder.path(), &["aim", "recipe.miche", "--write"]);
    let now = fs::read_to_string(&file).expect("there");
    assert_eq!(output.status.code(), Some(0), "{}", text(&output));
    let check = missed(folder.path());
    assert!(!check.contains("aim-missed") && !check.contains("part-short"), "{now}\n{check}");
}

#[test]
fn a_comparison_tells_aims_that_are_newly_missed_or_met() {
    let (folder, _) = with(DOUGH);
    fs::write(folder.path().join("better.miche"), DOUGH.replace("600 g = 21 oz = 60 %", "670 g")).expect("written");
    let words = text(&miche(folder.path(), &["diff", "recipe.miche", "better.miche"]));
    assert!(words.contains("aim now met: hydration of dough"), "{words}");
    let answer = json(folder.path(), &["diff", "better.miche", "recipe.miche", "--format", "json"]);
    assert_eq!(answer["aims"]["missed"][0]["figure"], "hydration", "{answer}");
    let card = miche(folder.path(), &["card", "better.miche"]);
    assert_eq!(card.status.code(), Some(0), "a card is made though the salt misses its aim: {}", text(&card));
    assert!(!String::from_utf8_lossy(&card.stdout).contains("aim"), "cards print no aims");
}

#[test]
fn milk_becomes_powder_water_and_butter() {
    let (folder, file) = with(
        "recipe Milk buns\nmakes 20 buns\n\npart dough\nstrong white flour ............ 1 kg\nwhole milk .................... 600 g, at 30 C  # fresh\n\
         butter ........................ 80 g, soft\nsalt .......................... 20 g\ninstant yeast ................. 10 g\n\
         divide 20 x 84 g, loss 1.8 %\n\nmix: hands 12 min\n    Mix {strong white flour}, {whole milk}, {salt} and {instant yeast}; add {butter}.\n    until smooth\n",
    );
    let output = miche(
        folder.path(),
        &[
            "swap",
            "recipe.miche",
            "whole milk",
            "for",
            "skim milk powder, water, butter",
            "--write",
            "--format",
            "json",
        ],
    );
    let answer: Value = serde_json::from_slice(&output.stdout).unwrap_or_else(|_| panic!("{}", text(&output)));
    let now = fs::read_to_string(&file).expect("there");
    assert!(
        !now.contains("whole milk")
            && now.contains("skim milk powder")
            && now.contains("water ...")
            && now.contains("# fresh"),
        "{now}"
    );
    let check = miche(folder.path(), &["check", "recipe.miche"]);
    assert_eq!(check.status.code(), Some(0), "{now}\n{}", text(&check));
    // 600 g of milk hold 530 g of water, 19.5 g of fat and 19 g of protein (USDA SR26 01077).
    let grams = |name: &str| {
        let comes = answer["parts"][0]["comes"].as_array().expect("what comes");
        comes.iter().find(|one| one["ingredient"] == name).unwrap_or_else(|| panic!("{answer}"))["grams"]
            .as_f64()
            .expect("a weight")
    };
    assert!((grams("water") - 525.0).abs() < 6.0, "{answer}");
    assert!((grams("butter") - 23.5).abs() < 1.5, "{answer}");
    assert!((50.0..60.0).contains(&grams("skim milk powder")), "{answer}");
    for rest in answer["parts"][0]["rest"].as_array().expect("the rest") {
        assert!(rest["points"].as_f64().expect("points").abs() < 0.35, "{rest}");
    }
}

#[test]
fn leavens_flours_and_butters_are_swapped_as_bakers_do() {
    let recipe = "recipe Rolls\nmakes 20 rolls\n\npart dough\nstrong white flour ............ 1 kg\nwater ......................... 62 %\n\
                  butter ........................ 10 %\nsalt .......................... 2 %\ninstant yeast ................. 1 %\n\
                  divide 20 x 86 g, loss 1.8 %\n\nmix: hands 12 min\n    Mix {strong white flour}, {water}, {butter}, {salt} and {instant yeast}.\n    until smooth\n";
    let swap = |old: &str, new: &str| {
        let (folder, file) = with(recipe);
        let output = miche(folder.path(), &["swap", "recipe.miche", old, "for", new, "--write"]);
        assert_eq!(output.status.code(), Some(0), "{}", text(&output));
        (fs::read_to_string(&file).expect("there"), text(&output))
    };
    // J. Hamelman, Bread (2004): fresh × 0.33 = instant.
    let (now, _) = swap("instant yeast", "fresh yeast");
    assert!(now.contains("fresh yeast ................... 3 %"), "{now}");
    let (now, said) = swap("butter", "salted butter");
    assert!(now.contains("salted butter") && now.contains("salt .......................... 1.8 %"), "{now}\n{said}");
    let (now, said) = swap("strong white flour", "plain flour");
    assert!(now.contains("plain flour ................... 1 kg"), "{now}");
    assert!(said.contains("Not its baking"), "{said}");
}

/// What `--write` would make wrong stays as it is, and it is said why.
#[test]
fn an_error_that_was_not_there_is_not_written() {
    let (folder, file) = with(
        "recipe Harbour loaf\naim hydration 60 %\n\npart dough\nwheat flour .... 1000 g\nwater .... 650 g\nsalt .... 20 g\n\n\
         mix: hands 10 min\n    Mix {wheat flour}, {600 g of water} and {salt}, then {50 g of water}.\n    until smooth\n",
    );
    let before = fs::read_to_string(&file).expect("there");
    let output = miche(folder.path(), &["aim", "recipe.miche", "--write", "--keep", "salt"]);
    assert_eq!(output.status.code(), Some(2), "{}", text(&output));
    assert!(
        text(&output).contains("stays as it is") && text(&output).contains("take 650 g of water"),
        "{}",
        text(&output)
    );
    assert_eq!(fs::read_to_string(&file).expect("there"), before);
}

/// A line of another option stays, and so do the steps of that option; water that was taken before is not taken twice.
#[test]
fn a_swap_under_one_option_leaves_the_other() {
    let (folder, file) = with(
        "recipe Milk buns\nmakes 10 buns\nchoose way: hand or machine\n\npart dough\nwheat flour .... 500 g\n\
         whole milk .... 300 g, warmed [hand]   # from the quay\nwhole milk .... 280 g [machine]\nwater .... 20 g [hand]\n\
         salt .... 10 g\ninstant yeast .... 5 g\n\nmix: hands 10 min [hand]\n    Mix {wheat flour}, {200 g of whole milk}, {salt}, {water} \
         and {instant yeast}, then {rest of whole milk}.\n    until smooth\nspin: hands 10 min [machine]\n    Mix {wheat flour}, {half of \
         whole milk}, {salt} and {instant yeast}, then {rest of whole milk}.\n    until smooth\n",
    );
    let output = miche(
        folder.path(),
        &[
            "swap",
            "recipe.miche",
            "whole milk",
            "for",
            "skim milk powder, water, butter",
            "--choose",
            "hand",
            "--write",
        ],
    );
    let now = fs::read_to_string(&file).expect("there");
    assert_eq!(output.status.code(), Some(0), "{}\n{now}", text(&output));
    for kept in [
        "whole milk .... 280 g [machine]",
        "{half of whole milk}, {salt} and",
        "then {rest of whole milk}.",
        "# from the quay",
    ] {
        assert!(now.contains(kept), "{kept}: {now}");
    }
    let check = miche(folder.path(), &["check", "recipe.miche"]);
    assert_eq!(check.status.code(), Some(0), "{now}\n{}", text(&check));
    // Two thirds of the milk, and then the rest of it: of the water that came, 174 g and what is left of it.
    assert_eq!(now.matches("g of water}").count(), 2, "{now}");
    // A step that both options have would lack it under the other one.
    let (folder, file) = with(
        "recipe Buns\nchoose way: hand or machine\nwheat flour .... 500 g\nbutter .... 50 g [hand]\nbutter .... 60 g [machine]\n\
         water .... 300 g\nsalt .... 10 g\nmix: hands 10 min\n    Mix {wheat flour}, {butter}, {water} and {salt}.\n    until smooth\n",
    );
    let before = fs::read_to_string(&file).expect("there");
    let output =
        miche(folder.path(), &["swap", "recipe.miche", "butter", "for", "lard", "--choose", "hand", "--write"]);
    assert_eq!(output.status.code(), Some(2), "{}", text(&output));
    assert!(text(&output).contains("stays as it is"), "{}", text(&output));
    assert_eq!(fs::read_to_string(&file).expect("there"), before);
}

#[test]
fn wrong_use_is_said_and_changes_nothing() {
    let (folder, file) = with(DOUGH);
    let before = fs::read_to_string(&file).expect("there");
    for arguments in [
        &["aim", "nothing.miche"][..],
        &["aim", "-", "--write"],
        &["aim", "recipe.miche", "--keep", "sand"],
        &["swap", "recipe.miche", "water", "for", ""],
        &["swap", "recipe.miche", "water", "for", "moon dust"],
        &["swap", "recipe.miche", "watter", "for", "milk"],
        &["swap", "recipe.miche", "water", "against", "milk"],
        &["swap", "recipe.miche", "water", "for", "flaked almonds", "--choose", "cold"],
    ] {
        let output = miche(folder.path(), arguments);
        assert_eq!(output.status.code(), Some(2), "{arguments:?}: {}", text(&output));
        assert!(!output.stderr.is_empty(), "{arguments:?}");
    }
    assert_eq!(fs::read_to_string(&file).expect("there"), before);
}

/// Aims that nobody can have meant end in a problem and never in a panic.
#[test]
fn hostile_aims_are_problems() {
    let base = "strong white flour .... 1 kg\nwater .... 600 g\nsalt .... 20 g\n";
    let hundred: String = (0..100).map(|number| format!("aim water {}-{} g\n", number, number + 900)).collect();
    let cases = [
        ("aim hydration 999999999999999 %\n", 1),
        ("aim hydration 0 %\n", 1),
        ("aim salt 0.000000001-0.000000002 %\n", 1),
        ("aim fat at least 100 % of total\n", 1),
        ("aim protein 20 %\n", 1),
        ("aim energy at least 999999999999999 kcal each\nmakes 3 rolls\n", 1),
        ("aim water 10-20 g each\n", 1),
        ("aim nothing 5 %\n", 1),
        ("aim 5 %\n", 1),
        ("aim\n", 1),
        ("aim salt\n", 1),
        ("aim salt at least\n", 1),
        ("aim salt at least 1-2 %\n", 1),
        ("aim salt 2-1 %\n", 1),
        ("aim salt -1 %\n", 1),
        ("aim salt 1 % of sugar\n", 1),
        ("aim cost -5 each\n", 1),
        ("aim time at most 5 h\n", 1),
        ("aim salt at least 3 %\naim salt at most 2 %\n", 1),
        (hundred.as_str(), 0),
        ("aim alcohol at most 1 %\n", 0),
        ("aim egg at most 1 %\n", 0),
    ];
    for (aims, wanted) in cases {
        let (folder, _) = with(&format!("recipe Rolls\n{aims}{base}"));
        let check = miche(folder.path(), &["check", "recipe.miche"]);
        let shown: String = aims.chars().take(60).collect();
        assert_eq!(check.status.code(), Some(wanted), "{shown}: {}", text(&check));
        let aim = miche(folder.path(), &["aim", "recipe.miche"]);
        assert!(matches!(aim.status.code(), Some(0..=2)), "{shown}: {}", text(&aim));
    }
}

/// After `aim --write`, whatever was spoilt, `check` finds no aim missed.
#[test]
fn what_is_written_meets_every_aim() {
    let mut seed = 20_261_126_u64;
    let mut chance = |below: u64| {
        seed = seed.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        (seed >> 33) % below
    };
    let mut written = 0;
    for round in 0..24 {
        let unit = ["g", "oz", "%"][chance(3) as usize];
        let amount = |percent: u64| match unit {
            "g" => format!("{} g", percent * 10),
            "oz" => format!("{}.{} oz", percent * 10 / 28, percent % 10),
            _ => format!("{percent} %"),
        };
        let (low, salt) = (58 + chance(14), 15 + chance(8));
        let recipe = format!(
            "recipe Round\nmakes 20 rolls\n\npart dough\naim hydration {low}-{} %\naim salt {}.{}-{}.{} %\naim fat {} %\naim sugar at most {} % of total\n\
             strong white flour .... 1 kg\nwater .... {}\nwhole milk .... {}\nbutter .... {}\ncaster sugar .... {}\nsalt .... {}\n",
            low + 1,
            salt / 10,
            salt % 10,
            (salt + 1) / 10,
            (salt + 1) % 10,
            5 + chance(12),
            4 + chance(5),
            amount(40 + chance(30)),
            amount(5 + chance(20)),
            amount(3 + chance(12)),
            amount(2 + chance(14)),
            if unit == "%" { "2 %".to_owned() } else { format!("{} g", 10 + chance(20)) },
        );
        let (folder, file) = with(&recipe);
        let output = miche(folder.path(), &["aim", "recipe.miche", "--write"]);
        let said = text(&output);
        match output.status.code() {
            Some(0) => {
                let check = missed(folder.path());
                assert!(
                    !check.contains("aim-missed"),
                    "{round}\n{recipe}\n{}\n{check}",
                    fs::read_to_string(&file).expect("there")
                );
                written += 1;
            }
            Some(1) => assert!(said.contains("No amounts meet"), "{round}\n{recipe}\n{said}"),
            code => panic!("{round}: {code:?}\n{recipe}\n{said}"),
        }
    }
    assert!(written > 12, "{written} written");
}
