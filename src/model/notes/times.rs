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
    /// Whether it is said for one side or one load.
    for_one: bool,
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
        let (figure, after) = behind_a_number(before, here, figure, after);
        let (figure, after) = added(figure, before, after);
        let (unit, after) = unit_of_time(after);
        let is_quoted = before.ends_with(['\'', '"', '\u{2018}', '\u{201C}']);
        let unit = unit.filter(|_| is_of_time(&figure) && !is_quoted && !says_when(before, after));
        let (figure, after) = match unit {
            Some("h") => minutes_behind(figure, after),
            _ => (figure, after),
        };
        // The minutes of `1 hour 30 minutes - 2 h` are no end of a range by themselves.
        let is_alone = !joined || !text.get(from..at).unwrap_or("").trim().is_empty();
        let range = unit.filter(|_| is_alone).and_then(|unit| up_to(&figure, unit, after));
        let (figure, unit, after) = match range {
            Some((figure, after)) => (figure, Some("min"), after),
            None => (figure, unit, after),
        };
        if let Some(unit) = unit {
            let (figure, after) = or_more(figure, after);
            let between = text.get(from..at).unwrap_or("").trim();
            let goes_on = joined && (between.is_empty() || between == "and");
            let list = if ends_in_word(before, &["@", "at"]) { &mut moments } else { &mut found };
            let for_one = is_for_one(after);
            let more = at_another_speed(after);
            // `Rest 20 min twice.`
            let again = says_twice(after).then(|| figure.clone());
            for figure in earlier(before, unit).into_iter().chain(one_or_two(figure)).chain(more).chain(again) {
                list.push(Given { at, figure, unit, goes_on, for_one });
            }
        }
        joined = unit.is_some();
        // A number always has at least one character, so this comes to an end.
        from = if after.len() < here.len() { text.len() - after.len() } else { at + 1 };
    }
    if found.is_empty() { moments } else { found }
}

/// Words whose number counts what they name, so that a dash behind it begins something else: `Gas 4 - 25 min`, `Stage 2 - 8 h`.
#[rustfmt::skip]
const NUMBERED: [&str; 19] = [
    "gas", "mark", "no", "nr", "number", "speed", "level", "shelf", "step", "stage", "day", "part", "batch", "tin", "tray", "oven", "deck",
    "rack", "round",
];

/// The time behind the number of something, where a dash with blanks round it stands between: no range goes from the one to the other.
/// So it is where a line is numbered, `4 - 30 min bake`: nobody says a time that may be more than four times as long.
fn behind_a_number<'t>(
    before: &str,
    here: &'t str,
    figure: amount::Figure,
    after: &'t str,
) -> (amount::Figure, &'t str) {
    let read = here.get(..here.len() - after.len()).filter(|_| figure.most.is_some()).unwrap_or_default();
    let behind = [" - ", " \u{2013} ", " \u{2014} "].iter().find_map(|dash| Some(read.find(dash)? + dash.len()));
    let Some((second, rest)) = behind.and_then(|at| amount::figure(here.get(at..)?.trim_start())) else {
        return (figure, after);
    };
    let word = words::all_of(before).last();
    let is_counted = word.is_some_and(|word| NUMBERED.contains(&word.as_str()))
        && before.ends_with(|c: char| c.is_whitespace() || matches!(c, '.' | '#'));
    let far = |low: Number, high: Number| low.times(Number::whole(4)).is_ok_and(|most| most < high);
    let is_far = figure.value.zip(second.value).is_some_and(|(low, high)| far(low, high));
    if is_counted || before.trim().is_empty() && is_far { (second, rest) } else { (figure, after) }
}

/// The figures of a time with a stroke in it that is no fraction: `mix 5/3 min` is two times, `180/15 min` a heat and a time.
fn one_or_two(figure: amount::Figure) -> Vec<amount::Figure> {
    let parts = figure.shown.split_once('/').filter(|(above, _)| !above.contains(' '));
    let usual = ["1/2", "1/3", "2/3", "1/4", "3/4"].contains(&figure.shown.as_str());
    let Some((above, below)) = parts.filter(|_| !usual && figure.most.is_none()) else { return vec![figure] };
    let read = |digits: &str| amount::figure(digits).map(|(figure, _)| figure);
    let heat = above.len() > 2;
    [read(above).filter(|_| !heat), read(below)].into_iter().flatten().collect()
}

/// The figures without a unit that are added to a time or say how often it is: `3 + 5 min`, `2 x 20 min`; each is a time of its own.
fn earlier(before: &str, unit: &str) -> Vec<amount::Figure> {
    let mut found = Vec::new();
    let mut bare = before.trim_end();
    while let Some(joined) = bare.strip_suffix(['+', 'x', '\u{d7}']) {
        let times = !bare.ends_with('+');
        let joined = joined.trim_end();
        let digits = joined.trim_end_matches(|c: char| c.is_ascii_digit()).len();
        let (rest, figure) = joined.split_at_checked(digits).unwrap_or_default();
        let Some((figure, _)) = amount::figure(figure).filter(|_| !rest.ends_with(char::is_alphanumeric)) else {
            break;
        };
        // `1 x 20 min` is said once.
        let is_once = times && figure.value == Some(Number::ONE);
        if !is_once && !matches!(unit, "days" | "weeks") {
            found.push(figure);
        }
        bare = rest.trim_end();
    }
    found
}

/// The figure without a unit that goes on at another speed behind a time: `6 min slow, 2 fast`.
fn at_another_speed(after: &str) -> Option<amount::Figure> {
    let behind = after.get(after.find([',', '+', '/', ';'])? + 1..)?;
    let near = after.split([',', '+', '/', ';']).next()?.split_whitespace().count() <= 3;
    let (figure, rest) = amount::figure(behind.trim_start()).filter(|_| near)?;
    let first = rest.trim_start().split(|c: char| !c.is_alphanumeric()).next()?.to_lowercase();
    let speeds = ["fast", "slow", "high", "low", "medium", "speed", "on", "1st", "2nd", "second", "first"];
    (rest.starts_with(' ') && speeds.contains(&first.as_str())).then_some(figure)
}

/// A range that says the unit of each end, `50 mins – 1 hour`, `45 min to 1 h 15`: in minutes.
fn up_to<'t>(figure: &amount::Figure, unit: &'static str, after: &'t str) -> Option<(amount::Figure, &'t str)> {
    let low = in_minutes(figure, unit).filter(|_| figure.most.is_none())?;
    let dashed = after.trim_start();
    let behind = ["-", "\u{2013}", "\u{2014}", "to ", "or "].into_iter().find_map(|dash| dashed.strip_prefix(dash))?;
    let (second, rest) = amount::figure(behind.trim_start()).filter(|(second, _)| second.most.is_none())?;
    let (unit, rest) = unit_of_time(rest);
    let unit = unit?;
    let (second, rest) = if unit == "h" { minutes_behind(second, rest) } else { (second, rest) };
    let most = in_minutes(&second, unit).filter(|most| *most > low)?;
    let (shown, most) = (low.decimal(3), Some(most.decimal(3)));
    Some((amount::Figure { shown, value: Some(low), most, ..figure.clone() }, rest))
}

/// Minutes of a time that is said in minutes or hours, `1 h 15` among them.
fn in_minutes(figure: &amount::Figure, unit: &str) -> Option<Number> {
    let (hours, minutes) = match (unit, figure.shown.split_once(" h ")) {
        ("h", Some((_, minutes))) => (figure.value?, Number::whole(minutes.parse().ok()?)),
        ("h", None) => (figure.value?, Number::ZERO),
        ("min", None) => (Number::ZERO, figure.value?),
        _ => return None,
    };
    hours.times(Number::whole(60)).ok()?.plus(minutes).ok()
}

/// Takes `or two` behind `an hour`, `or 30` behind `20 min`, into the figure.
fn or_more(figure: amount::Figure, after: &str) -> (amount::Figure, &str) {
    let behind = || {
        let (more, rest) = amount::figure(after.trim_start().strip_prefix("or ")?)?;
        let ends = rest.is_empty() || rest.starts_with(['.', ',', ';', ')']) || rest.starts_with(" until ");
        let goes_up = more.value.zip(figure.value).is_some_and(|(more, least)| more > least);
        (ends && goes_up && figure.most.is_none() && more.most.is_none()).then_some((more.shown, rest))
    };
    match behind() {
        Some((most, rest)) => (amount::Figure { most: Some(most), ..figure }, rest),
        None => (figure, after),
    }
}

/// Whether what stands behind a time says that it is taken more than once.
fn says_twice(after: &str) -> bool {
    let behind = after.trim_start().to_lowercase();
    let mut words = behind.split(|c: char| !c.is_alphanumeric());
    match words.next() {
        Some("twice" | "thrice") => true,
        Some(many) => {
            (super::spoken::number(many).is_some() || many.parse::<u8>().is_ok()) && words.next() == Some("times")
        }
        None => false,
    }
}

/// Whether what stands behind a time says that it is one side's or one load's.
fn is_for_one(after: &str) -> bool {
    let behind = after.trim_start().trim_start_matches(['/', '(', ' ']).to_lowercase();
    ["each", "per ", "a side", "side", "on each", "on both", "both sides"].iter().any(|word| behind.starts_with(word))
}

/// Whether a text says that something is done every so many minutes.
pub(super) fn says_every(text: &str) -> bool {
    let lower = text.to_lowercase();
    let behind = |(at, word): (usize, &str)| lower.get(at + word.len()..).and_then(amount::figure);
    lower.match_indices("every ").filter_map(behind).any(|(_, rest)| unit_of_time(rest).0.is_some())
}

/// Whether a text gives a time for one side or one load.
pub(super) fn says_for_one(text: &str) -> bool {
    given(text).iter().any(|time| time.for_one)
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
    // `4 folds @ 30 min`, `folds at 30, 60, 90 min` are moments of the rest.
    let is_fold = || words::all_of(clause_before(before)).any(|word| ["fold", "folds"].contains(&word.as_str()));
    let is_moment = |before: &str| {
        let list = |c: char| c.is_ascii_digit() || matches!(c, ' ' | ',' | '/' | '&');
        ends_in_word(before.trim_end_matches(list), &["@", "at"]) && is_fold()
    };
    is_moment(before)
        || ends_in_word(before, &["every", "after", "within", "no more than", "not more than", "no longer than", "less than"])
        || first(&["interval", "apart"])
        || (begins || !ends_in_word(before, &["for"]) && !is_done(clause)) && first(&["before", "after ", "later"])
        || behind.len() < whole.len() && first(&["fold", "turn", "each", "them", "stretch"])
        // `3 folds with 30 min rests`, `turn 3 times, 20 min rest between`: for how long between, and not how long it takes.
        || first(&["rests", "rest between", "rest in between", "rest each"])
}

/// The sentence up to here.
fn clause_before(before: &str) -> &str {
    before.rsplit(['.', ';']).next().unwrap_or_default()
}

/// Whether a clause says what is done for a time, and not only what is fetched at a moment.
fn is_done(clause: &str) -> bool {
    const LASTS: [&str; 4] = ["keep", "hold", "work", "stays"];
    words::all_of(clause).any(|word| is_verb(&word) || LASTS.contains(&word.as_str()))
}

/// Adds up the minutes of a bake in two halves, `12+10 min`: a figure behind a plus belongs to the one before it. A mixer has two speeds.
fn added<'t>(mut figure: amount::Figure, before: &str, after: &'t str) -> (amount::Figure, &'t str) {
    let clause = before.rsplit(['.', ';']).next().unwrap_or_default();
    let is_bake = words::all_of(clause).any(|word| ["bake", "baking", "roast", "oven"].contains(&word.as_str()));
    if !is_bake {
        return (figure, after);
    }
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
    const IN_WORDS: [(&str, &str); 8] = [
        ("an hour and three quarters", "1.75 hours"),
        ("an hour and a quarter", "1.25 hours"),
        ("three quarters of an hour", "45 min"),
        ("quarter of an hour", "15 min"),
        ("an hour and a half", "1.5 hours"),
        ("half an hour", "30 min"),
        ("half hour", "30 min"),
        ("an hour", "1 hour"),
    ];
    let lower = text.to_lowercase();
    let clocks: Vec<_> = lower.match_indices(':').filter_map(|(at, _)| is_clock(&lower, at)).collect();
    // Places are those of the small letters only where both are as long.
    if lower.len() != text.len() {
        return None;
    }
    let spoken = super::spoken::figures(&lower);
    if !lower.contains("hour") && clocks.is_empty() && spoken.is_empty() {
        return None;
    }
    let mut figures = text.to_owned();
    for (place, figure) in spoken {
        let width = place.len();
        if figures.get(place.clone()).is_none() {
            continue;
        }
        figures.replace_range(place, &format!("{figure:<width$}"));
    }
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
    let quarters = [("and a half", 30), ("and a quarter", 15), ("and three quarters", 45)];
    if let Some((minutes, rest)) =
        quarters.into_iter().find_map(|(words, minutes)| Some((minutes, digits.strip_prefix(words)?))).filter(|_| whole)
    {
        figure.shown = format!("{} h {minutes}", figure.shown);
        return (figure, rest);
    }
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
        _ if glued => {
            // The point that ends a sentence is none of the figure.
            let figure = rest.strip_prefix('.').unwrap_or(rest);
            !figure.starts_with(|c: char| c.is_ascii_digit() || c == '°')
        }
        "" => behind.is_empty() || behind.starts_with(['.', ',', ';', '!', ')', '(', '@', '\u{2192}']),
        word => {
            let is_manner = ["ed", "ing", "ly"].iter().any(|end| word.ends_with(end));
            (AFTER_MINUTES.contains(&word) || is_manner) && behind.len() < rest.len()
        }
    };
    if !goes_on || minutes.parse::<u8>().is_ok_and(|minutes| minutes > 59) {
        return (figure, after);
    }
    let minutes = minutes.strip_prefix('0').unwrap_or(minutes);
    if minutes != "0" {
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

/// Whether a figure with a stroke in it can hold a time.
fn is_of_time(figure: &amount::Figure) -> bool {
    let is_heat = |(above, below): (&str, &str)| above.len() > 3 || below.len() > 2;
    !figure.shown.split_once('/').is_some_and(is_heat)
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
        "week" | "weeks" | "wk" | "wks" => "weeks",
        // `45m` as it is typed on a telephone; `2 m` is a length.
        "m" if trimmed.len() == text.len() => "min",
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
