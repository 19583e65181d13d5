//! What the check before a commit looks at.

use super::repository::Repository;
use super::{DAY, LOAF, NAME};
use std::fs;

/// What a formula names beside other formulas is checked out with it; logs are checked, and what says the name of a file that goes away.
#[test]
fn a_right_commit_is_let_through_with_all_that_it_names() {
    let repository = Repository::new();
    repository.miche(&["setup", "git", "--pre-commit"]);
    fs::create_dir_all(repository.at("pictures")).expect("a folder");
    let picture = concat!(env!("CARGO_MANIFEST_DIR"), "/examples/pictures");
    let picture = fs::read_dir(picture).expect("pictures").filter_map(Result::ok).map(|file| file.path());
    let picture =
        picture.into_iter().find(|path| path.extension().is_some_and(|end| end == "jpg" || end == "png")).expect("one");
    let name = format!("pictures/loaf.{}", picture.extension().expect("an ending").to_string_lossy());
    fs::copy(&picture, repository.at(&name)).expect("copied");
    let shown = LOAF.replace("makes 2", &format!("picture \"{name}\", A dark loaf\nmakes 2"));
    repository.commit(DAY, "With its picture", NAME, &shown);
    repository.write("loaf.bakes", &format!("bakes of \"{NAME}\"\n\nbake 2026-11-01\nkneed: 4 min\n"));
    repository.git(DAY, &["add", "-A"]);
    let output = repository.run(DAY, "git", &["commit", "-q", "-m", "A log with a slip"]);
    assert!(!output.status.success(), "{output:?}");
    repository.write("loaf.bakes", &format!("bakes of \"{NAME}\"\n"));
    repository.git(DAY, &["add", "-A"]);
    repository.git(DAY, &["commit", "-q", "-m", "A log"]);
    repository.git(DAY, &["mv", NAME, "other.miche"]);
    let output = repository.run(DAY, "git", &["commit", "-q", "-m", "Renamed, and the log hangs"]);
    assert!(!output.status.success(), "{output:?}");
}
