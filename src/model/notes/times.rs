//! The times that prose gives.

use super::amount;
use super::verbs::is_verb;
use super::words;
use crate::measure::number::Number;

/// How many times a text gives.
pub(super) fn durations(text: &str) -> usize {
    times(text).len()
}

/// A time that a text gives.
struct Given {
    /// Where it begins.
    at: usize,
    figure: amount::Figure,
    unit: &'static str,
    /// Whether it stands right behind another, or behind that and `and`.
    goes_on: bool,
}

/// The times that a text gives, figure by figure.
fn given(text: &str) -> Vec<Given> {
    let figures = with_figures(text);
    let text = figures.as_deref().unwrap_or(text);
    let mut found = Vec::new();
    // Behind `@` and `at` stands a moment, unless nothing else is said: `Bake 220 C @ 20 min`.
    let mut moments = Vec::new();
    let (mut from, mut joined) = (0, false);
    while let Some(offset) = text.get(from..).and_then(|rest| rest.find(char::is_numeric)) {
        let at = from + offset;
        let (before, here) = text.split_at_checked(at).unwrap_or_default();
        let Some((figure, after)) = amount::figure(here) else { break };
        let (figure, after) = added(figure, after);
        let (unit, after) = unit_of_time(after);
        let is_quoted = before.ends_with(['\'', '"', '\u{2018}', '\u{201C}']);
        let unit = unit.filter(|_| is_of_time(&figure) && !is_quoted && !says_when(before, after));
        let (figure, after) = match unit {
            Some("h") => minutes_behind(figure, after),
            _ => (figure, after),
        };
        if let Some(unit) = unit {
            let between = text.get(from..at).unwrap_or("").trim();
            let goes_on = joined && (between.is_empty() || between == "and");
            let list = if ends_in_word(before, &["@", "at"]) { &mut moments } else { &mut found };
            list.push(Given { at, figure, unit, goes_on });
        }
        joined = unit.is_some();
        // A number always has at least one character, so this comes to an end.
        from = if after.len() < here.len() { text.len() - after.len() } else { at + 1 };
    }
    if found.is_empty() { moments } else { found }
}

/// Whether a time says when something is done, and not how long it takes: `every 30 min`, `30 min apart`, `an hour before`.
fn says_when(before: &str, after: &str) -> bool {
    let whole = after.trim_start();
    let behind = whole.strip_prefix("between ").unwrap_or(whole);
    let first = |words: &[&str]| words.iter().any(|word| behind.starts_with(word));
    // `About an hour before you bake` and `take the butter out an hour before mixing`, and not `keep warm for 1 h before serving`: what
    // takes a time says a verb of it, or `for`.
    let clause = before.rsplit(['.', ';', ',']).next().unwrap_or_default().trim();
    let begins = clause.is_empty()
        || ["about", "around", "some", "roughly"].iter().any(|word| clause.eq_ignore_ascii_case(word));
    ends_in_word(before, &["every", "after"])
        || first(&["interval", "apart"])
        || (begins || !ends_in_word(before, &["for"]) && !is_done(clause)) && first(&["before", "after ", "later"])
        || behind.len() < whole.len() && first(&["fold", "turn", "each", "them", "stretch"])
}

/// Whether a clause says what is done for a time, and not only what is fetched at a moment.
fn is_done(clause: &str) -> bool {
    const LASTS: [&str; 4] = ["keep", "hold", "work", "stays"];
    words::all_of(clause).any(|word| is_verb(&word) || LASTS.contains(&word.as_str()))
}

/// Adds up the minutes of a bake in two halves, `12+10 min`: a figure behind a plus belongs to the one before it.
fn added(mut figure: amount::Figure, after: &str) -> (amount::Figure, &str) {
    let Some(second) = after.trim_start().strip_prefix('+') else { return (figure, after) };
    let Some((more, rest)) = amount::figure(second.trim_start()) else { return (figure, after) };
    let sum = figure.value.zip(more.value).and_then(|(one, other)| one.plus(other).ok());
    match sum.filter(|_| figure.most.is_none() && more.most.is_none() && unit_of_time(rest).0.is_some()) {
        Some(sum) => {
            figure.shown = sum.decimal(3);
            figure.value = Some(sum);
            (figure, rest)
        }
        None => (figure, after),
    }
}

/// Whether a text ends in one of some words, in small or large letters.
fn ends_in_word(text: &str, words: &[&str]) -> bool {
    let bare = text.trim_end();
    words.iter().any(|word| {
        let split = bare.len().checked_sub(word.len()).and_then(|at| bare.split_at_checked(at));
        split.is_some_and(|(before, last)| last.eq_ignore_ascii_case(word) && !before.ends_with(char::is_alphanumeric))
    })
}

/// A text of the same length in which times that are said in words stand in figures: `an hour and a half`, `1:15 h`. `None` where there
/// are none.
pub(super) fn with_figures(text: &str) -> Option<String> {
    const IN_WORDS: [(&str, &str); 4] = [
        ("an hour and a half", "1.5 hours"),
        ("half an hour", "30 min"),
        ("half hour", "30 min"),
        ("an hour", "1 hour"),
    ];
    let lower = text.to_lowercase();
    let clocks: Vec<_> = lower.match_indices(':').filter_map(|(at, _)| is_clock(&lower, at)).collect();
    // Places are those of the small letters only where both are as long.
    if (!lower.contains("hour") && clocks.is_empty()) || lower.len() != text.len() {
        return None;
    }
    let mut figures = text.to_owned();
    for (words, figure) in IN_WORDS {
        for (at, _) in lower.match_indices(words) {
            let place = at..at + words.len();
            // What a longer one took is in figures by now.
            if figures.get(place.clone()).is_some_and(|there| there.eq_ignore_ascii_case(words)) {
                figures.replace_range(place, &format!("{figure:<width$}", width = words.len()));
            }
        }
    }
    for (from, to) in clocks {
        let said = lower.get(from..to)?.replacen(':', "h", 1);
        let said = said.trim_end_matches(|c: char| c.is_alphabetic() || c == ' ');
        let figure = format!("{said:<width$}", width = to - from);
        figures.replace_range(from..to, &figure);
    }
    Some(figures)
}

/// Where a time such as `1:15 h` stands, by the place of its colon.
fn is_clock(lower: &str, colon: usize) -> Option<(usize, usize)> {
    let (before, behind) = (lower.get(..colon)?, lower.get(colon + 1..)?);
    let from = before.trim_end_matches(|c: char| c.is_ascii_digit()).len();
    let minutes = behind.get(..2).filter(|two| two.chars().all(|c| c.is_ascii_digit()))?;
    let word = behind.get(minutes.len()..)?;
    let unit = word.trim_start();
    let end = unit.find(|c: char| !c.is_alphabetic()).unwrap_or(unit.len());
    let is_hours = matches!(unit.get(..end)?, "h" | "hr" | "hrs" | "hour" | "hours");
    (is_hours && from < colon && colon - from <= 2).then_some((from, lower.len() - unit.len() + end))
}

/// Words behind the minutes of a time that says its hours only: `2 h 15 at 27 C`.
#[rustfmt::skip]
const AFTER_MINUTES: [&str; 22] = [
    "at", "in", "on", "until", "or", "and", "then", "by", "from", "under", "with", "per", "to", "before", "after", "while", "for", "if", "but",
    "so", "plus", "total",
];

/// Takes the minutes behind whole hours that have no word of their own, `2 h 15`, into the figure.
fn minutes_behind(mut figure: amount::Figure, after: &str) -> (amount::Figure, &str) {
    let whole = figure.most.is_none() && figure.shown.chars().all(|c| c.is_ascii_digit());
    let digits = after.trim_start();
    let end = digits.find(|c: char| !c.is_ascii_digit()).unwrap_or(digits.len());
    let Some((minutes, rest)) = digits.split_at_checked(end).filter(|(minutes, _)| whole && minutes.len() == 2) else {
        return (figure, after);
    };
    // `2 h 28 °C` says no minutes, and `2 h 10 buns a tray` none either.
    let behind = rest.trim_start();
    let end = behind.find(|c: char| !c.is_alphabetic()).unwrap_or(behind.len());
    let glued = digits.len() == after.len();
    let goes_on = match behind.get(..end).unwrap_or_default() {
        // `1h30` is whole, whatever stands behind it but a degree.
        _ if glued => !rest.starts_with(|c: char| c.is_ascii_digit() || matches!(c, '.' | '°')),
        "" => behind.is_empty() || behind.starts_with(['.', ',', ';', '!', ')', '(', '@', '\u{2192}']),
        word => {
            let is_manner = ["ed", "ing", "ly"].iter().any(|end| word.ends_with(end));
            (AFTER_MINUTES.contains(&word) || is_manner) && behind.len() < rest.len()
        }
    };
    if !goes_on || minutes.parse::<u8>().is_ok_and(|minutes| minutes > 59) {
        return (figure, after);
    }
    if minutes != "00" {
        figure.shown = format!("{} h {minutes}", figure.shown);
    }
    (figure, rest)
}

/// Where the first time that a text gives begins.
pub(super) fn first_time(text: &str) -> Option<usize> {
    given(text).first().map(|time| time.at)
}

/// Every time that is said, as the language writes it.
pub(super) fn times(text: &str) -> Vec<String> {
    let mut found: Vec<String> = Vec::new();
    for Given { figure, unit, goes_on, .. } in given(text) {
        let shown =
            figure.most.as_ref().map_or_else(|| figure.shown.clone(), |most| format!("{}-{most}", figure.shown));
        // `1 hour 30 minutes` is one time.
        match found.last_mut().filter(|last| goes_on && unit == "min" && last.ends_with(" h")) {
            Some(last) => last.push_str(&format!(" {shown} {unit}")),
            None if shown.contains(" h ") => found.push(format!("{shown} min")),
            None => found.push(format!("{shown} {unit}")),
        }
    }
    found
}

/// Whether a figure can be one of a time: `180/15 min` is a heat and a time, and no fraction.
fn is_of_time(figure: &amount::Figure) -> bool {
    !figure.shown.contains('/') || figure.value.is_none_or(|value| value < Number::whole(5))
}

fn unit_of_time(text: &str) -> (Option<&'static str>, &str) {
    let trimmed = text.trim_start_matches([' ', '-', '\u{A0}']);
    let trimmed = trimmed.strip_prefix("more ").unwrap_or(trimmed);
    // `16'` in an oven is a time.
    if let Some(rest) = text
        .strip_prefix(['\'', '\u{2032}', '\u{2019}'])
        .filter(|rest| !rest.starts_with(|c: char| c.is_alphanumeric() || matches!(c, '\'' | '\u{2032}' | '\u{2019}')))
    {
        return (Some("min"), rest);
    }
    let end = trimmed.find(|c: char| !c.is_alphabetic()).unwrap_or(trimmed.len());
    let (word, rest) = trimmed.split_at(end);
    let unit = match word.to_lowercase().as_str() {
        "min" | "mins" | "minute" | "minutes" => "min",
        "h" | "hr" | "hrs" | "hour" | "hours" => "h",
        "s" | "sec" | "secs" | "second" | "seconds" => "s",
        "day" | "days" => "days",
        _ => return (None, text),
    };
    (Some(unit), rest)
}

/// How words for a time begin in German, French, Italian and Spanish: they are told to a person and not taken for a step, because what
/// is done is not understood.
const TIMES_OTHERWISE: [&str; 10] = ["minut", "stund", "std", "tag", "heure", "jour", "ora", "ore", "giorn", "hora"];

/// Whether a time is said in another language.
pub(super) fn says_time_otherwise(text: &str) -> bool {
    let words: Vec<&str> = text.split_whitespace().collect();
    words.iter().zip(words.iter().skip(1)).any(|(figure, unit)| {
        let unit = unit.to_lowercase();
        figure.starts_with(|c: char| c.is_numeric()) && TIMES_OTHERWISE.iter().any(|word| unit.starts_with(word))
    })
}
