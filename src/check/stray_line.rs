//! `stray-line`: a line, a clause or a brace that fits nothing the language can say.

use super::{Check, Family, Run};
use crate::language::syntax::{Content, Line, Tree};
use crate::text::diagnostic::{Diagnostic, Severity};

/// The check and its explanation; nearly all of its problems are found while a file is read and bound.
pub(super) const CHECK: Check = Check {
    name: "stray-line",
    severity: Severity::Error,
    family: Family::Writing,
    looks_for: "a line, a clause or a brace that fits nothing the language can say",
    why: "A line that is not understood is not weighed, not checked and not printed. Nothing is silently \
        skipped: either it is an ingredient (`NAME .... AMOUNT`), a step (`NAME: hands TIME`), a line that \
        begins with a known word, prose indented below a step, or a comment after `# `.",
    bad: r#"recipe Rolls
flour .... 500 g
water, 300 g
"#,
    good: r#"recipe Rolls
flour .... 500 g
water .... 300 g

mix: hands 10 min
    Mix {flour} and {water}.
    until smooth
"#,
    sources: &[],
    run: Run::Tree(run),
};

/// Texts of which nothing but their word is there. All else is found while the file is read.
fn run(tree: &Tree, diagnostics: &mut Vec<Diagnostic>) {
    for (at, line) in tree.lines.iter().enumerate() {
        let Content::Text { kind, pieces } = &line.content else { continue };
        let is_empty = |line: &&Line| matches!(line.content, Content::Blank | Content::Comment);
        let next = || tree.lines.iter().skip(at + 1).find(|line| !is_empty(line));
        let goes_on = || next().is_some_and(|line| matches!(line.content, Content::Prose(_)));
        if pieces.is_empty() && !goes_on() {
            let word = kind.word();
            let message = format!("`{word}` is not complete");
            diagnostics.push(
                Diagnostic::error(CHECK.name, line.said, message)
                    .label("something is missing at the end")
                    .help(format!("write what it says behind it, `{word} TEXT`, or take the line out")),
            );
        }
    }
}
