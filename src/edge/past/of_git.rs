//! The formulas of a recipe in git: which revisions it has, and what it said in each.

use super::checkout::{Checkout, nearest_real, top_of};
use super::revision::{CUT_OFF, cut_off, quiet_git, revisions};
use crate::figures::bakes::Version;
use crate::figures::compare::FileVersion;
use crate::language::bakes::Bake;
use crate::text::capital::capital;
use crate::text::diagnostic::Diagnostic;
use jiff::civil::DateTime;
use std::collections::HashMap;
use std::path::{Path, PathBuf};

/// The versions of a recipe in git.
pub(super) struct OfGit {
    top: Option<PathBuf>,
    /// The last commit when it was asked.
    head: Option<Vec<u8>>,
    /// Where the formulas come from, in sentences.
    pub(super) remarks: Vec<String>,
    /// Its name from the top.
    inside: String,
    /// Its revisions, the newest first, each with the moment of its author's clock, the short name and the name it had.
    revisions: Vec<(String, String, DateTime, String)>,
    /// The places of versions that were read, by the name of the commit; `None` where one cannot be read.
    known: HashMap<String, Option<usize>>,
}

impl OfGit {
    pub(super) fn of(recipe: &Path) -> OfGit {
        let real = nearest_real(recipe);
        let mut remarks = Vec::new();
        let nothing = |remarks| OfGit {
            top: None,
            head: None,
            remarks,
            inside: String::new(),
            revisions: Vec::new(),
            known: HashMap::new(),
        };
        let top = match top_of(&real) {
            Ok(top) => top,
            Err(none) => {
                remarks.push(capital(&format!(
                    "{}: its formula is taken as it is for every bake.",
                    none.of("the recipe")
                )));
                return nothing(remarks);
            }
        };
        let Some(inside) = real.strip_prefix(&top).ok().and_then(Path::to_str).map(str::to_owned) else {
            return nothing(remarks);
        };
        let head = head_of(&top);
        let revisions = revisions(&top, &inside, None, "%Y-%m-%dT%H:%M:%S");
        if revisions.is_empty() {
            remarks.push("The recipe was never committed: its formula is taken as it is for every bake.".to_owned());
        }
        if revisions.last().is_some_and(|first| cut_off(&top).contains(&first.commit)) {
            remarks.push(format!("{}.", capital(CUT_OFF)));
        }
        let dated = revisions.into_iter().filter(|revision| !revision.removed).filter_map(|revision| {
            let moment = revision.date.parse::<DateTime>().ok()?;
            Some((revision.commit, revision.short, moment, revision.name))
        });
        let revisions = dated.collect();
        OfGit { top: Some(top), head, remarks, inside, revisions, known: HashMap::new() }
    }

    /// Whether nothing was committed or checked out since.
    pub(super) fn is_current(&self) -> bool {
        self.top.as_ref().is_none_or(|top| head_of(top) == self.head)
    }

    /// The place of the version that a bake was of: the one it names, else the last that was committed before it; `None` for the
    /// file as it is.
    pub(super) fn version(
        &mut self,
        bake: &Bake,
        versions: &mut Vec<Version>,
        problems: &mut Vec<Diagnostic>,
    ) -> Option<usize> {
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
        let read = self
            .top
            .as_ref()
            .and_then(|top| Checkout::of_commit(&commit, top).ok())
            .and_then(|checkout| checkout.version(&name).ok().flatten().filter(FileVersion::is_recipe));
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
    pub(super) fn say(&self, as_it_is: usize, remarks: &mut Vec<String>) {
        if !self.revisions.is_empty() && as_it_is > 0 {
            let bakes = if as_it_is == 1 { "1 bake is".to_owned() } else { format!("{as_it_is} bakes are") };
            remarks.push(format!("{bakes} older than the first commit: the formula is taken as it is."));
        }
    }
}

/// The last commit of a repository; `None` where there is none yet.
fn head_of(top: &Path) -> Option<Vec<u8>> {
    quiet_git(top, &["rev-parse", "--verify", "--quiet", "HEAD"])
}
