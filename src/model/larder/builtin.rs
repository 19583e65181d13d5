//! The larder and the home kitchen that the program brings, written in its own language.
//!
//! A card looks up a dozen of some hundreds of ingredients, and the program starts afresh for each card. So the text is
//! only indexed by name here, and a block is parsed when it is first asked for.

use super::{Facts, pantry};
use crate::language::parse::parse;
use crate::model::kitchen::Kitchen;
use crate::text::source::SourceId;
use std::collections::HashMap;
use std::sync::{Arc, OnceLock};

/// The text of the built-in larder.
pub const LARDER_TEXT: &str = include_str!("larder.miche");
/// The text of the built-in kitchen.
pub const KITCHEN_TEXT: &str = include_str!("home-kitchen.miche");

/// Places in the built-in texts never reach a person; they get a number no file has.
const SOURCE: SourceId = SourceId(u32::MAX);

/// Where each name's block lies in the text.
struct Index {
    /// Names as they are compared; a test keeps the text written so, so that none has to be folded here.
    blocks: HashMap<&'static str, usize>,
    /// Where each block starts, and where the last one ends.
    bounds: Vec<usize>,
    /// What each block says, once it was asked for. Each has its own lock: files are checked side by side.
    parsed: Vec<OnceLock<Option<Arc<Facts>>>>,
}

fn index() -> &'static Index {
    static INDEX: OnceLock<Index> = OnceLock::new();
    INDEX.get_or_init(|| {
        let mut blocks = HashMap::with_capacity(2048);
        let mut bounds = Vec::with_capacity(1024);
        let mut at = 0;
        for line in LARDER_TEXT.split_inclusive('\n') {
            let named = line.strip_prefix("ingredient ");
            if named.is_some() {
                bounds.push(at);
            }
            at += line.len();
            let names = named.or_else(|| line.strip_prefix("also called ")).unwrap_or("");
            for name in names.split(',').map(str::trim).filter(|name| !name.is_empty()) {
                blocks.insert(name, bounds.len().saturating_sub(1));
            }
        }
        let parsed = bounds.iter().map(|_| OnceLock::new()).collect();
        bounds.push(at);
        Index { blocks, bounds, parsed }
    })
}

/// The facts of a built-in ingredient, by its folded name.
pub(super) fn find(name: &str) -> Option<Arc<Facts>> {
    block(number(name)?)
}

/// The number of the block that a folded name stands in: two names of one number are one ingredient.
pub(super) fn number(name: &str) -> Option<usize> {
    index().blocks.get(name).copied()
}

fn block(number: usize) -> Option<Arc<Facts>> {
    let index = index();
    let read = || {
        let (start, end) = (*index.bounds.get(number)?, *index.bounds.get(number + 1)?);
        let (tree, _) = parse(SOURCE, LARDER_TEXT.get(start..end)?);
        let (mut blocks, _) = pantry::blocks(&tree);
        // Where no allergen stands here, none is in it.
        blocks.pop().map(|block| Arc::new(Facts { knows_allergens: true, ..block.facts }))
    };
    index.parsed.get(number)?.get_or_init(read).clone()
}

/// Everything that the program brings, in the order of its text.
pub(super) fn all() -> impl Iterator<Item = Arc<Facts>> {
    (0..index().parsed.len()).filter_map(block)
}

/// All built-in names.
pub(super) fn names() -> impl Iterator<Item = &'static str> {
    index().blocks.keys().copied()
}

/// The built-in home kitchen.
pub fn home_kitchen() -> Kitchen {
    static KITCHEN: OnceLock<Kitchen> = OnceLock::new();
    KITCHEN
        .get_or_init(|| {
            let (tree, _) = parse(SOURCE, KITCHEN_TEXT);
            let mut kitchen = pantry::kitchen(&tree, &pantry::bare_kitchen(), &mut Vec::new());
            kitchen.span = None;
            kitchen
        })
        .clone()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::language::syntax::Key;

    #[test]
    fn every_name_is_written_as_it_is_compared_and_found() {
        for name in names() {
            assert_eq!(Key::new(name).as_str(), name);
            assert!(find(name).is_some(), "{name}");
        }
    }
}
