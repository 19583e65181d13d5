//! Right formulas at which a check spoke: each of `tests/quiet` says in its first line which checks are quiet at it. They were written for
//! a trial, after how such things are made; common practice, no source.

use super::{problems_of, told};
use miche::check::ALL;
use std::fs;
use std::path::Path;

#[test]
fn checks_are_quiet_at_what_is_right() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/quiet");
    let mut count = 0;
    let mut loud = Vec::new();
    for file in fs::read_dir(folder).expect("a folder") {
        let path = file.expect("a file").path();
        let text = fs::read_to_string(&path).expect("a text");
        let quiet = text.lines().next().and_then(|line| line.strip_prefix("# quiet: ")).expect("which checks");
        let problems = problems_of(&text);
        for check in quiet.split(", ") {
            assert!(ALL.iter().any(|known| known.name == check), "{}: no check `{check}`", path.display());
            if problems.iter().any(|problem| problem.check == check) {
                loud.push(format!("{}: {check}\n{}", path.display(), told(&problems)));
            }
        }
        count += 1;
    }
    assert!(loud.is_empty(), "{}", loud.join("\n"));
    assert!(count > 10, "only {count} files");
}
