//! The workspace: the texts that the editor has open, the folders it works in, and what was found in them.

use super::position::{Encoding, LineStarts, Point};
use super::uri;
use super::view::{Planned, View};
use crate::check::bakes::in_the_future;
use crate::check::{Memory, check_again};
use crate::edge::loader::{Cache, Loader, look_through, real_path};
use crate::edge::past::checked::told;
use crate::edge::past::recalled::Past;
use crate::language::bakes::Log;
use crate::language::syntax::FileKind;
use crate::text::diagnostic::{Diagnostic, sort_and_dedup};
use crate::text::source::SourceId;
use std::collections::HashMap;
use std::path::{Path, PathBuf};
use std::rc::Rc;

/// Open texts, folders, and what was found.
#[derive(Debug, Default)]
pub struct Workspace {
    cache: Cache,
    memory: Memory,
    past: Past,
    folders: Vec<PathBuf>,
    open: HashMap<String, Document>,
    /// Counts whatever may change what a file says: a view is good as long as it stands still.
    changes: u64,
    views: HashMap<PathBuf, (u64, Rc<View>)>,
    folder: Option<(u64, Rc<Folder>)>,
    /// What was planned, by file.
    planned: HashMap<PathBuf, Planned>,
}

/// A text as the editor has it.
#[derive(Debug)]
struct Document {
    path: PathBuf,
    version: i32,
    text: String,
}

/// All files of the folders, read together.
#[derive(Debug)]
pub(super) struct Folder {
    /// The views of its files, by their numbers.
    pub views: Vec<View>,
}

/// One change of a text: what is replaced, or everything, and by what.
#[derive(Debug, Clone)]
pub(super) struct Change {
    /// From and to; `None` replaces the whole text.
    pub range: Option<(Point, Point)>,
    /// What stands there afterwards.
    pub text: String,
}

impl Workspace {
    /// The folders that the editor works in.
    pub(super) fn set_folders(&mut self, add: Vec<PathBuf>, remove: &[PathBuf]) {
        self.folders.retain(|folder| !remove.contains(folder));
        self.folders.extend(add);
        self.changes += 1;
    }

    /// Takes in a text that was opened.
    pub(super) fn open(&mut self, uri: &str, version: i32, text: String) {
        let path = self.place(uri);
        let path = self.cache.open(&path, text.as_str());
        self.open.insert(uri.to_owned(), Document { path, version, text });
        self.changes += 1;
    }

    /// Makes changes one after the other, as the protocol has them.
    pub(super) fn change(&mut self, uri: &str, version: i32, changes: &[Change], encoding: Encoding) {
        let Some(document) = self.open.get_mut(uri) else { return };
        for change in changes {
            match change.range {
                None => document.text.clone_from(&change.text),
                Some((from, to)) => {
                    let line_starts = LineStarts::of(&document.text);
                    let start = line_starts.offset(&document.text, from, encoding);
                    let end = line_starts.offset(&document.text, to, encoding).max(start);
                    document.text.replace_range(start..end, &change.text);
                }
            }
        }
        document.version = version;
        self.cache.open(&document.path, document.text.as_str());
        self.changes += 1;
    }

    /// The file on disk counts again.
    pub(super) fn close(&mut self, uri: &str) {
        if let Some(document) = self.open.remove(uri) {
            self.cache.close(&document.path);
            self.views.remove(&document.path);
            self.planned.remove(&document.path);
        }
        self.changes += 1;
    }

    /// Files on disk have changed.
    pub(super) fn disk_changed(&mut self) {
        self.past.disk_changed();
        self.changes += 1;
    }

    /// The version of an open text.
    pub(super) fn version(&self, uri: &str) -> Option<i32> {
        self.open.get(uri).map(|document| document.version)
    }

    /// The view of a file that the editor names.
    pub(super) fn view(&mut self, uri: &str) -> Option<Rc<View>> {
        let path = match self.open.get(uri) {
            Some(document) => document.path.clone(),
            None => self.place(uri),
        };
        self.view_of(&path)
    }

    /// The view of a file.
    fn view_of(&mut self, path: &Path) -> Option<Rc<View>> {
        if let Some((_, view)) = self.views.get(path).filter(|(made, _)| *made == self.changes) {
            return Some(Rc::clone(view));
        }
        let mut loader = Loader::on(std::mem::take(&mut self.cache));
        let loaded = loader.load(path);
        let (project, cache) = loader.into_parts();
        self.cache = cache;
        let view = Rc::new(View::of(project, loaded.ok()?, self.planned.entry(path.to_owned()).or_default().clone())?);
        // What is not open is looked at once; it need not be kept.
        if self.open.values().any(|document| document.path == path) {
            self.views.insert(path.to_owned(), (self.changes, Rc::clone(&view)));
        }
        Some(view)
    }

    /// Every problem of a view's file, the same as `check` finds: of a log beside the formulas of its days, of a recipe beside its logs.
    pub(super) fn problems(&mut self, view: &View) -> Vec<Diagnostic> {
        let mut problems = check_again(&view.project, view.source, &mut self.memory);
        if view.tree().kind == FileKind::Bakes {
            let log = Log::of(view.tree(), view.text());
            problems.extend(in_the_future(&log, jiff::ZonedDateTime::now().date()));
            sort_and_dedup(&mut problems);
        }
        let path = self.cache.path(view.source).map(Path::to_owned);
        if let (FileKind::Bakes | FileKind::Recipe, Some(path)) = (view.tree().kind, path) {
            self.past.with_open(&mut self.cache, |past| {
                told(&view.project, &[view.source], &[path], past, &mut problems);
            });
            // What is written in another file is told there.
            problems.retain(|problem| problem.span.source == view.source);
        }
        problems
    }

    /// The files of the folders, and what is open beside them.
    pub(super) fn files(&self) -> Vec<PathBuf> {
        let mut files: Vec<PathBuf> = self.cache.open_paths().map(Path::to_owned).collect();
        let beside: Vec<PathBuf> = files.iter().filter_map(|path| path.parent().map(Path::to_owned)).collect();
        for folder in if self.folders.is_empty() { &beside } else { &self.folders } {
            let found = look_through(folder).unwrap_or_default();
            files.extend(found.files.iter().map(|path| real_path(path)));
        }
        files.sort();
        files.dedup();
        files
    }

    /// All files of the folders, read together.
    pub(super) fn folder(&mut self) -> Rc<Folder> {
        if let Some((_, folder)) = self.folder.as_ref().filter(|(made, _)| *made == self.changes) {
            return Rc::clone(folder);
        }
        let files = self.files();
        let mut loader = Loader::on(std::mem::take(&mut self.cache));
        let mut sources: Vec<SourceId> = files.iter().filter_map(|path| loader.load(path).ok()).collect();
        sources.sort_unstable();
        sources.dedup();
        let (project, cache) = loader.into_parts();
        self.cache = cache;
        let views =
            sources.into_iter().filter_map(|source| View::of(project.clone(), source, Planned::default())).collect();
        let folder = Rc::new(Folder { views });
        self.folder = Some((self.changes, Rc::clone(&folder)));
        folder
    }

    /// The URI of a file, as the editor named it if it has it open.
    pub(super) fn uri(&self, source: SourceId) -> Option<String> {
        let path = self.cache.path(source)?;
        Some(self.uri_of(path))
    }

    /// The files of the folders by their paths from the folder of a text; only what stands below it or beside it.
    pub(super) fn paths_from(&self, source: SourceId) -> Vec<String> {
        let Some(own) = self.cache.path(source) else { return Vec::new() };
        let Some(folder) = own.parent() else { return Vec::new() };
        let mut paths: Vec<String> = Vec::new();
        for file in self.files().iter().filter(|file| *file != own) {
            let from = match (file.strip_prefix(folder), folder.parent().map(|above| file.strip_prefix(above))) {
                (Ok(below), _) => below.display().to_string(),
                (Err(_), Some(Ok(beside))) => format!("../{}", beside.display()),
                _ => continue,
            };
            paths.push(from.replace('\\', "/"));
        }
        paths
    }

    /// The URI of a path.
    pub(super) fn uri_of(&self, path: &Path) -> String {
        let open = self.open.iter().find(|(_, document)| document.path == path);
        open.map_or_else(|| uri::of(path), |(uri, _)| uri.clone())
    }

    /// Where a text lies. One that was never saved lies in the first folder, so that it can use what is there.
    fn place(&self, uri: &str) -> PathBuf {
        if let Some(path) = uri::path(uri) {
            return real_path(&path);
        }
        let name: String = uri.chars().map(|c| if c.is_alphanumeric() || c == '-' { c } else { '_' }).collect();
        let folder = self.folders.first().cloned().or_else(|| std::env::current_dir().ok());
        folder.unwrap_or_else(|| PathBuf::from("/")).join(name)
    }
}
