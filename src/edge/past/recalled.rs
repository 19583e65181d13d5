//! What is kept from one look at the past to the next: which logs lie where, the formulas that git gave, the texts that an editor has open.

use super::logs::Logs;
use super::of_git::OfGit;
use crate::edge::loader::{Cache, Loader};
use crate::figures::bakes::Version;
use crate::model::project::Project;
use std::collections::HashMap;
use std::path::{Path, PathBuf};

/// What is kept. A command looks once, and keeps it for its own files; an editor looks at every pause in the typing.
#[derive(Default)]
pub(in crate::edge) struct Past {
    logs: Logs,
    /// By recipe, as [`real_path`](crate::edge::loader::real_path) names it.
    of_git: HashMap<PathBuf, (OfGit, Vec<Version>)>,
    /// The texts that an editor has open, in place of what the disk holds.
    cache: Option<Cache>,
}

impl std::fmt::Debug for Past {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.debug_struct("Past").field("recipes", &self.of_git.keys()).finish_non_exhaustive()
    }
}

impl Past {
    /// The logs of a recipe in its folder and below.
    pub(in crate::edge) fn logs_of(&mut self, recipe: &Path) -> Vec<PathBuf> {
        self.logs.of(recipe)
    }

    /// Logs may lie elsewhere now.
    pub(in crate::edge) fn disk_changed(&mut self) {
        self.logs = Logs::default();
    }

    /// Looks with the texts of a cache, and gives the cache back.
    pub(in crate::edge) fn with_open<T>(&mut self, cache: &mut Cache, look: impl FnOnce(&mut Past) -> T) -> T {
        self.cache = Some(std::mem::take(cache));
        let found = look(self);
        *cache = self.cache.take().unwrap_or_default();
        found
    }

    /// A loader for texts as they are now.
    pub(super) fn loader(&mut self) -> Loader {
        self.cache.take().map_or_else(Loader::new, Loader::on)
    }

    /// Everything that such a loader read; what stays read is kept.
    pub(super) fn read(&mut self, loader: Loader, is_open: bool) -> Project {
        if !is_open {
            return loader.into_project();
        }
        let (project, cache) = loader.into_parts();
        self.cache = Some(cache);
        project
    }

    /// Whether an editor's texts count.
    pub(super) fn is_open(&self) -> bool {
        self.cache.is_some()
    }

    /// What git has of a recipe, with the versions of it that were read; asked for again once there is another last commit.
    pub(super) fn of_git(&mut self, recipe: &Path) -> (OfGit, Vec<Version>) {
        let known = self.of_git.remove(recipe).filter(|(of_git, _)| of_git.is_current());
        known.unwrap_or_else(|| (OfGit::of(recipe), Vec::new()))
    }

    /// Keeps what git has of a recipe.
    pub(super) fn keep(&mut self, recipe: PathBuf, of_git: OfGit, versions: Vec<Version>) {
        self.of_git.insert(recipe, (of_git, versions));
    }
}
