//! 'Did you mean': names that are near to one that is not known.

use crate::language::parse::nearest;
use crate::language::syntax::Name;
use crate::text::diagnostic::Diagnostic;

/// Beyond so many problems nobody is told what was meant: `check` shows no more of them by itself, and each takes a walk
/// through all names.
const MOST_HELPED: usize = 200;
/// So many names are compared with one that is not known.
const MOST_COMPARED: usize = 5000;

/// Adds a problem to those that were found before, with 'did you mean' where a known name is near.
pub(crate) fn push_with_nearest<'n>(
    problem: Diagnostic,
    name: &Name,
    known: impl Iterator<Item = &'n str>,
    problems: &mut Vec<Diagnostic>,
) {
    let most = if problems.len() < MOST_HELPED { MOST_COMPARED } else { SHOWN };
    problems.push(with_nearest(problem, name, known.take(most)));
}

/// Of known names so many are shown.
const SHOWN: usize = 12;

/// What is said behind a sentence where a known name is near: `; did you mean …?`, else nothing.
pub(crate) fn hint<'n>(name: &str, known: impl IntoIterator<Item = &'n str>) -> String {
    nearest(name, known).map_or_else(String::new, |near| format!("; did you mean `{near}`?"))
}

/// Adds 'did you mean' where a known name is near.
pub(crate) fn with_nearest<'n>(problem: Diagnostic, name: &Name, known: impl Iterator<Item = &'n str>) -> Diagnostic {
    let known: Vec<&str> = known.collect();
    match nearest(name.key.as_str(), known.iter().copied()) {
        Some(near) => problem.meant(name.span, near),
        None => {
            let all: Vec<String> = known.iter().take(SHOWN).map(|name| format!("`{name}`")).collect();
            if all.is_empty() { problem } else { problem.help(format!("known here: {}", all.join(", "))) }
        }
    }
}
