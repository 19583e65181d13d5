//! `near-clause`: words that are nearly a clause, and are read as how the thing is prepared or as a part of its name.

use super::{Check, Family, Run};
use crate::language::syntax::{Content, FileKind, IngredientClause, Key, Line, Name, Tree};
use crate::measure::unit::{Dimension, Unit};
use crate::text::diagnostic::{Diagnostic, Severity};
use crate::text::source::Span;

/// The check and its explanation.
pub(super) const CHECK: Check = Check {
    name: "near-clause",
    severity: Severity::Warning,
    family: Family::Names,
    looks_for: "words behind an amount that are nearly a clause of the language: `asied`, `set aside`, `counts as flower`, `yeild 80 %`, or a \
                temperature without `at`",
    why: "What is no clause is read as how the thing is prepared, and printed; it counts in no sum. Crumbs that are `set aside` are weighed \
          into the dough, chestnut meal that `counts as flower` is no flour, and water of `30 C` warms nothing.",
    bad: "recipe Crumbed rolls\nflour .... 500 g\nwater .... 300 g, 30 C\nmix: hands 10 min\n    Mix {flour} and {water}.\n    until smooth\n",
    good: "recipe Crumbed rolls\nflour .... 500 g\nwater .... 300 g, at 30 C\nmix: hands 10 min\n    Mix {flour} and {water}.\n    until smooth\n",
    sources: &["common practice, no source"],
    run: Run::Tree(run),
};

/// Clauses of words alone.
const CLAUSES: [&str; 6] = ["counts as flour", "not flour", "optional", "aside", "strained out", "from store"];

/// What people write for a clause, where the letters are not near.
const IN_OTHER_WORDS: [(&str, &str); 8] = [
    ("set aside", "aside"),
    ("put aside", "aside"),
    ("to be set aside", "aside"),
    ("strain out", "strained out"),
    ("strained off", "strained out"),
    ("from the store", "from store"),
    ("counts as a flour", "counts as flour"),
    ("count it as flour", "counts as flour"),
];

fn run(tree: &Tree, diagnostics: &mut Vec<Diagnostic>) {
    if tree.kind != FileKind::Recipe {
        return;
    }
    for line in &tree.lines {
        if let Content::Part { name, from: None } = &line.content {
            diagnostics.extend(from_without_comma(tree, name));
        }
        let Content::Ingredient(ingredient) = &line.content else { continue };
        diagnostics.extend(amount_in_name(&ingredient.name));
        for clause in &ingredient.clauses {
            if let IngredientClause::Preparation(text) = &clause.value {
                let nearly = || meant(text).map(|meant| problem(clause.span, text, &meant));
                diagnostics.extend(second_amount(clause.span, text).or_else(nearly));
            }
        }
    }
}

fn problem(span: Span, text: &str, meant: &str) -> Diagnostic {
    Diagnostic::warning(CHECK.name, span, format!("`{text}` is read as how it is prepared, and counts in no sum"))
        .help(format!("did you mean `{meant}`?"))
        .suggest(format!("write `{meant}`"), span, meant.to_owned())
}

/// The clause that was meant.
fn meant(text: &str) -> Option<String> {
    let text = text.trim().to_lowercase();
    let other = || IN_OTHER_WORDS.iter().find(|(words, _)| *words == text).map(|(_, clause)| (*clause).to_owned());
    near_one(&text).or_else(other).or_else(|| temperature(&text)).or_else(|| with_a_share(&text))
}

/// One slip in a short clause, two in a longer one.
fn near_one(text: &str) -> Option<String> {
    let is_near = |clause: &&str| {
        let allowed = if clause.len() < 9 { 1 } else { 2 };
        clause.len().abs_diff(text.len()) <= allowed && strsim::osa_distance(clause, text) <= allowed
    };
    CLAUSES.into_iter().find(is_near).map(str::to_owned)
}

/// `30 C`: a temperature and nothing else.
fn temperature(text: &str) -> Option<String> {
    let figure = text.strip_suffix(['c', 'f'])?.trim_end_matches(['°', 'º', ' ']);
    let is_figure = !figure.is_empty() && figure.bytes().all(|byte| byte.is_ascii_digit() || matches!(byte, b'.' | b'-'));
    let letter = text.chars().next_back()?.to_ascii_uppercase();
    is_figure.then(|| format!("at {figure} {letter}"))
}

/// `yeild 80 %`, `92 % yield`, `leave apple peel 20 %`.
fn with_a_share(text: &str) -> Option<String> {
    let share = text.strip_suffix('%').map(str::trim_end);
    let (first, rest) = text.split_once(' ')?;
    if let Some(figure) = text.strip_suffix("yield").map(str::trim).filter(|figure| figure.ends_with('%')) {
        return Some(format!("yield {figure}"));
    }
    let ends_in_figure = share?.ends_with(|c: char| c.is_ascii_digit());
    let words = rest.split(' ').count();
    match first {
        "leave" | "leafs" if ends_in_figure && words > 2 => Some(format!("leaves {rest}")),
        _ if ends_in_figure && words == 2 && first != "yield" && strsim::osa_distance(first, "yield") == 1 => {
            Some(format!("yield {rest}"))
        }
        _ => None,
    }
}

/// `part poolish from dough`: the comma is missing, and the part is one of its own that nothing takes.
fn from_without_comma(tree: &Tree, name: &Name) -> Option<Diagnostic> {
    let (part, of) = name.text.split_once(" from ")?;
    let of = Key::new(of);
    let is_part = |line: &Line| matches!(&line.content, Content::Part { name, .. } if name.key == of);
    tree.lines.iter().any(is_part).then(|| {
        let meant = format!("{part}, from {}", of.as_str());
        let message = format!("`{name}` is read as the name of a part that is taken out of nothing");
        Diagnostic::warning(CHECK.name, name.span, message)
            .help(format!("did you mean `part {meant}`?"))
            .suggest("put a comma before `from`", name.span, meant)
    })
}

/// `water at 30 C .... 600 g`, `600 g water .... 600 g`: a temperature or an amount in the name, where no sum knows of it.
fn amount_in_name(name: &Name) -> Option<Diagnostic> {
    let of_figure = |byte: u8| byte.is_ascii_digit() || byte == b'.';
    if !name.text.bytes().any(of_figure) {
        return None;
    }
    let words: Vec<&str> = name.text.split(' ').collect();
    let is_figure = |word: &str| !word.is_empty() && word.bytes().all(of_figure);
    let is = |word: &str, wanted: &[Dimension]| {
        Unit::from_word(word).is_some_and(|unit| wanted.contains(&unit.dimension()))
    };
    let (what, help) = match words.as_slice() {
        [rest @ .., at, figure, unit]
            if at.eq_ignore_ascii_case("at") && is_figure(figure) && is(unit, &[Dimension::Temperature]) =>
        {
            let rest = rest.join(" ");
            (format!("at {figure} {unit}"), format!("it stands behind the amount: `{rest} .... AMOUNT, at {figure} {unit}`"))
        }
        [figure, unit, _, ..] if is_figure(figure) && is(unit, &[Dimension::Mass, Dimension::Volume]) => {
            (format!("{figure} {unit}"), "the amount stands behind the leader, and nothing of it in the name".to_owned())
        }
        _ => return None,
    };
    let message = format!("`{what}` is read as part of the name, and counts in no sum");
    Some(Diagnostic::warning(CHECK.name, name.span, message).help(help))
}

/// `600 g, = 60 %`: another way to say an amount belongs to the amount, and stands before the comma.
fn second_amount(span: Span, text: &str) -> Option<Diagnostic> {
    let amount = text.trim().strip_prefix('=')?.trim();
    let is_amount = amount.starts_with(|c: char| c.is_numeric());
    let problem = Diagnostic::warning(CHECK.name, span, format!("`= {amount}` stands behind a comma, and counts in no sum"));
    is_amount.then(|| problem.help(format!("another way to say the amount stands before the comma: `… = {amount}`")))
}
