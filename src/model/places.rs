//! Where in a list each name stands first, so that one name among many thousands is found at once.

use crate::language::syntax::{Key, Name};
use crate::text::quick::QuickMap;
use std::collections::hash_map::Entry;

/// For each name of a list, its first place there.
#[derive(Debug, Clone, Default)]
pub(crate) struct Places(QuickMap<Key, usize>);

impl Places {
    /// The places of the names of a list, in its order.
    pub(crate) fn of<'n>(names: impl Iterator<Item = &'n Name>) -> Places {
        let mut places = Places(QuickMap::with_capacity_and_hasher(names.size_hint().0, Default::default()));
        for (at, name) in names.enumerate() {
            places.note(&name.key, at);
        }
        places
    }

    /// Notes where a name stands, unless it stood somewhere before: then that place.
    pub(crate) fn note(&mut self, name: &Key, at: usize) -> Option<usize> {
        match self.0.entry(name.clone()) {
            Entry::Occupied(first) => Some(*first.get()),
            Entry::Vacant(free) => {
                free.insert(at);
                None
            }
        }
    }

    /// The first place of a name.
    pub(crate) fn get(&self, name: &Key) -> Option<usize> {
        self.0.get(name).copied()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::text::source::{SourceId, Span};

    #[test]
    fn the_first_place_counts() {
        let names = ["Salt", "water", "salt"].map(|name| Name::new(name, Span::new(SourceId(0), 0, 0)));
        let places = Places::of(names.iter());
        assert_eq!(places.get(&Key::new("salt")), Some(0));
        assert_eq!(places.get(&Key::new("water")), Some(1));
        assert_eq!(places.get(&Key::new("milk")), None);
    }
}
