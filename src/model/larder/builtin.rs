//! The larder and the home kitchen that the program brings, written in its own language.
//!
//! A card looks up a dozen of some hundreds of ingredients, and the program starts afresh for each card. So the text is
//! only indexed by name here, and a block is parsed when it is first asked for.

use super::begun::Begun;
use super::{Facts, pantry};
use crate::language::parse::parse;
use crate::model::kitchen::Kitchen;
use crate::text::quick::QuickMap;
use crate::text::source::SourceId;
use memchr::memmem;
use std::sync::{Arc, OnceLock};

/// The text of the built-in larder.
const LARDER_TEXT: &str = include_str!("larder.miche");
/// The text of the built-in kitchen.
const KITCHEN_TEXT: &str = include_str!("home-kitchen.miche");

/// Places in the built-in texts never reach a person; they get a number no file has.
const SOURCE: SourceId = SourceId(u32::MAX);

/// How a block begins, and the line of its other names, each behind a line break.
const BLOCK: &str = "\ningredient ";
const OTHER_NAMES: &str = "\nalso called ";

/// Where each name's block lies in the text.
struct Index {
    /// Names as they are compared; a test keeps the text written so, so that none has to be folded here.
    blocks: QuickMap<&'static str, usize>,
    /// Where each block starts, and where the last one ends.
    bounds: Vec<usize>,
    /// What each block says, once it was asked for. Each has its own lock: files are checked side by side.
    parsed: Vec<OnceLock<Option<Arc<Facts>>>>,
}

fn index() -> &'static Index {
    static INDEX: OnceLock<Index> = OnceLock::new();
    INDEX.get_or_init(|| {
        // Looked for and not cut into lines: it is twenty thousand, of which one in twelve names something.
        let mut bounds: Vec<usize> = memmem::find_iter(LARDER_TEXT.as_bytes(), BLOCK).map(|at| at + 1).collect();
        bounds.push(LARDER_TEXT.len());
        let parsed = bounds.iter().skip(1).map(|_| OnceLock::new()).collect();
        let mut blocks = QuickMap::with_capacity_and_hasher(2048, Default::default());
        let others = memmem::Finder::new(OTHER_NAMES);
        for (number, (start, end)) in bounds.iter().zip(bounds.iter().skip(1)).enumerate() {
            let block = LARDER_TEXT.get(*start..*end).unwrap_or("");
            let others = others.find_iter(block.as_bytes()).map(|at| at + OTHER_NAMES.len());
            // The line break before a block belongs to the one above.
            for names in std::iter::once(BLOCK.len() - 1).chain(others) {
                let names = block.get(names..).and_then(|rest| rest.lines().next()).unwrap_or("");
                for name in names.split(',').map(str::trim).filter(|name| !name.is_empty()) {
                    blocks.insert(name, number);
                }
            }
        }
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

/// How all built-in names begin; worked out when it is first asked for, since a card does not ask.
pub(super) fn begun() -> &'static Begun {
    static BEGUN: OnceLock<Begun> = OnceLock::new();
    BEGUN.get_or_init(|| {
        let mut begun = Begun::with_room(1024);
        names().for_each(|name| begun.add(name));
        begun
    })
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

    /// Against the whole text read in the ordinary way.
    #[test]
    fn every_block_is_found_by_each_of_its_names() {
        let (tree, problems) = parse(SOURCE, LARDER_TEXT);
        assert_eq!(problems, []);
        let (blocks, _) = pantry::blocks(&tree);
        assert_eq!(all().count(), blocks.len());
        for (number, block) in blocks.iter().enumerate() {
            assert!(!block.names.is_empty());
            for name in &block.names {
                assert_eq!(super::number(name.key.as_str()), Some(number), "{name}");
            }
            let found = super::block(number).expect("it is there");
            assert_eq!(found.name, block.facts.name);
        }
        assert_eq!(names().count(), blocks.iter().flat_map(|block| &block.names).count());
    }

    #[test]
    fn every_name_is_written_as_it_is_compared_and_found() {
        for name in names() {
            assert_eq!(Key::new(name).as_str(), name);
            assert!(find(name).is_some(), "{name}");
        }
    }
}
