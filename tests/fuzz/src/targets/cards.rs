//! Whatever resolves is scaled, laid out as cards and listed, in every format; what comes out is clean.

use super::super::{makes_cards, project_of};

/// One text.
pub fn run(text: &str) {
    let (project, sources) = project_of(&[("fuzzed.miche", text)]);
    makes_cards(&project, sources[0]);
}
