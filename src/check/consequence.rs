//! Takes out problems that only follow from another: one slip of the pen, one problem.

use crate::language::syntax::{Content, FileKind, Key, Tree};
use crate::text::diagnostic::{Diagnostic, Label};
use crate::text::source::{Source, Span};
use std::collections::HashSet;

/// Problems that say which lines hold under which option; while an option is unknown nobody knows.
const UNDER_OPTIONS: &[&str] = &["twice-named", "used-up", "never-used", "not-all-used", "unlike-choices"];

/// So many lines that cannot be read, and so many names that were meant, are looked at for what follows from them.
const MOST_CAUSES: usize = 200;

/// Drops the consequences among the problems of one file.
pub(super) fn drop_consequences(tree: &Tree, source: &Source, diagnostics: &mut Vec<Diagnostic>) {
    if diagnostics.len() < 2 {
        return;
    }
    let strays: Vec<String> = tree
        .lines
        .iter()
        .filter(|line| line.content == Content::Stray)
        .take(MOST_CAUSES)
        .map(|line| source.slice(line.said).to_lowercase())
        .collect();
    drop_followers(tree, source, diagnostics);
    // A page of a book says nothing of the others.
    let unknown_option = tree.kind != FileKind::Book && has_unknown_option(diagnostics);
    // Of two lines of prose for two options each names what the other does not have.
    let for_options: HashSet<u32> = diagnostics
        .iter()
        .filter(|problem| problem.check == "unknown-option")
        .filter_map(|problem| tree.line_at(problem.span.start))
        .filter(|line| matches!(line.content, Content::Prose(_) | Content::Until(_)))
        .map(|line| line.span.start)
        .collect();
    let in_prose_under_options =
        |span: Span| tree.line_at(span.start).is_some_and(|line| for_options.contains(&line.span.start));
    // `{watr}` is unknown because `water` was meant, and `water` is never used for the same reason.
    let meant: HashSet<Key> = diagnostics
        .iter()
        .filter(|problem| problem.check == "unknown-name")
        .filter_map(|problem| problem.mend.as_ref()?.edits.first())
        .map(|edit| Key::new(edit.text.rsplit(" of ").next().unwrap_or(&edit.text)))
        .collect();
    let garbled: Vec<String> = diagnostics
        .iter()
        .filter(|problem| problem.check == "stray-line")
        .take(MOST_CAUSES)
        .map(|problem| line_at(tree, source, problem.span).to_lowercase())
        .collect();
    // While nobody knows what a brace means, nobody knows what no step of its part takes.
    let parts: Vec<u32> = tree
        .lines
        .iter()
        .filter(|line| matches!(line.content, Content::Part { .. }))
        .map(|line| line.span.start)
        .collect();
    let part_of = |span: Span| parts.partition_point(|start| *start <= span.start);
    let unread: HashSet<usize> = diagnostics
        .iter()
        .filter(|problem| is_unread_brace(tree, problem))
        .map(|problem| part_of(problem.span))
        .collect();
    // A `measures` that cannot be read where it stands leaves every cup without a country.
    let said_in_vain: Vec<u32> = diagnostics
        .iter()
        .filter(|problem| ["stray-line", "which-cup"].contains(&problem.check))
        .filter_map(|problem| tree.line_at(problem.span.start))
        .filter(|line| begins_with(&source.slice(line.said).to_lowercase(), "measures"))
        .map(|line| line.span.start)
        .collect();
    // Without any `measures` one line is missing, however many cups there are.
    let is_unsaid = tree.kind == FileKind::Recipe && !tree.says(|content| matches!(content, Content::Measures(_)));
    let cups = diagnostics.iter().filter(|problem| problem.check == "which-cup").count();
    if let Some(first) = diagnostics.iter_mut().find(|problem| problem.check == "which-cup")
        && is_unsaid
        && said_in_vain.is_empty()
        && cups > 1
    {
        first.message.push_str(&format!(", and so do {} more here", cups - 1));
    }
    // What is done too cool is told once: not as an odd figure too, nor as raw where it goes in.
    let undercooked: HashSet<Span> = diagnostics
        .iter()
        .filter(|problem| problem.check == "undercooked")
        .flat_map(|problem| problem.also.iter().map(|label| label.span).chain([problem.span]))
        .collect();
    let is_unbaked = diagnostics.iter().any(|problem| problem.check == "no-bake");
    let mut told_cups = 0;
    let is_in_vain = |span: Span| tree.line_at(span.start).is_some_and(|line| said_in_vain.contains(&line.span.start));
    diagnostics.retain(|problem| {
        let named = || Key::new(source.slice(problem.span));
        match problem.check {
            // How many pieces there are stands on the line that cannot be read.
            "pieces-mismatch" => !garbled.iter().any(|line| begins_with(line, "makes") || begins_with(line, "divide")),
            "unknown-name" => {
                !in_prose_under_options(problem.span) && !strays.iter().any(|line| begins_with(line, named().as_str()))
            }
            // What is to be baked and was forgotten to be is raw; that is one slip.
            "raw-flour-or-egg" if is_unbaked => false,
            "odd-temperature" | "raw-meat" | "raw-flour-or-egg" => !undercooked.contains(&problem.span),
            "which-cup" => {
                told_cups += 1;
                if said_in_vain.is_empty() { !is_unsaid || told_cups == 1 } else { is_in_vain(problem.span) }
            }
            _ if unknown_option && UNDER_OPTIONS.contains(&problem.check) => false,
            "not-all-used" => !unread.contains(&part_of(problem.span)),
            "never-used" => {
                let name = name_in(tree, problem.span).unwrap_or_else(named);
                let is_unread = unread.contains(&part_of(problem.span));
                !is_unread && !meant.contains(&name) && !garbled.iter().any(|line| line.contains(name.as_str()))
            }
            _ => true,
        }
    });
}

/// Which problems of one line say once more what another of that line says: one digit that has slipped is one problem.
const FOLLOWS: &[(&str, &[&str])] = &[
    ("hidden-allergen", &["near-name", "unknown-name"]),
    ("loose-step", &["unknown-step"]),
    ("near-name", &["unknown-name"]),
    ("never-used", &["near-name", "unknown-name"]),
    ("odd-amount", &["yield-does-not-add-up"]),
    ("odd-percent", &["extreme-percent"]),
    ("out-of-proportion", &["extreme-percent", "odd-percent", "odd-amount"]),
    ("step-out-of-place", &["twice-named"]),
    ("too-fine-for-scale", &["extreme-percent", "odd-amount", "out-of-proportion"]),
];

/// What an unknown name speaks of where a leaven was meant.
const LEAVENS: &[&str] = &["yeast", "leaven", "levain", "starter", "sour", "poolish", "biga", "sponge"];

fn drop_followers(tree: &Tree, source: &Source, diagnostics: &mut Vec<Diagnostic>) {
    if diagnostics.len() < 2 {
        return;
    }
    let line = |span: Span| tree.line_at(span.start).map(|line| line.span.start);
    let on_lines: HashSet<(&str, Option<u32>)> =
        diagnostics.iter().map(|problem| (problem.check, line(problem.span))).collect();
    // `yeast` that a step takes and no line lists is why nothing raises the dough, nor the pieces of it.
    let no_leaven = diagnostics.iter().any(|problem| {
        let named = || source.slice(problem.span).to_lowercase();
        problem.check == "unknown-name" && LEAVENS.iter().any(|leaven| named().contains(leaven))
    });
    one_of_two_spellings(tree, source, diagnostics);
    let mut told_leavens = 0;
    diagnostics.retain(|problem| {
        let here = line(problem.span);
        match problem.check {
            "no-leaven" => {
                told_leavens += 1;
                !no_leaven || told_leavens == 1
            }
            check => !FOLLOWS.iter().any(|(other, causes)| {
                *other == check && causes.iter().any(|cause| on_lines.contains(&(*cause, here)))
            }),
        }
    });
}

/// Of `whole weat flour` on a line and `whole wheat flour` in a step one is misspelt: the first that is told stays. Where the list has
/// what no larder knows, `watr`, the step that asks for water is right, and its error offers to mend the list.
fn one_of_two_spellings(tree: &Tree, source: &Source, diagnostics: &mut Vec<Diagnostic>) {
    let pair = |problem: &Diagnostic| {
        let meant = Key::new(&problem.mend.as_ref()?.edits.first()?.text);
        Some((written(tree, source, problem.span), meant))
    };
    let of = |check: &'static str| {
        let told = diagnostics.iter().filter(move |problem| problem.check == check);
        told.filter_map(|problem| Some((pair(problem)?, problem.clone()))).collect::<Vec<_>>()
    };
    let unknown = of("unknown-name");
    if unknown.is_empty() {
        return;
    }
    let near = of("near-name");
    let turned = |(wrong, meant): &(Key, Key), all: &[((Key, Key), Diagnostic)]| {
        all.iter().find(|(other, _)| other.0 == *meant && other.1 == *wrong).map(|(_, problem)| problem.clone())
    };
    diagnostics.retain_mut(|problem| match (problem.check, pair(problem)) {
        ("unknown-name", Some(pair)) => {
            if let Some(listed) = turned(&pair, &near) {
                problem.also.push(Label { span: listed.span, text: format!("listed as `{}`", pair.1.as_str()) });
                problem.help =
                    Some(format!("no larder knows `{}`: write `{}` there", pair.1.as_str(), pair.0.as_str()));
                problem.mend = listed.mend;
                return true;
            }
            turned(&pair, &unknown).is_none_or(|other| problem.span.start <= other.span.start)
        }
        _ => true,
    });
}

/// The name that a problem underlines, of an ingredient line without its amount.
fn written(tree: &Tree, source: &Source, span: Span) -> Key {
    name_in(tree, span).unwrap_or_else(|| Key::new(source.slice(span)))
}

/// Whether a problem is that of a brace of which nobody can tell what it takes: it is not closed, or names what is not there and is near
/// to nothing.
fn is_unread_brace(tree: &Tree, problem: &Diagnostic) -> bool {
    let is_cause = problem.check == "stray-line" || (problem.check == "unknown-name" && problem.mend.is_none());
    let in_step = |span: Span| {
        tree.line_at(span.start).is_some_and(|line| matches!(line.content, Content::Prose(_) | Content::Until(_)))
    };
    is_cause && in_step(problem.span)
}

fn has_unknown_option(diagnostics: &[Diagnostic]) -> bool {
    diagnostics.iter().any(|problem| problem.check == "unknown-option")
}

fn begins_with(line: &str, name: &str) -> bool {
    line.strip_prefix(name).is_some_and(|rest| !rest.starts_with(char::is_alphanumeric))
}

/// The line in which a place lies.
fn line_at<'s>(tree: &Tree, source: &'s Source, span: Span) -> &'s str {
    tree.line_at(span.start).map_or("", |line| source.slice(line.span))
}

/// The name of the ingredient line that a problem underlines.
fn name_in(tree: &Tree, span: Span) -> Option<Key> {
    tree.line_at(span.start).filter(|line| line.said == span).and_then(|line| match &line.content {
        Content::Ingredient(ingredient) => Some(ingredient.name.key.clone()),
        _ => None,
    })
}
