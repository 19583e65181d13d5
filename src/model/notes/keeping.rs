//! How long what prose tells of keeps, and how.

use super::amount;
use super::heat::{heat, in_fridge};
use super::words::sentences;
use crate::measure::noun;
use crate::measure::number::Number;

/// How long something keeps, `2 weeks`, as the language writes it.
pub(super) fn keeping_time(text: &str) -> Option<String> {
    let (figure, rest) = amount::figure(text).filter(|(figure, _)| figure.most.is_none() && figure.look.is_none())?;
    let word = rest.split(|c: char| !c.is_alphabetic()).find(|word| !word.is_empty())?.to_lowercase();
    let word = match word.as_str() {
        "wk" => "week".to_owned(),
        "wks" => "weeks".to_owned(),
        _ => word,
    };
    let unit = ["hour", "day", "week", "month"].into_iter().find(|unit| noun::is_one_or_several(&word, unit))?;
    // A month has no fixed length; thirty days are what such words mean.
    if unit == "month" {
        let days = figure.value?.times(Number::whole(30)).ok()?.to_whole()?;
        return Some(format!("{days} days"));
    }
    Some(format!("{} {}", figure.shown, if unit == "hour" { "h" } else { word.as_str() }))
}

/// How something is kept, as the language writes it: `frozen`, `at 4 C`, `chilled`; `None` where it is not said.
pub(super) fn kept_how(text: &str) -> Option<String> {
    let lower = text.to_lowercase();
    if ["freez", "frozen"].iter().any(|word| lower.contains(word)) {
        return Some("frozen".to_owned());
    }
    heat(text).map(|at| format!("at {at}")).or_else(|| in_fridge(text).then(|| "chilled".to_owned()))
}

/// How long something keeps, from a sentence that says just that: `Keep chilled up to 1 day`, `keeps for 2 weeks`.
pub(super) fn keeping(sentence: &str) -> Option<String> {
    let lower = sentence.trim_start().to_lowercase();
    let first = lower.split(|c: char| !c.is_alphabetic()).next().unwrap_or_default();
    let says = matches!(first, "keep" | "keeps" | "store" | "stores" | "lasts")
        || ["it keeps ", "they keep ", "these keep ", "will keep ", "will last ", "good for ", "shelf life"]
            .iter()
            .any(|words| lower.contains(words))
        || matches!(first, "eat" | "use" | "consume" | "best") && lower.contains("within ")
        // `3 days in the fridge, freezes 3 months`; a night in there by itself is a rest.
        || lower.starts_with(char::is_numeric) && in_fridge(&lower) && lower.contains("freez");
    // `Best after 2 weeks, good for 3 months` ripens for two weeks, and keeps three months.
    let figures = lower.match_indices(char::is_numeric).map(|(at, _)| at);
    let is_limit = |at: &usize| {
        let before = lower.get(..*at).unwrap_or_default();
        let word = super::words::all_of(before).last().unwrap_or_default();
        !before.ends_with(char::is_numeric) && !["after", "until", "from"].contains(&word.as_str())
    };
    let at = figures.into_iter().find(is_limit).filter(|_| says)?;
    let behind = lower.get(at..)?;
    // `Keep 6 weeks before eating` too.
    let ripens = ["before eating", "before using", "before use", "before opening", "before cutting", "before serving"];
    let time = keeping_time(behind)
        .filter(|time| time.ends_with(" h") || !ripens.iter().any(|words| behind.contains(words)))?;
    let to_the_end = lower.get(..at).is_some_and(|before| {
        ["up to", "keeps", "stores", "will ", "they keep", "these keep", "within", "lasts", "good for", "life"]
            .iter()
            .any(|word| before.contains(word))
    });
    // `Keep warm for 1 h` is a step.
    (to_the_end || !time.ends_with(" h")).then_some(time)
}

/// How long what is told of keeps, where one of its sentences says just that.
pub(super) fn keeps(text: &str) -> Option<String> {
    sentences(text).find_map(|sentence| {
        let time = keeping(sentence)?;
        // `3 days in the fridge, freezes 3 months`: how the first is kept.
        let figure = sentence.find(char::is_numeric).unwrap_or(0);
        let behind = sentence.get(figure..).unwrap_or(sentence);
        let other = [", ", "; ", " or ", " / "].into_iter().filter_map(|mark| behind.find(mark)).min();
        let own = sentence.get(..figure + other.unwrap_or(behind.len())).unwrap_or(sentence);
        let holds_another = other.and_then(|at| behind.get(at..)).is_some_and(|rest| rest.contains(char::is_numeric));
        let own = if holds_another { own } else { sentence };
        Some(kept_how(own).map_or_else(|| time.clone(), |how| format!("{time}, {how}")))
    })
}
