//! Choices of a recipe, and which options were taken.

use crate::language::syntax::{Key, Name};
use std::collections::{BTreeMap, BTreeSet};

/// Alternatives of a recipe, one of which is chosen.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Choice {
    /// What is chosen, for example `mixing`.
    pub name: Name,
    /// The options; the first is the default.
    pub options: Vec<Name>,
}

/// Which option was taken for each choice.
#[derive(Debug, Clone, PartialEq, Eq, Default, PartialOrd, Ord, Hash)]
pub struct Selection {
    taken: BTreeMap<Key, Key>,
    offered: BTreeSet<Key>,
}

impl Selection {
    /// Nothing chosen: every choice at its default.
    pub fn new() -> Selection {
        Selection::default()
    }

    /// Takes an option.
    pub fn take(&mut self, choice: &Key, option: &Key) {
        self.taken.insert(choice.clone(), option.clone());
    }

    /// Notes that an option is there to be taken.
    pub fn offer(&mut self, option: &Key) {
        self.offered.insert(option.clone());
    }

    /// Whether the option is there to be taken.
    pub fn offers(&self, option: &Key) -> bool {
        self.offered.contains(option)
    }

    /// The option taken for a choice.
    pub fn of(&self, choice: &Key) -> Option<&Key> {
        self.taken.get(choice)
    }

    /// Whether an option was taken for any choice.
    pub fn has(&self, option: &Key) -> bool {
        self.taken.values().any(|taken| taken == option)
    }

    /// Choice and option, in the order of the choices' names.
    pub fn iter(&self) -> impl Iterator<Item = (&Key, &Key)> {
        self.taken.iter()
    }
}
