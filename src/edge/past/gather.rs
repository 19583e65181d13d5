//! The bakes of a recipe, each with the formula as it stood that day: logs from the folder, formulas from git.

use super::of_git::OfGit;
use super::recalled::Past;
use crate::check::bakes::{Version as Checked, in_the_future};
use crate::check::check_file;
use crate::edge::loader::{Loader, ReadLog, real_path, recipe_of_log};
use crate::figures::bakes::{OfVersion, Told, Version, told};
use crate::figures::compare::FileVersion;
use crate::language::bakes::{Bake, Log};
use crate::language::syntax::FileKind;
use crate::model::project::Project;
use crate::text::diagnostic::{Diagnostic, Severity};
use crate::text::source::{SourceId, Span};
use jiff::civil::Date;
use std::collections::{HashMap, HashSet};
use std::ops::Range;
use std::path::{Path, PathBuf};

/// A recipe with its bakes.
pub(in crate::edge) struct Gathered {
    /// The recipe.
    pub(in crate::edge) recipe: PathBuf,
    /// The versions that bakes are of; the last is the file as it is.
    pub(in crate::edge) versions: Vec<Version>,
    /// The bakes of all logs.
    pub(in crate::edge) bakes: Vec<OfVersion>,
    /// The logs, and what they use.
    pub(in crate::edge) project: Project,
    /// What is wrong with the logs.
    pub(in crate::edge) problems: Vec<Diagnostic>,
    /// Where the formulas come from, in sentences.
    pub(in crate::edge) remarks: Vec<String>,
    of_git: OfGit,
}

impl Gathered {
    /// The file as it is.
    pub(in crate::edge) fn file(&self) -> Option<&FileVersion> {
        self.versions.last().map(|version| &version.file)
    }

    /// What the bakes say.
    pub(in crate::edge) fn told(&self) -> Told {
        told(&self.versions, self.versions.len().saturating_sub(1), &self.bakes)
    }

    /// Keeps what git gave for the next look.
    pub(super) fn keep(mut self, past: &mut Past) {
        // The file as it is stands last, and is read anew.
        self.versions.pop();
        past.keep(real_path(&self.recipe), self.of_git, self.versions);
    }

    /// Whether a log has an error.
    pub(in crate::edge) fn has_errors(&self) -> bool {
        self.problems.iter().any(|problem| problem.severity == Severity::Error)
    }
}

/// The recipe that a file is, or that a log names; `None` for a file that is neither.
pub(in crate::edge) fn recipe_of(path: &Path) -> Result<Option<PathBuf>, String> {
    if let Some(recipe) = recipe_of_log(path) {
        return Ok(Some(recipe));
    }
    let mut loader = Loader::new();
    let source = loader.load(path).map_err(|error| error.to_string())?;
    let log = loader.log_of(source);
    let kind = loader.project().file(source).map(|file| file.tree.kind);
    Ok(match (kind, &log.log.of) {
        (Some(FileKind::Recipe), _) => Some(path.to_owned()),
        (Some(FileKind::Bakes), Some(of)) => {
            let folder = path.parent().unwrap_or(Path::new(""));
            let folder = if path == Path::new("-") { Path::new("") } else { folder };
            Some(folder.join(&of.value))
        }
        _ => None,
    })
}

/// The bakes of a recipe, from the logs in its folder and below, and from those that are named.
///
/// # Errors
/// In a sentence: the recipe cannot be read, or is none.
pub(in crate::edge) fn gather(
    recipe: &Path,
    named: &[PathBuf],
    past: &mut Past,
    today: Date,
) -> Result<Gathered, String> {
    let shown = recipe.display().to_string();
    let is_open = past.is_open();
    let mut loader = past.loader();
    let source = loader.load_as(recipe, &shown);
    let project = past.read(loader, is_open);
    let now = FileVersion::of(project, source.map_err(|error| error.to_string())?);
    if !now.is_recipe() {
        return Err(format!("{shown} is no recipe; bakes are of recipes"));
    }
    let wanted = real_path(recipe);
    let mut paths: Vec<PathBuf> = named.to_vec();
    let known: HashSet<PathBuf> = named.iter().map(|path| real_path(path)).collect();
    paths.extend(past.logs_of(recipe).into_iter().filter(|path| !known.contains(&real_path(path))));
    let mut loader = past.loader();
    let mut logs: Vec<(SourceId, ReadLog)> = Vec::new();
    let mut unread = None;
    for path in &paths {
        let source = match loader.load(path) {
            Ok(source) => source,
            Err(error) => {
                unread = Some(error.to_string());
                break;
            }
        };
        let log = loader.log_of(source);
        let folder = path.parent().unwrap_or(Path::new(""));
        let leads_here = log.log.of.as_ref().is_some_and(|of| real_path(&folder.join(&of.value)) == wanted);
        if leads_here && !logs.iter().any(|(known, _)| *known == source) {
            logs.push((source, log));
        }
    }
    let project = past.read(loader, is_open);
    if let Some(why) = unread {
        return Err(why);
    }
    let (mut of_git, mut versions) = past.of_git(&wanted);
    let (mut bakes, mut remarks) = (Vec::new(), of_git.remarks.clone());
    let mut found = Vec::with_capacity(logs.len());
    let mut seen: HashMap<&str, Span> = HashMap::new();
    for (source, log) in logs {
        let mut problems = check_file(&project, source);
        problems.extend(in_the_future(&log.log, today));
        let first = bakes.len();
        let recipe = log.log.of.as_ref().and_then(|path| project.target(path.span));
        let written = as_written(&log.log, project.sources.get(source).map_or("", |source| &source.text));
        for (bake, text) in log.log.bakes.into_iter().zip(written) {
            let before = *seen.entry(text).or_insert(bake.date.span);
            if before.source != source && says_enough(&bake) {
                problems.push(stands_twice(&bake, before));
                continue;
            }
            let version = of_git.version(&bake, &mut versions, &mut problems);
            bakes.push((bake, version));
        }
        found.push((recipe, problems, first..bakes.len()));
    }
    let problems = beside_their_days(&project, &versions, &bakes, found);
    let now_at = versions.len();
    versions.push(Version { revision: None, file: now });
    of_git.say(bakes.iter().filter(|(_, version)| version.is_none()).count(), &mut remarks);
    let bakes =
        bakes.into_iter().map(|(bake, version)| OfVersion { bake, version: version.unwrap_or(now_at) }).collect();
    Ok(Gathered { recipe: recipe.to_owned(), versions, bakes, project, problems, remarks, of_git })
}

/// The lines of each bake of a log.
fn as_written<'t>(log: &Log, text: &'t str) -> Vec<&'t str> {
    let begins: Vec<usize> = log.bakes.iter().map(|bake| bake.date.span.range().start).collect();
    let ends = begins.iter().skip(1).map(|next| text.get(..*next).and_then(|above| above.rfind('\n')).unwrap_or(*next));
    let ends = ends.chain(std::iter::once(text.len()));
    begins.iter().zip(ends).map(|(begin, end)| text.get(*begin..end).unwrap_or("").trim_end()).collect()
}

/// Whether two bakes of the same words are one: a day alone may be said of the bakes of two houses.
fn says_enough(bake: &Bake) -> bool {
    bake.time.is_some() || !bake.steps.is_empty() || !bake.went_in.is_empty()
}

/// A log that was copied, as folders that are shared do by themselves, would make two bakes of each of its own.
fn stands_twice(bake: &Bake, before: Span) -> Diagnostic {
    let message =
        format!("the bake of {} stands in another log too, word for word: it is counted once", bake.said(" "));
    Diagnostic::warning("twice-named", bake.date.span, message)
        .also(before, "the other")
        .help("take the copy of the log away, or write in it what was otherwise")
}

/// The problems of logs, those of bakes of an older version beside that and not beside the recipe as it is: what the recipe of
/// today does not have, that of the day may.
fn beside_their_days(
    project: &Project,
    versions: &[Version],
    bakes: &[(Bake, Option<usize>)],
    logs: Vec<(Option<SourceId>, Vec<Diagnostic>, Range<usize>)>,
) -> Vec<Diagnostic> {
    let mut then: Vec<Checked<'_>> =
        versions.iter().map(|version| Checked::of(&version.file.project, version.file.source)).collect();
    let mut all = Vec::new();
    for (recipe, mut problems, of_log) in logs {
        let mut now = recipe.map(|recipe| Checked::of(project, recipe));
        for (bake, version) in bakes.get(of_log).unwrap_or_default() {
            let Some(then) = version.and_then(|at| then.get_mut(at)) else { continue };
            let (mut beside_now, mut beside_then) = (Vec::new(), Vec::new());
            if let Some(now) = &mut now {
                now.check(bake, &mut beside_now);
            }
            then.check(bake, &mut beside_then);
            if beside_now != beside_then {
                problems.retain(|problem| !beside_now.contains(problem));
                problems.extend(beside_then);
            }
        }
        all.extend(problems);
    }
    all
}
