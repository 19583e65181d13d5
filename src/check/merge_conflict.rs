//! `merge-conflict`: the marks that a merge leaves where both sides changed the same lines.

use super::{Check, Family, Run};
use crate::language::syntax::{Content, Line, Tree};
use crate::text::diagnostic::{Diagnostic, Severity};
use crate::text::source::{Source, Span};

/// The check and its explanation; its problems are found by [`fold`], once everything else was looked for.
pub(super) const CHECK: Check = Check {
    name: "merge-conflict",
    severity: Severity::Error,
    family: Family::Writing,
    looks_for: "lines that begin with `<<<<<<<`, `=======` and `>>>>>>>`, between which two versions of a formula stand",
    why: "Git could not tell which of two changes was meant, and left both. Keep one of the two versions, or what is right of both, \
          and take the three lines of marks out. What else is wrong between them is not told until then.",
    bad: "recipe Rolls\nflour .... 500 g\n<<<<<<< ours\nwater .... 300 g\n=======\nwater .... 310 g\n>>>>>>> theirs\n",
    good: "recipe Rolls\nflour .... 500 g\nwater .... 310 g\n",
    sources: &["git-merge(1), how conflicts are presented"],
    run: Run::Elsewhere,
};

/// Where a conflict lies in the lines of a tree: its marks, and the line behind it.
struct Marks {
    ours: usize,
    /// `|||||||`, before the version from which both came, where git was asked for it.
    base: Option<usize>,
    theirs: usize,
    end: usize,
}

/// Puts one problem in the place of all that lie within a conflict, and of those that only come of it.
pub(super) fn fold(tree: &Tree, source: &Source, diagnostics: &mut Vec<Diagnostic>) {
    let begins = |line: &Line, mark: &str| line.content == Content::Stray && source.slice(line.said).starts_with(mark);
    // Looking for marks costs nothing where nothing is stray.
    if !tree.lines.iter().any(|line| begins(line, "<<<<<<<")) {
        return;
    }
    // Conflicts lie one behind the other.
    let mut wholes: Vec<(u32, u32)> = Vec::new();
    let mut problems = Vec::new();
    for marks in conflicts(tree, &begins) {
        let Some(problem) = told(tree, &marks) else { continue };
        let Some(last) = tree.lines.get(marks.end) else { continue };
        wholes.push((problem.span.start, last.span.end));
        problems.push(problem);
    }
    let inside = |span: Span| {
        let begun = wholes.partition_point(|(start, _)| *start <= span.start);
        let whole = begun.checked_sub(1).and_then(|at| wholes.get(at));
        span.source == tree.source && whole.is_some_and(|(_, end)| span.start < *end)
    };
    diagnostics.retain(|other| !inside(other.span) && !other.also.iter().any(|label| inside(label.span)));
    diagnostics.append(&mut problems);
}

fn conflicts(tree: &Tree, begins: &impl Fn(&Line, &str) -> bool) -> Vec<Marks> {
    let mut found = Vec::new();
    let mut open: Option<(usize, Option<usize>, Option<usize>)> = None;
    for (at, line) in tree.lines.iter().enumerate() {
        if begins(line, "<<<<<<<") {
            open = Some((at, None, None));
        } else if let Some((ours, base, theirs)) = &mut open {
            if begins(line, "|||||||") {
                *base = Some(at);
            } else if begins(line, "=======") {
                *theirs = Some(at);
            } else if begins(line, ">>>>>>>") {
                let (ours, base) = (*ours, *base);
                found.extend(theirs.map(|theirs| Marks { ours, base, theirs, end: at }));
                open = None;
            }
        }
    }
    found
}

fn told(tree: &Tree, marks: &Marks) -> Option<Diagnostic> {
    let first = tree.lines.get(marks.ours)?;
    let ours = between(tree, marks.ours + 1, marks.base.unwrap_or(marks.theirs));
    let theirs = between(tree, marks.theirs + 1, marks.end);
    let mut problem = Diagnostic::error(CHECK.name, first.said, "a merge left two versions here, and neither counts")
        .help("keep one of the two, or what is right of both, and take the lines of marks out");
    for (span, text) in [(ours, "one version"), (theirs, "the other")] {
        problem = match span {
            Some(span) => problem.also(span, text),
            None => problem,
        };
    }
    Some(problem)
}

/// The place of the lines from one number up to another; `None` when nothing stands there.
fn between(tree: &Tree, from: usize, to: usize) -> Option<Span> {
    let lines = tree.lines.get(from..to)?;
    let said = || lines.iter().filter(|line| !matches!(line.content, Content::Blank));
    Some(Span { end: said().next_back()?.said.end, ..said().next()?.said })
}
