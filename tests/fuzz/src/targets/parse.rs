//! Any text is a tree that holds all of it.

use super::super::{keeps_every_byte, places_are_in_the_text};
use miche::language::parse::parse;
use miche::text::source::Sources;

/// One text.
pub fn run(text: &str) {
    let mut sources = Sources::default();
    let source = sources.add("fuzzed", text.to_owned());
    let (tree, problems) = parse(source, text);
    keeps_every_byte(text, &tree);
    places_are_in_the_text(&sources, &problems);
}
