//! `near-clause`: words that are nearly a clause, and are read as how the thing is prepared or as a part of its name.

use super::{Check, Family, Run, tell};
use crate::language::in_words;
use crate::language::parse::{Begun, begun_behind_ingredient};
use crate::language::syntax::{Content, FileKind, IngredientClause, Key, Line, Name, Tree};
use crate::measure::loose::ABOUT;
use crate::measure::unit::Dimension;
use crate::text::diagnostic::{Diagnostic, Severity};
use crate::text::source::Span;
use crate::text::words::words_without_hyphens;

mod second_thing;

use second_thing::{second_thing, weight_behind};

/// The check and its explanation.
pub(super) const CHECK: Check = Check {
    name: "near-clause",
    severity: Severity::Warning,
    family: Family::Names,
    looks_for: "words behind an amount that are nearly a clause of the language: `asied`, `set aside`, `counts as flower`, `yeild 80 %`, or a \
                temperature without `at`; and a second ingredient or a second amount behind the comma: `50 g, and 2 eggs`, `1/2 cup, packed = 207 g`; a \
                clause without its figure: `yield`, `at`",
    why: "What is no clause is read as how the thing is prepared, and printed; it counts in no sum. Crumbs that are `set aside` are weighed \
          into the dough, chestnut meal that `counts as flower` is no flour, and water of `30 C` warms nothing. Eggs behind the comma of the butter are in no list, no sum and on no label.",
    bad: "recipe Crumbed rolls\nflour .... 500 g\nwater .... 300 g, 30 C\nmix: hands 10 min\n    Mix {flour} and {water}.\n    until smooth\n",
    good: "recipe Crumbed rolls\nflour .... 500 g\nwater .... 300 g, at 30 C\nmix: hands 10 min\n    Mix {flour} and {water}.\n    until smooth\n",
    sources: &["common practice, no source"],
    run: Run::Tree(run),
};

/// Clauses of words alone.
const CLAUSES: [&str; 6] = ["counts as flour", "not flour", "optional", "aside", "strained out", "from store"];

/// What people write for a clause, where the letters are not near.
const IN_OTHER_WORDS: [(&str, &str); 14] = [
    ("set aside", "aside"),
    ("put aside", "aside"),
    ("kept aside", "aside"),
    ("left aside", "aside"),
    ("to be set aside", "aside"),
    ("optionally", "optional"),
    ("option", "optional"),
    ("if wanted", "optional"),
    ("strain out", "strained out"),
    ("strained off", "strained out"),
    ("from the store", "from store"),
    ("counts as a flour", "counts as flour"),
    ("counts as flower", "counts as flour"),
    ("count it as flour", "counts as flour"),
];

fn run(tree: &Tree, diagnostics: &mut Vec<Diagnostic>) {
    if tree.kind != FileKind::Recipe {
        return;
    }
    for line in &tree.lines {
        if let Content::Part { name, from: None } = &line.content {
            tell(diagnostics, from_without_comma(tree, name));
        }
        let Content::Ingredient(ingredient) = &line.content else { continue };
        tell(diagnostics, amount_in_name(&ingredient.name));
        for clause in &ingredient.clauses {
            if let IngredientClause::Preparation(text) = &clause.value {
                let nearly = || meant(text).map(|meant| problem(clause.span, text, &meant));
                tell(
                    diagnostics,
                    begun(clause.span, text)
                        .or_else(|| weight_behind(ingredient, clause.span, text))
                        .or_else(|| second_amount(clause.span, text))
                        .or_else(nearly)
                        .or_else(|| temperature(clause.span, text))
                        .or_else(|| second_thing(ingredient, clause.span, text)),
                );
            }
        }
    }
}

/// A clause whose figure was forgotten: `yield`, `at`, `loss`.
fn begun(span: Span, text: &str) -> Option<Diagnostic> {
    Some(match begun_behind_ingredient(text)? {
        Begun::OfIngredient(form) => Diagnostic::error(CHECK.name, span, format!("`{text}` is not complete"))
            .label("something is missing behind it")
            .help(format!("it reads `{form}`; or leave it out")),
        Begun::OfOther(form) => read_as_preparation(span, text).help(format!(
            "`{form}` is said of a part, a recipe or a step, in a line of its own or behind theirs; leave it out here"
        )),
    })
}

fn problem(span: Span, text: &str, meant: &str) -> Diagnostic {
    read_as_preparation(span, text).help(format!("did you mean `{meant}`?")).suggest(
        format!("write `{meant}`"),
        span,
        meant.to_owned(),
    )
}

fn read_as_preparation(span: Span, text: &str) -> Diagnostic {
    Diagnostic::warning(CHECK.name, span, format!("`{text}` is read as how it is prepared, and counts in no sum"))
}

/// The clause that was meant.
fn meant(text: &str) -> Option<String> {
    let text = text.trim().to_lowercase();
    let other = || IN_OTHER_WORDS.iter().find(|(words, _)| *words == text).map(|(_, clause)| (*clause).to_owned());
    near_one(&text).or_else(other).or_else(|| with_a_share(&text))
}

/// One slip in a word, which begins with the right letter: `side` is a side of salmon, and stock is no store.
fn near_one(text: &str) -> Option<String> {
    let near = |(one, other): (&str, &str)| {
        one == other || (one.len() > 3 && one.get(..1) == other.get(..1) && strsim::osa_distance(one, other) <= 1)
    };
    let is_near = |clause: &&str| {
        *clause != text
            && clause.split(' ').count() == text.split(' ').count()
            && clause.split(' ').zip(text.split(' ')).all(near)
    };
    CLAUSES.into_iter().find(is_near).map(str::to_owned)
}

/// What may stand around a temperature that is all that was said, beside [`ABOUT`].
const AROUND: [&str; 11] = ["some", "warm", "hot", "cold", "cool", "lukewarm", "tepid", "to", "the", "touch", "or"];

/// `30 C`, `about 30 C`, `30 C warm`: a temperature and nothing else. Sums are done with one: of a range the writer takes which.
fn temperature(span: Span, text: &str) -> Option<Diagnostic> {
    let found = in_words::amount(text).filter(|found| found.unit.dimension() == Dimension::Temperature)?;
    let around = [text.get(..found.at.start)?, text.get(found.at.end..)?].concat().to_lowercase();
    let mut words = words_without_hyphens(&around);
    if !words.all(|word| ABOUT.contains(&word) || AROUND.contains(&word)) {
        return None;
    }
    let written = &found.written;
    Some(match found.said.upper {
        None => problem(span, text, &format!("at {written}")),
        Some(_) => read_as_preparation(span, text)
            .help(format!("sums are done with one temperature: write `at` and one of `{written}`, as `, at 30 C`")),
    })
}

/// `yeild 80 %`, `92 % yield`, `loss 20 %`, `leave apple peel 20 %`.
fn with_a_share(text: &str) -> Option<String> {
    let share = text.strip_suffix('%').map(str::trim_end);
    let (first, rest) = text.split_once(' ')?;
    if let Some(figure) = text.strip_suffix("yield").map(str::trim).filter(|figure| figure.ends_with('%')) {
        return Some(format!("yield {figure}"));
    }
    let ends_in_figure = share?.ends_with(|c: char| c.is_ascii_digit());
    let rest = rest.strip_prefix("of ").unwrap_or(rest);
    let figure = rest.strip_suffix('%').map(str::trim).filter(|figure| !figure.contains(' '));
    match (first, figure) {
        ("leave" | "leafs", None) if ends_in_figure && rest.split(' ').count() > 2 => Some(format!("leaves {rest}")),
        // What is peeled off is told by what is left.
        ("loss" | "waste", Some(figure)) => {
            let lost: u8 = figure.parse().ok().filter(|lost| *lost < 100)?;
            Some(format!("yield {} %", 100 - lost))
        }
        (_, Some(figure)) if strsim::osa_distance(first, "yield") <= 1 => Some(format!("yield {figure} %")),
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
        Diagnostic::warning(CHECK.name, name.span, message).help(format!("did you mean `part {meant}`?")).suggest(
            "put a comma before `from`",
            name.span,
            meant,
        )
    })
}

/// `water at 30 C .... 600 g`, `600 g water .... 600 g`: a temperature or an amount in the name, where no sum knows of it.
fn amount_in_name(name: &Name) -> Option<Diagnostic> {
    let text = name.text.as_ref();
    let found = in_words::amount(text)?;
    let (before, behind) = (text.get(..found.at.start)?, text.get(found.at.end..)?);
    let is_at_an_end = before.trim().is_empty() || behind.trim_matches([' ', ')', '.']).is_empty();
    let help = match found.unit.dimension() {
        Dimension::Temperature => {
            let what = [
                before.trim_end_matches([' ', '(', '@']).trim_end_matches(" at"),
                behind.trim_matches([' ', ')', '.']),
            ];
            let what = what.into_iter().filter(|words| !words.is_empty()).collect::<Vec<_>>().join(" ");
            let one = found
                .written
                .split_once('-')
                .map_or(found.written.clone(), |(low, _)| format!("{low} {}", found.unit.word(false)));
            format!("it stands behind the amount: `{what} .... AMOUNT, at {one}`")
        }
        Dimension::Mass | Dimension::Volume if is_at_an_end => {
            "the amount stands behind the leader, and nothing of it in the name".to_owned()
        }
        _ => return None,
    };
    let message = format!("`{}` is read as part of the name, and counts in no sum", text.get(found.at.clone())?);
    Some(Diagnostic::warning(CHECK.name, name.span, message).help(help))
}

/// `600 g, = 60 %` and `600 g, 60 %`: another way to say an amount belongs to the amount, and stands before the comma.
fn second_amount(span: Span, text: &str) -> Option<Diagnostic> {
    let text = text.trim();
    let amount = text.strip_prefix('=').map_or(text, str::trim_start);
    if !amount.starts_with(|c: char| c.is_numeric()) {
        return None;
    }
    let is_all = |found: &in_words::Found| {
        found.at == (0..amount.len()) && matches!(found.unit.dimension(), Dimension::Mass | Dimension::Volume)
    };
    let is_share =
        || amount.strip_suffix('%').is_some_and(|figure| figure.trim_end().chars().all(|c| c.is_numeric() || c == '.'));
    let is_second = amount.len() < text.len() || is_share() || in_words::amount(amount).as_ref().is_some_and(is_all);
    let problem =
        Diagnostic::warning(CHECK.name, span, format!("`{text}` stands behind a comma, and counts in no sum"));
    is_second.then(|| {
        problem.help(format!(
            "another way to say the amount stands before the comma, `… = {amount}`; what is added has a line of its own"
        ))
    })
}
