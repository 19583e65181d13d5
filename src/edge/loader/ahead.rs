//! Many files read ahead, side by side: first their texts, then the trees of those that are needed.

#[cfg(target_os = "linux")]
use super::folder_of;
use super::opened::read_real;
#[cfg(target_os = "linux")]
use super::opened::{open_folder, open_in, text_of_file};
use super::{Loader, ReadAhead, Unreadable, real_within};
use crate::language::parse::parse;
use crate::model::project::File;
use crate::text::diagnostic::Diagnostic;
use crate::text::source::SourceId;
use rayon::prelude::*;
use std::path::{Path, PathBuf};

impl Loader {
    /// Reads many files, side by side where that is possible. The answers stand in the order of the paths, and texts are
    /// numbered in that order, so that nothing depends on which file was read first.
    pub fn load_all(&mut self, paths: &[PathBuf]) -> Vec<Result<SourceId, Unreadable>> {
        self.read_ahead(paths);
        self.load_but(paths, |_| false)
    }

    /// Reads the texts of many files and parses none: of each file its number and its path without links, each file once, in the
    /// order of the paths. What cannot be read is left out here; [`Loader::load`] says why.
    pub fn read_ahead(&mut self, paths: &[PathBuf]) -> Vec<(SourceId, PathBuf)> {
        let within = self.within.as_deref();
        let read = paths.par_chunks(SIDE_BY_SIDE).flat_map_iter(|paths| {
            let mut folder = LastFolder::default();
            paths.iter().map(move |path| folder.read(path, within)).collect::<Vec<_>>()
        });
        let read: Vec<Option<(PathBuf, String)>> = read.collect();
        let mut taken = Vec::with_capacity(paths.len());
        for (path, read) in paths.iter().zip(read) {
            let Some((real, text)) = read else { continue };
            self.reals.insert(path.clone(), real.clone());
            if !self.known.contains_key(&real) && !self.unparsed.contains_key(&real) {
                let shown = path.display().to_string();
                let source = self.project.sources.add(&shown, text);
                self.unparsed.insert(real.clone(), (shown, source));
                taken.push((source, real));
            }
        }
        taken
    }

    /// As [`Loader::load_all`] of files of which the texts were read ahead; but those that need not be known keep their number,
    /// and are neither parsed nor followed unless another file uses them, nor are those that are not asked for here.
    pub fn load_but(
        &mut self,
        paths: &[PathBuf],
        is_needless: impl Fn(SourceId) -> bool,
    ) -> Vec<Result<SourceId, Unreadable>> {
        let mut needed = Vec::new();
        for path in paths {
            if let Some(real) = self.reals.get(path)
                && self.unparsed.get(real).is_some_and(|(_, source)| !is_needless(*source))
            {
                needed.extend(self.unparsed.remove_entry(real));
            }
        }
        let parsed: Vec<(PathBuf, ReadAhead)> = needed
            .into_par_iter()
            .map(|(real, (shown, source))| {
                let read = self.parsed(&shown, source);
                (real, read)
            })
            .collect();
        self.ahead.extend(parsed);
        // Following uses is a walk with a memory, so it goes one by one; everything slow has been done.
        let load = |path: &PathBuf| match self.aside(path) {
            Some(source) if is_needless(source) => Ok(source),
            _ => self.load(path),
        };
        paths.iter().map(load).collect()
    }

    /// Lets go of the trees of files that no other has led to yet. Such a file has no place in the project any more until another
    /// leads to it; its text keeps its number.
    pub fn let_go(&mut self, sources: &[SourceId]) {
        let mut gone: Vec<(SourceId, File)> = Vec::with_capacity(sources.len());
        for source in sources.iter().filter(|source| !self.led_to.contains(source)) {
            gone.extend(self.project.take_out(*source).map(|file| (*source, file)));
        }
        // To take trees apart is work too, and none waits for another.
        let left: Vec<(SourceId, Vec<Diagnostic>)> =
            gone.into_par_iter().map(|(source, file)| (source, file.diagnostics)).collect();
        self.let_go.extend(left);
    }

    /// Takes files that were let go into the project again, as they were.
    pub fn take_back(&mut self, sources: &[SourceId]) {
        for source in sources {
            self.led(*source);
        }
    }

    /// Notes that a file leads to another one, which has to be there from then on.
    pub(super) fn led(&mut self, target: SourceId) {
        self.led_to.insert(target);
        if let Some(diagnostics) = self.let_go.remove(&target) {
            let (tree, _) = parse(target, self.project.sources.get(target).map_or("", |source| &source.text));
            self.project.add(File { tree: tree.into(), diagnostics });
        }
    }

    /// The files that were read, by their numbers, with their paths without links.
    pub fn real_paths(&self) -> impl Iterator<Item = (SourceId, &Path)> {
        self.known.iter().map(|(real, source)| (*source, real.as_path()))
    }

    /// The number of a file of which only the text was read.
    fn aside(&self, path: &Path) -> Option<SourceId> {
        let (_, source) = self.unparsed.get(self.reals.get(path)?)?;
        Some(*source)
    }

    /// A file that was read ahead, parsed by now.
    pub(super) fn was_ahead(&mut self, real: &Path) -> Option<ReadAhead> {
        if let Some(read) = self.ahead.remove(real) {
            return Some(read);
        }
        let (shown, source) = self.unparsed.remove(real)?;
        Some(self.parsed(&shown, source))
    }
}

/// So many files are read one after the other by one thread: files of one folder, mostly, which is then looked for once.
const SIDE_BY_SIDE: usize = 64;

/// The folder of the file that was read last: where it was named, where it lies without links, and itself.
#[derive(Default)]
struct LastFolder {
    #[cfg(target_os = "linux")]
    open: Option<(PathBuf, PathBuf, std::os::fd::OwnedFd)>,
}

impl LastFolder {
    /// Reads a file that was named; `None` leaves it to [`Loader::load`] to say why it cannot be.
    fn read(&mut self, path: &Path, within: Option<&Path>) -> Option<(PathBuf, String)> {
        if path == Path::new("-") {
            return None;
        }
        #[cfg(target_os = "linux")]
        if let Some(read) = self.read_in(path, within) {
            return Some(read);
        }
        let real = real_within(path, within).ok()?;
        let text = read_real(&real).ok()?;
        Some((real, text))
    }

    /// Reads a file that is itself no link, so that its path without links is its folder's and its name; `None` for any other. On
    /// other systems a name may be written in several ways.
    #[cfg(target_os = "linux")]
    fn read_in(&mut self, path: &Path, within: Option<&Path>) -> Option<(PathBuf, String)> {
        let name = path.file_name()?;
        // `rolls.miche/` is no file.
        if !path.as_os_str().as_encoded_bytes().ends_with(name.as_encoded_bytes()) {
            return None;
        }
        let named = folder_of(path);
        if self.open.as_ref().is_none_or(|(last, ..)| last != named) {
            let real = std::fs::canonicalize(named).ok()?;
            let open = open_folder(&real).ok()?;
            self.open = Some((named.to_owned(), real, open));
        }
        let (_, folder, open) = self.open.as_ref()?;
        let real = folder.join(name);
        if within.is_some_and(|root| !real.starts_with(root)) {
            return None;
        }
        let text = text_of_file(&real, open_in(open, name).ok()?).ok()?;
        Some((real, text))
    }
}
