//! A folder of more files than are held as trees at once: what is said of them is what is said of all together.

use miche::check::check_files;
use miche::edge::loader::{Loader, find_files};
use miche::out::report;
use miche::text::diagnostic::Diagnostic;
use miche::text::source::SourceId;
use std::fs;
use std::path::Path;
use std::process::Command;

/// Beyond what `check` looks at in two goes.
const FILES: usize = 1100;

/// Every third recipe draws on another that stands before it or behind it in the folder, one of thirteen has a line that cannot be
/// read, and some use each other in a ring.
fn recipe(number: usize) -> String {
    let (third, last) = (number / 3, (FILES - 1) / 3);
    let in_ring = third % 7 == 0 || (last - third) % 7 == 0;
    let other = if in_ring { (last - third) * 3 } else { (number * 389 + 17) % FILES };
    let (uses, line) = match number % 3 {
        0 => (format!("use \"r{other:04}.miche\"\n"), format!("r{other:04} .... 100 g\n")),
        _ => (String::new(), String::new()),
    };
    let stray = if number % 13 == 5 { "what is this\n" } else { "" };
    format!(
        "recipe r{number:04}\nmakes 2 kg\nuse \"kitchen.miche\"\n{uses}\nplain flour .... 1 kg\nwater .... 620 g\n{line}{stray}\n\
         mix: hands 10 min\n    Mix {{plain flour}} and {{water}}.\n"
    )
}

fn said_by_program(folder: &Path) -> String {
    let run = Command::new(env!("CARGO_BIN_EXE_miche"))
        .args(["check", "--no-cache", "--format", "json"])
        .arg(folder)
        .output()
        .expect("it runs");
    String::from_utf8(run.stdout).expect("text")
}

fn said_of_all_together(folder: &Path) -> (Vec<Diagnostic>, String) {
    let mut loader = Loader::new();
    let loaded = loader.load_all(&find_files(folder).expect("files"));
    let sources: Vec<SourceId> = loaded.into_iter().map(|source| source.expect("it is there")).collect();
    let project = loader.into_project();
    let problems: Vec<Diagnostic> = check_files(&project, &sources).into_iter().flatten().collect();
    let text = report::json::render(&project.sources, &problems).expect("it can be written");
    (problems, format!("{text}\n"))
}

#[test]
fn a_folder_of_many_files_is_checked_as_all_together() {
    let folder = tempfile::tempdir().expect("a folder");
    for number in 0..FILES {
        fs::write(folder.path().join(format!("r{number:04}.miche")), recipe(number)).expect("a file");
    }
    fs::write(folder.path().join("kitchen.miche"), "kitchen Quay\noven x 1\ncooks 1\n").expect("a file");
    let (problems, together) = said_of_all_together(folder.path());
    for check in ["use-ring", "broken-use", "stray-line"] {
        assert!(problems.iter().any(|problem| problem.check == check), "nothing was tried of {check}");
    }
    assert_eq!(said_by_program(folder.path()), together);
}
