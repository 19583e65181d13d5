//! Problems as the editor shows them: the same that `check` finds, all of them.

use super::view::View;
use crate::check;
use crate::text::diagnostic::Diagnostic;

/// The problems that touch a stretch of the text.
pub(super) fn touching(problems: &[Diagnostic], from: usize, to: usize) -> impl Iterator<Item = &Diagnostic> {
    problems.iter().filter(move |problem| {
        let range = problem.span.range();
        range.start <= to && from <= range.end
    })
}

/// One problem in words, with what to do about it.
pub(super) fn message(problem: &Diagnostic) -> String {
    let mut message = problem.said().into_owned();
    if !problem.label.is_empty() {
        message.push_str(&format!(" ({})", problem.label));
    }
    if let Some(help) = &problem.help {
        message.push_str(&format!("\n{help}"));
    }
    message
}

/// What a check means, for reading beside a problem.
pub(super) fn meaning(name: &str) -> Option<String> {
    let check = check::find(name)?;
    Some(format!("**{}** ({}) looks for {}.\n\n{}", check.name, check.severity.word(), check.looks_for, check.why))
}

/// The check that a comment `# allow CHECK: reason` names at a place.
pub(super) fn allowed(view: &View, offset: usize) -> Option<&'static str> {
    let (_, line) = super::place::line(view.tree(), offset)?;
    let words = view.slice(line.comment?).trim_start_matches('#').trim().strip_prefix("allow ")?;
    check::find(words.split(':').next()?.trim()).map(|check| check.name)
}
