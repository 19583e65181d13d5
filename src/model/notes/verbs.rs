//! The verbs of notes: what is done, and who is busy with it.

use super::words;

/// Verbs of work that runs by itself but is watched.
#[rustfmt::skip]
pub(super) const TENDED: [&str; 18] = [
    "bake", "baked", "baking", "roast", "simmer", "boil", "fry", "deep-fry", "cook", "toast", "steam", "grill", "braise", "stew", "poach",
    "blanch", "reduce", "griddle",
];
/// Verbs of work that needs nobody.
#[rustfmt::skip]
pub(super) const WAITED: [&str; 25] = [
    "rest", "rise", "prove", "proof", "chill", "cool", "ferment", "ripen", "soak", "refrigerate", "steep", "infuse", "freeze", "double",
    "stand", "floor", "retard", "autolyse", "bulk", "relax", "cure", "marinate", "macerate", "thaw", "defrost",
];
/// Verbs that say of themselves only that nobody is needed.
pub(super) const LEFT: [&str; 4] = ["leave", "let", "set", "cover"];
/// Verbs with which what is done with a dough and its parts begins.
#[rustfmt::skip]
pub(super) const TOLD: [&str; 34] = [
    "divide", "scale", "shape", "mix", "knead", "bake", "prove", "proof", "ferment", "chill", "whisk", "whip", "fold", "roll", "stir",
    "pour", "bring", "preheat", "combine", "rub", "beat", "rest", "cool", "refrigerate", "cover", "leave", "portion", "drain", "heat",
    "simmer", "boil", "fry", "pipe", "sweat",
];

/// More verbs, of what is done within a step.
pub(super) const ADDED: [&str; 12] =
    ["add", "sear", "brown", "soften", "melt", "turn", "pulse", "blend", "spread", "brush", "knock", "lower"];
/// More first words of what is done, some of which name a thing elsewhere: `a warm place`.
#[rustfmt::skip]
pub(super) const BEGUN: [&str; 35] = [
    "autolyse", "bulk", "retard", "braise", "stew", "soak", "marinate", "macerate", "steam", "roast", "toast", "grill", "strain",
    "reduce", "press", "dust", "glaze", "fill", "assemble", "score", "dip", "sprinkle", "top", "melt", "warm", "dissolve", "transfer",
    "place", "put", "turn", "tip", "cut", "sift", "spread", "form",
];

/// Verbs that say as often how something is: `until golden and set`.
const IS_SO: [&str; 12] =
    ["set", "brown", "double", "cool", "warm", "cover", "turn", "form", "top", "press", "boil", "reduce"];

/// Whether words tell of something else that is done: `thick and strain`, `soft then cool`, `golden, then remove`.
pub(super) fn goes_on(text: &str) -> bool {
    let words: Vec<String> = words::all_of(text).collect();
    words.windows(2).any(|two| match two {
        [joint, verb] if joint == "then" => is_verb(verb) || BEGUN.contains(&verb.as_str()) || verb == "remove",
        [joint, verb] if joint == "and" => {
            (is_verb(verb) || BEGUN.contains(&verb.as_str()) || verb == "remove") && !IS_SO.contains(&verb.as_str())
        }
        _ => false,
    })
}

/// Whether a word tells what is done.
pub(super) fn is_verb(word: &str) -> bool {
    [&TOLD[..], &TENDED, &WAITED, &LEFT, &ADDED].iter().any(|verbs| verbs.contains(&word))
}

/// Words before `heat` that make it a thing: `top/bottom heat`, `over low heat`.
const HEAT_OF: [&str; 12] =
    ["bottom", "top", "high", "low", "medium", "gentle", "moderate", "over", "off", "on", "direct", "residual"];
/// What is called `baking` something and bakes nothing by itself.
const BAKED_ON: [&str; 10] = ["sheet", "tray", "tin", "pan", "paper", "parchment", "stone", "dish", "powder", "soda"];

/// The words of a text that tell what is done, in their order: `the rest` is what is left, and a stand mixer does not stand.
pub(super) fn verbs(text: &str) -> Vec<String> {
    let words: Vec<String> = words::all_of(text).collect();
    let before = |at: usize| at.checked_sub(1).and_then(|before| words.get(before)).map_or("", String::as_str);
    let is_noun = |at: usize, word: &str| {
        let next = words.get(at + 1).map_or("", String::as_str);
        ["the", "a", "an"].contains(&before(at))
            || word == "brown" && ["until", "till", "golden", "is", "are", "lightly", "nicely"].contains(&before(at))
            || word == "stand" && next.starts_with("mixer")
            || word == "heat" && HEAT_OF.iter().any(|of| before(at).ends_with(of))
            || word == "baking" && BAKED_ON.iter().any(|thing| next.starts_with(thing))
    };
    let told = words.iter().enumerate().filter(|(at, word)| is_verb(word) && !is_noun(*at, word));
    told.map(|(_, word)| word.clone()).collect()
}

/// Whether a sentence says what is not to be done: `Do not cut for 1 h`.
pub(super) fn forbids(sentence: &str) -> bool {
    let lower = sentence.trim_start().to_lowercase();
    ["do not ", "don't ", "don\u{2019}t ", "never "].iter().any(|words| lower.starts_with(words))
}

/// Whether a text says that something takes the night.
pub(super) fn says_overnight(text: &str) -> bool {
    let lower = text.to_lowercase();
    lower.contains("overnight") || lower.contains("over night")
}
