//! Pairs to nodes: who works, by name, from when to when, on which days.

use super::numbers::quantity_of;
use super::pairs::Pair;
use super::reader::Reader;
use super::{Clauses, Rule, stray};
use crate::language::syntax::{Content, CookClause, Shift};
use crate::measure::unit::Dimension;
use crate::text::diagnostic::Diagnostic;
use crate::text::source::{Span, Spanned};
use jiff::civil::{Time, Weekday};

/// `cook Mara 22:00-06:00, rests 30 min`.
pub(super) fn cook<'t>(reader: &mut Reader<'_>, pairs: impl Iterator<Item = Pair<'t>>) -> Option<Content> {
    let mut name = None;
    let mut shift = None;
    let mut clauses: Vec<Spanned<CookClause>> = Vec::new();
    for pair in pairs {
        let span = reader.span(&pair);
        match pair.as_rule() {
            Rule::cook_name => name = Some(reader.name(&pair)),
            Rule::shift => shift = Some(Spanned::new(hours(reader, span, pair.into_inner())?, span)),
            _ => {
                let Some(inner) = pair.into_inner().next() else { continue };
                let read = clause(reader, inner).unwrap_or(CookClause::Broken);
                let same = |known: &CookClause| std::mem::discriminant(known) == std::mem::discriminant(&read);
                if read != CookClause::Broken && clauses.iter().any(|known| same(&known.value)) {
                    let what = match read {
                        CookClause::On(_) => "`on`",
                        CookClause::Rests(_) => "`rests`",
                        CookClause::Longest(_) | CookClause::Broken => "`longest`",
                    };
                    stray::said_twice(reader, span, what);
                }
                clauses.push(Spanned::new(read, span));
            }
        }
    }
    Some(Content::Cook { name: name?, shift, clauses })
}

/// Two times of the day; the second may be on the next day.
pub(super) fn hours<'t>(
    reader: &mut Reader<'_>,
    said: Span,
    mut pairs: impl Iterator<Item = Pair<'t>>,
) -> Option<Shift> {
    let from = clock(reader, pairs.next()?);
    let to = clock(reader, pairs.next()?);
    let (from, to) = (from?, to?);
    // A day's end is kept as its last second, from which nothing begins.
    if from == to || from.second() > 0 {
        let problem = Diagnostic::error("impossible-number", said, "these hours end when they begin");
        reader.report(problem.help("write `00:00-24:00` for day and night; hours may pass midnight, `22:00-06:00`"));
        return None;
    }
    Some(Shift { from, to })
}

fn clause(reader: &mut Reader<'_>, pair: Pair<'_>) -> Option<CookClause> {
    let rule = pair.as_rule();
    let span = reader.span(&pair);
    let mut inner = pair.into_inner();
    Some(match rule {
        Rule::on_days => CookClause::On(inner.filter_map(days).collect()),
        Rule::rests => CookClause::Rests(quantity_of(reader, inner.next()?, &[Dimension::Time])?),
        Rule::longest => CookClause::Longest(quantity_of(reader, inner.next()?, &[Dimension::Time])?),
        _ => {
            stray::unknown_clause(reader, span, &Clauses::Cook.forms());
            CookClause::Broken
        }
    })
}

/// A day, or a stretch of days, which may go round the week's end.
fn days(pair: Pair<'_>) -> Option<(Weekday, Weekday)> {
    let mut days = pair.into_inner().filter_map(|day| weekday(day.as_str()));
    let first = days.next()?;
    Some((first, days.next().unwrap_or(first)))
}

fn weekday(word: &str) -> Option<Weekday> {
    let begins = |day: &str| word.get(..3).is_some_and(|word| word.eq_ignore_ascii_case(day));
    let days = [
        ("mon", Weekday::Monday),
        ("tue", Weekday::Tuesday),
        ("wed", Weekday::Wednesday),
        ("thu", Weekday::Thursday),
        ("fri", Weekday::Friday),
        ("sat", Weekday::Saturday),
        ("sun", Weekday::Sunday),
    ];
    days.into_iter().find(|(day, _)| begins(day)).map(|(_, day)| day)
}

/// A time of the day.
pub(super) fn clock(reader: &mut Reader<'_>, pair: Pair<'_>) -> Option<Time> {
    let span = reader.span(&pair);
    let mut inner = pair.into_inner().map(|digits| digits.as_str().parse::<i8>().ok());
    let time = match (inner.next().flatten(), inner.next().flatten()) {
        // The day's end may be written 24:00; jiff's day ends a minute earlier.
        (Some(24), Some(0)) => Time::new(23, 59, 59, 0).ok(),
        (Some(hour), Some(minute)) => Time::new(hour, minute, 0, 0).ok(),
        _ => None,
    };
    if time.is_none() {
        let written = reader.slice(span);
        let problem = Diagnostic::error("impossible-number", span, format!("`{written}` is not a time of the day"));
        reader.report(problem.help("write hours and minutes from 00:00 to 24:00"));
    }
    time
}

#[cfg(test)]
mod tests {
    use crate::language::parse::parse;
    use crate::language::tidy::tidy;
    use crate::text::source::SourceId;

    fn tidied(line: &str) -> String {
        let text = tidy(&format!("kitchen Quay\n{line}\n"), None).expect("it can be tidied");
        text.lines().nth(1).unwrap_or_default().to_owned()
    }

    #[test]
    fn hours_days_and_rests_read_however_they_are_written() {
        let said = "COOK  Mara   6:00 – 14:00 , rests 30 min, on tuesday - SAT and mon";
        assert_eq!(tidied(said), "cook Mara 06:00-14:00, on Tue-Sat and Mon, rests 30 min");
        assert_eq!(tidied("cook Jon 16:00-24:00"), "cook Jon 16:00-24:00");
        assert_eq!(tidied("open 22:00-14:00"), "open 22:00-14:00");
        // Something called so, and nobody.
        assert_eq!(tidied("cook top x 2"), "cook top x 2");
    }

    #[test]
    fn hours_that_are_none_are_told() {
        for line in ["open 05:00-05:00", "cook Mara 22:00-22:00", "cook Mara 24:00-06:00", "cook Mara 25:00-06:00"] {
            let (_, problems) = parse(SourceId(0), &format!("kitchen Quay\n{line}\n"));
            assert_eq!(
                problems.iter().map(|problem| problem.check).collect::<Vec<_>>(),
                ["impossible-number"],
                "{line}"
            );
        }
    }
}
