//! `which-cup`: cups, spoons, pints and gallons in a file that does not say which country's.

use super::{Check, Family, Run, stray_line};
use crate::language::syntax::{Content, FileKind, Line, Tree};
use crate::text::diagnostic::{Diagnostic, Severity};
use crate::text::source::{Source, Span};
use crate::text::words::begins_with_words;

/// The check and its explanation; its problems are found while a file is read and bound.
pub(super) const CHECK: Check = Check {
    name: "which-cup",
    severity: Severity::Error,
    family: Family::Writing,
    looks_for: "cups, spoons, pints and gallons in a file that does not say which country's",
    why: "A US cup holds 237 ml, a metric cup 250 ml, an imperial one 284 ml: a fifth more flour in the same \
        recipe. Say `measures US`, `measures metric` or `measures imperial` in the head.",
    bad: r#"recipe Rolls
water .... 1 cup
"#,
    good: r#"recipe Rolls
measures US
water .... 1 cup

pour: hands 1 min
    Pour {water}.
"#,
    sources: &["NIST Special Publication 811 as carried by GNU units 2.22"],
    run: Run::Elsewhere,
};

/// Without any `measures` one line is missing, however many cups there are: they are told once. Where a `measures` cannot be read, that line
/// leaves every cup without a country, and is told alone.
pub(super) fn tell_once(tree: &Tree, source: &Source, diagnostics: &mut Vec<Diagnostic>) {
    let cups = diagnostics.iter().filter(|problem| problem.check == CHECK.name).count();
    if cups == 0 {
        return;
    }
    let is_of_measures = |line: &&Line| begins_with_words(&source.slice(line.said).to_lowercase(), "measures");
    let told = diagnostics.iter().filter(|problem| [stray_line::CHECK.name, CHECK.name].contains(&problem.check));
    let said_in_vain: Vec<u32> = told
        .filter_map(|problem| tree.line_at(problem.span.start))
        .filter(is_of_measures)
        .map(|line| line.span.start)
        .collect();
    let is_unsaid = tree.kind == FileKind::Recipe && !tree.says(|content| matches!(content, Content::Measures(_)));
    if let Some(first) = diagnostics.iter_mut().find(|problem| problem.check == CHECK.name)
        && is_unsaid
        && said_in_vain.is_empty()
        && cups > 1
    {
        first.message.push_str(&format!(", and so do {} more here", cups - 1));
    }
    let is_in_vain = |span: Span| tree.line_at(span.start).is_some_and(|line| said_in_vain.contains(&line.span.start));
    let mut told = 0;
    diagnostics.retain(|problem| {
        if problem.check != CHECK.name {
            return true;
        }
        told += 1;
        if said_in_vain.is_empty() { !is_unsaid || told == 1 } else { is_in_vain(problem.span) }
    });
}
