//! Whatever resolves is scaled, laid out as cards and listed, in every format; what comes out is clean.
#![no_main]

use miche_fuzz::{makes_cards, project_of};

miche_fuzz::target!(|text| {
    let (project, sources) = project_of(&[("fuzzed.miche", text)]);
    makes_cards(&project, sources[0]);
});
