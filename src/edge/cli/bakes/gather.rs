//! The bakes of a recipe, each with the formula as it stood that day: logs from the folder, formulas from git.

use super::super::checkout::{Checkout, nearest_real, top_of};
use super::super::diff::read;
use super::super::revision::{quiet_git, revisions};
use super::logs::Logs;
use crate::check::bakes::{Version as Checked, in_the_future};
use crate::check::check_file;
use crate::edge::loader::{Loader, ReadLog, real_path, recipe_of_log};
use crate::figures::bakes::{OfVersion, Told, Version, told};
use crate::figures::compare::FileVersion;
use crate::language::bakes::Bake;
use crate::language::syntax::FileKind;
use crate::model::project::Project;
use crate::text::diagnostic::{Diagnostic, Severity};
use crate::text::source::SourceId;
use jiff::civil::{Date, DateTime};
use std::collections::{HashMap, HashSet};
use std::ops::Range;
use std::path::{Path, PathBuf};

/// A recipe with its bakes.
pub(in crate::edge::cli) struct Gathered {
    /// The recipe.
    pub(in crate::edge::cli) recipe: PathBuf,
    /// The versions that bakes are of; the last is the file as it is.
    pub(in crate::edge::cli) versions: Vec<Version>,
    /// The bakes of all logs.
    pub(in crate::edge::cli) bakes: Vec<OfVersion>,
    /// The logs, and what they use.
    pub(in crate::edge::cli) project: Project,
    /// What is wrong with the logs.
    pub(in crate::edge::cli) problems: Vec<Diagnostic>,
    /// Where the formulas come from, in sentences.
    pub(in crate::edge::cli) remarks: Vec<String>,
}

impl Gathered {
    /// The file as it is.
    pub(in crate::edge::cli) fn file(&self) -> Option<&FileVersion> {
        self.versions.last().map(|version| &version.file)
    }

    /// What the bakes say.
    pub(in crate::edge::cli) fn told(&self) -> Told {
        told(&self.versions, self.versions.len().saturating_sub(1), &self.bakes)
    }

    /// Whether a log has an error.
    pub(in crate::edge::cli) fn has_errors(&self) -> bool {
        self.problems.iter().any(|problem| problem.severity == Severity::Error)
    }
}

/// The recipe that a file is, or that a log names; `None` for a file that is neither.
pub(in crate::edge::cli) fn recipe_of(path: &Path) -> Result<Option<PathBuf>, String> {
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
pub(in crate::edge::cli) fn gather(
    recipe: &Path,
    named: &[PathBuf],
    around: &mut Logs,
    today: Date,
) -> Result<Gathered, String> {
    let shown = recipe.display().to_string();
    let now = read(recipe, &shown)?.ok_or_else(|| format!("there is no file {shown}"))?;
    if !now.is_recipe() {
        return Err(format!("{shown} is no recipe; bakes are of recipes"));
    }
    let wanted = real_path(recipe);
    let mut paths: Vec<PathBuf> = named.to_vec();
    let known: HashSet<PathBuf> = named.iter().map(|path| real_path(path)).collect();
    paths.extend(around.of(recipe).into_iter().filter(|path| !known.contains(&real_path(path))));
    let mut loader = Loader::new();
    let mut logs: Vec<(SourceId, ReadLog)> = Vec::new();
    for path in &paths {
        let source = loader.load(path).map_err(|error| error.to_string())?;
        let log = loader.log_of(source);
        let folder = path.parent().unwrap_or(Path::new(""));
        let leads_here = log.log.of.as_ref().is_some_and(|of| real_path(&folder.join(&of.value)) == wanted);
        if leads_here && !logs.iter().any(|(known, _)| *known == source) {
            logs.push((source, log));
        }
    }
    let project = loader.into_project();
    let (mut versions, mut bakes, mut remarks) = (Vec::new(), Vec::new(), Vec::new());
    let mut of_git = OfGit::of(&wanted, &mut remarks);
    let mut found = Vec::with_capacity(logs.len());
    for (source, log) in logs {
        let mut problems = check_file(&project, source);
        problems.extend(in_the_future(&log.log, today));
        let first = bakes.len();
        let recipe = log.log.of.as_ref().and_then(|path| project.target(path.span));
        for bake in log.log.bakes {
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
    Ok(Gathered { recipe: recipe.to_owned(), versions, bakes, project, problems, remarks })
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

/// The versions of a recipe in git.
struct OfGit {
    top: Option<PathBuf>,
    /// Its name from the top.
    inside: String,
    /// Its revisions, the newest first, each with the moment of its author's clock, the short name and the name it had.
    revisions: Vec<(String, String, DateTime, String)>,
    /// The places of versions that were read, by the name of the commit; `None` where one cannot be read.
    known: HashMap<String, Option<usize>>,
}

impl OfGit {
    fn of(recipe: &Path, remarks: &mut Vec<String>) -> OfGit {
        let real = nearest_real(recipe);
        let nothing = || OfGit { top: None, inside: String::new(), revisions: Vec::new(), known: HashMap::new() };
        let Ok(top) = top_of(&real) else {
            remarks
                .push("The recipe lies in no git repository: its formula is taken as it is for every bake.".to_owned());
            return nothing();
        };
        let Some(inside) = real.strip_prefix(&top).ok().and_then(Path::to_str).map(str::to_owned) else {
            return nothing();
        };
        let revisions = revisions(&top, &inside, None, "%Y-%m-%dT%H:%M:%S");
        if revisions.is_empty() {
            remarks.push("The recipe was never committed: its formula is taken as it is for every bake.".to_owned());
        }
        let dated = revisions.into_iter().filter(|revision| !revision.removed).filter_map(|revision| {
            let moment = revision.date.parse::<DateTime>().ok()?;
            Some((revision.commit, revision.short, moment, revision.name))
        });
        let revisions = dated.collect();
        OfGit { top: Some(top), inside, revisions, known: HashMap::new() }
    }

    /// The place of the version that a bake was of: the one it names, else the last that was committed before it; `None` for the
    /// file as it is.
    fn version(&mut self, bake: &Bake, versions: &mut Vec<Version>, problems: &mut Vec<Diagnostic>) -> Option<usize> {
        let (commit, short, name) = match &bake.from {
            Some(from) => {
                let Some((commit, short)) = self.named(&from.value) else {
                    let problem = match &self.top {
                        Some(_) => Diagnostic::error(
                            "unknown-revision",
                            from.span,
                            format!("there is no revision `{}` in this repository", from.value),
                        )
                        .help("`git log` lists them; without `from` the last one committed before the bake is meant"),
                        None => Diagnostic::error(
                            "unknown-revision",
                            from.span,
                            "the recipe lies in no git repository, so it has no revisions",
                        )
                        .help("take `from` out: the formula is taken as it is"),
                    };
                    problems.push(problem);
                    return None;
                };
                // The file may have had another name: that of the revision before it, on the line of its history.
                let before = self.revisions.iter().find(|(of, ..)| *of == commit || commit.starts_with(of.as_str()));
                let name = before.map_or_else(|| self.inside.clone(), |(.., name)| name.clone());
                (commit, short, name)
            }
            None => {
                let moment = bake.moment();
                let (commit, short, _, name) = self.revisions.iter().find(|(_, _, at, _)| *at <= moment)?;
                (commit.clone(), short.clone(), name.clone())
            }
        };
        if let Some(known) = self.known.get(&commit) {
            return *known;
        }
        let read = self.top.as_ref().and_then(|top| Checkout::of(&commit, top).ok()).and_then(|checkout| {
            let place = checkout.inside(&name);
            read(&place, &name).ok().flatten().filter(FileVersion::is_recipe)
        });
        let place = read.map(|file| {
            versions.push(Version { revision: Some(short), file });
            versions.len() - 1
        });
        if place.is_none() && bake.from.is_some() {
            let from = bake.from.as_ref().map_or(bake.date.span, |from| from.span);
            problems.push(
                Diagnostic::error("unknown-revision", from, format!("the recipe is not in revision `{commit}`"))
                    .help("name a revision in which it is"),
            );
        }
        self.known.insert(commit, place);
        place
    }

    /// The whole and the short name of a revision that was named.
    fn named(&self, revision: &str) -> Option<(String, String)> {
        let top = self.top.as_ref()?;
        if revision.starts_with('-') {
            return None;
        }
        let ask = |short: &[&str]| {
            let wanted = format!("{revision}^{{commit}}");
            let mut arguments = vec!["rev-parse", "--verify", "--quiet"];
            arguments.extend(short);
            arguments.extend(["--end-of-options", wanted.as_str()]);
            let printed = quiet_git(top, &arguments)?;
            Some(String::from_utf8(printed).ok()?.lines().last()?.trim().to_owned()).filter(|name| !name.is_empty())
        };
        let commit = ask(&[])?;
        let short = self.revisions.iter().find(|(known, ..)| *known == commit).map(|(_, short, ..)| short.clone());
        let short = short.unwrap_or_else(|| commit.get(..7).unwrap_or(&commit).to_owned());
        Some((commit, short))
    }

    /// Says of how many bakes the formula is taken as it is, where others are of a revision.
    fn say(&self, as_it_is: usize, remarks: &mut Vec<String>) {
        if !self.revisions.is_empty() && as_it_is > 0 {
            let bakes = if as_it_is == 1 { "1 bake is".to_owned() } else { format!("{as_it_is} bakes are") };
            remarks.push(format!("{bakes} older than the first commit: the formula is taken as it is."));
        }
    }
}
