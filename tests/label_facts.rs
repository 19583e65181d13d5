//! The nutrition facts of a label of the United States as they are printed: which display, in how many points, and in which columns.
//!
//! 21 CFR 101.9(d)(1)(iii), (d)(3), (d)(7), (j)(13) and (b)(12), whose words a public label program quotes of the eCFR (seen).

#![allow(clippy::expect_used, clippy::panic)]

#[path = "examples/one_file.rs"]
mod one_file;

use std::fs;
use std::path::Path;

const ROLLS: &str = "recipe Rolls\nmakes 12 rolls, bake loss 10 %\nbread flour .... 1 kg\nwater .... 540 g\nsalt .... 20 g\ndivide 12 x 130 g\n";

fn run(folder: &Path, recipe: &str, arguments: &[&str]) -> (bool, String) {
    one_file::run(folder, recipe, &[&["label", "a.miche", "--law", "us"], arguments].concat(), false)
}

fn sheet(recipe: &str, arguments: &[&str]) -> String {
    let folder = tempfile::tempdir().expect("a folder");
    let (fine, said) = run(folder.path(), recipe, &[&["--copies", "1", "-o", "l.html"], arguments].concat());
    assert!(fine, "{said}");
    fs::read_to_string(folder.path().join("l.html")).expect("a page")
}

/// The runs of the nutrition facts: points, and words.
fn runs(page: &str) -> Vec<(f64, String)> {
    let runs = page.split("<span style=\"font-size:").skip(1).map(|rest| {
        let points = rest.split("pt").next().and_then(|points| points.parse().ok()).expect("points");
        let words = rest.split('>').nth(1).and_then(|words| words.split('<').next()).unwrap_or_default();
        (points, words.to_owned())
    });
    runs.collect()
}

fn points(runs: &[(f64, String)], words: &str) -> f64 {
    runs.iter().find(|(_, said)| said.contains(words)).unwrap_or_else(|| panic!("no `{words}`: {runs:?}")).0
}

/// `Calories` 16 points, its figure 22; the servings 10; the rows 8; the footnote 6; and the title larger than all but that figure. The amount
/// follows the name. A quarter of a kilometre of paper would not make the linear display lawful on a pack that is not small.
#[test]
fn the_vertical_display_has_the_sizes_of_the_regulation() {
    let page = sheet(ROLLS, &["--sheet", "2 x 1"]);
    let runs = runs(&page);
    for (words, least) in [
        ("1 serving per container", 10.0),
        ("1 roll (117 g)", 10.0),
        ("Calories", 16.0),
        ("Total Fat", 8.0),
        ("Potassium", 8.0),
        ("contributes to a daily diet", 6.0),
    ] {
        assert!(points(&runs, words) >= least, "{words}: {runs:?}");
    }
    let calories = runs.iter().position(|(_, words)| words == "Calories").expect("calories");
    let (figure, words) = runs.get(calories + 1).expect("a figure");
    assert!(*figure >= 22.0 && words.parse::<u32>().is_ok(), "{words}");
    let title = points(&runs, "Nutrition Facts");
    assert!(
        runs.iter().all(|(points, said)| *points < title || said == words || said == "Nutrition Facts"),
        "{runs:?}"
    );
    let fat = runs.iter().position(|(_, words)| words == "Total Fat").expect("fat");
    assert!(runs.get(fat + 1).is_some_and(|(_, words)| words.ends_with(" g")), "{runs:?}");
    // A line is as high as its own type, and not as the ingredients above: else a browser runs over the edge of the label.
    let foot = page
        .split("contributes to a daily diet")
        .next()
        .and_then(|before| before.rsplit("<div style=\"").next()?.split('"').next());
    assert!(foot.is_some_and(|cell| cell.contains("font-size:") && cell.starts_with("width:100")), "{page}");
    let folder = tempfile::tempdir().expect("a folder");
    let (fine, said) = run(folder.path(), ROLLS, &["--sheet", "2 x 4", "-o", "l.html"]);
    assert!(!fine && said.contains("40 square inches"), "{said}");
}

/// (j)(13)(ii)(A)(2): no more than 40 square inches can bear a label, and the facts run on like text: servings 9 points, `Calories` 10 and 14,
/// the rows 8, and 6 where the label has less than 12 square inches ((j)(13)(i)(B), from memory); the ingredients stay a sixteenth of an
/// inch (101.2(c)), which the `x` of this face is at 8.7 points. There is no column beside that of a serving, (b)(12)(i)(A).
#[test]
fn a_small_pack_has_the_linear_display() {
    for (paper, rows) in [("2 x 5, gaps 2 x 2", 6.0), ("2 x 3", 8.0)] {
        let page = sheet(ROLLS, &["--sheet", paper, "--small-pack"]);
        let label = page.split("class=\"label\"").nth(1).expect("a label");
        let rest = label.split("font-size:").nth(1).and_then(|rest| rest.split("pt").next()).expect("a size");
        assert!(rest.parse::<f64>().expect("a number") > 8.5, "{rest}");
        let runs = runs(&page);
        for (words, least) in
            [("serving per container", 9.0), ("Calories", 10.0), ("Total Fat", rows), ("% DV = % Daily Value", 6.0)]
        {
            assert!(points(&runs, words) >= least, "{paper}, {words}: {runs:?}");
        }
        let calories = runs.iter().position(|(_, words)| words.trim() == "Calories").expect("calories");
        assert!(runs.get(calories + 1).is_some_and(|(points, _)| *points >= 14.0), "{runs:?}");
        assert!(page.contains(" DV)") && !page.contains("2,000"), "{page}");
    }
    // Two servings: a column of the container where there is room for one, and none in running text.
    let two = ROLLS.replace("bake loss 10 %\n", "bake loss 10 %\nserving 55 g, 1/2 roll\n");
    let of = |more: &[&str]| runs(&sheet(&two, more)).into_iter().map(|(_, words)| words).collect::<Vec<_>>().join("|");
    let (large, small) = (of(&["--sheet", "2 x 1"]), of(&["--sheet", "2 x 3", "--small-pack"]));
    // 60 g of carbohydrate are in the container.
    assert!(large.contains("Per container") && large.contains("60 g"), "{large}");
    assert!(!small.contains("Per container") && !small.contains("60 g"), "{small}");
}

/// (b)(2)(i)(D): a piece of two to three servings in a pack of several has a column of its own, at both ends of that.
#[test]
fn a_piece_of_two_servings_has_a_column() {
    let of = |serving: &str, pack: &str| {
        let rolls = ROLLS.replace("bake loss 10 %\n", &format!("bake loss 10 %\nserving {serving} roll\n"));
        let folder = tempfile::tempdir().expect("a folder");
        let (fine, page) = run(folder.path(), &rolls, &["--pack", pack, "--format", "markdown"]);
        assert!(fine, "{page}");
        page
    };
    assert!(of("58.5 g, 1/2", "4").contains("per roll, 117 g") && of("39 g, 1/3", "4").contains("per roll, 117 g"));
    assert!(!of("59 g, 1/2", "4").contains("per roll, ") && !of("38.9 g, 1/3", "4").contains("per roll, "));
    assert!(of("58.5 g, 1/2", "1").contains("per container, 117 g"));
}

/// (d)(7)(ii): the share may be reckoned from what is declared, and of what is declared as nothing it is nothing.
#[test]
fn nothing_is_no_share_of_a_day() {
    let folder = tempfile::tempdir().expect("a folder");
    // 0.45 g of saturates: 0 g, and not 2 %.
    let recipe =
        "recipe Bars\nmakes 10 bars\nplain flour .... 400 g\nolive oil .... 30 g\nwater .... 70 g\ndivide 10 x 50 g\n";
    let (fine, page) = run(folder.path(), recipe, &["--format", "markdown"]);
    assert!(fine, "{page}");
    let row = page.lines().find(|line| line.contains("saturated fat")).expect("a row");
    assert!(row.contains("| 0 g | 0% |") || row.replace(' ', "").contains("|0g|0%|"), "{row}");
}
