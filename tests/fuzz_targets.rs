//! The fuzz targets of `tests/fuzz`, run by themselves: over every text that a fuzzer begins with, over what was found once, and
//! over such texts with lines changed by chance. So they build, and hold, without a nightly compiler.
//!
//! `MICHE_FUZZ_CHANGES` says how many changed texts each target is given; `tests/fuzz/run.sh` goes on for hours.

// Helpers outside a test function fail a test by panicking, as the tests do.
#![allow(clippy::expect_used, clippy::indexing_slicing)]

#[path = "fuzz/src/lib.rs"]
mod fuzz;

use std::path::{Path, PathBuf};

/// Longer texts are left to the fuzzers: nothing is optimised here.
const LONGEST: usize = 3_000;

fn collect(folder: &Path, texts: &mut Vec<(PathBuf, String)>) {
    for entry in std::fs::read_dir(folder).expect("a folder") {
        let path = entry.expect("an entry").path();
        if path.is_dir() && !path.is_symlink() {
            collect(&path, texts);
        } else if path.extension().is_some_and(|ending| ending == "miche") {
            let text = std::fs::read_to_string(&path).ok().filter(|text| text.len() < LONGEST);
            texts.extend(text.map(|text| (path, text)));
        }
    }
}

/// Every how manieth text a target that does much with each is given, besides all that were found once.
fn run(target: fn(&str), every: usize) {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let mut texts = Vec::new();
    for folder in ["examples", "tests/right", "tests/wrong"] {
        collect(&root.join(folder), &mut texts);
    }
    texts.sort();
    let mut texts: Vec<_> = texts.into_iter().step_by(every).collect();
    assert!(texts.len() > 8, "{} texts", texts.len());
    collect(&root.join("tests/hostile/found"), &mut texts);
    for (_, text) in &texts {
        target(text);
    }
    let count = std::env::var("MICHE_FUZZ_CHANGES").ok().and_then(|count| count.parse().ok()).unwrap_or(12);
    for seed in 0..count {
        let (_, text) = &texts[seed as usize * 7 % texts.len()];
        let mut bytes = text.clone().into_bytes();
        bytes.resize(2 * LONGEST, b' ');
        let most = bytes.len();
        let length = fuzz::mutate_lines(&mut bytes, text.len(), most, seed);
        target(std::str::from_utf8(&bytes[..length]).expect("lines of a text are text"));
    }
}

#[test]
fn parse() {
    run(fuzz::targets::parse::run, 1);
}

#[test]
fn tidy() {
    run(fuzz::targets::tidy::run, 3);
}

#[test]
fn formula() {
    run(fuzz::targets::formula::run, 12);
}

#[test]
fn cards() {
    run(fuzz::targets::cards::run, 4);
}

#[test]
fn larder() {
    run(fuzz::targets::larder::run, 24);
}

#[test]
fn day() {
    run(fuzz::targets::day::run, 4);
}

#[test]
fn bakes() {
    run(fuzz::targets::bakes::run, 24);
}

#[test]
fn aims() {
    run(fuzz::targets::aims::run, 16);
}

#[test]
fn editor() {
    run(fuzz::targets::editor::run, 8);
}

#[test]
fn book() {
    run(fuzz::targets::book::run, 6);
}

#[test]
fn published() {
    run(fuzz::targets::published::run, 4);
}

/// Each target of the folder is one that is run here, and one that `cargo fuzz` builds.
#[test]
fn no_target_is_left_out() {
    let here = include_str!("fuzz_targets.rs");
    let manifest = include_str!("fuzz/Cargo.toml");
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/fuzz/src/targets");
    for entry in std::fs::read_dir(folder).expect("targets") {
        let path = entry.expect("an entry").path();
        let name = path.file_stem().expect("a name").to_string_lossy().into_owned();
        if name == "mod" {
            continue;
        }
        assert!(here.contains(&format!("fuzz::targets::{name}::run")), "{name} is not run");
        assert!(manifest.contains(&format!("path = \"targets/{name}.rs\"")), "{name} is not built");
    }
}
