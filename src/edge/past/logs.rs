//! Which logs are of which recipe: each folder is looked through once, and of each log no more is read than its first line.

use crate::edge::loader::{find_logs, folder_of, real_path, recipe_of_log};
use std::collections::{HashMap, HashSet};
use std::path::{Path, PathBuf};

/// The logs that lie around, as far as somebody asked.
#[derive(Debug, Default)]
pub(in crate::edge) struct Logs {
    /// By folder the logs in it and below, by their recipe as [`real_path`] names it.
    folders: HashMap<PathBuf, HashMap<PathBuf, Vec<PathBuf>>>,
}

impl Logs {
    /// The logs of a recipe in its folder and below.
    pub(in crate::edge) fn of(&mut self, recipe: &Path) -> Vec<PathBuf> {
        let folder = self.folders.entry(folder_of(recipe).to_owned()).or_insert_with_key(|folder| logs_in(folder));
        folder.get(&real_path(recipe)).cloned().unwrap_or_default()
    }
}

/// Recipes in the order in which they were met, each once and with its logs, whatever they are called.
#[derive(Debug, Default)]
pub(in crate::edge) struct Recipes {
    list: Vec<(PathBuf, Vec<PathBuf>)>,
    places: HashMap<PathBuf, usize>,
    logs: HashSet<PathBuf>,
}

impl Recipes {
    /// Notes that a log is of a recipe.
    pub(in crate::edge) fn note(&mut self, recipe: PathBuf, log: PathBuf) {
        let at = *self.places.entry(real_path(&recipe)).or_insert(self.list.len());
        if at == self.list.len() {
            self.list.push((recipe, Vec::new()));
        }
        if self.logs.insert(real_path(&log))
            && let Some((_, logs)) = self.list.get_mut(at)
        {
            logs.push(log);
        }
    }

    /// The recipes with their logs.
    pub(in crate::edge) fn list(&self) -> &[(PathBuf, Vec<PathBuf>)] {
        &self.list
    }
}

fn logs_in(folder: &Path) -> HashMap<PathBuf, Vec<PathBuf>> {
    let mut all: HashMap<PathBuf, Vec<PathBuf>> = HashMap::new();
    for log in find_logs(folder) {
        if let Some(recipe) = recipe_of_log(&log) {
            all.entry(real_path(&recipe)).or_default().push(log);
        }
    }
    all
}
