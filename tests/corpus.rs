//! Files with one defect each, with what is said of them; and files in which there is nothing to find.
//!
//! A snapshot shows the source and the rendering together, so that it can be read alone. After a change of a message:
//! `INSTA_UPDATE=always cargo test --test corpus`, and read the difference.

#![allow(clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use miche::check::{check_file, find};
use miche::edge::loader::{Loader, find_files};
use miche::model::project::Project;
use miche::out::report::terminal;
use miche::text::diagnostic::Diagnostic;
use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};

fn folder(name: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join(name)
}

fn check(path: &Path) -> (Project, Vec<Diagnostic>) {
    let mut loader = Loader::new();
    let text = fs::read_to_string(path).expect("UTF-8");
    let name = path.file_name().expect("a name").to_string_lossy().into_owned();
    let source = loader.take_text(&name, text, path);
    let project = loader.into_project();
    let problems = check_file(&project, source);
    (project, problems)
}

fn rendered(project: &Project, problems: &[Diagnostic]) -> String {
    let texts = problems.iter().map(|problem| terminal::render(&project.sources, problem, false, 120));
    texts.collect::<Vec<String>>().join("\n")
}

#[test]
fn wrong() {
    insta::glob!("wrong/*.miche", |path| {
        let text = fs::read_to_string(path).expect("UTF-8");
        let (project, problems) = check(path);
        // Characters that cannot be seen are written out, so that the snapshot can be read.
        let source: String = text
            .chars()
            .flat_map(|c| {
                if c.is_ascii_graphic() || c.is_alphanumeric() || " \n".contains(c) {
                    vec![c]
                } else {
                    c.escape_unicode().collect()
                }
            })
            .collect();
        let shown = format!("{source}\n{}\n{}", "─".repeat(40), rendered(&project, &problems));
        insta::with_settings!({ omit_expression => true, prepend_module_to_snapshot => false, snapshot_path => "snapshots/wrong" }, {
            insta::assert_snapshot!(shown);
        });
    });
}

/// The name of a wrong file begins with the check that must find its defect, and nothing else may cry wolf: what else is
/// found must be the same slip seen from the other side.
#[test]
fn wrong_files_are_found_by_the_check_they_are_named_after() {
    let files = find_files(&folder("tests/wrong")).expect("files");
    assert!(files.len() >= 150, "{} wrong files", files.len());
    let mut missed = Vec::new();
    let mut used = BTreeSet::new();
    for path in &files {
        let (_, problems) = check(path);
        let name = path.file_stem().expect("a name").to_string_lossy().into_owned();
        match problems.iter().find(|problem| name.starts_with(problem.check)) {
            Some(problem) => {
                used.insert(problem.check);
            }
            None => missed.push(name.clone()),
        }
        let kinds: BTreeSet<&str> = problems.iter().map(|problem| problem.check).collect();
        if kinds.len() > 2 {
            missed.push(format!("{name} is told more than it has wrong: {kinds:?}"));
        }
        assert!(problems.iter().all(|problem| find(problem.check).is_some()));
    }
    assert!(missed.is_empty(), "{missed:#?}");
    // The corpus goes through nearly all checks; the rest need several files and have their examples. What only a plan
    // finds is tried in `plan_command.rs`.
    let checked = miche::check::ALL.iter().filter(|check| !matches!(check.run, miche::check::Run::Command(_)));
    let without: Vec<&str> = checked.map(|check| check.name).filter(|name| !used.contains(name)).collect();
    assert_eq!(without, ["broken-use", "use-ring", "too-big-a-load"]);
}

#[test]
fn right_files_draw_no_word() {
    let mut files = find_files(&folder("tests/right")).expect("files");
    assert!(files.len() >= 30, "{} right files", files.len());
    files.extend(find_files(&folder("examples")).expect("files"));
    let mut said = String::new();
    for path in &files {
        let (project, problems) = check(path);
        said += &rendered(&project, &problems);
    }
    assert!(said.is_empty(), "{said}");
}
