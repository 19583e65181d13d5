//! What one line of a log of bakes says, in the one layout.

use super::Page;
use super::amount::{chain, quantity, written};
use super::block::{clock, date};
use super::clause::{joined, with_clauses};
use super::column;
use crate::language::syntax::{BakeClause, CameTo, LogLine, RanClause, RanTime};

/// Writes what a line says; `None` for a line that must stay as it is.
pub(super) fn said(page: Page<'_>, line: &LogLine) -> Option<String> {
    Some(match line {
        LogLine::Of(path) => format!("bakes of \"{}\"", path.value),
        LogLine::Bake { date: day, time, clauses } => {
            let time = time.map_or_else(String::new, |time| format!(" {}", clock(time)));
            let clauses: Option<Vec<String>> = clauses.iter().map(|clause| bake_clause(page, &clause.value)).collect();
            with_clauses(format!("bake {}{time}", date(day.value)), clauses?)
        }
        LogLine::By(name) => with_words("by", name),
        LogLine::Heat(of, at) => with_words(of.words(), &at.as_ref().map_or_else(String::new, |at| quantity(page, at))),
        LogLine::WentIn { name, amount, at } => {
            // `note....5 g` went in and `note .... 5 g` is a note: no layout is certain to be read as it was.
            if ["note", "by", "verdict", "bakes", "bake"].contains(&name.key.as_str()) {
                return None;
            }
            let amount = amount.as_ref().map_or_else(String::new, |amount| quantity(page, amount));
            let at = (!at.is_empty()).then(|| format!("at {}", chain(page, at)));
            let head = format!("{}{amount}", column::leader(&name.text));
            with_clauses(head.trim_end().to_owned(), at)
        }
        LogLine::Ran { step, time, clauses } => {
            let time = time.as_ref().map(|time| match &time.value {
                RanTime::Between(begin, end) => format!("{}-{}", clock(*begin), clock(*end)),
                RanTime::Since(begin) => format!("{}-", clock(*begin)),
                RanTime::Lasted(lasted) => quantity(page, lasted),
            });
            let clauses: Option<Vec<String>> = clauses.iter().map(|clause| ran_clause(page, &clause.value)).collect();
            let facts: Vec<String> = time.into_iter().chain(clauses?).collect();
            with_words(&format!("{step}:"), &facts.join(", "))
        }
        LogLine::Judged { name, mark, of, words } => {
            let words = Some(words.clone()).filter(|words| !words.is_empty());
            with_clauses(format!("{name}: {} of {}", written(page, mark), written(page, of)), words)
        }
        LogLine::Note(words) => with_words("note", words),
        LogLine::Verdict(verdict, words) => {
            let head = with_words("verdict", verdict.map_or("", |verdict| verdict.word()));
            with_clauses(head, Some(words.clone()).filter(|words| !words.is_empty()))
        }
    })
}

fn with_words(head: &str, words: &str) -> String {
    if words.is_empty() { head.to_owned() } else { format!("{head} {words}") }
}

fn bake_clause(page: Page<'_>, clause: &BakeClause) -> Option<String> {
    Some(match clause {
        BakeClause::Pieces(count, noun) => {
            with_words(&written(page, count), noun.as_ref().map_or("", |noun| &noun.text))
        }
        BakeClause::Mass(mass) => quantity(page, mass),
        BakeClause::Times(times) => format!("x {}", written(page, times)),
        BakeClause::Sorts(sorts) => {
            let sorts: Vec<String> =
                sorts.iter().map(|(count, sort)| format!("{} {sort}", written(page, count))).collect();
            format!("of {}", sorts.join(" and "))
        }
        BakeClause::Choose(first, None) => format!("choose {first}"),
        BakeClause::Choose(first, Some(second)) => {
            format!("choose {}", joined(&[first.clone(), second.clone()], " = "))
        }
        BakeClause::From(revision) => format!("from {}", revision.value),
        BakeClause::Broken => return None,
    })
}

fn ran_clause(page: Page<'_>, clause: &RanClause) -> Option<String> {
    Some(match clause {
        RanClause::LeftAt(at) => format!("left at {}", chain(page, at)),
        RanClause::At(at) => format!("at {}", chain(page, at)),
        RanClause::Load(load) => format!("load {load}"),
        RanClause::CameTo(came_to) => match came_to {
            CameTo::Sized(count, each) => format!("came to {} x {}", written(page, count), quantity(page, each)),
            CameTo::Each(each) => format!("came to {} each", quantity(page, each)),
            CameTo::All(all) => format!("came to {}", quantity(page, all)),
            CameTo::Pieces(count, noun) => {
                with_words(&format!("came to {}", written(page, count)), noun.as_ref().map_or("", |noun| &noun.text))
            }
        },
        RanClause::Broken => return None,
    })
}
