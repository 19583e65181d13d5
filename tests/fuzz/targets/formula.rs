//! Any text is resolved, solved, checked under every choice, reported in every format and mended, without falling.
#![no_main]

use miche::check::check_file;
use miche::mend::mend;
use miche_fuzz::{checks, project_of};

miche_fuzz::target!(|text| {
    let (project, sources) = project_of(&[("fuzzed.miche", text)]);
    checks(&project, &sources);
    if text.len() < 1500 {
        mend(text, |text| {
            let (project, sources) = project_of(&[("fuzzed.miche", text)]);
            (sources[0], check_file(&project, sources[0]))
        });
    }
});
