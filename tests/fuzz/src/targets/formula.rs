//! Any text is resolved, solved, checked under every choice, reported in every format and mended, without falling.

use super::super::{checks, project_of};
use miche::check::check_file;
use miche::language::mend::mend;

/// One text.
pub fn run(text: &str) {
    let (project, sources) = project_of(&[("fuzzed.miche", text)]);
    checks(&project, &sources);
    if text.len() < 1500 {
        mend(text, |text| {
            let (project, sources) = project_of(&[("fuzzed.miche", text)]);
            (sources[0], check_file(&project, sources[0]))
        });
    }
}
