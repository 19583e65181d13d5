//! All files of one run, read and bound to each other by their `use` and `make` lines.
//!
//! The loader fills this in; from here on nothing touches a disk.

use crate::language::syntax::{Content, FileKind, Name, Tree};
use crate::measure::value::Value;
use crate::model::published::PictureFile;
use crate::model::recipe::{Recipe, Selection};
use crate::text::diagnostic::Diagnostic;
use crate::text::source::{SourceId, Sources, Span};
use std::collections::{HashMap, HashSet};
use std::sync::{Arc, Mutex};

/// One file.
#[derive(Debug, Clone)]
pub struct File {
    /// Its tree.
    pub tree: Arc<Tree>,
    /// What was wrong when it was read and when its uses were followed.
    pub diagnostics: Vec<Diagnostic>,
}

/// A recipe as it was resolved for those that use it.
#[derive(Debug, Clone)]
pub struct Resolved {
    /// The recipe; `None` for a file that cannot be one.
    pub recipe: Option<Arc<Recipe>>,
    /// How many files deep what it uses lies below it.
    pub deep: usize,
}

/// Used recipes by their file and what is chosen of their own choices.
type AllResolved = HashMap<(SourceId, Selection), Resolved>;

/// All files of one run.
#[derive(Debug, Clone, Default)]
pub struct Project {
    /// Their texts.
    pub sources: Sources,
    files: HashMap<SourceId, File>,
    links: HashMap<Span, SourceId>,
    stocks: HashMap<Span, Vec<(Name, Value)>>,
    /// What was resolved in this run: the files are checked side by side, and many use the same few.
    resolved: Arc<Mutex<AllResolved>>,
    pictures: HashMap<Span, PictureFile>,
}

impl Project {
    /// Takes a file in.
    pub fn add(&mut self, file: File) {
        self.resolved = Arc::default();
        self.files.insert(file.tree.source, file);
    }

    /// Binds the path written at `place` to a file.
    pub fn link(&mut self, place: Span, target: SourceId) {
        self.resolved = Arc::default();
        self.links.insert(place, target);
    }

    /// Binds the path of a list of what there is to what stands on it.
    pub fn put_stock(&mut self, place: Span, stock: Vec<(Name, Value)>) {
        self.stocks.insert(place, stock);
    }

    /// Binds the path of a picture to its file.
    pub fn put_picture(&mut self, place: Span, file: PictureFile) {
        self.resolved = Arc::default();
        self.pictures.insert(place, file);
    }

    /// The picture whose path is written at `place`; `None` when it cannot be shown, which was reported.
    pub fn picture(&self, place: Span) -> Option<&PictureFile> {
        self.pictures.get(&place)
    }

    /// What stands on the list that a path leads to; nothing where it leads nowhere, which was reported.
    pub fn stock(&self, place: Span) -> &[(Name, Value)] {
        self.stocks.get(&place).map_or(&[], Vec::as_slice)
    }

    /// The file of that text.
    pub fn file(&self, source: SourceId) -> Option<&File> {
        self.files.get(&source)
    }

    /// To change a file's list of problems.
    pub fn file_mut(&mut self, source: SourceId) -> Option<&mut File> {
        self.files.get_mut(&source)
    }

    /// A used recipe under a choice, where it was resolved in this run.
    pub fn resolved(&self, asked: &(SourceId, Selection)) -> Option<Resolved> {
        self.resolved.lock().ok()?.get(asked).cloned()
    }

    /// Keeps a used recipe for all that ask for it in this run.
    pub fn keep_resolved(&self, asked: (SourceId, Selection), resolved: Resolved) {
        if let Ok(mut all) = self.resolved.lock() {
            all.insert(asked, resolved);
        }
    }

    /// The file that the path written at `place` leads to; `None` when it leads nowhere, which was reported.
    pub fn target(&self, place: Span) -> Option<SourceId> {
        self.links.get(&place).copied()
    }

    /// The files that a file uses, in the order of its lines.
    pub fn used(&self, source: SourceId) -> impl Iterator<Item = SourceId> {
        let lines = self.file(source).map_or(&[][..], |file| &file.tree.lines);
        lines.iter().filter_map(|line| match &line.content {
            Content::Use(path) => self.target(path.span),
            _ => None,
        })
    }

    /// The kitchen and larder files that one of them brings, itself last: what stands later goes before what stands earlier,
    /// and a file that is used in several ways counts where it is used last. Each is walked once, however many ways lead to it.
    pub fn pantries(&self, source: SourceId) -> Vec<&Tree> {
        let mut seen = HashSet::new();
        let mut strongest_first = Vec::new();
        let mut open = vec![source];
        while let Some(here) = open.pop() {
            let file = self.file(here).filter(|file| file.tree.kind == FileKind::Kitchen);
            if let Some(file) = file.filter(|_| seen.insert(here)) {
                strongest_first.push(&*file.tree);
                open.extend(self.used(here));
            }
        }
        strongest_first.reverse();
        strongest_first
    }
}
