//! Prose: the words as the author wrote them, the braces in one spelling.

use super::Page;
use super::amount::{chain, quantity, spelled};
use crate::language::syntax::{Piece, Share};

/// Writes the pieces of prose that begin at byte `start`; `None` when they do not match the text.
pub(super) fn pieces(page: Page<'_>, pieces: &[Piece], start: usize) -> Option<String> {
    let mut rest = page.text.get(start..)?;
    let mut out = String::new();
    for piece in pieces {
        if let Piece::Text(words) = piece {
            rest = rest.strip_prefix(words.as_str())?;
            out.push_str(words);
            continue;
        }
        let (inside, after) = rest.strip_prefix('{')?.split_once('}')?;
        rest = after;
        out.push('{');
        out.push_str(&brace(page, piece, inside));
        out.push('}');
    }
    Some(out)
}

fn brace(page: Page<'_>, piece: &Piece, inside: &str) -> String {
    match piece {
        Piece::Text(words) => words.clone(),
        Piece::Measure(quantities) => chain(page, quantities),
        Piece::Use(Share::All, name) => name.to_string(),
        Piece::Use(Share::Rest, name) => format!("rest of {name}"),
        Piece::Use(Share::Quantity(share), name) => format!("{} of {name}", quantity(page, share)),
        Piece::Use(Share::Fraction(value), name) => {
            let is_half = inside.trim_start().get(..4).is_some_and(|word| word.eq_ignore_ascii_case("half"));
            if is_half {
                return format!("half of {name}");
            }
            // The number is all that stands before `of`.
            let end = inside.to_ascii_lowercase().find("of").unwrap_or(inside.len());
            format!("{} of {name}", spelled(inside.get(..end).unwrap_or("").trim(), *value))
        }
    }
}
