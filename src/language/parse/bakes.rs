//! Text to a log of bakes. Never fails: what cannot be read is one problem and leaves nothing behind.

use super::lines::{self, RawLine};
use super::reader::shortened;
use crate::language::bakes::{Bake, Log, Ran, Took};
use crate::language::syntax::Name;
use crate::measure::number::Number;
use crate::measure::quantity::Duration;
use crate::text::diagnostic::Diagnostic;
use crate::text::source::{SourceId, Span, Spanned};
use jiff::civil::{Date, Time};
use pest::Parser;
use pest::iterators::Pair;

mod pest_parser {
    #![allow(missing_docs, clippy::all, clippy::pedantic)]

    /// Parses one line by one rule of `grammar/bakes.pest`.
    #[derive(pest_derive::Parser)]
    #[grammar = "../grammar/bakes.pest"]
    pub struct BakesParser;
}

use pest_parser::{BakesParser, Rule};

/// Words that begin lines of a bake that say nothing of its steps' times.
const ASIDE: &[&str] = &["by", "room", "flour", "tap", "preferment", "note", "verdict"];

/// Reads a log. The problems are in the order of their places.
pub fn log(source: SourceId, text: &str) -> (Log, Vec<Diagnostic>) {
    let mut problems = Vec::new();
    let raw = lines::split(source, text, &mut problems);
    let mut reading = Reading { source, text, log: Log::default(), problems, is_lost: false };
    for line in raw.iter().filter(|line| line.said.start < line.said.end) {
        reading.line(line);
    }
    let Reading { log, mut problems, .. } = reading;
    if log.of.is_none() {
        let begin = Span::new(source, 0, text.find('\n').unwrap_or(text.len()));
        problems.push(
            Diagnostic::error("no-title", begin, "this log does not say which recipe its bakes are of")
                .help("begin it with `bakes of \"rolls.miche\"`"),
        );
    }
    problems.sort_by_key(|problem| problem.span);
    (log, problems)
}

struct Reading<'t> {
    source: SourceId,
    text: &'t str,
    log: Log,
    problems: Vec<Diagnostic>,
    /// Whether the last bake's day could not be read, so that the steps below it belong to none.
    is_lost: bool,
}

impl<'t> Reading<'t> {
    fn line(&mut self, line: &RawLine) {
        let said = self.text.get(line.said.range()).unwrap_or_default();
        let first = said.split(|c: char| c.is_whitespace() || c == ':').next().unwrap_or_default().to_lowercase();
        let parsed = match first.as_str() {
            "bakes" => self.parsed(Rule::of_line, line).map(|pairs| self.recipe(line, pairs)),
            "bake" if begins_bake(said) => self.parsed(Rule::bake_line, line).map(|pairs| self.bake(line, pairs)),
            // Ingredients and judgements: they say nothing of when.
            word if ASIDE.contains(&word) && !is_timed(said) => Some(()),
            _ if is_amount(said) || is_judgement(said) => Some(()),
            _ => self.parsed(Rule::step_line, line).map(|pairs| self.step(line, pairs)),
        };
        if parsed.is_none() {
            self.is_lost |= first == "bake" && begins_bake(said);
            self.unreadable(line, said);
        }
    }

    fn parsed(&self, rule: Rule, line: &RawLine) -> Option<Vec<Pair<'t, Rule>>> {
        let said = self.text.get(line.said.range())?;
        let pairs = BakesParser::parse(rule, said).ok()?;
        Some(pairs.flat_map(Pair::into_inner).filter(|pair| pair.as_rule() != Rule::EOI).collect())
    }

    fn unreadable(&mut self, line: &RawLine, said: &str) {
        let message = format!("`{}` is no line of a log of bakes", shortened(said));
        let help = "write `bake 2027-03-02 05:30`, `mix: 05:34-05:47`, `rise: 05:47-` while it runs, `bake: 07:50-08:06, load 1`, \
                    or `note …`";
        self.problems.push(Diagnostic::error("stray-line", line.said, message).help(help));
    }

    fn span(&self, line: &RawLine, pair: &Pair<'_, Rule>) -> Span {
        let begin = line.said.start as usize;
        let length = pair.as_str().trim_end().len();
        Span::new(self.source, begin + pair.as_span().start(), begin + pair.as_span().start() + length)
    }

    fn recipe(&mut self, line: &RawLine, pairs: Vec<Pair<'t, Rule>>) {
        let Some(string) = pairs.into_iter().next() else { return };
        let span = self.span(line, &string);
        let path = string.into_inner().next().map_or_else(String::new, |inside| inside.as_str().to_owned());
        if let Some(before) = &self.log.of {
            let problem = Diagnostic::error(
                "twice-named",
                span,
                "a log is of one recipe, and this one has named its own already",
            );
            self.problems
                .push(problem.also(before.span, "here").help("keep the bakes of another recipe in a log of their own"));
            return;
        }
        self.log.of = Some(Spanned::new(path, span));
    }

    fn bake(&mut self, line: &RawLine, pairs: Vec<Pair<'t, Rule>>) {
        let (mut date, mut time) = (None, None);
        for pair in pairs {
            let span = self.span(line, &pair);
            match pair.as_rule() {
                Rule::date => date = self.date(span, pair).map(|date| Spanned::new(date, span)),
                Rule::clock => time = self.clock(span, pair),
                _ => {}
            }
        }
        self.is_lost = date.is_none();
        self.log.bakes.extend(date.map(|date| Bake { date, time, steps: Vec::new() }));
    }

    fn step(&mut self, line: &RawLine, pairs: Vec<Pair<'t, Rule>>) {
        let (mut step, mut time, mut load) = (None, None, None);
        for pair in pairs {
            let span = self.span(line, &pair);
            match pair.as_rule() {
                Rule::name => step = Some(Name::new(pair.as_str(), span)),
                Rule::between | Rule::since => {
                    let is_over = pair.as_rule() == Rule::between;
                    let clocks: Vec<Option<Time>> = pair
                        .into_inner()
                        .map(|clock| {
                            let at = self.span(line, &clock);
                            self.clock(at, clock)
                        })
                        .collect();
                    let took = match clocks.as_slice() {
                        [Some(begin), Some(end)] if is_over => Some(Took::Between(*begin, *end)),
                        [Some(begin)] if !is_over => Some(Took::Since(*begin)),
                        _ => None,
                    };
                    time = took.map(|took| Spanned::new(took, span));
                }
                Rule::lasted => time = self.lasted(span, pair).map(|took| Spanned::new(took, span)),
                Rule::clause => {
                    let number = pair.into_inner().find(|inner| inner.as_rule() == Rule::load);
                    let number = number.and_then(|load| load.into_inner().next()?.as_str().parse::<i64>().ok());
                    load = number.map(|number| Spanned::new(number, span)).or(load);
                }
                _ => {}
            }
        }
        let (Some(step), Some(time)) = (step, time) else { return };
        if self.is_lost {
            return;
        }
        let Some(bake) = self.log.bakes.last_mut() else {
            let problem = Diagnostic::error("stray-line", line.said, "this stands before any bake");
            self.problems.push(problem.help("say first which day it was: `bake 2027-03-02 05:30`"));
            return;
        };
        bake.steps.push(Ran { step, time, load });
    }

    fn impossible(&mut self, span: Span, what: &str, help: &str) {
        let written = shortened(self.text.get(span.range()).unwrap_or_default());
        self.problems.push(Diagnostic::error("impossible-number", span, format!("`{written}` is {what}")).help(help));
    }

    fn clock(&mut self, span: Span, pair: Pair<'_, Rule>) -> Option<Time> {
        let mut digits = pair.into_inner().map(|digits| digits.as_str().parse::<i8>().ok());
        let time = match (digits.next().flatten(), digits.next().flatten()) {
            (Some(24), Some(0)) => Some(Time::midnight()),
            (Some(hour), Some(minute)) => Time::new(hour, minute, 0, 0).ok(),
            _ => None,
        };
        if time.is_none() {
            self.impossible(span, "not a time of the day", "write hours and minutes from 00:00 to 24:00");
        }
        time
    }

    fn date(&mut self, span: Span, pair: Pair<'_, Rule>) -> Option<Date> {
        let mut digits = pair.into_inner().map(|digits| digits.as_str().parse::<i16>().ok());
        let (year, month, day) = (digits.next().flatten(), digits.next().flatten(), digits.next().flatten());
        let narrow = |number: Option<i16>| number.and_then(|number| i8::try_from(number).ok());
        let date = match (year, narrow(month), narrow(day)) {
            (Some(year), Some(month), Some(day)) => Date::new(year, month, day).ok(),
            _ => None,
        };
        if date.is_none() {
            self.impossible(span, "not a day of the calendar", "write year, month and day, `2026-12-05`");
        }
        date
    }

    fn lasted(&mut self, span: Span, pair: Pair<'_, Rule>) -> Option<Took> {
        let mut seconds: Option<i64> = Some(0);
        let mut inner = pair.into_inner();
        while let (Some(number), Some(unit)) = (inner.next(), inner.next()) {
            let each = match unit.as_str().to_lowercase().chars().next() {
                Some('d') => 86_400,
                Some('h') => 3_600,
                Some('m') => 60,
                _ => 1,
            };
            let number = number.as_str().parse::<i64>().ok();
            seconds = number.and_then(|number| seconds?.checked_add(number.checked_mul(each)?));
        }
        let minutes = seconds.filter(|seconds| *seconds <= 366 * 86_400).map(Number::whole);
        let Some(minutes) = minutes.and_then(|seconds| seconds.over(Number::whole(60)).ok()?.ceil().to_whole()) else {
            self.impossible(span, "longer than any bake", "write the time that the step took, `13 min`");
            return None;
        };
        Some(Took::Lasted(Duration::minutes(minutes)))
    }
}

/// Whether a line that begins with `bake` says when one began, and not how long that step took.
fn begins_bake(said: &str) -> bool {
    let rest = said.get("bake".len()..).unwrap_or_default();
    rest.starts_with(char::is_whitespace)
        && (rest.trim_start().starts_with(|c: char| c.is_ascii_digit()) || !rest.contains(':'))
}

/// Whether what stands behind the colon is a time.
fn is_timed(said: &str) -> bool {
    said.split_once(':').is_some_and(|(_, rest)| rest.trim_start().starts_with(|c: char| c.is_ascii_digit()))
        && !is_judgement(said)
}

/// `water .... 2.6 kg, at 18 C`
fn is_amount(said: &str) -> bool {
    said.contains("..") || said.contains('…')
}

/// `crumb: 4 of 5, even`
fn is_judgement(said: &str) -> bool {
    let Some((_, rest)) = said.split_once(':') else { return false };
    let mut words = rest.split(|c: char| c.is_whitespace() || c == ',').filter(|word| !word.is_empty());
    let is_number = |word: Option<&str>| word.is_some_and(|word| word.chars().all(|c| c.is_ascii_digit() || c == '.'));
    is_number(words.next()) && words.next() == Some("of") && is_number(words.next())
}
