//! What stays read from one key press to the next: the texts an editor has open, and files as long as they do not change.

use super::read_real;
use crate::language::parse::Reading;
use crate::language::syntax::Tree;
use crate::text::diagnostic::Diagnostic;
use crate::text::source::{SourceId, Sources};
use std::collections::HashMap;
use std::fs;
use std::path::{Component, Path, PathBuf};
use std::sync::Arc;
use std::time::SystemTime;

/// Texts and trees by the real path of their file. A file keeps its number for good.
#[derive(Debug, Default)]
pub struct Cache {
    sources: Sources,
    numbers: HashMap<PathBuf, SourceId>,
    paths: HashMap<SourceId, PathBuf>,
    read: HashMap<PathBuf, Shelved>,
    open: HashMap<PathBuf, Open>,
    /// Counts the texts that were opened or changed.
    edits: u64,
}

/// A text that an editor holds.
#[derive(Debug)]
struct Open {
    text: Arc<str>,
    edit: u64,
}

/// A file as it was read.
#[derive(Debug)]
struct Shelved {
    stamp: Stamp,
    reading: Reading,
}

/// By which a change is noticed.
#[derive(Debug, PartialEq, Eq)]
enum Stamp {
    /// Which edit of an open text.
    Open(u64),
    /// When a file was last written, and its length.
    Disk(Option<SystemTime>, u64),
}

impl Cache {
    /// Takes in the text that an editor has open, in place of what the disk holds. Gives the path that it goes by.
    pub fn open(&mut self, path: &Path, text: impl Into<Arc<str>>) -> PathBuf {
        let real = real_or_plain(path);
        self.edits += 1;
        self.open.insert(real.clone(), Open { text: text.into(), edit: self.edits });
        real
    }

    /// The disk counts again.
    pub fn close(&mut self, path: &Path) {
        self.open.remove(&real_or_plain(path));
    }

    /// The text that is open under a path.
    pub fn text(&self, path: &Path) -> Option<Arc<str>> {
        self.open.get(path).map(|open| Arc::clone(&open.text))
    }

    /// The paths of all open texts.
    pub fn open_paths(&self) -> impl Iterator<Item = &Path> {
        self.open.keys().map(PathBuf::as_path)
    }

    /// Where the text of that number lies.
    pub fn path(&self, source: SourceId) -> Option<&Path> {
        self.paths.get(&source).map(PathBuf::as_path)
    }

    /// All texts that were ever read, each as it was read last.
    pub(super) fn sources(&self) -> &Sources {
        &self.sources
    }

    /// The path of an open text that no file stands behind.
    pub(super) fn open_path(&self, path: &Path) -> Option<PathBuf> {
        let plain = real_or_plain(path);
        self.open.contains_key(&plain).then_some(plain)
    }

    /// The tree of a file: from the cache if it did not change, else read again. `sources` is kept in step.
    ///
    /// # Errors
    /// When the file cannot be read, in plain words.
    pub(super) fn take(
        &mut self,
        real: &Path,
        shown: &str,
        sources: &mut Sources,
    ) -> Result<(Arc<Tree>, Vec<Diagnostic>), String> {
        let stamp = match self.open.get(real) {
            Some(open) => Stamp::Open(open.edit),
            None => {
                fs::metadata(real).map_or(Stamp::Disk(None, 0), |data| Stamp::Disk(data.modified().ok(), data.len()))
            }
        };
        if let Some(shelved) = self.read.get(real).filter(|shelved| shelved.stamp == stamp) {
            return Ok((Arc::clone(&shelved.reading.tree), shelved.reading.problems.clone()));
        }
        let text: Arc<str> = match self.open.get(real) {
            Some(open) => Arc::clone(&open.text),
            None => read_real(real)?.into(),
        };
        let source = match self.numbers.get(real) {
            Some(known) => *known,
            None => {
                let source = self.sources.add(shown, "");
                sources.add(shown, "");
                self.numbers.insert(real.to_owned(), source);
                self.paths.insert(source, real.to_owned());
                source
            }
        };
        let reading = match (self.read.get(real), self.sources.get(source)) {
            (Some(old), Some(old_text)) => old.reading.again(&old_text.text, &text),
            _ => Reading::of(source, &text),
        };
        self.sources.replace(source, Arc::clone(&text));
        sources.replace(source, text);
        let (tree, diagnostics) = (Arc::clone(&reading.tree), reading.problems.clone());
        self.read.insert(real.to_owned(), Shelved { stamp, reading });
        Ok((tree, diagnostics))
    }
}

/// The real path, also of a file that does not exist: then its folder's, or the path without its dots.
fn real_or_plain(path: &Path) -> PathBuf {
    if let Ok(real) = fs::canonicalize(path) {
        return real;
    }
    let mut plain = PathBuf::new();
    for component in path.components() {
        match component {
            Component::CurDir => {}
            Component::ParentDir => {
                plain.pop();
            }
            other => plain.push(other),
        }
    }
    match (plain.parent().map(fs::canonicalize), plain.file_name()) {
        (Some(Ok(folder)), Some(name)) => folder.join(name),
        _ => plain,
    }
}
