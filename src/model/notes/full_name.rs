//! A name of which a word stands behind it: `flour, rye`, `yeast (fresh)`.

use super::manner::{DONE, MANNERS};
use super::words;
use crate::language::syntax::Key;
use crate::model::larder::Larder;

/// Names of which a kind must be said: without it they are of several.
const OF_KINDS: [&str; 9] = ["flour", "yeast", "milk", "sugar", "cream", "oil", "vinegar", "starch", "syrup"];
/// Words that say what was done to it, though a larder knows them before a name too: cream that is whipped here was not bought so.
const DONE_HERE: [&str; 3] = ["whipped", "boiled", "clarified"];

/// The name that a larder knows with the words behind it before it: `rye flour` of `flour, rye`, `fresh yeast` of `yeast (fresh)`.
pub(super) fn named_in_full(name: &str, said: &str, larder: &Larder) -> Option<String> {
    let said = words::name(said).to_lowercase();
    let is_done =
        |word: &str| DONE.contains(&word) || DONE_HERE.contains(&word) || MANNERS.contains(&word) && word != "fresh";
    let may_be = OF_KINDS.contains(&name.to_lowercase().as_str()) && !said.is_empty();
    if !may_be || said.split(' ').count() > 2 || said.split(' ').any(is_done) {
        return None;
    }
    let full = format!("{said} {name}");
    larder.has_just(&Key::new(&full)).then_some(full)
}
