//! Times whose figures are said in words: `one and a half hours`, `two to three hours`, `a couple of hours`.

use std::ops::Range;

/// Numbers that people say of a time. Larger ones are typed.
#[rustfmt::skip]
const NUMBERS: [(&str, &str); 21] = [
    ("one", "1"), ("two", "2"), ("three", "3"), ("four", "4"), ("five", "5"), ("six", "6"), ("seven", "7"), ("eight", "8"), ("nine", "9"),
    ("ten", "10"), ("eleven", "11"), ("twelve", "12"), ("fifteen", "15"), ("twenty", "20"), ("twenty-five", "25"), ("thirty", "30"),
    ("forty", "40"), ("forty-five", "45"), ("fifty", "50"), ("sixty", "60"), ("ninety", "90"),
];
/// What stands between a number and its unit and adds to it.
const SHARES: [([&str; 3], &str); 3] =
    [(["and", "a", "half"], ".5"), (["and", "a", "quarter"], ".25"), (["and", "three", "quarters"], ".75")];
const UNITS: [&str; 11] =
    ["hour", "hours", "hr", "hrs", "min", "mins", "minute", "minutes", "days", "weeks", "seconds"];

/// The figure of a number word.
pub(super) fn number(word: &str) -> Option<&'static str> {
    NUMBERS.iter().find(|(said, _)| *said == word).map(|(_, figure)| *figure)
}

/// Whether a text in small letters says a time of which only a person knows how long it is meant: `a couple of hours`.
pub(super) fn says_a_couple(text: &str) -> bool {
    let lower = text.to_lowercase();
    UNITS.iter().any(|unit| lower.contains(&format!("couple of {unit}")))
}

/// Where in a text in small letters a number before a unit of time is said in words, and its figure, which is no longer than the words.
pub(super) fn figures(lower: &str) -> Vec<(Range<usize>, String)> {
    let mut words: Vec<(Range<usize>, &str)> = Vec::new();
    let mut from = 0;
    for piece in lower.split_inclusive(char::is_whitespace) {
        let word = piece.trim_end();
        words.push((from..from + word.len(), word));
        from += piece.len();
    }
    let word = |at: Option<usize>| at.and_then(|at| words.get(at)).map_or("", |(_, word)| *word);
    let begins = |at: usize| words.get(at).map_or(0, |(place, _)| place.start);
    let ends = |at: usize| words.get(at).map_or(0, |(place, _)| place.end);
    let mut found = Vec::new();
    for (at, (_, unit)) in words.iter().enumerate() {
        if !UNITS.contains(&unit.trim_end_matches(|c: char| !c.is_alphabetic())) {
            continue;
        }
        let before = |back: usize| word(at.checked_sub(back));
        let last = [before(3), before(2), before(1)];
        if let (["a", "couple", "of"], Some(first), Some(end)) = (last, at.checked_sub(3), at.checked_sub(1)) {
            found.push((begins(first)..ends(end), "2".to_owned()));
            continue;
        }
        let share = SHARES.iter().find(|(share, _)| *share == last).map(|(_, share)| *share);
        let Some(first) = at.checked_sub(if share.is_some() { 4 } else { 1 }) else { continue };
        let Some(figure) = number(word(Some(first))) else { continue };
        found.push((begins(first)..ends(at.saturating_sub(1)), format!("{figure}{}", share.unwrap_or_default())));
        // `two to three hours`.
        if let Some(least) = first.checked_sub(2)
            && ["to", "or"].contains(&word(first.checked_sub(1)))
            && let Some(figure) = number(word(Some(least)))
        {
            found.push((begins(least)..ends(least), figure.to_owned()));
        }
    }
    found
}
