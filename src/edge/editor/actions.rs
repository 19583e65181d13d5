//! What can be done about the problems at a place: their mends, and a comment that allows one.

use super::problems;
use super::view::View;
use crate::text::diagnostic::{Diagnostic, Edit, Mend};
use crate::text::line_break;
use crate::text::source::{SourceId, Span};

/// The problems that touch a stretch and have a mend in the same file; those that are certain first.
pub(super) fn mends(problems: &[Diagnostic], source: SourceId, from: usize, to: usize) -> Vec<(&Diagnostic, &Mend)> {
    let mut found: Vec<(&Diagnostic, &Mend)> = problems::touching(problems, from, to)
        .flat_map(|problem| problem.mend.iter().chain(&problem.other_mend).map(move |mend| (problem, mend)))
        .filter(|(_, mend)| mend.edits.iter().all(|edit| edit.span.source == source))
        .collect();
    found.sort_by_key(|(_, mend)| !mend.certain);
    found
}

fn start_of_line(text: &str, at: usize) -> usize {
    line_break::starts(text).take_while(|start| *start <= at).last().unwrap_or(0)
}

/// For each check that speaks at a stretch, a comment above the line that keeps it quiet there: `# allow CHECK: `, behind which a person
/// writes why.
pub(super) fn allowances<'p>(
    view: &View,
    problems: &'p [Diagnostic],
    from: usize,
    to: usize,
) -> Vec<(&'p Diagnostic, Mend)> {
    let mut all: Vec<(&Diagnostic, Mend)> = Vec::new();
    for problem in problems::touching(problems, from, to).filter(|problem| problem.span.source == view.source) {
        if !crate::check::allowance::may_be_allowed(problem) {
            continue;
        }
        let start = start_of_line(view.text(), problem.span.range().start);
        let place = Span::new(view.source, start, start);
        let is_known = |(known, mend): &(&Diagnostic, Mend)| {
            known.check == problem.check && mend.edits.iter().any(|edit| edit.span == place)
        };
        if all.iter().any(is_known) {
            continue;
        }
        let rest = view.text().get(start..).unwrap_or("");
        let indent: String = rest.chars().take_while(|c| matches!(c, ' ' | '\t')).collect();
        let text = format!("{indent}# allow {}: {}", problem.check, line_break::usual(view.text()));
        all.push((
            problem,
            Mend {
                title: format!("allow {} here; write why behind it", problem.check),
                edits: vec![Edit { span: place, text }],
                certain: false,
            },
        ));
    }
    all
}
