//! What a larder answered before: a recipe asks for the same few names under each of its choices, and so do a thousand recipes
//! beside it.

use super::Facts;
use crate::language::syntax::Key;
use crate::model::kind::Kind;
use crate::text::quick::QuickMap;
use std::sync::{Arc, RwLock};

/// An ingredient by its name: what is known of it, and what it is.
#[derive(Debug, Clone, Default)]
pub struct Described {
    /// What a larder knows of it.
    pub facts: Option<Arc<Facts>>,
    /// What it is; [`Kind::Other`] where neither a block nor the name tells.
    pub kind: Kind,
}

/// No kitchen has more names; those of a text that is made up of names are not kept.
const MOST: usize = 10_000;

/// What was found under names. A copy of a larder begins with nothing, since it may take in other facts.
#[derive(Debug, Default)]
pub(super) struct Answers(RwLock<QuickMap<Key, Described>>);

impl Answers {
    /// What was found before, or is now.
    pub(super) fn or_find(&self, name: &Key, find: impl FnOnce() -> Described) -> Described {
        let known = self.0.read().ok().and_then(|known| known.get(name).cloned());
        known.unwrap_or_else(|| {
            let found = find();
            if let Ok(mut known) = self.0.write()
                && known.len() < MOST
            {
                known.insert(name.clone(), found.clone());
            }
            found
        })
    }
}

impl Clone for Answers {
    fn clone(&self) -> Answers {
        Answers::default()
    }
}
