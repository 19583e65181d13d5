//! Pairs to nodes: the lines of a log of bakes.

use super::numbers::{self, quantity_of, temperature_chain};
use super::pairs::Pair;
use super::reader::{Reader, string};
use super::shift::clock;
use super::{Rule, block, stray};
use crate::language::syntax::{
    BakeClause, CameTo, Content, HeatOf, LogLine, Name, RanClause, RanTime, Tree, Verdict, WrittenNumber,
};
use crate::measure::unit::{Dimension, Unit};
use crate::text::diagnostic::Diagnostic;
use crate::text::source::{Span, Spanned};

/// What can have gone in.
const AMOUNT_KINDS: &[Dimension] = &[Dimension::Mass, Dimension::Volume, Dimension::Count];

/// The rule for a line of a log; `None` when nothing fits.
pub(super) fn rule_for(word: &str, text: &str) -> Option<Rule> {
    let after = text.get(word.len()..).unwrap_or("");
    let is_word = after.is_empty() || after.starts_with(char::is_whitespace);
    match word {
        "bakes" if is_word => return Some(Rule::bakes_of_line),
        "bake" if begins_bake(text) => return Some(Rule::bake_line),
        // A step may be called `by hand`.
        "by" if is_word && !is_timed(text) => return Some(Rule::by_line),
        "note" if is_word && !is_timed(text) => return Some(Rule::log_note_line),
        "verdict" if is_word && !is_timed(text) => return Some(Rule::verdict_line),
        _ => {}
    }
    if has_leader(text) {
        return Some(Rule::went_in_line);
    }
    if let Some((name, rest)) = text.split_once(':').filter(|(name, _)| !name.trim().is_empty()) {
        let is_name = !name.contains(['{', '}', '[', ']', '=', '"', ',']);
        return is_name.then(|| if is_mark(rest) { Rule::judged_line } else { Rule::ran_line });
    }
    (is_word && matches!(word, "room" | "flour" | "tap" | "preferment")).then_some(Rule::heat_line)
}

/// Whether a line says when a bake began, and not how long a step of that name took.
pub(crate) fn begins_bake(text: &str) -> bool {
    let Some(rest) = text.get("bake".len()..) else { return false };
    let is_bake = text.get(.."bake".len()).is_some_and(|word| word.eq_ignore_ascii_case("bake"));
    let begins_number = rest.trim_start().starts_with(|c: char| c.is_ascii_digit());
    is_bake && (rest.is_empty() || rest.starts_with(char::is_whitespace)) && (begins_number || !rest.contains(':'))
}

/// Whether what stands behind a colon is a time or a mark.
pub(super) fn is_timed(text: &str) -> bool {
    text.split_once(':').is_some_and(|(_, rest)| rest.trim_start().starts_with(|c: char| c.is_ascii_digit()))
}

/// Whether a line has a name and a leader behind it.
pub(super) fn has_leader(text: &str) -> bool {
    let leader = [text.find(".."), text.find('…')].into_iter().flatten().min();
    let name = leader.and_then(|at| text.get(..at)).unwrap_or("");
    !name.trim().is_empty() && !name.contains([':', ',', '{', '}', '[', ']', '#', '=', '"'])
}

/// `4 of 5, even`
fn is_mark(rest: &str) -> bool {
    let mut words = rest.split(|c: char| c.is_whitespace() || c == ',').filter(|word| !word.is_empty());
    let first = words.next().is_some_and(|word| word.starts_with(|c: char| c.is_ascii_digit() || "-−.½".contains(c)));
    first && words.next().is_some_and(|word| word.eq_ignore_ascii_case("of"))
}

/// A line of the log that stands deeper than a note, and would be taken for its words.
pub(super) fn swallowed(reader: &mut Reader<'_>, said: Span) {
    reader.report(
        Diagnostic::error("stray-line", said, "this looks like a line of the log, but goes on with the note above")
            .label("indented deeper than the note")
            .help("take the indentation away; if it is of the note, write it on the note's own line"),
    );
}

/// Words with one blank between them.
fn words(pair: Option<Pair<'_>>) -> String {
    let words: Vec<&str> = pair.as_ref().map_or("", |pair| pair.as_str()).split_whitespace().collect();
    words.join(" ")
}

/// Builds the node; `None` when a figure in it was reported.
pub(super) fn build<'t>(
    reader: &mut Reader<'_>,
    rule: Rule,
    mut pairs: impl Iterator<Item = Pair<'t>>,
) -> Option<Content> {
    let line = match rule {
        Rule::bakes_of_line => LogLine::Of(string(reader, pairs.next()?)),
        Rule::bake_line => bake(reader, pairs)?,
        Rule::by_line => LogLine::By(words(pairs.next())),
        Rule::heat_line => {
            let of = match pairs.next()?.as_str().chars().next().map(|c| c.to_ascii_lowercase()) {
                Some('r') => HeatOf::Room,
                Some('f') => HeatOf::Flour,
                Some('t') => HeatOf::Tap,
                _ => HeatOf::Preferment,
            };
            let quantity = match pairs.next() {
                Some(pair) => Some(quantity_of(reader, pair, &[Dimension::Temperature])?),
                None => None,
            };
            LogLine::Heat(of, quantity)
        }
        Rule::log_note_line => LogLine::Note(words(pairs.next())),
        Rule::verdict_line => {
            let verdict = pairs.next().map(|pair| match pair.as_str().to_ascii_lowercase().as_str() {
                "keep" => Verdict::Keep,
                "change" => Verdict::Change,
                _ => Verdict::Drop,
            });
            LogLine::Verdict(verdict, words(pairs.next()))
        }
        Rule::went_in_line => went_in(reader, pairs)?,
        Rule::judged_line => {
            let name = reader.name(&pairs.next()?);
            let (mark, of) = (numbers::number(reader, pairs.next()?), numbers::number(reader, pairs.next()?));
            LogLine::Judged { name, mark: mark?, of: of?, words: words(pairs.next()) }
        }
        _ => ran(reader, pairs)?,
    };
    Some(Content::Logged(Box::new(line)))
}

fn bake<'t>(reader: &mut Reader<'_>, pairs: impl Iterator<Item = Pair<'t>>) -> Option<LogLine> {
    let (mut date, mut time, mut clauses) = (None, None, Vec::new());
    let mut is_whole = true;
    for pair in pairs {
        let span = reader.span(&pair);
        match pair.as_rule() {
            Rule::date => date = block::date(reader, pair).map(|date| Spanned::new(date, span)),
            Rule::clock => {
                time = clock(reader, pair);
                is_whole = time.is_some();
            }
            _ => {
                let clause = bake_clause(reader, pair).unwrap_or(BakeClause::Broken);
                clauses.push(Spanned::new(clause, span));
            }
        }
    }
    Some(LogLine::Bake { date: date.filter(|_| is_whole)?, time, clauses })
}

fn bake_clause(reader: &mut Reader<'_>, pair: Pair<'_>) -> Option<BakeClause> {
    let span = reader.span(&pair);
    let said = pair.into_inner().next()?;
    let rule = said.as_rule();
    let mut inner = said.into_inner();
    Some(match rule {
        Rule::chosen => {
            let first = reader.name(&inner.next()?);
            BakeClause::Choose(first, inner.next().map(|pair| reader.name(&pair)))
        }
        Rule::from_revision => {
            let revision = inner.next()?;
            BakeClause::From(Spanned::new(revision.as_str().to_owned(), reader.span(&revision)))
        }
        Rule::of_sorts => BakeClause::Sorts(sorts(reader, inner.next()?)?),
        Rule::bake_times => BakeClause::Times(numbers::number(reader, inner.next()?)?),
        // The weight that was looked ahead to stands before the quantity.
        Rule::bake_mass => BakeClause::Mass(quantity_of(reader, inner.last()?, &[Dimension::Mass])?),
        Rule::bake_pieces => {
            let count = numbers::number(reader, inner.next()?)?;
            let mut noun = None;
            for pair in inner {
                match pair.as_rule() {
                    Rule::of_sorts => return Some(BakeClause::Sorts(sorts(reader, pair.into_inner().next()?)?)),
                    _ => noun = Some(reader.name(&pair)),
                }
            }
            BakeClause::Pieces(count, noun)
        }
        _ => {
            let known = ["100 rolls", "12 kg", "x 2", "of 24 small and 12 large", "choose OPTION", "from REVISION"];
            stray::unknown_clause(reader, span, &known);
            BakeClause::Broken
        }
    })
}

fn sorts(reader: &mut Reader<'_>, pair: Pair<'_>) -> Option<Vec<(WrittenNumber, Name)>> {
    let mut sorts = Vec::new();
    for pair in pair.into_inner() {
        let mut inner = pair.into_inner();
        let count = numbers::number(reader, inner.next()?)?;
        sorts.push((count, reader.name(&inner.next()?)));
    }
    Some(sorts)
}

fn went_in<'t>(reader: &mut Reader<'_>, mut pairs: impl Iterator<Item = Pair<'t>>) -> Option<LogLine> {
    let name = reader.name(&pairs.next()?);
    let (mut amount, mut at) = (None, Vec::new());
    for pair in pairs {
        match pair.as_rule() {
            Rule::leader => {}
            Rule::quantity => amount = Some(quantity_of(reader, pair, AMOUNT_KINDS)?),
            Rule::at => at = temperature_chain(reader, pair.into_inner().next()?)?,
            _ => {
                let span = reader.span(&pair);
                stray::unknown_clause(reader, span, &["at TEMPERATURE"]);
            }
        }
    }
    if let Some(range) = amount.as_ref().filter(|amount| amount.upper.is_some()) {
        stray::range_as_amount(reader, range.span);
        return None;
    }
    Some(LogLine::WentIn { name, amount, at })
}

fn ran<'t>(reader: &mut Reader<'_>, mut pairs: impl Iterator<Item = Pair<'t>>) -> Option<LogLine> {
    let step = reader.name(&pairs.next()?);
    let (mut time, mut clauses) = (None, Vec::new());
    for pair in pairs {
        let span = reader.span(&pair);
        match pair.as_rule() {
            Rule::ran_between | Rule::ran_since => {
                let clocks: Option<Vec<_>> = pair.into_inner().map(|pair| clock(reader, pair)).collect();
                time = Some(match clocks?.as_slice() {
                    [begin, end] => Spanned::new(RanTime::Between(*begin, *end), span),
                    [begin] => Spanned::new(RanTime::Since(*begin), span),
                    _ => return None,
                });
            }
            Rule::ran_lasted => {
                let pair = pair.into_inner().next()?;
                if let Some(mark) = as_mark(reader.slice(span)) {
                    let message = format!("`{}` is no time", reader.slice(span));
                    let help = format!("a mark is written `{mark}`, and a time with its unit: `35 min`");
                    let problem = Diagnostic::error("wrong-kind", span, message).help(help);
                    reader.report(problem.suggest(format!("write `{mark}`"), span, mark));
                    return None;
                }
                let quantity = quantity_of(reader, pair, &[Dimension::Time])?;
                if quantity.upper.is_some() {
                    reader.report(
                        Diagnostic::error("wrong-kind", span, "a step took one time, and this is a range")
                            .help("write what was measured: `13 min`, or when it began and ended: `05:34-05:47`"),
                    );
                    return None;
                }
                time = Some(Spanned::new(RanTime::Lasted(quantity), span));
            }
            Rule::ran_clause => {
                let inner = pair.into_inner().next()?;
                clauses.push(Spanned::new(clause(reader, inner).unwrap_or(RanClause::Broken), span));
            }
            _ => clauses.push(Spanned::new(clause(reader, pair).unwrap_or(RanClause::Broken), span)),
        }
    }
    Some(LogLine::Ran { step, time, clauses })
}

fn clause(reader: &mut Reader<'_>, pair: Pair<'_>) -> Option<RanClause> {
    let rule = pair.as_rule();
    let span = reader.span(&pair);
    let mut inner = pair.into_inner();
    Some(match rule {
        Rule::left_at => RanClause::LeftAt(temperature_chain(reader, inner.next()?)?),
        Rule::at => RanClause::At(temperature_chain(reader, inner.next()?)?),
        Rule::load => match inner.next()?.as_str().parse::<i64>().ok().filter(|load| (1..=100_000).contains(load)) {
            Some(load) => RanClause::Load(load),
            None => {
                let problem = Diagnostic::error("impossible-number", span, "there is no such load");
                reader.report(problem.help("loads are counted from 1"));
                return None;
            }
        },
        Rule::came_to => RanClause::CameTo(came_to(reader, inner.next()?)?),
        _ => {
            let known = ["left at TEMPERATURE", "at TEMPERATURE", "load 2", "came to 98 x 88 g", "came to 75.5 g each"];
            stray::unknown_clause(reader, span, &known);
            RanClause::Broken
        }
    })
}

/// A mark as many write it: `4/5` is `4 of 5`.
fn as_mark(text: &str) -> Option<String> {
    let is_number = |part: &str| !part.is_empty() && part.bytes().all(|byte| byte.is_ascii_digit());
    let (mark, of) = text.trim().split_once('/')?;
    let (mark, of) = (mark.trim(), of.trim());
    (is_number(mark) && is_number(of)).then(|| format!("{mark} of {of}"))
}

/// How far something rose, in litres or centimetres, is no number of pieces.
fn no_pieces(noun: &Name) -> Option<Diagnostic> {
    let unit = Unit::from_word(noun.key.as_str()).filter(|unit| unit.dimension() != Dimension::Count)?;
    let message = format!("`{noun}` is {}, and what a step came to is counted or weighed", unit.dimension().noun());
    Some(
        Diagnostic::error("wrong-kind", noun.span, message)
            .help("write `came to 98 pieces`, `came to 98 x 88 g`, `came to 75.5 g each` or `came to 8.6 kg`; anything else goes into a `note`"),
    )
}

fn came_to(reader: &mut Reader<'_>, pair: Pair<'_>) -> Option<CameTo> {
    let rule = pair.as_rule();
    let mut inner = pair.into_inner();
    Some(match rule {
        Rule::came_sized => {
            let count = numbers::number(reader, inner.next()?);
            let each = quantity_of(reader, inner.next()?, &[Dimension::Mass]);
            CameTo::Sized(count?, each?)
        }
        Rule::came_mass => {
            let parts: Vec<Pair<'_>> = inner.collect();
            let is_each = parts.iter().any(|pair| pair.as_rule() == Rule::came_each);
            let quantity = parts.into_iter().rfind(|pair| pair.as_rule() == Rule::quantity)?;
            let quantity = quantity_of(reader, quantity, &[Dimension::Mass])?;
            if is_each { CameTo::Each(quantity) } else { CameTo::All(quantity) }
        }
        _ => {
            let count = numbers::number(reader, inner.next()?)?;
            let noun = inner.next().map(|pair| reader.name(&pair));
            if let Some(problem) = noun.as_ref().and_then(no_pieces) {
                reader.report(problem);
                return None;
            }
            CameTo::Pieces(count, noun)
        }
    })
}

/// What is wrong with a log as a whole: it says of which recipe it is, once, and a bake begins before anything is said of it.
pub(super) fn check_shape(tree: &Tree, text: &str, diagnostics: &mut Vec<Diagnostic>) {
    let mut of: Option<Span> = None;
    // Below a line that was to begin a bake everything belongs to it, whatever is wrong with the line.
    let (mut begun, mut told) = (false, false);
    for line in &tree.lines {
        let said = text.get(line.said.range()).unwrap_or("");
        match &line.content {
            Content::Logged(logged) => match &**logged {
                LogLine::Of(path) => match of {
                    Some(before) => diagnostics.push(
                        Diagnostic::error(
                            "twice-named",
                            path.span,
                            "a log is of one recipe, and this one has named its own already",
                        )
                        .also(before, "here")
                        .help("keep the bakes of another recipe in a log of their own"),
                    ),
                    None => of = Some(path.span),
                },
                LogLine::Bake { .. } => begun = true,
                _ if begun || told => {}
                _ => {
                    told = true;
                    diagnostics.push(
                        Diagnostic::error("stray-line", line.said, "this stands before any bake")
                            .help("say first which day it was: `bake 2027-03-02 05:30`"),
                    );
                }
            },
            Content::Stray => begun |= begins_bake(said),
            _ => {}
        }
    }
    let is_stray_title = tree.lines.iter().any(|line| {
        let said = text.get(line.said.range()).unwrap_or("");
        line.content == Content::Stray && super::words::first_word(said).eq_ignore_ascii_case("bakes")
    });
    if of.is_none() && !is_stray_title {
        let first = tree.lines.iter().find(|line| !matches!(line.content, Content::Blank | Content::Comment));
        let span = first.map_or(Span::new(tree.source, 0, 0), |line| line.said);
        diagnostics.push(
            Diagnostic::error("no-title", span, "this log does not say which recipe its bakes are of")
                .help("begin it with `bakes of \"rolls.miche\"`"),
        );
    }
}
