//! Runs the checks: over each file alone, each once, and then over what the files it uses have wrong.

use super::consequence::drop_consequences;
use super::dough::AskedOfAll;
use super::shared::{Shared, Unit, Worked};
use super::{ALL, Run, Subject, bakes, book, day, merge_conflict, stops};
use crate::check::allowance;
use crate::language::parse::MOST_IN_LINE;
use crate::language::syntax::{FileKind, Tree};
use crate::measure::noun::so_many;
use crate::model::larder::pantry;
use crate::model::project::Project;
use crate::model::recipe::{Recipe, Selection};
use crate::model::ways;
use crate::solve::formula::{Formula, unsettled};
use crate::solve::resolve::{self, Earlier};
use crate::text::diagnostic::{Diagnostic, Label, sort_and_dedup};
use crate::text::source::{Source, SourceId, Span, Spanned};
use rayon::prelude::*;
use std::collections::{HashMap, HashSet};
use std::sync::Arc;

/// Every problem of one file, in the order of their places.
pub fn check_file(project: &Project, source: SourceId) -> Vec<Diagnostic> {
    check_files(project, &[source]).pop().unwrap_or_default()
}

/// Every problem of some files, file by file, in the order in which they are named.
///
/// Files are checked side by side, and a larder that a thousand recipes use is checked once.
pub fn check_files(project: &Project, sources: &[SourceId]) -> Vec<Vec<Diagnostic>> {
    check_but(project, sources, &HashSet::new()).problems
}

/// What was found in some files.
#[derive(Debug)]
pub struct Checked {
    /// Every problem, file by file.
    pub problems: Vec<Vec<Diagnostic>>,
    /// For each file whether neither it nor any that it uses has an error, also none that is allowed where it is used.
    pub sound: Vec<bool>,
}

/// As [`check_files`]; what is known to be without an error is not looked at again where others use it.
pub fn check_but(project: &Project, sources: &[SourceId], known: &HashSet<SourceId>) -> Checked {
    let found = Checking::default().look(project, sources, known);
    let sound = found.iter().map(|found| found.is_sound).collect();
    let mut problems: Vec<Vec<Diagnostic>> = found.into_iter().map(|found| found.problems).collect();
    tell_once(&mut problems);
    Checked { problems, sound }
}

/// What is wrong in a file and in what it uses, before what many files have in common is told once.
#[derive(Debug, Clone)]
pub struct Found {
    /// Every problem.
    pub problems: Vec<Diagnostic>,
    /// Whether neither the file nor any that it uses has an error, also none that is allowed where it is used.
    pub is_sound: bool,
}

/// Checks of the files of a run, some at a time, so that a file has to be there only while it or what uses it is looked at.
#[derive(Debug, Default)]
pub struct Checking {
    /// What was found in each file by itself.
    found: HashMap<SourceId, Arc<FileProblems>>,
}

impl Checking {
    /// What is wrong in some of the files, in their order. Each file that they use is looked at once in a run, and what is known to
    /// be sound not at all where others use it.
    pub fn look(&mut self, project: &Project, sources: &[SourceId], sound: &HashSet<SourceId>) -> Vec<Found> {
        self.found.retain(|source, _| project.file(*source).is_some());
        let found = &mut self.found;
        let mut needed: Vec<SourceId> = Vec::new();
        let mut seen = HashSet::new();
        for source in sources.iter().flat_map(|source| reachable(project, *source)) {
            if seen.insert(source) && !sound.contains(&source) && !found.contains_key(&source) {
                needed.push(source);
            }
        }
        let new: Vec<(SourceId, Arc<FileProblems>)> =
            needed.par_iter().map(|source| (*source, Arc::new(FileProblems::in_file(project, *source)))).collect();
        found.extend(new);
        let is_sound = |source: &SourceId| found.get(source).is_none_or(|found| found.errors.is_empty());
        let look = |source: &SourceId| Found {
            problems: assemble(project, *source, found),
            is_sound: reachable(project, *source).iter().all(is_sound),
        };
        sources.par_iter().map(look).collect()
    }
}

/// The problems of files, each of those that many files have in common told once, where it is met first.
pub fn told_once(found: impl IntoIterator<Item = Found>) -> Vec<Diagnostic> {
    let mut all: Vec<Vec<Diagnostic>> = found.into_iter().map(|found| found.problems).collect();
    tell_once(&mut all);
    all.into_iter().flatten().collect()
}

/// So many of the files that use a broken one are shown.
const SHOWN: usize = 8;

/// One bad line in a larder breaks every file that uses it. That is one problem, told where it is met first, with a count.
fn tell_once(all: &mut [Vec<Diagnostic>]) {
    let mut first: HashMap<Span, Vec<Span>> = HashMap::new();
    for found in all.iter_mut() {
        found.retain(|problem| {
            let Some(cause) = cause(problem) else { return true };
            let uses = first.entry(cause).or_default();
            uses.push(problem.span);
            uses.len() == 1
        });
    }
    for problem in all.iter_mut().flatten() {
        let Some(uses) = cause(problem).and_then(|cause| first.get(&cause)) else { continue };
        let Some(others) = uses.len().checked_sub(1).filter(|others| *others > 0) else { continue };
        problem.message.push_str(&match others {
            1 => "; another file uses it too".to_owned(),
            _ => format!("; {others} other files use it too"),
        });
        for span in uses.iter().skip(1).take(SHOWN) {
            problem.also.push(Label { span: *span, text: "used here too".to_owned() });
        }
    }
}

/// The error in the used file that a `broken-use` comes of.
fn cause(problem: &Diagnostic) -> Option<Span> {
    let label = problem.also.first().filter(|_| problem.check == "broken-use")?;
    Some(label.span)
}

/// What was found in files, kept as long as neither they nor the files they use change.
#[derive(Debug, Default)]
pub struct Memory {
    found: HashMap<SourceId, Remembered>,
}

/// What was found in a file, and in which texts.
#[derive(Debug)]
struct Remembered {
    /// The trees of the file and of all that it uses; a tree that was read again is another one.
    trees: Vec<Arc<Tree>>,
    /// What was wrong when the file was read and its uses were followed.
    read: Vec<Diagnostic>,
    found: Arc<FileProblems>,
}

/// As [`check_files`] for one file, without looking again at files in which nothing changed since the last time.
pub fn check_again(project: &Project, source: SourceId, memory: &mut Memory) -> Vec<Diagnostic> {
    let mut found = HashMap::new();
    for needed in reachable(project, source) {
        found.insert(needed, memory.found_in(project, needed));
    }
    assemble(project, source, &found)
}

impl Memory {
    fn found_in(&mut self, project: &Project, source: SourceId) -> Arc<FileProblems> {
        let read = project.file(source).map(|file| &file.diagnostics[..]).unwrap_or_default();
        let trees: Vec<Arc<Tree>> = reachable(project, source)
            .into_iter()
            .filter_map(|reached| project.file(reached).map(|file| Arc::clone(&file.tree)))
            .collect();
        if let Some(known) = self.found.get(&source) {
            let same = known.trees.len() == trees.len()
                && known.trees.iter().zip(&trees).all(|(old, new)| Arc::ptr_eq(old, new));
            if same && known.read == read {
                return Arc::clone(&known.found);
            }
        }
        let found = Arc::new(FileProblems::in_file(project, source));
        let kept = Remembered { trees, read: read.to_vec(), found: Arc::clone(&found) };
        self.found.insert(source, kept);
        found
    }
}

/// What was found in a file alone.
#[derive(Debug, Default)]
struct FileProblems {
    /// Everything, before the file's allowances are applied.
    all: Vec<Diagnostic>,
    /// The errors that the file does not allow, in the order of their places.
    errors: Vec<Diagnostic>,
}

impl FileProblems {
    fn in_file(project: &Project, source: SourceId) -> FileProblems {
        let all = check_alone(project, source);
        let mut errors = all.clone();
        finish(project, source, &mut errors);
        errors.retain(stops);
        FileProblems { all, errors }
    }
}

fn assemble(project: &Project, source: SourceId, found: &HashMap<SourceId, Arc<FileProblems>>) -> Vec<Diagnostic> {
    let mut diagnostics = found.get(&source).map(|found| found.all.clone()).unwrap_or_default();
    used_files(project, source, found, &mut diagnostics);
    finish(project, source, &mut diagnostics);
    diagnostics
}

/// Applies the file's allowances and puts the rest in order.
fn finish(project: &Project, source: SourceId, diagnostics: &mut Vec<Diagnostic>) {
    let text = project.sources.get(source);
    if let (Some(file), Some(text)) = (project.file(source), text) {
        allowance::apply(&file.tree, text, diagnostics);
    }
    sort_and_dedup(diagnostics);
    if let Some(text) = text.filter(|_| diagnostics.len() > MOST_IN_LINE) {
        cap_lines(text, source, diagnostics);
    }
}

/// Leaves the gravest problems of each line of a text, in the order of their places; the last of them says how many more there
/// are.
fn cap_lines(text: &Source, source: SourceId, diagnostics: &mut Vec<Diagnostic>) {
    let line_of = |problem: &Diagnostic| (problem.span.source, text.line(problem.span.start));
    let mut kept = Vec::with_capacity(diagnostics.len());
    let mut all = std::mem::take(diagnostics).into_iter().peekable();
    while let Some(first) = all.next() {
        let line = line_of(&first);
        let mut of_line = vec![first];
        while let Some(next) = all.next_if(|next| line.0 == source && line_of(next) == line) {
            of_line.push(next);
        }
        if of_line.len() > MOST_IN_LINE {
            of_line.sort_by_key(|problem| problem.severity);
            let more = of_line.split_off(MOST_IN_LINE).len();
            if let Some(last) = of_line.last_mut() {
                last.message.push_str(&format!(" (and {} in this line)", so_many(more, "more problems")));
            }
            of_line.sort_by_key(|problem| problem.span);
        }
        kept.append(&mut of_line);
    }
    *diagnostics = kept;
}

/// Reports uses of files that have errors, or that use such files themselves.
fn used_files(
    project: &Project,
    source: SourceId,
    found: &HashMap<SourceId, Arc<FileProblems>>,
    diagnostics: &mut Vec<Diagnostic>,
) {
    let Some(file) = project.file(source) else { return };
    for line in &file.tree.lines {
        let Some(path) = line.content.path() else { continue };
        let Some(target) = project.target(path.span) else { continue };
        // A ring goes through all its files; each reports it at its own line.
        if diagnostics.iter().any(|problem| problem.check == "use-ring" && problem.span == path.span) {
            continue;
        }
        let reached = reachable(project, target).into_iter().filter(|reached| *reached != source);
        let errors: Vec<&Diagnostic> =
            reached.filter_map(|file| found.get(&file)).flat_map(|found| &found.errors).collect();
        diagnostics.extend(broken_use(path, &errors));
    }
}

/// The problem of a use whose file has errors; `None` when it has none.
fn broken_use(path: &Spanned<String>, errors: &[&Diagnostic]) -> Option<Diagnostic> {
    let first = errors.first()?;
    let others = match errors.len() {
        1 => String::new(),
        count => format!(" and {} more", count - 1),
    };
    let message = format!("`{}` has an error{others}: {}", path.value, first.said());
    Some(Diagnostic::error("broken-use", path.span, message).also(first.span, "there").help("mend that file first"))
}

/// A file and all that it uses, each once.
pub fn reachable(project: &Project, from: SourceId) -> Vec<SourceId> {
    let mut reached = vec![from];
    let mut next = 0;
    while let Some(source) = reached.get(next).copied() {
        next += 1;
        let lines = project.file(source).map_or(&[][..], |file| &file.tree.lines);
        for line in lines {
            let Some(path) = line.content.path() else { continue };
            let target = project.target(path.span).filter(|target| !reached.contains(target));
            reached.extend(target);
        }
    }
    reached
}

/// Every problem of a file without those of the files it uses.
fn check_alone(project: &Project, source: SourceId) -> Vec<Diagnostic> {
    let Some(file) = project.file(source) else { return Vec::new() };
    let mut diagnostics = file.diagnostics.clone();
    match file.tree.kind {
        FileKind::Recipe => check_recipe(project, &file.tree, &mut diagnostics),
        FileKind::Kitchen => check_kitchen(project, &file.tree, &mut diagnostics),
        FileKind::Day => day::check(project, source, &mut diagnostics),
        FileKind::Bakes => bakes::check(project, source, &mut diagnostics),
        FileKind::Book => book::check(project, source, &mut diagnostics),
    }
    for check in ALL {
        match check.run {
            Run::Tree(run) | Run::TreeAndParts(run, _) => run(&file.tree, &mut diagnostics),
            Run::Uses(run) => run(project, &file.tree, &mut diagnostics),
            Run::Elsewhere | Run::Command(_) | Run::Recipe(_) | Run::Parts(_) => {}
        }
    }
    if let Some(text) = project.sources.get(source) {
        drop_consequences(&file.tree, text, &mut diagnostics);
        merge_conflict::fold(&file.tree, text, &mut diagnostics);
    }
    diagnostics
}

fn check_kitchen(project: &Project, tree: &Tree, diagnostics: &mut Vec<Diagnostic>) {
    let (blocks, problems) = pantry::blocks(tree);
    diagnostics.extend(problems);
    let larder = project.pantry(&[tree.source]).larder;
    diagnostics.extend(pantry::unknown_likes(&blocks, &larder));
    diagnostics.extend(pantry::unknown_prices(&blocks, &larder));
    pantry::kitchen(tree, &pantry::bare_kitchen(), diagnostics);
}

fn check_recipe(project: &Project, tree: &Tree, diagnostics: &mut Vec<Diagnostic>) {
    let choices = resolve::choices_of(tree);
    let selections = resolve::selections(&choices);
    let all: Vec<usize> = (0..selections.len()).collect();
    let mut worked: Vec<Worked> = Vec::with_capacity(selections.len());
    let mut read = Vec::with_capacity(selections.len());
    let mut earlier = Earlier::default();
    for (way, selection) in selections.iter().enumerate() {
        let mut found = Vec::new();
        if let Some(recipe) = resolve::recipe_beside(project, tree.source, selection, &mut earlier, &mut found) {
            debug_assert!(
                is_as_by_itself(project, selection, &recipe, &found),
                "a part is not what it was under {selection:?}"
            );
            // Where something is wrong, not all is worked out.
            let is_right = |way: &usize| read.get(*way).is_some_and(|(_, found): &(_, Vec<_>)| found.is_empty());
            let right = worked.iter().filter(|(way, ..)| is_right(way));
            let others: Vec<(&Recipe, &Formula)> = right.map(|(_, recipe, formula)| (recipe, formula)).collect();
            let formula = Formula::beside(&recipe, &others, &mut found);
            worked.push((way, recipe, formula));
        }
        read.push((way, found));
    }
    let shared = Shared::of(&worked);
    let asked: Vec<AskedOfAll> = worked.iter().map(|_| AskedOfAll::default()).collect();
    let under = |found: Vec<(usize, Vec<Diagnostic>)>, scope: &[usize]| match found.is_empty() {
        // Of nearly all checks.
        true => Vec::new(),
        false => said_once(found, |ways| ways::said(&choices, &selections, ways, scope)),
    };
    diagnostics.extend(under(read, &all));
    let looked_at: Vec<usize> = worked.iter().map(|(way, ..)| *way).collect();
    // Side by side, and their problems in the order of the checks, so that nothing depends on which was done first.
    let found = ALL.par_iter().with_min_len(AT_A_TIME).map_init(Vec::new, |known, check| {
        let run = match (check.run, &shared) {
            (Run::Parts(run) | Run::TreeAndParts(_, run), Some(shared)) => {
                return under(shared.look(known, &worked, &asked, (run, Unit::Part)), &looked_at);
            }
            (Run::Recipe(run), Some(shared)) => {
                return under(shared.look(known, &worked, &asked, (run, Unit::Whole)), &looked_at);
            }
            (Run::Recipe(run) | Run::Parts(run) | Run::TreeAndParts(_, run), _) => run,
            _ => return Vec::new(),
        };
        // Nearly always nothing is found, and then nothing is put together.
        let mut of_ways = Vec::new();
        for ((way, recipe, formula), asked) in worked.iter().zip(&asked) {
            let mut found = Vec::new();
            run(&Subject { recipe, formula, only: None, asked }, &mut found);
            if !found.is_empty() {
                of_ways.push((*way, found));
            }
        }
        under(of_ways, &looked_at)
    });
    let found: Vec<Vec<Diagnostic>> = found.collect();
    diagnostics.extend(found.into_iter().flatten());
    if !diagnostics.iter().any(stops) {
        let vanished = worked.iter().map(|(way, recipe, formula)| (*way, vanished(recipe, formula)));
        diagnostics.extend(under(vanished.collect(), &looked_at));
    }
}

/// So many checks one after the other are worth to be handed to another core.
const AT_A_TIME: usize = 16;

/// Whether a recipe and what is wrong with it are the same when nothing was read of it before.
fn is_as_by_itself(project: &Project, selection: &Selection, recipe: &Recipe, found: &[Diagnostic]) -> bool {
    let mut alone = Vec::new();
    let fresh = resolve::recipe(project, recipe.source, selection, &mut alone);
    alone == found && fresh.is_some_and(|fresh| fresh.parts == recipe.parts)
}

/// The problems of a recipe under each of some ways to choose, each different one once, with what `only` says of the ways
/// under which it was found.
fn said_once(found: Vec<(usize, Vec<Diagnostic>)>, only: impl Fn(&[usize]) -> String) -> Vec<Diagnostic> {
    if found.iter().all(|(_, found)| found.is_empty()) {
        return Vec::new();
    }
    let mut different: Vec<(Diagnostic, Vec<usize>)> = Vec::new();
    let mut known: HashMap<(&'static str, Span, String), usize> = HashMap::new();
    for (way, problem) in found.into_iter().flat_map(|(way, all)| all.into_iter().map(move |problem| (way, problem))) {
        let key = (problem.check, problem.span, problem.message.clone());
        let at = *known.entry(key).or_insert(different.len());
        match different.get_mut(at) {
            Some((_, ways)) => ways.push(way),
            None => different.push((problem, vec![way])),
        }
    }
    let mut said: HashMap<Vec<usize>, String> = HashMap::new();
    let told = different.into_iter().map(|(mut problem, ways)| {
        problem.only = said.entry(ways).or_insert_with_key(|ways| only(ways)).clone();
        problem
    });
    told.collect()
}

/// Where no other error says why, a line without an amount is one: on a card it would be missing without a word.
fn vanished(recipe: &Recipe, formula: &Formula) -> Vec<Diagnostic> {
    let missing = unsettled::of(recipe, formula).into_iter();
    let said = missing.map(|missing| {
        Diagnostic::error("no-scale", missing.span, missing.why).help(
            "give it a weight, or say what the part that it is taken of makes: `makes 2 kg`, or weights for all its lines",
        )
    });
    said.collect()
}

/// Resolves and solves a recipe under one selection.
pub fn work_out(
    project: &Project,
    source: SourceId,
    selection: &Selection,
    diagnostics: &mut Vec<Diagnostic>,
) -> Option<(Recipe, Formula)> {
    let recipe = resolve::recipe(project, source, selection, diagnostics)?;
    let formula = Formula::of(&recipe, diagnostics);
    Some((recipe, formula))
}
