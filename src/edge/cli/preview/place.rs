//! What a preview may show: the `.miche` files below the project's root, by their paths from it, and nothing else.

use crate::edge::loader::{Loader, is_log, reason, root_of};
use std::fs;
use std::path::{Component, Path, PathBuf};

/// The most folders that are looked through.
const MOST_FOLDERS: usize = 4096;

/// The most logs that are read for one plan.
const MOST_LOGS: usize = 64;

/// What was asked to be shown, and how far files may be read.
#[derive(Debug)]
pub(super) struct Place {
    /// The project's root, without links: nothing outside is read.
    root: PathBuf,
    /// The folder whose recipes are listed.
    base: PathBuf,
    /// The file that was asked for, as its name.
    file: Option<String>,
}

impl Place {
    /// The place that a path on the command line names.
    ///
    /// # Errors
    /// A sentence, when there is nothing there that could be shown.
    pub(super) fn of(path: &Path) -> Result<Place, String> {
        let shown = path.display();
        let real = fs::canonicalize(path).map_err(|error| format!("{shown}: {}", reason(&error)))?;
        if real.is_dir() {
            return Ok(Place { root: root_of(&real.join("x")), base: real, file: None });
        }
        let base = real.parent().unwrap_or(Path::new("/")).to_owned();
        let mut place = Place { root: root_of(&real), base, file: None };
        place.file = Some(place.name(&real).ok_or_else(|| {
            format!("{shown}: only files that end in .miche are shown; give one, or a folder of them")
        })?);
        Ok(place)
    }

    /// The query of the page that shows what was asked for.
    pub(super) fn query(&self) -> String {
        self.file.as_ref().map_or_else(String::new, |file| {
            format!("?{}", form_urlencoded::Serializer::new(String::new()).append_pair("file", file).finish())
        })
    }

    /// The file's path from the root, with `/`; `None` for what is not shown.
    pub(super) fn name(&self, real: &Path) -> Option<String> {
        if real.extension().is_none_or(|ending| ending != "miche") {
            return None;
        }
        let inside = real.strip_prefix(&self.root).ok()?;
        let names: Option<Vec<&str>> = inside.iter().map(|name| name.to_str()).collect();
        names.map(|names| names.join("/"))
    }

    /// The file of that name, without links; `None` when it is none, or is not to be shown.
    pub(super) fn file(&self, name: &str) -> Option<PathBuf> {
        let path = Path::new(name);
        let plain = path.components().all(|part| matches!(part, Component::Normal(_)));
        if !plain || name.contains(['\\', '\0']) || name.is_empty() {
            return None;
        }
        let real = fs::canonicalize(self.root.join(path)).ok()?;
        // A link may lead elsewhere: what counts is where the file is.
        let shown = real.starts_with(&self.root) && real.extension().is_some_and(|ending| ending == "miche");
        (shown && real.is_file()).then_some(real)
    }

    /// What reads files of this place: only where they lie now, so that one that is swapped for a link meanwhile is not read.
    pub(super) fn loader(&self) -> Loader {
        Loader::within(&self.root)
    }

    /// The files of the list, by name, and the folders they may appear in.
    ///
    /// For a file, those beside it; for a folder, those below it that git does not ignore.
    pub(super) fn listed(&self) -> (Vec<(String, PathBuf)>, Vec<PathBuf>) {
        let mut walk = ignore::WalkBuilder::new(&self.base);
        walk.max_depth(self.file.is_some().then_some(1));
        let (mut files, mut folders) = (Vec::new(), vec![self.base.clone()]);
        for entry in walk.build().filter_map(Result::ok) {
            if entry.file_type().is_some_and(|kind| kind.is_dir()) {
                if self.file.is_none() && folders.len() < MOST_FOLDERS {
                    folders.push(entry.into_path());
                }
                continue;
            }
            let name = self.name(entry.path());
            files.extend(name.and_then(|name| self.file(&name).map(|real| (name, real))));
        }
        files.sort();
        folders.dedup();
        (files, folders)
    }

    /// The logs of bakes that lie beside a file, by name, the first so many.
    pub(super) fn logs_beside(&self, file: &Path) -> Vec<PathBuf> {
        let entries = file.parent().and_then(|folder| fs::read_dir(folder).ok());
        let paths = entries.into_iter().flatten().filter_map(Result::ok).map(|entry| entry.path());
        let inside = |path: PathBuf| fs::canonicalize(path).ok().filter(|real| real.starts_with(&self.root));
        let mut logs: Vec<PathBuf> = paths.filter_map(inside).filter(|real| real.is_file() && is_log(real)).collect();
        logs.sort();
        logs.dedup();
        logs.truncate(MOST_LOGS);
        logs
    }

    /// A path as it is shown in a problem (`examples/../larder.miche`) as the file's name.
    pub(super) fn name_shown(&self, shown: &str) -> String {
        fs::canonicalize(self.root.join(shown))
            .ok()
            .and_then(|real| self.name(&real))
            .unwrap_or_else(|| shown.to_owned())
    }
}
