//! A clause whose comma was forgotten: it is read as the end of the name before it, and says nothing.

use super::reader::{Reader, shortened};
use crate::language::syntax::Name;
use crate::text::diagnostic::Diagnostic;
use crate::text::source::Span;

/// Words with which a clause begins that goes on with a figure, and no name does: `rolls bake loss 12 %`, `bench people 2`.
const BEGINS: &[&[&str]] =
    &[&["bake", "loss"], &["loss"], &["people"], &["up", "to"], &["may", "stand"], &["shared", "by"]];

/// Where in a text each word of it begins.
fn words(text: &str) -> Vec<(usize, &str)> {
    text.split_whitespace().map(|word| (word.as_ptr().addr() - text.as_ptr().addr(), word)).collect()
}

/// The place in a name from which on it is a clause.
fn clause_at(text: &str) -> Option<usize> {
    let words = words(text);
    (0..words.len()).find_map(|at| {
        let rest = words.get(at..)?;
        let is_clause = |begin: &&&[&str]| {
            let figure = rest.get(begin.len()).is_some_and(|(_, word)| word.starts_with(|c: char| c.is_numeric()));
            figure && begin.iter().zip(rest).all(|(wanted, (_, word))| word.eq_ignore_ascii_case(wanted))
        };
        BEGINS.iter().find(is_clause).and_then(|_| rest.first()).map(|(place, _)| *place)
    })
}

/// A name that ends where a clause without its comma begins; that is reported. `None` where nothing is left of the name.
pub(super) fn name_before(reader: &mut Reader<'_>, name: Name) -> Option<Name> {
    let (source, whole) = (name.span.source, name.span.range());
    let written = reader.slice(name.span);
    let Some(at) = clause_at(written) else { return Some(name) };
    let clause = written.get(at..).unwrap_or("");
    let span = Span::new(source, whole.start + at, whole.end);
    // The blanks before the clause make room for the comma, also where nothing of the name stands before it.
    let end = reader.slice(Span::new(source, 0, span.range().start)).trim_end().len();
    let quoted = shortened(clause);
    let message = format!("`{quoted}` stands here without a comma, and would be part of a name");
    let problem = Diagnostic::error("stray-line", span, message).help(format!("write `, {quoted}`"));
    reader.report(problem.mend("put a comma before it", Span::new(source, end, span.range().start), ", "));
    let kept = written.get(..at).unwrap_or("").trim_end();
    (!kept.is_empty()).then(|| Name::new(kept, Span::new(source, whole.start, whole.start + kept.len())))
}

/// `24 x 60 g each`: a size of pieces is each piece's, and `each` would be the name of a sort.
pub(super) fn sort(reader: &mut Reader<'_>, name: Name) -> Option<Name> {
    if !matches!(name.key.as_str(), "each" | "apiece" | "per piece" | "a piece") {
        return name_before(reader, name);
    }
    let end = reader.slice(Span::new(name.span.source, 0, name.span.range().start)).trim_end().len();
    let blank = Span::new(name.span.source, end, name.span.range().end);
    let problem = Diagnostic::error("stray-line", name.span, format!("`{name}` would be the name of a sort of pieces"));
    reader.report(problem.help("the weight behind `x` is that of one piece: leave it out").mend(
        "leave it out",
        blank,
        "",
    ));
    None
}

/// `tin 23 x 13 x 7 cm`: each measure of a tin has its unit. Reports it and says so.
pub(super) fn one_unit_for_all(reader: &mut Reader<'_>, span: Span) -> bool {
    let text = reader.slice(span);
    let Some((word, measures)) = text.split_once(char::is_whitespace) else { return false };
    let mut measures: Vec<&str> = measures.split(['x', '×', 'X']).map(str::trim).collect();
    let Some((last, unit)) = measures.pop().and_then(|last| last.split_once(char::is_whitespace)) else { return false };
    let is_figure = |text: &&str| !text.is_empty() && text.bytes().all(|byte| byte.is_ascii_digit() || byte == b'.');
    let unit = unit.trim();
    measures.push(last);
    if measures.len() < 2 || !measures.iter().all(is_figure) || !unit.chars().all(char::is_alphabetic) {
        return false;
    }
    let each: Vec<String> = measures.iter().map(|figure| format!("{figure} {unit}")).collect();
    let meant = format!("{word} {}", each.join(" x "));
    let problem =
        Diagnostic::error("no-unit", span, format!("`{}` says a unit for its last measure only", shortened(text)));
    reader.report(problem.help(format!("write `{meant}`")).mend(format!("write `{meant}`"), span, meant));
    true
}
