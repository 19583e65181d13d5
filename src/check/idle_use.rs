//! `idle-use`: a recipe that is used and of which nothing is taken, and a line that calls a part of it by the recipe's name.

use super::{Check, Family, Run};
use crate::language::syntax::{Content, FileKind, Key, Name, Tree};
use crate::measure::show;
use crate::model::project::{File, Project};
use crate::text::diagnostic::{Diagnostic, Severity};
use crate::text::source::{SourceId, Span};
use std::collections::HashSet;

/// The check and its explanation.
pub(super) const CHECK: Check = Check {
    name: "idle-use",
    severity: Severity::Warning,
    family: Family::Names,
    looks_for: "a `use` line of a recipe of which no line takes a part, and an ingredient that has the name of a used recipe where the \
                parts of that have names of their own",
    why: "Of a used recipe its parts are taken, by their names: `shortcrust .... 400 g`. A line that says another name takes nothing of \
          it; it is an ingredient of which nobody knows the weight, the cost or the allergens. A part above which the recipe says no \
          `part` is called as the recipe.",
    bad: "recipe Plum tart\nuse \"shortcrust.miche\"\nplums .... 600 g\nsugar .... 60 g\nstew: tend 20 min, using stove\n    \
          Stew {plums} and {sugar}.\n    until soft\n=== shortcrust.miche ===\nrecipe Shortcrust\nflour .... 200 g\nbutter .... 100 g\n\
          rub: hands 5 min\n    Rub {butter} into {flour}.\n    until it crumbles\n",
    good: "recipe Plum tart\nplums .... 600 g\nsugar .... 60 g\nstew: tend 20 min, using stove\n    Stew {plums} and {sugar}.\n    \
           until soft\n",
    sources: &["common practice, no source"],
    run: Run::Uses(run),
};

/// So many parts of a recipe are named.
const MOST_NAMED: usize = 6;

fn run(project: &Project, tree: &Tree, diagnostics: &mut Vec<Diagnostic>) {
    // A line that could not be read may be the one that takes something.
    if tree.kind != FileKind::Recipe || tree.has_strays() {
        return;
    }
    let used_recipe = |path: Span| {
        let used = project.target(path).and_then(|target| project.file(target))?;
        let is_read = used.tree.kind == FileKind::Recipe && !used.tree.has_strays();
        is_read.then_some((path, used))
    };
    let used: Vec<(Span, &File)> = uses(tree).filter_map(used_recipe).collect();
    if used.is_empty() {
        return;
    }
    let taken: Vec<&Name> = taken(tree);
    let own: Vec<Name> = parts(tree);
    let larder = project.pantry(&project.used(tree.source).collect::<Vec<_>>()).larder;
    let names: HashSet<&Key> = taken.iter().map(|name| &name.key).collect();
    for (path, used) in used {
        let parts = parts(&used.tree);
        let called = recipe_name(&used.tree);
        let mistaken: Vec<&&Name> = taken
            .iter()
            .filter(|name| called.is_some_and(|called| called.same(name)))
            .filter(|name| !own.iter().chain(&parts).any(|part| part.same(name)))
            .filter(|name| larder.find(&name.key).is_none())
            .collect();
        for name in &mistaken {
            diagnostics.push(by_the_recipes_name(name, &parts, path));
        }
        let reached = reached(project, used.tree.source);
        // What leads to a file that is not there, or back in a ring, is told by itself, and what can be taken is not known then.
        let is_known = |source: &SourceId| {
            project.file(*source).is_some_and(|file| uses(&file.tree).all(|path| project.target(path).is_some()))
        };
        if !mistaken.is_empty() || parts.is_empty() || !reached.iter().all(is_known) {
            continue;
        }
        let mut all =
            reached.iter().filter_map(|source| project.file(*source)).flat_map(|file| self::parts(&file.tree));
        if !all.any(|part| names.contains(&part.key)) {
            diagnostics.push(nothing_taken(path, called, &parts));
        }
    }
}

/// A line that says the name of a used recipe.
fn by_the_recipes_name(name: &Name, parts: &[Name], path: Span) -> Diagnostic {
    let message =
        format!("`{name}` is the name of a used recipe, and no part of it is called so: this line takes nothing of it");
    let problem = Diagnostic::warning(CHECK.name, name.span, message).also(path, "used here");
    match parts.last() {
        Some(part) => problem
            .help(format!("its {}: say the one that goes in here, `{part} .... AMOUNT`", called(parts)))
            .suggest(format!("take `{part}`"), name.span, part.text.to_string()),
        None => problem,
    }
}

/// A `use` line that brings nothing.
fn nothing_taken(path: Span, recipe: Option<&Name>, parts: &[Name]) -> Diagnostic {
    let of = recipe.map_or_else(|| "this recipe".to_owned(), |name| format!("`{name}`"));
    let first = parts.last().map(ToString::to_string).unwrap_or_default();
    Diagnostic::warning(CHECK.name, path, format!("nothing of {of} is taken here"))
        .label("used, and no line takes a part of it")
        .help(format!(
            "its {}: list what goes in by its name, `{first} .... AMOUNT`, or take the `use` line out",
            called(parts)
        ))
}

/// What the parts of a recipe are called.
fn called(parts: &[Name]) -> String {
    let named: Vec<String> = parts.iter().take(MOST_NAMED).map(|part| format!("`{part}`")).collect();
    match named.len() {
        1 => format!("part is called {}", show::list(&named)),
        few if few < parts.len() => format!("parts are called {} and others", named.join(", ")),
        _ => format!("parts are called {}", show::list(&named)),
    }
}

/// The names of all lines that may take a part.
fn taken(tree: &Tree) -> Vec<&Name> {
    let lines = tree.lines.iter().filter_map(|line| match &line.content {
        Content::Ingredient(ingredient) => Some(&ingredient.name),
        Content::Part { from, .. } => from.as_ref(),
        _ => None,
    });
    lines.collect()
}

/// Where the paths of the `use` lines stand.
fn uses(tree: &Tree) -> impl Iterator<Item = Span> {
    tree.lines.iter().filter_map(|line| match &line.content {
        Content::Use(path) => Some(path.span),
        _ => None,
    })
}

fn recipe_name(tree: &Tree) -> Option<&Name> {
    tree.lines.iter().find_map(|line| match &line.content {
        Content::Recipe(name) => Some(name),
        _ => None,
    })
}

/// The parts of a recipe, in their order: what stands above the first `part` line is called as the recipe.
fn parts(tree: &Tree) -> Vec<Name> {
    let is_part = |content: &Content| matches!(content, Content::Part { .. });
    let before = tree.lines.iter().take_while(|line| !is_part(&line.content));
    let unnamed =
        before.map(|line| &line.content).any(|content| matches!(content, Content::Ingredient(_) | Content::Step(_)));
    let named = tree.lines.iter().filter_map(|line| match &line.content {
        Content::Part { name, .. } => Some(name.clone()),
        _ => None,
    });
    recipe_name(tree).filter(|_| unnamed).cloned().into_iter().chain(named).collect()
}

/// A recipe and all that it uses itself, each once: through one recipe the parts of others are taken too.
fn reached(project: &Project, first: SourceId) -> HashSet<SourceId> {
    let mut seen = HashSet::new();
    let mut open = vec![first];
    while let Some(here) = open.pop() {
        let is_recipe = project.file(here).is_some_and(|file| file.tree.kind == FileKind::Recipe);
        if is_recipe && seen.insert(here) {
            open.extend(project.used(here));
        }
    }
    seen
}
