//! `--as-baked`: files as they would be if they said what was measured.

use super::super::output::Output;
use crate::edge::loader::{Cache, Loader, real_path};
use crate::edge::past::gather::{Gathered, gather};
use crate::edge::past::recalled::Past;
use crate::figures::bakes::as_baked::{Taken, rewritten, said, taken};
use crate::language::syntax::FileKind;
use clap::Args;
use std::path::{Path, PathBuf};

/// Whether to work with what was measured.
#[derive(Debug, Clone, Default, Args)]
pub(in crate::edge::cli) struct AsBaked {
    /// Work with what at least three bakes in the log say: times that nine in ten keep, measured losses and friction
    #[arg(long)]
    as_baked: bool,
}

impl AsBaked {
    /// A loader that reads the files as they are, or as the bakes say; what was taken from where is printed.
    ///
    /// # Errors
    /// In a sentence: a file or a log cannot be read.
    pub(in crate::edge::cli) fn loader(&self, files: &[PathBuf], output: &Output) -> Result<Loader, String> {
        self.loader_and_said(files, output).map(|(loader, _)| loader)
    }

    /// The same, with what was taken from the bakes, a sentence each.
    ///
    /// # Errors
    /// In a sentence: a file or a log cannot be read.
    pub(in crate::edge::cli) fn loader_and_said(
        &self,
        files: &[PathBuf],
        output: &Output,
    ) -> Result<(Loader, Vec<String>), String> {
        if !self.as_baked {
            return Ok((Loader::new(), Vec::new()));
        }
        let mut cache = Cache::default();
        let mut any = false;
        let mut sentences = Vec::new();
        let mut at_home = Vec::new();
        let mut around = Past::default();
        for recipe in recipes(files)? {
            let gathered = gather(&recipe, &[], &mut around, jiff::ZonedDateTime::now().date())?;
            if gathered.has_errors() {
                super::super::batches::show(&gathered.project, &gathered.problems, output);
                return Err("the log of its bakes has errors; mend them, or leave --as-baked away".to_owned());
            }
            let all = of(&gathered);
            let name = gathered.recipe.display().to_string();
            if all.is_empty() {
                output.tell(&format!("as baked: of {name} nothing is measured by three bakes; it is taken as written"));
            }
            for sentence in said(&all) {
                output.tell(&format!("{sentence} [{name}]"));
                let file = gathered.recipe.file_name().unwrap_or_default().to_string_lossy();
                sentences.push(format!("{sentence} [{file}]"));
            }
            any |= !all.is_empty();
            overlay(&gathered, &all, &mut cache);
            at_home.extend(all.into_iter().filter_map(|one| one.at_home));
        }
        let mut loader = if any { Loader::on(cache) } else { Loader::new() };
        for (equipment, warms) in at_home {
            loader.put_friction_at_home(&equipment, warms);
        }
        Ok((loader, sentences))
    }
}

/// What the bakes say of a recipe.
pub(in crate::edge::cli) fn of(gathered: &Gathered) -> Vec<Taken> {
    let told = gathered.told();
    gathered.file().map_or_else(Vec::new, |file| taken(&told, file))
}

/// Puts the changed texts in place of the files.
fn overlay(gathered: &Gathered, all: &[Taken], cache: &mut Cache) {
    let Some(file) = gathered.file() else { return };
    for (id, source) in file.project.sources.iter() {
        if all.iter().any(|one| one.span.source == id) {
            let mut text = rewritten(source, id, all);
            // What two recipes say of one kitchen goes in one after the other; the first counts.
            let path = Path::new(&source.name);
            let real = real_path(path);
            if let Some(before) = cache.text(&real).filter(|before| **before != *source.text) {
                text = before.to_string();
            }
            if id == file.source {
                text.push_str(&noted(all));
            }
            cache.open(path, text);
        }
    }
    // A recipe of which only the kitchen says something otherwise has its note too.
    if !all.is_empty()
        && !all.iter().any(|one| one.span.source == file.source)
        && let Some(source) = file.project.sources.get(file.source)
    {
        cache.open(Path::new(&source.name), format!("{}{}", source.text, noted(all)));
    }
}

/// The note on the cards: what is otherwise than it is written.
fn noted(all: &[Taken]) -> String {
    let sentences: Vec<String> = said(all).iter().map(|one| plain(one.trim_start_matches("as baked: "))).collect();
    format!("\n\nnote As baked: {}.\n", sentences.join("; "))
}

/// Words in which nothing is prose of the language.
fn plain(text: &str) -> String {
    text.replace(['{', '}', '[', ']', '\\', '`', '#', '*', '_'], "")
}

/// The recipes among some files, and those that days among them make.
fn recipes(files: &[PathBuf]) -> Result<Vec<PathBuf>, String> {
    let mut all: Vec<PathBuf> = Vec::new();
    for path in files.iter().filter(|path| *path != Path::new("-")) {
        let mut loader = Loader::new();
        let source = loader.load(path).map_err(|error| error.to_string())?;
        let project = loader.project();
        let Some(file) = project.file(source) else { continue };
        if file.tree.kind == FileKind::Recipe {
            all.push(path.clone());
        } else if file.tree.kind == FileKind::Day {
            let made = file.tree.lines.iter().filter_map(|line| match &line.content {
                crate::language::syntax::Content::Make { path, .. } => project.target(path.span),
                _ => None,
            });
            let made = made.filter_map(|made| project.sources.get(made)).map(|source| PathBuf::from(&source.name));
            all.extend(made);
        }
    }
    all.dedup();
    Ok(all)
}
