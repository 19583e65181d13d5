//! The last state of each file from which a card could be made: a file broken half-way keeps its card.

use crate::model::project::Project;
use crate::text::source::SourceId;
use std::collections::HashMap;
use std::path::{Path, PathBuf};
use std::sync::{Arc, Mutex, PoisonError};

/// How many files are remembered. A person looks at a few; more only cost memory.
const MOST: usize = 64;

/// A file with everything it uses, as it was read at one moment.
#[derive(Debug, Clone)]
pub(super) struct Read {
    /// The files.
    pub(super) project: Arc<Project>,
    /// The file itself.
    pub(super) source: SourceId,
}

/// The memory.
#[derive(Debug, Default)]
pub(super) struct Good {
    files: Mutex<HashMap<PathBuf, Read>>,
}

impl Good {
    /// Remembers a state without errors.
    pub(super) fn keep(&self, path: &Path, read: &Read) {
        let mut files = self.files.lock().unwrap_or_else(PoisonError::into_inner);
        if files.len() >= MOST && !files.contains_key(path) {
            files.clear();
        }
        files.insert(path.to_owned(), read.clone());
    }

    /// The last state without errors.
    pub(super) fn last(&self, path: &Path) -> Option<Read> {
        self.files.lock().unwrap_or_else(PoisonError::into_inner).get(path).cloned()
    }
}
