//! Two versions of a file, or one file worked two ways: what is compared with what.

use super::{Comparison, Figure, Version, compare, merge};
use crate::check::{check_file, work_out};
use crate::language::syntax::FileKind;
use crate::model::project::Project;
use crate::model::recipe::{Choice, Recipe, Selection};
use crate::solve::formula::Formula;
use crate::solve::resolve::{choices_of, selections};
use crate::text::diagnostic::Diagnostic;
use crate::text::source::SourceId;

/// A version of a file, with what it uses.
pub struct FileVersion {
    /// The files of this version.
    pub project: Project,
    /// Which of them is compared.
    pub source: SourceId,
    /// What `check` finds in it.
    pub problems: Vec<Diagnostic>,
}

impl FileVersion {
    /// A file that was read.
    pub fn of(project: Project, source: SourceId) -> FileVersion {
        let problems = check_file(&project, source);
        FileVersion { project, source, problems }
    }

    /// The other side of a file that is new or gone.
    pub fn nothing() -> FileVersion {
        FileVersion { project: Project::default(), source: SourceId(0), problems: Vec::new() }
    }

    /// Whether it is a recipe.
    pub fn is_recipe(&self) -> bool {
        self.project.file(self.source).is_some_and(|file| file.tree.kind == FileKind::Recipe)
    }

    /// Its text.
    pub fn text(&self) -> Option<&str> {
        self.project.sources.get(self.source).map(|source| &*source.text)
    }

    /// What it lets choose.
    pub fn choices(&self) -> Vec<Choice> {
        self.project.file(self.source).map_or_else(Vec::new, |file| choices_of(&file.tree))
    }

    /// The recipe and its amounts under a selection; `None` where there is no recipe.
    pub fn worked(&self, selection: &Selection) -> Option<(Recipe, Formula)> {
        work_out(&self.project, self.source, selection, &mut Vec::new())
    }

    fn version<'a>(&'a self, worked: &'a (Recipe, Formula)) -> Version<'a> {
        Version { recipe: &worked.0, formula: &worked.1, problems: &self.problems }
    }
}

/// The comparison of two versions over every way to choose.
pub fn versions(old: &FileVersion, new: &FileVersion) -> Option<Comparison> {
    let mut all: Vec<(Selection, Comparison)> = Vec::new();
    let choices = choices_of_both(old, new);
    for selection in selections(&choices) {
        let (old_one, new_one) = (old.worked(&selection), new.worked(&selection));
        let empty = empty_recipe(old_one.as_ref().or(new_one.as_ref()));
        let (Some(old_worked), Some(new_worked)) =
            (old_one.as_ref().or(empty.as_ref()), new_one.as_ref().or(empty.as_ref()))
        else {
            continue;
        };
        all.push((selection, compare(old.version(old_worked), new.version(new_worked))));
    }
    merge(&choices, all)
}

/// One file worked two ways, side by side.
pub fn two_ways(file: &FileVersion, one: &Selection, other: &Selection) -> Option<Comparison> {
    let (one_worked, other_worked) = (file.worked(one)?, file.worked(other)?);
    let mut comparison = compare(file.version(&one_worked), file.version(&other_worked));
    let choices = file.choices();
    let taken = |selection: &Selection| -> String {
        let option = |choice: &Choice| {
            let chosen = selection.of(&choice.name.key);
            let option = choice.options.iter().find(|option| chosen == Some(&option.key)).or(choice.options.first());
            option.map(|option| format!("{}: {option}", choice.name))
        };
        choices.iter().filter_map(option).collect::<Vec<String>>().join("; ")
    };
    let ways = Figure::words("way", taken(one), taken(other));
    comparison.head.splice(0..0, ways);
    Some(comparison)
}

/// The choices of both versions: the new one's, and after them what only the old one had. An option that one version
/// does not know is there its default.
fn choices_of_both(old: &FileVersion, new: &FileVersion) -> Vec<Choice> {
    let mut choices = new.choices();
    for before in old.choices() {
        match choices.iter_mut().find(|choice| choice.name.same(&before.name)) {
            Some(choice) => {
                for option in before.options {
                    if !choice.options.iter().any(|known| known.same(&option)) {
                        choice.options.push(option);
                    }
                }
            }
            None => choices.push(before),
        }
    }
    choices
}

/// The other side of a file that is new or gone: the same recipe with nothing in it.
fn empty_recipe(of: Option<&(Recipe, Formula)>) -> Option<(Recipe, Formula)> {
    let (recipe, _) = of?;
    let mut empty = recipe.clone();
    empty.parts.clear();
    empty.makes = None;
    empty.pan = None;
    empty.bake_loss = None;
    empty.choices.clear();
    empty.texts.clear();
    empty.aims.clear();
    empty.used.clear();
    let formula = Formula::of(&empty, &mut Vec::new());
    Some((empty, formula))
}
