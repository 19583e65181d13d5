//! Each example's label beside the checklists of both laws: everything that is asked for stands there, or the page says that it is not said.
//!
//! European Union: Regulation (EU) 1169/2011, Article 9(1), (a) to (l), and the lot of Directive 2011/91/EU. United States: 21 CFR 101.3,
//! 101.4, 101.5, 101.7 and 101.9 with 21 USC 343(w). Which examples are what by their nature stands in the tables here, and what a
//! label shows is read from the label itself and from the example's own text.

#![allow(clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

#[path = "examples/copy.rs"]
mod copy;

use serde_json::Value;
use std::collections::BTreeMap;
use std::fs;
use std::path::Path;
use std::process::Command;

const EU: [&str; 13] = [
    "Article 9(1)(a)",
    "Article 9(1)(b)",
    "Article 9(1)(c)",
    "Article 9(1)(d)",
    "Article 9(1)(e)",
    "Article 9(1)(f)",
    "Article 9(1)(g)",
    "Article 9(1)(h)",
    "Article 9(1)(i)",
    "Article 9(1)(j)",
    "Article 9(1)(k)",
    "Article 9(1)(l)",
    "Directive 2011/91/EU",
];

const US: [&str; 10] = [
    "21 CFR 101.3",
    "21 CFR 101.7",
    "21 CFR 101.4",
    "21 USC 343(w)",
    "21 CFR 101.9(b)",
    "21 CFR 101.9(c)",
    "21 CFR 101.5",
    "FDA, 62 FR 8248",
    "19 USC 1304",
    "common practice",
];

/// What the rows are called that are not asked of every food, and of which examples the law asks them.
const WITHOUT_ALLERGENS: [&str; 1] = ["Breakwater gluten-free loaf"];
/// Celery is one of Annex II and none of 21 USC 321(qq).
const WITHOUT_ALLERGENS_IN_THE_US: [&str; 2] = ["Breakwater gluten-free loaf", "Yellow pea pot"];
const RAW: [&str; 1] = ["Mother dough"];

fn run(folder: &Path, arguments: &[&str]) -> String {
    let output =
        Command::new(env!("CARGO_BIN_EXE_miche")).args(arguments).current_dir(folder).output().expect("it runs");
    assert!(output.status.success(), "{arguments:?}: {}", String::from_utf8_lossy(&output.stderr));
    String::from_utf8(output.stdout).expect("UTF-8")
}

fn labels(folder: &Path, file: &str, more: &[&str]) -> Vec<Value> {
    let text = run(folder, &[&["label", file, "--format", "json"], more].concat());
    let all: Value = serde_json::from_str(&text).expect("JSON");
    all["labels"].as_array().expect("labels").clone()
}

/// The examples that have a label, with what their text says of it: recipes and days.
fn examples(folder: &Path) -> Vec<String> {
    let mut files: Vec<String> = fs::read_dir(folder)
        .expect("examples")
        .map(|entry| entry.expect("a file").path())
        .filter(|path| {
            let text = fs::read_to_string(path).unwrap_or_default();
            text.lines().any(|line| line.starts_with("recipe ") || line.starts_with("day "))
        })
        .map(|path| path.file_name().expect("a name").to_string_lossy().into_owned())
        .filter(|name| name.ends_with(".miche"))
        .collect();
    files.sort();
    assert!(files.len() >= 17, "{files:?}");
    files
}

/// Words of HTML without its marks and with its letters.
fn plain(html: &str) -> String {
    let mut text = String::new();
    let mut is_inside = false;
    for c in html.chars() {
        match c {
            '<' => is_inside = true,
            '>' => is_inside = false,
            c if !is_inside => text.push(c),
            _ => {}
        }
    }
    text.replace("&amp;", "&").replace("&lt;", "<").replace("&gt;", ">").replace("&#39;", "'").replace("&quot;", "\"")
}

#[test]
fn every_example_answers_both_checklists() {
    let folder = tempfile::tempdir().expect("a folder");
    copy::into(folder.path());
    let mut wrong: Vec<String> = Vec::new();
    let mut seen: BTreeMap<(String, String), usize> = BTreeMap::new();
    for file in examples(folder.path()) {
        let is_day = fs::read_to_string(folder.path().join(&file)).expect("text").contains("\nday ");
        for (law, rules) in [("eu", &EU[..]), ("us", &US[..])] {
            let made: &[&str] = if is_day { &[] } else { &["--made", "2027-03-30"] };
            let with = |more: &[&'static str]| [&["--law", law][..], made, more].concat();
            let page = run(folder.path(), &[&["label", &file, "--format", "text"], &with(&[])[..]].concat());
            let page: String = page.split_whitespace().collect::<Vec<_>>().join(" ");
            let sheet = format!("{law}.html");
            // The nutrition facts of the United States take more room: 8 points and more.
            let size = if law == "us" { "2 x 1" } else { "2 x 2" };
            let paper = ["label", &file, "--sheet", size, "--copies", "1", "-o", &sheet];
            run(folder.path(), &[&paper[..], &with(&[])].concat());
            let sheet = plain(&fs::read_to_string(folder.path().join(sheet)).expect("a sheet"));
            let sheet: String = sheet.split_whitespace().collect::<Vec<_>>().join(" ");
            for label in labels(folder.path(), &file, &with(&[])) {
                let name = label["recipe"].as_str().expect("a name").to_owned();
                let asked = label["asked"].as_array().expect("a checklist");
                let found: Vec<&str> = asked.iter().filter_map(|one| one["rule"].as_str()).collect();
                assert_eq!(found, rules, "{file}, {name}");
                for one in asked {
                    let rule = one["rule"].as_str().expect("a rule");
                    let words = one["words"].as_str().expect("words");
                    let standing = one["standing"].as_str().expect("a standing");
                    *seen.entry((rule.to_owned(), standing.to_owned())).or_default() += 1;
                    let mut fault = |what: &str| wrong.push(format!("{file}, {law}, {name}, {rule}: {what}: {words}"));
                    match standing {
                        "on_label" => {
                            // Rows of the table are told by their names, the others stand word for word.
                            let parts: Vec<&str> = match rule {
                                "Article 9(1)(l)" | "21 CFR 101.9(c)" | "Article 9(1)(c)" | "21 USC 343(w)" => {
                                    words.split(", ").collect()
                                }
                                "Article 9(1)(d)" => words.split(", ").collect(),
                                "Directive 2011/91/EU" => Vec::new(),
                                "21 CFR 101.9(b)" => words.trim_end_matches('.').split(". Serving size: ").collect(),
                                _ => vec![words],
                            };
                            for part in parts {
                                // Blanks are where cells end, and tell nothing.
                                let squeezed =
                                    |text: &str| -> String { text.to_lowercase().split_whitespace().collect() };
                                let has = |text: &str| squeezed(text).contains(&squeezed(part));
                                // Added sugars stand in a row that begins with the amount.
                                let is_added = part == "added sugars" && sheet.contains("Added Sugars");
                                if !has(&sheet) && !is_added {
                                    fault(&format!("`{part}` is not on the label to stick on"));
                                }
                                if !has(&page) {
                                    fault(&format!("`{part}` is not on the page"));
                                }
                            }
                        }
                        // An example shows what is done: it says all that its law asks of it.
                        "not_said" => fault("the example does not say it"),
                        "not_asked" => {
                            let may_be_silent = match rule {
                                "Article 9(1)(c)" => WITHOUT_ALLERGENS.contains(&name.as_str()),
                                "21 USC 343(w)" => WITHOUT_ALLERGENS_IN_THE_US.contains(&name.as_str()),
                                "Article 9(1)(j)" | "common practice" => !RAW.contains(&name.as_str()),
                                "Article 9(1)(d)" | "Article 9(1)(g)" | "FDA, 62 FR 8248" | "Article 9(1)(i)"
                                | "Article 9(1)(k)" | "19 USC 1304" => true,
                                _ => false,
                            };
                            if !may_be_silent {
                                fault("the law asks this of every food");
                            }
                        }
                        other => panic!("{other}"),
                    }
                }
            }
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
    // The test looks at labels, and not at nothing.
    assert!(seen[&("Article 9(1)(b)".to_owned(), "on_label".to_owned())] >= 30, "{seen:?}");
}
