//! Words around a name: brackets, what stands behind commas, what it is for, how warm it is.

use super::amount;
use super::measure::measure;
use super::strength;
use crate::language::syntax::Key;
use crate::measure::loose::ABOUT_SIGNS;
use crate::model::larder::Larder;

/// Why a figure of the notes stands among words.
pub(super) const AMONG_WORDS: &str = "a figure stands in the words";

/// Words about how something is, which people put before its name.
#[rustfmt::skip]
pub(super) const MANNERS: &[&str] = &[
    "large", "medium", "small", "fresh", "freshly", "warm", "lukewarm", "tepid", "cold", "hot", "iced", "melted", "softened", "soft",
    "chopped", "finely", "roughly", "coarsely", "thinly", "lightly", "grated", "ground", "toasted", "roasted", "sifted", "sieved",
    "beaten", "ripe", "chilled", "boiling", "cooled", "sliced", "diced", "heaped", "level", "packed", "organic", "free-range",
    "lg", "lge", "med", "sm",
];
/// Some of them cut short.
const SHORT: &[(&str, &str)] = &[("lg", "large"), ("lge", "large"), ("med", "medium"), ("sm", "small")];
/// Such a word in full.
pub(super) fn in_full(word: &str) -> &str {
    SHORT.iter().find(|(short, _)| *short == word).map_or(word, |(_, full)| *full)
}

/// What was done to it, also where it stands behind the name without a comma.
pub(super) const DONE: &[&str] = &[
    "chopped", "sliced", "diced", "grated", "softened", "melted", "beaten", "sifted", "sieved", "crushed", "peeled",
    "shredded", "toasted", "roasted", "minced", "finely", "roughly", "coarsely", "thinly",
];

/// What is only strewn, greased with or fried in.
const ASIDE: &[&str] = &[
    "greasing",
    "dusting",
    "grease",
    "dust",
    "sprinkling",
    "sprinkle",
    "rolling",
    "fry",
    "deep-fry",
    "frying",
    "deep-frying",
    "deep",
    "brushing",
    "brush",
    "serve",
    "serving",
];
/// Words for some of an ingredient that is not used at once.
pub(super) const HELD_BACK: [&str; 8] =
    ["held back", "kept back", "hold back", "keep back", "reserved", "in reserve", "reserve", "for later"];
/// What it is for, where that stands in brackets by itself.
pub(super) const USES: [&str; 5] = ["frying", "deep-frying", "greasing", "dusting", "brushing"];
/// Words with which what stands behind a name and holds a figure begins.
pub(super) const HANGERS: &[&str] = &[
    "or", "per", "less", "minus", "plus", "+", "in", "with", "from", "for", "soaked", "cut", "into", "at", "to",
    "until", "after", "of", "@",
];
/// Whether a word is a figure, and not a mark of a sort such as `T65`.
pub(super) fn is_figure(word: &str) -> bool {
    word.trim_start_matches(['(', '~', '+', '-', '.']).starts_with(char::is_numeric)
}

/// Whether words are a ratio of two parts of a whole, `80/20`, and no amount.
pub(super) fn is_ratio(words: &str) -> bool {
    let parts = words.split_once('/').map(|(one, other)| (one.trim().parse::<u16>(), other.trim().parse::<u16>()));
    matches!(parts, Some((Ok(one), Ok(other))) if one >= 10 && one.checked_add(other) == Some(100))
}

/// Whether words behind a name bring in another thing, `+ milk half-half`, and not more of the same, `+ more for the pan`.
pub(super) fn holds_another(words: &str) -> bool {
    let lower = words.to_lowercase();
    let joined = ["+ ", "plus ", "& "].iter().find_map(|joint| lower.strip_prefix(joint));
    let same = |rest: &str| ["more", "extra", "a little", "some"].iter().any(|word| rest.starts_with(word));
    joined.is_some_and(|rest| !same(rest))
        || ["half-half", "half/half", "equal parts"].iter().any(|word| lower.contains(word))
}

/// The words outside brackets, and those of each pair of brackets.
pub(super) fn without_brackets(text: &str) -> (String, Vec<String>) {
    let (mut inside, mut outside) = (Vec::new(), String::new());
    let mut rest = text;
    while let Some((before, behind)) = rest.split_once('(') {
        outside.push_str(before);
        let (within, after) = behind.split_once(')').unwrap_or((behind, ""));
        inside.push(within.to_owned());
        rest = after;
    }
    outside.push_str(rest);
    (outside, inside)
}

/// A name, and what stands behind commas and dashes.
pub(super) fn cut_manner(text: &str) -> (String, Vec<String>) {
    let marks = [", ", ",", ";", " - ", " – ", " — ", " | "];
    let found = marks.iter().filter_map(|mark| text.find(mark).map(|at| (at, mark.len()))).min();
    match found {
        // A mark before the name parts nothing.
        Some((at, length)) if text.get(..at).is_some_and(|name| name.chars().any(char::is_alphabetic)) => {
            let behind = text.get(at + length..).unwrap_or("");
            let pieces =
                behind.split([',', ';', '|']).map(|words| words.trim().trim_start_matches(['-', '–', '—']).to_owned());
            (text.get(..at).unwrap_or("").to_owned(), pieces.collect())
        }
        Some((at, length)) => cut_manner(text.get(at + length..).unwrap_or("")),
        None => (text.to_owned(), Vec::new()),
    }
}

/// `butter for greasing`: what, and what for, where that is not in the mix.
pub(super) fn for_use(text: &str) -> Option<(String, String)> {
    let lower = text.to_lowercase();
    let at = [" for ", " to "].into_iter().find_map(|word| {
        let at = lower.find(word)?;
        let what = lower.get(at + word.len()..)?.split_whitespace().next()?;
        let what = what.trim_matches(|c: char| !(c.is_alphabetic() || c == '-'));
        ASIDE.contains(&what).then_some(at)
    })?;
    let (what, use_) = (text.get(..at)?, text.get(at..)?);
    Some((what.trim().to_owned(), use_.trim().trim_end_matches('.').to_owned()))
}

/// `35C`, `at 35 °C`, as the language says it.
pub(super) fn temperature(text: &str) -> Option<String> {
    let bare = text.trim();
    let bare = ["at ", "@"].into_iter().find_map(|word| bare.strip_prefix(word)).unwrap_or(bare).trim_start();
    let bare = bare.strip_prefix(ABOUT_SIGNS).unwrap_or(bare);
    let (figure, rest) = amount::figure(bare)?;
    match rest.trim_start_matches(['°', 'º', ' ']) {
        scale @ ("C" | "F") if figure.most.is_none() && figure.look.is_none() => {
            Some(format!("at {} {scale}", figure.shown))
        }
        _ => None,
    }
}

/// Whether a share is what something holds, `butter (84%)`, `chocolate (55%)`, and not how much of it there is.
pub(super) fn is_grade(words: &str, name: &str) -> bool {
    let share = measure(words).filter(|(share, rest)| share.known() == Some("%") && rest.trim().is_empty());
    let Some(share) = share.and_then(|(share, _)| share.value) else { return false };
    let facts = Larder::new().find(&Key::new(name));
    strength::holds(name, strength::kind(name, facts.as_deref()), share)
}

/// What stands behind `2 x 15 ml spoons`: the spoon says how the millilitres are measured, and names nothing.
pub(super) fn without_spoon(rest: &str) -> &str {
    const SPOONS: [&str; 8] = ["spoons", "spoon", "spoonfuls", "spoonful", "tablespoons", "teaspoons", "tbsp", "tsp"];
    let behind = rest.split_once(' ').filter(|(word, _)| SPOONS.iter().any(|spoon| word.eq_ignore_ascii_case(spoon)));
    behind.map_or(rest, |(_, rest)| rest.strip_prefix("of ").unwrap_or(rest))
}
