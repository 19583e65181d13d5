//! Checks: what is looked for in a recipe, one file each.
//!
//! A check is a value that carries its own explanation and examples; the tests run the examples, `miche explain` prints
//! the rest. Some problems are found while a file is read or resolved; their checks have a file here too, for the
//! explanation, and nothing to run.
//!
//! To add a check, write `check/my_check.rs` with its `pub const CHECK`, and name it in the list below.

use crate::allowance;
use crate::diagnostic::{Diagnostic, Severity, sort_and_dedup};
use crate::formula::{Formula, SolvedPart};
use crate::project::Project;
use crate::recipe::{Part, PartId, Recipe, Selection};
use crate::resolve;
use crate::source::{SourceId, Spanned};
use crate::syntax::{Content, FileKind, Tree};

macro_rules! checks {
    ($($module:ident),* $(,)?) => {
        $(mod $module;)*

        /// Every check, in the order in which `miche explain` lists them within a family.
        pub const ALL: &[&Check] = &[$(&$module::CHECK),*];
    };
}

checks! {
    stray_line,
    no_title,
    hidden_character,
    unknown_unit,
    wrong_kind,
    which_cup,
    decimal_comma,
    impossible_number,
    missing_use,
    broken_use,
    use_outside_root,
    use_ring,
    unknown_name,
    unknown_step,
    unknown_option,
    twice_named,
    part_cycle,
    two_amounts_disagree,
    percent_without_base,
    base_not_100,
    no_scale,
    no_weight,
    part_short,
    part_left_over,
    yield_does_not_add_up,
    pieces_mismatch,
    odd_percent,
    volume_only,
    water_temperature,
    look_alike_name,
    never_used,
    used_up,
    not_all_used,
    out_of_order,
    loose_step,
    times_do_not_add_up,
    no_sign,
    changed_piece_weight,
    unlike_choices,
    no_such_equipment,
    too_few_cooks,
    too_big_a_load,
    too_fine_for_scale,
    late_preheat,
    no_pan_size,
    raw_flour_or_egg,
    kept_too_long,
    slow_cooling,
    held_too_cool,
    shelf_storage,
    hot_or_caustic,
    hidden_allergen,
    unclear_allowance,
    idle_allowance,
}

pub(crate) use raw_flour_or_egg::raw as raw_in;

/// What a check is about.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Family {
    /// How the file is written.
    Writing,
    /// Names and files.
    Names,
    /// Amounts and the formula.
    Formula,
    /// What the steps do with the ingredients.
    Steps,
    /// What the kitchen has and can do.
    Kitchen,
    /// What can hurt.
    Safety,
    /// What a file allows.
    Allowances,
}

impl Family {
    /// Its heading.
    pub fn title(self) -> &'static str {
        match self {
            Family::Writing => "How the file is written",
            Family::Names => "Names and files",
            Family::Formula => "Amounts and the formula",
            Family::Steps => "Steps and what they use",
            Family::Kitchen => "The kitchen and its equipment",
            Family::Safety => "Cautions: what can hurt",
            Family::Allowances => "Allowances",
        }
    }
}

/// A recipe under one selection of its choices, worked out.
pub struct Subject<'a> {
    /// The recipe.
    pub recipe: &'a Recipe,
    /// Its amounts.
    pub formula: &'a Formula,
}

impl<'a> Subject<'a> {
    /// The recipe's own parts with their amounts; parts of used recipes are checked in their own files.
    pub fn own_parts(&self) -> impl Iterator<Item = (PartId, &'a Part, &'a SolvedPart)> {
        let (recipe, formula) = (self.recipe, self.formula);
        let parts = recipe.parts().filter(|(_, part)| part.foreign.is_none());
        parts.filter_map(move |(id, part)| Some((id, part, formula.part(id)?)))
    }

    /// As [`Subject::own_parts`], without parts in which some line could not be read: their sums would mislead.
    pub fn whole_parts(&self) -> impl Iterator<Item = (PartId, &'a Part, &'a SolvedPart)> {
        self.own_parts().filter(|(_, part, _)| !part.broken)
    }
}

/// How a check is run.
#[derive(Clone, Copy)]
pub enum Run {
    /// Its problems are found while the file is read, bound or solved.
    Elsewhere,
    /// Once for every selection of choices.
    Recipe(fn(&Subject<'_>, &mut Vec<Diagnostic>)),
    /// Once for a file of any kind, on what is written.
    Tree(fn(&Tree, &mut Vec<Diagnostic>)),
}

/// A check with its explanation.
pub struct Check {
    /// Its name, fixed once released.
    pub name: &'static str,
    /// How much it usually matters.
    pub severity: Severity,
    /// What it is about.
    pub family: Family,
    /// What it looks for, in a sentence.
    pub looks_for: &'static str,
    /// Why that matters to a baker, and how to mend it.
    pub why: &'static str,
    /// A file in which it finds something. Files beside it follow after a line `=== name.miche ===`.
    pub bad: &'static str,
    /// A file in which it finds nothing.
    pub good: &'static str,
    /// Where the rule comes from.
    pub sources: &'static [&'static str],
    /// How it is run.
    pub run: Run,
}

/// The check of that name.
pub fn find(name: &str) -> Option<&'static Check> {
    ALL.iter().copied().find(|check| check.name == name)
}

/// The files of an example: the first is the one that is checked, the others stand beside it.
pub fn example_files(example: &str) -> Vec<(String, String)> {
    let mut files = vec![("example.miche".to_owned(), String::new())];
    for line in example.split_inclusive('\n') {
        let name = line.trim_end().strip_prefix("=== ").and_then(|rest| rest.strip_suffix(" ==="));
        match (name, files.last_mut()) {
            (Some(name), _) => files.push((name.to_owned(), String::new())),
            (None, Some((_, text))) => text.push_str(line),
            (None, None) => {}
        }
    }
    files
}

/// Every problem of one file, in the order of their places.
pub fn check_file(project: &Project, source: SourceId) -> Vec<Diagnostic> {
    let mut diagnostics = check_alone(project, source);
    used_files(project, source, &mut diagnostics);
    sort_and_dedup(&mut diagnostics);
    diagnostics
}

/// Reports uses of files that have errors, or that use such files themselves.
fn used_files(project: &Project, source: SourceId, diagnostics: &mut Vec<Diagnostic>) {
    let Some(file) = project.file(source) else { return };
    for line in &file.tree.lines {
        let (Content::Use(path) | Content::Make { path, .. }) = &line.content else { continue };
        let Some(target) = project.target(path.span) else { continue };
        let reached = reachable(project, target).into_iter();
        let errors: Vec<Diagnostic> = reached
            .flat_map(|file| check_alone(project, file))
            .filter(|problem| problem.severity == Severity::Error)
            .collect();
        diagnostics.extend(broken_use(path, &errors));
    }
}

/// The problem of a use whose file has errors; `None` when it has none.
fn broken_use(path: &Spanned<String>, errors: &[Diagnostic]) -> Option<Diagnostic> {
    let first = errors.first()?;
    // A ring goes through all its files; none of them is more to blame than the others.
    if first.check == "use-ring" {
        let problem = Diagnostic::error("use-ring", path.span, first.message.clone());
        return Some(problem.also(first.span, "closes the ring").help("take one of the `use` lines out"));
    }
    let others = match errors.len() {
        1 => String::new(),
        count => format!(" and {} more", count - 1),
    };
    let message = format!("`{}` has an error{others}: {}", path.value, first.message);
    Some(Diagnostic::error("broken-use", path.span, message).also(first.span, "there").help("mend that file first"))
}

/// A file and all that it uses, each once.
fn reachable(project: &Project, from: SourceId) -> Vec<SourceId> {
    let mut reached = vec![from];
    let mut next = 0;
    while let Some(source) = reached.get(next).copied() {
        next += 1;
        let lines = project.file(source).map_or(&[][..], |file| &file.tree.lines);
        for line in lines {
            let (Content::Use(path) | Content::Make { path, .. }) = &line.content else { continue };
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
        FileKind::Kitchen => check_kitchen(&file.tree, &mut diagnostics),
        FileKind::Day => {
            resolve::day::day(project, source, &mut diagnostics);
        }
    }
    for check in ALL {
        if let Run::Tree(run) = check.run {
            run(&file.tree, &mut diagnostics);
        }
    }
    if let Some(text) = project.sources.get(source) {
        allowance::apply(&file.tree, text, &mut diagnostics);
    }
    sort_and_dedup(&mut diagnostics);
    diagnostics
}

fn check_kitchen(tree: &Tree, diagnostics: &mut Vec<Diagnostic>) {
    diagnostics.extend(resolve::pantry::blocks(tree).1);
    resolve::pantry::kitchen(tree, &resolve::pantry::bare_kitchen(), diagnostics);
}

fn check_recipe(project: &Project, tree: &Tree, diagnostics: &mut Vec<Diagnostic>) {
    let choices = resolve::choices_of(tree);
    let selections = resolve::selections(&choices);
    let mut worked: Vec<(Recipe, Formula)> = Vec::with_capacity(selections.len());
    for selection in &selections {
        worked.extend(work_out(project, tree.source, selection, diagnostics));
    }
    let subjects: Vec<Subject<'_>> = worked.iter().map(|(recipe, formula)| Subject { recipe, formula }).collect();
    for check in ALL {
        if let Run::Recipe(run) = check.run {
            for subject in &subjects {
                run(subject, diagnostics);
            }
        }
    }
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
