//! What `check` says of logs beside the formulas of their days, and of recipes beside what their bakes say.

use super::gather::{gather, recipe_of};
use super::logs::Recipes;
use super::recalled::Past;
use crate::check::allowance;
use crate::edge::loader::real_path;
use crate::figures::bakes::otherwise;
use crate::language::syntax::{FileKind, Spans};
use crate::model::project::Project;
use crate::text::diagnostic::{Diagnostic, sort_and_dedup};
use crate::text::source::SourceId;
use std::collections::HashMap;
use std::path::{Path, PathBuf};

/// Puts what git and the logs around say to the problems of some files. `named` are the paths that were asked for themselves: of
/// such a recipe the logs in its folder are read, too.
pub(in crate::edge) fn told(
    project: &Project,
    sources: &[SourceId],
    named: &[PathBuf],
    past: &mut Past,
    problems: &mut Vec<Diagnostic>,
) {
    let path_of = |source: &SourceId| project.sources.get(*source).map(|source| PathBuf::from(&source.name));
    let kind = |source: &SourceId| project.file(*source).map(|file| file.tree.kind);
    let mut recipes = Recipes::default();
    for log in sources.iter().filter(|source| kind(source) == Some(FileKind::Bakes)).filter_map(path_of) {
        if let Ok(Some(recipe)) = recipe_of(&log) {
            recipes.note(recipe, log);
        }
    }
    for recipe in named.iter().filter(|path| path.is_file()) {
        let own = sources.iter().find(|source| path_of(source).as_ref() == Some(recipe));
        if own.and_then(kind) != Some(FileKind::Recipe) {
            continue;
        }
        for log in past.logs_of(recipe) {
            recipes.note(recipe.clone(), log);
        }
    }
    if recipes.list().is_empty() {
        return;
    }
    // An editor's project has the texts of all files that were ever read.
    let read = project.sources.iter().filter(|(id, _)| project.file(*id).is_some());
    let ids: HashMap<PathBuf, SourceId> = read.map(|(id, source)| (real_path(Path::new(&source.name)), id)).collect();
    let today = jiff::ZonedDateTime::now().date();
    for (recipe, logs) in recipes.list() {
        let Ok(gathered) = gather(recipe, logs, past, today) else { continue };
        // The problems of a log that was asked for are those beside the formulas of its days.
        let of_logs = gathered.project.sources.iter().filter(|(id, _)| gathered.project.file(*id).is_some());
        for (id, source) in of_logs {
            let Some(here) = ids.get(&real_path(Path::new(&source.name))).filter(|here| sources.contains(here)) else {
                continue;
            };
            if kind(here) != Some(FileKind::Bakes) {
                continue;
            }
            problems.retain(|problem| problem.span.source != *here);
            let own = gathered.problems.iter().filter(|problem| problem.span.source == id).cloned();
            problems.extend(own.filter_map(|problem| moved(problem, &gathered.project, &ids)));
        }
        let mut found: Vec<Diagnostic> = match gathered.file().filter(|_| !gathered.has_errors()) {
            Some(file) => {
                let all = otherwise::problems(&gathered.told(), file).into_iter();
                all.filter_map(|problem| moved(problem, &file.project, &ids)).collect()
            }
            None => Vec::new(),
        };
        gathered.keep(past);
        for source in sources {
            if let (Some(file), Some(text)) = (project.file(*source), project.sources.get(*source)) {
                let mut allowed: Vec<Diagnostic> =
                    found.iter().filter(|problem| problem.span.source == *source).cloned().collect();
                allowance::apply(&file.tree, text, &mut allowed);
                problems.extend(allowed.into_iter().filter(|problem| problem.check == "bakes-say-otherwise"));
                found.retain(|problem| problem.span.source != *source);
            }
        }
        // What is written in a kitchen that was not asked for is told all the same: it is what the recipe counts with.
        problems.extend(found);
    }
    sort_and_dedup(problems);
}

/// A problem with its places in another project that holds the same texts; `None` where that lacks one of them.
fn moved(mut problem: Diagnostic, from: &Project, ids: &HashMap<PathBuf, SourceId>) -> Option<Diagnostic> {
    let mut is_there = true;
    problem.each_span(&mut |span| {
        let here = from.sources.get(span.source).and_then(|source| ids.get(&real_path(Path::new(&source.name))));
        match here {
            Some(here) => span.source = *here,
            None => is_there = false,
        }
    });
    is_there.then_some(problem)
}
