//! Markdown cards read back by a CommonMark reader: every table cell against the JSON.

// Helpers outside a test function fail a test by panicking, as the tests do.
#![allow(clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use pulldown_cmark::{Event, Options, Parser, Tag, TagEnd};
use serde_json::Value;
use std::fs;
use std::path::Path;
use std::process::Command;

fn miche(arguments: &[&str]) -> String {
    let output = Command::new(env!("CARGO_BIN_EXE_miche")).args(arguments).output().expect("the program starts");
    assert!(output.status.success(), "{arguments:?}: {}", String::from_utf8_lossy(&output.stderr));
    String::from_utf8(output.stdout).expect("UTF-8")
}

/// The tables of a text: rows of cells, the head first.
fn tables(markdown: &str) -> Vec<Vec<Vec<String>>> {
    let mut tables: Vec<Vec<Vec<String>>> = Vec::new();
    let mut cell: Option<String> = None;
    for event in Parser::new_ext(markdown, Options::ENABLE_TABLES) {
        match event {
            Event::Start(Tag::Table(_)) => tables.push(Vec::new()),
            Event::Start(Tag::TableHead | Tag::TableRow) => {
                if let Some(table) = tables.last_mut() {
                    table.push(Vec::new());
                }
            }
            Event::Start(Tag::TableCell) => cell = Some(String::new()),
            Event::End(TagEnd::TableCell) => {
                if let (Some(row), Some(cell)) = (tables.last_mut().and_then(|table| table.last_mut()), cell.take()) {
                    row.push(cell);
                }
            }
            Event::Text(text) | Event::Code(text) => {
                if let Some(cell) = &mut cell {
                    cell.push_str(&text);
                }
            }
            Event::Html(html) | Event::InlineHtml(html) => panic!("raw HTML reached the Markdown: {html}"),
            _ => {}
        }
    }
    tables
}

fn check(path: &Path) {
    let file = path.to_str().expect("a plain path");
    let json: Value = serde_json::from_str(&miche(&["card", file, "--format", "json"])).expect("JSON");
    let cards = json.as_array().cloned().unwrap_or_else(|| vec![json.clone()]);
    let markdown = miche(&["card", file, "--format", "markdown"]);
    let mut tables = tables(&markdown).into_iter().filter(|table| table[0][0] == "ingredient");
    let parts_of = |card: &'_ Value| card["parts"].as_array().cloned().expect("parts");
    for (card, part) in cards.iter().flat_map(|card| parts_of(card).into_iter().map(move |part| (card, part))) {
        let lines = part["lines"].as_array().expect("lines");
        if lines.is_empty() {
            continue;
        }
        let table = tables.next().unwrap_or_else(|| panic!("{file}: no table for {}", part["name"]));
        let column = |name: &str| table[0].iter().position(|head| head == name);
        let percents = table[0].iter().position(|head| head.starts_with('%'));
        // What is taken out of it stands among its lines, where it goes in.
        let mut taken_out = parts_of(card);
        taken_out.retain(|other| other["from"] == part["name"]);
        let is_taken_out = |row: &&Vec<String>| taken_out.iter().any(|other| other["name"] == row[0].as_str());
        let own = table[1..].iter().filter(is_taken_out).count();
        assert_eq!(own, taken_out.len(), "{file}: a row for each of {taken_out:?}");
        for (row, line) in table[1..].iter().filter(|row| !is_taken_out(row)).zip(lines) {
            let text = |key: &str| line[key].as_str().unwrap_or_default().to_owned();
            assert!(row[0].starts_with(&text("ingredient")), "{file}: {row:?} is not {line}");
            let amount = column("weigh").or(column("in all")).expect("there is an amount");
            assert_eq!(row[amount], text("shown"), "{file}");
            if let Some(at) = column("final mix") {
                assert_eq!(row[at], text("final_mix_shown"), "{file}");
            }
            if let Some(at) = column("scale shows") {
                assert_eq!(row[at], text("running_shown"), "{file}");
            }
            if let (Some(at), Some(percent)) = (percents, line["percent"].as_f64()) {
                let printed: f64 = row[at].parse().unwrap_or_else(|_| panic!("{file}: {row:?}"));
                assert!((printed - percent).abs() < 0.0051, "{file}: {printed} is not {percent}");
            }
        }
        assert!(table.len() > lines.len() + own, "{file}: a line is missing");
    }
    assert!(tables.next().is_none(), "{file}: a table too many");
}

#[test]
fn every_cell_of_the_examples_is_that_of_the_json() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("examples");
    let mut count = 0;
    for entry in fs::read_dir(folder).expect("there are examples") {
        let path = entry.expect("readable").path();
        let text = fs::read_to_string(&path).unwrap_or_default();
        if text.lines().any(|line| line.starts_with("recipe ") || line.starts_with("day ")) {
            check(&path);
            count += 1;
        }
    }
    assert!(count > 8, "only {count} examples");
}

#[test]
fn a_hostile_recipe_stays_in_its_cells() {
    check(&Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/cards/hostile.miche"));
}

/// A recipe cannot put a link to a script, or a picture, into the Markdown.
#[test]
fn links_in_markdown_are_harmless() {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/cards/hostile.miche");
    let markdown = miche(&["card", path.to_str().expect("plain"), "--format", "markdown"]);
    let mut links = 0;
    for event in Parser::new_ext(&markdown, Options::ENABLE_TABLES) {
        match event {
            Event::Start(Tag::Link { dest_url, .. }) => {
                assert!(dest_url.starts_with("https://example.org/"), "{dest_url}");
                links += 1;
            }
            Event::Start(Tag::Image { dest_url, .. }) => panic!("a picture: {dest_url}"),
            _ => {}
        }
    }
    assert_eq!(links, 1);
}

/// In a spreadsheet no cell that a recipe wrote is taken for a formula.
#[test]
fn the_list_for_a_spreadsheet_is_harmless() {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/cards/hostile.miche");
    let csv = miche(&["list", path.to_str().expect("plain"), "--format", "csv"]);
    assert!(csv.contains("'+cmd") && csv.contains("'-2+3 flour") && csv.contains("'@SUM(A1) salt"), "{csv}");
    for cell in csv.split([',', '\n']).map(|cell| cell.trim_start_matches('"')) {
        assert!(!cell.starts_with(['=', '+', '-', '@']), "{cell}");
    }
}

/// What is marked is marked: a star that CommonMark takes for a star is one that somebody wrote, and the examples write none.
#[test]
fn no_mark_is_left_as_a_star() {
    for entry in fs::read_dir(Path::new(env!("CARGO_MANIFEST_DIR")).join("examples")).expect("examples") {
        let path = entry.expect("an entry").path();
        if !fs::read_to_string(&path).unwrap_or_default().lines().any(|line| line.starts_with("recipe ")) {
            continue;
        }
        let file = path.to_str().expect("plain");
        for arguments in [&["card", file][..], &["card", file, "--for", "reader"], &["label", file], &["sums", file]] {
            let markdown = miche(&[arguments, &["--format", "markdown"]].concat());
            for event in Parser::new_ext(&markdown, Options::ENABLE_TABLES) {
                let Event::Text(text) = event else { continue };
                assert!(!text.contains('*'), "{arguments:?}: {text}");
            }
        }
    }
}
