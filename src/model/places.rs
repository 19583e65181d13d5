//! Where in a list each name stands first, so that one name among many thousands is found at once.

use crate::language::syntax::{Key, Name};
use crate::text::quick::QuickMap;
use std::collections::hash_map::Entry;

/// For each name of a list, its first place there.
#[derive(Debug, Clone, Default)]
pub(crate) struct Places {
    /// The names, while they are few: they are looked through sooner than one of them is hashed.
    few: Vec<(Key, usize)>,
    /// All of them, once they are more than that.
    many: QuickMap<Key, usize>,
}

/// So many names are few.
const FEW: usize = 16;

impl Places {
    /// The places of the names of a list, in its order.
    pub(crate) fn of<'n>(names: impl Iterator<Item = &'n Name>) -> Places {
        let mut places = Places { few: Vec::with_capacity(names.size_hint().0.min(FEW)), many: QuickMap::default() };
        for (at, name) in names.enumerate() {
            places.note(&name.key, at);
        }
        places
    }

    /// Notes where a name stands, unless it stood somewhere before: then that place.
    pub(crate) fn note(&mut self, name: &Key, at: usize) -> Option<usize> {
        if self.many.is_empty() {
            if let Some(first) = self.get(name) {
                return Some(first);
            }
            if self.few.len() < FEW {
                self.few.push((name.clone(), at));
                return None;
            }
            self.many.extend(self.few.drain(..));
        }
        match self.many.entry(name.clone()) {
            Entry::Occupied(first) => Some(*first.get()),
            Entry::Vacant(free) => {
                free.insert(at);
                None
            }
        }
    }

    /// The first place of a name.
    pub(crate) fn get(&self, name: &Key) -> Option<usize> {
        if self.many.is_empty() {
            return self.few.iter().find(|(known, _)| known == name).map(|(_, at)| *at);
        }
        self.many.get(name).copied()
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

    #[test]
    fn many_names_are_found_as_few_are() {
        let names: Vec<Name> =
            (0..50).map(|at| Name::new(&format!("salt {}", at % 40), Span::new(SourceId(0), 0, 0))).collect();
        let places = Places::of(names.iter());
        for at in 0..40 {
            assert_eq!(places.get(&Key::new(&format!("salt {at}"))), Some(at));
        }
        assert_eq!(places.get(&Key::new("salt 40")), None);
        let mut noted = Places::default();
        let again: Vec<Option<usize>> = names.iter().enumerate().map(|(at, name)| noted.note(&name.key, at)).collect();
        assert_eq!(again, (0..50).map(|at| (at >= 40).then(|| at - 40)).collect::<Vec<_>>());
    }
}
