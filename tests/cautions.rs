//! The program's own cautions for the cards: which recipes carry which, in which words, from which source.
//!
//! Figures: FDA Food Code 3-501.14 (cooling: 57 °C to 21 °C in 2 h, to 5 °C in 6 h in all), 3-501.17 (7 days, the day of
//! preparation counted), 3-501.16 (hot holding at 57 °C, from memory), 21 CFR 114.3 (pH 4.6).

#![allow(clippy::expect_used, clippy::panic)]

use miche::check::caution::{Caution, for_recipe};
use miche::check::{find, work_out};
use miche::edge::loader::{Loader, find_files};
use miche::model::recipe::Selection;
use std::fs;
use std::path::Path;

/// The cautions of a text; `None` when no recipe can be made of it.
fn cautions_if_any(text: &str, place: &Path) -> Option<Vec<Caution>> {
    let mut loader = Loader::new();
    let source = loader.take_text("recipe", text.to_owned(), place);
    let project = loader.into_project();
    let (recipe, formula) = work_out(&project, source, &Selection::new(), &mut Vec::new())?;
    Some(for_recipe(&recipe, &formula, miche::measure::show::Units::Metric))
}

fn cautions(text: &str, place: &Path) -> Vec<Caution> {
    cautions_if_any(text, place).expect("a recipe")
}

fn of(text: &str) -> Vec<Caution> {
    cautions(text, Path::new("./recipe.miche"))
}

fn says(cautions: &[Caution], check: &str, words: &[&str]) {
    let caution = cautions.iter().find(|caution| caution.check == check);
    let text = &caution.unwrap_or_else(|| panic!("no caution of {check}: {cautions:#?}")).text;
    for word in words {
        assert!(text.contains(word), "`{word}` is missing: {text}");
    }
}

#[test]
fn every_caution_names_its_source_and_defers_to_the_law() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let mut seen = 0;
    for folder in ["examples", "tests/right", "tests/wrong"] {
        for path in find_files(&root.join(folder)).expect("files") {
            let text = fs::read_to_string(&path).expect("UTF-8");
            if !text.lines().any(|line| line.starts_with("recipe ")) {
                continue;
            }
            // Of some wrong files no recipe can be made.
            let found = cautions_if_any(&text, &path);
            assert!(found.is_some() || folder == "tests/wrong", "{}", path.display());
            for caution in found.into_iter().flatten() {
                seen += 1;
                assert!(find(caution.check).is_some(), "{}", caution.check);
                assert!(!caution.source.is_empty());
                assert!(caution.text.contains("local food law"), "{}", caution.text);
            }
        }
    }
    assert!(seen > 100, "{seen} cautions");
}

#[test]
fn a_bread_carries_raw_flour_and_its_allergens_and_no_more() {
    let list =
        of("recipe Rolls\nflour .... 500 g\nwater .... 300 g\nmix: hands 10 min\n    Mix {flour} and {water}.\n\
                   bake: tend 15 min, using oven at 220 C\n    until gold\n");
    let checks: Vec<&str> = list.iter().map(|caution| caution.check).collect();
    assert_eq!(checks, ["hidden-allergen", "raw-flour-or-egg"]);
    says(&list, "hidden-allergen", &["US law: wheat", "EU law: cereals containing gluten"]);
    says(&list, "raw-flour-or-egg", &["Raw flour", "before it is baked"]);
}

#[test]
fn cooked_and_chilled_food_carries_the_food_code() {
    let list =
        of("recipe Pea pot\npeas .... 1 kg\nwater .... 2 l\nkeeps 3 days, chilled\nboil: tend 40 min, using hob\n    \
                   Boil {peas} in {water}.\n    until soft\ncool: wait 1 h\nchill: wait 3 h, at 4 C\n\
                   hold: tend 30 min, using hob at 70 C\n");
    says(&list, "slow-cooling", &["57 °C to 21 °C within 2 hours", "5 °C within 6 hours in all"]);
    says(&list, "kept-too-long", &["5 °C or below", "7 days", "the day it is made counted"]);
    says(&list, "held-too-cool", &["57 °C"]);
}

#[test]
fn preserves_lye_sugar_and_fat_carry_theirs() {
    let jam = of(
        "recipe Plum jam\nplums .... 1 kg\nsugar .... 500 g\ncook: tend 30 min, using hob\n    Boil {plums} and {sugar}.\n    until thick\n",
    );
    says(&jam, "shelf-storage", &["not tested for storage on a shelf", "pH 4.6"]);
    let lye = of(
        "recipe Lye sticks\nflour .... 500 g\nlye .... as needed, aside\ndip: hands 5 min\n    Dip {flour} into {lye}.\n",
    );
    says(&lye, "hot-or-caustic", &["goggles and gloves", "never water to lye"]);
    let caramel = of("recipe Caramel\nsugar .... 300 g\nmelt: hands 8 min, using hob\n    Caramelise {sugar}.\n");
    says(&caramel, "hot-or-caustic", &["Boiling sugar", "running water"]);
    let rings = of(
        "recipe Rings\nflour .... 500 g\nfrying oil .... as needed, aside\nfry: hands 9 min, using fryer at 175 C\n    Fry {flour} in {frying oil}.\n",
    );
    says(&rings, "hot-or-caustic", &["lid, never with water"]);
}

#[test]
fn a_salad_of_apples_carries_none() {
    let list = of(
        "recipe Apple salad\napple .... 500 g\nlemon juice .... 20 g\ncut: hands 10 min\n    Slice {apple}; toss in {lemon juice}.\n",
    );
    assert_eq!(list, []);
}
