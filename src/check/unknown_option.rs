//! `unknown-option`: an option in brackets that no `choose` line offers, a line that can never hold, or prose that names one.

use super::{Check, Family, Run};
use crate::language::syntax::{Content, Key, Piece, Tree};
use crate::text::diagnostic::{Diagnostic, Severity};
use std::collections::HashSet;

/// The check and its explanation; its other problems are found while a file is read and bound.
pub(super) const CHECK: Check = Check {
    name: "unknown-option",
    severity: Severity::Error,
    family: Family::Names,
    looks_for: "an option in brackets that no `choose` line offers, a line that can never hold, and an option behind a line of prose, where it does nothing",
    why: "A line marked with an option that does not exist is never used: it would silently drop out of every \
        card. A condition holds for a whole step and stands behind its head: what is done otherwise under another option is another \
        step of that name.",
    bad: r#"recipe Rolls
choose mixing: machine or hand
flour .... 500 g
yeast .... 5 g [machin]
"#,
    good: r#"recipe Rolls
choose mixing: machine or hand
flour .... 500 g
yeast .... 5 g [machine]
yeast .... 3 g [hand]
mix: hands 10 min
    Mix {flour} and {yeast}.
    until smooth
"#,
    sources: &[],
    run: Run::Tree(run),
};

/// Options behind a line of prose: they would be printed, and what stands before them done under every option.
fn run(tree: &Tree, diagnostics: &mut Vec<Diagnostic>) {
    let offered: HashSet<&Key> = tree
        .lines
        .iter()
        .filter_map(|line| match &line.content {
            Content::Choose { options, .. } => Some(options.iter().map(|option| &option.key)),
            _ => None,
        })
        .flatten()
        .collect();
    if offered.is_empty() {
        return;
    }
    for line in &tree.lines {
        let (Content::Prose(pieces) | Content::Until(pieces)) = &line.content else { continue };
        let Some(Piece::Text(text)) = pieces.last() else { continue };
        let inner = text.trim_end().strip_suffix(']').and_then(|text| text.rsplit_once('[')).map(|(_, inner)| inner);
        let Some(inner) = inner.filter(|inner| inner.split(',').all(|name| offered.contains(&Key::new(name.trim()))))
        else {
            continue;
        };
        diagnostics.push(
            Diagnostic::error(CHECK.name, line.said, format!("`[{inner}]` behind a line of prose does nothing"))
                .help("write the step twice, each with its option behind the head: `mix: hands 10 min  [hand]`"),
        );
    }
}
