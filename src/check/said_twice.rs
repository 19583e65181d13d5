//! `said-twice`: one line that stands twice in a row, two cues of one step, a file used twice, a kitchen's hours said twice.

use super::{Check, Family, Run};
use crate::language::syntax::{Content, Key, Line, Piece, Quantity, Share, Term, Tree};
use crate::text::diagnostic::{Diagnostic, Severity};
use crate::text::source::Span;

/// The check and its explanation.
pub(super) const CHECK: Check = Check {
    name: "said-twice",
    severity: Severity::Warning,
    family: Family::Writing,
    looks_for: "prose that stands twice in a row, a step with two `until` lines, a file that is used twice, a kitchen \
                that says twice how many cooks it has, when it is open or what its scale shows",
    why: "A line that was copied once too often is done twice by whoever follows the card. Two `until` lines below one step are \
          mostly the end of a step whose head is gone: give it back its head, or write one sign with `and` or `or`. Of \
          `cooks`, `open`, `scale` and `fine scale` the last counts, and a plan is made with it in silence.",
    bad: "recipe Rolls\nflour .... 500 g\nwater .... 300 g\nmix: hands 10 min\n    Mix {flour} and {water}.\n    until smooth\n    \
          until it clears the bowl\n",
    good: "recipe Rolls\nflour .... 500 g\nwater .... 300 g\nmix: hands 10 min\n    Mix {flour} and {water}.\n    until smooth, and \
           it clears the bowl\n",
    sources: &["common practice, no source"],
    run: Run::Tree(run),
};

fn run(tree: &Tree, diagnostics: &mut Vec<Diagnostic>) {
    let mut cue: Option<Span> = None;
    let mut above: Option<&Line> = None;
    let mut used: Vec<(&str, &Line)> = Vec::new();
    let mut kitchen: Vec<(&str, Span)> = Vec::new();
    for line in tree.lines.iter().filter(|line| !matches!(line.content, Content::Blank | Content::Comment)) {
        match &line.content {
            Content::Prose(_) | Content::Until(_) | Content::Text { .. } if above.is_some_and(|above| same(above, line)) => {
                diagnostics.extend(above.map(|above| repeated(above, line)));
            }
            Content::Until(_) => {
                diagnostics.extend(cue.map(|first| second_cue(first, line.said)));
            }
            Content::Use(path) => {
                if let Some((_, first)) = used.iter().find(|(other, first)| *other == path.value && alike(first, line)) {
                    let message = format!("`{}` is used twice", path.value);
                    diagnostics.push(
                        Diagnostic::warning(CHECK.name, line.said, message)
                            .also(first.said, "used here already")
                            .help("take one of the two lines out"),
                    );
                }
                used.push((&path.value, line));
            }
            content => {
                if let Some(word) = once_a_kitchen(content) {
                    let first = kitchen.iter().find(|(other, _)| *other == word);
                    diagnostics.extend(first.map(|(_, first)| {
                        Diagnostic::warning(CHECK.name, line.said, format!("`{word}` is said twice, and the last counts"))
                            .also(*first, "said here already")
                            .help("take one of the two lines out")
                    }));
                    kitchen.push((word, line.said));
                }
            }
        }
        match &line.content {
            Content::Until(_) => cue = cue.or(Some(line.said)),
            Content::Prose(_) => {}
            _ => cue = None,
        }
        above = Some(line);
    }
}

/// What a kitchen says once.
fn once_a_kitchen(content: &Content) -> Option<&'static str> {
    match content {
        Content::Cooks(_) => Some("cooks"),
        Content::Open { .. } => Some("open"),
        Content::Scale { fine: true, .. } => Some("fine scale"),
        Content::Scale { .. } => Some("scale"),
        Content::Longest(_) => Some("longest"),
        _ => None,
    }
}

/// Whether two lines hold under the same options.
fn alike(one: &Line, other: &Line) -> bool {
    let keys = |line: &Line| line.only.iter().map(|option| option.key.clone()).collect::<Vec<Key>>();
    keys(one) == keys(other)
}

/// Whether two lines say the same words, where there are words enough that nobody means them twice.
fn same(one: &Line, other: &Line) -> bool {
    let words = |line: &Line| match &line.content {
        Content::Prose(pieces) => Some((0, key(pieces))),
        Content::Until(pieces) => Some((1, key(pieces))),
        Content::Text { kind, pieces } => Some((2 + *kind as usize, key(pieces))),
        _ => None,
    };
    let said = words(one);
    said.as_ref().is_some_and(|(_, text)| text.chars().any(char::is_alphabetic)) && said == words(other) && alike(one, other)
}

/// Words as they are compared: without the places at which they stand.
fn key(pieces: &[Piece]) -> String {
    let of = |share: &Share| match share {
        Share::Quantity(quantity) => written(quantity),
        Share::Fraction(part) => part.decimal(6),
        Share::Rest => "rest".to_owned(),
        Share::All => String::new(),
    };
    let texts = pieces.iter().map(|piece| match piece {
        Piece::Text(words) => words.clone(),
        Piece::Use(share, name) => format!("{{{} of {}}}", of(share), name.key.as_str()),
        Piece::Measure(quantities) => quantities.iter().map(written).collect(),
    });
    texts.collect()
}

fn written(quantity: &Quantity) -> String {
    let terms = quantity.terms.iter().chain(quantity.upper.iter().flatten());
    let unit = |term: &Term| term.unit.map_or("", |unit| unit.value.word(true));
    terms.map(|term| format!("{{{} {}}}", term.number.value.decimal(6), unit(term))).collect()
}

fn repeated(above: &Line, line: &Line) -> Diagnostic {
    Diagnostic::warning(CHECK.name, line.said, "this line stands here twice")
        .also(above.said, "the same")
        .help("take one of the two out")
}

fn second_cue(first: Span, second: Span) -> Diagnostic {
    Diagnostic::warning(CHECK.name, second, "a second `until` below one step")
        .also(first, "the first")
        .help("write one sign, with `and` or `or`; or give the step that this is the end of its head again, `NAME: KIND TIME`")
}
