//! How the parts of notes come together: in a part that puts them together, or in one of its own at the end.

use super::entry::Item;
use crate::language::syntax::Key;

/// First words of the heading over what is put together at the end, without `to`.
const PUT_TOGETHER: [&str; 11] = [
    "assemble",
    "assembly",
    "assembling",
    "finish",
    "finishing",
    "serve",
    "serving",
    "putting",
    "build",
    "building",
    "fill",
];

/// Why a mark stands at an ingredient that is taken for a part.
const IS_PART: &str = "read as the part of this name";

/// Whether a part's name says that it puts the others together.
pub(super) fn is_together(name: &str) -> bool {
    let lower = name.to_lowercase();
    let bare = lower.strip_prefix("to ").unwrap_or(&lower);
    let (first, rest) = bare.split_once(' ').unwrap_or((bare, ""));
    // `finishing salt` is a part of its own; `putting together` is not.
    PUT_TOGETHER.contains(&first)
        && (rest.is_empty() || ["the ", "it", "each ", "together", "up"].iter().any(|word| rest.starts_with(word)))
}

/// Makes a part the one that puts `made` together, by its lines and the names of its ingredients: it takes all of each part that none
/// of those is.
pub(super) fn put_together(lines: &mut Vec<Item>, names: &[String], made: &[String]) {
    let mut taken: Vec<&String> = Vec::new();
    for name in names {
        let Some(drawn) = the_part(name, made) else { continue };
        let begins = format!("{name} .. ");
        let line = lines.iter_mut().find(|item| item.lines.iter().any(|line| line.starts_with(&begins)));
        let Some(item) = line.filter(|_| !taken.contains(&drawn)) else { continue };
        taken.push(drawn);
        if Key::new(name) == Key::new(drawn) {
            continue;
        }
        for line in &mut item.lines {
            if let Some(rest) = line.strip_prefix(&begins) {
                *line = format!("{drawn} .. {rest}");
            }
        }
        item.look = Some(item.look.take().map_or_else(|| IS_PART.to_owned(), |look| format!("{look}; {IS_PART}")));
    }
    let left =
        made.iter().filter(|name| !taken.contains(name)).map(|name| Item::new(format!("{name} .. all"), "", None));
    let own = std::mem::take(lines);
    *lines = left.chain(own).collect();
}

/// The one part that a name can stand for: by its whole name, or by the last words of it, `cream` for `horseradish cream`.
fn the_part<'m>(name: &str, made: &'m [String]) -> Option<&'m String> {
    let whole = made.iter().find(|part| Key::new(part) == Key::new(name));
    let lower = name.to_lowercase();
    let ends = |part: &&String| part.to_lowercase().strip_suffix(&lower).is_some_and(|rest| rest.ends_with(' '));
    let mut by_end = made.iter().filter(ends);
    let single = by_end.next().filter(|_| by_end.next().is_none());
    whole.or(single)
}
