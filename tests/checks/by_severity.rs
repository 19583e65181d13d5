//! A problem is as grave as the page of all checks says, or as it says that some are.

use super::problems_of;
use miche::check::explain::severity_in_words;
use miche::check::{ALL, Family, find};
use std::fs;
use std::path::Path;

/// What is told of the bad examples, and of the files of `tests/wrong`.
fn told() -> impl Iterator<Item = miche::text::diagnostic::Diagnostic> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/wrong");
    let files = fs::read_dir(folder).expect("a folder").map(|entry| entry.expect("a file").path());
    let wrong = files.filter_map(|path| fs::read_to_string(path).ok());
    let bad = ALL.iter().map(|check| check.bad.to_owned());
    bad.chain(wrong).flat_map(|text| problems_of(&text))
}

#[test]
fn problems_are_as_grave_as_the_page_says() {
    let mut faults = Vec::new();
    let mut seen = 0;
    for problem in told() {
        let check = find(problem.check).expect("a registered name");
        let said = severity_in_words(check);
        // Where a home kitchen is only assumed, a warning becomes advice.
        let of_the_kitchen = check.family == Family::Kitchen;
        if !of_the_kitchen && !said.contains(problem.severity.word()) {
            faults.push(format!("{} is told as {}: {}", check.name, problem.severity.word(), problem.message));
        }
        seen += 1;
    }
    assert!(seen > 300, "{seen}");
    assert!(faults.is_empty(), "{}", faults.join("\n"));
}
