//! What the figures of a sentence say: hours and days, degrees, how sour something is and how dry. Words are in lower case.

use super::has_all;
use crate::measure::number::Number;
use crate::measure::quantity::Duration;
use crate::measure::temperature::Temperature;
use crate::measure::value::{Said, Value};
use crate::text::denied::is_denied;

/// A measure that was set into a text, as its words would say it, and what it measures.
pub(super) fn plain(said: &[Said]) -> String {
    let Some(first) = said.first() else { return " # ".to_owned() };
    match first.most() {
        Value::Time(time) => match time.in_minutes() {
            Ok(minutes) => format!(" {} min #time ", minutes.decimal(1)),
            Err(_) => " # ".to_owned(),
        },
        Value::Temperature(at) => format!(" {} c #degrees ", at.celsius().decimal(1)),
        value if first.unit.is_none() => format!(" {} # ", value.number().decimal(2)),
        _ => " # ".to_owned(),
    }
}

/// The words of a sentence without the signs about them.
fn words(text: &str) -> Vec<&str> {
    let is_about = |c: char| !c.is_alphanumeric() && !['-', '−', '#', '°', '%'].contains(&c);
    text.split_whitespace().map(|word| word.trim_matches(is_about)).filter(|word| !word.is_empty()).collect()
}

/// A figure with which a word begins, and what stands behind it: `4.6`, `-20c`, `24h`. Of `3-4` and of `3–4` the second.
fn figure(word: &str) -> Option<(Number, &str)> {
    let is_parted = |at: usize| word.get(..at).is_some_and(|before| before.ends_with(|c: char| c.is_ascii_digit()));
    let from = word.char_indices().rev().find(|(at, c)| ['-', '–', '−'].contains(c) && is_parted(*at));
    if let Some((at, sign)) = from {
        let second = word.get(at + sign.len_utf8()..).and_then(figure);
        if second.is_some() {
            return second;
        }
    }
    let (below, bare) = match word.strip_prefix(['-', '−']) {
        Some(bare) => (true, bare),
        None => (false, word),
    };
    let ends = |text: &str| text.find(|c: char| !c.is_ascii_digit()).unwrap_or(text.len());
    let (whole, rest) = bare.split_at_checked(ends(bare)).filter(|(whole, _)| !whole.is_empty())?;
    let tail = rest.strip_prefix(['.', ',']).filter(|tail| ends(tail) > 0);
    let (part, rest) = match tail {
        Some(tail) => tail.split_at_checked(ends(tail))?,
        None => ("", rest),
    };
    let of = 10_i128.checked_pow(u32::try_from(part.len()).ok()?)?;
    let figure: i128 = format!("{whole}{part}").parse().ok()?;
    Some((Number::fraction(if below { -figure } else { figure }, of)?, rest))
}

/// Small numbers in words.
#[rustfmt::skip]
const IN_WORDS: &[(&str, i64)] = &[
    ("a", 1), ("an", 1), ("one", 1), ("two", 2), ("three", 3), ("four", 4), ("five", 5), ("six", 6), ("seven", 7), ("eight", 8), ("nine", 9), ("ten", 10),
    ("twelve", 12), ("twenty", 20), ("thirty", 30),
];

/// The times that a sentence says, each as long as it says at most.
pub(super) fn times(text: &str) -> impl Iterator<Item = Duration> {
    let words = words(text);
    let at = |place: usize| {
        let word = words.get(place)?;
        let in_words =
            || IN_WORDS.iter().find(|(said, _)| said == word).map(|(_, number)| (Number::whole(*number), ""));
        let (number, unit) = figure(word).or_else(in_words)?;
        let unit = if unit.is_empty() { words.get(place + 1).copied()? } else { unit.trim_start_matches('-') };
        let seconds = match unit {
            "min" | "mins" | "minute" | "minutes" => 60,
            "h" | "hr" | "hrs" | "hour" | "hours" => 3600,
            "d" | "day" | "days" => 86_400,
            "week" | "weeks" => 7 * 86_400,
            "month" | "months" => 30 * 86_400,
            "year" | "years" => 365 * 86_400,
            _ => return None,
        };
        number.times(Number::whole(seconds)).ok().map(Duration::new)
    };
    (0..words.len()).filter_map(at).collect::<Vec<Duration>>().into_iter()
}

/// The temperatures that a text names.
pub(in crate::check) fn temperatures(text: &str) -> impl Iterator<Item = Temperature> {
    let words = words(text);
    let at = |place: usize| {
        let (number, unit) = words.get(place).copied().and_then(figure)?;
        let next = |place: usize| words.get(place).copied().unwrap_or_default();
        let unit = match unit.trim_start_matches('°') {
            "" if ["degrees", "°"].contains(&next(place + 1)) => next(place + 2),
            "" => next(place + 1).trim_start_matches('°'),
            unit => unit,
        };
        match unit {
            "c" | "celsius" => Some(Temperature::from_celsius(number)),
            "f" | "fahrenheit" => Temperature::from_fahrenheit(number).ok(),
            _ => None,
        }
    };
    (0..words.len()).filter_map(at).collect::<Vec<Temperature>>().into_iter()
}

/// The figure behind such a word, and where it stands: the upper one of `3.8 to 4.2`, the last of what falls `from 5.8 to 4.4`.
fn behind(words: &[&str], at: usize) -> Option<(usize, Number)> {
    /// So many words stand between them at most.
    const REACH: usize = 6;
    let read = |place: usize| Some((place, figure(words.get(place)?).filter(|(_, rest)| rest.is_empty())?.0));
    let first = (at + 1..=at + REACH).find_map(read)?;
    let to = |place: usize| words.get(place).is_some_and(|word| ["to", "and", "–", "-"].contains(word));
    let second = to(first.0 + 1).then(|| (first.0 + 2..=first.0 + 3).find_map(read)).flatten();
    let falls = words.get(at..first.0).is_some_and(|between| between.contains(&"from"));
    match second {
        Some(second) if falls || second.1 > first.1 => Some(second),
        _ => Some(first),
    }
}

/// The highest pH at which nothing that makes ill grows (21 CFR 114.3; FDA Food Code 1-201.10).
const SOUR: Number = Number::constant(46, 10);
/// The wettest at which that is so, as water activity (21 CFR 114.3; FDA Food Code 1-201.10).
const DRY: Number = Number::constant(85, 100);

/// Whether a figure stands behind what is above it: `a pH over 4.6`. Where what is so is thrown away, it is the limit.
fn is_least(words: &[&str], place: usize) -> bool {
    let is_above =
        |at: &usize| words.get(*at).is_some_and(|word| ["above", "over", "higher", "exceeds"].contains(word));
    let is_limit = ["if", "when", "unless", "throw", "discard", "reject", "refuse"];
    (place.saturating_sub(3)..place).find(is_above).is_some_and(|at| !is_denied(words, at, 3, &[]))
        && !words.iter().any(|word| is_limit.contains(word))
}

/// Whether a sentence says that something is sour: by a pH that keeps it, or of which no figure is said, or as acidified.
pub(super) fn is_sour(sentence: &str) -> bool {
    let words = words(sentence);
    let is_ph = |(at, word): (usize, &&str)| {
        let joined = || word.strip_prefix("ph").and_then(figure).map(|(number, _)| (at, number));
        let found = if *word == "ph" { behind(&words, at) } else { joined() };
        (*word == "ph" || found.is_some())
            && found.is_none_or(|(place, number)| number <= SOUR && !is_least(&words, place))
    };
    let is_acid = |(at, word): (usize, &&str)| {
        (word.starts_with("acidif") || ["acidity", "acidic"].contains(word))
            && !is_denied(&words, at, 3, &["low", "little"])
    };
    words.iter().enumerate().any(is_ph) || !has_all(sentence, &[&["ph$"]]) && words.iter().enumerate().any(is_acid)
}

/// Neither lye nor milk is spoken of below this.
const NEUTRAL: Number = Number::constant(75, 10);

/// A pH that a sentence states of food and that keeps nothing: over 4.6. What it is at first, or while something is made, is another figure.
pub(super) fn high_ph(sentence: &str) -> Option<Number> {
    let words = words(sentence);
    let is_other = [
        "before", "first", "start", "starts", "begins", "from", "dough", "over", "above", "higher", "discard", "throw",
    ];
    if words.iter().any(|word| is_other.contains(word)) {
        return None;
    }
    let read = |(at, word): (usize, &&str)| if *word == "ph" { Some(behind(&words, at)?.1) } else { None };
    let found = words.iter().enumerate().find_map(read)?;
    (found > SOUR && found < NEUTRAL).then_some(found)
}

/// Whether a sentence says that the water in something is bound: by a water activity at which nothing grows.
pub(super) fn is_bound(sentence: &str) -> bool {
    let words = words(sentence);
    let is_activity = |(at, word): (usize, &&str)| {
        let is_named =
            *word == "aw" || *word == "activity" && at.checked_sub(1).and_then(|at| words.get(at)) == Some(&"water");
        is_named && behind(&words, at).is_some_and(|(place, number)| number <= DRY && !is_least(&words, place))
    };
    words.iter().enumerate().any(is_activity)
}

/// How cold and for how long fish is frozen so that its worms die (Regulation (EC) 853/2004, Annex III, Section VIII, Chapter III D; the FDA Food Code
/// 3-402.11 wants seven days at -20 °C; both from memory).
const COLD: (Number, Duration) = (Number::whole(-20), Duration::new(Number::whole(24 * 3600)));
const COLDER: (Number, Duration) = (Number::whole(-35), Duration::new(Number::whole(15 * 3600)));

/// Whether so cold and so long is enough; of what nobody says the best is thought.
pub(in crate::check) fn kills_worms(coldest: Option<Temperature>, longest: Option<Duration>) -> bool {
    let at = coldest.map_or(COLDER.0, Temperature::celsius);
    [COLD, COLDER].iter().any(|(cold, long)| at <= *cold && longest.is_none_or(|time| time >= *long))
}

/// Whether words say that something is frozen.
fn says_frozen(words: &[&str]) -> bool {
    let frozen = ["freez", "frozen", "pre-frozen", "deep-frozen", "blast-frozen", "flash-frozen"];
    let is = |(at, word): (usize, &&str)| {
        frozen.iter().any(|begins| word.starts_with(begins)) && !is_denied(words, at, 3, &["unless"])
    };
    words.iter().enumerate().any(is)
}

/// Whether a sentence says that fish was frozen for its worms, and too warm or not long enough.
pub(super) fn is_frozen_too_little(sentence: &str) -> bool {
    let is_of_worms = has_all(sentence, &[&["worm", "parasit", "through$"]]);
    let coldest = temperatures(sentence).min();
    is_of_worms && coldest.is_some() && says_frozen(&words(sentence)) && !kills_worms(coldest, times(sentence).max())
}

/// Whether a sentence says that fish was frozen so, or comes from a farm.
pub(super) fn is_frozen_through(sentence: &str) -> bool {
    let words = words(sentence);
    let is_farmed =
        words.iter().enumerate().any(|(at, word)| *word == "farmed" && !is_denied(&words, at, 3, &["unless"]));
    let is_free = has_all(sentence, &[&["parasit", "worm"], &["free$", "dead$", "killed$", "kills$"]]);
    let coldest = temperatures(sentence).min();
    (says_frozen(&words) || is_farmed || is_free) && kills_worms(coldest, times(sentence).max())
}
