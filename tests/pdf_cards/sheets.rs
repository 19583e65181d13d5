//! What stands on the sheets of cards, plans and every other product: one unit a column, why there is no timeline, a sheet for each person.

use super::{Printed, html_of, made, miche, readers, recipes, root, seen, tokens};
use std::path::Path;

/// A column has one unit: whatever is asked for, no part of an example is weighed in grams and kilograms.
#[test]
fn a_column_has_one_unit() {
    let mut in_kilograms = 0;
    for file in recipes() {
        for times in ["1", "1/3", "10", "47"] {
            let output = miche("card", &file, &["--times", times, "--format", "json"]);
            // A day is as large as its orders.
            if !output.status.success() {
                continue;
            }
            let json: serde_json::Value = serde_json::from_slice(&output.stdout).expect("JSON");
            let parts = json["parts"].as_array().cloned().unwrap_or_default();
            for part in &parts {
                for column in ["final_mix_shown", "load_shown", "running_shown"] {
                    let shown = part["lines"].as_array().into_iter().flatten().filter_map(|line| line[column].as_str());
                    let units: std::collections::BTreeSet<&str> = shown
                        .filter_map(|shown| shown.rsplit(' ').next())
                        .filter(|unit| ["g", "kg"].contains(unit))
                        .collect();
                    assert!(units.len() < 2, "{} x {times}, {}: {column} in {units:?}", file.display(), part["name"]);
                    in_kilograms += usize::from(units.contains("kg"));
                }
            }
        }
    }
    assert!(in_kilograms > 0, "nothing is in kilograms");
}

/// A batch that cannot be made as it is written says so on its sheet, with the figures and what would help; it is in the JSON too.
#[test]
fn a_batch_without_a_plan_says_why() {
    let buns = root().join("examples/rhubarb-crumb-buns.miche");
    let json = made("card", &buns, &["--pieces", "360", "--format", "json"]);
    let card: serde_json::Value = serde_json::from_slice(&json).expect("JSON");
    let why = card["timeline"]["why_none"].as_str().expect("a reason");
    assert!(why.contains("`bake` 20 of 20 would begin") && why.contains("make 36 of the 360 buns"), "{why}");
    let many = ["--pieces", "360"];
    let html = html_of("card", &buns, &many);
    assert!(html.contains("No timeline: ") && html.contains("“bake” 20 of 20"), "{html}");
    assert!(!readers() || Printed::new("card", &buns, &many).pages().concat().contains("No timeline:"));
    let one = made("card", &buns, &["--format", "json"]);
    let card: serde_json::Value = serde_json::from_slice(&one).expect("JSON");
    assert!(card["timeline"].get("why_none").is_none() && !html_of("card", &buns, &[]).contains("No timeline"));
}

/// Every product is also a PDF: it says what its page says, and no name stands between raw backticks.
#[test]
fn every_product_is_printed() {
    if !readers() {
        return;
    }
    let examples = root().join("examples");
    let buns = examples.join("rhubarb-crumb-buns.miche");
    let kinds: [(&str, &Path, &[&str]); 9] = [
        ("label", &buns, &[]),
        ("label", &buns, &["--report"]),
        ("cost", &buns, &["--on", "2027-01-01"]),
        ("cost", &examples.join("market-day.miche"), &["--on", "2027-01-01", "--paper", "a5"]),
        ("stock", &buns, &["--have", "strong white flour=4 kg"]),
        ("sums", &examples.join("harbour-levain-loaf.miche"), &[]),
        ("sums", &examples.join("market-day.miche"), &[]),
        ("diff", &buns, &["--choose", "machine", "--against", "hand"]),
        ("bakes", &examples.join("harbour-rolls-bakes.miche"), &["--on", "2027-12-01"]),
    ];
    for (command, file, more) in kinds {
        let html = html_of(command, file, more);
        // What is drawn is drawn in HTML alone.
        let mut sheet = String::new();
        for piece in html.split("<svg") {
            sheet.push_str(piece.split_once("</svg>").map_or(piece, |(_, after)| after));
        }
        let printed = Printed::new(command, file, more);
        let text = printed.pages().concat();
        let pdf = tokens(&text);
        let place = format!("{command} {} {more:?}", file.display());
        for token in tokens(&seen(&sheet)).keys() {
            assert!(pdf.contains_key(token), "{place}: {token} is only in the HTML\n{text}");
        }
        assert!(!text.contains('`'), "{place}: {text}");
        assert_eq!(printed.info("Tagged"), "yes", "{place}");
        for ((width, height), [left, top, right, bottom], word) in printed.boxes() {
            assert!(left > 11.0 && right < width - 11.0 && top > 11.0 && bottom < height - 5.0, "{place}: {word}");
        }
    }
}

/// A plan by person is a sheet for what concerns everybody and one for each: nobody reads another's.
#[test]
fn a_plan_by_person_is_a_sheet_each() {
    if !readers() {
        return;
    }
    let more = ["--limit", "20000 steps", "--zone", "UTC", "--by", "person"];
    let printed = Printed::new("plan", &root().join("examples/market-day.miche"), &more);
    let pages = printed.pages();
    let begins = |page: &String| page.lines().find(|line| !line.trim().is_empty()).unwrap_or("").trim().to_owned();
    let first: Vec<String> = pages.iter().map(begins).collect();
    assert!(first.iter().any(|line| line == "Person 1"), "{first:?}");
    // Who has only a few lines to do stands below the one before, on the same page.
    for name in ["Person 1", "Person 2", "Whoever is in reach"] {
        let heads = pages.iter().flat_map(|page| page.lines()).filter(|line| line.trim() == name).count();
        assert_eq!(heads, 1, "{name}: {pages:?}");
    }
    assert!(first[0].starts_with("Plan: "), "{first:?}");
}

/// However long the name of a recipe is, the foot of a filing card says how much is made and when it was printed: the name gives way.
#[test]
fn a_long_name_leaves_the_foot_its_date() {
    if !readers() {
        return;
    }
    let folder = tempfile::tempdir().expect("a folder");
    let file = folder.path().join("rolls.miche");
    for name in
        ["Wholemeal spelt and pumpkin seed sandwich rolls with overnight soaker and heather honey", &"long ".repeat(80)]
    {
        let text = format!("recipe {name}\nmakes 30 rolls\nstrong white flour .... 1 kg\nwater .... 620 g\n");
        std::fs::write(&file, text).expect("written");
        let pages = Printed::new("card", &file, &["--paper", "index"]).pages();
        for page in pages.iter().filter(|page| !page.trim().is_empty()) {
            assert!(page.contains("30 rolls") && page.contains("printed 2027-04-17"), "{page}");
        }
    }
}
