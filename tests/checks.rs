//! Every check keeps what its file promises: its bad example raises it, its good example raises nothing, it explains
//! itself, and no problem goes by a name that is not registered.

#![allow(clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use miche::check::{self, ALL, Check, check_file};
use miche::edge::loader::Loader;
use miche::text::diagnostic::Diagnostic;
use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};

/// Checks an example in a folder of its own, with the files that stand below it.
fn problems_of(example: &str) -> Vec<Diagnostic> {
    let folder = tempfile::tempdir().expect("a folder");
    let files = check::example_files(example);
    for (name, text) in &files {
        fs::write(folder.path().join(name), text).expect("a file");
    }
    let mut loader = Loader::new();
    let source = loader.load(&folder.path().join(&files[0].0)).expect("it was just written");
    check_file(&loader.into_project(), source)
}

/// The checks that `check` runs; what only a plan finds is tried in `plan_command.rs`.
fn checked() -> impl Iterator<Item = &'static check::Check> {
    ALL.iter().copied().filter(|check| !matches!(check.run, check::Run::Planning))
}

fn told(problems: &[Diagnostic]) -> String {
    problems.iter().map(|problem| format!("  {}: {}\n", problem.check, problem.message)).collect()
}

#[test]
fn bad_examples_raise_their_check_and_nothing_else() {
    let mut faults = String::new();
    for check in checked() {
        let problems = problems_of(check.bad);
        let own: Vec<&Diagnostic> = problems.iter().filter(|problem| problem.check == check.name).collect();
        if own.is_empty() {
            faults += &format!("{} is not raised by its bad example:\n{}", check.name, told(&problems));
        } else if own.len() != problems.len() {
            faults += &format!("{} brings others with it:\n{}", check.name, told(&problems));
        }
    }
    assert!(faults.is_empty(), "{faults}");
}

#[test]
fn good_examples_raise_nothing() {
    let mut faults = String::new();
    for check in ALL {
        let problems = problems_of(check.good);
        if !problems.is_empty() {
            faults += &format!("the good example of {} is not clean:\n{}", check.name, told(&problems));
        }
    }
    assert!(faults.is_empty(), "{faults}");
}

#[test]
fn severity_of_the_example_is_the_one_that_is_listed() {
    for check in checked() {
        let worst =
            problems_of(check.bad).iter().filter(|problem| problem.check == check.name).map(|p| p.severity).min();
        // Where a home kitchen is only assumed, a warning becomes advice.
        let milder = check.family == check::Family::Kitchen;
        assert!(
            worst == Some(check.severity) || (milder && worst > Some(check.severity)),
            "{}: listed as {:?}, found as {worst:?}",
            check.name,
            check.severity
        );
    }
}

#[test]
fn names_are_plain_words_and_stand_once() {
    let mut seen = BTreeSet::new();
    for check in ALL {
        assert!(seen.insert(check.name), "{} stands twice", check.name);
        assert!(check.name.chars().all(|c| c.is_ascii_lowercase() || c == '-' || c.is_ascii_digit()), "{}", check.name);
        assert!(check::find(check.name).is_some());
    }
}

#[test]
fn every_check_explains_itself() {
    for Check { name, looks_for, why, .. } in ALL {
        assert!(looks_for.len() > 20, "{name} does not say what it looks for");
        assert!(why.len() > 60 && why.trim_end().ends_with(['.', ')']), "{name} does not say why");
        assert!(!looks_for.ends_with('.'), "{name}: a full stop is added behind what it looks for");
    }
}

#[test]
fn each_check_has_a_file_that_opens_with_its_name() {
    let folder = source_folder().join("check");
    let mut files: Vec<PathBuf> = rust_files(&folder);
    files.retain(|path| fs::read_to_string(path).is_ok_and(|text| text.contains("const CHECK: Check")));
    assert_eq!(files.len(), ALL.len(), "files and registered checks");
    for path in files {
        let text = fs::read_to_string(&path).expect("readable");
        let name = path.file_stem().expect("a name").to_string_lossy().replace('_', "-");
        assert!(text.starts_with(&format!("//! `{name}`: ")), "{} does not open with its name", path.display());
        assert!(check::find(&name).is_some(), "{name} is not registered");
    }
}

/// The names in `Diagnostic::error("…")` and its like, anywhere in the program.
#[test]
fn every_name_that_is_reported_is_registered() {
    let mut unknown = Vec::new();
    let mut found = 0;
    for path in rust_files(&source_folder()) {
        let text = fs::read_to_string(&path).expect("readable");
        for maker in ["Diagnostic::error(", "Diagnostic::warning(", "Diagnostic::advice("] {
            for (at, _) in text.match_indices(maker) {
                let argument = text[at + maker.len()..].trim_start();
                let Some(name) = argument.strip_prefix('"').and_then(|rest| rest.split('"').next()) else { continue };
                found += 1;
                if check::find(name).is_none() {
                    unknown.push(format!("{}: {name}", path.display()));
                }
            }
        }
    }
    assert!(found > 50, "only {found} found: has the form of the calls changed?");
    assert!(unknown.is_empty(), "{unknown:#?}");
}

/// The page of checks says what the program says. To write it anew: `UPDATE=1 cargo test --test checks`.
#[test]
fn the_page_of_checks_is_current() {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("grammar/CHECKS.md");
    let page = check::explain::page();
    if std::env::var_os("UPDATE").is_some() {
        fs::write(&path, &page).expect("the page is written");
    }
    let written = fs::read_to_string(&path).unwrap_or_default();
    assert!(written == page, "grammar/CHECKS.md is not current: run `UPDATE=1 cargo test --test checks`");
    assert!(ALL.iter().all(|check| page.contains(&format!("\n### {}\n", check.name))));
}

fn source_folder() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("src")
}

fn rust_files(folder: &Path) -> Vec<PathBuf> {
    let mut files = Vec::new();
    for entry in fs::read_dir(folder).expect("a folder") {
        let path = entry.expect("an entry").path();
        if path.is_dir() {
            files.extend(rust_files(&path));
        } else if path.extension().is_some_and(|ending| ending == "rs") {
            files.push(path);
        }
    }
    files.sort();
    files
}
