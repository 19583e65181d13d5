//! `unlike-choices`: an option that changes nothing.

use super::{Check, Family, Run};
use crate::language::syntax::{Content, FileKind, Line, Tree};
use crate::model::choice::Choice;
use crate::model::cooking::has_word_beginning;
use crate::model::project::Project;
use crate::solve::resolve::choices_of;
use crate::text::diagnostic::{Diagnostic, Severity};

/// The check and its explanation.
pub(super) const CHECK: Check = Check {
    name: "unlike-choices",
    severity: Severity::Warning,
    family: Family::Steps,
    looks_for: "a choice whose options no line is marked with, or an option for which no line holds though others have theirs",
    why: "`choose mixing: machine or hand` promises two ways. If no line is marked `[machine]` or `[hand]`, both are the \
          same; if only `[machine]` is marked, choosing `hand` merely leaves steps out. Where leaving something out is all \
          that an option means (`plain or seeded`), say so in a note marked with it: `note Without the seeds. [plain]`. \
          A choice that a used recipe has under the same name is handed on to it, and needs no line here.",
    bad: "recipe Rolls\nchoose mixing: machine or hand\nflour .... 500 g\nwater .... 300 g\nmix: hands 10 min\n    \
          Mix {flour} and {water}.\n    until smooth\n",
    good: "recipe Rolls\nchoose mixing: machine or hand\nflour .... 500 g\nwater .... 300 g\nmix: hands 8 min [machine]\n    \
           Mix {flour} and {water}.\n    until smooth\nmix: hands 15 min [hand]\n    Knead {flour} and {water}.\n    until smooth\n",
    sources: &["common practice, no source"],
    run: Run::Uses(run),
};

/// The choices of the recipes that a file uses: one of the same name here is handed on to them, so that each of its options changes
/// something.
fn handed_on(project: &Project, tree: &Tree) -> Vec<Choice> {
    let used = project.used(tree.source).filter_map(|used| project.file(used));
    used.filter(|file| file.tree.kind == FileKind::Recipe).flat_map(|file| choices_of(&file.tree)).collect()
}

/// What is plain is so because nothing is done or added.
fn is_plain(option: &str) -> bool {
    option == "no"
        || option.starts_with("no ")
        || has_word_beginning(option, ["plain", "none", "without", "nothing", "natural"])
}

fn run(project: &Project, tree: &Tree, diagnostics: &mut Vec<Diagnostic>) {
    let choices = choices_of(tree);
    // A line that could not be read may be the one that is marked.
    if choices.is_empty() || tree.has_strays() {
        return;
    }
    let handed_on = handed_on(project, tree);
    let options = || choices.iter().flat_map(|choice| &choice.options);
    // A misspelt option is reported where it stands; here it would only echo.
    if tree.lines.iter().flat_map(|line| &line.only).any(|name| !options().any(|option| option.same(name))) {
        return;
    }
    for choice in &choices {
        // One option alone was reported.
        if choice.options.len() < 2 || handed_on.iter().any(|other| other.name.same(&choice.name)) {
            continue;
        }
        let is_marked = |option: &crate::language::syntax::Name| {
            tree.lines.iter().any(|line| line.only.iter().any(|name| name.same(option)))
        };
        let (marked, idle): (Vec<_>, Vec<_>) = choice.options.iter().partition(|option| is_marked(option));
        if marked.is_empty() {
            let message = format!("`{}` can be chosen, but no line is marked with any of its options", choice.name);
            let option = choice.options.first().map_or("A", |option| &option.text);
            diagnostics.push(Diagnostic::warning(CHECK.name, choice.name.span, message).help(format!(
                "mark the lines that hold for one option only, `mix: hands 8 min [{option}]`, or take the choice out"
            )));
            continue;
        }
        // Something goes in or is done with another.
        let of_others = |line: &Line| line.only.iter().any(|name| marked.iter().any(|option| option.same(name)));
        let adds = tree.lines.iter().any(|line| matches!(line.content, Content::Ingredient(_)) && of_others(line));
        for option in idle.into_iter().filter(|option| !(adds && is_plain(option.key.as_str()))) {
            let others: Vec<String> = marked.iter().map(|option| format!("`{option}`")).collect();
            let message = format!(
                "no line holds for `{option}` alone, while {} has its own",
                crate::measure::show::list(&others)
            );
            let mut problem =
                Diagnostic::warning(CHECK.name, option.span, message).label("chooses only what is left out");
            let first = marked
                .iter()
                .find_map(|option| tree.lines.iter().flat_map(|line| &line.only).find(|name| name.same(option)));
            if let Some(first) = first {
                problem = problem.also(first.span, "holds for the other option");
            }
            diagnostics.push(problem.help(format!(
                "mark what is done instead with `[{option}]`; if nothing is, say so in a note: `note Without it. [{option}]`"
            )));
        }
    }
}
