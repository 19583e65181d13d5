//! 'Did you mean': names that are near to one that is not known.

use crate::language::parse::nearest;
use crate::language::syntax::Name;
use crate::text::diagnostic::Diagnostic;

/// Adds 'did you mean' where a known name is near.
pub(crate) fn with_nearest<'n>(problem: Diagnostic, name: &Name, known: impl Iterator<Item = &'n str>) -> Diagnostic {
    let known: Vec<&str> = known.collect();
    match nearest(name.key.as_str(), known.iter().copied()) {
        Some(near) => {
            problem.help(format!("did you mean `{near}`?")).suggest(format!("write `{near}`"), name.span, near)
        }
        None => {
            let all: Vec<String> = known.iter().take(12).map(|name| format!("`{name}`")).collect();
            if all.is_empty() { problem } else { problem.help(format!("known here: {}", all.join(", "))) }
        }
    }
}
