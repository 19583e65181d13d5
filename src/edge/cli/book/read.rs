//! A book as it is read and checked: from a book file, or of all recipes of a folder.

use crate::check::{check_but, stops};
use crate::edge::cli::Outcome;
use crate::edge::cli::batches::show;
use crate::edge::cli::output::Output;
use crate::edge::cli::stop::Stop;
use crate::edge::loader::{Loader, find_files, must_be_there};
use crate::figures::book::slug::in_order;
use crate::figures::book::{self as figures, Book};
use crate::figures::reader::ReaderPage;
use crate::language::syntax::{Content, FileKind};
use crate::measure::show::Units;
use crate::model::book::{self, Chapter};
use crate::model::project::Project;
use crate::solve::resolve;
use crate::text::diagnostic::{Diagnostic, Severity};
use crate::text::source::SourceId;
use std::collections::{HashMap, HashSet};
use std::path::{Path, PathBuf};

/// A book with its recipes.
pub(super) struct ReadBook {
    /// All its files.
    pub(super) project: Project,
    /// What it holds.
    pub(super) model: book::Book,
    /// The book's own file; `None` for a folder without one.
    source: Option<SourceId>,
}

/// What is known of recipes before they are checked.
#[derive(Debug, Default)]
pub(super) struct Known {
    /// How many warnings a recipe has that neither has an error nor uses what has one.
    pub(super) warnings: HashMap<SourceId, usize>,
    /// Those recipes, and all that they use.
    pub(super) sound: HashSet<SourceId>,
}

impl ReadBook {
    /// Reads a book file, or a folder.
    ///
    /// # Errors
    /// When it cannot be read.
    pub(super) fn of(path: &Path) -> Result<ReadBook, Stop> {
        must_be_there(path)?;
        let mut loader = Loader::new();
        let (source, recipes) =
            if path.is_dir() { folder(path, &mut loader)? } else { (Some(file(path, &mut loader)?), Vec::new()) };
        let project = loader.into_project();
        let model = match source {
            Some(source) => resolve::book::book(&project, source, &mut Vec::new()).unwrap_or_default(),
            None => alphabetical(&project, path, &recipes),
        };
        Ok(ReadBook { project, model, source })
    }

    /// The files of its recipes, in the order of the book, without links.
    pub(super) fn files(&self) -> Vec<PathBuf> {
        let name = |source: SourceId| self.project.sources.get(source).map_or("", |source| &source.name);
        let real = |name: &str| std::fs::canonicalize(name).unwrap_or_else(|_| PathBuf::from(name));
        self.model.pages().map(|page| real(name(page.recipe))).collect()
    }

    /// The book worked out, with the main page of each recipe.
    ///
    /// # Errors
    /// When one of them cannot be made in a size that was asked for.
    pub(super) fn bound(&self, units: Units) -> Result<(Book, Vec<ReaderPage>), Stop> {
        Book::of(&self.project, &self.model, units).map_err(cannot)
    }
}

/// A book file. Its recipes are read side by side before they are followed one by one.
fn file(path: &Path, loader: &mut Loader) -> Result<SourceId, Stop> {
    let mut first = Loader::new();
    if let Ok(text) = crate::edge::loader::read_text(path) {
        let (tree, _) = crate::language::parse::parse(SourceId(0), &text);
        let folder = path.parent().unwrap_or(Path::new(""));
        let pages: Vec<PathBuf> =
            tree.lines.iter().filter_map(|line| line.content.path()).map(|path| folder.join(&path.value)).collect();
        // Those that cannot be read are told where the book names them.
        drop(first.load_all(&pages));
    }
    let source = first.load(path)?;
    *loader = first;
    let kind = loader.project().file(source).map(|file| file.tree.kind);
    if kind != Some(FileKind::Book) {
        return Err(format!("{}: this is no book; a book begins with `book NAME` and has a line `page \"rolls.miche\"` for each recipe. Without one, give the \
             folder that the recipes lie in",
            path.display()
        ).into());
    }
    Ok(source)
}

/// A folder: the book in it, or else its recipes.
fn folder(path: &Path, loader: &mut Loader) -> Result<(Option<SourceId>, Vec<SourceId>), Stop> {
    let files = find_files(path)?;
    let mut read = Vec::with_capacity(files.len());
    for (file, source) in files.iter().zip(loader.load_all(&files)) {
        read.push((file, source?));
    }
    let of = |kind: FileKind| {
        let is_so = |source: &SourceId| loader.project().file(*source).is_some_and(|file| file.tree.kind == kind);
        read.iter().filter(|(_, source)| is_so(source)).map(|(file, source)| (*file, *source)).collect::<Vec<_>>()
    };
    let books = of(FileKind::Book);
    match books.as_slice() {
        [(_, book)] => Ok((Some(*book), Vec::new())),
        [] => {
            let recipes: Vec<SourceId> = of(FileKind::Recipe).into_iter().map(|(_, source)| source).collect();
            if recipes.is_empty() {
                return Err(format!("{}: there is no recipe in this folder", path.display()).into());
            }
            Ok((None, recipes))
        }
        several => {
            let names: Vec<String> = several.iter().map(|(file, _)| file.display().to_string()).collect();
            Err(format!("{}: several books lie in this folder; name one of them: {}", path.display(), names.join(", "))
                .into())
        }
    }
}

/// Recipes by their titles, in one chapter without a name.
fn alphabetical(project: &Project, folder: &Path, recipes: &[SourceId]) -> book::Book {
    let title_of = |source: SourceId| {
        let lines = project.file(source).map_or(&[][..], |file| &file.tree.lines);
        lines.iter().find_map(|line| match &line.content {
            Content::Recipe(name) => Some(name.to_string()),
            _ => None,
        })
    };
    let mut named: Vec<(String, SourceId)> =
        recipes.iter().map(|source| (in_order(&title_of(*source).unwrap_or_default()), *source)).collect();
    named.sort();
    let pages = named.into_iter().map(|(_, source)| resolve::book::plain_page(project, source)).collect();
    let whole = std::fs::canonicalize(folder).unwrap_or_else(|_| folder.to_owned());
    let title = whole.file_name().map_or_else(|| "Recipes".to_owned(), |name| name.to_string_lossy().into_owned());
    book::Book { title, chapters: vec![Chapter { pages, ..Chapter::default() }], ..book::Book::default() }
}

/// What is said of a recipe that cannot be made.
pub(super) fn cannot(impossible: figures::Impossible) -> Stop {
    Stop::from(impossible.to_string())
}

impl ReadBook {
    /// Tells what is wrong; errors end the run. Of warnings only those of the book itself are told: what its recipes have is counted.
    /// Gives, for each recipe that was looked at and neither has an error nor uses what has one, how many warnings it has.
    ///
    /// # Errors
    /// When a file has errors, which were told.
    pub(super) fn check(&self, known: &Known, output: &Output) -> Result<Vec<(SourceId, usize)>, Stop> {
        let ReadBook { project, model, source } = self;
        let mut sources: Vec<SourceId> = source.iter().copied().collect();
        sources.extend(model.pages().map(|page| page.recipe).filter(|recipe| !known.warnings.contains_key(recipe)));
        sources.sort_unstable();
        sources.dedup();
        let sound: HashSet<SourceId> = known.sound.iter().filter(|file| !sources.contains(file)).copied().collect();
        let checked = check_but(project, &sources, &sound);
        let found = || checked.problems.iter().flatten();
        let is_warning = |problem: &Diagnostic| problem.severity == Severity::Warning;
        let own = |problem: &Diagnostic| Some(problem.span.source) == *source && is_warning(problem);
        show(project, found().filter(|problem| stops(problem) || own(problem)), output);
        if found().any(stops) {
            return Err(Outcome::Errors.into());
        }
        let others = |problems: &[Diagnostic]| problems.iter().filter(|one| is_warning(one) && !own(one)).count();
        let of_known: usize = known.warnings.values().sum();
        let total = of_known + checked.problems.iter().map(|problems| others(problems)).sum::<usize>();
        if total > 0 {
            let said = if total == 1 { "1 warning".to_owned() } else { format!("{total} warnings") };
            output.complain(&format!("{said} in the recipes of this book; `miche check` tells them"));
        }
        let of_files = sources.into_iter().zip(&checked.problems).zip(checked.sound);
        Ok(of_files.filter(|(_, sound)| *sound).map(|((file, problems), _)| (file, others(problems))).collect())
    }
}
