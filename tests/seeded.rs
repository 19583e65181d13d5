//! Seeded defects: right recipes are broken mechanically, and it is counted how many of the defects the checks find.
//!
//! The recipes are those of `examples`, `tests/right` and `tests/published` that draw no word when they are whole. A defect
//! counts as found when anything at all is said of the broken file. Nothing is left out: a rest of 45 instead of 54 minutes
//! is a defect that no program can know to be one, and it counts as missed. Every kind counts the same.
//! `cargo test --test seeded -- --nocapture` prints the table; with `MISSED=1` every defect that was missed, too, and with
//! `RECIPES=FOLDER` it is put into the recipes of that folder instead, where no share is wanted: a rate that holds for our own
//! files alone is worth nothing.

#![allow(clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

mod dice;
#[path = "seeded/slips.rs"]
mod slips;

use dice::Dice;
use miche::check::check_file;
use miche::edge::loader::{Loader, find_files};
use rayon::prelude::*;
use slips::{KINDS, Slip};
use std::fs;
use std::path::{Path, PathBuf};

/// Defects of each kind.
const EACH: usize = 200;

/// The share that must be found, in percent, over all kinds. Lower it only with a reason.
const FLOOR: usize = 85;

/// Tables of units in the form of recipes: their lines can stand in any order and go by any name, so that no slip in them is one.
const TABLES: &[&str] = &["a1-household-measures", "e1-ounces-table"];

/// Why defects of a kind get through: what no program can know, and which check is missing.
const WHY: &[(&str, &str)] = &[
    ("a name misspelt", "invisible: a line that no step takes, and a name that no larder has or comes near"),
    ("a use dropped", "invisible: in a part of which another step takes the rest"),
    ("g for kg, kg for g", "invisible: of a line alone in its part, or in prose"),
    (
        "a percentage by ten",
        "invisible: in a batch given in percent a tenth of yeast is a dough for the night, and a tenth of its loss a smaller batch",
    ),
    ("C for F, F for C", "invisible: temperatures of which nothing is done with the food, such as an oven for plates"),
    ("a line doubled", "none seen"),
    (
        "a loss changed",
        "invisible: a batch given in percent grows with its loss; a loss three times as high is still a loss; a bake loss need not be said",
    ),
    (
        "a line dropped",
        "invisible: a note of how, a sign, a rest that makes it better, `makes`, `keeps`, a larder with prices only; missing: a filling \
         without its sugar",
    ),
    (
        "amounts swapped",
        "invisible: amounts of one size, two vegetables, two seeds; missing: proportions of custards and batters, and of garlic to salt",
    ),
    ("names swapped", "invisible: as amounts swapped; of a sheet that says only `yeast`, which may be fresh"),
    (
        "a digit changed",
        "invisible: 36 minutes are as good as 35, 25 °C as 24, 610 g as 600; missing: figures that are not round among round ones, which \
         honest sheets have too",
    ),
    (
        "a step's time by ten",
        "invisible: a chill of 1 h, a rest of 5 h in the cold, hands of 2 min; missing: times by the mass of a kettle, and by how large vegetables \
         are cut",
    ),
    (
        "neighbouring steps swapped",
        "invisible: steps that may stand either way: brush and prove, rest and roll, chill and fold; missing: what a step's prose says was \
         done before",
    ),
    (
        "an ingredient exchanged",
        "invisible: cream for milk, cream cheese for butter where it is neither rubbed in nor folded in, sugar for salt in what need not be \
         salted, another powder to dust with; missing: one starch for another in batters",
    ),
    (
        "bake, until or leaven gone",
        "invisible: a sign of a rise is optional, dough without yeast is a flat bread, a mix alone may be sold as dough",
    ),
];

struct Recipe {
    path: PathBuf,
    text: String,
}

/// The folder of other recipes to put defects into, if one is named.
fn others() -> Option<PathBuf> {
    std::env::var_os("RECIPES").map(PathBuf::from)
}

/// The recipes that are right, in the order of their paths.
fn recipes() -> Vec<Recipe> {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let own = ["examples", "tests/right", "tests/published"].map(|folder| root.join(folder));
    let folders = others().map_or_else(|| own.to_vec(), |other| vec![other]);
    let files = folders.iter().flat_map(|folder| find_files(folder).expect("a folder that can be read"));
    let read = files.map(|path| Recipe { text: fs::read_to_string(&path).expect("UTF-8"), path });
    let is_table = |path: &Path| path.file_stem().is_some_and(|stem| TABLES.iter().any(|table| stem == *table));
    read.filter(|recipe| recipe.text.lines().any(|line| line.starts_with("recipe ")) && !is_table(&recipe.path))
        .filter(|recipe| !is_found(recipe, &recipe.text))
        .collect()
}

fn is_found(recipe: &Recipe, broken: &str) -> bool {
    let mut loader = Loader::new();
    let source = loader.take_text("broken.miche", broken.to_owned(), &recipe.path);
    !check_file(&loader.into_project(), source).is_empty()
}

/// Every text that a slip makes of the recipes; what reads as before is no slip.
fn broken(recipes: &[Recipe], slip: Slip) -> Vec<(&Recipe, String)> {
    let all = recipes.iter().flat_map(|recipe| slip(&recipe.text).into_iter().map(move |text| (recipe, text)));
    all.filter(|(recipe, text)| recipe.text.trim_end() != text.trim_end()).collect()
}

#[test]
fn most_defects_are_found() {
    let recipes = recipes();
    let (fewest, places, floor) = if others().is_some() { (1, 1, 0) } else { (45, 40, FLOOR) };
    assert!(recipes.len() >= fewest, "{} right recipes", recipes.len());
    let mut dice = Dice(20_261_125);
    let (mut found, mut made) = (0, 0);
    for (kind, slip) in KINDS {
        let all = broken(&recipes, *slip);
        assert!(all.len() >= places, "{kind}: only {} places", all.len());
        let taken: Vec<&(&Recipe, String)> = (0..EACH).map(|_| &all[dice.below(all.len())]).collect();
        let found_each: Vec<bool> = taken.par_iter().map(|(recipe, text)| is_found(recipe, text)).collect();
        let found_here = found_each.iter().filter(|found| **found).count();
        let why = WHY.iter().find(|(known, _)| known == kind).map(|(_, why)| *why);
        let why = why.unwrap_or_else(|| panic!("it is not said why some of `{kind}` get through"));
        println!("{kind:28} {found_here:3} of {EACH} found ({} %); the rest: {why}", found_here * 100 / EACH);
        if std::env::var_os("MISSED").is_some() {
            for ((recipe, text), _) in taken.iter().zip(&found_each).filter(|(_, found)| !**found) {
                let file = recipe.path.file_stem().expect("a name").to_string_lossy();
                println!("missed, {kind}, {file}: {}", difference(&recipe.text, text));
            }
        }
        found += found_here;
        made += EACH;
    }
    println!("{:28} {found:3} of {made} found ({} %)", "all", found * 100 / made);
    assert!(found * 100 >= made * floor, "{found} of {made} found");
}

/// The lines that differ: what stood there, and what stands there now.
fn difference(whole: &str, broken: &str) -> String {
    let changes = similar::TextDiff::from_lines(whole, broken);
    let lines = changes.iter_all_changes().filter(|change| change.tag() != similar::ChangeTag::Equal);
    let told: Vec<String> = lines.map(|change| format!("{}{}", change.tag(), change.value().trim())).collect();
    told.join(" ¦ ")
}
