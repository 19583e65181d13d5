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

const SPONGE: &str = "recipe Sponge rolls\nmakes 12 rolls\nmeasures US\nuse \"kit.miche\"\n\n\
    part sponge, from dough\nstrong white flour .... 300 g\nwater .... 300 g\ninstant yeast .... 1 g\n\
    stir: hands 4 min\n    Stir {strong white flour}, {water} and {instant yeast}.\nripen: wait 12 h, at 20 C, up to 15 h\n    until domed\n\n\
    part dough\nstrong white flour .... 1 kg\nwater .... 650 g\nsalt .... 20 g\ninstant yeast .... 6 g\ndivide 12 x 138 g, loss 1.5 %\n\
    mix: hands 12 min, using mixer\n    Mix {sponge}, {strong white flour}, {water}, {salt} and {instant yeast}.\n    until smooth\n\
    rise: wait 60 min, at 25 C, up to 90 min\nshape: hands 40 s, each\nprove: wait 60 min, at 26 C, up to 90 min\n    until a dent stays\n\
    bake: tend 16-18 min, using oven at 220 C\n    until gold\ncool: wait 1 h\n";

fn in_us(text: &str, arguments: &[&str]) -> String {
    let folder = tempfile::tempdir().expect("a folder");
    let kit = "kitchen Small\nmixer x 1, holds 1 kg\noven x 1\nhob x 1\ncooks 2\nscale 1 g\n";
    fs::write(folder.path().join("kit.miche"), kit).expect("written");
    let file = folder.path().join("a.miche");
    fs::write(&file, text).expect("written");
    miche(&[&["card", file.to_str().expect("a plain path"), "--units", "us"], arguments].concat())
}

/// Who measures by the cup puts as much into the bowl as who weighs: cups and spoons beside a weight of the final mix, or of one load, are
/// of that weight. A US cup holds 236.59 ml of water: 350 g are 1.48, 650 g 2.75 cups.
#[test]
fn cups_beside_a_share_of_a_line_are_of_that_share() {
    let page = in_us(SPONGE, &["--pieces", "6", "--format", "markdown"]);
    let water = tables(&page).into_iter().flatten().filter(|row| row[0].starts_with("water")).collect::<Vec<_>>();
    // 325 g in all, 150 g of them in the sponge, 175 g or 0.74 cup in the final mix.
    assert_eq!(water[1][0], "water (¾ cup in the final mix)", "{page}");
    let reader = in_us(SPONGE, &["--for", "reader", "--format", "text"]);
    assert!(reader.contains("1½ cups") && !reader.contains("2¾ cups"), "{reader}");

    let (before, dough) = SPONGE.split_once("part sponge").expect("a sponge");
    let (_, dough) = dough.split_once("part dough").expect("a dough");
    let plain = format!("{before}part dough{}", dough.replace("{sponge}, ", ""));
    let page = in_us(&plain, &["--format", "markdown"]);
    // Two loads of 838 g: 10 g of salt, at 6 g to a teaspoon of 4.93 ml (USDA SR28, 02047) 1.7 teaspoons, and 325 g of water or 1.37 cups.
    assert!(page.contains("1 of 2 loads"), "{page}");
    let all: Vec<Vec<String>> = tables(&page).into_iter().flatten().collect();
    let water = all.iter().find(|row| row[0].starts_with("water")).expect("water");
    assert_eq!(water[0], "water (1⅓ cups a load)", "{page}");
    let salt = all.iter().find(|row| row[0].starts_with("salt")).expect("salt");
    assert_eq!(salt[0], "salt (1¾ tsp a load)", "{page}");
    let json: Value = serde_json::from_str(&in_us(&plain, &["--format", "json"])).expect("JSON");
    let line = &json["parts"][0]["lines"][1];
    assert_eq!((&line["measure"], &line["load_measure"]), (&Value::from("2¾ cups"), &Value::from("1⅓ cups")), "{line}");
}

/// What a station takes of a line has no cups that are of all of it.
#[test]
fn a_station_that_takes_some_of_a_line_measures_no_more() {
    let text = "recipe Crumble\nmakes 6 portions\nmeasures US\nuse \"kit.miche\"\nplain flour .... 300 g\nbutter .... 150 g\ncaster sugar .... 200 g\n\
        apple .... 900 g\nrub: hands 9 min, station bench\n    Rub {butter} into {plain flour} and {150 g of caster sugar}.\n    until sandy\n\
        stew: hands 9 min, using hob, station stove\n    Stew {apple} with {rest of caster sugar}.\n    until soft\n\
        bake: tend 35 min, using oven at 190 C\n    until gold\n";
    let page = in_us(text, &["--by", "station", "--format", "html"]);
    let rows: Vec<&str> = page.split("<tr").filter(|row| row.contains("caster sugar")).collect();
    assert!(!rows.is_empty(), "{page}");
    // 200 g are a cup (USDA SR28, 19335), 150 g are not.
    assert!(rows.iter().all(|row| !row.contains("cup")), "{rows:?}");
}

/// 5 g of jam, 2 g of nori and 0.4 g of salt on each of 12: 0.18, 0.07 and 0.014 oz, which no scale of a home shows.
///
/// A teaspoon of 4.93 ml holds 6.7 g of jam (USDA SR28, NDB 19297: 20 g to a tablespoon), so 5 g are ¾ of one; 0.4 g of salt (6 g to a
/// teaspoon, NDB 02047) are less than an eighth.
#[test]
fn what_goes_on_each_piece_is_told_by_the_spoon() {
    let dots = "recipe Jam dots\nmakes 12 dots\n\npart dough\nflour .... 300 g\nbutter .... 200 g\nsugar .... 100 g\ndivide 12 x 50 g\n\
                mix: hands 5 min\n    Mix {flour}, {butter} and {sugar}.\n    until even\n\npart dots\nper piece\ndough .... 1 piece\n\
                apricot jam .... 5 g\nnori dust .... 2 g\nsalt .... 0.4 g\ndot: hands 10 s, each\n    \
                Dot {dough} with {apricot jam}, {nori dust} and {salt}.\nbake: tend 12 min, using oven at 180 C\n    until gold\n";
    let page = in_us(dots, &["--for", "reader"]);
    let dot = page.lines().find(|line| line.contains("Dot dough")).unwrap_or_default();
    assert!(dot.contains("apricot jam (¾ tsp each)") && dot.contains("salt (a pinch each)"), "{page}");
    assert!(dot.contains("nori dust (0.07 oz each)"), "what no larder knows by the spoon has its weight: {page}");
}
