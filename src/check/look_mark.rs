//! `look-mark`: marks that `new --from` has set where it guessed, and that nobody has looked at yet.

use super::{Check, Family, Run};
use crate::language::syntax::{FileKind, Tree};
use crate::model::project::Project;
use crate::text::diagnostic::{Diagnostic, Severity};
use crate::text::source::Span;

/// The check and its explanation.
pub(super) const CHECK: Check = Check {
    name: "look-mark",
    severity: Severity::Advice,
    family: Family::Writing,
    looks_for: "comments that begin `# look (`, as `new --from` sets where it guessed or did not understand",
    why: "A formula made from notes is a first one: what was guessed in it carries a mark, and a card does not print marks. As long as one \
          stands, a figure that was guessed looks as sure as any other. Look, correct the line, and take the mark out.",
    bad: "recipe Rolls\n# look (read as 500 g): about a pound flour\nflour .... 500 g\nweigh: hands 1 min\n    Weigh {flour}.\n",
    good: "recipe Rolls\nflour .... 500 g\nweigh: hands 1 min\n    Weigh {flour}.\n",
    sources: &["common practice, no source"],
    run: Run::Uses(run),
};

fn run(project: &Project, tree: &Tree, diagnostics: &mut Vec<Diagnostic>) {
    let Some(source) = project.sources.get(tree.source).filter(|_| tree.kind == FileKind::Recipe) else { return };
    // `# look at the crumb` is a baker's own.
    let is_mark = |comment: &Span| {
        source.slice(*comment).strip_prefix("# look").is_some_and(|rest| rest.trim_start().starts_with('('))
    };
    let mut marks = tree.lines.iter().filter_map(|line| line.comment).filter(is_mark);
    let Some(first) = marks.next() else { return };
    let message = match marks.count() {
        0 => "a line was guessed from notes and is to be looked at".to_owned(),
        more => format!("{} lines were guessed from notes and are to be looked at", more + 1),
    };
    diagnostics.push(
        Diagnostic::advice(CHECK.name, first, message)
            .help("look whether what stands at each `# look` is right, then take the mark out; cards do not print it"),
    );
}
