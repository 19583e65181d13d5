//! The larder and the home kitchen that the program brings, written in its own language.
//!
//! A card looks up a dozen of some hundreds of ingredients, and the program starts afresh for each card. So the text is
//! only indexed by name here, and a block is parsed when it is first asked for.

use super::Facts;
use crate::kitchen::Kitchen;
use crate::parse::parse;
use crate::resolve::pantry;
use crate::source::SourceId;
use crate::syntax::Key;
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
    blocks: HashMap<Key, usize>,
    bounds: Vec<(usize, usize)>,
    /// What each block says, once it was asked for. Each has its own lock: files are checked side by side.
    parsed: Vec<OnceLock<Option<Arc<Facts>>>>,
}

fn index() -> &'static Index {
    static INDEX: OnceLock<Index> = OnceLock::new();
    INDEX.get_or_init(|| {
        let mut blocks = HashMap::with_capacity(1024);
        let bounds = block_bounds(LARDER_TEXT);
        for (number, (start, end)) in bounds.iter().enumerate() {
            for line in LARDER_TEXT.get(*start..*end).unwrap_or("").lines() {
                let names = line.strip_prefix("ingredient ").or_else(|| line.strip_prefix("also called "));
                for name in names.unwrap_or("").split(',').filter(|name| !name.trim().is_empty()) {
                    blocks.insert(Key::new(name), number);
                }
            }
        }
        let parsed = bounds.iter().map(|_| OnceLock::new()).collect();
        Index { blocks, bounds, parsed }
    })
}

/// Start and end of every `ingredient` block.
fn block_bounds(text: &str) -> Vec<(usize, usize)> {
    let mut starts = Vec::new();
    let mut at = 0;
    for line in text.split_inclusive('\n') {
        if line.starts_with("ingredient ") {
            starts.push(at);
        }
        at += line.len();
    }
    let ends = starts.iter().copied().skip(1).chain([text.len()]);
    starts.iter().copied().zip(ends).collect()
}

/// The facts of a built-in ingredient, by its folded name.
pub(super) fn find(name: &str) -> Option<Arc<Facts>> {
    let index = index();
    let number = *index.blocks.get(name)?;
    let read = || {
        let (start, end) = *index.bounds.get(number)?;
        let (tree, _) = parse(SOURCE, LARDER_TEXT.get(start..end)?);
        let (mut blocks, _) = pantry::blocks(&tree);
        blocks.pop().map(|block| Arc::new(block.facts))
    };
    index.parsed.get(number)?.get_or_init(read).clone()
}

/// All built-in names.
pub(super) fn names() -> impl Iterator<Item = &'static str> {
    index().blocks.keys().map(Key::as_str)
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
