//! All files of one run, read and bound to each other by their `use` and `make` lines.
//!
//! The loader fills this in; from here on nothing touches a disk.

use crate::language::syntax::{Content, FileKind, Key, Name, Tree};
use crate::measure::temperature::TemperatureDifference;
use crate::measure::value::Told;
use crate::model::kitchen::Kitchen;
use crate::model::larder::{Larder, builtin, pantry};
use crate::model::published::PictureFile;
use crate::model::recipe::{Recipe, Selection};
use crate::text::diagnostic::Diagnostic;
use crate::text::quick::QuickMap;
use crate::text::source::{SourceId, Sources, Span};
use std::collections::HashSet;
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
type AllResolved = QuickMap<(SourceId, Selection), Resolved>;

/// All files of one run.
#[derive(Debug, Clone, Default)]
pub struct Project {
    /// Their texts.
    pub sources: Sources,
    files: QuickMap<SourceId, File>,
    links: QuickMap<Span, SourceId>,
    stocks: QuickMap<Span, Vec<(Name, Told)>>,
    /// What was resolved in this run: the files are checked side by side, and many use the same few.
    resolved: Arc<Mutex<AllResolved>>,
    pictures: QuickMap<Span, PictureFile>,
    pantries: Pantries,
    /// By how much mixing in the equipment of a home warms a dough, where that was measured: no file says it.
    friction_at_home: Vec<(Key, TemperatureDifference)>,
}

/// What some kitchen and larder files bring.
#[derive(Debug, Clone)]
pub struct Pantry {
    /// The last kitchen of them; a home's where none is.
    pub kitchen: Arc<Kitchen>,
    /// What all of them know of ingredients.
    pub larder: Arc<Larder>,
}

/// What was understood of kitchens and larders: a thousand recipes use the same few. A copy of a project begins with nothing, since
/// it may take in other files.
#[derive(Debug, Default)]
struct Pantries {
    /// By the files that were asked for.
    of_files: Known<Pantry>,
    /// By the files that describe ingredients, those in between left out.
    larders: Known<Arc<Larder>>,
}

/// What was found out of some files.
#[derive(Debug)]
struct Known<T>(Mutex<QuickMap<Vec<SourceId>, T>>);

impl<T> Default for Known<T> {
    fn default() -> Known<T> {
        Known(Mutex::default())
    }
}

impl<T: Clone> Known<T> {
    /// What was found out before, or is now.
    fn or_find(&self, files: &[SourceId], find: impl FnOnce() -> T) -> T {
        let known = self.0.lock().ok().and_then(|known| known.get(files).cloned());
        known.unwrap_or_else(|| {
            let found = find();
            if let Ok(mut known) = self.0.lock() {
                known.insert(files.to_vec(), found.clone());
            }
            found
        })
    }
}

impl Clone for Pantries {
    fn clone(&self) -> Pantries {
        Pantries::default()
    }
}

impl Project {
    /// What was found out of the files as they were holds no longer.
    fn changed(&mut self) {
        self.pantries = Pantries::default();
        self.resolved = Arc::default();
    }

    /// Takes a file in.
    pub fn add(&mut self, file: File) {
        self.changed();
        self.files.insert(file.tree.source, file);
    }

    /// Takes a file out. Where its paths lead is kept, for when it is taken in again as it was.
    pub fn take_out(&mut self, source: SourceId) -> Option<File> {
        self.files.remove(&source)
    }

    /// Binds the path written at `place` to a file.
    pub fn link(&mut self, place: Span, target: SourceId) {
        self.changed();
        self.links.insert(place, target);
    }

    /// Binds the path of a list of what there is to what stands on it.
    pub fn put_stock(&mut self, place: Span, stock: Vec<(Name, Told)>) {
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
    pub fn stock(&self, place: Span) -> &[(Name, Told)] {
        self.stocks.get(&place).map_or(&[], Vec::as_slice)
    }

    /// The file of that text.
    pub fn file(&self, source: SourceId) -> Option<&File> {
        self.files.get(&source)
    }

    /// All files that are there, in no order.
    pub fn files(&self) -> impl Iterator<Item = &File> {
        self.files.values()
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

    /// Notes by how much mixing in a piece of equipment of a home warms a dough, as it was measured; what was noted first counts.
    pub fn put_friction_at_home(&mut self, equipment: &Key, warms: TemperatureDifference) {
        if self.friction_at_home.iter().all(|(known, _)| known != equipment) {
            self.changed();
            self.friction_at_home.push((equipment.clone(), warms));
        }
    }

    /// The kitchen of whoever names none.
    fn home_kitchen(&self) -> Kitchen {
        let mut home = builtin::home_kitchen();
        for (equipment, warms) in &self.friction_at_home {
            if let Some(one) = home.equipment.iter_mut().find(|one| one.name.key == *equipment) {
                one.friction = Some(*warms);
            }
        }
        home
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

    /// What kitchen and larder files bring together, each with those that it uses itself, in their order.
    pub fn pantry(&self, files: &[SourceId]) -> Pantry {
        self.pantries.of_files.or_find(files, || {
            let trees: Vec<&Tree> = files.iter().flat_map(|file| self.pantries(*file)).collect();
            let kitchen = trees.iter().rev().find(|tree| tree.says(|content| matches!(content, Content::Kitchen(_))));
            let home = self.home_kitchen();
            let kitchen = kitchen.map(|tree| pantry::kitchen(tree, &home, &mut Vec::new())).unwrap_or(home);
            Pantry { kitchen: Arc::new(kitchen), larder: self.larder(trees) }
        })
    }

    fn larder(&self, mut trees: Vec<&Tree>) -> Arc<Larder> {
        trees.retain(|tree| tree.says(|content| matches!(content, Content::IngredientBlock(_))));
        let files: Vec<SourceId> = trees.iter().map(|tree| tree.source).collect();
        self.pantries.larders.or_find(&files, || {
            let mut larder = Larder::new();
            trees.iter().for_each(|tree| pantry::bring(pantry::blocks(tree).0, &mut larder));
            Arc::new(larder)
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::language::parse::parse;

    const LARDER: SourceId = SourceId(1);

    fn put(project: &mut Project, text: &str) {
        let (tree, diagnostics) = parse(LARDER, text);
        project.add(File { tree: Arc::new(tree), diagnostics });
    }

    fn allergens(project: &Project) -> Vec<String> {
        let larder = project.pantry(&[LARDER]).larder;
        larder.find(&Key::new("spread")).map(|facts| facts.allergens.clone()).unwrap_or_default()
    }

    /// A thousand recipes have one larder; when its file is read anew, none has the old one, nor has a copy the new one.
    #[test]
    fn a_larder_is_understood_once_and_never_stale() {
        let mut project = Project::default();
        put(&mut project, "ingredient spread\ncontains milk\n");
        assert_eq!(allergens(&project), ["milk"]);
        assert!(Arc::ptr_eq(&project.pantry(&[LARDER]).larder, &project.pantry(&[LARDER]).larder));
        let copy = project.clone();
        put(&mut project, "ingredient spread\ncontains eggs\n");
        assert_eq!(allergens(&project), ["eggs"]);
        assert_eq!(allergens(&copy), ["milk"]);
    }
}
