//! `said-twice`: one line that stands twice in a row, two cues of one step, a file used twice, what a bake or a block of a larder
//! says once said twice. What a kitchen or a day says twice is `twice-named`.

use super::{Check, Family, Run};
use crate::language::syntax::{
    BakeClause, BookLine, Content, EquipmentClause, IngredientClause, Key, Line, LogLine, MakeClause, PageClause,
    Piece, Quantity, RanClause, Share, Term, Tree,
};
use crate::text::diagnostic::{Diagnostic, Severity};
use crate::text::quick::QuickMap;
use crate::text::source::{Span, Spanned};

/// The check and its explanation.
pub(super) const CHECK: Check = Check {
    name: "said-twice",
    severity: Severity::Warning,
    family: Family::Writing,
    looks_for: "prose that stands twice in a row, a step with two `until` lines, a file that is used twice; in a larder, a bake or \
                one line, two of what counts once",
    why: "A line that was copied once too often is done twice by whoever follows the card. Two `until` lines below one step are \
          mostly the end of a step whose head is gone: give it back its head, or write one sign with `and` or `or`. Of \
          two figures of an ingredient, two lines of a bake that a merge brought together, two temperatures behind one amount \
          the last counts, in silence.",
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
    // By path and options.
    let mut used: QuickMap<(&str, Vec<&Key>), &Line> = QuickMap::default();
    let mut once: QuickMap<String, Span> = QuickMap::default();
    for line in tree.lines.iter().filter(|line| !matches!(line.content, Content::Blank | Content::Comment)) {
        match &line.content {
            Content::Prose(_) | Content::Until(_) | Content::Text { .. }
                if above.is_some_and(|above| same(above, line)) =>
            {
                diagnostics.extend(above.map(|above| repeated(above, line)));
            }
            Content::Until(_) => {
                diagnostics.extend(cue.map(|first| second_cue(first, line.said)));
            }
            Content::Use(path) => {
                let first = *used.entry((&path.value, options(line))).or_insert(line);
                if !std::ptr::eq(first, line) {
                    let message = format!("`{}` is used twice", path.value);
                    diagnostics.push(
                        Diagnostic::warning(CHECK.name, line.said, message)
                            .also(first.said, "used here already")
                            .help("take one of the two lines out"),
                    );
                }
            }
            content => {
                if begins(content) {
                    once.clear();
                }
                if let Some((word, first, again)) = clause_twice(content) {
                    diagnostics.push(twice(word, first, again));
                }
                if let Some(word) = said_once(content) {
                    let first = *once.entry(word.clone()).or_insert(line.said);
                    if first != line.said {
                        diagnostics.push(twice(&word, first, line.said));
                    }
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

/// Whether another thing begins, which may say the same for itself: an ingredient of a larder, a bake of a log.
fn begins(content: &Content) -> bool {
    match content {
        Content::IngredientBlock(_) => true,
        Content::Logged(line) => matches!(**line, LogLine::Bake { .. }),
        _ => false,
    }
}

/// The clauses of a line of which one of a kind counts, by what they begin with.
fn clauses(content: &Content) -> Vec<(&'static str, Span)> {
    match content {
        Content::Ingredient(line) => named(&line.clauses, |clause| match clause {
            IngredientClause::At(_) => Some("at"),
            IngredientClause::Yield(_) => Some("yield"),
            IngredientClause::Before(_) => Some("before"),
            _ => None,
        }),
        Content::Make { clauses, .. } => {
            named(clauses, |clause| matches!(clause, MakeClause::Ready(_)).then_some("ready"))
        }
        Content::Equipment { clauses, .. } => named(clauses, |clause| match clause {
            EquipmentClause::Friction(_) => Some("friction"),
            EquipmentClause::Heating(_) => Some("heating"),
            _ => None,
        }),
        Content::Logged(line) => match &**line {
            LogLine::Bake { clauses, .. } => named(clauses, |clause| match clause {
                BakeClause::Pieces(..) | BakeClause::Mass(_) | BakeClause::Times(_) | BakeClause::Sorts(_) => {
                    Some("how much")
                }
                BakeClause::From(_) => Some("from"),
                BakeClause::Choose(..) | BakeClause::Broken => None,
            }),
            LogLine::Ran { clauses, .. } => named(clauses, |clause| match clause {
                RanClause::LeftAt(_) => Some("left at"),
                RanClause::At(_) => Some("at"),
                RanClause::Load(_) => Some("load"),
                RanClause::CameTo(_) => Some("came to"),
                RanClause::Broken => None,
            }),
            _ => Vec::new(),
        },
        Content::OfBook(line) => match &**line {
            BookLine::Page { clauses, .. } => {
                named(clauses, |clause| matches!(clause, PageClause::Sizes(_)).then_some("sizes"))
            }
            _ => Vec::new(),
        },
        _ => Vec::new(),
    }
}

fn named<T>(clauses: &[Spanned<T>], name: impl Fn(&T) -> Option<&'static str>) -> Vec<(&'static str, Span)> {
    clauses.iter().filter_map(|clause| Some((name(&clause.value)?, clause.span))).collect()
}

/// The first clause of a line that was said before, and where.
fn clause_twice(content: &Content) -> Option<(&'static str, Span, Span)> {
    let all = clauses(content);
    all.iter().enumerate().find_map(|(at, (name, span))| {
        let (_, before) = all.iter().take(at).rfind(|(earlier, _)| earlier == name)?;
        Some((*name, *before, *span))
    })
}

/// What an ingredient of a larder, a book, or a bake of a log says once.
fn said_once(content: &Content) -> Option<String> {
    let word = match content {
        Content::Weighs { .. } => "weighs",
        Content::OneWeighs(_) => "one weighs",
        Content::Fact(kind, _) => kind.word(),
        Content::Trace(kind, _) => kind.word(),
        Content::Energy(_) => "energy",
        Content::NitrogenFactor(_) => "nitrogen factor",
        Content::Listed(_) => "listed as",
        Content::Consists(_) => "consists of",
        Content::Section(_) => "section",
        Content::Costs { .. } => "costs",
        Content::Logged(line) => match &**line {
            LogLine::By(name) if !name.is_empty() => "by",
            LogLine::Heat(of, Some(_)) => of.words(),
            LogLine::WentIn { name, amount, at } if amount.is_some() || !at.is_empty() => {
                return Some(name.key.as_str().to_owned());
            }
            LogLine::Verdict(Some(_), _) => "verdict",
            _ => return None,
        },
        Content::OfBook(line) => match &**line {
            BookLine::Title(_) => "book",
            BookLine::By(_) => "by",
            BookLine::Address(_) => "address",
            BookLine::Chapter(_) | BookLine::Page { .. } => return None,
        },
        _ => return None,
    };
    Some(word.to_owned())
}

/// Whether two lines hold under the same options.
fn alike(one: &Line, other: &Line) -> bool {
    options(one) == options(other)
}

/// The options under which a line holds.
fn options(line: &Line) -> Vec<&Key> {
    line.only.iter().map(|option| &option.key).collect()
}

/// Whether two lines say the same words, where there are words enough that nobody means them twice.
fn same(one: &Line, other: &Line) -> bool {
    let (Some((kind, pieces)), Some((other_kind, other_pieces))) = (said(one), said(other)) else { return false };
    if kind != other_kind || !may_be_same(pieces, other_pieces) || !alike(one, other) {
        return false;
    }
    let text = key(pieces);
    text.chars().any(char::is_alphabetic) && text == key(other_pieces)
}

/// The pieces of a line of prose, and of which kind it is.
fn said(line: &Line) -> Option<(usize, &[Piece])> {
    match &line.content {
        Content::Prose(pieces) => Some((0, pieces)),
        Content::Until(pieces) => Some((1, pieces)),
        Content::Text { kind, pieces } => Some((2 + *kind as usize, pieces)),
        _ => None,
    }
}

/// Whether the keys of two lines may be the same: nearly all begin with other words, which is told without making them.
fn may_be_same(one: &[Piece], other: &[Piece]) -> bool {
    match (one.first(), other.first()) {
        (Some(Piece::Text(one)), Some(Piece::Text(other))) => {
            one.starts_with(other.as_str()) || other.starts_with(one.as_str())
        }
        // The key of all but words begins with a brace.
        (Some(Piece::Text(words)), Some(_)) | (Some(_), Some(Piece::Text(words))) => {
            words.is_empty() || words.starts_with('{')
        }
        _ => true,
    }
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

fn twice(word: &str, first: Span, again: Span) -> Diagnostic {
    Diagnostic::warning(CHECK.name, again, format!("`{word}` is said twice, and the last counts"))
        .also(first, "said here already")
        .help("take one of the two out")
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
