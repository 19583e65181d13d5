//! Seeded defects: right recipes are broken mechanically, and it is counted how many of the defects the checks find.
//!
//! The recipes are those of `examples/`, which draw no word when they are whole. A defect counts as found when anything at
//! all is said of the broken file. Nothing is left out: a deleted note or a rest of 45 instead of 54 minutes is a defect
//! that no program can know to be one, and it counts as missed. `cargo test --test seeded -- --nocapture` prints the table.

#![allow(clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use miche::check::check_file;
use miche::edge::loader::{Loader, find_files};
use std::fs;
use std::path::{Path, PathBuf};

/// Defects of each kind.
const EACH: usize = 200;

/// The share that must be found, in percent, over all kinds. Lower it only with a reason.
const FLOOR: usize = 75;

/// A small generator with a fixed seed, so that every run breaks the same places: splitmix64 (S. Vigna, public domain).
struct Dice(u64);

impl Dice {
    fn below(&mut self, limit: usize) -> usize {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        ((z ^ (z >> 31)) % limit as u64) as usize
    }
}

struct Recipe {
    path: PathBuf,
    text: String,
}

fn recipes() -> Vec<Recipe> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("examples");
    let files = find_files(&folder).expect("examples");
    let read = files.into_iter().map(|path| Recipe { text: fs::read_to_string(&path).expect("UTF-8"), path });
    read.filter(|recipe| recipe.text.lines().any(|line| line.starts_with("recipe "))).collect()
}

fn is_found(recipe: &Recipe, broken: &str) -> bool {
    let mut loader = Loader::new();
    let source = loader.take_text("broken.miche", broken.to_owned(), &recipe.path);
    !check_file(&loader.into_project(), source).is_empty()
}

/// A way to break a recipe: all the texts that come of it.
type Breaking = fn(&str) -> Vec<String>;

const KINDS: &[(&str, Breaking)] = &[
    ("a line deleted", delete_line),
    ("a unit changed", change_unit),
    ("two digits swapped", swap_digits),
    ("a use dropped", drop_use),
    ("a percentage altered", alter_percent),
];

/// Every line but blank ones, comments, notes and credits.
fn delete_line(text: &str) -> Vec<String> {
    let lines: Vec<&str> = text.lines().collect();
    let says = |line: &str| {
        let line = line.trim();
        !(line.is_empty() || ["#", "note", "credit"].iter().any(|word| line.starts_with(word)))
    };
    let kept = (0..lines.len()).filter(|at| says(lines[*at]));
    kept.map(|at| {
        lines.iter().enumerate().filter(|(other, _)| *other != at).map(|(_, line)| format!("{line}\n")).collect()
    })
    .collect()
}

fn change_unit(text: &str) -> Vec<String> {
    let pairs = [
        (" g", " kg"),
        (" kg", " g"),
        (" ml", " l"),
        (" l", " ml"),
        (" min", " h"),
        (" h", " min"),
        (" C", " F"),
        (" %", " g"),
        (" cm", " mm"),
    ];
    let mut all = Vec::new();
    for (from, to) in pairs {
        for (at, _) in text.match_indices(from) {
            let (before, behind) = (&text[..at], &text[at + from.len()..]);
            let is_unit = before.ends_with(|c: char| c.is_ascii_digit()) && !behind.starts_with(char::is_alphanumeric);
            if is_unit && !in_note(text, at) {
                all.push(format!("{before}{to}{behind}"));
            }
        }
    }
    all
}

fn swap_digits(text: &str) -> Vec<String> {
    let bytes = text.as_bytes();
    let mut all = Vec::new();
    for at in 0..bytes.len().saturating_sub(1) {
        let (one, other) = (bytes[at], bytes[at + 1]);
        if one.is_ascii_digit() && other.is_ascii_digit() && one != other && !in_note(text, at) {
            all.push(format!("{}{}{}{}", &text[..at], char::from(other), char::from(one), &text[at + 2..]));
        }
    }
    all
}

fn drop_use(text: &str) -> Vec<String> {
    let mut all = Vec::new();
    for (at, _) in text.match_indices('{') {
        let Some(length) = text[at..].find('}') else { continue };
        let inside = &text[at + 1..at + length];
        // A fixed measure is no use.
        if !inside.starts_with(|c: char| c.is_ascii_digit()) || inside.contains(" of ") {
            all.push(format!("{}{inside}{}", &text[..at], &text[at + length + 1..]));
        }
    }
    all
}

/// Ten per cent more, half and ten times as much.
fn alter_percent(text: &str) -> Vec<String> {
    let mut all = Vec::new();
    for (end, _) in text.match_indices(" %") {
        let start = text[..end].rfind(|c: char| !c.is_ascii_digit() && c != '.').map_or(0, |at| at + 1);
        let Ok(value) = text[start..end].parse::<f64>() else { continue };
        if in_note(text, start) {
            continue;
        }
        for factor in [1.1, 0.5, 10.0] {
            let altered = (value * factor * 1000.0).round() / 1000.0;
            all.push(format!("{}{altered}{}", &text[..start], &text[end..]));
        }
    }
    all
}

/// Whether a place lies in a comment or a note, which no check reads.
fn in_note(text: &str, at: usize) -> bool {
    let start = text[..at].rfind('\n').map_or(0, |line| line + 1);
    let line = &text[start..];
    ["#", "note", "credit", "caution"].iter().any(|word| line.trim_start().starts_with(word))
        || text[start..at].contains("# ")
}

#[test]
fn most_defects_are_found() {
    let recipes = recipes();
    assert!(recipes.len() >= 10);
    for recipe in &recipes {
        assert!(!is_found(recipe, &recipe.text), "{} is not whole", recipe.path.display());
    }
    let mut dice = Dice(20_261_125);
    let (mut found, mut made) = (0, 0);
    let mut missed = Vec::new();
    for (kind, breaking) in KINDS {
        let all: Vec<(&Recipe, String)> = recipes
            .iter()
            .flat_map(|recipe| breaking(&recipe.text).into_iter().map(move |text| (recipe, text)))
            .collect();
        assert!(all.len() >= EACH / 2, "{kind}: only {} places", all.len());
        let mut found_here = 0;
        for _ in 0..EACH {
            let (recipe, broken) = &all[dice.below(all.len())];
            if is_found(recipe, broken) {
                found_here += 1;
            } else {
                missed.push((*kind, difference(&recipe.text, broken)));
            }
        }
        println!("{kind:24} {found_here:3} of {EACH} found ({} %)", found_here * 100 / EACH);
        found += found_here;
        made += EACH;
    }
    println!("{:24} {found:3} of {made} found ({} %)", "all", found * 100 / made);
    if std::env::var_os("MISSED").is_some() {
        for (kind, what) in &missed {
            println!("missed, {kind}: {what}");
        }
    }
    assert!(found * 100 >= made * FLOOR, "{found} of {made} found");
}

/// The first line that differs.
fn difference(whole: &str, broken: &str) -> String {
    let differ = whole.lines().zip(broken.lines()).find(|(one, other)| one != other);
    differ.map_or_else(String::new, |(one, other)| format!("{} → {}", one.trim(), other.trim()))
}
