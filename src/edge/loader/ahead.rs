//! Many files read ahead, side by side: first their texts, then the trees of those that are needed.

use super::opened::read_real;
use super::{Loader, ReadAhead, Unreadable, real_within};
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
        let read: Vec<Option<(PathBuf, String)>> =
            paths.par_iter().map(|path| read_named(path, self.within.as_deref())).collect();
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
    /// and are neither parsed nor followed unless another file uses them.
    pub fn load_but(
        &mut self,
        paths: &[PathBuf],
        is_needless: impl Fn(SourceId) -> bool,
    ) -> Vec<Result<SourceId, Unreadable>> {
        let (aside, needed): (Vec<_>, Vec<_>) =
            std::mem::take(&mut self.unparsed).into_iter().partition(|(_, (_, source))| is_needless(*source));
        self.unparsed = aside.into_iter().collect();
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

/// Reads a file that was named; `None` leaves it to [`Loader::load`] to say why it cannot be.
fn read_named(path: &Path, within: Option<&Path>) -> Option<(PathBuf, String)> {
    if path == Path::new("-") {
        return None;
    }
    let real = real_within(path, within).ok()?;
    let text = read_real(&real).ok()?;
    Some((real, text))
}
