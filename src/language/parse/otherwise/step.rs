//! What people write in the head of a step: `in the fridge`, `until doubled`, `1:30`, `chill 2 h`.

use super::{SaidHere, behind_about};
use crate::measure::in_text;
use crate::measure::unit::{Dimension, Unit};

/// Words for the cold of a refrigerator, a freezer or a retarder.
const COLD: &[&str] = &["chilled", "cold", "refrigerated", "fridge", "refrigerator", "frozen", "freezer", "retarded"];

/// Temperatures that nobody can read from a dial.
const NO_DEGREES: &[&str] =
    &["room temperature", "room temp", "room temp.", "ambient", "ambient temperature", "warm place", "a warm place"];

/// The temperature that all of a text is.
fn temperature(text: &str) -> Option<String> {
    let found = in_text::amounts(text).next().filter(|found| found.at == (0..text.len()))?;
    (found.unit.dimension() == Dimension::Temperature).then_some(found.written)
}

/// What to write for a clause that a step does not have.
pub(in super::super) fn clause(text: &str) -> Option<SaidHere> {
    let text = text.trim().trim_end_matches('.');
    let lower = text.to_lowercase();
    let words: Vec<&str> = lower.split_whitespace().collect();
    let first = words.first().copied()?;
    let place =
        lower.strip_prefix("in the ").or_else(|| lower.strip_prefix("in a ")).or_else(|| lower.strip_prefix("in "));
    let at_heat = lower.strip_prefix("at ").or_else(|| lower.strip_prefix("in "));
    if at_heat.is_some_and(|rest| NO_DEGREES.contains(&rest.trim_start_matches("the ")))
        || NO_DEGREES.contains(&lower.as_str())
    {
        return Some(SaidHere::help("write how warm it is: `at 21 C`"));
    }
    if COLD.contains(&first) && words.len() == 1 {
        return Some(SaidHere::help("write where it stands or how cold: `using fridge`, `at 4 C`"));
    }
    if first == "overnight" {
        return Some(SaidHere::help("write the hours: `wait 8-12 h`, or `wait 8 h, up to 14 h`"));
    }
    if let Some(written) = temperature(text.trim_start_matches('@').trim_start()) {
        return Some(SaidHere::write(format!("at {written}")));
    }
    if first == "to" && temperature(text.get(3..)?.trim()).is_some() {
        return Some(SaidHere::help(
            "how warm it is at the end is a sign: write it below the step, `until {5 C} in the middle`; `at 5 C` says where it stands",
        ));
    }
    if matches!(first, "until" | "till") || lower.starts_with("or until ") {
        return Some(SaidHere::help(
            "the sign by which one sees that it is done stands below the step: `until doubled`",
        ));
    }
    if matches!(first, "twice" | "every")
        || words.get(1).is_some_and(|word| matches!(*word, "times" | "x" | "folds" | "turns"))
    {
        return Some(SaidHere::help(
            "moments are said from the start of another step, in minutes: `fold: hands 3 min, 30 and 60 min into rise`",
        ));
    }
    if let Some((what, heat)) = text.split_once(" at ").filter(|_| !matches!(first, "at" | "using" | "up"))
        && let Some(written) = temperature(heat.trim())
        && what.split_whitespace().count() <= 3
        && what.chars().all(|c| c.is_alphabetic() || c == ' ')
    {
        let what = what.strip_prefix("in the ").or_else(|| what.strip_prefix("in ")).unwrap_or(what);
        return Some(SaidHere::write(format!("using {what} at {written}")));
    }
    if let Some(place) =
        place.filter(|place| place.chars().all(|c| c.is_alphabetic() || c == ' ') && place.split(' ').count() <= 2)
    {
        return Some(SaidHere {
            help: format!("what is taken up by it is said so: `using {place}`; other words stand below the step"),
            instead: Some(format!("using {place}")),
        });
    }
    let is_words = text.starts_with(char::is_alphabetic) || lower.contains("humid");
    let opens = [
        "using", "at", "up", "each", "during", "before", "after", "straight", "within", "station", "people", "shared",
        "may",
    ];
    (is_words && !opens.contains(&first))
        .then(|| SaidHere::help("how it is done stands in words below the step, indented"))
}

/// What to write for words where the time of a step is wanted: `about 1 h`, `overnight`, `until doubled`.
pub(in super::super) fn without_time(text: &str) -> Option<SaidHere> {
    let text = text.trim();
    if let Some(rest) = behind_about(text) {
        return Some(SaidHere::write(rest));
    }
    let first = text.split_whitespace().next()?.to_lowercase();
    match first.trim_end_matches(',') {
        "overnight" => clause("overnight"),
        "until" | "till" => Some(SaidHere::help(
            "a plan wants a time: write how long it usually takes, and below the step the sign, `until doubled`",
        )),
        _ => None,
    }
}

/// `1 h 30 min` for `1:30`, `30 min` for `30'`: the number alone and what is glued to it.
pub(in super::super) fn clock_for_time(number: &str, glued: &str) -> Option<String> {
    let is_figure = |text: &str| !text.is_empty() && text.bytes().all(|byte| byte.is_ascii_digit());
    if !is_figure(number) {
        return None;
    }
    if matches!(glued, "'" | "’" | "′") {
        return Some(format!("{number} min"));
    }
    // `1:30 h` says the same.
    let glued = glued.strip_suffix(" h").or_else(|| glued.strip_suffix('h')).unwrap_or(glued);
    let minutes = glued.strip_prefix(':').filter(|minutes| is_figure(minutes) && minutes.len() == 2)?;
    Some(match (number.trim_start_matches('0'), minutes) {
        ("", minutes) => format!("{} min", minutes.trim_start_matches('0')),
        (hours, "00") => format!("{hours} h"),
        (hours, minutes) => format!("{hours} h {} min", minutes.trim_start_matches('0')),
    })
}

/// What is missing from a line that tells of a time and is no step: `rest: chill 2 h`, `bake 20 min at 220 C`.
pub(in super::super) fn no_head(text: &str) -> Option<SaidHere> {
    let is_time = |text: &str| {
        in_text::amounts(text).any(|found| found.unit.dimension() == Dimension::Time && found.unit != Unit::Day)
    };
    match text.split_once(':') {
        Some((name, after))
            if is_time(after) && name.trim().chars().all(|c| c.is_alphabetic() || matches!(c, ' ' | '-' | '\'')) =>
        {
            let name = name.trim();
            Some(SaidHere::help(format!(
                "say who is busy before the time: `{name}: hands …` works with both hands, `{name}: tend …` looks after it, `{name}: wait …` needs nobody"
            )))
        }
        None if is_time(text) => Some(SaidHere::help(
            "a step has a head, `NAME: hands|tend|wait TIME`, and below it, indented, what is done: `rest: wait 30 min`",
        )),
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn instead(said: Option<SaidHere>) -> Option<String> {
        said.and_then(|said| said.instead)
    }

    #[test]
    fn clauses_are_said_as_here() {
        for (text, wanted) in [
            ("26 C", "at 26 C"),
            ("26°C", "at 26 C"),
            ("@ 26 C", "at 26 C"),
            ("oven at 220 C", "using oven at 220 C"),
            ("in the oven at 220 C", "using oven at 220 C"),
            ("in proofer", "using proofer"),
            ("in the fridge", "using fridge"),
        ] {
            assert_eq!(instead(clause(text)).as_deref(), Some(wanted), "{text}");
        }
        for (text, told) in [
            ("chilled", "using fridge"),
            ("at room temperature", "at 21 C"),
            ("until doubled", "below the step"),
            ("to 5 C", "sign"),
            ("twice", "into rise"),
            ("2 times", "into rise"),
            ("overnight", "8-12 h"),
            ("covered", "below the step"),
        ] {
            assert!(clause(text).is_some_and(|said| said.help.contains(told)), "{text}");
        }
        for text in ["using", "up to", "shared by", "at gas 9 or so"] {
            assert_eq!(clause(text), None, "{text}");
        }
    }

    #[test]
    fn times_are_said_as_here() {
        assert_eq!(clock_for_time("1", ":30").as_deref(), Some("1 h 30 min"));
        assert_eq!(clock_for_time("0", ":45").as_deref(), Some("45 min"));
        assert_eq!(clock_for_time("2", ":00").as_deref(), Some("2 h"));
        assert_eq!(clock_for_time("30", "'").as_deref(), Some("30 min"));
        assert_eq!(clock_for_time("1", ":300"), None);
        assert_eq!(instead(without_time("about 1 h")).as_deref(), Some("1 h"));
        assert!(without_time("overnight").is_some() && without_time("until doubled").is_some());
        assert_eq!(without_time("a while"), None);
    }

    #[test]
    fn lines_with_a_time_want_a_head() {
        assert!(no_head("rest: chill 2 h").is_some_and(|said| said.help.contains("`rest: wait …`")));
        assert!(no_head("bake 20 min at 220 C").is_some_and(|said| said.help.contains("a step has a head")));
        assert_eq!(no_head("butter 60 g"), None);
        assert_eq!(no_head("Rest the dough."), None);
    }
}
