//! Any text is a tree that holds all of it.
#![no_main]

use miche::parse::parse;
use miche::source::Sources;
use miche_fuzz::{keeps_every_byte, places_are_in_the_text};

miche_fuzz::target!(|text| {
    let mut sources = Sources::default();
    let source = sources.add("fuzzed", text.to_owned());
    let (tree, problems) = parse(source, text);
    keeps_every_byte(text, &tree);
    places_are_in_the_text(&sources, &problems);
});
